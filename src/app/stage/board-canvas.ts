import { CanvasTexture, RepeatWrapping, SRGBColorSpace, type Texture } from 'three';
import { seedNoise } from './prints.ts';

/** One repeat of the table's boards, mm. */
export const BOARD_REPEAT = 640;

const pixels = 1024;
const planks = 5;

/** Dark boards with the grain running east and west: long wandering streaks, a knot here and there, worn joints. */
export const makeBoards = (): Texture => {
  const canvas = document.createElement('canvas');
  canvas.width = pixels;
  canvas.height = pixels;
  const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
  const random = seedNoise(20261);
  const plank = pixels / planks;
  for (let row = 0; row < planks; row += 1) {
    const top = row * plank;
    const light = 0.86 + random() * 0.3;
    pen.save();
    pen.beginPath();
    pen.rect(0, top, pixels, plank);
    pen.clip();
    pen.fillStyle = `rgb(${Math.round(66 * light)},${Math.round(60 * light)},${Math.round(55 * light)})`;
    pen.fillRect(0, top, pixels, plank);
    for (let i = 0; i < 190; i += 1) {
      const y = top + random() * plank;
      const sway = (random() - 0.5) * 14;
      const phase = random() * pixels;
      const dark = random() < 0.62;
      pen.strokeStyle = dark
        ? `rgba(16,10,7,${0.05 + random() * 0.16})`
        : `rgba(150,128,108,${0.02 + random() * 0.07})`;
      pen.lineWidth = 0.5 + random() * random() * 4;
      pen.beginPath();
      // Whole waves over the width, so that the right end meets the left end of the next repeat.
      for (let x = 0; x <= pixels; x += 16) {
        const turn = ((x + phase) / pixels) * Math.PI * 2;
        const at = y + Math.sin(turn) * sway + Math.sin(turn * 3 + row) * sway * 0.25;
        if (x === 0) pen.moveTo(x, at);
        else pen.lineTo(x, at);
      }
      pen.stroke();
    }
    for (let i = 0; i < 700; i += 1) {
      pen.fillStyle = `rgba(10,6,4,${0.1 + random() * 0.2})`;
      pen.fillRect(random() * pixels, top + random() * plank, 2 + random() * 9, 0.7);
    }
    pen.restore();
    pen.fillStyle = 'rgba(6,4,3,0.8)';
    pen.fillRect(0, top - 1, pixels, 2);
    pen.fillStyle = 'rgba(170,146,124,0.12)';
    pen.fillRect(0, top + 1.5, pixels, 1.5);
  }
  const texture = new CanvasTexture(canvas);
  texture.wrapS = RepeatWrapping;
  texture.wrapT = RepeatWrapping;
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 4;
  return texture;
};

/** Length of one repeat of the brushed steel, mm; its height is the rule's breadth. */
export const STEEL_REPEAT = 220;

/** Brushed steel: streaks along the rule, and the sheen of a lamp and a window drawn in. */
export const makeSteel = (): Texture => {
  const canvas = document.createElement('canvas');
  canvas.width = 512;
  canvas.height = 128;
  const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
  const random = seedNoise(77);
  const base = pen.createLinearGradient(0, 0, 0, 128);
  base.addColorStop(0, '#c9c8c2');
  base.addColorStop(0.45, '#b3b3ae');
  base.addColorStop(0.9, '#a3a3a0');
  base.addColorStop(1, '#d8d6cf');
  pen.fillStyle = base;
  pen.fillRect(0, 0, 512, 128);
  const sheen = pen.createLinearGradient(0, 0, 512, 0);
  for (const [at, light] of [
    [0, 0.1],
    [0.2, 0.3],
    [0.42, 0.02],
    [0.66, 0.22],
    [0.85, 0],
    [1, 0.1],
  ] as const) {
    sheen.addColorStop(at, `rgba(255,250,238,${light})`);
  }
  pen.fillStyle = sheen;
  pen.fillRect(0, 0, 512, 128);
  for (let i = 0; i < 900; i += 1) {
    const isLight = random() < 0.5;
    pen.fillStyle = isLight
      ? `rgba(255,255,250,${0.02 + random() * 0.07})`
      : `rgba(40,38,36,${0.02 + random() * 0.06})`;
    const x = random() * 512;
    const length = 60 + random() * 260;
    const y = random() * 128;
    for (const left of [x, x - 512]) pen.fillRect(left, y, length, 0.8);
  }
  const texture = new CanvasTexture(canvas);
  texture.wrapS = RepeatWrapping;
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 4;
  return texture;
};
