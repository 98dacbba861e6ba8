import { type ReactElement, useState } from 'react';
import { at } from '../../core/geometry/polygon.ts';
import { lerp2, sub2, unit2, type Vec2 } from '../../core/geometry/vector.ts';
import { formatLength, MM_PER_INCH, rulerStep } from '../../core/units/units.ts';
import { useStyle } from '../bench.ts';
import type { RoofAtHand } from '../places/use-roof.ts';
import { useSize } from '../use-size.ts';
import { PlanBox } from './plan-box.tsx';
import { PlanCorner } from './plan-corner.tsx';
import { addCorner, LEAST_CORNERS, moveCorner, type Rings, removeCorner, type Spot, sideLength } from './plan-edits.ts';
import { PlanLines, roofLines } from './plan-lines.tsx';
import { PlanPitch } from './plan-pitch.tsx';
import { lengthText } from './plan-text.ts';
import { fitPlan, type Label, type PlanView, placeLabels, type Room } from './plan-view.ts';
import type { PlanAtHand } from './use-plan.ts';

interface PlanDrawingProps {
  readonly plan: PlanAtHand;
  readonly hand: RoofAtHand;
  readonly room: Omit<Room, 'margin'>;
  /** What stands on the sides: in Body their lengths, in Roof the pitches of their eaves. */
  readonly says: 'lengths' | 'pitches';
  readonly describedBy: string;
  /** A corner has been taken hold of. */
  readonly onChoose: (spot: Spot) => void;
}

export interface Side {
  readonly spot: Spot;
  readonly title: string;
  readonly id: string;
  readonly ends: readonly [Vec2, Vec2];
  /** Away from the building, page pixels, length 1. */
  readonly out: Vec2;
}

/** Boxes on the sides are about as wide as their text; the key of a gable stands beside them, on a narrow sheet below. */
const labelSize = (text: string, says: 'lengths' | 'pitches', isNarrow: boolean): Vec2 => {
  const width = Math.max(text.length, 3) * 8 + 30;
  if (says === 'lengths') return [width, 30];
  return isNarrow ? [width, 58] : [width + 28, 30];
};

/** Pixels within which a dragged corner is drawn into line with its neighbours. */
const CATCH = 5;
/** A label farther than this from its side has a line that leads to it, pixels. */
const FAR = 10;
/** What a label keeps clear of at a corner or the middle of a side, pixels. */
const HANDLE: Vec2 = [16, 16];
/** A side shorter than this on the page has no mark in its middle, pixels. */
const SHORT = 56;

/** The plan as large as the sheet has room for it. */
export const PlanOnSheet = (props: Omit<PlanDrawingProps, 'room'>): ReactElement => {
  const { ref, width, height } = useSize<HTMLDivElement>();
  return (
    <div ref={ref} className="sheet-body plan">
      {width > 0 && <PlanDrawing {...props} room={{ width, height }} />}
    </div>
  );
};

const titled = (title: string): string => `${title.charAt(0).toUpperCase()}${title.slice(1)}`;

const PlanDrawing = ({ plan, hand, room, says, describedBy, onChoose }: PlanDrawingProps): ReactElement => {
  const style = useStyle();
  /** The plan and its place on the page as they were when a hand took hold of a corner. */
  const [held, setHeld] = useState<{ readonly plan: PlanAtHand; readonly view: PlanView } | null>(null);
  const [spoken, setSpoken] = useState('');
  /** The corner that the keys go on with, as soon as it is there. */
  const [wanted, setWanted] = useState<Spot | null>(null);
  const isNarrow = room.width < 480;
  const step = rulerStep(style.ruler);
  const solid = hand.roof.made?.solid;
  const lines =
    solid === undefined || plan.made === null
      ? []
      : roofLines(solid, plan.made, plan.kept, hand.context.scale).filter(({ role }) => role !== 'foot');

  const fitted = fitPlan([...plan.rings.flat(), ...lines.flatMap(({ ends }) => ends)], {
    ...room,
    margin: [isNarrow ? 96 : 122, room.height < 220 ? 36 : isNarrow && says === 'pitches' ? 76 : 62],
  });
  // While a corner is held the paper lies still under it.
  const view = held?.view ?? fitted;

  const sides = plan.rings.flatMap((points, ring) =>
    points.map((_, index): Side => {
      const ends = [view.toPage(at(points, index)), view.toPage(at(points, index + 1))] as const;
      const [x, y] = unit2(sub2(ends[1], ends[0]));
      const { id = '', title = '' } = plan.names[ring]?.[index] ?? {};
      // The page's y runs down, so that counter-clockwise rings have their outside to the left of what is seen.
      const away: Vec2 = ring === 0 ? [-y, x] : [y, -x];
      return { spot: { ring, index }, id, title: titled(title), ends, out: away };
    }),
  );

  const textOf = ({ spot, id }: Side): string =>
    says === 'lengths' ? lengthText(sideLength(plan.rings, spot), style.units) : String(plan.said?.[id] ?? '00.00°');
  const labels = sides.map(
    (side): Label => ({
      at: lerp2(side.ends[0], side.ends[1], 0.5),
      out: side.out,
      size: labelSize(textOf(side), says, isNarrow),
    }),
  );
  const hasMiddle = ({ ends }: Side): boolean => says === 'lengths' && Math.hypot(...sub2(ends[1], ends[0])) > SHORT;
  const handles = [
    ...sides.map(({ ends }) => ends[0]),
    ...sides.filter(hasMiddle).map(({ ends }) => lerp2(ends[0], ends[1], 0.5)),
  ];
  const taken = handles.map((middle) => ({ middle, size: HANDLE }));
  const spots = placeLabels(labels, taken, { ...room, margin: [0, 0] });

  const leaders = labels.flatMap((label, i): [Vec2, Vec2][] => {
    const middle = spots[i]?.middle ?? label.at;
    return Math.hypot(...sub2(middle, label.at)) > (label.size[0] + label.size[1]) / 2 + FAR
      ? [[label.at, middle]]
      : [];
  });

  /** On the next mark of the ruler, or in line with a neighbour that is near. */
  const settle = (rings: Rings, { ring, index }: Spot, page: Vec2): Vec2 => {
    const points = rings[ring] ?? [];
    const neighbours = [at(points, index - 1), at(points, index + 1)];
    const free = view.toPlan(page);
    const along = (axis: 0 | 1): number => {
      const near = neighbours.map((p) => p[axis]).find((way) => Math.abs(way - free[axis]) * view.pixelsPerMm < CATCH);
      return near ?? Math.round(free[axis] / step) * step;
    };
    return [along(0), along(1)];
  };

  const hold = (): void => setHeld({ plan, view });
  const letGo = (): void => setHeld(null);

  /** In the middle of a side a corner is straight at first: it counts once it is moved, and the keys stay on it. */
  const add = (spot: Spot): void => {
    plan.edit(addCorner(plan.rings, spot));
    setWanted({ ...spot, index: spot.index + 1 });
  };

  const placeWords = (rings: Rings, { ring, index }: Spot): string => {
    const [x, y] = sub2(at(rings[ring] ?? [], index), at(rings[0] ?? [], 0));
    const far = (mm: number): string => formatLength(Math.abs(mm), style);
    return `${far(x)} to the ${x < 0 ? 'left' : 'right'} and ${far(y)} to the ${y < 0 ? 'front' : 'back'}`;
  };
  const cornerName = ({ ring, index }: Spot): string =>
    `${ring === 0 ? '' : `Court ${ring}, `}${ring === 0 ? 'Corner' : 'corner'} ${index + 1} of ${plan.rings[ring]?.length}`;

  return (
    <>
      <PlanLines
        rings={plan.rings}
        lines={lines}
        view={view}
        width={room.width}
        height={room.height}
        mark={style.units === 'in' ? MM_PER_INCH : 10}
        isRefused={plan.rings !== plan.kept}
        leaders={leaders}
      />
      <p className="unseen" role="status">
        {spoken}
      </p>
      {sides.map((side, i) => {
        const { spot } = side;
        const middle = lerp2(side.ends[0], side.ends[1], 0.5);
        const { middle: [left, top] = middle, isTight = false } = spots[i] ?? {};
        return (
          <div key={`${spot.ring} ${spot.index}`} className="plan-side">
            {says === 'lengths' && (
              <PlanCorner
                at={side.ends[0]}
                label={`${cornerName(spot)}, ${placeWords(plan.rings, spot)}`}
                describedBy={describedBy}
                sort="corner"
                onFocus={() => onChoose(spot)}
                onDragStart={hold}
                onDragEnd={letGo}
                onDrag={(page, gesture) => {
                  if (held === null) return;
                  const to = settle(held.plan.rings, spot, page);
                  held.plan.edit(moveCorner(held.plan.rings, spot, to), { drag: gesture });
                }}
                onStep={(right, back, gesture) => {
                  const [x, y] = at(plan.rings[spot.ring] ?? [], spot.index);
                  const edited = moveCorner(plan.rings, spot, [x + right * step, y + back * step]);
                  plan.edit(edited, { walk: gesture });
                  setSpoken(placeWords(edited.rings, spot));
                }}
                onRemove={() => {
                  const edited = removeCorner(plan.rings, spot);
                  setSpoken(
                    edited === null
                      ? `A plan has at least ${LEAST_CORNERS} corners.`
                      : `${cornerName(spot)} is taken away.`,
                  );
                  if (edited === null) return;
                  plan.edit(edited);
                  const left = edited.rings[spot.ring]?.length ?? 1;
                  setWanted({ ring: spot.ring, index: Math.min(spot.index, left - 1) });
                }}
                onAdd={() => add(spot)}
                isWanted={wanted?.ring === spot.ring && wanted.index === spot.index}
                onReached={() => setWanted(null)}
              />
            )}
            {hasMiddle(side) && (
              <PlanCorner
                at={middle}
                label={`Add a corner in the middle of the side ${side.title}`}
                describedBy={describedBy}
                sort="middle"
                onDragStart={hold}
                onDragEnd={letGo}
                onDrag={(page, gesture) => {
                  if (held === null) return;
                  const { rings } = addCorner(held.plan.rings, spot);
                  const point = settle(rings, { ring: spot.ring, index: spot.index + 1 }, page);
                  held.plan.edit(addCorner(held.plan.rings, spot, point), { drag: gesture });
                }}
                onAdd={() => add(spot)}
              />
            )}
            <div className={`plan-label ${isTight ? 'is-tight' : ''}`} style={{ left, top }}>
              {says === 'lengths' ? (
                <PlanBox
                  label={`Length of the side ${side.title}`}
                  quantity="length"
                  value={textOf(side)}
                  describedBy={describedBy}
                  onTake={(value, gesture) => value !== undefined && plan.setLength(spot, value, gesture)}
                />
              ) : (
                <PlanPitch plan={plan} hand={hand} side={side} describedBy={describedBy} />
              )}
            </div>
          </div>
        );
      })}
    </>
  );
};
