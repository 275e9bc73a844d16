// SPDX-License-Identifier: GPL-3.0-or-later
// The slots of a pack with the code of the cell that belongs into each. Two cells change places by a tap on each: the core tells what
// the two groups hold then, so that one sees what a swap costs before a cell is moved.
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { cellsOf, type TestedCell } from "./asks";
import { Headline, Say } from "./form";
import { show } from "./numbers";
import type { Match } from "./shapes";
import { say, sayMany } from "./words";

interface Placing { groups: string[][]; left: string[]; capacities: number[]; swaps: number }
const of = (match: Match): Placing => ({ groups: match.groups, left: match.left_out, capacities: match.group_capacity_ah, swaps: 0 });

/** What one group holds, by the rule of the core. */
async function holds(ids: string[], cells: Map<string, TestedCell>): Promise<number> {
  const members = ids.map((id) => cells.get(id)).filter((c): c is TestedCell => c !== undefined);
  const answer = await ask<Match>("POST", "/pack/match", { series: 1, parallel: members.length, cells: members });
  return answer.group_capacity_ah[0] ?? 0;
}

function exchanged(ids: string[], a: string, b: string): string[] {
  return ids.map((id) => (id === a ? b : id === b ? a : id));
}

function Row({ name, ids, cells, chosen, weak, tap }: { name: string; ids: string[]; cells: Map<string, TestedCell>; chosen: string; weak: boolean; tap: (id: string) => void }) {
  return (
    <li class={weak ? "group weak" : "group"}>
      <h3>{name}</h3>
      <div class="slots" role="group" aria-label={name}>{ids.map((id) => (
        <button type="button" key={id} class="slot" aria-pressed={id === chosen} onClick={() => tap(id)}>{id}<span class="quiet">{show(cells.get(id)?.capacity_ah, 3)} Ah</span></button>
      ))}</div>
    </li>
  );
}

export function Slots({ match, cells: text }: { match: Match; cells: string }) {
  const [now, setNow] = useState<Placing>(() => of(match));
  const [chosen, setChosen] = useState("");
  const [word, setWord] = useState("");
  useEffect(() => { setNow(of(match)); setChosen(""); }, [match]);
  const cells = new Map<string, TestedCell>();
  try { for (const cell of cellsOf(text, "4v2")) cells.set(cell.id, cell); } catch { /* told above the groups */ }
  const weakest = Math.min(...now.capacities), planned = match.weakest_ah ?? weakest;

  const tap = async (id: string): Promise<void> => {
    setWord("");
    if (!chosen || chosen === id) return setChosen(chosen === id ? "" : id);
    const groups = now.groups.map((ids) => exchanged(ids, chosen, id)), left = exchanged(now.left, chosen, id);
    setChosen("");
    try {
      const capacities = await Promise.all(groups.map((ids, g) => (ids.some((one) => !now.groups[g]?.includes(one)) ? holds(ids, cells) : Promise.resolve(now.capacities[g] ?? 0))));
      setNow({ groups, left, capacities, swaps: now.swaps + 1 });
    } catch (error) { setWord(sentence(error)); }
  };
  const perPack = match.series;
  return (
    <section aria-label={say("Slots")}>
      <h2>{say("Which cell goes where")}</h2>
      <p class="hint">{say("Tap two cells to see what it does when they change places.")}</p>
      <ol class="groups">{now.groups.map((ids, g) => {
        const ah = show(now.capacities[g], 3), weak = now.capacities[g] === weakest;
        const place = now.groups.length > perPack ? say("Pack {0}, group {1}: {2} Ah", Math.floor(g / perPack) + 1, (g % perPack) + 1, ah) : say("Group {0}: {1} Ah", g + 1, ah);
        return <Row key={g} name={weak ? say("{0}, the weakest", place) : place} ids={ids} cells={cells} chosen={chosen} weak={weak} tap={(id) => void tap(id)} />;
      })}
      {now.left.length ? <Row name={say("Left over")} ids={now.left} cells={cells} chosen={chosen} weak={false} tap={(id) => void tap(id)} /> : null}</ol>
      <div role="status">{chosen ? <p class="story">{say("{0} is chosen. Tap the cell that it changes places with.", chosen)}</p> : null}
        {now.swaps ? <div class="row">
          <Headline value={show(weakest, 3)} unit="Ah" of={sayMany("weakest group after {0} swap, computed: {1} Ah", "weakest group after {0} swaps, computed: {1} Ah", now.swaps, show(planned, 3))} bad={weakest < planned - 1e-9} />
        </div> : null}
      </div>
      {now.swaps ? <div class="buttons"><button type="button" onClick={() => setNow(of(match))}>{say("Back to the computed places")}</button></div> : null}
      <Say what={word} />
    </section>
  );
}
