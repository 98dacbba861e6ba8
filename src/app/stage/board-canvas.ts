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
    pen.fillStyle = `rgb(${Math.round(58 * light)},${Math.round(51 * light)},${Math.round(46 * light)})`;
    pen.fillRect(0, top, pixels, plank);
    for (let i = 0; i < 190; i += 1) {
      const y = top + random() * plank;
      const sway = (random() - 0.5) * 14;
      const phase = random() * pixels;
      const dark = random() < 0.62;
      pen.strokeStyle = dark ? `rgba(16,10,7,${0.05 + random() * 0.16})` : `rgba(150,128,108,${0.02 + random() * 0.07})`;
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
  texture.anisotropy = 8;
  return texture;
};
