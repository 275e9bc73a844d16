// SPDX-License-Identifier: GPL-3.0-or-later
// One part of the shelf in hand. Only what was changed is sent, with the mark of what was seen; where somebody else was faster,
// both versions stand side by side and the person decides.
import { useState } from "preact/hooks";
import { ask, Problem, sentence } from "./api";
import { NumberField, Say, TextField, unread, useId } from "./form";
import { money } from "./numbers";
import { latest, wageName, type ShelfPart } from "./priced";
import { say } from "./words";

interface Draft { name: string; at_hand: number | undefined; price: number | undefined; currency: string; date: string; shop: string; consumables: number | undefined; bench_min: number | undefined; loss_pct: number | undefined; sold_by: number | undefined; spares_a_year: number | undefined; tool: boolean }
type Sent = Record<string, string | number | boolean>;

const today = (): string => new Date(Date.now() - new Date().getTimezoneOffset() * 60000).toISOString().slice(0, 10);
function draftOf(part: ShelfPart, usual: string): Draft {
  const price = latest(part);
  return { name: part.name, at_hand: part.at_hand, price: price?.price, currency: price?.currency ?? usual, date: today(), shop: price?.shop ?? "", consumables: price?.consumables ?? 0, bench_min: part.bench_min, loss_pct: part.loss_pct, sold_by: part.sold_by, spares_a_year: part.spares_a_year ?? undefined, tool: part.tool };
}

/** The keys that differ. A price goes with its day, its shop and what is used up for each piece. */
function changes(part: ShelfPart, d: Draft): Sent {
  const known = part.prices.find((p) => p.currency === d.currency), sent: Sent = {};
  const put = (key: string, now: number | boolean | undefined, was: number | boolean | null): void => { if (now !== undefined && now !== was) sent[key] = now; };
  put("at_hand", d.at_hand, part.at_hand); put("bench_min", d.bench_min, part.bench_min); put("loss_pct", d.loss_pct, part.loss_pct);
  put("sold_by", d.sold_by, part.sold_by); put("spares_a_year", d.spares_a_year, part.spares_a_year); put("tool", d.tool, part.tool);
  const told = d.price !== undefined && (!known || d.price !== known.price || (d.consumables ?? 0) !== known.consumables || d.shop.trim() !== known.shop);
  if (told) Object.assign(sent, { price: d.price, consumables: d.consumables ?? 0, date: d.date, shop: d.shop.trim() });
  return sent;
}

function Versions({ stored, sent }: { stored: ShelfPart; sent: Sent }) {
  const price = latest(stored);
  const rows: [string, string, string, string][] = [
    ["at_hand", say("At hand"), String(stored.at_hand), String(sent["at_hand"] ?? "")],
    ["price", say("Price"), price ? money(price.price, price.decimals, price.currency) : "–", String(sent["price"] ?? "")],
    ["shop", say("Shop"), price?.shop || "–", String(sent["shop"] ?? "")],
    ["bench_min", say("Minutes at the bench for each"), String(stored.bench_min), String(sent["bench_min"] ?? "")],
    ["loss_pct", say("Lost, of a hundred"), String(stored.loss_pct), String(sent["loss_pct"] ?? "")],
  ];
  return (
    <table><thead><tr><th scope="col">{say("What")}</th><th scope="col">{say("At the laptop")}</th><th scope="col">{say("Written here")}</th></tr></thead>
      <tbody>{rows.map(([key, name, there, here]) => <tr key={key}><th scope="row">{name}</th><td>{there}</td><td>{here || "–"}</td></tr>)}</tbody></table>
  );
}

function Hints({ name }: { name: string }) {
  if (name === wageName) return <p class="hint">{say("What one hour of work costs. It goes into every part that takes time at the bench.")}</p>;
  return /^1 \S+$/.test(name) ? <p class="hint">{say("What one unit of that money costs in another: the rate for prices that are told in it.")}</p> : null;
}

export function PartForm({ part, fresh, parts, done }: { part: ShelfPart; fresh: boolean; parts: ShelfPart[]; done: (said?: string) => void }) {
  const moneys = [...new Set(parts.flatMap((p) => p.prices.map((one) => one.currency)))];
  const [d, setDraft] = useState(draftOf(part, moneys[0] ?? "")), [decimals, setDecimals] = useState<number | undefined>(2);
  const [mark, setMark] = useState(part.mark), [other, setOther] = useState<ShelfPart | null>(null), [word, setWord] = useState(""), [busy, setBusy] = useState(false);
  const id = useId(), list = useId(), newMoney = d.currency.trim() !== "" && !moneys.includes(d.currency.trim());
  const set = (more: Partial<Draft>): void => setDraft({ ...d, ...more });
  const send = async (body: Record<string, unknown>, said: string): Promise<void> => {
    setBusy(true); setWord("");
    try {
      await ask("POST", "/shelf", { name: d.name.trim(), mark, ...body });
      done(said);
    } catch (error) {
      const stored = error instanceof Problem && error.kind === "conflict" ? (error.more["stored"] as ShelfPart | undefined) : undefined;
      setOther(stored ?? null);
      setWord(sentence(error));
      setBusy(false);
    }
  };
  const keep = (event: Event): void => {
    event.preventDefault();
    if (unread(event)) return;
    const sent = changes(part, d);
    if (fresh && Object.keys(sent).length === 0) sent["at_hand"] = d.at_hand ?? 0;
    if (!d.name.trim()) { setWord(say("Give it a name.")); return; }
    if (sent["price"] !== undefined && !d.currency.trim()) { setWord(say("Tell the money of the price.")); return; }
    if (Object.keys(sent).length === 0) { done(); return; }
    void send({ ...(sent["price"] === undefined ? {} : { currency: d.currency.trim(), ...(newMoney ? { decimals: decimals ?? 2 } : {}) }), set: sent }, say("{0} is kept.", d.name.trim()));
  };
  const remove = (): void => { if (confirm(say("Take {0} and its prices off the shelf?", part.name))) void send({ remove: true }, say("{0} is off the shelf.", part.name)); };
  const plain = d.name === wageName || /^1 \S+$/.test(d.name);
  return (
    <form class="inhand" aria-label={part.name || say("Something new")} onSubmit={keep}>
      {fresh ? <TextField label={say("Name")} value={d.name} set={(name) => set({ name })} hint={say("As the plan names it, so that it is found there.")} /> : <h2>{part.name}</h2>}
      <Hints name={d.name} />
      <div class="pair">
        {plain ? null : <NumberField label={say("At hand")} unit={say("pieces")} value={d.at_hand} low={0} high={1000000} whole set={(at_hand) => set({ at_hand })} />}
        <NumberField label={say("Price of one")} optional value={d.price} low={0} set={(price) => set({ price })} />
        <TextField label={say("Money")} value={d.currency} set={(currency) => set({ currency })} hint={moneys.length ? say("On the shelf: {0}", moneys.join(", ")) : say("As people write it: K, Rs, USD")} />
        {newMoney ? <NumberField label={say("Decimals of this money")} value={decimals} low={0} high={3} whole set={setDecimals} /> : null}
        <div class="field"><label for={id}>{say("Day of the price")}</label><input id={id} type="date" value={d.date} onInput={(e) => set({ date: e.currentTarget.value })} /></div>
        <TextField label={say("Shop")} value={d.shop} set={(shop) => set({ shop })} />
      </div>
      {plain ? null : <details id={list}><summary>{say("What it takes to make it fit for use")}</summary>
        <p class="hint">{say("A piece from the scrap yard is cheap to buy and dear to find out about: time, what is used up, and those that fail.")}</p>
        <div class="pair">
          <NumberField label={say("Minutes at the bench for each")} value={d.bench_min} low={0} high={600} whole set={(bench_min) => set({ bench_min })} />
          <NumberField label={say("Used up for each piece")} unit={d.currency} value={d.consumables} low={0} set={(consumables) => set({ consumables })} />
          <NumberField label={say("Lost, of a hundred")} value={d.loss_pct} low={0} high={90} set={(loss_pct) => set({ loss_pct })} />
          <NumberField label={say("Sold by")} unit={say("pieces")} value={d.sold_by} low={1} high={10000} whole set={(sold_by) => set({ sold_by })} />
          <NumberField label={say("Spares for a lamp and year")} optional value={d.spares_a_year} low={0} high={100} set={(spares_a_year) => set({ spares_a_year })} />
        </div>
        <label class="tick"><input type="checkbox" checked={d.tool} onChange={(e) => set({ tool: e.currentTarget.checked })} /><span>{say("A tool: bought once, in no lamp")}</span></label>
      </details>}
      <Say what={word} />
      {other ? <section aria-label={say("Two versions")}><Versions stored={other} sent={changes(part, d)} />
        <div class="buttons"><button type="button" onClick={() => { setMark(other.mark); setOther(null); setWord(say("Now keep it: what is written here will count.")); }}>{say("What I wrote counts")}</button><button type="button" onClick={() => done()}>{say("Keep what is at the laptop")}</button></div></section> : null}
      {other ? null : <div class="buttons">
        <button class="main" disabled={busy}>{say("Keep it")}</button>
        <button type="button" onClick={() => done()}>{say("Leave it as it was")}</button>
        {fresh ? null : <button type="button" disabled={busy} onClick={remove}>{say("Take it off the shelf")}</button>}
      </div>}
    </form>
  );
}
