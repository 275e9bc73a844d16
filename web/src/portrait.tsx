// SPDX-License-Identifier: GPL-3.0-or-later
// The lamp to scale from its own numbers: mast, panel at its tilt, box, head, base in the ground, a person of 1.7 m for size.
import type { MastSize } from "./mastask";
import { show } from "./numbers";
import type { MastAnswer } from "./shapes";
import { say } from "./words";

const PERSON_M = 1.7, TALL = 330, GROUND_SHARE_M = 1.0;

export function Portrait({ m, answer }: { m: MastSize; answer: MastAnswer }) {
  const depth = answer.base_depth_m ?? GROUND_SHARE_M, scale = TALL / (m.height + 0.9 + depth);
  const ground = 16 + (m.height + 0.6) * scale, foot = ground + depth * scale, x = 150, top = ground - m.height * scale;
  const pipe = Math.max(3, (m.diameter / 1000) * scale), collar = m.collar ? Math.max(pipe, m.collar * scale) : 0;
  const panel = Math.sqrt(m.panel) * scale, tilt = (m.tilt * Math.PI) / 180, dx = (Math.cos(tilt) * panel) / 2, dy = (Math.sin(tilt) * panel) / 2;
  const sway = ((answer.sway_mm ?? 0) / 1000) * scale;
  const box = 0.2 * scale, person = PERSON_M * scale, px = 262;
  return (
    <svg viewBox={`0 0 340 ${TALL + 34}`} class="plot portrait" role="img" aria-label={say("The mast to scale: {0} m above the ground, base {1} m deep, beside a person of 1.7 m.", show(m.height, 2), answer.base_depth_m ? show(depth, 2) : say("unknown"))}>
      <path d={`M0 ${ground}H340`} class="axis" /><rect x="0" y={ground} width="340" height={TALL + 34 - ground} class="soil" />
      {collar ? <rect x={x - collar / 2} y={ground} width={collar} height={depth * scale} class="concrete" /> : null}
      {sway > 1 ? <path d={`M${x} ${ground}Q${x} ${(ground + top) / 2} ${x + sway} ${top}`} class="swaying" stroke-width={pipe} /> : null}
      <path d={`M${x} ${foot}V${top}`} class="pole" stroke-width={pipe} />
      <path d={`M${x - dx} ${top - 6 + dy}L${x + dx} ${top - 6 - dy}`} class="sunpanel" />
      <rect x={x - box / 2 - pipe / 2} y={ground - m.height * 0.8 * scale} width={box} height={box * 1.2} class="block" />
      <path d={`M${x} ${top + 0.1 * scale}h${0.35 * scale}`} class="pole" stroke-width="3" /><path d={`M${x + 0.3 * scale} ${top + 0.1 * scale}h${Math.max(8, 0.2 * scale)}l3 6h${-Math.max(8, 0.2 * scale) - 6}z`} class="lamp" />
      <g class="person"><circle cx={px} cy={ground - person + 0.11 * scale} r={0.11 * scale} /><path d={`M${px} ${ground - person + 0.24 * scale}V${ground - person * 0.45}L${px - 0.14 * scale} ${ground}M${px} ${ground - person * 0.45}L${px + 0.14 * scale} ${ground}M${px - 0.22 * scale} ${ground - person * 0.55}L${px} ${ground - person + 0.34 * scale}L${px + 0.22 * scale} ${ground - person * 0.55}`} /></g>
      <path d={`M52 ${top}V${ground}m-5 0h10M47 ${top}h10`} class="axis" /><text x="44" y={(top + ground) / 2} class="right">{show(m.height, 2)} m</text>
      {answer.base_depth_m ? <><path d={`M52 ${ground}V${foot}m-5 0h10`} class="axis" /><text x="44" y={(ground + foot) / 2 + 4} class="right">{show(depth, 2)} m</text></> : null}
      {m.wind === undefined ? null : <><path d={`M8 ${top + 8}h26m-7 -5 7 5-7 5`} class="windarrow" /><text x="6" y={top - 4} class="left">{show(m.wind, 2)} m/s</text></>}
      {answer.verdict !== "falls" ? null : <path d={`M${x - 46} ${ground - 8}L${x + 60} ${top + 24}`} class="lid" />}
    </svg>
  );
}
