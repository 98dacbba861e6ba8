import type { Vec2 } from '../../src/core/geometry/vector.ts';
import { drawScene } from '../../src/core/guide/line-picture.ts';
import { isometric } from '../../src/core/guide/sight.ts';
import { solidScene } from '../../src/core/guide/solid-scene.ts';
import type { Solid } from '../../src/core/solid/solid.ts';

/** Size of a drawing without its border, and the border, pixels. */
const SIZE = 220;
const BORDER = 10;

/** A roof as lines on paper, seen from the front right and above; what lies behind a panel is left out. */
export function lineDrawing(solid: Solid, title: string): string {
  const { lines: parts, box: all } = drawScene(solidScene(solid), isometric);
  const [width, height] = [all.maxX - all.minX, all.maxY - all.minY];
  const scale = SIZE / Math.max(width, height);
  const show = ([x, y]: Vec2): string =>
    `${((x - all.minX) * scale + BORDER).toFixed(1)} ${((all.maxY - y) * scale + BORDER).toFixed(1)}`;
  const path = parts.map(([a, b]) => `M${show(a)}L${show(b)}`).join('');
  const [w, h] = [width, height].map((length) => Math.ceil(length * scale + 2 * BORDER)) as [number, number];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}" role="img">`,
    `<title>${title.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</title>`,
    `<rect width="${w}" height="${h}" rx="4" fill="#f6efdf"/>`,
    `<path d="${path}" fill="none" stroke="#2b2420" stroke-width="1.4" stroke-linecap="round"/>`,
    '</svg>\n',
  ].join('\n');
}
