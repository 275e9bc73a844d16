// SPDX-License-Identifier: GPL-3.0-or-later
// Fields of a form. What was typed stays as it was typed, also when it is wrong; the word about it stands under it.
import type { ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { plain, typed } from "./numbers";
import { say, told } from "./words";

let last = 0;
export function useId(): string {
  const [id] = useState(() => `f${++last}`);
  return id;
}

interface Frame { label: string; unit?: string | undefined; hint?: string | undefined; wrong?: string | undefined; wide?: boolean }

export function Frame(p: Frame & { id: string; children: ComponentChildren }) {
  return (
    <div class={["field", p.wrong ? "wrong" : "", p.hint || p.wide ? "wide" : ""].filter(Boolean).join(" ")}>
      <label for={p.id}>{p.label}{p.unit ? <span class="quiet"> ({p.unit})</span> : null}</label>
      {p.children}
      {p.wrong ? <p class="error" id={`${p.id}-w`}>{told(p.wrong)}</p> : null}
      {p.hint ? <p class="hint" id={`${p.id}-h`}>{p.hint}</p> : null}
    </div>
  );
}

const about = (p: Frame, id: string): string | undefined =>
  [p.wrong ? `${id}-w` : "", p.hint ? `${id}-h` : ""].filter(Boolean).join(" ") || undefined;

interface NumberProps extends Frame { value: number | undefined; low?: number; high?: number; whole?: boolean; optional?: boolean; set: (value: number | undefined) => void }

function wrongNumber(text: string, p: NumberProps): string | undefined {
  if (text.trim() === "") return p.optional ? undefined : say("Type a number.");
  const value = typed(text);
  if (Number.isNaN(value)) return say("“{0}” is not a number. Type digits, with a comma or a point.", text);
  if (p.whole && !Number.isInteger(value)) return say("“{0}” is not a whole number.", text);
  if ((p.low !== undefined && value < p.low) || (p.high !== undefined && value > p.high)) return p.high === undefined ? say("“{0}” does not fit: it must be {1} or more.", text, plain(p.low ?? 0)) : say("“{0}” does not fit: it must be from {1} to {2}.", text, plain(p.low ?? 0), plain(p.high));
  return undefined;
}

/** A number that stands there and was not taken: before anything is stored, the person is led to it, where the word about it stands. */
export function unread(event: Event): boolean {
  const field = (event.currentTarget as Element | null)?.closest("form, section, main")?.querySelector<HTMLElement>("[data-unread]");
  field?.closest("details")?.setAttribute("open", "");
  field?.focus();
  return field !== undefined && field !== null;
}

/** A number; it is handed on only while it is one that fits. */
export function NumberField(p: NumberProps) {
  const id = useId();
  const [text, setText] = useState(p.value === undefined ? "" : plain(p.value));
  useEffect(() => {
    if (p.value === undefined ? text.trim() !== "" && !wrongNumber(text, p) : typed(text) !== p.value) setText(p.value === undefined ? "" : plain(p.value));
  }, [p.value]);
  const wrong = wrongNumber(text, p) ?? p.wrong;
  const take = (now: string): void => {
    setText(now);
    if (!wrongNumber(now, p)) p.set(now.trim() === "" ? undefined : typed(now));
  };
  return (
    <Frame {...p} id={id} wrong={wrong}>
      <input id={id} inputMode="decimal" autocomplete="off" value={text} aria-invalid={wrong ? true : undefined} data-unread={wrongNumber(text, p) ? "" : undefined}
        aria-describedby={about({ ...p, wrong }, id)} onInput={(e) => take(e.currentTarget.value)} />
    </Frame>
  );
}

export function TextField(p: Frame & { value: string; set: (value: string) => void; mode?: string; secret?: boolean }) {
  const id = useId();
  return (
    <Frame {...p} id={id}>
      <input id={id} type={p.secret ? "password" : "text"} value={p.value} autocomplete="off" inputMode={p.mode as never} aria-invalid={p.wrong ? true : undefined}
        aria-describedby={about(p, id)} onInput={(e) => p.set(e.currentTarget.value)} />
    </Frame>
  );
}

export function LongField(p: Frame & { value: string; rows?: number; set: (value: string) => void }) {
  const id = useId();
  return (
    <Frame {...p} id={id}>
      <textarea id={id} rows={p.rows ?? 6} spellcheck={false} value={p.value} aria-invalid={p.wrong ? true : undefined}
        aria-describedby={about(p, id)} onInput={(e) => p.set(e.currentTarget.value)} />
    </Frame>
  );
}

export function Choice(p: Frame & { value: string; of: [value: string, name: string][]; set: (value: string) => void }) {
  const id = useId();
  return (
    <Frame {...p} id={id} wide>
      <select id={id} value={p.value} aria-describedby={about(p, id)} onChange={(e) => p.set(e.currentTarget.value)}>
        {p.of.map(([value, name]) => <option key={value} value={value} selected={value === p.value}>{name}</option>)}
      </select>
    </Frame>
  );
}

/** A word that must be heard: wrong input, refusal, loss of the connection. */
export function Say({ what, kind = "error" }: { what: string; kind?: "error" | "note" }) {
  return <div role={kind === "error" ? "alert" : "status"}>{what ? <p class={kind === "error" ? "alarm" : "note"}>{told(what)}</p> : null}</div>;
}

export function Caution({ text, at }: { text: string; at?: string }) {
  return (
    <div class="caution">
      <svg viewBox="0 0 24 24" width="28" height="28" aria-hidden="true"><path d="M12 2 23 22H1z" fill="currentColor" /><path d="M12 9v6m0 2.5v1.6" class="cut" stroke-width="2.4" /></svg>
      <p><strong>{at ? say("Caution, {0}.", told(at)) : say("Caution.")}</strong> {told(text)}</p>
    </div>
  );
}

/** A headline number with what it means under it. */
export function Headline(p: { value: string; unit?: string; of: string; bad?: boolean }) {
  return (
    <div class={p.bad ? "headline bad" : "headline"}>
      <p class="big">{p.value}{p.unit ? <span class="quiet">{"\u2009"}{p.unit}</span> : null}</p>
      <p class="quiet">{p.of}</p>
    </div>
  );
}

/** A number on a slider, with its value in words beside the name. */
export function Slider(p: { label: string; value: number; low: number; high: number; step?: number; told: string; hint?: string; set: (value: number) => void }) {
  const id = useId();
  return (
    <div class="field slider wide">
      <label for={id}>{p.label}<span class="told">{p.told}</span></label>
      <input id={id} type="range" min={p.low} max={p.high} step={p.step ?? 1} value={p.value} aria-valuetext={p.told} aria-describedby={p.hint ? `${id}-h` : undefined} onInput={(e) => p.set(Number(e.currentTarget.value))} />
      {p.hint ? <p class="hint" id={`${id}-h`}>{p.hint}</p> : null}
    </div>
  );
}
