import { Canvas } from '@react-three/fiber';
import { createRoot } from 'react-dom/client';

/** The least that react and r3f can show: what the bench's first paint is measured against. */
const root = document.getElementById('root');
if (root) {
  createRoot(root).render(
    <Canvas>
      <mesh>
        <boxGeometry />
        <meshNormalMaterial />
      </mesh>
    </Canvas>,
  );
}
