import type { Issue, IssueLevel } from '../issue.ts';

/** What a sentence may speak of; each code uses its own. Texts are ready to read, in the project's units. */
export interface Facts {
  readonly found?: string;
  readonly allowed?: string;
  readonly suggestion?: string | undefined;
  readonly label?: string;
  readonly other?: string;
}

interface Sentence {
  readonly level?: IssueLevel;
  readonly message: (facts: Facts) => string;
  readonly remedy?: (facts: Facts) => string | undefined;
}

const meant = ({ suggestion }: Facts): string | undefined => suggestion && `Did you mean ${suggestion}?`;

/** Every sentence about a project file that is not about the wording of one length, pitch or scale. */
const sentences = {
  'not-json': {
    message: ({ found }) => `This is not a JSON text: it cannot be read${found}.`,
    remedy: () => 'Look there for a missing comma, quote or bracket; an inch sign inside a text is written \\".',
  },
  'repeated-key': {
    message: () => 'This key is given twice in one group, and only one of them would count.',
    remedy: () => 'Keep one of them.',
  },
  'not-a-project': {
    message: ({ found }) => `This is not a Spirewright project: its format is ${found}, not "spirewright-project".`,
  },
  'version-unknown': {
    message: ({ found, allowed }) => `Found version ${found}; versions ${allowed} can be read.`,
  },
  'version-newer': {
    message: ({ found, allowed }) => `Found version ${found}, which is newer than this program: it reads ${allowed}.`,
    remedy: () => 'Open it with a newer Spirewright.',
  },
  migrated: {
    level: 'note',
    message: ({ found, allowed, label }) => `Read as version ${allowed}; the file is version ${found} (${label}).`,
    remedy: () => 'Save it to keep it in the new form.',
  },
  'unknown-key': {
    message: ({ found, allowed }) => `The key ${found} is not known here. Allowed: ${allowed}.`,
    remedy: meant,
  },
  'missing-key': {
    message: ({ label, allowed }) => `${label} is missing. Allowed: ${allowed}.`,
  },
  'wrong-type': {
    message: ({ found, allowed }) => `Found ${found}. Allowed: ${allowed}.`,
    remedy: meant,
  },
  'out-of-bounds': {
    message: ({ found, label, other, allowed }) => `${label} is ${found}${other ?? ''}. Allowed: ${allowed}.`,
  },
  'duplicate-id': {
    message: ({ found, other }) => `The id ${found} is already taken by ${other}.`,
    remedy: () => 'Give each its own id.',
  },
  'unknown-stock': {
    message: ({ found, allowed }) => `There is no stock with the id ${found}. In this file: ${allowed}.`,
    remedy: meant,
  },
  'neighbour-without-body': {
    message: () => 'Neighbours stand beside a body, and this roof has none.',
    remedy: () => 'Give the body, or leave out the neighbours.',
  },
  'unknown-wall': {
    message: ({ found, allowed }) => `The body has no wall called ${found}. Its walls: ${allowed}.`,
    remedy: meant,
  },
  'stock-twice': {
    message: ({ found }) => `The stock ${found} is named twice in one list.`,
    remedy: () => 'Name it once, in its place in the order of preference.',
  },
  'stock-no-room': {
    message: ({ found, other }) => `A margin of ${found} all round leaves nothing of a sheet of ${other}.`,
    remedy: () => 'Make the margin less than half of the shorter side.',
  },
  'outline-box': {
    message: ({ label, found, other }) => `${label} is ${found}, but its outline measures ${other} there.`,
    remedy: () => 'Leave out width and height: they follow from the outline.',
  },
  'picture-file': {
    message: ({ found }) =>
      `${found} is no picture that can be used: it is kept in the file as a data URL of PNG, JPEG or WebP, or lies beside the project.`,
    remedy: () => 'Open the picture in the bench, or give the name of a file beside the project.',
  },
  'picture-and-print': {
    message: () => 'A paper has a picture or one of the prints drawn by the program, not both.',
    remedy: () => 'Leave out picture or print.',
  },
  'page-no-room': {
    message: ({ found, other }) => `With a margin of ${found} and this overlap nothing new fits on a page of ${other}.`,
    remedy: () => 'Take a larger page, or a smaller margin or overlap.',
  },
  'none-of-group': {
    message: ({ allowed }) => `Exactly one of ${allowed} has to be given; found none.`,
    remedy: () => 'Give one of them: the others follow from it.',
  },
  'many-of-group': {
    message: ({ found, allowed }) => `Exactly one of ${allowed} has to be given; found ${found}.`,
    remedy: () => 'Keep one of them: the others follow from it.',
  },
  'outline-and-overhang': {
    message: ({ found }) => `The overhang gives the eave outline, so the shape must not give it too; found ${found}.`,
    remedy: ({ found }) => `Leave out ${found}, or leave out the overhang.`,
  },
  'outline-form': {
    message: ({ found, allowed }) => `The eave outline is given in exactly one way: ${allowed}; found ${found}.`,
    remedy: () => 'Keep one of them.',
  },
  'no-verge': {
    message: ({ label }) => `${label}: this kind of roof has no gable ends, so it has no verge to stand out.`,
    remedy: () => 'Leave out the verge, or give the overhang as one length.',
  },
  'outline-missing': {
    message: ({ label, other }) => `${label} of the eave outline is missing (${other}).`,
    remedy: () => 'Give it, or give a body and an overhang, and the outline follows from them.',
  },
  'parameter-missing': {
    message: ({ label, allowed }) => `${label} is missing. Allowed: ${allowed}.`,
  },
  'overhang-without-body': {
    message: () => 'An overhang stands out from the walls of a body, and this roof has no body.',
    remedy: () => 'Give the body, or leave out the overhang and give the eave outline in the shape.',
  },
  'body-form': {
    message: ({ found }) =>
      `A body is a rectangle (width, depth), a regular polygon (sides and one of side, acrossCorners, acrossFlats), a circle (diameter) or a measured plan (corners, or lengths with a diagonal or angles); found ${found}.`,
  },
  'odd-across-flats': {
    message: ({ found }) => `A body with ${found} sides has no size across flats: no side lies opposite another.`,
    remedy: () => 'Give the side or the size across corners, or take an even number of sides.',
  },
  'seat-form': {
    message: ({ found }) =>
      `A seat inside the walls needs exactly one of walls (their thickness) and inside (the plan of their inside), a seat over them neither; found ${found}.`,
  },
  'seat-without-body': {
    message: () => 'This seat takes its plan from the walls of a body, and this roof has no body.',
    remedy: () => 'Give the body, or the plan of its inside as "inside" of the seat.',
  },
  'walls-too-thick': {
    message: () => 'Walls as thick as this leave no inside of the body.',
    remedy: () => 'Make them thinner.',
  },
  'flap-under-least': {
    message: ({ found, other }) => `The flaps are ${found} wide, under the least usable width of ${other}.`,
    remedy: () => 'Make the flaps wider or the least width smaller, or take no flaps ("on": "none").',
  },
  'layer-order': {
    message: ({ found, other }) =>
      `A layer of ${found} lies outside a layer of ${other}. Layers are listed from the inside out: board, shell, cover.`,
    remedy: ({ found, other }) => `Put the ${found} before the ${other}.`,
  },
  'board-twice': {
    message: () => 'Two layers of board lie on each other.',
    remedy: () => 'Give one layer of board, with a stock as thick as both.',
  },
  'board-pieces': {
    message: ({ found }) =>
      `Board cannot be folded, so pieces cannot be ${found}: each face of board is a piece by itself.`,
    remedy: () => 'Leave out pieces, or take a shell.',
  },
  'board-folds': {
    message: ({ found }) => `Board is not folded and has no ${found}: its edges are glued.`,
    remedy: ({ found }) => `Leave out ${found}, or take a shell.`,
  },
  'board-thickness': {
    message: ({ found }) => `The edges of board are cut by its thickness, and the stock ${found} says none.`,
    remedy: () => 'Give the thickness of the stock.',
  },
  'edges-of-board': {
    message: ({ found }) => `Only the edges of board are cut square, mitred or butted; this layer is a ${found}.`,
    remedy: () => 'Leave out edges, or take board.',
  },
} satisfies Record<string, Sentence>;

export type ProjectIssueCode = keyof typeof sentences;

export const projectIssueCodes: readonly ProjectIssueCode[] = Object.keys(sentences) as ProjectIssueCode[];

/** The issue with its sentence. */
export function projectIssue(
  code: ProjectIssueCode,
  path: string,
  facts: Facts = {},
  numbers?: Readonly<Record<string, number>>,
): Issue {
  const sentence: Sentence = sentences[code];
  const remedy = sentence.remedy?.(facts);
  return {
    level: sentence.level ?? 'error',
    code,
    path,
    ...(numbers && { numbers }),
    message: sentence.message(facts),
    ...(remedy && { remedy }),
  };
}

/** `a`, `a or b`, `a, b or c`. */
export const orList = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;

/** `a`, `a and b`, `a, b and c`. */
export const andList = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;

const LONGEST_FOUND = 40;

/** A found value as it stands in the file, cut short. */
export function showFound(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value) ?? String(value);
  return text.length > LONGEST_FOUND ? `${text.slice(0, LONGEST_FOUND)}…` : text;
}
