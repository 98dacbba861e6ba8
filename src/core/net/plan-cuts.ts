import type { Issue } from '../issue.ts';
import type { PiecesMode } from '../project/project.ts';
import { isAtMost } from '../tolerance.ts';
import type { HandCuts } from './by-hand.ts';
import type { SearchOptions } from './search-cuts.ts';
import type { FlatSolid, Unfolded } from './unfold.ts';
import { unfoldFaces } from './unfold-faces.ts';

/** What a sheet has room for: its size less its margins, and whether a piece may lie on its side on it. */
export interface SheetRoom {
  readonly width: number;
  readonly height: number;
  readonly mayLie: boolean;
}

export const fitsOn = (sheets: readonly SheetRoom[], width: number, height: number): boolean =>
  sheets.some(
    (sheet) =>
      (isAtMost(width, sheet.width) && isAtMost(height, sheet.height)) ||
      (sheet.mayLie && isAtMost(height, sheet.width) && isAtMost(width, sheet.height)),
  );

export interface CutPlan {
  readonly mode: PiecesMode;
  readonly byHand: HandCuts;
  /** Sheets that `fewest` has to fit. */
  readonly sheets: readonly SheetRoom[];
  readonly search: Partial<Pick<SearchOptions, 'rounds' | 'seed' | 'neck'>>;
  /** How far a flap or a hem on a face along an edge may reach, mm; missing: not reckoned with. */
  readonly reachAt?: (edge: number, face: number) => number;
  /** Faces that are cut; missing: all. */
  readonly only?: ReadonlySet<number> | undefined;
}

/** Bare pieces of a whole solid. Issues: groups that had to be split. */
export function planCuts(
  flatSolid: FlatSolid,
  { mode, byHand, sheets, search, reachAt, only }: CutPlan,
): { readonly bare: readonly Unfolded[]; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const cut = cutEdges(flatSolid, mode, byHand);
  const fits = (width: number, height: number): boolean => fitsOn(sheets, width, height);
  const isLimited = mode === 'fewest' && sheets.length > 0;
  const bare = groupFaces(flatSolid, mode, cut, only).flatMap((faces) => {
    const within = new Set(faces);
    const grown = unfoldFaces(flatSolid, faces, {
      ...search,
      cut,
      clusters: byHand.clusters.filter(({ faces: [first] }) => within.has(first as number)),
      ...(isLimited ? { fits } : {}),
      ...(isLimited && reachAt ? { reachAt } : {}),
    });
    if (grown.length > 1)
      issues.push(isLimited ? netInSheets(faces.length, grown.length) : netSplit(faces.length, grown.length));
    return grown;
  });
  return { bare, issues };
}

/** Edges at which nothing may stay joined: seams by hand, and between the sides of the roof where each is a piece, but for folds by hand. */
function cutEdges({ solid }: FlatSolid, mode: PiecesMode, { folds, seams }: HandCuts): ReadonlySet<number> {
  const cut = new Set(seams.keys());
  if (mode !== 'per-panel') return cut;
  solid.edges.forEach(({ faces: [a, b] }, e) => {
    if (b === undefined || folds.has(e)) return;
    if (solid.faces[a as number]?.side !== solid.faces[b]?.side) cut.add(e);
  });
  return cut;
}

/** Faces that hang together by edges that may stay joined; in order of their sides, then of their first faces. */
function groupFaces(
  { solid, links }: FlatSolid,
  mode: PiecesMode,
  cut: ReadonlySet<number>,
  only?: ReadonlySet<number>,
): readonly (readonly number[])[] {
  const left = new Set([...solid.faces.keys()].filter((f) => only?.has(f) ?? true));
  const groups: number[][] = [];
  for (const first of [...left]) {
    if (!left.delete(first)) continue;
    const group = [first];
    for (const face of group) {
      for (const { to, edge } of links[face] ?? []) if (!cut.has(edge) && left.delete(to)) group.push(to);
    }
    groups.push(group.sort((a, b) => a - b));
  }
  if (mode !== 'per-panel') return groups;
  const sides = [...new Set(solid.faces.map(({ side }) => side))];
  const rank = new Map(sides.map((side, i) => [side, i]));
  const rankOf = ([first]: readonly number[]): number => rank.get(solid.faces[first as number]?.side ?? '') ?? 0;
  return groups.sort((a, b) => rankOf(a) - rankOf(b) || (a[0] as number) - (b[0] as number));
}

const netSplit = (panels: number, pieces: number): Issue => ({
  level: 'note',
  code: 'net-split',
  path: '',
  numbers: { panelsCount: panels, piecesCount: pieces },
  message: 'In one piece the {panelsCount} panels would cover each other: they are cut in {piecesCount} pieces.',
});

const netInSheets = (panels: number, pieces: number): Issue => ({
  level: 'note',
  code: 'net-in-sheets',
  path: '',
  numbers: { panelsCount: panels, piecesCount: pieces },
  message:
    'In fewer pieces the {panelsCount} panels would be larger than a sheet or cover each other: they are cut in {piecesCount}.',
});
