import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';

/**
 * jspdf offers to draw web pages and pictures, and to show its PDF in a page, and loads other code for it on demand,
 * some of it from a foreign server. The PDF writer draws lines and text only, so all of that stays out of the bundle.
 */
const leftOut = ['html2canvas', 'canvg', 'dompurify'];
const foreignAddress = /https:\/\/cdnjs\.cloudflare\.com[^'"`]*/g;

const trimJspdf = (): Plugin => ({
  name: 'trim-jspdf',
  enforce: 'pre',
  resolveId: (id) => (leftOut.includes(id) ? `\0left-out:${id}` : null),
  load: (id) => (id.startsWith('\0left-out:') ? 'export default undefined;' : null),
  transform: (code, id) => (id.includes('/jspdf/') ? { code: code.replace(foreignAddress, ''), map: null } : null),
});

export default defineConfig({
  base: './',
  publicDir: false,
  plugins: [trimJspdf(), react()],
  build: {
    target: 'es2022',
    chunkSizeWarningLimit: 1200,
    modulePreload: { polyfill: false },
    rolldownOptions: { treeshake: { moduleSideEffects: (id) => !/\/src\/(core|io)\//.test(id) } },
  },
  worker: { format: 'es', plugins: () => [trimJspdf()] },
});
