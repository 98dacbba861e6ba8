import { useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import { CanvasTexture, DirectionalLight, Fog, HemisphereLight, SpotLight, SRGBColorSpace } from 'three';
import { tones } from './tones.ts';

/** What shows beyond the table: the last light high up, a brown haze at the table's far edge, dark below. */
const paintEvening = (): CanvasTexture => {
  const canvas = document.createElement('canvas');
  canvas.width = 4;
  canvas.height = 256;
  const pen = canvas.getContext('2d') as CanvasRenderingContext2D;
  const wash = pen.createLinearGradient(0, 0, 0, 256);
  wash.addColorStop(0, '#36404a');
  wash.addColorStop(0.3, tones.haze);
  wash.addColorStop(0.75, tones.room);
  wash.addColorStop(1, '#0f0b09');
  pen.fillStyle = wash;
  pen.fillRect(0, 0, 4, 256);
  const texture = new CanvasTexture(canvas);
  texture.colorSpace = SRGBColorSpace;
  return texture;
};

/**
 * Lamplight from the south-west, a cool window in the north-east and what the walls give back. Plain lights: a mirrored
 * room costs seconds where the picture is drawn without a graphics card.
 * `reach`: how far the things on the table spread from `middle`, mm.
 */
export const Dusk = ({
  reach,
  middle,
}: {
  readonly reach: number;
  readonly middle: readonly [number, number];
}): ReactNode => {
  const scene = useThree((state) => state.scene);
  const invalidate = useThree((state) => state.invalidate);

  useEffect(() => {
    const evening = paintEvening();
    scene.background = evening;
    scene.fog = new Fog(tones.haze, 1e4, 1e5);
    invalidate();
    return () => {
      scene.background = null;
      evening.dispose();
    };
  }, [scene, invalidate]);

  const lamp = useMemo(() => {
    const light = new SpotLight(tones.lamp, 4.9, 0, 0.6, 1, 0);
    light.castShadow = true;
    light.shadow.mapSize.set(2048, 2048);
    light.shadow.bias = -0.0006;
    light.shadow.normalBias = 0.5;
    light.shadow.radius = 2.5;
    return light;
  }, []);
  const walls = useMemo(() => new HemisphereLight('#e6dccd', '#8d765f', 1.55), []);
  const panes = useMemo(() => new DirectionalLight(tones.dusk, 0.55), []);
  useEffect(() => {
    const [x, y] = middle;
    lamp.position.set(x - 1.25 * reach, y - 1.05 * reach, 2.9 * reach);
    lamp.target.position.set(x, y, 0);
    lamp.target.updateMatrixWorld();
    const distance = lamp.position.distanceTo(lamp.target.position);
    lamp.angle = Math.atan((2.5 * reach) / distance);
    lamp.shadow.camera.near = distance * 0.3;
    lamp.shadow.camera.far = distance * 1.8;
    lamp.shadow.camera.updateProjectionMatrix();
    invalidate();
  }, [lamp, reach, middle, invalidate]);
  useEffect(
    () => () => {
      lamp.dispose();
      walls.dispose();
      panes.dispose();
    },
    [lamp, walls, panes],
  );
  return (
    <>
      <primitive object={lamp} />
      <primitive object={lamp.target} />
      <primitive object={walls} position={[0, 0, 1000]} />
      <primitive object={panes} position={[700, 900, 500]} />
    </>
  );
};
