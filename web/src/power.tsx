// SPDX-License-Identifier: GPL-3.0-or-later
// From the wish to the plan: the job with its progress, the headline answers, what limits, what it costs.
import { useState } from "preact/hooks";
import { ask, follow, Problem, sentence, type Job } from "./api";
import { CostPicture } from "./cost";
import { Caution, Choice, Headline, Say } from "./form";
import { band, money, MONTHS, show, whole } from "./numbers";
import { RibbonOf } from "./ribbon";
import type { Lamp, Plan, WhatIf } from "./shapes";
import { asked, change, useKnown } from "./state";
import { Wish } from "./wish";

export function Refused({ plan }: { plan: Plan }) {
  return (
    <section class="refusal" aria-label="Refused">
      <h2>Refused: this must not be built</h2>
      {plan.refused?.map((r) => <div key={r.id}><p><strong>{r.reason}</strong></p><p>What would make it acceptable: {r.remedy}</p><p class="quiet">{r.source}</p></div>)}
    </section>
  );
}

function Changes({ lamp }: { lamp: Lamp }) {
  const now = lamp.nights.dark_per_year;
  const say = (w: WhatIf | undefined, verb: string) =>
    w ? <li key={w.what}>{verb} <strong>{w.what}</strong>: dark nights go from {band(now)} to {band(w.dark_per_year)} a year.</li> : null;
  const { limits } = lamp;
  return (
    <>
      <h3>What limits it</h3>
      <p>The {limits.what} in {MONTHS[limits.month - 1]}. If you change one thing:</p>
      <ul>{say(limits.more_panel, "With")}{say(limits.more_pack, "With")}{say(limits.dim, "With")}{say(limits.trim, "With")}</ul>
    </>
  );
}

function LampAnswer({ plan, lamp }: { plan: Plan; lamp: Lamp }) {
  const { size, nights } = lamp;
  return (
    <>
      <div class="row">
        <Headline value={band(nights.dark_per_year)} of={`dark nights a year, wished ${show(plan.wish.dark_nights_per_year)}`} bad={!lamp.keeps_wish} />
        <Headline value={whole(size.panel_w)} unit="W" of={`panel: ${size.panels > 1 ? `${size.panels} × ` : ""}${size.panel}, tilt ${show(lamp.tilt_deg)}°`} />
        <Headline value={`${size.series} × ${size.parallel}`} unit="cells" of={`groups × cells side by side, ${whole(size.pack_wh)} Wh`} />
        <Headline value={money(lamp.cost, plan.cost.decimals, plan.cost.currency)} of="this lamp" />
      </div>
      {lamp.near ? <p class="note">The wish is not kept. {lamp.near}</p> : null}
      <RibbonOf plan={plan} lamp={lamp} />
      <details><summary>What the numbers in brackets mean</summary><p>The lamp was computed through {nights.years_simulated} different years of weather, with cells aged to year {plan.wish.planned_years}. “2 (1 to 5)” says: 2 dark nights in a mean year; in nine of ten years from 1 to 5. The wish holds in {whole(nights.sure_share * 100)} of 100 of them.</p></details>
      <Changes lamp={lamp} />
      <CostPicture plan={plan} kind={lamp.kind} />
      <details><summary>Year by year</summary>
        <table><thead><tr><th>Year</th><th>Capacity left</th><th>Dark nights</th></tr></thead><tbody>{lamp.years.map((y) => <tr key={y.year}><td>{y.year}</td><td>{whole(y.capacity_share * 100)} %</td><td>{band(y.dark_per_year)}</td></tr>)}</tbody></table>
      </details>
    </>
  );
}

function Answer({ plan }: { plan: Plan }) {
  const firsts = plan.lamps.filter((lamp, i) => plan.lamps.findIndex((other) => other.kind === lamp.kind && JSON.stringify(other.size) === JSON.stringify(lamp.size)) === i);
  const [name, setName] = useState(firsts[0]?.name ?? "");
  const lamp = firsts.find((l) => l.name === name) ?? firsts[0];
  const { cost } = plan;
  return (
    <>
      <h2>{plan.wish.kept ? "It can be done" : "The shelf is not enough for the wish"}</h2>
      {plan.lamps_without_parts > 0 ? <p class="alarm">{plan.lamps_without_parts} {plan.lamps_without_parts === 1 ? "lamp has" : "lamps have"} no parts left on the shelf.</p> : null}
      <p>{plan.lamps.length} {plan.lamps.length === 1 ? "lamp" : "lamps"} for <strong>{money(cost.total, cost.decimals, cost.currency)}</strong>.</p>
      {firsts.length > 1 ? <Choice label="Show the lamp" value={lamp?.name ?? ""} set={setName} of={firsts.map((l) => [l.name, `${l.name}: ${band(l.nights.dark_per_year)} dark nights`])} /> : null}
      {lamp ? <LampAnswer key={lamp.name} plan={plan} lamp={lamp} /> : null}
      <h3>What can hurt</h3>
      {plan.cautions.map((c) => <Caution key={c.text} at={c.at} text={c.text} />)}
      <details><summary>Parts and cost</summary>
        <table><thead><tr><th>Part</th><th>Pieces</th><th>Cost</th></tr></thead><tbody>{cost.parts.map((p) => <tr key={p.name}><th scope="row">{p.name}</th><td>{p.count}</td><td>{money(p.cost, cost.decimals)}</td></tr>)}</tbody></table>
      </details>
      {plan.left_out?.length ? <details><summary>Parts that may not be used here</summary>{plan.left_out.map((r) => <p key={r.id + r.reason}>{r.reason} {r.remedy}</p>)}</details> : null}
      <details><summary>What was assumed</summary><ul>{plan.assumptions.map((a) => <li key={a.key}>{a.key}: {a.value}, {a.why}</li>)}</ul></details>
      <p><a class="next" href={`data:application/json;charset=utf-8,${encodeURIComponent(JSON.stringify(plan, null, 1))}`} download="plan.json">Keep the plan as a file</a></p>
    </>
  );
}

export function PowerStage() {
  const known = useKnown();
  const [job, setJob] = useState<Job<Plan> | null>(null);
  const [word, setWord] = useState("");
  const plan = known.plan?.value;
  const fresh = known.plan?.asked === asked.plan(known);
  if (!known.brief) return <><h1>Plan the lamps</h1><p>First tell <a href="#/place">where the lane is</a>.</p></>;

  const go = async (event: Event): Promise<void> => {
    event.preventDefault();
    setWord("");
    const question = asked.plan(known);
    try {
      const end = await follow(await ask<Job<Plan>>("POST", "/plans", known.brief), setJob);
      /* A refused plan holds nothing to build from. */
      if (end.result) change({ plan: { asked: question, value: { ...end.result, lamps: end.result.lamps ?? [], options: end.result.options ?? [] } } });
      else setWord(end.error?.message ?? (end.state === "stopped" ? "Stopped." : "The plan failed."));
    } catch (error) {
      setWord(error instanceof Problem && error.field ? `${error.message} (${error.field})` : sentence(error));
    }
    setJob(null);
  };
  const stop = (): void => { if (job) void ask("DELETE", `/jobs/${job.id}`).catch(() => undefined); };
  return (
    <>
      <h1>Plan the lamps</h1>
      <form onSubmit={(e) => void go(e)}>
        {plan ? <details open={!fresh}><summary>What is wanted</summary><Wish brief={known.brief} /></details> : <Wish brief={known.brief} />}
        <div class="buttons">
          <button class="main" disabled={job !== null}>{plan && !fresh ? "Plan again" : "Make the plan"}</button>
          {job ? <button type="button" onClick={stop}>Stop</button> : null}
        </div>
      </form>
      <div role="status">{job ? <><progress max={1} value={job.done} aria-label="Planning" /><p>{job.state === "waiting" ? "Waiting for its turn" : `Trying lamps through many years of weather: ${job.what || "begun"}`}, {whole(job.done * 100)} %</p></> : null}</div>
      <Say what={word} />
      {plan ? <section aria-label="The plan" class={fresh ? "" : "stale"}>
        {fresh ? null : <p class="note">Something has changed since this plan was made. Plan again to see what it means.</p>}
        {plan.refused?.length ? <Refused plan={plan} /> : <Answer plan={plan} />}
      </section> : null}
    </>
  );
}
