import { type ReactElement, useMemo } from 'react';
import type { MadeRoof } from '../core/make-roof.ts';
import { drawRoof, type RoofPicture as Picture } from './draw/roof-picture.ts';

/** A small picture of a roof on its body, drawn from the solid; only to be seen. */
export const RoofPicture = ({ roof }: { readonly roof: MadeRoof }): ReactElement => {
  const picture = useMemo(
    () => (roof.made === null ? null : drawRoof(roof.made.solid, roof.spec.body, roof.made.fit.rest)),
    [roof],
  );
  return <PictureOf picture={picture} />;
};

export const PictureOf = ({ picture }: { readonly picture: Picture | null }): ReactElement => {
  if (picture === null) {
    return (
      <svg className="roof-picture" viewBox="0 0 10 10" aria-hidden="true">
        <path d="M2 8 5 2l3 6" fill="none" strokeDasharray="3 3" />
      </svg>
    );
  }
  const [x, y, width, height] = picture.box;
  const size = Math.max(width, height) * 1.06;
  const box = [x - (size - width) / 2, y - (size - height) / 2, size, size].map((n) => n.toFixed(2)).join(' ');
  return (
    <svg className="roof-picture" viewBox={box} aria-hidden="true">
      {picture.patches.map((patch, i) => {
        const path = `M${patch.points.map((p) => `${p[0].toFixed(2)} ${p[1].toFixed(2)}`).join('L')}Z`;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: patches have no name and never move between renders.
          <g key={i}>
            <path d={path} className={`patch-${patch.part}${patch.isSmooth ? ' smooth' : ''}`} />
            <path d={path} className="shade" fillOpacity={(1 - patch.light) * 0.55} />
          </g>
        );
      })}
    </svg>
  );
};
