import { type ReactElement, useEffect } from 'react';
import { laying } from '../laying/laying-store.ts';
import { NetDrawing } from './net-drawing.tsx';

/** In place of the stage: why there is none, and the net flat at true proportions. */
export const FlatInstead = (): ReactElement => {
  useEffect(() => laying.setState({ isFlat: true }), []);
  return (
    <div className="flat-instead">
      <div className="slip is-kind">
        <h2>Here the table stays flat.</h2>
        <p>
          This browser does not draw in 3D just now (no WebGL 2, or the table did not load). The net, the numbers and
          the prints are all here.
        </p>
      </div>
      <div className="flat-net">
        <NetDrawing />
      </div>
    </div>
  );
};
