import { NOISE_RAD } from '../tolerance.ts';

const winds = [
  'north',
  'north-north-east',
  'north-east',
  'east-north-east',
  'east',
  'east-south-east',
  'south-east',
  'south-south-east',
  'south',
  'south-south-west',
  'south-west',
  'west-south-west',
  'west',
  'west-north-west',
  'north-west',
  'north-north-west',
] as const;

/** Name of the nearest wind of all 16, or of the 8 or 4 main ones, for a plan direction; y points north and x east. */
export function windOf(x: number, y: number, among: 4 | 8 | 16 = 16): string {
  const fromNorth = Math.atan2(x, y);
  const index = Math.round(((fromNorth + NOISE_RAD) / (2 * Math.PI)) * among) * (winds.length / among);
  return winds[(index + winds.length) % winds.length] as string;
}

/** The plan direction of a wind, of length 1: north is y; null where there is no such wind. */
export function directionOf(wind: string): readonly [number, number] | null {
  const index = winds.map(String).indexOf(wind);
  const fromNorth = (index * 2 * Math.PI) / winds.length;
  return index < 0 ? null : [Math.sin(fromNorth), Math.cos(fromNorth)];
}

/** First letter in upper case. */
export const titleCase = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
