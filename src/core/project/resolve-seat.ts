import { standOut } from '../footprint/offset.ts';
import { length2, scale2, type Vec2 } from '../geometry/vector.ts';
import { type Intake, readLength } from './intake.ts';
import { defaults, lengthLimits } from './limits.ts';
import { formatPath, isRecord, type PathPart } from './path.ts';
import type { Body, LayerSpec, SeatSpec, Stock } from './project.ts';
import { resolveBody } from './resolve-body.ts';
import { resolveLayer } from './resolve-layer.ts';
import { projectIssue } from './sentences.ts';

/** The seat at model size; null where the file gives none, or, with issues reported, where it cannot be read. */
export function resolveSeat(
  intake: Intake,
  found: unknown,
  path: readonly PathPart[],
  {
    body,
    stock,
    innermost,
  }: { readonly body: Body | null; readonly stock: readonly Stock[]; readonly innermost: LayerSpec | undefined },
): SeatSpec | null {
  if (!isRecord(found)) return null;
  const fits = found['fits'] === 'outside' ? 'outside' : 'inside';
  const length = (key: string, limits: keyof typeof lengthLimits, label: string, otherwise: number): number =>
    found[key] === undefined
      ? otherwise
      : readLength(intake, found[key], [...path, key], { ...lengthLimits[limits], label });
  const as = found['as'] === 'board' ? 'board' : 'shell';
  const layer = resolveLayer(
    intake,
    {
      as,
      stock: found['stock'],
      // Round a ring of butted boards each laps the next.
      ...(as === 'board' ? { edges: 'butted' } : {}),
      ...Object.fromEntries(
        ['thickness', 'pieces', 'edges'].flatMap((key) => (found[key] === undefined ? [] : [[key, found[key]]])),
      ),
    },
    path,
    stock,
  );
  const plan = touchedPlan(intake, found, path, fits, body);
  return (
    plan && {
      fits,
      plan: plan.outline,
      isRound: plan.isRound === true,
      play: length('play', 'play', 'The play of the seat', defaults.play),
      height: length('height', 'seatHeight', 'The height of the seat', defaults.seatHeight),
      plate: found['plate'] === true,
      layer: { ...layer, flaps: innermost?.flaps ?? layer.flaps },
    }
  );
}

/** The walls that the seat touches: the outside of the body, or its inside by the thickness of the walls or by its own plan. */
function touchedPlan(
  intake: Intake,
  found: Readonly<Record<string, unknown>>,
  path: readonly PathPart[],
  fits: SeatSpec['fits'],
  body: Body | null,
): Pick<Body, 'outline' | 'isRound'> | null {
  const given = ['walls', 'inside'].filter((key) => found[key] !== undefined);
  const report = (code: 'seat-without-body' | 'seat-form', facts: { found?: string } = {}): null => {
    intake.report(projectIssue(code, formatPath(path), facts));
    return null;
  };
  if (fits === 'outside' ? given.length > 0 : given.length !== 1) {
    return report('seat-form', { found: given.join(' and ') || 'neither' });
  }
  if (given[0] === 'inside') {
    const inside = found['inside'];
    return isRecord(inside) ? resolveBody(intake, { ...inside, height: 0 }, [...path, 'inside']) : null;
  }
  if (!body) return report('seat-without-body');
  if (fits === 'outside') return body;
  const walls = readLength(intake, found['walls'], [...path, 'walls'], {
    ...lengthLimits.walls,
    label: 'The thickness of the walls',
    isScaled: true,
  });
  const inner = body.isRound ? shrunk(body.outline, walls) : movedIn(body.outline, walls);
  if (!inner) {
    intake.report(projectIssue('walls-too-thick', formatPath([...path, 'walls'])));
    return null;
  }
  return body.isRound ? { outline: inner, isRound: true } : { outline: inner };
}

function shrunk(circle: readonly Vec2[], by: number): readonly Vec2[] | null {
  const radius = length2(circle[0] as Vec2);
  return radius > by ? circle.map((p) => scale2(p, (radius - by) / radius)) : null;
}

function movedIn(corners: readonly Vec2[], by: number): readonly Vec2[] | null {
  const moved = standOut(
    { corners },
    corners.map(() => -by),
  );
  return moved.ok ? moved.value.corners : null;
}
