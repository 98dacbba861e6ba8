import { type ReactNode, useMemo } from 'react';
import { BoxGeometry, ExtrudeGeometry, MeshBasicMaterial, MeshPhongMaterial, Path, Shape } from 'three';
import { BOARD_REPEAT, makeBoards, makeSteel, STEEL_REPEAT } from './board-canvas.ts';
import type { Desk } from './desk.ts';
import { useDisposing } from './disposing.ts';
import { emptyPart, pushRibbon, stillGeometry } from './flat-part.ts';
import { makeLettering, pushLabel } from './lettering.ts';

const thickness = 26;

/** The board table: its front edge just south of the rule, its other edges out of the lamplight. */
export const Tabletop = ({ front, reach }: { readonly front: number; readonly reach: number }): ReactNode => {
  const geometry = useDisposing(() => {
    const width = reach * 18;
    const depth = reach * 14;
    const box = new BoxGeometry(width, depth, thickness);
    box.translate(0, front + depth / 2, -thickness / 2);
    const positions = box.getAttribute('position');
    const uv = box.getAttribute('uv');
    for (let i = 0; i < uv.count; i += 1) {
      // The front edge shows the boards running on over it.
      const down = positions.getZ(i) < -1 && positions.getY(i) < front + 1 ? thickness : 0;
      uv.setXY(i, positions.getX(i) / BOARD_REPEAT, (positions.getY(i) - down) / BOARD_REPEAT);
    }
    return box;
  }, [front, reach]);
  const texture = useDisposing(makeBoards, []);
  const material = useDisposing(
    () => new MeshPhongMaterial({ map: texture, specular: '#241c15', shininess: 14 }),
    [texture],
  );
  return <mesh geometry={geometry} material={material} receiveShadow castShadow />;
};

const plate = 1.1;

/** A steel rule with its engraved edge towards the work, zero at its left end. */
export const SteelRule = ({ rule, family }: { readonly rule: Desk['rule']; readonly family: string }): ReactNode => {
  const { scale, breadth, zero, edge } = rule;
  const metal = useDisposing(() => {
    const end = scale.length + breadth * 0.55;
    const round = breadth * 0.3;
    const shape = new Shape();
    shape.moveTo(0, -breadth);
    shape.lineTo(end - round, -breadth);
    shape.absarc(end - round, -breadth + round, round, -Math.PI / 2, 0, false);
    shape.absarc(end - round, -round, round, 0, Math.PI / 2, false);
    shape.lineTo(0, 0);
    const hole = new Path();
    hole.absarc(end - breadth * 0.5, -breadth / 2, breadth * 0.13, 0, Math.PI * 2, true);
    shape.holes.push(hole);
    const plateShape = new ExtrudeGeometry(shape, { depth: plate, bevelEnabled: false, curveSegments: 18 });
    const uv = plateShape.getAttribute('uv');
    const at = plateShape.getAttribute('position');
    for (let i = 0; i < uv.count; i += 1) uv.setXY(i, at.getX(i) / STEEL_REPEAT, 1 + at.getY(i) / breadth);
    return plateShape;
  }, [scale, breadth]);
  const steel = useDisposing(makeSteel, []);
  const lettering = useDisposing(() => {
    const made = makeLettering(
      scale.figures.map((figure) => figure.text),
      family,
      { weight: 600 },
    );
    return { ...made, dispose: () => made.texture.dispose() };
  }, [scale, family]);
  const engraving = useDisposing(() => {
    const ticks = emptyPart();
    const figures = emptyPart();
    const long = breadth * 0.44;
    const fine = Math.max(0.12, breadth * 0.014);
    const placed = { owner: 0, z: plate + 0.04 };
    for (const { at, length } of scale.ticks) {
      pushRibbon(ticks, [at, 0], [at, -long * length], length === 1 ? fine * 1.5 : fine, placed);
    }
    for (const { at, text } of scale.figures) {
      pushLabel(figures, lettering, { text, at: [at, -breadth * 0.68], angle: 0, height: breadth * 0.5 }, placed);
    }
    return [stillGeometry(ticks), stillGeometry(figures)] as const;
  }, [scale, breadth, lettering]);
  const materials = useDisposing(
    () =>
      [
        new MeshPhongMaterial({ color: '#ffffff', map: steel, specular: '#6d675e', shininess: 40 }),
        new MeshBasicMaterial({ color: '#17130f' }),
        new MeshBasicMaterial({ color: '#17130f', map: lettering.texture, transparent: true, depthWrite: false }),
      ] as const,
    [lettering, steel],
  );
  const position = useMemo((): [number, number, number] => [zero, edge, 0.05], [zero, edge]);
  return (
    <group position={position}>
      <mesh geometry={metal} material={materials[0]} castShadow receiveShadow />
      <mesh geometry={engraving[0]} material={materials[1]} />
      <mesh geometry={engraving[1]} material={materials[2]} renderOrder={1} />
    </group>
  );
};
