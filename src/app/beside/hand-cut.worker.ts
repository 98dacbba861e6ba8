import { handCut } from '../../core/fit/hand-cut.ts';

/** Cuts many roofs in thought beside the page, so that the page stays at hand meanwhile. */
addEventListener('message', ({ data }: MessageEvent<{ layers: Parameters<typeof handCut>[0]; seed: number }>) => {
  postMessage(handCut(data.layers, data.seed));
});
