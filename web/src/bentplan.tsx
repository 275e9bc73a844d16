// SPDX-License-Identifier: GPL-3.0-or-later
// A bent lane or a polygon from above, true to scale: lux in the same steps as on a straight lane, numbers where there is room for them,
// that of the darkest point first. Masts are dragged or moved by arrow keys and keep looking at the lane.
import { useEffect, useId, useRef, useState } from "preact/hooks";
import { mastsOf, type LaneAsk, type Stand } from "./asks";
import { alongOf, areaOf, boxOf, cellsOn, holds, lengthOf, outlineOf, type Bent, type Cell, type Corner } from "./field";
import { show } from "./numbers";
import type { LaneLight, Mast } from "./shapes";
import { ACROSS_STEP_M, ALONG_STEP_M, arrow, BESIDE_MOST_M, luxText, rounded, step, STEPS, textOn } from "./steps";
import { say, sayMany } from "./words";

type Ground = LaneAsk & { field: Bent };
type Look = (c: Corner) => [x: number, y: number];
/** px round the picture: room for a mast's handle; and of a number. */
const EDGE = 28, TEXT_WIDE = 27, TEXT_TALL = 15, BOX = 29;

/** What lies there, for people who do not see the picture and for the form. */
export function groundInWords({ field, width_m }: Ground): string {
  if (field.line) return sayMany("A lane with {0} bend, {1} m long and {2} m wide.", "A lane with {0} bends, {1} m long and {2} m wide.", field.line.length - 2, show(lengthOf(field)), show(width_m));
  const { wide, tall } = boxOf(field.polygon);
  return sayMany("A field of {0} corner, {1} m by {2} m, {3} m².", "A field of {0} corners, {1} m by {2} m, {3} m².", field.polygon.length, show(wide), show(tall), show(areaOf(field.polygon)));
}

function placeInWords(m: Mast, { field, width_m }: Ground): string {
  if (!field.line) return say("x {0} m, y {1} m", show(m.x_m, 3), show(m.y_m, 3));
  const { along, across } = alongOf(field.line, m.x_m, m.y_m);
  if (across < 0) return say("{0} m along, {1} m beside the near edge", show(along, 3), show(-across, 2));
  return across > width_m ? say("{0} m along, {1} m beside the far edge", show(along, 3), show(across - width_m, 2)) : say("{0} m along, over the lane", show(along, 3));
}

/** px for a metre: the whole field on the screen; a lane at least 16 px wide, a large square by 4 px: then it scrolls. */
function scaleOf(field: Bent, width_m: number, wide: number, tall: number): number {
  const room = Math.min(672, Math.max(260, innerWidth - 32 - 2 * EDGE));
  return Math.max(Math.min(room / wide, 640 / tall, 40), field.line ? Math.min(40, 16 / width_m) : 4);
}

/** Points whose numbers have room: the darkest, then in their order, none under a mast or over the edge. */
function numbered(cells: Cell[], masts: Corner[], outline: Corner[], look: Look): { at: Corner; lux: number }[] {
  const points = cells.flatMap((c) => (c.measured ? [{ at: c.measured, lux: c.lux }] : [])), dots = masts.map(look), edge = outline.map(look), placed: { at: Corner; lux: number; x: number; y: number }[] = [];
  const darkest = points.reduce<(typeof points)[number] | undefined>((least, p) => (least && least.lux <= p.lux ? least : p), undefined);
  for (const point of darkest ? [darkest, ...points] : []) {
    const [x, y] = look(point.at), free = !placed.some((p) => Math.abs(p.x - x) < TEXT_WIDE && Math.abs(p.y - y) < TEXT_TALL);
    const inside = [[-9, 0], [9, 0], [0, -5], [0, 5]].every(([dx = 0, dy = 0]) => holds(edge, x + dx, y + dy)), covered = dots.some(([dx, dy]) => Math.abs(dx - x) < 22 && Math.abs(dy - y) < 16);
    if (free && (point === darkest || (inside && !covered))) placed.push({ ...point, x, y });
  }
  return placed;
}

function Steps({ y }: { y: number }) {
  return (
    <g aria-hidden="true">
      {[0, ...STEPS].map((lux, i) => (
        <g key={lux}><rect x={EDGE + i * BOX} y={y} width={BOX} height="14" class={`lux l${i}`} /><rect x={EDGE + i * BOX} y={y} width={BOX} height="14" class="edge" /><text x={EDGE + i * BOX} y={y + 27} class="tick left">{show(lux)}</text></g>
      ))}
      <text x={EDGE + BOX * 8 + 6} y={y + 12} class="tick left">lx</text>
    </g>
  );
}

function Light({ cells, look }: { cells: Cell[]; look: Look }) {
  const paths = STEPS.concat(Infinity).map(() => "");
  for (const cell of cells) paths[step(cell.lux)] += `M${cell.corners.map((c) => look(c).map((v) => v.toFixed(1)).join(" ")).join("L")}Z`;
  return <>{paths.map((d, i) => (d ? <path key={i} d={d} class={`lux l${i}`} /> : null))}</>;
}

export function BentPlan({ light, lane, set }: { light: LaneLight; lane: Ground; set: (at: Stand[]) => void }) {
  const masts = mastsOf(lane), picture = useRef<SVGSVGElement>(null), held = useRef(-1), [, again] = useState(0), clip = useId(), outline = outlineOf(lane), cells = cellsOn(lane, light.points);
  useEffect(() => {
    const anew = (): void => again((n) => n + 1);
    addEventListener("resize", anew);
    return () => removeEventListener("resize", anew);
  }, []);
  /* What is held must not shift the ground under it. */
  const kept = useRef(boxOf(outline));
  if (held.current < 0) kept.current = boxOf([...outline, ...masts.map((m): Corner => [m.x_m, m.y_m])]);
  const { x: x0, y: y0, wide, tall } = kept.current, scale = scaleOf(lane.field, lane.width_m, wide, tall), deep = tall * scale + 2 * EDGE, width = Math.max(wide * scale, 260) + 2 * EDGE, height = deep + 66;
  const look: Look = ([x, y]) => [EDGE + (x - x0) * scale, EDGE + (y0 + tall - y) * scale];
  const way = lane.field.line ? lengthOf(lane.field) : wide, bar = Math.min(10, Math.max(1, Math.floor(wide)));

  const moveTo = (i: number, x_m: number, y_m: number): void => {
    const ground = boxOf(outline), inside = (v: number, low: number, size: number): number => Math.max(low - BESIDE_MOST_M, Math.min(low + size + BESIDE_MOST_M, rounded(v, ACROSS_STEP_M)));
    set(masts.map((m, j): Stand => (j === i ? [inside(x_m, ground.x, ground.wide), inside(y_m, ground.y, ground.tall)] : lane.at?.[j] ?? [m.x_m, m.y_m, m.turn_deg, m.tilt_deg])));
  };
  const drag = (e: PointerEvent): void => {
    const box = picture.current?.getBoundingClientRect();
    if (held.current >= 0 && box) moveTo(held.current, x0 + ((e.clientX - box.left) * (width / box.width) - EDGE) / scale, y0 + tall - ((e.clientY - box.top) * (height / box.height) - EDGE) / scale);
  };
  const key = (e: KeyboardEvent, i: number): void => {
    const m = masts[i], by = arrow(e.key), size = ALONG_STEP_M * (e.shiftKey ? 10 : 1);
    if (!m || !by) return;
    e.preventDefault();
    moveTo(i, m.x_m + by[0] * size, m.y_m + by[1] * size);
  };
  const drop = (): void => { held.current = -1; again((n) => n + 1); };
  const shape = (corners: Corner[]): string => corners.map((c) => look(c).map((v) => v.toFixed(1)).join(",")).join(" ");
  return (
    <figure>
      <div class="scroll" tabIndex={0} role="region" aria-label={say("Plan of the lane")}>
        <svg ref={picture} viewBox={`0 0 ${width} ${height}`} width={width} height={height} class="laneplan" role="group" aria-label={say("{0} From above: mean {1} lux, darkest point {2} lux, brightest {3} lux.", groundInWords(lane), show(light.average_lx, 2), show(light.minimum_lx, 2), show(light.maximum_lx, 2))}>
          <clipPath id={clip}><polygon points={shape(outline)} /></clipPath>
          <g clip-path={`url(#${clip})`} aria-hidden="true"><Light cells={cells} look={look} /></g>
          <polygon points={shape(outline)} class="edge" />
          {numbered(cells, masts.map((m): Corner => [m.x_m, m.y_m]), outline, look).map((p) => <text key={p.at.join()} x={look(p.at)[0]} y={look(p.at)[1] + 4} class={textOn(p.lux)} aria-hidden="true">{luxText(p.lux)}</text>)}
          {masts.map((m, i) => {
            const [x, y] = look([m.x_m, m.y_m]), turn = m.turn_deg / (180 / Math.PI), along = lane.field.line ? alongOf(lane.field.line, m.x_m, m.y_m).along : m.x_m - x0;
            return (
              <g key={i} class="dragged" tabindex={0} role="slider" aria-label={say("Mast {0}", i + 1)} aria-valuemin={0} aria-valuemax={Number(way.toFixed(2))} aria-valuenow={Number(along.toFixed(2))} aria-valuetext={placeInWords(m, lane)}
                onPointerDown={(e) => { held.current = i; e.currentTarget.setPointerCapture(e.pointerId); e.preventDefault(); e.currentTarget.focus(); }}
                onPointerMove={(e) => { if (held.current === i) drag(e); }} onPointerUp={drop} onPointerCancel={drop} onKeyDown={(e) => key(e, i)}>
                <circle cx={x} cy={y} r="24" class="reach" />{m.tilt_deg === 0 ? null : <path d={`M${x} ${y}l${17 * Math.cos(turn)} ${-17 * Math.sin(turn)}`} class="facing" />}
                <circle cx={x} cy={y} r="10" class="mastdot" /><text x={x} y={y + 4} class="tick mastnumber">{i + 1}</text>
              </g>
            );
          })}
          <path d={`M${EDGE} ${deep + 10}h${bar * scale}m0 -4v8M${EDGE} ${deep + 6}v8`} class="axis" /><text x={EDGE + bar * scale + 6} y={deep + 14} class="tick left">{show(bar)} m</text>
          <Steps y={deep + 28} />
        </svg>
      </div>
      <figcaption>{say("From above and to scale, in lx; numbers stand at some of the points of the grid, at the darkest always. Drag a mast, or choose it and use the arrow keys: the light follows.")}</figcaption>
    </figure>
  );
}
