import { memo, type ReactNode } from 'react';
import { type BufferGeometry, MeshBasicMaterial, MeshLambertMaterial } from 'three';
import { cutLayers } from '../../core/cut-layers.ts';
import { at } from '../../core/geometry/polygon.ts';
import type { Vec2 } from '../../core/geometry/vector.ts';
import type { LaidSheet } from '../../core/layout/layout.ts';
import { sheetRing } from '../../core/layout/usable.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import type { Stock } from '../../core/project/project.ts';
import { type DashKind, dashLine } from './dashes.ts';
import { useDisposing } from './disposing.ts';
import { onSheet } from './finish.ts';
import { emptyPart, type FlatPart, pushPolygon, pushQuad, pushRibbon, pushRim, stillGeometry } from './flat-part.ts';
import { type Lettering, makeLettering, pushLabel } from './lettering.ts';
import { pieceLines } from './net-parts.ts';
import type { Papers } from './papers.ts';
import { type Look, lookOf, printLook } from './prints.ts';
import { captionOf } from './sheet-caption.ts';
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

interface SheetProps extends Omit<SheetsOnTableProps, 'sheets' | 'corners' | 'family'> {
  readonly sheet: LaidSheet;
  /** Its lower left corner. */
  readonly x: number;
  readonly y: number;
  /** Lines of its caption, parted by line ends. */
  readonly caption: string;
  readonly lettering: Lettering;
}

/** Height of a line of a caption, pixels. */
const LINE = 18;
const low = 0.3;
const high = 0.55;
/** Of the pieces over the table, mm. */
export const SHEETS_HIGH = high;
const plainSide = printLook('plain');

const swapped: Readonly<Partial<Record<DashKind, DashKind>>> = { mountain: 'valley', valley: 'mountain' };

/** The paper of a sheet, and how its points come to lie on the table. */
const spread = ({ sheet, x, y, wrongSide, stock }: SheetProps) => {
  const look: Look = wrongSide ? plainSide : lookOf(stock[sheet.stock]);
  const place = (p: Vec2): Vec2 => [x + (wrongSide ? sheet.width - p[0] : p[0]), y + p[1]];
  /** What is turned over runs the other way round. */
  const ring = (points: readonly Vec2[]): readonly Vec2[] =>
    wrongSide ? points.map(place).toReversed() : points.map(place);
  const mapping = (p: Vec2): Vec2 => [(p[0] - x) / look.tile, (p[1] - y) / look.tile];
  return { look, place, ring, mapping };
};

/** The sheet itself, darkened where it is left over, its cut edge and the dark border it lies in. */
const drawPaper = (
  props: SheetProps,
): { readonly waste: FlatPart; readonly rim: FlatPart; readonly halo: FlatPart } => {
  const { sheet, x, y, point } = props;
  const { ring, mapping } = spread(props);
  const [waste, rim, halo] = [emptyPart(), emptyPart(), emptyPart()];
  const edge = ring(sheetRing(sheet));
  pushPolygon(waste, edge, { owner: 0, z: low }, mapping);
  edge.forEach((a, i) => {
    pushRim(rim, a, at(edge, i + 1), 0, low, 0);
  });
  if (sheet.outline === undefined) pushHalo(halo, [x, y], sheet, 7 * point);
  return { waste, rim, halo };
};

/** A soft dark border under a whole sheet, so that it lies on the table instead of floating. */
const pushHalo = (part: FlatPart, [x, y]: Vec2, sheet: LaidSheet, reach: number): void => {
  for (let i = 1; i <= 4; i += 1) {
    const s = (reach * i) / 4;
    const right = x + sheet.width + s * 1.2;
    const corners: [Vec2, Vec2, Vec2, Vec2] = [
      [x - s * 0.4, y - s],
      [right, y - s],
      [right, y + sheet.height + s * 0.4],
      [x - s * 0.4, y + sheet.height + s * 0.4],
    ];
    pushQuad(part, corners, { owner: 0, z: 0.05 + i * 0.01 });
  }
};

const drawPieces = (props: SheetProps): { readonly pieces: FlatPart; readonly lines: FlatPart } => {
  const { sheet, roofs, wrongSide, point } = props;
  const { place, ring, mapping } = spread(props);
  const [pieces, lines] = [emptyPart(), emptyPart()];
  const width = Math.min(1.2, Math.max(0.22, 1.15 * point));
  for (const placement of sheet.placements) {
    const roof = roofs[placement.roof];
    const piece = roof && cutLayers(roof)[placement.layer]?.net.pieces[placement.piece];
    if (piece === undefined) continue;
    const laid = (p: Vec2): Vec2 => place(onSheet(placement, p));
    pushPolygon(pieces, ring(piece.outline.map((p) => onSheet(placement, p))), { owner: 0, z: high }, mapping);
    for (const { kind, ends } of pieceLines(piece)) {
      const shown = wrongSide ? (swapped[kind] ?? kind) : kind;
      for (const [a, b] of dashLine(laid(ends[0]), laid(ends[1]), shown, width)) {
        pushRibbon(lines, a, b, width, { owner: 0, z: high + 0.05 });
      }
    }
  }
  return { pieces, lines };
};

const drawCaption = ({ sheet, x, y, caption, lettering, point, wrongSide }: SheetProps): FlatPart => {
  const part = emptyPart();
  const lines = caption.split('\n');
  lines.forEach((text, i) => {
    const natural = lettering.width(text) * LINE * point;
    const height = LINE * point * Math.min(1, sheet.width / Math.max(natural, low));
    // Turned over, the rule lies against the lower edge: the caption goes above.
    const away = (wrongSide ? lines.length - 1 - i : i) * LINE * point + 0.75 * height;
    const middle: Vec2 = [x + (lettering.width(text) * height) / 2, y + (wrongSide ? sheet.height + away : -away)];
    pushLabel(part, lettering, { text, at: middle, angle: 0, height }, { owner: 0, z: 0.2 });
  });
  return part;
};

/** One sheet with its pieces. While a piece is moved only the sheets that it leaves and comes to are drawn anew. */
const Sheet = memo((props: SheetProps): ReactNode => {
  const { sheet, x, y, roofs, stock, papers, point, wrongSide, lettering, caption } = props;
  const { look } = spread(props);
  const paper = useDisposing(() => {
    const { waste, rim, halo } = drawPaper(props);
    return [waste, rim, halo, drawCaption(props)].map(stillGeometry);
  }, [sheet.outline, sheet.width, sheet.height, look.tile, x, y, point, wrongSide, lettering, caption]);
  const work = useDisposing(() => {
    const { pieces, lines } = drawPieces(props);
    return [pieces, lines].map(stillGeometry);
  }, [sheet, x, y, roofs, stock, point, wrongSide]);
  const materials = useDisposing(() => {
    const map = papers.texture(look);
    return [
      new MeshLambertMaterial({ map, color: wrongSide ? '#b9b2a4' : '#8d867c' }),
      new MeshLambertMaterial({ map, color: '#ffffff' }),
      new MeshLambertMaterial({ color: tones.wrongSide }),
      new MeshBasicMaterial({ color: tones.ink }),
      new MeshBasicMaterial({ color: '#000', transparent: true, opacity: 0.16, depthWrite: false }),
      new MeshBasicMaterial({ color: tones.chalk, map: lettering.texture, transparent: true, depthWrite: false }),
    ] as const;
  }, [papers, look.key, lettering, wrongSide]);
  const [leftOver, cut, edge, ink, shade, chalk] = materials;
  const [waste, rim, halo, words] = paper as [BufferGeometry, BufferGeometry, BufferGeometry, BufferGeometry];
  const [pieces, lines] = work as [BufferGeometry, BufferGeometry];
  return (
    <group>
      <mesh geometry={halo} material={shade} />
      <mesh geometry={rim} material={edge} />
      <mesh geometry={waste} material={leftOver} receiveShadow />
      <mesh geometry={pieces} material={cut} receiveShadow />
      <mesh geometry={lines} material={ink} renderOrder={2} />
      <mesh geometry={words} material={chalk} renderOrder={3} />
    </group>
  );
});

/** The maker's own sheets with the pieces as laid; what is left over is dimmed. */
export const SheetsOnTable = ({ sheets, corners, family, ...rest }: SheetsOnTableProps): ReactNode => {
  const captions = sheets.map((sheet) => {
    const name = rest.stock[sheet.stock]?.name ?? 'Paper';
    return captionOf(name, sheet.index, sheet.width / rest.point, rest.wrongSide ? 'plain side' : undefined);
  });
  const lettering = useDisposing(() => {
    const made = makeLettering(captions.flat(), family);
    return { ...made, dispose: () => made.texture.dispose() };
  }, [captions.flat().join('\n'), family]);
  return sheets.map((sheet, i) => {
    const [x, y] = corners[i] ?? [0, 0];
    return (
      <Sheet
        key={`${sheet.stock} ${sheet.index}`}
        {...rest}
        sheet={sheet}
        x={x}
        y={y}
        caption={captions[i]?.join('\n') ?? ''}
        lettering={lettering}
      />
    );
  });
};
