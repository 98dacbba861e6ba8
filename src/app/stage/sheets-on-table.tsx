import type { ReactNode } from 'react';
import { MeshBasicMaterial, MeshLambertMaterial } from 'three';
import { cutLayers } from '../../core/cut-layers.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import type { Stock } from '../../core/project/project.ts';
import { type DashKind, dashLine } from './dashes.ts';
import { useDisposing } from './disposing.ts';
import { onSheet } from './finish.ts';
import { emptyPart, type FlatPart, pushPolygon, pushQuad, pushRibbon, pushRim, stillGeometry } from './flat-part.ts';
import { makeLettering, pushLabel } from './lettering.ts';
import { pieceLines } from './net-parts.ts';
import type { Papers } from './papers.ts';
import { choosePrint, type Print, printTable } from './prints.ts';
import { tones } from './tones.ts';

export interface SheetsOnTableProps {
  readonly sheets: readonly LaidSheet[];
  /** Lower left corner of each sheet on the table. */
  readonly corners: readonly Vec2[];
  readonly roofs: readonly MadeRoof[];
  readonly stock: readonly Stock[];
  readonly papers: Papers;
  readonly point: number;
  readonly family: string;
  /** Turned over: the plain side up, mirrored left to right, as it is marked with a pencil. */
  readonly wrongSide: boolean;
}

const low = 0.3;
const high = 0.55;

const swapped: Readonly<Partial<Record<DashKind, DashKind>>> = { mountain: 'valley', valley: 'mountain' };

interface SheetFigures {
  readonly waste: Map<Print, FlatPart>;
  readonly pieces: Map<Print, FlatPart>;
  readonly shadow: FlatPart;
  readonly lines: FlatPart;
}

const partOf = (parts: Map<Print, FlatPart>, print: Print): FlatPart => {
  const part = parts.get(print) ?? emptyPart();
  parts.set(print, part);
  return part;
};

const drawSheet = (figures: SheetFigures, sheet: LaidSheet, corner: Vec2, props: SheetsOnTableProps): void => {
  const { wrongSide, point, roofs, stock } = props;
  const print = wrongSide ? 'plain' : choosePrint(stock[sheet.stock]);
  const { repeat } = printTable[print];
  const place = ([x, y]: Vec2): Vec2 => [corner[0] + (wrongSide ? sheet.width - x : x), corner[1] + y];
  const mapping = (p: Vec2): Vec2 => [(p[0] - corner[0]) / repeat, (p[1] - corner[1]) / repeat];
  const [x, y] = corner;
  const edge: readonly Vec2[] = [
    [x, y],
    [x + sheet.width, y],
    [x + sheet.width, y + sheet.height],
    [x, y + sheet.height],
  ];
  pushPolygon(partOf(figures.waste, print), edge, { owner: 0, z: low }, mapping);
  edge.forEach((a, i) => {
    pushRim(figures.shadow, a, edge[(i + 1) % 4] as Vec2, 0, low, 0);
  });
  const line = Math.min(1.2, Math.max(0.22, 1.15 * point));
  for (const placement of sheet.placements) {
    const roof = roofs[placement.roof];
    const piece = roof && cutLayers(roof)[placement.layer]?.net.pieces[placement.piece];
    if (piece === undefined) continue;
    const laid = (p: Vec2): Vec2 => place(onSheet(placement, p));
    const ring = piece.outline.map(laid);
    pushPolygon(partOf(figures.pieces, print), wrongSide ? ring.reverse() : ring, { owner: 0, z: high }, mapping);
    for (const { kind, ends } of pieceLines(piece)) {
      const shown = wrongSide ? (swapped[kind] ?? kind) : kind;
      for (const [a, b] of dashLine(laid(ends[0]), laid(ends[1]), shown, line)) {
        pushRibbon(figures.lines, a, b, line, { owner: 0, z: high + 0.05 });
      }
    }
  }
};

/** A soft dark border under a sheet, so that it lies on the table instead of floating. */
const pushHalo = (part: FlatPart, sheet: LaidSheet, [x, y]: Vec2, spread: number): void => {
  for (let i = 1; i <= 4; i += 1) {
    const s = (spread * i) / 4;
    const right = x + sheet.width + s * 1.2;
    pushQuad(
      part,
      [
        [x - s * 0.4, y - s],
        [right, y - s],
        [right, y + sheet.height + s * 0.4],
        [x - s * 0.4, y + sheet.height + s * 0.4],
      ],
      { owner: 0, z: 0.05 + i * 0.01 },
    );
  }
};

/** The maker's own sheets with the pieces as laid; what is left over is dimmed. */
export const SheetsOnTable = (props: SheetsOnTableProps): ReactNode => {
  const { sheets, corners, roofs, stock, papers, point, family, wrongSide } = props;
  const caption = (sheet: LaidSheet): string => {
    const name = stock[sheet.stock]?.name ?? 'Paper';
    return `${name}, sheet ${sheet.index + 1}${wrongSide ? ', plain side' : ''}`;
  };
  const lettering = useDisposing(() => {
    const made = makeLettering(sheets.map(caption), family);
    return { ...made, dispose: () => made.texture.dispose() };
  }, [sheets, stock, family, wrongSide]);
  const drawn = useDisposing(() => {
    const figures: SheetFigures = { waste: new Map(), pieces: new Map(), shadow: emptyPart(), lines: emptyPart() };
    const halo = emptyPart();
    const captions = emptyPart();
    sheets.forEach((sheet, i) => {
      const corner = corners[i] ?? [0, 0];
      drawSheet(figures, sheet, corner, props);
      pushHalo(halo, sheet, corner, 7 * point);
      const text = caption(sheet);
      const natural = lettering.width(text) * 18 * point;
      const height = 18 * point * Math.min(1, sheet.width / Math.max(natural, 1e-6));
      // Turned over, the rule lies against the lower edge: the caption goes above.
      const y = wrongSide ? corner[1] + sheet.height + height * 0.75 : corner[1] - height * 0.75;
      const at: Vec2 = [corner[0] + (lettering.width(text) * height) / 2, y];
      pushLabel(captions, lettering, { text, at, angle: 0, height }, { owner: 0, z: 0.2 });
    });
    const papered = (parts: Map<Print, FlatPart>) =>
      [...parts].map(([print, part]) => ({ print, geometry: stillGeometry(part) }));
    const made = {
      waste: papered(figures.waste),
      pieces: papered(figures.pieces),
      rim: stillGeometry(figures.shadow),
      lines: stillGeometry(figures.lines),
      halo: stillGeometry(halo),
      captions: stillGeometry(captions),
    };
    return {
      ...made,
      dispose: () => {
        for (const { geometry } of [...made.waste, ...made.pieces]) geometry.dispose();
        for (const geometry of [made.rim, made.lines, made.halo, made.captions]) geometry.dispose();
      },
    };
  }, [sheets, corners, roofs, stock, point, lettering, wrongSide]);
  const materials = useDisposing(() => {
    const wrap = (print: Print, color: string) => new MeshLambertMaterial({ map: papers.texture(print), color });
    const ink = new MeshBasicMaterial({ color: tones.ink });
    const chalk = new MeshBasicMaterial({
      color: tones.chalk,
      map: lettering.texture,
      transparent: true,
      depthWrite: false,
    });
    const shade = new MeshBasicMaterial({ color: '#000', transparent: true, opacity: 0.16, depthWrite: false });
    const rim = new MeshLambertMaterial({ color: tones.wrongSide });
    const waste = drawn.waste.map(({ print }) => wrap(print, wrongSide ? '#b9b2a4' : '#8d867c'));
    const pieces = drawn.pieces.map(({ print }) => wrap(print, '#ffffff'));
    const dispose = (): void => {
      for (const material of [ink, chalk, shade, rim, ...waste, ...pieces]) material.dispose();
    };
    return { ink, chalk, shade, rim, waste, pieces, dispose };
  }, [papers, drawn, lettering, wrongSide]);
  return (
    <group>
      <mesh geometry={drawn.halo} material={materials.shade} />
      <mesh geometry={drawn.rim} material={materials.rim} />
      {drawn.waste.map(({ print, geometry }, i) => (
        <mesh key={print} geometry={geometry} material={materials.waste[i] as MeshLambertMaterial} receiveShadow />
      ))}
      {drawn.pieces.map(({ print, geometry }, i) => (
        <mesh key={print} geometry={geometry} material={materials.pieces[i] as MeshLambertMaterial} receiveShadow />
      ))}
      <mesh geometry={drawn.lines} material={materials.ink} renderOrder={2} />
      <mesh geometry={drawn.captions} material={materials.chalk} renderOrder={3} />
    </group>
  );
};
