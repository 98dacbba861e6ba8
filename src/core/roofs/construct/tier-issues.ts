import type { Issue } from '../../issue.ts';

export const wallSticksOut: Issue = {
  level: 'error',
  code: 'wall-sticks-out',
  path: 'shape.wall',
  message: 'The wall does not stand on the lower roof all round.',
  remedy: 'Make the wall smaller than the lower roof, or the lower roof larger.',
};

export const upperTooSmall: Issue = {
  level: 'error',
  code: 'upper-too-small',
  path: 'shape.upper',
  message: 'The upper roof does not cover the wall all round.',
  remedy: 'Give it an overhang, or a larger outline.',
};

export const upperHangsLow = (by: number): Issue => ({
  level: 'error',
  code: 'upper-hangs-low',
  path: 'shape.upper',
  numbers: { by },
  message: 'The upper roof hangs {by} below the eave of the lower one.',
  remedy: 'Make the wall higher by that, or the overhang of the upper roof smaller.',
});

export const wallOnCurve: Issue = {
  level: 'error',
  code: 'wall-on-curve',
  path: 'shape.wall',
  message: 'The wall meets a rolled panel, along which it cannot be cut straight.',
  remedy: 'Take a round wall, roofs of flat panels, or let the wall stand on a level top.',
};

export const roundWallUneven: Issue = {
  level: 'error',
  code: 'round-wall-uneven',
  path: 'shape.wall',
  message: 'A round wall needs a lower and an upper roof that are level all round it: cones, or level tops.',
  remedy: 'Take kinds on a round plan, or give the wall corners.',
};

export const tiersMeet = (by: number): Issue => ({
  level: 'error',
  code: 'tiers-meet',
  path: 'shape.wall',
  numbers: { by },
  message: 'The lower roof comes {by} through the upper one.',
  remedy: 'Make the wall higher by that, the lower roof flatter, or the overhang of the upper roof smaller.',
});
