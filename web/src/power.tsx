// SPDX-License-Identifier: GPL-3.0-or-later
// From the wish to the plan: the job with its progress, the headline answers, what limits, what it costs.
import { useEffect, useState } from "preact/hooks";
import { CostPicture } from "./cost";
import { Caution, Choice, Headline, Say, Slider } from "./form";
import { asked, compute, halt, useWork, type Work } from "./live";
import { band, money, month, show, whole } from "./numbers";
import type { Brief, Lamp, Plan, WhatIf } from "./shapes";
import { change, useKnown } from "./state";
import { Sizes, type Trial } from "./trial";
import { Wish } from "./wish";
import { named, say, sayMany, told } from "./words";

export function Refused({ plan }: { plan: Plan }) {
  return (
    <section class="refusal" aria-label={say("Refused")}>
      <h2>{say("Refused: this must not be built")}</h2>
      {plan.refused?.map((r) => <div key={r.id}><p><strong>{told(r.reason)}</strong></p><p>{say("What would make it acceptable: {0}", told(r.remedy))}</p><p class="quiet">{told(r.source)}</p></div>)}
    </section>
  );
}

function Changes({ lamp }: { lamp: Lamp }) {
  const now = lamp.nights.dark_per_year, { limits } = lamp;
  const tell = (w: WhatIf | undefined) => (w ? <li key={w.what}>{say("With {0}: dark nights go from {1} to {2} a year.", told(w.what), band(now), band(w.dark_per_year))}</li> : null);
  return (
    <>
      <h3>{say("What limits it")}</h3>
      <p>{say("The {0} in {1}. If you change one thing:", named(limits.what), month(limits.month - 1))}</p>
      <ul>{[limits.more_panel, limits.more_pack, limits.dim, limits.trim].map(tell)}</ul>
    </>
  );
}

function LampAnswer({ plan, lamp }: { plan: Plan; lamp: Lamp }) {
  const { size, nights } = lamp;
  const [trial, setTrial] = useState<Trial>(lamp.size);
  useEffect(() => setTrial(lamp.size), [lamp]);
  return (
    <>
      <div class="row">
        <Headline value={band(nights.dark_per_year)} of={say("dark nights a year, wished {0}", show(plan.wish.dark_nights_per_year))} bad={!lamp.keeps_wish} />
        <Headline value={whole(size.panel_w)} unit="W" of={say("panel: {0}, tilt {1}°", `${size.panels > 1 ? `${size.panels} × ` : ""}${size.panel}`, show(lamp.tilt_deg))} />
        <Headline value={`${size.series} × ${size.parallel}`} unit={say("cells")} of={say("groups × cells side by side, {0} Wh", whole(size.pack_wh))} />
        <Headline value={money(lamp.cost, plan.cost.decimals, plan.cost.currency)} of={say("this lamp")} />
      </div>
      {lamp.near ? <p class="note">{say("The wish is not kept.")} {told(lamp.near)}</p> : null}
      <Sizes plan={plan} lamp={lamp} trial={trial} set={setTrial} />
      <details><summary>{say("What the numbers in brackets mean")}</summary><p>{say("The lamp was computed through {0} different years of weather, with cells aged to year {1}. “2 (1 to 5)” says: 2 dark nights in a mean year; in nine of ten years from 1 to 5. The wish holds in {2} of 100 of them.", nights.years_simulated, plan.wish.planned_years, whole(nights.sure_share * 100))}</p></details>
      <Changes lamp={lamp} />
      <CostPicture plan={plan} lamp={lamp} trial={trial} take={setTrial} />
      <details><summary>{say("Year by year")}</summary>
        <table><thead><tr><th>{say("Year")}</th><th>{say("Capacity left")}</th><th>{say("Dark nights")}</th></tr></thead><tbody>{lamp.years.map((y) => <tr key={y.year}><td>{y.year}</td><td>{whole(y.capacity_share * 100)} %</td><td>{band(y.dark_per_year)}</td></tr>)}</tbody></table>
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
      <h2>{plan.wish.kept ? say("It can be done") : say("The shelf is not enough for the wish")}</h2>
      {plan.lamps_without_parts > 0 ? <p class="alarm">{sayMany("{0} lamp has no parts left on the shelf.", "{0} lamps have no parts left on the shelf.", plan.lamps_without_parts)}</p> : null}
      <p>{sayMany("{0} lamp for {1}.", "{0} lamps for {1}.", plan.lamps.length, money(cost.total, cost.decimals, cost.currency))}</p>
      {firsts.length > 1 ? <Choice label={say("Show the lamp (its dark nights a year)")} value={lamp?.name ?? ""} set={setName} of={firsts.map((l) => [l.name, `${l.name}: ${band(l.nights.dark_per_year)}`])} /> : null}
      {lamp ? <LampAnswer key={lamp.name} plan={plan} lamp={lamp} /> : null}
      <h3>{say("What can hurt")}</h3>
      {plan.cautions.map((c) => <Caution key={c.text} at={c.at} text={c.text} />)}
      <details><summary>{say("Parts and cost")}</summary>
        <table><thead><tr><th>{say("Part")}</th><th>{say("Pieces")}</th><th>{say("Cost")}</th></tr></thead><tbody>{cost.parts.map((p) => <tr key={p.name}><th scope="row">{named(p.name)}</th><td>{p.count}</td><td>{money(p.cost, cost.decimals)}</td></tr>)}</tbody></table>
      </details>
      {plan.left_out?.length ? <details><summary>{say("Parts that may not be used here")}</summary>{plan.left_out.map((r) => <p key={r.id + r.reason}>{told(r.reason)} {told(r.remedy)}</p>)}</details> : null}
      <details><summary>{say("What was assumed")}</summary><ul>{plan.assumptions.map((a) => <li key={a.key}>{a.key}: {told(a.value)}, {told(a.why)}</li>)}</ul></details>
      <div class="buttons"><a class="button" href={`data:application/json;charset=utf-8,${encodeURIComponent(JSON.stringify(plan, null, 1))}`} download="plan.json">{say("Keep the plan as a file")}</a></div>
    </>
  );
}

const MOST_WISHED = 30;
function Wished({ brief }: { brief: Brief }) {
  const now = brief.want.dark_nights_per_year ?? 5;
  return <Slider label={say("Dark nights that can be borne")} value={Math.min(now, MOST_WISHED)} low={0} high={MOST_WISHED} told={say("{0} a year", show(now))} hint={say("A dark night: the lamp gives out before its time. The plan follows.")}
    set={(v) => change({ brief: { ...brief, want: { ...brief.want, dark_nights_per_year: v } } })} />;
}

function Progress({ work }: { work: Work | undefined }) {
  const job = work?.job;
  if (!work?.busy) return <div role="status" />;
  const tried = whole((job?.done ?? 0) * 100);
  const step = !job || job.state === "waiting" ? say("Waiting for its turn") : job.what !== "here" ? say("Trying lamps through many years of weather: {0} %", tried)
    : job.left_s ? say("This device tries lamps through many years of weather, without the laptop: {0} %, about {1} s left.", tried, whole(Math.max(1, job.left_s)))
    : say("This device tries lamps through many years of weather, without the laptop: {0} %, {1} s so far.", tried, whole(job.spent_s ?? 0));
  return <div role="status"><progress max={1} value={job?.done ?? 0} aria-label={say("Planning")} /><p>{step}</p></div>;
}

export function PowerStage() {
  const known = useKnown(), work = useWork("plan");
  const plan = known.plan?.value, fresh = known.plan?.asked === asked.plan(known);
  const [open, setOpen] = useState(false);
  if (!known.brief) return <><h1>{say("Plan the lamps")}</h1><p>{say("First tell where the lane is.")}</p><p class="onward"><a class="next" href="#/place">{say("To the place")}</a></p></>;
  const go = (event: Event): void => { event.preventDefault(); compute("plan"); };
  const word = work?.word ? (work.field ? `${work.word} (${work.field})` : work.word) : "";
  return (
    <>
      <h1>{say("Plan the lamps")}</h1>
      <form onSubmit={go}>
        {plan ? <>
          <Wished brief={known.brief} />
          <details open={open} onToggle={(e) => setOpen(e.currentTarget.open)}><summary>{say("What is wanted, and what lies on the shelf")}</summary><Wish brief={known.brief} /></details>
        </> : <Wish brief={known.brief} />}
        <div class="buttons">
          {plan && (fresh || work?.busy) ? null : <button class="main" disabled={work?.busy ?? false}>{plan ? say("Plan again") : say("Make the plan")}</button>}
          {work?.busy ? <button type="button" onClick={() => halt("plan")}>{say("Stop")}</button> : null}
        </div>
      </form>
      <Progress work={work} />
      <Say what={word} />
      {plan ? <section aria-label={say("The plan")} class={fresh ? "" : "stale"}>
        {fresh || work?.busy ? null : <p class="note">{say("Something has changed since this plan was made. Plan again to see what it means.")}</p>}
        {plan.here ? <p class="note">{say("Made on this device by {0}, without the laptop. The laptop makes the same plan from this brief; printed sheets need it.", plan.program)}</p> : null}
        {plan.refused?.length ? <Refused plan={plan} /> : <Answer plan={plan} />}
      </section> : null}
      {plan && !plan.refused?.length ? <p class="onward"><a class="next" href="#/sheets">{say("Next: print the sheets")}</a></p> : null}
    </>
  );
}
