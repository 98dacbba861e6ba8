import { boxedRing, ringDepth } from '../geometry/convex-parts.ts';
import { alignSegments, apply2, compose2, inverse2, type Rigid2, rest2 } from '../geometry/rigid2.ts';
import type { Vec2 } from '../geometry/vector.ts';
import type { Issue } from '../issue.ts';
import { nearMiss } from '../project/near-miss.ts';
import { formatPath } from '../project/path.ts';
import type { SeamChoice, SeamChoices } from '../project/project.ts';
import { edgeName } from '../solid/edge-title.ts';
import type { Edge, Solid } from '../solid/solid.ts';
import { NOISE_MM } from '../tolerance.ts';
import { boundCarrier } from './choose-flaps.ts';
import type { Cluster } from './cut-graph.ts';
import { takesStrip } from './strip.ts';
import { endsOnPanel, type FlatSolid } from './unfold.ts';

/** How a seam is joined by hand; `on`: the face that is to carry its flap. */
export interface HandJoin {
  readonly join: Exclude<SeamChoice['join'], 'fold'>;
  readonly on: number | null;
}

/** What a maker has chosen for single edges, as far as it is possible. */
export interface HandCuts {
  /** Edges that stay joined, as the faces that they hold together. */
  readonly clusters: readonly Cluster[];
  readonly folds: ReadonlySet<number>;
  /** For each edge that is to be a seam how it is joined. */
  readonly seams: ReadonlyMap<number, HandJoin>;
  /** What was left out, and why. */
  readonly issues: readonly Issue[];
}

/**
 * Reads the choices of a layer against its solid, one after the other in the order of the file. A choice that is impossible by
 * itself, or beside those before it, is left out and named.
 */
export function readByHand(flatSolid: FlatSolid, choices: SeamChoices = {}): HandCuts {
  const { solid } = flatSolid;
  const edgeOf = new Map(solid.edges.map(({ id }, e) => [id, e]));
  const clusters = new Map<number, Cluster>();
  const folds = new Set<number>();
  const seams = new Map<number, HandJoin>();
  const issues: Issue[] = [];
  for (const [id, choice] of Object.entries(choices)) {
    const edge = edgeOf.get(id);
    const refuse = (why: Why): void => {
      issues.push({
        level: 'error',
        path: formatPath(['seams', id, ...(why.key ? [why.key] : [])]),
        ...(edge === undefined ? {} : { place: { edges: [id] } }),
        code: why.code,
        message: why.message,
        ...(why.remedy === undefined ? {} : { remedy: why.remedy }),
      });
    };
    if (edge === undefined) {
      refuse(unknownEdge(solid, id));
      continue;
    }
    const why = whyNotAlone(solid, edge, choice);
    if (why) refuse(why);
    else if (choice.join === 'fold') {
      const joined = joinClusters(flatSolid, clusters, edge);
      if ('code' in joined) refuse(joined);
      else {
        folds.add(edge);
        for (const face of joined.faces) clusters.set(face, joined);
      }
    } else {
      const on = choice.on === undefined ? null : solid.faces.findIndex((face) => face.id === choice.on);
      seams.set(edge, { join: choice.join, on });
    }
  }
  return { clusters: [...new Set(clusters.values())], folds, seams, issues };
}

/** Why a choice cannot be. */
interface Why {
  readonly code: string;
  /** The key of the choice that is wrong; missing: the choice as a whole. */
  readonly key?: 'join' | 'on';
  readonly message: string;
  readonly remedy?: string;
}

function unknownEdge({ edges }: Solid, id: string): Why {
  const meant = nearMiss(
    id,
    edges.map((edge) => edge.id),
  );
  return {
    code: 'seam-unknown',
    message: `This roof has no edge ${JSON.stringify(id)}.${meant ? ` Did you mean ${JSON.stringify(meant)}?` : ''}`,
    remedy: 'Take the id of an edge as the report and the bench name it, or leave the choice out.',
  };
}

/** Why an edge cannot be joined so, whatever is chosen for others; null where it can. */
function whyNotAlone(solid: Solid, index: number, { join, on }: SeamChoice): Why | null {
  const edge = solid.edges[index] as Edge;
  const [first, second] = edge.faces.map((f) => solid.faces[f] as Solid['faces'][number]);
  const named = `The ${edgeName(solid, index)}`;
  if (!first || !second) {
    return { code: 'seam-open', message: `${named} bounds one panel alone: there is nothing to fold or to join.` };
  }
  if (join === 'fold' && edge.role === 'abutment') {
    const message = `${named} cannot stay joined: the wall meets the inside of the slope, which goes on beyond it.`;
    return { code: 'fold-at-wall', key: 'join', message };
  }
  if (join === 'fold' && edge.via) {
    return {
      code: 'fold-curved',
      key: 'join',
      message: `${named} is curved: paper that is rolled does not fold along it.`,
    };
  }
  if (join === 'strip' && !takesStrip(edge)) {
    const message = `${named} is curved: a strip folded along its middle does not bend round it.`;
    return { code: 'strip-curved', key: 'join', message, remedy: 'Take flap or tape.' };
  }
  if (on === undefined) return null;
  if (join !== 'flap') {
    const message = `${named} has no flap that could be on a panel: its join is ${join}.`;
    return { code: 'seam-on-without-flap', key: 'on', message, remedy: 'Leave on out, or make the join flap.' };
  }
  if (on !== first.id && on !== second.id) {
    const meant = nearMiss(on, [first.id, second.id]);
    return {
      code: 'seam-on-elsewhere',
      key: 'on',
      message: `${named} may have its flap on "${first.id}" or "${second.id}", not on ${JSON.stringify(on)}.${meant ? ` Did you mean "${meant}"?` : ''}`,
    };
  }
  const bound = boundCarrier(solid, index);
  if (bound === null || solid.faces[bound]?.id === on) return null;
  const carrier = solid.faces[bound]?.title;
  return {
    code: 'flap-bound',
    key: 'on',
    message:
      edge.role === 'abutment'
        ? `${named} always has its flap on the wall, ${carrier}: the slope goes on beyond it.`
        : `${named} is curved: its teeth are on ${carrier}, whose edge is the hollower one, so that they spread.`,
  };
}

/** The clusters on both sides of an edge as one, or why they cannot be. */
function joinClusters(flatSolid: FlatSolid, clusters: ReadonlyMap<number, Cluster>, edge: number): Cluster | Why {
  const { solid, flat } = flatSolid;
  const { faces } = solid.edges[edge] as Edge;
  const [a, b] = faces as readonly [number, number];
  const alone = (face: number): Cluster => ({ faces: [face], folds: [], places: [rest2] });
  const [own, other] = [clusters.get(a) ?? alone(a), clusters.get(b) ?? alone(b)];
  if (own === other) {
    const message = `The ${edgeName(solid, edge)} cannot be a fold beside the other folds chosen: the panels between them would close a ring, which does not lie flat.`;
    return { code: 'fold-closes-ring', key: 'join', message, remedy: 'Make one edge of the ring a seam.' };
  }
  const ends = endsOnPanel(flatSolid, edge, a, flat[a] as readonly Vec2[]);
  const [start, end] = endsOnPanel(flatSolid, edge, b, flat[b] as readonly Vec2[]);
  const placeIn = (cluster: Cluster, face: number): Rigid2 => cluster.places[cluster.faces.indexOf(face)] as Rigid2;
  const back = inverse2(placeIn(other, b));
  const motion = compose2(compose2(placeIn(own, a), alignSegments(end, start, ...ends)), back);
  const moved = other.places.map((place) => compose2(motion, place));
  const ringOf = (face: number, place: Rigid2) =>
    boxedRing((flat[face] as readonly Vec2[]).map((p) => apply2(place, p)));
  const rings = own.faces.map((face, i) => ringOf(face, own.places[i] as Rigid2));
  const covered = other.faces.find((face, i) => {
    const ring = ringOf(face, moved[i] as Rigid2);
    return rings.some((laid) => ringDepth(ring, laid) > NOISE_MM / 2);
  });
  if (covered !== undefined) {
    const message = `The ${edgeName(solid, edge)} cannot be a fold beside the other folds chosen: laid flat, ${solid.faces[covered]?.title} would cover another panel.`;
    return { code: 'fold-covers', key: 'join', message, remedy: 'Make one of the folds a seam.' };
  }
  // The frame of a cluster is that of its first face.
  const together = [...own.faces, ...other.faces].map((face, i) => ({
    face,
    place: [...own.places, ...moved][i] as Rigid2,
  }));
  together.sort((p, q) => p.face - q.face);
  const home = inverse2(together[0]?.place ?? rest2);
  return {
    faces: together.map(({ face }) => face),
    places: together.map(({ place }, i) => (i === 0 ? rest2 : compose2(home, place))),
    folds: [...own.folds, ...other.folds, edge],
  };
}
