/** The words that a guide may use, each in one short sentence. */
const terms: readonly (readonly [term: string, meaning: string])[] = [
  ['abutment', 'where a wall ends under a slope or stands on one'],
  ['body', 'the tower or house that the roof sits on'],
  ['board', 'stiff card or wood, cut panel by panel and glued edge to edge'],
  ['break', 'a line where one side of the roof changes its pitch'],
  ['collar', 'the ring under a roof that drops into its body or over it'],
  ['cover', 'decorative paper glued to what is there'],
  ['dry fit', 'putting pieces together without glue, to see that they meet'],
  ['eave', 'the low edge of a slope'],
  ['fascia', 'an upright strip that hangs from an eave'],
  ['flap', 'a strip on the edge of a panel that is glued under its neighbour'],
  ['hem', 'a strip turned under at the eave'],
  ['hip', 'a slanted edge where two slopes meet and point outwards'],
  ['mountain fold', 'a fold away from you, seen from the printed side'],
  ['panel', 'one flat face of the roof'],
  ['peak', 'the top point'],
  ['ridge', 'the level edge at the top'],
  ['score', 'to press or half cut a line, so that it folds there and nowhere else'],
  ['seam', 'two edges that are joined; both carry the same letter'],
  ['shell', 'card that is folded and stands by itself'],
  ['strip', 'a narrow piece that joins two panels from the inside'],
  ['valley', 'a slanted edge where two slopes meet and point inwards'],
  ['valley fold', 'a fold towards you, seen from the printed side'],
  ['verge', 'the slanted edge of a slope at a gable'],
];

/** The words that occur in a text, with their meanings. */
export const glossaryOf = (text: string): readonly (readonly [term: string, meaning: string])[] =>
  terms.filter(([term]) => new RegExp(`\\b${term}s?\\b`, 'i').test(text));
