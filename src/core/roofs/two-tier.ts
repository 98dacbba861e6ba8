import { fail, type Issue, type Result } from '../issue.ts';
import type { Body, ShapeValues, TierSpec } from '../project/project.ts';
import type { Solid } from '../solid/solid.ts';
import { CUT_MM } from '../tolerance.ts';
import { stackTiers } from './construct/stack-tiers.ts';
import { defineRoof, type FindKind } from './definition.ts';

/** A roof, a short wall standing on it, and a smaller roof on the wall. */
export const twoTier = defineRoof({
  id: 'two-tier',
  title: 'Two-tier',
  summary: 'A roof of any kind, a short wall standing on it, and a smaller roof of any kind on the wall.',
  alsoCalled: ['stacked', 'tiered', 'lantern', 'cupola', 'clerestory', 'pagoda'],
  params: [
    {
      key: 'lower',
      label: 'Lower roof',
      help: 'The roof that the wall stands on; it stays whole under it.',
      quantity: 'roof',
      on: 'body',
    },
    {
      key: 'wall',
      label: 'Wall',
      help: 'Its plan, and its height over the highest point at which it stands on the lower roof.',
      quantity: 'wall',
    },
    {
      key: 'upper',
      label: 'Upper roof',
      help: 'The roof on the wall; an overhang over the wall may give its outline.',
      quantity: 'roof',
      on: 'wall',
    },
  ],
  // The verge is that of the lower roof.
  hasVerge: true,
  outlineFromBody: (body, overhang, { lower }, find = none) => {
    const definition = lower && find(lower.kind);
    return lower && definition ? definition.outlineFromBody(body, overhang, lower.shape, find) : fail(unknownTier);
  },
  build: (values, body, find = none) => {
    const { lower, wall, upper, ...outline } = values;
    if (!lower || !wall || !upper) return fail(unknownTier);
    if (wall.height < CUT_MM) return fail(wallTooLow(wall.height));
    if (wall.courts && wall.courts.length > 0) return fail(wallWithCourts);
    // The outline that follows from a body and an overhang is that of the lower roof.
    const under = buildTier('lower', { ...lower, shape: { ...(outline as ShapeValues), ...lower.shape } }, body, find);
    if (!under.ok) return under;
    const over = buildTier('upper', upper, wall, find);
    if (!over.ok) return over;
    const stacked = stackTiers({ lower: under.value, wall, upper: over.value });
    return { ...stacked, issues: [...under.issues, ...over.issues, ...stacked.issues] };
  },
  examples: [
    {
      title: 'Harbour lantern',
      shape: {
        lower: { kind: 'hip', shape: { width: 100, depth: 100, pitch: 45 } },
        wall: { width: 50, depth: 50, height: 15 },
        upper: { kind: 'pyramid', shape: { pitch: 50 }, overhang: 4 },
      },
    },
    {
      title: 'Malt kiln',
      shape: {
        lower: { kind: 'gable', shape: { width: 110, depth: 76, pitch: 42 } },
        wall: { width: 34, depth: 26, height: 10 },
        upper: { kind: 'gable', shape: { pitch: 30 }, overhang: 3 },
      },
    },
    {
      title: 'Watch lantern',
      shape: {
        lower: { kind: 'cone', shape: { diameter: 92, pitch: 36 } },
        wall: { diameter: 32, height: 14 },
        upper: { kind: 'cone', shape: { pitch: 48 }, overhang: 4 },
      },
    },
  ],
});

const none: FindKind = () => undefined;

/** One of the two roofs by itself, over the body or the wall that it stands on; its issues speak of its own place. */
function buildTier(tier: 'lower' | 'upper', spec: TierSpec, body: Body | null, find: FindKind): Result<Solid> {
  const { kind, shape, overhang } = spec;
  const definition = find(kind);
  if (!definition) return fail(unknownTier);
  const outline = overhang && body ? definition.outlineFromBody(body, overhang, shape, find) : null;
  if (outline && !outline.ok) return placed(outline, tier);
  return placed(definition.build({ ...outline?.value, ...shape }, body, find), tier);
}

function placed<T>(result: Result<T>, tier: 'lower' | 'upper'): Result<T> {
  const issues = result.issues.map((issue) => ({
    ...issue,
    // What stands under the upper roof is the wall.
    path: issue.path.startsWith('shape') ? `shape.${tier}.${issue.path}` : tier === 'upper' ? 'shape.wall' : issue.path,
  }));
  return { ...result, issues };
}

/** Shapes are checked against the kinds before they are built. */
const unknownTier: Issue = {
  level: 'error',
  code: 'tier-unknown',
  path: 'shape',
  message: 'A two-tier roof needs a lower roof, a wall and an upper roof of kinds that are known.',
};

const wallTooLow = (found: number): Issue => ({
  level: 'error',
  code: 'wall-too-low',
  path: 'shape.wall.height',
  numbers: { found, least: CUT_MM },
  message: 'A wall {found} high is too low to be cut.',
  remedy: 'Make it {least} high or more.',
});

const wallWithCourts: Issue = {
  level: 'error',
  code: 'wall-with-courts',
  path: 'shape.wall.courts',
  message: 'The wall of a two-tier roof has no courts.',
  remedy: 'Leave out courts.',
};
