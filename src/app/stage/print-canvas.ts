import { CanvasTexture, RepeatWrapping, SRGBColorSpace, type Texture } from 'three';
import { type Print, printTable, seedNoise, splitCourse } from './prints.ts';
import { tones } from './tones.ts';

/** Drawing surface of one repeat: mm, y down, wrapped on both sides. */
interface Sheet {
  readonly pen: CanvasRenderingContext2D;
  readonly repeat: number;
  readonly random: () => number;
}

const shade = (hex: string, light: number): string => {
  const value = Number.parseInt(hex.slice(1), 16);
  const part = (shift: number): number => {
    const channel = (value >> shift) & 255;
    return Math.round(light >= 0 ? channel + (255 - channel) * light : channel * (1 + light));
  };
  return `rgb(${part(16)},${part(8)},${part(0)})`;
};

/** Fibres and specks that every paper has; the print lies under them. */
const drawFibres = ({ pen, repeat, random }: Sheet, strength: number): void => {
  for (let i = 0; i < 900; i += 1) {
    const x = random() * repeat;
    const y = random() * repeat;
    const angle = random() * Math.PI;
    const length = 0.4 + random() * 1.8;
    pen.strokeStyle = random() < 0.5 ? `rgba(70,50,30,${strength})` : `rgba(255,250,235,${strength * 1.3})`;
    pen.lineWidth = 0.06 + random() * 0.08;
    pen.beginPath();
    pen.moveTo(x, y);
    pen.quadraticCurveTo(
      x + Math.cos(angle) * length * 0.5,
      y + Math.sin(angle) * length * 0.5 + random() * 0.3,
      x + Math.cos(angle) * length,
      y + Math.sin(angle) * length,
    );
    pen.stroke();
  }
};

interface Course {
  readonly height: number;
  readonly mean: number;
  readonly spread: number;
  readonly tone: string;
  readonly vary: number;
}

/** Rows of lapped covering, from the lowest up: each row laps over the one below it. */
const drawCourses = (sheet: Sheet, { height, mean, spread, tone, vary }: Course, rounded: boolean): void => {
  const { pen, repeat } = sheet;
  const rows = Math.round(repeat / height);
  for (let row = rows; row >= -1; row -= 1) {
    const noise = seedNoise(1013 * (((row % rows) + rows) % rows) + 77);
    const widths = splitCourse(repeat, mean, spread, noise);
    let x = ((((row % rows) + rows) % rows) % 2) * (mean / 2);
    for (const width of widths) {
      const top = row * height;
      const drop = rounded ? 0 : (noise() - 0.5) * height * 0.08;
      const light = (noise() * 2 - 1) * vary;
      const lit = noise();
      for (const left of [x, x - repeat]) {
        pen.beginPath();
        const low = top + height + drop;
        if (rounded) {
          pen.moveTo(left, top - height * 0.4);
          pen.lineTo(left, top + height * 0.35);
          pen.bezierCurveTo(
            left,
            low + height * 0.12,
            left + width,
            low + height * 0.12,
            left + width,
            top + height * 0.35,
          );
          pen.lineTo(left + width, top - height * 0.4);
        } else {
          pen.rect(left + 0.07, top - height * 0.4, width - 0.14, height * 1.4 + drop);
        }
        pen.closePath();
        const wash = pen.createLinearGradient(0, top, 0, low);
        wash.addColorStop(0, shade(tone, light - 0.2));
        wash.addColorStop(0.22, shade(tone, light));
        wash.addColorStop(0.86, shade(tone, light + 0.1 + lit * 0.06));
        wash.addColorStop(1, shade(tone, light - 0.02));
        pen.fillStyle = wash;
        pen.fill();
        pen.strokeStyle = 'rgba(32,24,20,0.5)';
        pen.lineWidth = 0.22;
        pen.stroke();
      }
      x += width;
    }
  }
};

const drawPantiles = ({ pen, repeat, random }: Sheet): void => {
  const height = 9;
  const width = 6;
  for (let row = 0; row < repeat / height; row += 1) {
    for (let column = 0; column < repeat / width; column += 1) {
      const light = (random() * 2 - 1) * 0.1;
      const left = column * width;
      const top = row * height;
      const roll = pen.createLinearGradient(left, 0, left + width, 0);
      roll.addColorStop(0, shade(tones.terracotta, light - 0.34));
      roll.addColorStop(0.2, shade(tones.terracotta, light - 0.02));
      roll.addColorStop(0.42, shade(tones.terracotta, light + 0.24));
      roll.addColorStop(0.62, shade(tones.terracotta, light + 0.04));
      roll.addColorStop(1, shade(tones.terracotta, light - 0.26));
      pen.fillStyle = roll;
      pen.fillRect(left, top, width + 0.05, height + 0.05);
      const lap = pen.createLinearGradient(0, top, 0, top + height);
      lap.addColorStop(0, 'rgba(30,12,6,0.55)');
      lap.addColorStop(0.16, 'rgba(30,12,6,0)');
      lap.addColorStop(1, 'rgba(255,220,180,0.1)');
      pen.fillStyle = lap;
      pen.fillRect(left, top, width + 0.05, height + 0.05);
    }
  }
};

const flood = ({ pen, repeat }: Sheet, colour: string): void => {
  pen.fillStyle = colour;
  pen.fillRect(0, 0, repeat, repeat);
};

const painters: Readonly<Record<Print, (sheet: Sheet) => void>> = {
  plain: (sheet) => {
    flood(sheet, tones.paper);
    drawFibres(sheet, 0.07);
  },
  greyboard: (sheet) => {
    flood(sheet, tones.greyboard);
    drawFibres(sheet, 0.2);
    drawFibres(sheet, 0.14);
  },
  slates: (sheet) => {
    flood(sheet, tones.slate);
    drawCourses(sheet, { height: 6, mean: 5.2, spread: 0.28, tone: tones.slate, vary: 0.15 }, false);
    drawFibres(sheet, 0.05);
  },
  shingles: (sheet) => {
    flood(sheet, '#a9764d');
    drawCourses(sheet, { height: 9, mean: 4.2, spread: 0.42, tone: '#b0805a', vary: 0.17 }, false);
    drawFibres(sheet, 0.08);
  },
  scales: (sheet) => {
    flood(sheet, tones.verdigris);
    drawCourses(sheet, { height: 6, mean: 6, spread: 0, tone: '#62988a', vary: 0.12 }, true);
    drawFibres(sheet, 0.05);
  },
  pantiles: (sheet) => {
    flood(sheet, tones.terracotta);
    drawPantiles(sheet);
    drawFibres(sheet, 0.05);
  },
};

const pixels = 1024;

/** One repeat of a print; texture coordinate 1 is one repeat, up is the paper's up. */
export const makePrint = (print: Print): Texture => {
  const canvas = document.createElement('canvas');
  canvas.width = pixels;
  canvas.height = pixels;
  const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
  const { repeat } = printTable[print];
  pen.scale(pixels / repeat, pixels / repeat);
  painters[print]({ pen, repeat, random: seedNoise(print.length * 131 + print.charCodeAt(0)) });
  const texture = new CanvasTexture(canvas);
  texture.wrapS = RepeatWrapping;
  texture.wrapT = RepeatWrapping;
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 4;
  return texture;
};
