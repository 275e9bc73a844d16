// SPDX-License-Identifier: GPL-3.0-or-later
// A straight lane from above: lux as even steps from ground to amber, with numbers at the points of the standard's grid. Masts are
// dragged, or moved by arrow keys. A long lane scrolls.
import { useRef } from "preact/hooks";
import { mastsOf, type LaneAsk, type Stand } from "./asks";
import { show } from "./numbers";
import type { LaneLight, Mast } from "./shapes";
import { ACROSS_STEP_M, ALONG_STEP_M, arrow, BESIDE_MOST_M, luxText, rounded, step, textOn } from "./steps";
import { say } from "./words";

function placeInWords(m: Mast, lane: LaneAsk): string {
  const along = show(m.x_m, 3);
  if (m.y_m < 0) return say("{0} m along, {1} m beside the near edge", along, show(-m.y_m, 2));
  if (m.y_m > lane.width_m) return say("{0} m along, {1} m beside the far edge", along, show(m.y_m - lane.width_m, 2));
  return say("{0} m along, over the lane", along);
}

export function LanePlan({ light, lane, set }: { light: LaneLight; lane: LaneAsk; set: (at: Stand[]) => void }) {
  const masts = mastsOf(lane), picture = useRef<SVGSVGElement>(null), held = useRef(-1);
  const xs = [...new Set(light.points.map((p) => p.x_m))].sort((a, b) => a - b), ys = [...new Set(light.points.map((p) => p.y_m))].sort((a, b) => a - b);
  const dx = lane.length_m / Math.max(xs.length, 1), dy = lane.width_m / Math.max(ys.length, 1);
  const sx = Math.max(316 / lane.length_m, 26 / dx), sy = Math.max(34 / dy, 34);
  const beside = BESIDE_MOST_M * sy, tall = lane.width_m * sy, width = lane.length_m * sx + 40, height = tall + 2 * beside + 30, left = 20;
  const x = (m: number): number => left + m * sx, y = (m: number): number => beside + tall - m * sy;

  const side = (y_m: number): number => (y_m <= 0 ? -1 : y_m < lane.width_m ? 0 : 1);
  const moveTo = (i: number, x_m: number, y_m: number): void => {
    const at = masts.map((m, j): Stand => lane.at?.[j] ?? [m.x_m, m.y_m]), [, old, ...looks] = at[i] ?? [0, 0];
    const x = Math.max(0, Math.min(lane.length_m, rounded(x_m, ALONG_STEP_M / 5))), y = Math.max(-BESIDE_MOST_M, Math.min(lane.width_m + BESIDE_MOST_M, rounded(y_m, ACROSS_STEP_M)));
    at[i] = side(y) === side(old) ? [x, y, ...looks] : [x, y]; /* on the other side it looks the other way */
    set(at);
  };
  const drag = (e: PointerEvent): void => {
    const box = picture.current?.getBoundingClientRect();
    if (held.current < 0 || !box) return;
    moveTo(held.current, ((e.clientX - box.left) * (width / box.width) - left) / sx, (beside + tall - (e.clientY - box.top) * (height / box.height)) / sy);
  };
  const key = (e: KeyboardEvent, i: number): void => {
    const m = masts[i], by = arrow(e.key);
    if (!m || !by) return;
    e.preventDefault();
    moveTo(i, m.x_m + by[0] * ALONG_STEP_M * (e.shiftKey ? 10 : 1), m.y_m + by[1] * ACROSS_STEP_M);
  };
  return (
    <figure>
      <div class="scroll" tabIndex={0} role="region" aria-label={say("Plan of the lane")}>
        <svg ref={picture} viewBox={`0 0 ${width} ${height}`} width={width} height={height} class="laneplan" role="group" aria-label={say("The lane from above: mean {0} lux, darkest point {1} lux, brightest {2} lux.", show(light.average_lx, 2), show(light.minimum_lx, 2), show(light.maximum_lx, 2))}>
          {light.points.map((p) => (
            <g key={`${p.x_m} ${p.y_m}`} aria-hidden="true">
              <rect x={x(p.x_m - dx / 2)} y={y(p.y_m + dy / 2)} width={dx * sx + 0.5} height={dy * sy + 0.5} class={`lux l${step(p.horizontal_lx)}`} />
              <text x={x(p.x_m)} y={y(p.y_m) + 4} class={textOn(p.horizontal_lx)}>{luxText(p.horizontal_lx)}</text>
            </g>
          ))}
          <rect x={left} y={beside} width={lane.length_m * sx} height={tall} class="edge" />
          {masts.map((m, i) => (
            <g key={i} class="dragged" tabindex={0} role="slider" aria-label={say("Mast {0}", i + 1)} aria-valuemin={0} aria-valuemax={lane.length_m} aria-valuenow={m.x_m} aria-valuetext={placeInWords(m, lane)}
              onPointerDown={(e) => { held.current = i; e.currentTarget.setPointerCapture(e.pointerId); e.preventDefault(); e.currentTarget.focus(); }}
              onPointerMove={(e) => { if (held.current === i) drag(e); }} onPointerUp={() => { held.current = -1; }} onPointerCancel={() => { held.current = -1; }} onKeyDown={(e) => key(e, i)}>
              <circle cx={x(m.x_m)} cy={y(m.y_m)} r="24" class="reach" /><circle cx={x(m.x_m)} cy={y(m.y_m)} r="10" class="mastdot" /><text x={x(m.x_m)} y={y(m.y_m) + 4} class="tick mastnumber">{i + 1}</text>
            </g>
          ))}
          <path d={`M${left} ${height - 12}h${Math.min(10, lane.length_m) * sx}m0 -4v8M${left} ${height - 16}v8`} class="axis" /><text x={x(Math.min(10, lane.length_m)) + 6} y={height - 8} class="tick left">{show(Math.min(10, lane.length_m))} m</text>
        </svg>
      </div>
      <figcaption>{say("From above, in lx at the points where the standard measures; the width is drawn larger than the length. Drag a mast, or choose it and use the arrow keys: the light follows.")}</figcaption>
    </figure>
  );
}
