// SPDX-License-Identifier: GPL-3.0-or-later
// Several plans side by side: each is kept by a name with all that was typed for it, and can be opened again.
import { useState } from "preact/hooks";
import { alone } from "./carried";
import { Say, TextField } from "./form";
import { band, money, show, whole } from "./numbers";
import { openPlan } from "./opened";
import { kinds, soughtIn } from "./start";
import type { Brief, LampKind, Plan } from "./shapes";
import { inputsOf, useKnown, type Answered, type Inputs, type Known } from "./state";
import { atLaptop, say } from "./words";

export interface Kept { id: string; name: string; inputs: Inputs; plan?: Answered<Plan> | undefined; lux?: number | undefined; mast?: string | undefined }
const key = "lanewick.plans/1", MOST = 12;

export function plansKept(): Kept[] {
  try {
    const list: unknown = JSON.parse(localStorage.getItem(key) ?? "[]");
    return Array.isArray(list) ? (list as Kept[]) : [];
  } catch {
    return [];
  }
}
const of = (k: Known, id: string, name: string): Kept => ({ id, name, inputs: inputsOf(k), plan: k.plan, lux: k.light?.value.average_lx, mast: k.plan ? undefined : k.mast?.value.verdict });

export const madeBy = (plan: Plan): string => (plan.here ? say("this device, {0}", plan.program) : say("the laptop, {0}", plan.program));
/** With what a plan found for a lane. */
function lampsOf(brief: Brief, plan: Plan | undefined): LampKind[] {
  const chosen = plan?.lane?.chosen;
  return kinds(brief).map((kind) => (chosen && soughtIn(brief, kind) ? { ...kind, count: chosen.masts, lumens: chosen.lumens_each } : kind));
}
/** What the plan says of its own mast. */
const verdict = (mast: string | undefined): string => (mast === "stands" ? say("stands") : mast === "engineer" ? say("an engineer decides") : mast === "falls" ? say("refused") : say("not checked"));
function rows(plans: Kept[]): [name: string, cells: string[]][] {
  const each = (tell: (plan: Plan) => string): string[] => plans.map(({ plan }) => (plan && !plan.value.refused?.length && plan.value.lamps.length ? tell(plan.value) : plan?.value.refused?.length ? say("refused") : "–"));
  const many = (plan: Plan, tell: (lamp: Plan["lamps"][number]) => string): string => [...new Map(plan.lamps.map((l) => [l.kind, tell(l)])).values()].join("; ");
  return [
    [say("Lamps"), plans.map(({ inputs, plan }) => (inputs.brief ? lampsOf(inputs.brief, plan?.value).map((l) => `${l.count ?? 1} × ${l.lumens === undefined ? (l.name ?? say("lamp")) : `${whole(l.lumens)} lm`}`).join("; ") : "–"))],
    [say("Dark nights wished, a year"), plans.map(({ inputs }) => (inputs.brief ? show(inputs.brief.want.dark_nights_per_year ?? 5) : "–"))],
    [say("Dark nights, a year"), each((p) => many(p, (l) => band(l.nights.dark_per_year)))],
    [say("Wish"), each((p) => (p.wish.kept ? say("kept") : say("missed")))],
    [say("Panel"), each((p) => many(p, (l) => `${l.size.panels > 1 ? `${l.size.panels} × ` : ""}${l.size.panel}`))],
    [say("Cells a lamp"), each((p) => many(p, (l) => `${l.size.series} × ${l.size.parallel}`))],
    [say("Cost of a lamp"), each((p) => many(p, (l) => money(l.cost, p.cost.decimals, p.cost.currency)))],
    [say("Cost of all"), each((p) => money(p.cost.total, p.cost.decimals, p.cost.currency))],
    [say("Made by"), plans.map(({ plan }) => (plan ? madeBy(plan.value) : "–"))],
    [say("Light, mean"), plans.map(({ lux }) => (lux === undefined ? "–" : `${show(lux, 2)} lx`))],
    [say("Mast"), plans.map(({ plan, mast }) => (plan && plan.value.lamps.length ? [...new Set(plan.value.lamps.map((l) => verdict(l.mast?.verdict)))].join("; ") : plan?.value.refused?.some((r) => r.id === "mast_falls") ? say("refused") : verdict(mast)))],
  ];
}

export function PlansView() {
  const known = useKnown();
  const [list, setList] = useState(plansKept);
  const [name, setName] = useState("");
  const [word, setWord] = useState("");
  /* Another tab may have kept or removed one meanwhile. */
  const put = (changed: (list: Kept[]) => Kept[], done: string): void => {
    try {
      const next = changed(plansKept());
      localStorage.setItem(key, JSON.stringify(next));
      setList(next);
      setWord(done);
    } catch {
      setWord(say("The browser has no room for one more plan. Remove one first."));
    }
  };
  const keep = (event: Event): void => {
    event.preventDefault();
    const called = name.trim() || say("Plan {0}", list.length + 1);
    if (list.length >= MOST) return setWord(say("{0} plans are kept, more do not fit side by side. Remove one first.", list.length));
    put((old) => [...old, of(known, String(Date.now()), called)], say("“{0}” is kept.", called));
    setName("");
  };
  const take = (kept: Kept): void => { openPlan(kept.inputs, kept.plan); location.hash = "#/power"; };
  const shown = [of(known, "now", say("Now open")), ...list];
  return (
    <>
      <h1>{say("Plans side by side")}</h1>
      <p class="lead">{say("Keep the plan as it is under a name, change what you like, keep it again: then compare.")}</p>
      {known.brief ? <form onSubmit={keep}><TextField label={say("Name")} value={name} set={setName} /><div class="buttons"><button class="main">{say("Keep the open plan")}</button></div></form>
        : <p>{say("There is no plan yet.")} <a href="#/place">{say("Begin with the place.")}</a></p>}
      <Say what={word} kind="note" />
      {known.brief || list.length ? <div class="scroll" tabIndex={0} role="region" aria-label={say("Plans to compare")}><table class="beside">
        <thead><tr><td />{shown.map((k) => <th key={k.id} scope="col">{k.name}</th>)}</tr></thead>
        <tbody>{rows(shown).map(([what, cells]) => <tr key={what}><th scope="row">{what}</th>{cells.map((cell, i) => <td key={shown[i]?.id}>{cell}</td>)}</tr>)}
          {list.length ? <tr><td /><td />{list.map((k) => <td key={k.id}>
            <div class="buttons"><button type="button" class="small" aria-label={say("Open {0}", k.name)} onClick={() => take(k)}>{say("Open")}</button>
            <button type="button" class="small" aria-label={say("Remove {0}", k.name)} onClick={() => put((old) => old.filter((o) => o.id !== k.id), say("“{0}” is removed.", k.name))}>{say("Remove")}</button></div></td>)}</tr> : null}</tbody></table></div> : null}
      {alone() ? null : <p><a href="#/jobs">{say("What the laptop computes now, for whom it may be")}</a></p>}
      {atLaptop() ? <p><a href="#/phones">{say("Phones of the workshop")}</a></p> : null}
      {list.length ? <p class="hint">{say("Opening one puts it in the place of the open plan; Undo brings that back.")}</p> : null}
    </>
  );
}
