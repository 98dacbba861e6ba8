/** Whether this browser can draw the stage (WebGL 2). Free of three, so that it can be asked before three is loaded. */
export const canDrawStage = (): boolean => {
  if (typeof document === 'undefined') return false;
  try {
    const context = document.createElement('canvas').getContext('webgl2');
    // Browsers keep few contexts alive: give this one back at once.
    context?.getExtension('WEBGL_lose_context')?.loseContext();
    return context !== null;
  } catch {
    return false;
  }
};
