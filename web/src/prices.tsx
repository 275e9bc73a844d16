// SPDX-License-Identifier: GPL-3.0-or-later
// The workshop's shelf: what lies there and what it costs, with day, shop and money. A change names what was seen, so that two who
// change the same part do not undo each other.
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Say } from "./form";
import { money, whole } from "./numbers";
import { partsWanted, plainPart, trueCost, wageName, type ShelfPart } from "./priced";
import { PartForm } from "./priceform";
import type { Brief } from "./shapes";
import { change, useKnown } from "./state";
import { say, sayMany } from "./words";

const sortOf = (part: ShelfPart): number => (part.name === wageName || /^1 \S+$/.test(part.name) ? 2 : part.tool ? 1 : 0);
const inOrder = (parts: ShelfPart[]): ShelfPart[] => [...parts].sort((a, b) => sortOf(a) - sortOf(b) || a.name.localeCompare(b.name));

function PartRow({ part, parts, open }: { part: ShelfPart; parts: ShelfPart[]; open: (() => void) | null }) {
  const cost = trueCost(part, parts);
  return (
    <li>
      <p><strong>{part.name}</strong>{part.tool ? <span class="quiet"> · {say("tool")}</span> : null}{sortOf(part) < 2 ? <span class="quiet"> · {say("{0} at hand", whole(part.at_hand))}</span> : null}</p>
      {part.prices.map((p) => <p key={p.currency}>{money(p.price, p.decimals, p.currency)} <span class="quiet">{[p.shop, p.date].filter(Boolean).join(", ")}</span></p>)}
      {part.prices.length === 0 ? <p class="quiet">{say("no price yet")}</p> : null}
      {cost ? <p class="quiet">{say("one good piece: {0}", cost)}</p> : null}
      {open ? <button type="button" class="small" aria-label={say("Change {0}", part.name)} onClick={open}>{say("Change")}</button> : null}
    </li>
  );
}

/** The shelf's prices in the place of the brief's own. */
function IntoPlan({ brief }: { brief: Brief }) {
  const [word, setWord] = useState(""), [wrong, setWrong] = useState("");
  const take = async (): Promise<void> => {
    setWord(""); setWrong("");
    try {
      const priced = await ask<{ used: number; changed: number; brief: Brief }>("POST", "/shelf/brief", brief);
      change({ brief: priced.brief });
      setWord(sayMany("{0} price is in the plan now.", "{0} prices are in the plan now.", priced.used) + (priced.changed ? ` ${sayMany("{0} was told in another money and changed by its rate.", "{0} were told in another money and changed by their rate.", priced.changed)}` : ""));
    } catch (error) { setWrong(sentence(error)); }
  };
  return (
    <>
      <div class="buttons"><button type="button" class="main" onClick={() => void take()}>{say("Use these prices in the plan")}</button></div>
      <Say what={wrong} /><Say kind="note" what={word} />
    </>
  );
}

export function PricesView() {
  const { brief } = useKnown();
  const [parts, setParts] = useState<ShelfPart[] | null>(null), [wrong, setWrong] = useState(""), [word, setWord] = useState("");
  const [open, setOpen] = useState<string | null>(null), [may, setMay] = useState(false), [turn, setTurn] = useState(0);
  useEffect(() => {
    const stop = new AbortController();
    ask<{ parts: ShelfPart[] }>("GET", "/shelf", undefined, stop.signal).then((found) => { setParts(found.parts); setWrong(""); }, (error: unknown) => { if (!stop.signal.aborted) setWrong(sentence(error)); });
    return () => stop.abort();
  }, [turn]);
  useEffect(() => void ask<{ role: string }>("GET", "").then((s) => setMay(s.role !== "bench"), () => undefined), []);
  const close = (said = ""): void => { setOpen(null); setWord(said); setTurn(turn + 1); };
  const begin = (name: string): void => { setWord(""); setOpen(name); };
  const missing = parts ? partsWanted(brief).filter((name) => !parts.some((p) => p.name.toLowerCase() === name.toLowerCase())) : [];
  const chosen = open === null ? undefined : parts?.find((p) => p.name === open);
  return (
    <>
      <p><a class="back" href="#/power">{say("Plan the lamps")}</a></p>
      <h1>{say("Shelf and prices")}</h1>
      <p class="lead">{say("What lies in the workshop and what things cost. Every price has its day and shop; the latest counts.")}</p>
      <Say what={wrong} /><Say kind="note" what={word} />
      {parts && open !== null ? <PartForm key={open} part={chosen ?? plainPart(open)} fresh={!chosen} parts={parts} done={close} /> : null}
      {parts && open === null ? <>
        {brief && parts.length ? <IntoPlan brief={brief} /> : null}
        {may ? <div class="buttons"><button type="button" onClick={() => begin("")}>{say("Put something on the shelf")}</button>
          {parts.some((p) => p.name === wageName) ? null : <button type="button" onClick={() => begin(wageName)}>{say("Tell the wage of an hour")}</button>}</div>
          : <p class="note">{say("This phone may look; a planner may change.")}</p>}
        {missing.length ? <details><summary>{sayMany("{0} part of the plan is not on the shelf", "{0} parts of the plan are not on the shelf", missing.length)}</summary>
          <div class="buttons">{missing.map((name) => <button type="button" key={name} class="small" disabled={!may} onClick={() => begin(name)}>{name}</button>)}</div></details> : null}
        {parts.length ? <ul class="jobs" aria-label={say("The shelf")}>{inOrder(parts).map((part) => <PartRow key={part.name} part={part} parts={parts} open={may ? () => begin(part.name) : null} />)}</ul>
          : <p>{say("Nothing is on the shelf yet.")}</p>}
      </> : null}
    </>
  );
}

