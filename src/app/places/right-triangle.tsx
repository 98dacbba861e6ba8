import { type ReactElement, useMemo, useState } from 'react';
import { panelTriangles } from '../../core/guide/panel-triangles.ts';
import { frontMeasures } from '../../core/solid/measure.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { isPositive } from '../../core/tolerance.ts';
import { formatLength, MM_PER_INCH } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import { FirstRoofKey } from '../guide/first-roof-key.tsx';
import { LyingTriangles } from './lying-triangles.tsx';
import { RiseTrial } from './rise-trial.tsx';
import { TriangleFigure } from './triangle-figure.tsx';
import type { RoofAtHand } from './use-roof.ts';

/** Panels of one shape in a list of them: the first, and how many are like it. */
interface PanelChoice {
  readonly face: number;
  readonly label: string;
}

/** The right triangles inside a panel of this roof, and in plain words why it is longer than the roof is high. */
export const RightTriangle = ({ hand }: { readonly hand: RoofAtHand }): ReactElement | null => {
  const style = useStyle();
  const solid = hand.roof.made?.solid;
  const choices = useMemo(() => (solid === undefined ? [] : panelChoices(solid)), [solid]);
  const [chosen, setChosen] = useState<number | null>(null);
  if (solid === undefined) return null;
  const front = frontMeasures(solid);
  const face = choices.some((one) => one.face === chosen) ? (chosen as number) : front.face;
  const triangles = panelTriangles(solid, face);
  const upright = face === front.face ? front : triangles?.upright;
  const show = (mm: number): string => formatLength(mm, style);
  return (
    <section className="group">
      <h3>Why this size?</h3>
      {choices.length > 1 && (
        <label className="pick">
          Panel{' '}
          <select value={face} onChange={(event) => setChosen(Number(event.target.value))}>
            {choices.map((one) => (
              <option key={one.face} value={one.face}>
                {one.label}
              </option>
            ))}
          </select>
        </label>
      )}
      {/* A level deck or a panel that leans out has no such triangle. */}
      {upright && isPositive(upright.rise) && isPositive(upright.run) && (
        <UprightWords {...upright} units={style.units} show={show} />
      )}
      {triangles && <LyingTriangles triangles={triangles} show={show} />}
      {triangles?.upright && (
        <RiseTrial
          key={`${face} ${triangles.upright.rise}`}
          upright={triangles.upright}
          flat={triangles.flat}
          show={show}
        />
      )}
      <FirstRoofKey />
    </section>
  );
};

const UprightWords = ({
  rise,
  run,
  slant,
  units,
  show,
}: {
  readonly rise: number;
  readonly run: number;
  readonly slant: number;
  readonly units: 'in' | 'mm';
  readonly show: (mm: number) => string;
}): ReactElement => {
  const unit = units === 'in' ? MM_PER_INCH : 1;
  const plain = (mm: number): string => (mm / unit).toFixed(units === 'in' ? 2 : 1);
  const square = (mm: number): string => ((mm / unit) ** 2).toFixed(units === 'in' ? 2 : 0);
  return (
    <>
      <TriangleFigure
        up={{ length: rise, text: `rise ${show(rise)}` }}
        across={{ length: run, text: `run ${show(run)}` }}
        slanted={`slant ${show(slant)}`}
      />
      <p>
        The panel gets <b>{show(rise)}</b> high. But it does not stand straight up: it leans in, and on its way to the
        top it also has to get <b>{show(run)}</b> across.
      </p>
      <p>
        Up <em>and</em> across is a longer way than only up. So the middle of the panel, from its lower edge to its top,
        is <b>{show(slant)}</b>: the longest side of the triangle.
      </p>
      <p className="note">
        Try it: {plain(rise)} × {plain(rise)} + {plain(run)} × {plain(run)} makes about {square(slant)}, and so does{' '}
        {plain(slant)} × {plain(slant)}.
      </p>
    </>
  );
};

/** The panels that have triangles to tell of, like ones once; the front one first. */
function panelChoices(solid: Solid): readonly PanelChoice[] {
  const { face: front } = frontMeasures(solid);
  const groups = new Map<string, { readonly face: number; count: number }>();
  const order = [front, ...solid.faces.keys()].filter((face, i, all) => all.indexOf(face) === i);
  for (const face of order) {
    const triangles = panelTriangles(solid, face);
    if (face !== front && !triangles?.upright && (triangles?.edges.length ?? 0) === 0) continue;
    const key = triangles
      ? JSON.stringify([triangles.upright, triangles.edges], (_, value) =>
          typeof value === 'number' ? Number(value.toFixed(4)) : value,
        )
      : `rolled ${face}`;
    const known = groups.get(key);
    if (known) known.count++;
    else groups.set(key, { face, count: 1 });
  }
  return [...groups.values()].map(({ face, count }) => {
    const title = solid.faces[face]?.title ?? '';
    return { face, label: count === 1 ? title : `${title}, and ${count - 1} like it` };
  });
}
