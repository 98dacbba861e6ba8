import { fail, succeed } from '../issue.ts';
import { raiseProfile } from './construct/profile-roof.ts';
import { wallLines } from './construct/rectangle-roof.ts';
import { defineRoof } from './definition.ts';
import { heightParams, riseFrom } from './height.ts';
import { checkWallBody, endsParam, gableFromBody, rectangleParams } from './outline.ts';

/** Two slopes that fall inward to a level valley. */
export const butterfly = defineRoof({
  id: 'butterfly',
  title: 'Butterfly',
  summary: 'Two slopes that fall from the front and the back to a level valley between them.',
  alsoCalled: ['V roof', 'inverted', 'valley'],
  params: [...rectangleParams, ...heightParams, endsParam],
  hasVerge: true,
  outlineFromBody: (body, overhang) => gableFromBody(body, overhang, 'along-width'),
  build: (values, body) => {
    const { width = 0, depth = 0, ends } = values;
    const unfit = checkWallBody(body, ends);
    if (unfit.length > 0) return fail(...unfit);
    const run = depth / 2;
    const rise = riseFrom(values, run);
    if (!rise.ok) return rise;
    const { south, east, north, west } = wallLines({ width, depth, body });
    const [eastMiddle, westMiddle] = [[east.from[0], 0] as const, [west.from[0], 0] as const];
    return succeed(
      raiseProfile({
        width,
        faces: [
          { id: 'south', title: 'South slope', from: [-run, rise.value], to: [0, 0] },
          { id: 'north', title: 'North slope', from: [0, 0], to: [run, rise.value] },
        ],
        // The valley comes down to the top of the body, so each end is closed by two walls.
        walls:
          ends === 'open'
            ? []
            : [
                { ...south, id: 'south-wall', title: 'South wall' },
                { id: 'east-wall-south', title: 'East wall, south half', from: east.from, to: eastMiddle },
                { id: 'east-wall-north', title: 'East wall, north half', from: eastMiddle, to: east.to },
                { ...north, id: 'north-wall', title: 'North wall' },
                { id: 'west-wall-north', title: 'West wall, north half', from: west.from, to: westMiddle },
                { id: 'west-wall-south', title: 'West wall, south half', from: westMiddle, to: west.to },
              ],
      }),
    );
  },
  examples: [
    { title: 'Ferry café', shape: { width: 118, depth: 86, pitch: 17 } },
    { title: 'Rowing club', shape: { width: 92, depth: 70, rise: 16, ends: 'open' } },
  ],
});
