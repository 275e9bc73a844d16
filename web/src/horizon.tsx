// SPDX-License-Identifier: GPL-3.0-or-later
// Hills, trees and roofs around the panel: typed for eight directions, or sighted along the long edge of the phone while turning.
import { useEffect, useRef, useState } from "preact/hooks";
import { LongField, NumberField, Say } from "./form";
import { plain, show, typedList, whole } from "./numbers";
import { bend, between, DIRECTIONS, pointing } from "./skyline";
import { say } from "./words";

const MOST_DEG = 80;
const compass = (): string[] => [say("north"), say("north-east"), say("east"), say("south-east"), say("south"), say("south-west"), say("west"), say("north-west")];

function Skyline({ heights, here }: { heights: number[]; here?: { direction_deg: number; height_deg: number } | undefined }) {
  const most = Math.max(30, ...heights) * 1.1, y = (deg: number): number => 92 - (Math.max(0, deg) / most) * 84, x = (deg: number): number => 6 + (deg / 360) * 328;
  const line = [...heights, heights[0] ?? 0].map((h, i) => `L${x(i * 10).toFixed(1)} ${y(h).toFixed(1)}`).join("");
  const highest = heights.indexOf(Math.max(...heights));
  return (
    <svg viewBox="0 0 340 112" class="plot" role="img" aria-label={heights.some((h) => h > 0) ? say("Skyline all around, highest {0} degrees in direction {1} degrees.", show(heights[highest], 2), highest * 10) : say("Skyline all around: open.")}>
      <path d={`M6 92${line}L334 92z`} class="hill" />
      <path d="M4 92h332" class="axis" />
      {compass().concat(compass()[0] ?? "").map((name, i) => (i % 2 === 0 ? <g key={i}><path d={`M${x(i * 45)} 92v4`} class="axis" /><text x={x(i * 45)} y="107" class={i === 0 ? "left" : i === 8 ? "right" : ""}>{name}</text></g> : null))}
      {here ? <path d={`M${x(here.direction_deg)} ${y(here.height_deg) - 8}v16m-8 -8h16`} class="sight" /> : null}
    </svg>
  );
}

type Asks = { requestPermission?: () => Promise<string> };
type Told = DeviceOrientationEvent & { webkitCompassHeading?: number };

function Pointing({ done }: { done: (heights: number[]) => void }) {
  const [here, setHere] = useState<{ direction_deg: number; height_deg: number } | null>(null);
  const [marks, setMarks] = useState<Map<number, number>>(new Map());
  const [word, setWord] = useState("");
  const north = useRef(0), raw = useRef(0);
  useEffect(() => {
    let stopped = false;
    const hear = (event: Event): void => {
      const { alpha, beta, webkitCompassHeading } = event as Told;
      if (alpha === null || beta === null) return;
      const told = pointing(webkitCompassHeading === undefined ? alpha : 360 - webkitCompassHeading, beta);
      raw.current = told.direction_deg;
      setWord("");
      setHere({ height_deg: told.height_deg, direction_deg: (told.direction_deg - north.current + 360) % 360 });
    };
    const kind = "ondeviceorientationabsolute" in window ? "deviceorientationabsolute" : "deviceorientation";
    const begin = async (): Promise<void> => {
      const gate = (window.DeviceOrientationEvent as unknown as Asks | undefined)?.requestPermission;
      if (gate && (await gate().catch(() => "denied")) !== "granted") return setWord(say("The phone does not let the page feel how it is held. Type the heights instead."));
      if (!stopped) { addEventListener(kind, hear); if (kind !== "deviceorientation") addEventListener("deviceorientation", hear); }
    };
    void begin();
    const late = setTimeout(() => setHere((h) => { if (!h) setWord(say("This device does not tell how it is held. Type the heights instead.")); return h; }), 2500);
    return () => { stopped = true; clearTimeout(late); removeEventListener(kind, hear); removeEventListener("deviceorientation", hear); };
  }, []);
  const mark = (): void => { if (here) setMarks((m) => new Map(m).set(Math.round(here.direction_deg / 10) % DIRECTIONS, Math.max(0, Math.min(MOST_DEG, Number(here.height_deg.toFixed(1)))))); };
  return (
    <div class="pointing">
      <p>{say("Stand where the panel will be. Look along the long edge of the phone as along a stick, at the top of a hill, tree or roof, and mark it. Turn a little, mark again, all the way round. Eight marks are enough.")}</p>
      <Say what={word} />
      {here ? <>
        <p class="big" role="status">{say("Direction {0}°, height {1}°", whole(here.direction_deg), whole(here.height_deg))}</p>
        <Skyline heights={between(marks)} here={here} />
        <div class="buttons">
          <button type="button" class="main" onClick={mark}>{say("Mark this height ({0} marked)", marks.size)}</button>
          <button type="button" onClick={() => { north.current = raw.current; }}>{say("I point north now")}</button>
        </div>
        <p class="hint">{say("Iron and magnets nearby turn the compass of a phone. If it is off, point along a known north line and say so.")}</p>
      </> : null}
      <div class="buttons"><button type="button" disabled={marks.size === 0} onClick={() => done(between(marks))}>{say("Take this skyline")}</button></div>
    </div>
  );
}

export function Horizon({ heights, set }: { heights: number[] | undefined; set: (heights: number[] | undefined) => void }) {
  const now = heights ?? new Array<number>(DIRECTIONS).fill(0);
  const [points, setPoints] = useState(false);
  const [text, setText] = useState<string | null>(null);
  const [wrong, setWrong] = useState("");
  const put = (next: number[]): void => set(next.some((h) => h > 0) ? next : undefined);
  const take = (): void => {
    const values = typedList(text ?? "");
    if (values?.length !== DIRECTIONS || values.some((v) => v < 0 || v > MOST_DEG)) return setWrong(say("Type 36 numbers from 0 to {0}, with spaces between; here are {1}.", MOST_DEG, values?.length ?? 0));
    setWrong("");
    put(values);
  };
  return (
    <>
      <Skyline heights={now} />
      <p class="hint">{say("How high hills, trees and roofs stand above the level line, seen from the panel. A hand's width at arm's length is about 10 degrees.")}</p>
      <div class="eight">{compass().map((name, e) => (
        <NumberField key={e} label={name.replace(/^./, (c) => c.toUpperCase())} unit={say("degrees")} value={now[Math.round(e * 4.5) % DIRECTIONS]} low={0} high={MOST_DEG} set={(v) => { if (v !== undefined) put(bend(now, e, v)); }} />
      ))}</div>
      <div class="buttons">
        {window.isSecureContext && "DeviceOrientationEvent" in window ? <button type="button" aria-expanded={points} onClick={() => setPoints(!points)}>{say("Point the phone")}</button> : null}
        {heights ? <button type="button" onClick={() => set(undefined)}>{say("Open all around")}</button> : null}
      </div>
      {points ? <Pointing done={(next) => { put(next); setPoints(false); }} /> : null}
      <details onToggle={(e) => setText(e.currentTarget.open ? now.map(plain).join(" ") : null)}><summary>{say("Every ten degrees")}</summary>
        {text === null ? null : <><LongField label={say("36 heights from north, clockwise")} rows={3} value={text} set={setText} /><Say what={wrong} /><div class="buttons"><button type="button" onClick={take}>{say("Take these heights")}</button></div></>}
      </details>
    </>
  );
}
