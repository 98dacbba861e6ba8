import { CanvasTexture, LinearMipmapLinearFilter, SRGBColorSpace } from 'three';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { type FlatPart, type Placed, pushQuad } from './flat-part.ts';
import { tones } from './tones.ts';

/**
 * Short texts drawn once into one picture: white on clear, to be tinted by the material that wears it, or in ink with a
 * border of paper colour that keeps it readable on any print.
 */
export interface Lettering {
  readonly texture: CanvasTexture;
  /** Width of a text as a multiple of its height; 0 for a text that was not asked for. */
  readonly width: (text: string) => number;
  readonly place: (text: string) => readonly [number, number, number, number];
}

export interface LetterStyle {
  readonly weight?: number;
  /** Ink with a paper border; else white, for tinting. */
  readonly onPrint?: boolean;
}

const cell = 72;
const fontSize = 50;
const across = 1024;

export const makeLettering = (texts: Iterable<string>, family: string, style: LetterStyle = {}): Lettering => {
  const { weight = 500, onPrint = false } = style;
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
  const font = `${weight} ${fontSize}px ${family}`;
  pen.font = font;
  const spots = new Map<string, { x: number; y: number; width: number }>();
  let x = 0;
  let y = 0;
  for (const text of new Set(texts)) {
    const width = Math.min(across, Math.ceil(pen.measureText(text).width) + 14);
    if (x + width > across) {
      x = 0;
      y += cell;
    }
    spots.set(text, { x, y, width });
    x += width;
  }
  canvas.width = across;
  canvas.height = Math.max(cell, 2 ** Math.ceil(Math.log2(y + cell)));
  pen.font = font;
  pen.fillStyle = onPrint ? tones.ink : '#fff';
  pen.strokeStyle = tones.paper;
  pen.lineWidth = 11;
  pen.lineJoin = 'round';
  pen.textBaseline = 'alphabetic';
  for (const [text, spot] of spots) {
    if (onPrint) pen.strokeText(text, spot.x + 7, spot.y + cell * 0.74, across - 14);
    pen.fillText(text, spot.x + 7, spot.y + cell * 0.74, across - 14);
  }
  const texture = new CanvasTexture(canvas);
  texture.colorSpace = SRGBColorSpace;
  texture.minFilter = LinearMipmapLinearFilter;
  texture.anisotropy = 8;
  return {
    texture,
    width: (text) => (spots.get(text)?.width ?? 0) / cell,
    place: (text) => {
      const { x: left, y: top, width } = spots.get(text) ?? { x: 0, y: 0, width: 0 };
      return [left / across, 1 - (top + cell) / canvas.height, (left + width) / across, 1 - top / canvas.height];
    },
  };
};

export interface Label {
  readonly text: string;
  readonly at: Vec2;
  /** Direction of reading, radians from east, counter-clockwise. */
  readonly angle: number;
  /** Height of the line of text, mm. */
  readonly height: number;
}

/** Lays a text flat, centred on its point. */
export const pushLabel = (part: FlatPart, lettering: Lettering, label: Label, placed: Placed): void => {
  const along: Vec2 = [Math.cos(label.angle), Math.sin(label.angle)];
  const up: Vec2 = placed.under ? [along[1], -along[0]] : [-along[1], along[0]];
  const w = (lettering.width(label.text) * label.height) / 2;
  const h = label.height / 2;
  const corner = (a: number, b: number): Vec2 => [
    label.at[0] + along[0] * a * w + up[0] * b * h,
    label.at[1] + along[1] * a * w + up[1] * b * h,
  ];
  const place = lettering.place(label.text);
  if (placed.under) {
    pushQuad(part, [corner(1, -1), corner(-1, -1), corner(-1, 1), corner(1, 1)], { ...placed, under: true }, [
      place[2],
      place[1],
      place[0],
      place[3],
    ]);
    return;
  }
  pushQuad(part, [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)], placed, place);
};

/** Turns a reading direction so that nothing stands on its head for a reader at the south edge. */
export const readable = (angle: number): number => {
  const turn = ((angle % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return turn > Math.PI / 2 + 1e-6 && turn <= (3 * Math.PI) / 2 + 1e-6 ? turn - Math.PI : turn;
};
