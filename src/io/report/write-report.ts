import { cutLayers } from '../../core/cut-layers.ts';
import { HAND_MM, handCut } from '../../core/fit/hand-cut.ts';
import type { Issue } from '../../core/issue.ts';
import type { LaidSheet, Placement } from '../../core/layout/layout.ts';
import type { MadeLayer, MadeRoof, SeatLayer } from '../../core/make-roof.ts';
import { restsOf, trimPlanOf } from '../../core/materials.ts';
import { cutEnds } from '../../core/net/cut-ends.ts';
import { type BoardCut, type Fold, flapEnds, type Net, type Piece } from '../../core/net/net.ts';
import type { Production } from '../../core/pipeline.ts';
import type { Solid } from '../../core/solid/solid.ts';
import { type Json, writeJson } from './write-json.ts';

/**
 * The report: everything a production holds, for other programs. Lengths in mm (model size), angles in degrees, areas
 * in mm². Faces, edges, roofs, stock and pieces are named by id; vertices and layers by index. The form is public:
 * `shared/` and the README describe it, `version` counts its changes.
 */
export const writeReport = (production: Production): string => `${writeJson(reportOf(production))}\n`;

const reportOf = (production: Production): Json => ({
  format: 'spirewright-report',
  version: 1,
  roofs: production.roofs.map((roof) => roofOf(production, roof)),
  sheets: production.sheets.map((sheet) => sheetOf(production, sheet)),
  materials: {
    byStock: production.materials.byStock.map(({ stock, sheets, area, used, price }) => ({
      stock: stockId(production, stock),
      sheets,
      area,
      used,
      price: price && { amount: price.amount, currency: price.currency },
    })),
    tape: production.materials.tape,
    cut: production.materials.cut,
    score: production.materials.score,
    glue: production.materials.glue,
  },
  issues: production.issues.map(issueOf),
});

/** A roof that could not be made has no solid, no layers and no figures; its issues say why. */
const roofOf = ({ project }: Production, { spec, made, issues }: MadeRoof): Json => ({
  id: spec.id,
  title: spec.title,
  kind: spec.kind,
  copies: spec.copies,
  solid: made === null ? null : solidOf(made.solid),
  layers: made === null ? [] : [...made.layers.map(layerOf), ...(made.seat ? [seatOf(made.seat)] : [])],
  fit: {
    ...(made === null ? { overhang: null, seamMismatch: null, peakGap: null } : fitOf(made, project.seed)),
    issues: issues.map(issueOf),
  },
});

const fitOf = ({ layers, fit }: NonNullable<MadeRoof['made']>, seed: number): { readonly [key: string]: Json } => ({
  overhang:
    fit.overhang === null
      ? null
      : {
          min: fit.overhang.min,
          max: fit.overhang.max,
          walls: fit.overhang.walls.map(({ id, distances }) => ({
            wall: id,
            min: Math.min(...distances),
            max: Math.max(...distances),
          })),
        },
  rest: fit.rest,
  eaves: fit.eaves,
  neighbours: fit.clearances.map(({ neighbour, distance }) => ({ side: neighbour.side, clearance: distance })),
  seat: fit.seat ? { play: fit.seat.play, min: fit.seat.marked.min, max: fit.seat.marked.max } : null,
  seamMismatch: fit.seamMismatch,
  peakGap: fit.peakGap,
  seams: fit.seams.map(({ layer, edge, mark, lengths, marked }) => ({
    layer,
    edge: edgeId(named(layers[layer], `layer ${layer}`).solid, edge),
    mark,
    lengths,
    marked,
  })),
  peaks: fit.peaks.map(({ layer, vertex, gap }) => ({ layer, vertex, gap })),
  handCut: handCutOf(layers, seed),
});

const handCutOf = (layers: readonly MadeLayer[], seed: number): Json => {
  const { median, ninetyFifth } = handCut(layers, seed);
  return { within: HAND_MM, median, ninetyFifth };
};

const solidOf = (solid: Solid): Json => ({
  vertices: solid.vertices,
  faces: solid.faces.map(({ id, title, loop, roll }) => ({ id, title, loop, smooth: roll ? true : undefined })),
  edges: solid.edges.map(({ id, ends, faces, role, length, dihedral }) => ({
    id,
    ends,
    faces: faces.map((face) => faceId(solid, face)),
    role,
    length,
    dihedral: dihedral === null ? null : degrees(dihedral),
  })),
});

/** Listed after the layers of the file; its solid holds the faces that it is glued to as well. */
const seatOf = (layer: SeatLayer): Json => ({
  ...(layerOf(layer) as { readonly [key: string]: Json }),
  as: 'seat',
  foot: layer.seat.foot,
  depth: layer.seat.depth,
});

const layerOf = ({ spec, thickness, solid, net }: MadeLayer): Json => ({
  as: spec.as,
  // One stock is named plainly; a list in order of preference stays a list, as in the project file.
  stock: spec.stock.length === 1 ? (spec.stock[0] ?? null) : spec.stock,
  thickness,
  solid: solidOf(solid),
  pieces: net.pieces.map((piece) => pieceOf(solid, piece)),
  closing: closingOf(solid, net),
});

/** The piece that goes on last, and the seam that is joined last where that piece carries a flap. */
const closingOf = (solid: Solid, { pieces, closing }: Net): Json =>
  closing && {
    piece: named(pieces[closing.piece], `piece ${closing.piece}`).id,
    seam: closing.seam === null ? null : edgeId(solid, closing.seam),
    reachable: closing.isReachable,
  };

const pieceOf = (solid: Solid, piece: Piece): Json => ({
  id: piece.id,
  same: piece.same,
  strip: piece.strip && edgeId(solid, piece.strip.edge),
  board: piece.board && boardOf(solid, piece, piece.board),
  outline: piece.outline,
  panels: piece.panels.map(({ face, polygon }) => ({ face: faceId(solid, face), polygon })),
  flaps: piece.flaps.map(({ edge, from, to, polygon }) => ({
    edge: edgeId(solid, edge),
    from: faceId(solid, from),
    to: faceId(solid, to),
    polygon,
  })),
  hems:
    piece.hems.length === 0
      ? undefined
      : piece.hems.map(({ edge, panel, polygon, angle }) => ({
          edge: edgeId(solid, edge),
          from: faceId(solid, named(piece.panels[panel], `panel ${panel}`).face),
          polygon,
          angle: degrees(angle),
        })),
  folds: [...piece.folds, ...foldOfStrip(piece)].map(({ edge, ends, kind, angle }) => ({
    edge: edgeId(solid, edge),
    ends,
    kind,
    angle: degrees(angle),
  })),
});

/**
 * How a panel of board is cut: its outside and inside surface in the frame of the outline, which is the wider of both, and its
 * edges in the order of the face's loop. The bevel has its sign (over 0 where the outside is wider), the tilt has none.
 */
const boardOf = (solid: Solid, piece: Piece, { thickness, outer, inner, edges }: BoardCut): Json => ({
  thickness,
  outer,
  inner,
  edges: edges.map(({ edge, cut, bevel, mitre, lap }, i) => ({
    edge: edgeId(solid, edge),
    cut,
    ends: cutEnds(piece, i),
    bevel: degrees(bevel),
    tilt: degrees(Math.abs(bevel)),
    mitre: mitre === null ? null : degrees(mitre),
    wider: bevel === 0 ? null : bevel > 0 ? 'outside' : 'inside',
    lap,
  })),
});

/** A strip is folded where its halves meet. */
const foldOfStrip = ({ strip, flaps }: Piece): readonly Pick<Fold, 'edge' | 'ends' | 'kind' | 'angle'>[] =>
  flaps.slice(0, strip ? 1 : 0).map((half) => ({ ...half, ends: flapEnds(half) }));

const sheetOf = (production: Production, sheet: LaidSheet): Json => ({
  stock: stockId(production, sheet.stock),
  index: sheet.index,
  width: sheet.width,
  height: sheet.height,
  outline: sheet.outline,
  used: sheet.used,
  placements: sheet.placements.map((placement) => placementOf(production, placement)),
  rests: restsOf(production.project, production.roofs, sheet).map(({ minX, minY, maxX, maxY }) => ({
    x: minX,
    y: minY,
    width: maxX - minX,
    height: maxY - minY,
  })),
  trimmer: production.project.layout.cuts === 'strips' ? trimmerOf(production, sheet) : undefined,
});

/** Straight cuts from edge to edge in order, and how many pieces they leave to the knife. */
const trimmerOf = ({ roofs }: Production, sheet: LaidSheet): Json => {
  const { cuts, byHand } = trimPlanOf(roofs, sheet);
  return { cuts: cuts.map(({ ends, stop }) => ({ ends, stop })), byHand: byHand.flat().length };
};

const placementOf = (
  production: Production,
  { roof, layer, piece, copy, x, y, rotation, locked }: Placement,
): Json => ({
  roof: named(production.roofs[roof], `roof ${roof}`).spec.id,
  layer,
  piece: named(cutLayers(named(production.roofs[roof], `roof ${roof}`))[layer]?.net.pieces[piece], `piece ${piece}`).id,
  copy,
  x,
  y,
  rotation: degrees(rotation),
  locked,
});

const issueOf = ({ level, code, path, numbers, message, remedy, place }: Issue): Json => ({
  level,
  code,
  path,
  numbers,
  message,
  remedy,
  place: place && { layer: place.layer, edges: place.edges, faces: place.faces },
});

const degrees = (radians: number): number => (radians * 180) / Math.PI;

const named = <T>(value: T | undefined, what: string): T => {
  if (value === undefined) throw new RangeError(`the production points at ${what}, which it does not hold`);
  return value;
};

const faceId = (solid: Solid, face: number): string => named(solid.faces[face], `face ${face}`).id;
const edgeId = (solid: Solid, edge: number): string => named(solid.edges[edge], `edge ${edge}`).id;
const stockId = (production: Production, stock: number): string =>
  named(production.project.stock[stock], `stock ${stock}`).id;
