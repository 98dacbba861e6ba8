import { useFrame, useThree } from '@react-three/fiber';
import { type ReactNode, type RefObject, useEffect, useImperativeHandle, useMemo, useRef } from 'react';
import { Fog, MOUSE, type PerspectiveCamera, TOUCH, Vector3 } from 'three';
import { OrbitControls } from 'three/addons/controls/OrbitControls.js';
import type { FoldClock } from './fold-clock.ts';
import { mixShots, type Shot, shotPosition } from './shot.ts';

/** What the keyboard asks of the camera. Angles in radians; `zoom` over 1 steps closer. */
export interface CameraHands {
  readonly turn: (azimuth: number, polar: number) => void;
  readonly zoom: (by: number) => void;
  readonly reset: () => void;
}

export interface CameraRigProps {
  readonly clock: FoldClock;
  /** Where the fold should come to. */
  readonly goal: number;
  /** The shot for a moment of the fold. */
  readonly frame: (t: number) => Shot;
  /** Changes whenever a maker's own camera should give way: view, roof or scrubber changed. */
  readonly scene: string;
  readonly reducedMotion: boolean;
  /** A finger or the mouse slides the table instead of walking round it: what lies on it is looked at from straight above. */
  readonly slides: boolean;
  readonly hands: RefObject<CameraHands | null>;
  /** Told when the maker takes the camera, and when it is taken back. */
  readonly onLookRound?: ((isByHand: boolean) => void) | undefined;
  readonly onFirstFrame?: (() => void) | undefined;
}

/** Seconds a change of place takes. */
const travel = 0.75;
/** The fold follows the scrubber with this rate, per second. */
const follow = 10;
const lowest = Math.PI / 2 - 0.035;

/** Where the camera stands now, whoever moved it. */
const shotOf = (camera: PerspectiveCamera, { x, y, z }: Vector3): Shot => {
  const away = new Vector3(x, y, z).sub(camera.position).negate();
  const distance = Math.max(away.length(), 1e-6);
  return {
    target: [x, y, z],
    azimuth: Math.atan2(away.x, -away.y),
    polar: Math.acos(Math.min(1, Math.max(-1, away.z / distance))),
    distance,
    fov: (camera.fov * Math.PI) / 180,
  };
};

const smooth = (s: number): number => s * s * s * (s * (s * 6 - 15) + 10);

/**
 * Moves fold and camera, and only draws while something moves. A maker may take the camera over at any time; it is
 * taken back at the next change of scene.
 */
export const CameraRig = (props: CameraRigProps): ReactNode => {
  const { clock, goal, frame, scene, reducedMotion, slides, hands, onLookRound, onFirstFrame } = props;
  const camera = useThree((state) => state.camera) as PerspectiveCamera;
  const canvas = useThree((state) => state.gl.domElement);
  const invalidate = useThree((state) => state.invalidate);
  const controls = useMemo(() => {
    const made = new OrbitControls(camera);
    made.enableDamping = false;
    made.maxPolarAngle = lowest;
    made.screenSpacePanning = false;
    return made;
  }, [camera]);
  const state = useRef({ byHand: false, from: null as Shot | null, moved: 1, drawn: false, scene: '' });

  useEffect(() => {
    controls.connect(canvas);
    const take = (): void => {
      state.current.byHand = true;
      state.current.moved = 1;
      onLookRound?.(true);
    };
    const redraw = (): void => invalidate();
    controls.addEventListener('start', take);
    controls.addEventListener('change', redraw);
    return () => {
      controls.removeEventListener('start', take);
      controls.removeEventListener('change', redraw);
      controls.disconnect();
    };
  }, [controls, canvas, invalidate, onLookRound]);

  useEffect(() => {
    controls.mouseButtons.LEFT = slides ? MOUSE.PAN : MOUSE.ROTATE;
    controls.mouseButtons.RIGHT = slides ? MOUSE.ROTATE : MOUSE.PAN;
    controls.touches.ONE = slides ? TOUCH.PAN : TOUCH.ROTATE;
    controls.zoomToCursor = slides;
  }, [controls, slides]);

  const apply = (shot: Shot): void => {
    const [x, y, z] = shotPosition(shot);
    camera.position.set(x, y, z);
    camera.fov = (shot.fov * 180) / Math.PI;
    controls.target.set(shot.target[0], shot.target[1], shot.target[2]);
    controls.minDistance = shot.distance * 0.12;
    controls.maxDistance = shot.distance * 3;
    controls.update();
  };

  // biome-ignore lint/correctness/useExhaustiveDependencies: moving the scrubber ends a look round by hand
  useEffect(() => {
    const now = state.current;
    if (now.scene !== scene || now.byHand) {
      // The first shot of all is taken at once; later ones are travelled to.
      if (now.scene !== '') {
        now.from = shotOf(camera, controls.target);
        now.moved = reducedMotion ? 1 : 0;
      }
      now.scene = scene;
      now.byHand = false;
      onLookRound?.(false);
    }
  }, [scene, goal, reducedMotion, camera, controls, onLookRound]);

  // biome-ignore lint/correctness/useExhaustiveDependencies: each of these asks for a new picture
  useEffect(() => {
    canvas.dataset['moving'] = 'true';
    invalidate();
  }, [scene, goal, frame, canvas, invalidate]);

  useImperativeHandle(hands, () => {
    const byHand = (change: (shot: Shot) => Shot): void => {
      const shot = change(shotOf(camera, controls.target));
      state.current.byHand = true;
      state.current.moved = 1;
      onLookRound?.(true);
      const [x, y, z] = shotPosition(shot);
      camera.position.set(x, y, z);
      controls.update();
      invalidate();
    };
    return {
      turn: (azimuth, polar) => {
        byHand((shot) => ({
          ...shot,
          azimuth: shot.azimuth + azimuth,
          polar: Math.min(lowest, Math.max(0.0004, shot.polar + polar)),
        }));
      },
      zoom: (by) => {
        byHand((shot) => ({ ...shot, distance: shot.distance / by }));
      },
      reset: () => {
        const now = state.current;
        now.from = shotOf(camera, controls.target);
        now.moved = reducedMotion ? 1 : 0;
        now.byHand = false;
        onLookRound?.(false);
        invalidate();
      },
    };
  });

  useFrame(({ scene: things }, delta) => {
    const now = state.current;
    const step = Math.min(delta, 0.1);
    const t = clock.now();
    const left = goal - t;
    const arrived = reducedMotion || !now.drawn || Math.abs(left) < 0.0008;
    clock.show(arrived ? goal : t + left * (1 - Math.exp(-follow * step)));
    if (!now.byHand) {
      now.moved = Math.min(1, now.moved + step / travel);
      const wanted = frame(clock.now());
      const shot = now.from !== null && now.moved < 1 ? mixShots(now.from, wanted, smooth(now.moved)) : wanted;
      apply(shot);
    }
    const distance = camera.position.distanceTo(controls.target);
    camera.near = distance * 0.08;
    camera.far = distance * 12;
    camera.updateProjectionMatrix();
    if (things.fog instanceof Fog) {
      const reach = distance * Math.tan((camera.fov * Math.PI) / 360);
      things.fog.near = distance + reach * 1.1;
      things.fog.far = distance + reach * 9;
    }
    const moving = clock.now() !== goal || (!now.byHand && now.moved < 1);
    if (moving) invalidate();
    canvas.dataset['moving'] = String(moving);
    if (!now.drawn) {
      now.drawn = true;
      if (onFirstFrame !== undefined) requestAnimationFrame(onFirstFrame);
      invalidate();
    }
  }, -1);

  return null;
};
