// SPDX-License-Identifier: GPL-3.0-or-later
// Bent lanes and polygons on the ground, as the lane document has them (docs/lane.md): where masts stand evenly, which way they look,
// the outline, and the cell of each point of the grid. Places follow core/light/layout_place.c, cells core/light/lane_grid.c.
import type { LaneAsk, Stand } from "./asks";
import type { LaneLight } from "./shapes";

export type Corner = [x_m: number, y_m: number];
/** line: the right-hand edge of a bent lane. */
export type Bent = { line: Corner[]; polygon?: undefined } | { polygon: Corner[]; line?: undefined };
interface Piece { x: number; y: number; length: number; cos: number; sin: number }
interface Shape { field: Bent; width_m: number }

const areCorners = (list: unknown, least: number): list is Corner[] =>
  Array.isArray(list) && list.length >= least && list.every((c: unknown) => Array.isArray(c) && c.length === 2 && c.every((v) => typeof v === "number" && Number.isFinite(v)));
/** The bent lane or polygon of a brief's wish, where it is one. */
export function bentOf(wish: Record<string, unknown>): Bent | undefined {
  const { line, polygon } = wish;
  if (areCorners(polygon, 3)) return { polygon };
  return areCorners(line, 2) && typeof wish["width_m"] === "number" ? { line } : undefined;
}
/** As the documents tell it. */
export const fieldOf = (a: LaneAsk): object => (a.field?.polygon ? a.field : a.field ? { ...a.field, width_m: a.width_m } : { length_m: a.length_m, width_m: a.width_m });
export const sameField = (a: LaneAsk, b: LaneAsk): boolean => JSON.stringify(fieldOf(a)) === JSON.stringify(fieldOf(b));

function piecesOf(field: Bent): Piece[] {
  const corners = field.polygon ? [...field.polygon, ...field.polygon.slice(0, 1)] : field.line;
  return corners.slice(1).map(([x2, y2], i) => {
    const [x, y] = corners[i] ?? [0, 0], length = Math.hypot(x2 - x, y2 - y);
    return { x, y, length, cos: (x2 - x) / length, sin: (y2 - y) / length };
  });
}
/** Along the line, or round the polygon. */
export const lengthOf = (field: Bent): number => piecesOf(field).reduce((sum, p) => sum + p.length, 0);
const at = (p: Piece, along: number, across: number): Corner => [p.x + along * p.cos - across * p.sin, p.y + along * p.sin + across * p.cos];
const DEG = 180 / Math.PI;

function twiceArea(corners: Corner[]): number {
  return corners.reduce((sum, [x, y], i) => { const [x2, y2] = corners[(i + 1) % corners.length] ?? [0, 0]; return sum + x * y2 - x2 * y; }, 0);
}
export const areaOf = (corners: Corner[]): number => Math.abs(twiceArea(corners)) / 2;

/** Masts spread evenly along the line or round the polygon, half a spacing from the ends. */
export function evenly({ field, width_m }: Shape, masts: number, side: string, beside_m: number): Stand[] {
  const pieces = piecesOf(field), spacing = lengthOf(field) / masts, inside = field.polygon && twiceArea(field.polygon) < 0 ? -1 : 1;
  return Array.from({ length: masts }, (_, k): Stand => {
    let along = spacing * (k + 0.5), i = 0;
    while (i + 1 < pieces.length && along > (pieces[i]?.length ?? 0)) along -= pieces[i++]?.length ?? 0;
    const p = pieces[i], far = !field.polygon && side === "staggered" && k % 2 === 1, over = !field.polygon && side === "middle";
    if (!p) return [0, 0];
    const [x, y] = at(p, along, inside * (over ? width_m / 2 : far ? width_m + beside_m : -beside_m)), turn = Math.atan2(p.sin, p.cos) * DEG + 90 * inside * (far ? -1 : 1);
    return [x, y, ((turn + 540) % 360) - 180];
  });
}

/** The place of a bent lane, so far left of its edge, that is nearest: on which piece, how far along it and the pieces before. */
function nearest(line: Corner[], left_m: number, x: number, y: number): { p: Piece; on: number; before: number; place: Corner } | undefined {
  let before = 0, least = Infinity, best: ReturnType<typeof nearest>;
  for (const p of piecesOf({ line })) {
    const on = Math.min(p.length, Math.max(0, (x - p.x) * p.cos + (y - p.y) * p.sin)), place = at(p, on, left_m), away = Math.hypot(x - place[0], y - place[1]);
    if (away < least) { least = away; best = { p, on, before, place }; }
    before += p.length;
  }
  return best;
}
/** Where a place lies along and across a bent lane: on its nearest piece. */
export function alongOf(line: Corner[], x: number, y: number): { along: number; across: number } {
  const near = nearest(line, 0, x, y);
  return near ? { along: near.before + near.on, across: (y - near.p.y) * near.p.cos - (x - near.p.x) * near.p.sin } : { along: 0, across: 0 };
}

/** From a place towards the middle of the lane nearest to it; of a polygon, the middle of its corners. */
export function towards({ field, width_m }: Shape, x: number, y: number): number {
  let to: Corner = (field.line && nearest(field.line, width_m / 2, x, y)?.place) ?? [0, 0];
  const corners = field.polygon ?? [];
  for (const [cx, cy] of corners) to = [to[0] + cx / corners.length, to[1] + cy / corners.length];
  return Math.atan2(to[1] - y, to[0] - x) * DEG;
}

/** tan of half the turn at a corner: two pieces meet at the line that halves it. */
function halfTurn(pieces: Piece[], corner: number): number {
  const a = pieces[corner - 1], b = pieces[corner];
  return a && b ? (a.cos * b.sin - a.sin * b.cos) / (1 + a.cos * b.cos + a.sin * b.sin) : 0;
}
/** Where a row so far to the left of a piece's line begins and ends. */
const rowOf = (pieces: Piece[], i: number, across: number): [from: number, to: number] => [across * halfTurn(pieces, i), (pieces[i]?.length ?? 0) - across * halfTurn(pieces, i + 1)];

export function outlineOf({ field, width_m }: Shape): Corner[] {
  if (field.polygon) return field.polygon;
  const pieces = piecesOf(field), left = pieces.map((p, i) => at(p, rowOf(pieces, i, width_m)[0], width_m)), last = pieces[pieces.length - 1];
  return [...field.line, ...(last ? [at(last, rowOf(pieces, pieces.length - 1, width_m)[1], width_m)] : []), ...left.reverse()];
}
/** Even-odd rule. */
export function holds(corners: Corner[], x: number, y: number): boolean {
  return corners.reduce((inside, [ax, ay], i) => {
    const [bx, by] = corners[(i + corners.length - 1) % corners.length] ?? [0, 0];
    return (ay > y) !== (by > y) && x < ((bx - ax) * (y - ay)) / (by - ay) + ax ? !inside : inside;
  }, false);
}
export function boxOf(corners: Corner[]): { x: number; y: number; wide: number; tall: number } {
  const xs = corners.map((c) => c[0]), ys = corners.map((c) => c[1]), x = Math.min(...xs), y = Math.min(...ys);
  return { x, y, wide: Math.max(...xs) - x, tall: Math.max(...ys) - y };
}

/** The ground for which a point stands; measured: where. Cells cut by a polygon's edge whose middle lies outside have no point: they show their neighbour's light. */
export interface Cell { corners: Corner[]; lux: number; measured?: Corner }
type Points = LaneLight["points"];

/** Points come piece by piece, step by step, from the right to the left. A sharp bend leaves no length to some rows. */
function stripCells(field: Bent, width_m: number, points: Points): Cell[] {
  const pieces = piecesOf(field), rows = Math.max(3, Math.ceil(width_m / 1.5 - 1e-9)), step = width_m / rows, cells: Cell[] = [];
  let next = 0;
  pieces.forEach((p, i) => {
    const there = Array.from({ length: rows }, (_, r) => r).filter((r) => { const [from, to] = rowOf(pieces, i, step * (r + 0.5)); return to > from; });
    const first = next;
    const fits = (k: number): boolean => {
      const point = points[k], r = there[(k - first) % there.length] ?? -1, [from, to] = rowOf(pieces, i, step * (r + 0.5));
      if (!point || r < 0) return false;
      const s = (point.x_m - p.x) * p.cos + (point.y_m - p.y) * p.sin, w = (point.y_m - p.y) * p.cos - (point.x_m - p.x) * p.sin;
      return Math.abs(w - step * (r + 0.5)) < 1e-4 && s > from - 1e-4 && s < to + 1e-4;
    };
    while (fits(next)) next++;
    const along = Math.floor((next - first) / Math.max(1, there.length));
    const corner = (a: number, w: number): Corner => { const [from, to] = rowOf(pieces, i, w); return at(p, from + (Math.max(0, to - from) * a) / along, w); };
    for (let k = first; k < next; k++) {
      const point = points[k], a = Math.floor((k - first) / there.length), low = step * (there[(k - first) % there.length] ?? 0);
      if (point) cells.push({ corners: [corner(a, low), corner(a + 1, low), corner(a + 1, low + step), corner(a, low + step)], lux: point.horizontal_lx, measured: [point.x_m, point.y_m] });
    }
  });
  return cells;
}

function polygonCells(polygon: Corner[], points: Points): Cell[] {
  const box = boxOf(polygon), wide = Math.max(10, Math.ceil(box.wide)), deep = Math.max(10, Math.ceil(box.tall)), dx = box.wide / wide, dy = box.tall / deep;
  const lux = new Map(points.map((p) => [Math.floor((p.y_m - box.y) / dy) * wide + Math.floor((p.x_m - box.x) / dx), p]));
  /* Cells through which an edge runs, looked at every twentieth of a cell. */
  const cut = new Set<number>(), within = (v: number): boolean => v - Math.floor(v) > 1e-6 && v - Math.floor(v) < 1 - 1e-6;
  for (const p of piecesOf({ polygon })) {
    const looks = Math.ceil(20 * p.length / Math.min(dx, dy));
    for (let n = 0; n <= looks; n++) {
      const [x, y] = at(p, (p.length * n) / looks, 0), u = (x - box.x) / dx, v = (y - box.y) / dy;
      if (within(u) && within(v)) cut.add(Math.floor(v) * wide + Math.floor(u));
    }
  }
  const beside = (i: number, j: number): Points[number] | undefined => {
    for (const [di, dj] of [[0, 0], [1, 0], [-1, 0], [0, 1], [0, -1], [1, 1], [-1, 1], [1, -1], [-1, -1]] as const)
      if (i + di >= 0 && i + di < wide && lux.has((j + dj) * wide + i + di)) return lux.get((j + dj) * wide + i + di);
    return undefined;
  };
  return Array.from({ length: wide * deep }, (_, k): Cell | null => {
    const i = k % wide, j = Math.floor(k / wide), x = box.x + i * dx, y = box.y + j * dy, point = beside(i, j), own = lux.get(k);
    return point && (own || cut.has(k)) ? { corners: [[x, y], [x + dx, y], [x + dx, y + dy], [x, y + dy]], lux: point.horizontal_lx, ...(own ? { measured: [own.x_m, own.y_m] } : {}) } : null;
  }).filter((cell) => cell !== null);
}

export const cellsOn = ({ field, width_m }: Shape, points: Points): Cell[] => (field.polygon ? polygonCells(field.polygon, points) : stripCells(field, width_m, points));
