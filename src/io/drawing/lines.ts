/**
 * The one vocabulary of drawn lines, used by every printed or cut sheet. One ink; lines differ by width and dash.
 *
 * Widths: wide to narrow as 2 to 1, 0.5 and 0.25 mm (ISO 128). Folds: dashes for a valley, dash-dot for a mountain, as
 * in the published diagram convention of origami (Yoshizawa, Randlett); there too, dots stand for what lies behind the
 * paper. All as seen from the outside, the printed side: a mirrored drawing swaps the two folds.
 */
export type LineRole = 'cut' | 'fold-mountain' | 'fold-valley' | 'ruling' | 'glue' | 'trim' | 'rule';

export interface LineStyle {
  /** mm */
  readonly width: number;
  /** Dash and gap lengths in turn, mm; empty: continuous. Ends are cut square. */
  readonly dash: readonly number[];
  /** What the legend says; null for lines that explain themselves (bars, arrows, frames). */
  readonly legend: string | null;
}

const WIDE = 0.5;
const NARROW = 0.25;

export const lineStyles: Readonly<Record<LineRole, LineStyle>> = {
  cut: { width: WIDE, dash: [], legend: 'cut' },
  'fold-mountain': { width: NARROW, dash: [4, 0.9, 0.5, 0.9], legend: 'mountain fold: away from you' },
  'fold-valley': { width: NARROW, dash: [2.4, 1.2], legend: 'valley fold: towards you' },
  // Dots far apart: lighter than a fold, since nothing is scored.
  ruling: { width: NARROW, dash: [0.3, 2.7], legend: 'roll about this line; do not score' },
  glue: { width: NARROW, dash: [0.3, 0.9], legend: 'glue line, on the inside' },
  // Long dash, two dots: ISO 128's line for adjacent parts. Twice the length of a mountain fold's dash.
  trim: {
    width: NARROW,
    dash: [8, 0.9, 0.5, 0.9, 0.5, 0.9],
    legend: 'where tiles meet: trim one, lay it on the other',
  },
  rule: { width: NARROW, dash: [], legend: null },
};

/** In drawing order: thin lines first, so that the cut lies on top. */
export const lineRoles: readonly LineRole[] = ['rule', 'trim', 'ruling', 'glue', 'fold-valley', 'fold-mountain', 'cut'];
