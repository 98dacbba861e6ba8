import { add2, dot3, sub3, type Vec2, type Vec3 } from '../geometry/vector.ts';
import { faceFrame, flattenFace } from '../solid/face-frame.ts';
import type { Solid } from '../solid/solid.ts';
import { type Ruler, roundToRuler } from '../units/units.ts';

/** Where a maker has drawn points of a solid's faces, in the faces' own frames (`faceFrame`), mm. */
export interface Marks {
  /** A point of a face's plane, by its vertex. */
  readonly of: (face: number, vertex: number) => Vec2;
  /** A length that is measured by itself, such as the straight edge of a rolled panel. */
  readonly length: (mm: number) => number;
}

/**
 * Every point by its distance along the panel's base and its height over it, each on the nearest mark of the ruler, the middle
 * of the base where it should be.
 */
export function ruledMarks(solid: Solid, ruler: Ruler): Marks {
  const mark = (mm: number): number => roundToRuler(mm, ruler).mark;
  const boxes = solid.faces.map((_, f) => {
    const flat = flattenFace(solid, f);
    const left = Math.min(...flat.map((p) => p[0]));
    const width = Math.max(...flat.map((p) => p[0])) - left;
    return { left, bottom: Math.min(...flat.map((p) => p[1])), shift: (width - mark(width)) / 2 };
  });
  return {
    of: (face, vertex) => {
      const { left, bottom, shift } = boxes[face] as (typeof boxes)[number];
      const [x, y] = inFrame(solid, face, vertex);
      return [left + shift + mark(x - left), bottom + mark(y - bottom)];
    },
    length: mark,
  };
}

/** Every point off by what `off` says, one panel not knowing of the other. */
export function cutMarks(solid: Solid, off: () => number): Marks {
  const drawn = new Map<string, Vec2>();
  return {
    of: (face, vertex) => {
      const key = `${face}/${vertex}`;
      const known = drawn.get(key);
      if (known) return known;
      const point = add2(inFrame(solid, face, vertex), [off(), off()]);
      drawn.set(key, point);
      return point;
    },
    length: (mm) => mm + off(),
  };
}

function inFrame(solid: Solid, face: number, vertex: number): Vec2 {
  const { origin, x, y } = faceFrame(solid, face);
  const away = sub3(solid.vertices[vertex] as Vec3, origin);
  return [dot3(away, x), dot3(away, y)];
}
