import { useFrame, useThree } from '@react-three/fiber';
import { type ReactNode, useEffect } from 'react';
import { Vector3 } from 'three';
import type { Vec2 } from '../../core/geometry/vector.ts';
import { laying, type TableView } from '../laying/laying-store.ts';

/** Picture points by which what was published may be off before it is published anew. */
const NOTICED = 0.05;
/** Farther than this from straight down, radians, the page no longer lies over the table. */
const TILTED = 0.02;

/** Tells the page where the table lies under it while the camera looks straight down. `height` mm over the table. */
export const PlanSight = ({
  corners,
  height,
}: {
  readonly corners: readonly Vec2[];
  readonly height: number;
}): ReactNode => {
  const invalidate = useThree((state) => state.invalidate);
  useFrame(({ camera, size }) => {
    const at = (x: number, y: number): Vec2 => {
      const seen = new Vector3(x, y, height).project(camera);
      return [((seen.x + 1) / 2) * size.width, ((1 - seen.y) / 2) * size.height];
    };
    const down = camera.getWorldDirection(new Vector3());
    const isTilted = Math.hypot(down.x, down.y) > TILTED;
    const [left, top] = at(0, 0);
    const [right, across] = at(100, 0);
    const isTurned = Math.abs(across - top) > 1;
    publish(isTilted || isTurned ? null : { scale: (right - left) / 100, left, top, corners });
  });
  useEffect(() => {
    if (corners.length > 0) invalidate();
  }, [corners, invalidate]);
  useEffect(() => () => laying.setState({ view: null }), []);
  return null;
};

const publish = (view: TableView | null): void => {
  const { view: last } = laying.getState();
  const isSame =
    view === null
      ? last === null
      : last !== null &&
        last.corners === view.corners &&
        Math.abs(last.left - view.left) < NOTICED &&
        Math.abs(last.top - view.top) < NOTICED &&
        Math.abs(last.scale - view.scale) * 1000 < NOTICED;
  if (!isSame) laying.setState({ view });
};
