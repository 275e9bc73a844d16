// SPDX-License-Identifier: GPL-3.0-or-later
// A number pad for gloved hands. The field above it takes a keyboard just as well; on a phone the pad stands in for the keyboard.
import { useRef } from "preact/hooks";
import { useId } from "./form";
import { say, signs } from "./words";

const coarse = (): boolean => matchMedia("(pointer: coarse)").matches;

export function Pad(p: { label: string; unit: string; text: string; wrong?: string | undefined; enter: string; set: (text: string) => void; done: () => void; keys?: (key: string) => boolean }) {
  const id = useId(), field = useRef<HTMLInputElement>(null);
  const put = (sign: string): void => { p.set(sign === "⌫" ? p.text.slice(0, -1) : p.text + sign); field.current?.focus({ preventScroll: true }); };
  const key = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    if (event.key === "Enter" || (event.key.length === 1 && p.keys?.(event.key))) {
      event.preventDefault();
      if (event.key === "Enter") p.done();
    }
  };
  const names: Record<string, string> = { "⌫": say("Delete the last sign"), [signs().decimal]: say("Decimal sign") };
  return (
    <div class="padded">
      <div class={p.wrong ? "field wrong" : "field"}>
        <label for={id}>{p.label}<span class="quiet"> ({p.unit})</span></label>
        <input id={id} ref={field} class="bignumber" value={p.text} inputMode={coarse() ? "none" : "decimal"} autocomplete="off" enterkeyhint="next" aria-invalid={p.wrong ? true : undefined}
          aria-describedby={p.wrong ? `${id}-w` : undefined} onInput={(e) => p.set(e.currentTarget.value)} onKeyDown={key} />
        {p.wrong ? <p class="error" id={`${id}-w`} role="alert">{p.wrong}</p> : null}
      </div>
      <div class="pad" role="group" aria-label={say("Number pad")}>
        {["7", "8", "9", "4", "5", "6", "1", "2", "3", signs().decimal, "0", "⌫"].map((sign) => (
          <button key={sign} type="button" aria-label={names[sign]} onClick={() => put(sign)}>{sign}</button>
        ))}
        <button type="button" class="main wide" onClick={() => { p.done(); field.current?.focus({ preventScroll: true }); }}>{p.enter}</button>
      </div>
    </div>
  );
}
