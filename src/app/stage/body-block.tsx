import type { ReactNode } from 'react';
import { EdgesGeometry, ExtrudeGeometry, LineBasicMaterial, MeshLambertMaterial, Path, Shape, Vector2 } from 'three';
import type { Body } from '../../core/project/project.ts';
import { useDisposing } from './disposing.ts';
import { tones } from './tones.ts';

/** The body: a plain block of card, standing on the table. */
export const BodyBlock = ({ body, bold }: { readonly body: Body; readonly bold: boolean }): ReactNode => {
  const geometries = useDisposing(() => {
    const shape = new Shape();
    body.outline.forEach(([x, y], i) => {
      if (i === 0) shape.moveTo(x, y);
      else shape.lineTo(x, y);
    });
    shape.closePath();
    shape.holes = (body.courts ?? []).map((court) => new Path(court.map(([x, y]) => new Vector2(x, y))));
    const block = new ExtrudeGeometry(shape, { depth: body.height, bevelEnabled: false });
    return [block, new EdgesGeometry(block, 20)] as const;
  }, [body]);
  const materials = useDisposing(
    () =>
      [
        new MeshLambertMaterial({
          color: tones.card,
          polygonOffset: true,
          polygonOffsetFactor: 1,
          polygonOffsetUnits: 1,
        }),
        new LineBasicMaterial({ color: tones.ink, transparent: true, opacity: bold ? 0.9 : 0.4 }),
      ] as const,
    [bold],
  );
  return (
    <group>
      <mesh geometry={geometries[0]} material={materials[0]} castShadow receiveShadow />
      <lineSegments geometry={geometries[1]} material={materials[1]} />
    </group>
  );
};
