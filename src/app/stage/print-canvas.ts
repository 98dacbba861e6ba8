import { type PrintPattern, prints } from '../../core/project/prints.ts';
import { drawnPrints, seedNoise, splitCourse } from './prints.ts';
import { tones } from './tones.ts';

/** Drawing surface of one tile: mm at the usual repeat of the print, y down, wrapped on both sides. */
interface Sheet {
  readonly pen: CanvasRenderingContext2D;
  /** Width and height of the tile. */
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

/** Lines of the print lie on whole repeats from the lower left: there a stripe has its middle. */
const drawBands = (sheet: Sheet, colour: string, upright: boolean): void => {
  const { pen, repeat } = sheet;
  const step = prints.stripes.repeat;
  pen.fillStyle = colour;
  for (let at = 0; at <= repeat; at += step) {
    if (upright) pen.fillRect(at - step / 4, 0, step / 2, repeat);
    else pen.fillRect(0, at - step / 4, repeat, step / 2);
  }
};

/** Bricks laid half over each other, the lowest course on the lower edge. */
const drawBricks = ({ pen, repeat, random }: Sheet): void => {
  const width = prints.brick.repeat;
  const height = width * (drawnPrints.brick.course ?? 1);
  const rows = Math.round(repeat / height);
  const columns = Math.round(repeat / width);
  const joint = 0.4;
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      pen.fillStyle = shade('#9c4a34', (random() * 2 - 1) * 0.16);
      const left = column * width + (row % 2) * (width / 2);
      const top = repeat - (row + 1) * height;
      for (const x of [left, left - repeat]) {
        pen.fillRect(x + joint / 2, top + joint / 2, width - joint, height - joint);
      }
    }
  }
};

/** Points along one side of a marbled tile before it is spread over the paper. */
const VEINS = 256;

/** Veins as marbled endpapers have them: waves bent by slower waves, all of them whole over one tile. */
const drawVeins = ({ pen, repeat }: Sheet): void => {
  const canvas = document.createElement('canvas');
  canvas.width = VEINS;
  canvas.height = VEINS;
  const brush = canvas.getContext('2d') as CanvasRenderingContext2D;
  const image = brush.createImageData(VEINS, VEINS);
  const tints = [
    [236, 224, 198],
    [79, 118, 112],
    [150, 66, 42],
  ] as const;
  for (let i = 0; i < VEINS * VEINS; i += 1) {
    const x = ((i % VEINS) / VEINS) * 2 * Math.PI;
    const y = (Math.floor(i / VEINS) / VEINS) * 2 * Math.PI;
    const bent = x + 0.9 * Math.sin(2 * y + 0.7 * Math.sin(3 * x)) + 0.35 * Math.sin(5 * y - 2 * x);
    const wave = Math.sin(3 * bent + 2 * Math.sin(2 * x + y));
    const vein = Math.abs(Math.sin(4 * bent + y + 1.6 * Math.sin(x - 2 * y)));
    const [base, green, red] = tints;
    for (let k = 0; k < 3; k += 1) {
      const ground = (base[k] ?? 0) + ((green[k] ?? 0) - (base[k] ?? 0)) * Math.max(0, wave) ** 2;
      image.data[i * 4 + k] = ground + ((red[k] ?? 0) - ground) * Math.max(0, 1 - vein * 5);
    }
    image.data[i * 4 + 3] = 255;
  }
  brush.putImageData(image, 0, 0);
  pen.drawImage(canvas, 0, 0, repeat, repeat);
};

const painters: Readonly<Record<PrintPattern, (sheet: Sheet) => void>> = {
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
  brick: (sheet) => {
    flood(sheet, '#cdbfa9');
    drawBricks(sheet);
    drawFibres(sheet, 0.06);
  },
  stripes: (sheet) => {
    flood(sheet, tones.paper);
    drawBands(sheet, '#4f7c86', true);
    drawFibres(sheet, 0.05);
  },
  checks: (sheet) => {
    flood(sheet, tones.paper);
    drawBands(sheet, 'rgba(163, 62, 48, 0.55)', true);
    drawBands(sheet, 'rgba(163, 62, 48, 0.55)', false);
    drawFibres(sheet, 0.05);
  },
  marbled: (sheet) => {
    drawVeins(sheet);
    drawFibres(sheet, 0.04);
  },
};

const pixels = 1024;

/** One tile of a print: its width and height are `across` repeats, its up is the paper's up. */
export const drawPrint = (pattern: PrintPattern): HTMLCanvasElement => {
  const canvas = document.createElement('canvas');
  canvas.width = pixels;
  canvas.height = pixels;
  const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
  const tile = prints[pattern].repeat * drawnPrints[pattern].across;
  pen.scale(pixels / tile, pixels / tile);
  painters[pattern]({ pen, repeat: tile, random: seedNoise(pattern.length * 131 + pattern.charCodeAt(0)) });
  return canvas;
};
