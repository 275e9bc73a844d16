// SPDX-License-Identifier: GPL-3.0-or-later
// The packs of a plan that names its cells: reserving them all or none, who holds a cell instead, and taking packs apart again.
import { useEffect, useState } from "preact/hooks";
import { ask, Problem, sentence } from "./api";
import { useBench, type Cell } from "./bench";
import { cratesOf } from "./cratecells";
import { Caution, Say } from "./form";
import { asked, compute, repeatPlan, useWork } from "./live";
import { show } from "./numbers";
import { alone, freshCells } from "./send";
import type { Lamp, Plan } from "./shapes";
import { change, useKnown } from "./state";
import { verdictWord } from "./takein";
import { say, sayMany } from "./words";

interface Pack { code: string; state: "reserved" | "built" | "apart"; plan?: string; note?: string; series: number; weakest_ah?: number; at: string; groups: string[][] }
type Planned = Lamp & { pack: { code: string; groups: string[][] } };

const planned = (plan: Plan | undefined): Planned[] => (plan?.lamps ?? []).filter((lamp): lamp is Planned => !!lamp.pack?.code && !!lamp.pack.groups?.length);
const count = (groups: string[][]): number => groups.reduce((sum, group) => sum + group.length, 0);
async function freshOf(crates: string[]): Promise<void> { for (const crate of crates) await freshCells(crate); }

const ApartCaution = () => <Caution text={say("Before a pack is taken apart in truth: fuse out, gloves and eye protection, one wire at a time, ends taped. Cells of a used pack are tested again.")} />;

/** What stands against a cell's place in this pack, "" for nothing. */
function against(cell: Cell | undefined, pack: string): string {
  if (!cell) return say("not in the store");
  if (cell.verdict !== "sound" && cell.verdict !== "tired") return say("is now {0}", verdictWord(cell.verdict));
  return cell.pack && cell.pack !== pack ? say("sits in pack {0}", cell.pack) : "";
}

function Places({ lamp, of }: { lamp: Planned; of: (code: string) => Cell | undefined }) {
  const { pack } = lamp, wrong = pack.groups.flat().map((code): [string, string] => [code, against(of(code), pack.code)]).filter(([, word]) => word);
  const held = pack.groups.flat().every((code) => of(code)?.pack === pack.code);
  return (
    <li class={wrong.length ? "group weak" : "group"}>
      <h3>{lamp.name}: {say("pack {0}", pack.code)}{held ? <span class="quiet"> {say("reserved")}</span> : null}</h3>
      <ol>{pack.groups.map((group, g) => <li key={g}>{group.join(", ")}</li>)}</ol>
      {wrong.length ? <ul class="plainlist" aria-label={say("Cells that are not free")}>{wrong.map(([code, word]) => <li key={code}><strong>{code}</strong> {word}</li>)}</ul> : null}
    </li>
  );
}

export function PlanPacks({ changed }: { changed: () => void }) {
  const known = useKnown(), b = useBench(), work = useWork("plan"), plan = known.plan?.value, lamps = planned(plan);
  const [done, setDone] = useState(""), [word, setWord] = useState(""), [busy, setBusy] = useState(false);
  const crates = [...new Set(cratesOf(plan?.brief ?? null).map((part) => String(part["crate"])))], fresh = known.plan?.asked === asked.plan(known);
  useEffect(() => { if (lamps.length) freshOf(crates).catch(() => undefined); }, [plan?.job]);
  if (alone() || !lamps.length || !plan) return null;
  const of = (code: string): Cell | undefined => [...b.base.values()].find((cell) => cell.code === code);
  const held = lamps.filter((lamp) => lamp.pack.groups.flat().every((code) => of(code)?.pack === lamp.pack.code)), all = held.length === lamps.length;
  const lost = lamps.some((lamp) => lamp.pack.groups.flat().some((code) => against(of(code), lamp.pack.code)));
  const step = async (run: () => Promise<string>): Promise<void> => {
    setBusy(true); setWord(""); setDone("");
    try { setDone(await run()); } catch (error) {
      if (error instanceof Problem && error.status === 404) { setWord(say("The laptop has forgotten this plan since; it is computed once more, with the same cells. Then reserve them.")); repeatPlan(); }
      else setWord(sentence(error));
    }
    await freshOf(crates).catch(() => undefined);
    changed();
    setBusy(false);
  };
  const reserve = () => step(async () => {
    const got = await ask<{ plan: string; packs: string[]; cells: number }>("POST", `/jobs/${plan.job ?? ""}/packs`);
    return say("{0} cells are reserved, in the packs {1}. The plan is kept as {2}.", got.cells, got.packs.join(", "), got.plan);
  });
  const apart = () => step(async () => {
    let cells = 0;
    for (const lamp of held) cells += (await ask<{ cells: number }>("POST", `/packs/${encodeURIComponent(lamp.pack.code)}/apart`)).cells;
    change({ seed: known.seed + 1 }); /* another draw has other codes: no two packs carry one label */
    return sayMany("{0} cell is free again. The plan is made anew, with new codes for its packs.", "{0} cells are free again. The plan is made anew, with new codes for its packs.", cells);
  });
  return (
    <section aria-label={say("Packs of the plan")} class={fresh ? "" : "stale"}>
      <h2>{say("Packs of the plan")}</h2>
      <p class="hint">{say("A line is a group, a label a cell, in the order of the places. Reserve them before others plan with the same crate: all or none.")}</p>
      <ul class="groups">{lamps.map((lamp) => <Places key={lamp.name} lamp={lamp} of={of} />)}</ul>
      <div role="status">{done ? <p class="note">{done}</p> : null}</div>
      <Say what={word} />
      {held.length ? <ApartCaution /> : null}
      <div class="buttons">
        {lost ? <button type="button" class="main" disabled={busy || work?.busy} onClick={() => { setWord(""); compute("plan"); }}>{say("Plan again with what is free")}</button> : null}
        {all ? null : <button type="button" class={lost ? "" : "main"} disabled={busy || !fresh || work?.busy || !plan.job} onClick={() => void reserve()}>{say("Reserve these {0} cells", lamps.reduce((sum, lamp) => sum + count(lamp.pack.groups), 0))}</button>}
        {held.length ? <button type="button" disabled={busy} onClick={() => void apart()}>{say("Give the cells back")}</button> : null}
      </div>
      {fresh || !held.length ? null : <p class="note">{say("The wish has changed since these cells were reserved. Give them back before you plan with them again.")}</p>}
    </section>
  );
}

/** Every pack of the store that is not apart. */
export function StorePacks({ turn, changed }: { turn: number; changed: () => void }) {
  const b = useBench(), [packs, setPacks] = useState<Pack[]>([]), [word, setWord] = useState("");
  const look = async (): Promise<void> => {
    const found: Pack[] = [];
    for (let after: string | null = ""; after !== null && found.length < 2000;) {
      const part: { packs: Pack[]; after: string | null } = await ask("GET", `/packs?limit=500${after ? `&after=${after}` : ""}`);
      found.push(...part.packs);
      after = part.after;
    }
    setPacks(found.filter((pack) => pack.state !== "apart").reverse());
  };
  useEffect(() => { if (!alone()) look().catch(() => undefined); }, [turn]);
  const apart = async (pack: Pack): Promise<void> => {
    if (!confirm(say("Take the pack {0} apart? Its {1} cells are free for other packs then.", pack.code, count(pack.groups)))) return;
    try {
      await ask("POST", `/packs/${encodeURIComponent(pack.code)}/apart`);
      setWord("");
      await freshOf([...new Set([...b.base.values()].filter((cell) => pack.groups.flat().includes(cell.code)).map((cell) => cell.crate))]);
    } catch (error) { setWord(sentence(error)); }
    changed();
  };
  if (!packs.length) return <Say what={word} />;
  return (
    <details><summary>{sayMany("{0} pack of the workshop", "{0} packs of the workshop", packs.length)}</summary>
      <ApartCaution />
      <ul class="groups">{packs.slice(0, 200).map((pack) => (
        <li key={pack.code} class="group">
          <h3>{pack.code} <span class="quiet">{[pack.note, pack.plan].filter(Boolean).join(", ")}</span></h3>
          <p>{say("{0} groups, {1} cells, weakest group {2} Ah", pack.series, count(pack.groups), show(pack.weakest_ah))}</p>
          <details><summary>{say("Its cells")}</summary><ol>{pack.groups.map((group, g) => <li key={g}>{group.join(", ")}</li>)}</ol></details>
          <button type="button" class="small" onClick={() => void apart(pack)}>{say("Take apart")}</button>
        </li>
      ))}</ul>
      <Say what={word} />
    </details>
  );
}
