import { useThree } from '@react-three/fiber';
import { type ReactNode, type RefObject, useCallback, useMemo, useState } from 'react';
import { cutLayers } from '../../core/cut-layers.ts';
import type { WorkPlan } from '../../core/fold/approach.ts';
import { planWork } from '../../core/fold/work-plan.ts';
import type { Vec3 } from '../../core/geometry/vector.ts';
import { length2 } from '../../core/geometry/vector.ts';
import type { Place } from '../../core/issue.ts';
import { arrangeOnTable } from '../../core/net/arrange.ts';
import { BodyBlock } from './body-block.tsx';
import { BodySizes } from './body-sizes.tsx';
import { type CameraHands, CameraRig } from './camera-rig.tsx';
import { type Desk, planDesk } from './desk.ts';
import { Dusk } from './dusk.tsx';
import { finishLayer, seamsOf } from './finish.ts';
import { startFoldClock } from './fold-clock.ts';
import { FoldingNet } from './folding-net.tsx';
import { frameScene } from './frame-scene.ts';
import { LitNet } from './lit-net.tsx';
import { measureNet } from './measures.ts';
import { Neighbours } from './neighbours.tsx';
import { NetMeasures } from './net-measures.tsx';
import { usePapers } from './papers.ts';
import { PlanSight } from './plan-sight.tsx';
import { SHEETS_HIGH, SheetsOnTable } from './sheets-on-table.tsx';
import type { StageProps } from './stage.tsx';
import { roofReach, StandingBy } from './standing-by.tsx';
import { SteelRule, Tabletop } from './tabletop.tsx';
import { settleTown } from './town.ts';

export interface SceneProps extends StageProps {
  readonly family: string;
  readonly hands: RefObject<CameraHands | null>;
}

const clearSides = { left: 0, right: 0, top: 0, bottom: 0 };
const nowhere: readonly [] = [];
const noPlan = (): undefined => undefined;
/** Half the space between pieces on the table, mm: a measure lies in the middle of it. */
const measureRoom = 6;

/** Whether a place is on this layer; one on the roof itself is on all of them. */
const isOn = (place: Place | null, layer: number): boolean =>
  place !== null && (place.layer === undefined || place.layer === layer);

/** Everything on the table. Geometry is made again only when its own inputs change; movement never renders. */
export const TableScene = (props: SceneProps): ReactNode => {
  const { roofs, selected, t, view, units, sheets, stock, reducedMotion, family, hands, onReady } = props;
  const { lit = null, edgeAtHand = null, showSeams = false, onPoint } = props;
  const clear = props.clear ?? clearSides;
  const size = useThree((state) => state.size);
  const papers = usePapers();
  const roof = roofs[selected];
  const made = roof?.made ?? null;
  const body = roof?.spec.body ?? null;
  const rest = made?.fit.rest ?? 0;
  const layers = made?.layers ?? nowhere;
  // The seat goes on with the layer that it is glued to.
  const nets = useMemo(() => cutLayers({ made }), [made]);
  const spots = useMemo(() => arrangeOnTable(nets, body), [nets, body]);
  const plan = useMemo(() => {
    let plans: readonly WorkPlan[] | null = null;
    return (layer: number) => () => {
      plans ??= planWork(layers, body, rest);
      return plans[layer];
    };
  }, [layers, body, rest]);

  const onSheets = view === 'paper' || view === 'set-out';
  const laid = useMemo(() => {
    if (view !== 'set-out') return sheets;
    const own = sheets.find((sheet) => sheet.placements.some((placement) => placement.roof === selected));
    return own === undefined ? sheets.slice(0, 1) : [own];
  }, [sheets, selected, view]);
  const showSheets = onSheets && laid.length > 0;
  // Under a hand the sheets change many times a second: what they stand beside does not.
  const moving = view === 'paper' ? (props.moving ?? laid) : laid;
  const standing = props.inHand?.roof ?? selected;
  const reach = showSheets && view === 'paper' ? Math.max(...roofs.map(roofReach)) : 0;
  const sizes = moving.map(({ width, height }) => `${width} ${height}`).join();
  // biome-ignore lint/correctness/useExhaustiveDependencies: the sizes are all that the table is planned by
  const onTable = useMemo(() => (showSheets ? moving : nowhere), [sizes, showSheets]);

  const picture = useMemo(
    () => ({
      width: Math.max(80, size.width - clear.left - clear.right),
      height: Math.max(80, size.height - clear.top - clear.bottom),
    }),
    [size.width, size.height, clear.left, clear.right, clear.top, clear.bottom],
  );
  const desk = useMemo(
    (): Desk =>
      planDesk({
        nets: nets.map((layer, l) => ({ net: layer.net, spots: spots[l] ?? nowhere })),
        body,
        sheets: onTable,
        beside: reach,
        units,
        picture,
        isClose: showSheets && view === 'set-out',
      }),
    [nets, spots, body, onTable, reach, showSheets, units, picture, view],
  );
  const folding = useMemo(
    () =>
      nets.map((layer, index) => ({
        layer,
        index,
        finish: finishLayer({ roof: selected, layer: index, copy: 0 }, layer, sheets, stock),
        seams: showSeams ? seamsOf(layer, { roof: selected, layer: index, copy: 0 }, sheets, stock) : nowhere,
        plan: index < layers.length ? plan(index) : noPlan,
        order: { index: index < layers.length ? index : 0, count: layers.length },
        spots: spots[index] ?? nowhere,
      })),
    [nets, layers, selected, sheets, stock, plan, spots, showSeams],
  );
  const measures = useMemo(
    () =>
      nets.flatMap(({ net, solid }, l) =>
        measureNet(net, solid, spots[l] ?? nowhere, Math.min(11 * desk.point, measureRoom)),
      ),
    [nets, spots, desk.point],
  );

  const atHand = useMemo(() => (edgeAtHand === null ? null : { edges: [edgeAtHand.edge] }), [edgeAtHand]);
  const town = useMemo(() => {
    const others = roofs.flatMap((entry, i) => (i === selected || entry.made === null ? [] : [i]));
    const sizes = roofs.map((entry) => {
      const plan = [...(entry.spec.body?.outline ?? []), ...(entry.made?.solid.vertices ?? [])];
      return 2 * Math.max(20, ...plan.map((p) => length2([p[0], p[1]])));
    });
    const places = settleTown(others.length, Math.max(...sizes, 40));
    return places.map((at, i) => ({ roof: others[i] as number, at }));
  }, [roofs, selected]);

  const still = useMemo((): readonly Vec3[] => {
    if (body === null) return [];
    const outline = body.outline.flatMap(([x, y]): Vec3[] => [
      [x, y, 0],
      [x, y, body.height],
    ]);
    return outline;
  }, [body]);
  const crown = rest + Math.max(0, ...(made?.solid.vertices.map((v) => v[2]) ?? []));
  const goal = onSheets ? 0 : view === 'roof' ? t : 1;
  // Started once; the rig takes it from there.
  const [clock] = useState(() => startFoldClock(goal));
  const frame = useCallback(
    (now: number) =>
      frameScene({
        now,
        view: showSheets ? view : onSheets ? 'roof' : view,
        desk,
        still,
        folding: clock.points(),
        crown,
        size,
        clear,
        reducedMotion,
      }),
    [view, showSheets, onSheets, desk, still, crown, clock, size, clear, reducedMotion],
  );

  const spread = Math.max(
    desk.frame.maxX - desk.frame.minX,
    desk.frame.maxY - desk.frame.minY,
    showSheets ? 0 : (body?.height ?? 0) * 1.2,
  );
  const middleX = (desk.frame.minX + desk.frame.maxX) / 2;
  // The lamp hangs between the paper and the building.
  const middleY = ((desk.frame.minY + desk.frame.maxY) / 2) * (showSheets ? 1 : 0.55);
  const middle = useMemo(() => [middleX, middleY] as const, [middleX, middleY]);
  const breadth = body === null ? 0 : 2 * Math.max(...body.outline.map(length2));
  const sizePoint = Math.max(0.05, breadth / (0.44 * picture.width), crown / (0.48 * picture.height));

  return (
    <>
      <Dusk reach={spread * 0.62} middle={middle} />
      <Tabletop front={desk.front} reach={Math.max(spread, 300)} />
      <SteelRule rule={desk.rule} family={family} />
      <group visible={!showSheets}>
        {body === null ? null : <BodyBlock body={body} bold={view === 'body'} />}
        {folding.map(({ index, ...one }) => (
          <FoldingNet
            key={index}
            {...one}
            papers={papers}
            clock={clock}
            rest={rest}
            point={desk.point}
            family={family}
            ghost={view === 'body'}
            onPoint={onPoint === undefined ? undefined : (edge) => onPoint(index, edge)}
          />
        ))}
        {folding.map(({ index, finish: _, seams: __, ...one }) => (
          <LitNet
            key={index}
            {...one}
            places={[
              { place: isOn(lit, index) ? lit : null, tone: 'terracotta' },
              { place: edgeAtHand?.layer === index ? atHand : null, tone: 'verdigris' },
            ]}
            clock={clock}
            rest={rest}
            point={desk.point}
          />
        ))}
        {measures.length === 0 ? null : (
          <NetMeasures measures={measures} units={units} point={desk.point} family={family} clock={clock} />
        )}
        {view === 'body' && body !== null ? (
          <BodySizes body={body} units={units} point={sizePoint} family={family} />
        ) : null}
        <Neighbours roofs={roofs} town={town} sheets={sheets} stock={stock} papers={papers} />
      </group>
      {showSheets ? (
        <SheetsOnTable
          sheets={moving}
          corners={desk.sheets}
          roofs={roofs}
          stock={stock}
          papers={papers}
          point={desk.point}
          family={family}
          wrongSide={view === 'set-out'}
        />
      ) : null}
      {showSheets && view === 'paper' && roofs[standing] !== undefined ? (
        <>
          <StandingBy
            roof={roofs[standing]}
            index={standing}
            inHand={props.inHand ?? null}
            sheets={moving}
            stock={stock}
            papers={papers}
            at={desk.beside}
            line={Math.min(1, Math.max(0.2, desk.point))}
          />
          <PlanSight corners={desk.sheets} height={SHEETS_HIGH} />
        </>
      ) : null}
      <CameraRig
        clock={clock}
        goal={goal}
        frame={frame}
        scene={`${view}/${selected}/${props.look ?? 0}`}
        slides={showSheets && view === 'paper'}
        onLookRound={props.onLookRound}
        reducedMotion={reducedMotion}
        hands={hands}
        onFirstFrame={onReady}
      />
    </>
  );
};
