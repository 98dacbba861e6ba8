/**
 * Cones and frusta of cones with printed figures. Sizes and areas in the source's unit, `unit` mm long; angles in degrees.
 * `pi`: what the source counts with, where not the full figure. `ends`: the discs that the printed area takes in.
 */
export interface RoundDevelopment {
  readonly name: string;
  readonly source: string;
  readonly unit: number;
  /** Radius at the eave, and at the top of a frustum. */
  readonly radius: number;
  readonly top?: number;
  readonly given: { readonly rise: number } | { readonly slant: number };
  readonly pi?: number;
  readonly ends?: 'top' | 'both';
  readonly printed: {
    readonly slant?: string;
    readonly rise?: string;
    /** Angle of the sector or of the part of a ring. */
    readonly sector?: string;
    /** Radii of that, from the eave and from the top. */
    readonly outer?: string;
    readonly inner?: string;
    /** Between two opposite rulings at the peak. */
    readonly apex?: string;
    readonly circumference?: string;
    readonly area?: string;
    /** Area with so much more, as a share. */
    readonly withLap?: { readonly share: number; readonly area: string };
  };
}

const INCH = 25.4;
const FOOT = 12 * INCH;
const CM = 10;
const METRE = 1000;
/** What old books count with. */
const FOUR_PLACES = 31416 / 1e4;
/** Radius of a circumference, where the print has no pi in it. */
const round = (circumference: number): number => circumference / (2 * Math.PI);

export const roundDevelopments: readonly RoundDevelopment[] = [
  {
    name: 'cone of 10 in, 12 in high',
    source: 'Geometry 2, Drawings and nets, ceemrr.com, p. 4 ex. 2',
    unit: INCH,
    radius: 5,
    given: { rise: 12 },
    printed: { slant: '13', sector: '138.5', area: '204.2' },
  },
  {
    name: 'cone with a right angle at its peak',
    source: 'Cones, anvilfire.com',
    unit: INCH,
    radius: 5,
    given: { rise: 5 },
    printed: { sector: '254.6' },
  },
  {
    name: 'cone rolled from a sector of 5 cm and 216°',
    source: 'assignmentexpert.com, geometry answer 112089',
    unit: CM,
    radius: 3,
    given: { slant: 5 },
    printed: { rise: '4', sector: '216', apex: '73.74', area: '47.12' },
  },
  {
    name: 'cone of 7 cm radius, slant 10 cm',
    source: 'NCERT, Mathematics, Class IX, ch. 13, example 4',
    unit: CM,
    radius: 7,
    given: { slant: 10 },
    pi: 22 / 7,
    printed: { area: '220' },
  },
  {
    name: 'cone of 12 cm radius, 16 cm high',
    source: 'NCERT, Mathematics, Class IX, ch. 13, example 5',
    unit: CM,
    radius: 12,
    given: { rise: 16 },
    pi: 3.14,
    printed: { slant: '20', area: '753.6' },
  },
  {
    name: 'corn cob of 2.1 cm radius, 20 cm long',
    source: 'NCERT, Mathematics, Class IX, ch. 13, example 6',
    unit: CM,
    radius: 2.1,
    given: { rise: 20 },
    pi: 22 / 7,
    printed: { slant: '20.11', area: '132.73' },
  },
  {
    name: 'cone of 10.5 cm, slant 10 cm',
    source: 'NCERT, Mathematics, Class IX, exercise 13.3, question 1',
    unit: CM,
    radius: 5.25,
    given: { slant: 10 },
    pi: 22 / 7,
    printed: { area: '165' },
  },
  {
    name: 'tent of 6 m radius, 8 m high',
    source: 'NCERT, Mathematics, Class IX, exercise 13.3, question 5',
    unit: METRE,
    radius: 6,
    given: { rise: 8 },
    pi: 3.14,
    printed: { area: '188.4' },
  },
  {
    name: 'round roof of 10 m, 4 m high',
    source: 'hackmath.net word problem 21823',
    unit: METRE,
    radius: 5,
    given: { rise: 4 },
    printed: { slant: '6.4031', area: '100.58', withLap: { share: 0.04, area: '104.603' } },
  },
  {
    name: 'cone of 5 in, slant 12 in',
    source: 'Longfield, Sheet Metal Drafting, 1921, art. 38',
    unit: INCH,
    radius: 2.5,
    given: { slant: 12 },
    pi: FOUR_PLACES,
    printed: { circumference: '15.7080' },
  },
  {
    name: 'cone of 19 ft 2 in, 21 ft high',
    source: '19th-century mensuration textbook, books.google 4mlaAAAAcAAJ, p. 76 ex. 2',
    unit: FOOT,
    radius: (19 + 1 / 6) / 2,
    given: { rise: 21 },
    pi: 22 / 7,
    printed: { area: '695' },
  },
  {
    name: 'duct from 8 in to 5 in over 4 in',
    source: 'Geometry 2, Drawings and nets, ceemrr.com, p. 6',
    unit: INCH,
    radius: 4,
    top: 2.5,
    given: { rise: 4 },
    printed: { outer: '11.39', inner: '7.12', sector: '126.4' },
  },
  {
    name: 'frustum of 18 cm and 6 cm round, slant 4 cm',
    source: 'NCERT, Mathematics, Class X, exercise 13.4, question 2',
    unit: CM,
    radius: round(18),
    top: round(6),
    given: { slant: 4 },
    printed: { area: '48' },
  },
  {
    name: 'fez of 10 cm and 4 cm radius, slant 15 cm',
    source: 'NCERT, Mathematics, Class X, exercise 13.4, question 3',
    unit: CM,
    radius: 10,
    top: 4,
    given: { slant: 15 },
    pi: 22 / 7,
    ends: 'top',
    printed: { area: '710.286' },
  },
  {
    name: 'bucket of 20 cm and 8 cm radius, 16 cm high',
    source: 'NCERT, Mathematics, Class X, exercise 13.4, question 4',
    unit: CM,
    radius: 20,
    top: 8,
    given: { rise: 16 },
    pi: 3.14,
    ends: 'top',
    printed: { area: '1959.36' },
  },
  {
    name: 'frustum of 15 cm and 5 cm radius, 24 cm high',
    source: 'CBSE class 10 sample paper 2019, question 29',
    unit: CM,
    radius: 15,
    top: 5,
    given: { rise: 24 },
    pi: 22 / 7,
    printed: { slant: '26', area: '1634.3' },
  },
  {
    name: 'frustum of 4 cm and 1 cm radius, slant 5 cm',
    source: 'Tamil Nadu class 10 mathematics, example 7.13',
    unit: CM,
    radius: 4,
    top: 1,
    given: { slant: 5 },
    pi: 22 / 7,
    printed: { area: '78.57' },
  },
  {
    name: 'frustum of 5 m and 2 m radius, 4 m high',
    source: 'Tamil Nadu class 10 mathematics, example 7.14',
    unit: METRE,
    radius: 5,
    top: 2,
    given: { rise: 4 },
    pi: 22 / 7,
    printed: { area: '110' },
  },
  {
    name: 'frustum of 8.4 ft and 6 ft round, slant 12.5 ft',
    source: '19th-century mensuration textbook, books.google ud82AAAAMAAJ, p. 174 ex. 1',
    unit: FOOT,
    radius: round(8.4),
    top: round(6),
    given: { slant: 12.5 },
    printed: { area: '90' },
  },
  {
    name: 'frustum of 3 ft and 2 ft radius, slant 16 ft, with both ends',
    source: '19th-century mensuration textbook, books.google ud82AAAAMAAJ, p. 174 ex. 2',
    unit: FOOT,
    radius: 3,
    top: 2,
    given: { slant: 16 },
    pi: FOUR_PLACES,
    ends: 'both',
    printed: { area: '292.1688' },
  },
  {
    name: 'frustum of 30 ft and 10 ft round, slant 20 ft',
    source: '19th-century mensuration textbook, books.google ud82AAAAMAAJ, p. 174 ex. 3',
    unit: FOOT,
    radius: round(30),
    top: round(10),
    given: { slant: 20 },
    printed: { area: '400' },
  },
  {
    name: 'frustum of 8 ft and 4 ft, slant 20 ft, with both ends',
    source: '19th-century mensuration textbook, books.google ud82AAAAMAAJ, p. 174 ex. 4',
    unit: FOOT,
    radius: 4,
    top: 2,
    given: { slant: 20 },
    pi: FOUR_PLACES,
    ends: 'both',
    printed: { area: '439.824' },
  },
  {
    name: 'frustum of 10 ft and 6 ft, slant 15.5 ft, with both ends',
    source: '18th or 19th-century mensuration textbook, books.google DPo2AAAAMAAJ, p. 185 ex. 2',
    unit: FOOT,
    radius: 5,
    top: 3,
    given: { slant: 15.5 },
    pi: FOUR_PLACES,
    ends: 'both',
    // The print has 496.3726; its own sum, 158 times 3.1416, ends in an 8.
    printed: { area: '496.373' },
  },
  {
    name: 'lighthouse of 20 ft and 12 ft, 30 ft high',
    source: 'lighthouse problem at mathhelpforum.com/geometry/180854 (probably Kern and Bland, Solid Mensuration)',
    unit: FOOT,
    radius: 10,
    top: 6,
    given: { rise: 30 },
    printed: { area: '1521.3' },
  },
];
