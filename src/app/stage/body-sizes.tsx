import type { ReactNode } from 'react';
import { DoubleSide, MeshBasicMaterial } from 'three';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { add2, distance2, left2, lerp2, scale2, sub2, unit2 } from '../../core/geometry/vector.ts';
import type { Body } from '../../core/project/project.ts';
import { formatLength, type Units } from '../../core/units/units.ts';
import { useDisposing } from './disposing.ts';
import { emptyPart, stillGeometry } from './flat-part.ts';
import { makeLettering } from './lettering.ts';
import { bodySizes } from './measures.ts';
import { drawMeasure } from './net-measures.tsx';
import { bodyAim } from './shot.ts';
import { tones } from './tones.ts';

export interface BodySizesProps {
  readonly body: Body;
  readonly units: Units;
  readonly point: number;
  readonly family: string;
}

/** The body's sizes in chalk: along the ground at its walls, and its height on an upright beside it. */
export const BodySizes = ({ body, units, point, family }: BodySizesProps): ReactNode => {
  const write = (mm: number): string => formatLength(mm, { units });
  const plan = bodySizes(body.outline, body.rectangle, body.isRound);
  const lettering = useDisposing(() => {
    const made = makeLettering([...plan.map(({ length }) => write(length)), write(body.height)], family);
    return { ...made, dispose: () => made.texture.dispose() };
  }, [body, units, family]);
  const room = 16 * point;
  const geometries = useDisposing(() => {
    const lines = emptyPart();
    const letters = emptyPart();
    for (const { ends, length } of plan) {
      const out = scale2(left2(unit2(sub2(ends[1], ends[0]))), -room);
      const moved: [Vec2, Vec2] = [add2(ends[0], out), add2(ends[1], out)];
      drawMeasure({ lines, letters, lettering, point, z: 0.3 }, moved, lerp2(moved[0], moved[1], 0.5), write(length));
    }
    const upLines = emptyPart();
    const upLetters = emptyPart();
    const ends: [Vec2, Vec2] = [
      [0, 0],
      [0, body.height],
    ];
    drawMeasure(
      { lines: upLines, letters: upLetters, lettering, point, z: 0 },
      ends,
      [0, body.height / 2],
      write(body.height),
    );
    return [stillGeometry(lines), stillGeometry(letters), stillGeometry(upLines), stillGeometry(upLetters)] as const;
  }, [body, units, point, lettering]);
  const materials = useDisposing(() => {
    const chalk = { color: tones.chalk, transparent: true, depthWrite: false, side: DoubleSide };
    return [new MeshBasicMaterial(chalk), new MeshBasicMaterial({ ...chalk, map: lettering.texture })] as const;
  }, [lettering]);
  // The upright stands at the corner that is furthest left in the picture.
  const { azimuth } = bodyAim;
  const leftness = ([x, y]: Vec2): number => -(x * Math.cos(azimuth) + y * Math.sin(azimuth));
  const corner = body.outline.reduce((best, p) => (leftness(p) > leftness(best) ? p : best), body.outline[0] ?? [0, 0]);
  const far = Math.max(1, distance2(corner, [0, 0]));
  const foot = scale2(corner, (far + room) / far);
  return (
    <group>
      <mesh geometry={geometries[0]} material={materials[0]} renderOrder={4} />
      <mesh geometry={geometries[1]} material={materials[1]} renderOrder={4} />
      <group position={[foot[0], foot[1], 0]} rotation={[Math.PI / 2, 0, azimuth, 'ZXY']}>
        <mesh geometry={geometries[2]} material={materials[0]} renderOrder={4} />
        <mesh geometry={geometries[3]} material={materials[1]} renderOrder={4} />
      </group>
    </group>
  );
};
