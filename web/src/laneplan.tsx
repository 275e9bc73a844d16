// SPDX-License-Identifier: GPL-3.0-or-later
// The lane from above: lux as even steps from ground to amber, with numbers at the points of the standard's grid. A long lane scrolls.
import { show } from "./numbers";
import type { LaneLight, Mast } from "./shapes";
import type { LaneAsk } from "./state";

/** Lux of the steps' upper ends: each about double the one before, as the eye counts. */
const STEPS = [0.2, 0.5, 1, 2, 5, 10, 20];
const step = (lux: number): number => STEPS.filter((s) => lux >= s).length;

export function LanePlan({ light, lane, masts }: { light: LaneLight; lane: LaneAsk; masts: Mast[] }) {
  const xs = [...new Set(light.points.map((p) => p.x_m))].sort((a, b) => a - b), ys = [...new Set(light.points.map((p) => p.y_m))].sort((a, b) => a - b);
  const dx = lane.length_m / Math.max(xs.length, 1), dy = lane.width_m / Math.max(ys.length, 1);
  const sx = Math.max(320 / lane.length_m, 26 / dx), sy = 34 / dy;
  const width = lane.length_m * sx + 20, tall = lane.width_m * sy, height = tall + 74;
  const y = (m: number): number => 34 + tall - m * sy;
  /* Masts stand a hand's width beside the lane; across, the drawing is not to scale. */
  const mastY = (m: Mast): number => (m.y_m < 0 ? 34 + tall + 14 : m.y_m > lane.width_m ? 20 : y(m.y_m));
  return (
    <figure>
      <div class="scroll" tabIndex={0} role="region" aria-label="Plan of the lane">
        <svg viewBox={`0 0 ${width} ${height}`} width={width} height={height} class="laneplan" role="img" aria-label={`The lane from above: mean ${show(light.average_lx, 2)} lux, darkest point ${show(light.minimum_lx, 2)} lux, brightest ${show(light.maximum_lx, 2)} lux.`}>
          {light.points.map((p) => (
            <g key={`${p.x_m} ${p.y_m}`}>
              <rect x={10 + (p.x_m - dx / 2) * sx} y={y(p.y_m + dy / 2)} width={dx * sx + 0.5} height={dy * sy + 0.5} class={`lux l${step(p.horizontal_lx)}`} />
              <text x={10 + p.x_m * sx} y={y(p.y_m) + 4} class={`tick on${step(p.horizontal_lx) > 4 ? "bright" : "dim"}`}>{show(p.horizontal_lx, p.horizontal_lx < 10 ? 1 : 2)}</text>
            </g>
          ))}
          <rect x="10" y="34" width={lane.length_m * sx} height={tall} class="edge" />
          {masts.map((m, i) => <g key={i}><circle cx={10 + m.x_m * sx} cy={mastY(m)} r="7" class="mastdot" /><text x={10 + m.x_m * sx} y={mastY(m) + 4} class="tick mastnumber">{i + 1}</text></g>)}
          <path d={`M10 ${height - 12}h${Math.min(10, lane.length_m) * sx}m0 -4v8M10 ${height - 16}v8`} class="axis" /><text x={16 + Math.min(10, lane.length_m) * sx} y={height - 8} class="tick left">{show(Math.min(10, lane.length_m))} m</text>
        </svg>
      </div>
      <figcaption>From above, in lx at the points where the standard measures. The round marks are masts; the width is drawn larger than the length.</figcaption>
    </figure>
  );
}
