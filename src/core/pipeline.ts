import type { Fit } from './fit/fit.ts';
import type { Issue } from './issue.ts';
import type { LaidSheet } from './layout/layout.ts';
import type { Net } from './net/net.ts';
import type { LayerSpec, Project, RoofSpec } from './project/project.ts';
import type { Solid } from './solid/solid.ts';

export interface MadeLayer {
  readonly spec: LayerSpec;
  /** Thickness that counts, mm. */
  readonly thickness: number;
  /** The surface this layer's panels are cut to. */
  readonly solid: Solid;
  readonly net: Net;
}

export interface MadeRoof {
  readonly spec: RoofSpec;
  /** Null where the shape has no roof; then the issues say why. */
  readonly made: { readonly solid: Solid; readonly layers: readonly MadeLayer[]; readonly fit: Fit } | null;
  readonly issues: readonly Issue[];
}

export interface Materials {
  readonly byStock: readonly { readonly stock: number; readonly sheets: number; readonly area: number }[];
  /** mm of seam joined by tape, of cutting and of scoring. */
  readonly tape: number;
  readonly cut: number;
  readonly score: number;
}

/** Everything that follows from a project. Plain data. */
export interface Production {
  readonly project: Project;
  readonly roofs: readonly MadeRoof[];
  readonly sheets: readonly LaidSheet[];
  readonly materials: Materials;
  /** Of the whole project and of every roof, in order. */
  readonly issues: readonly Issue[];
}
