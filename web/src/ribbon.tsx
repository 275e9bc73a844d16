// SPDX-License-Identifier: GPL-3.0-or-later
// The night ribbon: the whole year, one thin row a night, from dusk to dawn. Amber where the lamp burns, hatched from the moment it
// gives out. Beside it the charge that is left at the lowest of each night.
import { useMemo, useState } from "preact/hooks";
import { Choice, useId } from "./form";
import { month, months, show, whole, type Band } from "./numbers";
import { say } from "./words";

export interface Ribbon {
  years: number; dark_per_year: Band; dusk_h: number[]; dawn_h: number[]; steps: [until: number, level: number][][]; dark_share: number[];
  shown: { kind: "middle" | "worst"; draw: number; dark_nights: number; missing_share: number[]; lowest_share: number[] }[];
}

const FIRST = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334];
const ROW = 1.2, LEFT = 22, WIDTH = 236, TOP = 16, SIDE = 268, SIDE_WIDTH = 66;

function day(night: number): string {
  const m = FIRST.reduce((last, first, i) => (first <= night ? i : last), 0);
  return `${night - (FIRST[m] ?? 0) + 1} ${month(m)}`;
}
const clock = (hour: number): string => {
  const minutes = Math.round((hour % 24) * 60) % 1440;
  return `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
};

interface Step { from: number; to: number; level: number }
/** What is wanted in a night: steps of one level each. */
function wanted(r: Ribbon, night: number): Step[] {
  const dusk = r.dusk_h[night] ?? 0, steps: Step[] = [];
  for (const [until, level] of r.steps[night] ?? []) {
    steps.push({ from: steps[steps.length - 1]?.to ?? dusk, to: until, level });
  }
  return steps;
}

/** The hour at which it gives out when that share of the night's light is missing; the end of the night is what is lost. */
function givesOut(steps: Step[], missing: number): number {
  const all = steps.reduce((sum, s) => sum + s.level * (s.to - s.from), 0);
  let rest = missing * all;
  for (const s of [...steps].reverse()) {
    const light = s.level * (s.to - s.from);
    if (light >= rest) return s.level > 0 ? s.to - rest / s.level : s.to;
    rest -= light;
  }
  return steps[0]?.from ?? 0;
}

function paths(r: Ribbon, missing: number[]): { amber: Map<number, string>; dark: string } {
  const least = Math.min(...r.dusk_h), scale = WIDTH / (Math.max(...r.dawn_h) - least);
  const amber = new Map<number, string>();
  let dark = "";
  const box = (from: number, to: number, night: number): string =>
    `M${(LEFT + (from - least) * scale).toFixed(1)} ${(TOP + night * ROW).toFixed(1)}h${((to - from) * scale).toFixed(1)}v${ROW}h${((from - to) * scale).toFixed(1)}z`;
  for (let night = 0; night < 365; night++) {
    const steps = wanted(r, night), lost = missing[night] ?? 0, end = lost > 0.01 ? givesOut(steps, lost) : Infinity;
    for (const s of steps) {
      const level = Math.round(s.level * 10) / 10;
      if (level > 0 && s.from < end) amber.set(level, (amber.get(level) ?? "") + box(s.from, Math.min(s.to, end), night));
      if (s.to > end && s.level > 0) dark += box(Math.max(s.from, end), s.to, night);
    }
  }
  return { amber, dark };
}

/** Near the poles a day has no dusk, or the dark no end. */
const LEAST_H = 1 / 60;
export function story(r: Ribbon, night: number, shown: Ribbon["shown"][number] | undefined): string {
  const dusk = r.dusk_h[night] ?? 0, dawn = r.dawn_h[night] ?? 0;
  if (dawn - dusk < LEAST_H) return say("{0}: no night; it does not get dark enough for the lamp.", day(night));
  const times = dawn - dusk > 24 - LEAST_H ? say("Night of {0}: dark all day long.", day(night)) : say("Night of {0}: dusk {1}, dawn {2}.", day(night), clock(dusk), clock(dawn));
  if (!shown) return `${times} ${say("Dark in {0} of 100 years.", show((r.dark_share[night] ?? 0) * 100, 2))}`;
  const lost = shown.missing_share[night] ?? 0, left = say("The pack goes down to {0} %.", whole((shown.lowest_share[night] ?? 0) * 100));
  const end = lost > 0.01 ? say("The lamp gives out at about {0}. Light missing: {1} %.", clock(givesOut(wanted(r, night), lost)), whole(lost * 100)) : say("Lit to the end.");
  return `${times} ${end} ${left}`;
}

export function RibbonPicture({ ribbon: r }: { ribbon: Ribbon }) {
  const [which, setWhich] = useState("middle");
  const [night, setNight] = useState(() => r.dark_share.indexOf(Math.max(...r.dark_share)));
  const id = useId();
  const shown = r.shown.find((s) => s.kind === which);
  const missing = shown?.missing_share ?? [];
  const { amber, dark } = useMemo(() => paths(r, missing), [r, which]);
  const least = Math.min(...r.dusk_h), most = Math.max(...r.dawn_h), scale = WIDTH / (most - least);
  const side = shown ? shown.lowest_share : r.dark_share;
  const top = shown ? 1 : Math.max(0.1, ...r.dark_share);
  const line = side.map((v, n) => `${n ? "L" : "M"}${(SIDE + (v / top) * SIDE_WIDTH).toFixed(1)} ${(TOP + (n + 0.5) * ROW).toFixed(1)}`).join("");
  const pick = (e: MouseEvent): void => {
    const frame = (e.currentTarget as Element).getBoundingClientRect();
    const row = Math.floor((((e.clientY - frame.top) / frame.height) * 480 - TOP) / ROW);
    if (row >= 0 && row < 365) setNight(row);
  };
  const hours = [18, 21, 24, 27, 30].filter((h) => h > least + 0.3 && h < most - 0.3);
  return (
    <>
      <Choice label={say("The ribbon shows")} value={which} set={setWhich} of={[["middle", say("a middling year")], ["worst", say("the worst of the years")], ["all", say("how often each night is dark, of {0} years", r.years)]]} />
      <figure>
        <svg viewBox="0 0 340 480" class="ribbon" role="img" onClick={pick} aria-label={shown ? say("One year, {0} dark nights. The slider below tells each night in words.", shown.dark_nights) : say("How often each night is dark in {0} years.", r.years)}>
          <defs><pattern id="hatch" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="4" height="4" class="ember-ground" /><path d="M0 0h4" class="ember" stroke-width="3" /></pattern></defs>
          {[...amber].map(([level, path]) => <path key={level} d={path} class="burns" fill-opacity={0.25 + 0.75 * level} />)}
          {dark ? <path d={dark} fill="url(#hatch)" /> : null}
          <path d={`M${SIDE} ${TOP}v438M${SIDE + SIDE_WIDTH} ${TOP}v438`} class="rule" />
          <path d={line} class={shown ? "charge" : "often"} />
          {FIRST.map((first, m) => <text key={m} x="16" y={TOP + (first + 19) * ROW} class="tick right">{(months()[m] ?? "").slice(0, 1)}</text>)}
          {hours.map((h) => <g key={h}><path d={`M${LEFT + (h - least) * scale} ${TOP - 3}v444`} class="rule" /><text x={LEFT + (h - least) * scale} y="11" class="tick">{h % 24 === 0 ? "0" : h % 24} h</text></g>)}
          <text x={SIDE + SIDE_WIDTH} y="11" class="tick right">{shown ? say("charge left") : say("dark nights")}</text>
          <text x={SIDE} y="468" class="tick left">0</text><text x={SIDE + SIDE_WIDTH} y="468" class="tick right">{whole(top * 100)} %</text>
          <path d={`M${LEFT} ${TOP + (night + 0.5) * ROW}l-7 -4v8zM${LEFT + WIDTH} ${TOP + (night + 0.5) * ROW}l7 -4v8z`} class="here" />
        </svg>
        <figcaption>{say("January at the top, one row a night from dusk to dawn. Bright: full light; dimmer: turned down; hatched: the lamp has given out (drawn at the end of the night).")}</figcaption>
      </figure>
      <div class="field"><label for={id}>{say("Night of the year")}</label>
        <input id={id} type="range" min={0} max={364} value={night} aria-valuetext={day(night)} onInput={(e) => setNight(Number(e.currentTarget.value))} /></div>
      <p class="story" role="status">{story(r, night, shown)}</p>
    </>
  );
}
