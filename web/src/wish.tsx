// SPDX-License-Identifier: GPL-3.0-or-later
// The brief as a form: lamps, when they burn, how many dark nights are bearable, what lies on the shelf. Everything else of the
// brief stays as it is and can be edited as text.
import { useState } from "preact/hooks";
import { alone } from "./carried";
import { Choice, LongField, NumberField, Say, TextField } from "./form";
import { whole } from "./numbers";
import { sentence } from "./problem";
import type { Brief, LampKind, Part, Span } from "./shapes";
import { kinds, soughtIn } from "./start";
import { change, useKnown } from "./state";
import { briefOf } from "./taken";
import { say, sayMany } from "./words";

const schedules: Record<string, { name: string; spans: Span[] }> = {
  full: { name: say("Full light from dusk to dawn"), spans: [] },
  late: { name: say("Turned down after 22:30"), spans: [{ from: "dusk", to: "22:30", level: 1 }, { from: "22:30", to: "dawn-1h", level: 0.35 }, { from: "dawn-1h", to: "dawn", level: 1 }] },
  evening: { name: say("Five hours after dusk, then off"), spans: [{ from: "dusk", to: "dusk+5h", level: 1 }] },
};
const scheduleOf = (spans: Span[] | undefined): string =>
  Object.keys(schedules).find((id) => JSON.stringify(schedules[id]?.spans) === JSON.stringify(spans ?? [])) ?? "own";

/** The lamps that light a lane: the plan finds their light. */
function Sought() {
  const chosen = useKnown().plan?.value.lane?.chosen;
  return <p class="hint wide">{say("The plan finds the light of each, so that the lane is lit as wished.")}{chosen ? ` ${sayMany("Last found: {0} lamp of {1} lm.", "Last found: {0} lamps of {1} lm.", chosen.masts, whole(chosen.lumens_each))}` : ""}</p>;
}

function Lamps({ brief, set }: { brief: Brief; set: (brief: Brief) => void }) {
  const list = kinds(brief);
  const put = (lamps: LampKind[]): void => {
    const { lumens: _all, ...want } = brief.want;
    set({ ...brief, want: { ...want, lamps } });
  };
  return (
    <fieldset><legend>{say("Lamps")}</legend>
      {list.map((kind, i) => {
        const edit = (part: Partial<LampKind>): void => put(list.map((old, j) => (i === j ? { ...old, ...part } : old)));
        const many = (count: number | undefined): void => put(list.map((old, j) => { const { count: _old, ...rest } = old; return i !== j ? old : count === undefined ? rest : { ...rest, count }; }));
        const sought = soughtIn(brief, kind);
        return (
          <div class="triple" key={i}>
            <TextField label={say("Kind")} value={kind.name ?? ""} set={(name) => edit({ name })} />
            {sought ? <NumberField label={say("How many")} value={kind.count} low={1} high={120} whole optional hint={say("Left out: the plan finds it.")} set={many} />
              : <NumberField label={say("How many")} value={kind.count ?? 1} low={1} high={120} whole set={(count) => many(count ?? 1)} />}
            {sought ? <Sought /> : <NumberField label={say("Light")} unit="lm" value={kind.lumens} low={5} high={20000} optional={kind.head_w !== undefined} set={(lumens) => edit(lumens === undefined ? {} : { lumens })} />}
            {list.length > 1 ? <button type="button" class="small" onClick={() => put(list.filter((_, j) => j !== i))} aria-label={say("Remove {0}", kind.name ?? String(i + 1))}>{say("Remove")}</button> : null}
          </div>
        );
      })}
      {list.length < 8 ? <button type="button" onClick={() => put([...list, { name: say("kind {0}", list.length + 1), count: 1, lumens: 400 }])}>{say("Add another kind of lamp")}</button> : null}
    </fieldset>
  );
}

function Shelf({ brief, set }: { brief: Brief; set: (brief: Brief) => void }) {
  const put = (what: "panels" | "cells", i: number, part: Partial<Part>): void =>
    set({ ...brief, shelf: { ...brief.shelf, [what]: brief.shelf[what].map((old, j) => (i === j ? { ...old, ...part } : old)) } });
  const money = brief.shelf.currency?.text ?? "";
  return (
    <fieldset><legend>{say("On the shelf")}</legend>
      {(["panels", "cells"] as const).map((what) => brief.shelf[what].map((part, i) => (
        <div class="triple" key={what + i}>
          <p class="part">{part.name ?? what}{part.capacity_ah ? <span class="quiet"> {part.capacity_ah} Ah</span> : null}</p>
          {typeof part["crate"] === "string" ? <p class="hint"><a href="#/pack">{say("from a crate, cell by cell")}</a></p> : <NumberField label={say("Pieces")} value={part.count ?? 0} low={0} high={1000000} whole set={(count) => put(what, i, { count: count ?? 0 })} />}
          <NumberField label={say("Price")} unit={money || say("each")} value={part.price} low={0} set={(price) => put(what, i, { price: price ?? 0 })} />
        </div>
      )))}
    </fieldset>
  );
}

function AsText({ brief, set }: { brief: Brief; set: (brief: Brief) => void }) {
  const [text, setText] = useState<string | null>(null);
  const [wrong, setWrong] = useState("");
  const take = (): void => {
    try {
      set(briefOf(text ?? ""));
      setText(null);
      setWrong("");
    } catch (error) { setWrong(sentence(error)); }
  };
  return (
    <details onToggle={(e) => setText(e.currentTarget.open ? JSON.stringify(brief, null, 1) : null)}>
      <summary>{say("The whole brief as text")}</summary>
      {text === null ? null : <>
        <LongField label={say("Brief")} hint={say("Chargers, drivers, boards, hills, dust: everything that a brief can say. What is wrong is told when you plan.")} rows={14} value={text} set={setText} />
        <Say what={wrong} />
        <button type="button" onClick={take}>{say("Take this text")}</button>
      </>}
    </details>
  );
}

export function Wish({ brief }: { brief: Brief }) {
  const set = (next: Brief): void => change({ brief: next });
  const want = (part: Brief["want"]): void => set({ ...brief, want: { ...brief.want, ...part } });
  const burning = scheduleOf(brief.want.schedule);
  const burn = (id: string): void => {
    const { schedule: _old, ...rest } = brief.want;
    const spans = schedules[id]?.spans;
    if (spans) set({ ...brief, want: spans.length ? { ...rest, schedule: spans } : rest });
  };
  return (
    <>
      <Lamps brief={brief} set={set} />
      <Choice label={say("When it burns")} value={burning} set={burn} hint={burning === "late" ? say("Full light to 22:30 and in the last hour before dawn, a third between.") : undefined}
        of={[...Object.entries(schedules).map(([id, s]): [string, string] => [id, s.name]), ...(burning === "own" ? [["own", say("As written in the brief")] as [string, string]] : [])]} />
      <div class="pair">
        <NumberField label={say("Dark nights that can be borne, typed")} unit={say("a year")} hint={say("A dark night: the lamp gives out before its time.")} value={brief.want.dark_nights_per_year ?? 5} low={0} high={200} set={(v) => want({ dark_nights_per_year: v ?? 5 })} />
        <NumberField label={say("The pack shall last")} unit={say("years")} value={brief.want.planned_years ?? 3} low={1} high={15} set={(v) => want({ planned_years: v ?? 3 })} />
      </div>
      <details><summary>{say("Parts on the shelf and their prices")}</summary><Shelf brief={brief} set={set} />{alone() ? null : <p><a href="#/prices">{say("Shelf and prices of the workshop")}</a></p>}</details>
      <AsText brief={brief} set={set} />
    </>
  );
}
