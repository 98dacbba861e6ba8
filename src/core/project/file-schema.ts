import * as z from 'zod/mini';
import {
  hasTiers,
  isTyped,
  type Param,
  type RoofDefinition,
  type RoofParam,
  type TypedParam,
} from '../roofs/definition.ts';
import { formatPitch, PITCH_FORMS, rulers } from '../units/units.ts';
import { countLimits, defaults } from './limits.ts';
import { layoutSchema, pageSchema, positionSchema, stockSchema } from './paper-schema.ts';
import { planSchemas, sidePitchesSchema } from './plan-schema.ts';
import {
  describe,
  describeUse,
  group,
  idSchema,
  listOf,
  optional,
  optionalWhole,
  optionalWords,
  type Schema,
  textSchema,
  words,
} from './schema-parts.ts';
import { orList } from './sentences.ts';

/*
 * The structure of the project file: keys, types, words, whole numbers. What lengths say, their bounds and everything
 * that ties two keys together is checked when the file is resolved. The `error` of every part is the phrase that
 * completes "Allowed: …"; of a group of keys it is the list of its keys.
 */

const LENGTH_PHRASE = 'a length such as 67 (millimetres), "67mm" or "3 7/16in"';
const mmText = (mm: number): string => `${mm} mm`;

/** The schema of the project file for these kinds. */
export function buildFileSchema(kinds: readonly RoofDefinition[]): Schema {
  const lengthSchema = z.union([z.number(), z.string()], { error: LENGTH_PHRASE }).register(z.globalRegistry, {
    id: 'length',
    description: `A number is millimetres; a text carries its unit: 3 7/16in, 3 7/16", 3.4375in, 1' 2 1/2", 67mm, 6.7cm.`,
  });
  const pitchSchema = z
    .union([z.number(), z.string()], { error: `a pitch such as ${PITCH_FORMS}` })
    .register(z.globalRegistry, {
      id: 'pitch',
      description: 'A number is degrees; a text is an angle as "35deg" or rise over run as "8/12".',
    });
  const length = (description: string): Schema => optional(lengthSchema, description);

  const plan = planSchemas(lengthSchema);

  const bodyPlan = {
    width: length('Rectangle: from left to right (west to east).'),
    depth: length('Rectangle: from front to back (south to north).'),
    sides: optionalWhole(countLimits.bodySides, 'Regular polygon: number of sides; one of them faces south.'),
    side: length('Regular polygon: length of one side.'),
    acrossCorners: length('Regular polygon: diameter of the circle through its corners.'),
    acrossFlats: length('Regular polygon of an even number of sides: from a side to the opposite one.'),
    diameter: length('Circle: from wall to wall.'),
    ...plan.footprint,
  };
  const body = group(
    {
      ...bodyPlan,
      courts: plan.courts,
      height: describeUse(lengthSchema, 'From the table to the top of the wall.'),
    },
    'What the roof sits on: a rectangle (width, depth), a regular polygon (sides and one size), a circle (diameter) or a measured plan (corners, or lengths with a diagonal or angles).',
    {
      id: 'body',
      oneOf: [
        { required: ['width', 'depth'] },
        { required: ['sides'] },
        { required: ['diameter'] },
        { required: ['corners'] },
        { required: ['lengths'] },
      ],
    },
  );

  const neighbour = group(
    {
      side: textSchema("The body's wall that it stands beside: south, east, south-east …; round bodies have eight."),
      gap: describeUse(lengthSchema, 'From the wall of the body to the wall of the neighbour.'),
      height: describeUse(lengthSchema, 'From the table to the top of the neighbour.'),
    },
    'A wall that the roof must not run into: parallel to one of the body, as long as need be.',
    { id: 'neighbour' },
  );

  const stockIds = describe(
    z.union([z.string(), z.array(z.string()).check(z.minLength(1))], {
      error: 'the id of a stock, or a list of such ids in order of preference',
    }),
    'The id of a stock, or several in order of preference.',
  );
  const thickness = optionalWords(
    ['ignore', 'allow'],
    'ignore: paper under 0.4 mm counts as having no thickness. ignore unless said otherwise.',
  );
  const seat = group(
    {
      fits: optionalWords(
        ['inside', 'outside'],
        'Whether it drops inside the walls or over them; inside unless said otherwise.',
      ),
      walls: length('Inside: thickness of the walls of the body.'),
      inside: optional(
        group(bodyPlan, 'The plan of the inside of the walls, given like that of a body.', { id: 'inside' }),
        'Inside, in place of walls: the plan of their inside.',
      ),
      play: length(`Left free on each side between collar and wall; ${mmText(defaults.play)} unless said otherwise.`),
      height: length(
        `From where the collar meets the roof lowest to its foot; ${mmText(defaults.seatHeight)} unless said otherwise.`,
      ),
      plate: optional(
        z.boolean({ error: 'true or false' }),
        'true: a level plate closes the roof at its eaves and the collar stands under it; otherwise its top follows the slopes.',
      ),
      stock: stockIds,
      as: optionalWords(
        ['shell', 'board'],
        'shell: card, folded; board: each side cut separately and glued edge to edge. shell unless said otherwise.',
      ),
      edges: optionalWords(
        ['square', 'mitred', 'butted'],
        'How the edges of a seat of board are cut where its sides meet; butted unless said otherwise.',
      ),
      pieces: optionalWords(
        ['one-piece', 'per-panel'],
        'The collar as one folded strip, or a piece for each of its sides. one-piece unless said otherwise.',
      ),
      thickness,
    },
    'A collar under the roof that drops into the body or over it.',
    { id: 'seat' },
  );

  const overhang = describe(
    z.union(
      [
        z.number(),
        z.string(),
        group(
          {
            eave: describeUse(lengthSchema, 'At the eaves.'),
            verge: length('At gable ends; as at the eaves unless said otherwise.'),
          },
          'Eaves and gable ends told apart.',
        ),
      ],
      { error: `${LENGTH_PHRASE}, or { "eave": …, "verge": … }` },
    ),
    'How far the eave stands out from the walls of the body, in plan. The eave outline follows from it.',
  );

  const seamChoice = group(
    {
      join: words(
        ['fold', 'flap', 'tape', 'strip'],
        'fold: the edge stays joined; flap, tape, strip: it is cut and joined so.',
      ),
      on: optional(textSchema('The id of a panel.'), 'The panel that carries the flap; found by flaps.on unless said.'),
    },
    'How one edge is joined.',
    { id: 'seam-choice' },
  );

  const layer = group(
    {
      as: words(
        ['board', 'shell', 'cover'],
        'board: a core of thick board, each face cut separately; shell: card that is folded and stands by itself; cover: paper glued to what is there.',
      ),
      stock: stockIds,
      pieces: optionalWords(
        ['one-piece', 'per-panel', 'fewest'],
        "All panels in one piece, one piece for each eave edge, or as few pieces as fit the layer's stock. A shell is one-piece and a cover per-panel unless said otherwise.",
      ),
      edges: optionalWords(
        ['square', 'mitred', 'butted'],
        'How the edges of board are cut where panels meet; only with board. square unless said otherwise.',
      ),
      flaps: optional(
        group(
          {
            width: length('6 mm, with inches 1/4 in, unless said otherwise.'),
            on: optionalWords(
              ['alternate', 'one-side', 'none'],
              'alternate: as many panels as possible carry none; one-side: every seam on the panel that comes first going round; none: no seam has a flap. alternate unless said otherwise.',
            ),
            clearance: length(
              `Kept free of other edges and flaps; ${mmText(defaults.clearance)} unless said otherwise.`,
            ),
            least: length(`Narrower flaps are not cut; ${mmText(defaults.leastFlap)} unless said otherwise.`),
            instead: optionalWords(
              ['tape', 'strip'],
              'What joins a seam that has no flap: tape, or a strip of its own, folded along its middle and glued under both panels. tape unless said otherwise.',
            ),
          },
          'The strips that glue the seams.',
        ),
        'The strips that glue the seams.',
      ),
      seams: optional(
        z.record(z.string(), seamChoice, {
          error: 'a group such as { "hip-south-east": { "join": "fold" } }',
        }),
        'Edges joined by hand, by their ids.',
      ),
      hem: length('Width of a strip turned under at every free eave, and at the foot of a fascia; none unless said.'),
      thickness,
    },
    'A set of panels in one material.',
    { id: 'layer' },
  );

  const shapes = new Map(
    kinds
      .filter((kind) => !hasTiers(kind))
      .map((kind) => [kind.id, shapeSchema(kind, lengthSchema, pitchSchema)] as const),
  );
  /** A roof within a roof. */
  const tier = (param: RoofParam): Schema => {
    const [one, ...rest] = [...shapes].map(([id, shape]) =>
      group(
        {
          kind: z.literal(id),
          shape: describeUse(shape, 'Its parameters.'),
          ...(param.on === 'wall'
            ? { overhang: optional(overhang, 'Over the wall, instead of the eave outline in the shape.') }
            : {}),
        },
        param.help,
      ),
    );
    const phrase = `a roof { "kind": …, "shape": … } of the kind ${orList([...shapes.keys()].map((id) => `"${id}"`))}`;
    return describe(
      z.discriminatedUnion('kind', [one, ...rest] as unknown as [z.ZodMiniObject], { error: phrase }),
      param.help,
    );
  };
  const tiered = (kind: RoofDefinition): Schema =>
    group(
      Object.fromEntries(
        kind.params.flatMap((param): (readonly [string, Schema])[] => {
          if (param.quantity === 'roof') return [[param.key, tier(param)]];
          return param.quantity === 'wall' ? [[param.key, describeUse(body, param.help)]] : [];
        }),
      ),
      `The parts of: ${kind.title}.`,
    );

  const [first, ...others] = kinds.map((kind) =>
    group(
      {
        id: idSchema('What the sheets and the report call it.'),
        title: optional(textSchema('Its name.'), 'What the maker calls it; the id unless said otherwise.'),
        copies: optionalWhole(countLimits.copies, 'How many are made; 1 unless said otherwise.'),
        kind: z.literal(kind.id),
        shape: describeUse(shapes.get(kind.id) ?? tiered(kind), `Eave outline and height of: ${kind.title}.`),
        body: optional(body, 'What the roof sits on.'),
        overhang: optional(overhang, 'Instead of the eave outline in the shape; needs a body.'),
        fascia: length('Height of an upright strip that hangs down from every free eave; none unless said.'),
        seat: optional(seat, 'A collar that drops into the body or over it; none unless said.'),
        neighbours: optional(listOf(neighbour, 'What stands beside the body.'), 'What stands beside the body.'),
        layers: listOf(layer, 'From the inside out.'),
      },
      kind.summary,
    ),
  );
  const roof = z.discriminatedUnion('kind', [first, ...others] as unknown as [z.ZodMiniObject], {
    error: orList(kinds.map((kind) => `"${kind.id}"`)),
  });

  return group(
    {
      $schema: optional(textSchema('Address of this schema.'), 'For editors; not read.'),
      format: z.literal('spirewright-project'),
      version: z.literal(1),
      title: textSchema('What the project is called.'),
      units: words(['in', 'mm'], 'What lengths are shown in.'),
      ruler: optionalWords(rulers, 'The smallest mark used to set out; 1/16in with inches, 1mm with millimetres.'),
      scale: optional(
        z.union([z.number(), z.string()], { error: 'a scale such as "1:87" or 0.5' }),
        'Model size over the size that is typed. Lengths of shape, body, overhang, fascia and neighbours are multiplied by it; paper, flaps and pages are not.',
      ),
      seed: optionalWhole(countLimits.seed, `Same file and seed, same layout; ${defaults.seed} unless said otherwise.`),
      page: optional(pageSchema(lengthSchema), 'The pages that are printed.'),
      stock: listOf(stockSchema(lengthSchema), 'The papers the maker owns.'),
      roofs: listOf(roof, 'The roofs.'),
      layout: optional(layoutSchema, 'How the pieces are laid on the sheets.'),
      positions: optional(
        z.array(positionSchema(lengthSchema), { error: 'a list in [ ]' }),
        'Where pieces lie; the program lays those that are not listed.',
      ),
    },
    'A Spirewright project: roofs, what they sit on and the paper they are cut from.',
  );
}

function shapeSchema(kind: RoofDefinition, length: Schema, pitch: Schema): Schema {
  const keys = kind.params.flatMap((param) => Object.entries(paramSchemas(param, length, pitch)));
  const heights = kind.params.filter((param) => param.oneOf === 'height').map((param) => ({ required: [param.key] }));
  const oneHeight = heights.length > 0 ? { oneOf: heights } : {};
  return group(Object.fromEntries(keys), `Eave outline and height of: ${kind.title}.`, {
    ...oneHeight,
    id: `shape-${kind.id}`,
  });
}

const leftOutText = (param: Param): string => (param.optional ? ' May be left out.' : '');

/** The keys of the file that say a parameter. */
function paramSchemas(param: Param, length: Schema, pitch: Schema): Readonly<Record<string, Schema>> {
  if (param.quantity === 'footprint') return planSchemas(length).footprint;
  if (param.quantity === 'courts') return { [param.key]: planSchemas(length).courts };
  if (param.quantity === 'side-pitches') return { [param.key]: sidePitchesSchema(param.help) };
  return isTyped(param) ? { [param.key]: paramSchema(param, length, pitch) } : {};
}

function paramSchema(param: TypedParam, length: Schema, pitch: Schema): Schema {
  switch (param.quantity) {
    case 'length':
      return optional(length, `${param.help} From ${mmText(param.min)} to ${mmText(param.max)}.${leftOutText(param)}`);
    case 'pitch':
      return optional(
        pitch,
        `${param.help} From ${formatPitch(param.min)} to ${formatPitch(param.max)}.${leftOutText(param)}`,
      );
    case 'count':
      return optionalWhole(
        param,
        param.default === undefined
          ? `${param.help}${leftOutText(param)}`
          : `${param.help} ${param.default} unless said otherwise.`,
      );
    case 'choice':
      return optionalWords(
        param.choices.map((choice) => choice.value),
        `${param.help} ${param.default} unless said otherwise.`,
      );
  }
}
