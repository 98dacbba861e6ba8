import { footprintKeys } from '../footprint/footprint.ts';
import { stepsFor } from '../geometry/arc.ts';
import { boxOf } from '../geometry/polygon.ts';
import { distance2, type Vec2 } from '../geometry/vector.ts';
import type { RoofDefinition } from '../roofs/definition.ts';
import { isSameLength } from '../tolerance.ts';
import { type Intake, readLength } from './intake.ts';
import { countLimits, lengthLimits } from './limits.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type { Body, Overhang } from './project.ts';
import { footprintKeysIn, isFootprintForm, readCourtsIn, readFootprint } from './read-footprint.ts';
import { andList, projectIssue } from './sentences.ts';

const POLYGON_SIZES = ['side', 'acrossCorners', 'acrossFlats'] as const;
const SIZES = ['width', 'depth', 'sides', ...POLYGON_SIZES, 'diameter', ...footprintKeys] as const;

/** The body at model size; null, with issues reported, where it cannot be read. */
export function resolveBody(intake: Intake, found: unknown, path: readonly PathPart[]): Body | null {
  if (!isRecord(found)) return null;
  const height = readLength(intake, found['height'], [...path, 'height'], {
    ...lengthLimits.bodyHeight,
    label: 'The height of the body',
    isScaled: true,
  });
  const size = (key: string, label: string): number =>
    readLength(intake, found[key], [...path, key], { ...lengthLimits.bodySide, label, isScaled: true });
  const given = SIZES.filter((key) => found[key] !== undefined);

  if (given.join() === 'width,depth') {
    const [width, depth] = [size('width', 'The width of the body'), size('depth', 'The depth of the body')];
    const outline = rectangle(width, depth);
    return withCourts({ outline, height, rectangle: { width, depth } }, found, path, intake);
  }
  if (given.join() === 'diameter') {
    const radius = size('diameter', 'The diameter of the body') / 2;
    const outline = regularPolygon(2 * stepsFor(radius, Math.PI), radius);
    return { outline, height, rectangle: null, isRound: true };
  }
  if (given.every((key) => footprintKeysIn(found).includes(key)) && isFootprintForm(given)) {
    const plan = readFootprint(intake, found, path);
    if (!plan) return null;
    const { corners: outline, courts } = plan;
    return { outline, height, rectangle: rectangleIn(outline), ...(courts ? { courts } : {}) };
  }

  const [, key] = given;
  if (given.length !== 2 || given[0] !== 'sides' || key === undefined) {
    intake.report(projectIssue('body-form', formatPath(path), { found: andList(given) || 'none of these' }));
    return null;
  }
  const sides = found['sides'];
  const { min, max } = countLimits.bodySides;
  if (typeof sides !== 'number' || !Number.isInteger(sides) || sides < min || sides > max) return null;
  if (key === 'acrossFlats' && sides % 2 === 1) {
    intake.report(projectIssue('odd-across-flats', formatPath([...path, key]), { found: String(sides) }));
    return null;
  }
  const length = size(key, 'The size of the body');
  const outline = regularPolygon(sides, outerRadius(key, length, sides));
  return withCourts({ outline, height, rectangle: null }, found, path, intake);
}

/** The body with the courts that its group gives, measured from its first corner. */
function withCourts(
  body: Body,
  found: Readonly<Record<string, unknown>>,
  path: readonly PathPart[],
  intake: Intake,
): Body | null {
  if (found['courts'] === undefined) return body;
  const courts = readCourtsIn(intake, body.outline, found['courts'], path);
  return courts && { ...body, courts };
}

/** Sizes of an outline that is a rectangle, its sides along x and y; otherwise null. */
function rectangleIn(outline: readonly Vec2[]): Body['rectangle'] {
  const { minX, minY, maxX, maxY } = boxOf(outline);
  const [width, depth] = [maxX - minX, maxY - minY];
  const corners = rectangle(width, depth);
  const isOne = outline.length === 4 && outline.every((p, i) => isSameLength(distance2(p, corners[i] as Vec2), 0));
  return isOne ? { width, depth } : null;
}

const rectangle = (width: number, depth: number): readonly Vec2[] => [
  [-width / 2, -depth / 2],
  [width / 2, -depth / 2],
  [width / 2, depth / 2],
  [-width / 2, depth / 2],
];

/** Radius of the circle through the corners, mm. Across corners is that circle's diameter, for odd numbers too. */
function outerRadius(key: string, length: number, sides: number): number {
  if (key === 'side') return length / (2 * Math.sin(Math.PI / sides));
  return key === 'acrossFlats' ? length / (2 * Math.cos(Math.PI / sides)) : length / 2;
}

/** Counter-clockwise, centred on the origin; its first side faces south. */
const regularPolygon = (sides: number, radius: number): readonly Vec2[] =>
  Array.from({ length: sides }, (_, i): Vec2 => {
    const angle = -Math.PI / 2 + ((2 * i - 1) * Math.PI) / sides;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

/** The overhang at model size; null, with issues reported, where it cannot be read. */
export function resolveOverhang(
  intake: Intake,
  found: unknown,
  path: readonly PathPart[],
  definition: RoofDefinition | undefined,
): Overhang | null {
  if (found === undefined) return null;
  const read = (value: unknown, at: readonly PathPart[]): number =>
    readLength(intake, value, at, { ...lengthLimits.overhang, label: 'The overhang', isScaled: true });
  if (!isRecord(found)) {
    const eave = read(found, path);
    return { eave, verge: eave };
  }
  const eave = read(found['eave'], [...path, 'eave']);
  if (found['verge'] !== undefined && definition && !definition.hasVerge) {
    intake.report(projectIssue('no-verge', formatPath([...path, 'verge']), { label: definition.title }));
  }
  return { eave, verge: found['verge'] === undefined ? eave : read(found['verge'], [...path, 'verge']) };
}
