import { Canvas } from '@react-three/fiber';
import { type KeyboardEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { NeutralToneMapping } from 'three';
import type { Place } from '../../core/issue.ts';
import type { LaidSheet, PieceKey } from '../../core/layout/layout.ts';
import type { MadeRoof } from '../../core/make-roof.ts';
import type { Stock } from '../../core/project/project.ts';
import type { Units } from '../../core/units/units.ts';
import type { CameraHands } from './camera-rig.tsx';
import type { Clear } from './frame-scene.ts';
import { TableScene } from './scene.tsx';
import { tones } from './tones.ts';

export interface StageProps {
  readonly roofs: readonly MadeRoof[];
  /** Index of the roof on the bench. */
  readonly selected: number;
  /** The scrubber, 0 flat to 1 on the body. */
  readonly t: number;
  readonly view: 'body' | 'roof' | 'paper' | 'set-out' | 'build';
  readonly units: Units;
  readonly sheets: readonly LaidSheet[];
  readonly stock: readonly Stock[];
  /** The sheets with what is under a hand this moment; missing: as in `sheets`. */
  readonly moving?: readonly LaidSheet[] | undefined;
  /** How prints go over the seams is drawn on the roof. */
  readonly showSeams?: boolean;
  /** The piece that is taken up. */
  readonly inHand?: PieceKey | null;
  /** Another number: the camera is taken back from the maker's hand. */
  readonly look?: number;
  /** Told when the maker takes the camera, and when it is taken back. */
  readonly onLookRound?: (isByHand: boolean) => void;
  /** What is lit on the roof on the bench. */
  readonly lit?: Place | null;
  /** The edge of a layer that the maker has pointed at. */
  readonly edgeAtHand?: { readonly layer: number; readonly edge: string } | null;
  /** Called with the edge of a layer that is pointed at, or with null for a point off every edge. */
  readonly onPoint?: (layer: number, edge: string | null) => void;
  readonly reducedMotion: boolean;
  /** Called once the first picture is drawn. */
  readonly onReady?: () => void;
  /** Picture points at each side that panels cover: the camera keeps what matters out from under them. */
  readonly clear?: Clear;
}

const turnStep = Math.PI / 24;

/** The keys of a focused stage: arrows walk round, plus and minus step closer or back, Home looks as at first. */
const turnByKey = (event: KeyboardEvent, hands: CameraHands | null): void => {
  if (hands === null || event.altKey || event.ctrlKey || event.metaKey) return;
  const moves: readonly (readonly [string, () => void])[] = [
    ['ArrowLeft', () => hands.turn(-turnStep, 0)],
    ['ArrowRight', () => hands.turn(turnStep, 0)],
    ['ArrowUp', () => hands.turn(0, -turnStep)],
    ['ArrowDown', () => hands.turn(0, turnStep)],
    ['+', () => hands.zoom(1.15)],
    ['=', () => hands.zoom(1.15)],
    ['-', () => hands.zoom(1 / 1.15)],
    ['Home', () => hands.reset()],
  ];
  const move = moves.find(([key]) => key === event.key)?.[1];
  if (move === undefined) return;
  event.preventDefault();
  move();
};

/** The board table in 3D. Fills its parent, which must be positioned and have a size. */
const Stage = (props: StageProps): ReactNode => {
  const { roofs, selected } = props;
  const frame = useRef<HTMLDivElement>(null);
  const hands = useRef<CameraHands | null>(null);
  const [family, setFamily] = useState<string | null>(null);
  useEffect(() => {
    // Lettering on the table is set in the page's own type.
    if (frame.current !== null) setFamily(getComputedStyle(frame.current).fontFamily || 'serif');
  }, []);
  const title = roofs[selected]?.spec.title;
  return (
    <div
      ref={frame}
      role="img"
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the arrow keys turn the view while it has the focus
      tabIndex={0}
      aria-label={`The table${title === undefined ? '' : ` with ${title}`}. Arrow keys walk round it, plus and minus step closer or back, Home looks as at first.`}
      onKeyDown={(event) => turnByKey(event, hands.current)}
      style={{ position: 'absolute', inset: 0, background: tones.room }}
    >
      {family === null ? null : (
        <Canvas
          frameloop="demand"
          shadows="percentage"
          dpr={[1, 2]}
          onPointerMissed={() => props.onPoint?.(0, null)}
          gl={{ antialias: true, toneMapping: NeutralToneMapping, toneMappingExposure: 1 }}
          camera={{ up: [0, 0, 1], position: [0, -1, 1000], fov: 8, near: 10, far: 10_000 }}
        >
          <TableScene {...props} family={family} hands={hands} />
        </Canvas>
      )}
      <div
        aria-hidden
        style={{
          position: 'absolute',
          inset: 0,
          pointerEvents: 'none',
          background: 'radial-gradient(ellipse at 50% 46%, transparent 55%, rgb(10 6 3 / 0.55) 115%)',
        }}
      />
    </div>
  );
};

export default Stage;
