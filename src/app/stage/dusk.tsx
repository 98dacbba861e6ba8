import { useThree } from '@react-three/fiber';
import { type ReactNode, useEffect, useMemo } from 'react';
import {
  BackSide,
  BoxGeometry,
  CanvasTexture,
  Color,
  Fog,
  HemisphereLight,
  Mesh,
  MeshBasicMaterial,
  PlaneGeometry,
  PMREMGenerator,
  Scene,
  SphereGeometry,
  SpotLight,
  SRGBColorSpace,
} from 'three';
import { tones } from './tones.ts';

/** The workshop that steel and paper mirror: a warm lamp west, a cool window north-east, brown walls. Drawn once. */
const buildWorkshop = (): Scene => {
  const workshop = new Scene();
  const glow = (colour: string, strength: number): MeshBasicMaterial =>
    new MeshBasicMaterial({ color: new Color(colour).multiplyScalar(strength) });
  const walls = new Mesh(new SphereGeometry(50, 24, 16), glow('#8a7868', 0.9));
  walls.material.side = BackSide;
  const lamp = new Mesh(new PlaneGeometry(16, 12), glow(tones.lamp, 9));
  lamp.position.set(-24, -12, 26);
  lamp.lookAt(0, 0, 0);
  const panes = new Mesh(new PlaneGeometry(26, 14), glow(tones.dusk, 3.2));
  panes.position.set(22, 30, 16);
  panes.lookAt(0, 0, 0);
  const strip = new Mesh(new PlaneGeometry(60, 5), glow('#e8c79c', 2.6));
  strip.position.set(0, -18, 38);
  strip.lookAt(0, 0, 0);
  const floor = new Mesh(new BoxGeometry(90, 90, 1), glow('#1d1510', 0.6));
  floor.position.set(0, 0, -12);
  workshop.add(walls, lamp, panes, strip, floor);
  return workshop;
};

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

const disposeAll = (scene: Scene): void => {
  scene.traverse((thing) => {
    if (!(thing instanceof Mesh)) return;
    thing.geometry.dispose();
    (thing.material as MeshBasicMaterial).dispose();
  });
};

/** Lamplight and what is left of the day. `reach`: how far the things on the table spread from the origin, mm. */
export const Dusk = ({ reach, middle }: { readonly reach: number; readonly middle: readonly [number, number] }): ReactNode => {
  const gl = useThree((state) => state.gl);
  const scene = useThree((state) => state.scene);
  const invalidate = useThree((state) => state.invalidate);

  useEffect(() => {
    const generator = new PMREMGenerator(gl);
    const workshop = buildWorkshop();
    const mirrored = generator.fromScene(workshop, 0.03);
    disposeAll(workshop);
    generator.dispose();
    scene.environment = mirrored.texture;
    scene.environmentIntensity = 0.7;
    const evening = paintEvening();
    scene.background = evening;
    scene.fog = new Fog(tones.haze, 1e4, 1e5);
    invalidate();
    return () => {
      scene.environment = null;
      scene.background = null;
      mirrored.dispose();
      evening.dispose();
    };
  }, [gl, scene, invalidate]);

  const lamp = useMemo(() => {
    const light = new SpotLight(tones.lamp, 4, 0, 0.6, 1, 0);
    light.castShadow = true;
    light.shadow.mapSize.set(2048, 2048);
    light.shadow.bias = -0.0006;
    light.shadow.normalBias = 0.5;
    light.shadow.radius = 2.5;
    return light;
  }, []);
  const sky = useMemo(() => new HemisphereLight('#d2d7da', '#7a6452', 0.85), []);
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
      sky.dispose();
    },
    [lamp, sky],
  );
  return (
    <>
      <primitive object={lamp} />
      <primitive object={lamp.target} />
      <primitive object={sky} position={[0, 0, 1000]} />
    </>
  );
};
