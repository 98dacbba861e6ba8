import { type ReactNode, useEffect } from 'react';
import { MeshBasicMaterial } from 'three';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { add2, distance2, left2, lerp2, scale2, sub2, unit2 } from '../../core/geometry/vector.ts';
import { formatLength, type Units } from '../../core/units/units.ts';
import { useDisposing } from './disposing.ts';
import { emptyPart, type FlatPart, pushRibbon, stillGeometry } from './flat-part.ts';
import type { FoldClock } from './fold-clock.ts';
import { type Lettering, makeLettering, pushLabel, readable } from './lettering.ts';
import type { Measure } from './measures.ts';
import { ease } from './shot.ts';
import { tones } from './tones.ts';

interface Drawing {
  readonly lines: FlatPart;
  readonly letters: FlatPart;
  readonly lettering: Lettering;
  readonly point: number;
  readonly z: number;
}

/** A dimension line: slanted ticks at its ends, a gap for its figure. */
export const drawMeasure = (drawing: Drawing, ends: readonly [Vec2, Vec2], at: Vec2, text: string): void => {
  const { lines, letters, lettering, point, z } = drawing;
  const placed = { owner: 0, z };
  const [a, b] = ends;
  const length = distance2(a, b);
  if (length === 0) return;
  const along = unit2(sub2(b, a));
  const across = left2(along);
  const height = 21 * point;
  const half = (lettering.width(text) * height) / 2 + 1.5 * point;
  const stroke = 1.1 * point;
  // A figure too long for its line would lie on its neighbours; the Paper place has them all.
  if (2 * half > length * 0.92) return;
  const middle = distance2(a, at) / length;
  pushRibbon(lines, a, lerp2(a, b, Math.max(0, middle - half / length)), stroke, placed);
  pushRibbon(lines, lerp2(a, b, Math.min(1, middle + half / length)), b, stroke, placed);
  for (const end of ends) {
    const tick = scale2(add2(along, across), 4 * point);
    pushRibbon(lines, sub2(end, tick), add2(end, tick), stroke * 1.3, placed);
  }
  pushLabel(letters, lettering, { text, at, angle: readable(Math.atan2(along[1], along[0])), height }, placed);
};

export interface NetMeasuresProps {
  readonly measures: readonly Measure[];
  readonly units: Units;
  readonly point: number;
  readonly family: string;
  readonly clock: FoldClock;
}

/** The flat net's measures: chalk on the board, ink on the paper. They fade as the net is lifted. */
export const NetMeasures = ({ measures, units, point, family, clock }: NetMeasuresProps): ReactNode => {
  const letterings = useDisposing(() => {
    const texts = measures.map(({ length }) => formatLength(length, { units }));
    const chalk = makeLettering(texts, family);
    const ink = makeLettering(texts, family, { weight: 600, onPrint: true });
    return {
      chalk,
      ink,
      dispose: () => {
        chalk.texture.dispose();
        ink.texture.dispose();
      },
    };
  }, [measures, units, family]);
  const geometries = useDisposing(
    () =>
      [false, true].flatMap((onPaper) => {
        const lines = emptyPart();
        const letters = emptyPart();
        const lettering = onPaper ? letterings.ink : letterings.chalk;
        for (const measure of measures) {
          if (measure.onPaper !== onPaper) continue;
          // A figure wider than its panel would hide the letters and lines there; the Paper place has them all.
          if (measure.across !== undefined && measure.across < 44 * point) continue;
          const text = formatLength(measure.length, { units });
          drawMeasure({ lines, letters, lettering, point, z: onPaper ? 0.55 : 0.2 }, measure.ends, measure.at, text);
        }
        return [stillGeometry(lines), stillGeometry(letters)];
      }),
    [measures, letterings, units, point],
  );
  const materials = useDisposing(() => {
    const plain = { transparent: true, depthWrite: false };
    return [
      new MeshBasicMaterial({ ...plain, color: tones.chalk }),
      new MeshBasicMaterial({ ...plain, color: tones.chalk, map: letterings.chalk.texture }),
      new MeshBasicMaterial({ ...plain, color: tones.ink }),
      new MeshBasicMaterial({ ...plain, map: letterings.ink.texture }),
    ];
  }, [letterings]);
  useEffect(
    () =>
      clock.listen((t) => {
        materials.forEach((material, i) => {
          const onPaper = i >= 2;
          material.opacity = 1 - (onPaper ? ease(0.01, 0.1, t) : ease(0.12, 0.4, t));
          material.visible = material.opacity > 0;
        });
      }),
    [clock, materials],
  );
  return (
    <group>
      {geometries.map((geometry, i) => (
        <mesh key={geometry.uuid} geometry={geometry} material={materials[i] as MeshBasicMaterial} renderOrder={4} />
      ))}
    </group>
  );
};
