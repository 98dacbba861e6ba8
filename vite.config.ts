import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

/**
 * jspdf offers to draw web pages and pictures and loads these packages for it on demand. The PDF writer draws lines and
 * text only, so they stay out of the bundle.
 */
const leftOut = ['html2canvas', 'canvg', 'dompurify'];

const leaveOut = (packages: readonly string[]): Plugin => ({
  name: 'leave-out',
  enforce: 'pre',
  resolveId: (id) => (packages.includes(id) ? `\0left-out:${id}` : null),
  load: (id) => (id.startsWith('\0left-out:') ? 'export default undefined;' : null),
});

export default defineConfig({
  base: './',
  publicDir: false,
  plugins: [leaveOut(leftOut), react()],
  build: { target: 'es2022', chunkSizeWarningLimit: 1200 },
  worker: { format: 'es' },
});
