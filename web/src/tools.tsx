// SPDX-License-Identifier: GPL-3.0-or-later
// The head of the page: name of the job, one step back or forth, the plans side by side, language, theme.
import { useEffect, useState } from "preact/hooks";
import { Languages } from "./language";
import { plansKept } from "./plans";
import { canRedo, canUndo, redo, undo, useKnown } from "./state";
import { say } from "./words";

const themeKey = "lanewick.theme";
function Theme() {
  const [theme, setTheme] = useState(localStorage.getItem(themeKey) ?? (matchMedia("(prefers-color-scheme: light)").matches ? "paper" : "night"));
  useEffect(() => { document.documentElement.dataset["theme"] = theme; }, [theme]);
  const other = theme === "night" ? "paper" : "night", name = other === "paper" ? say("Bright page") : say("Dark page");
  return (
    <button type="button" class="tool theme" aria-label={name} title={name} onClick={() => { localStorage.setItem(themeKey, other); setTheme(other); }}>
      <svg viewBox="0 0 24 24" aria-hidden="true"><circle cx="12" cy="12" r="9" class="stroke" /><path d="M12 3a9 9 0 0 1 0 18z" class="solid" /></svg>
    </button>
  );
}

/** A field keeps its own steps while one types in it. */
const typing = (target: EventTarget | null): boolean => target instanceof HTMLTextAreaElement || (target instanceof HTMLInputElement && target.type !== "range");

function Steps() {
  const [word, setWord] = useState("");
  const back = (): void => { if (canUndo()) { undo(); setWord(say("One step back.")); } };
  const forth = (): void => { if (canRedo()) { redo(); setWord(say("One step forth.")); } };
  useEffect(() => {
    const key = (e: KeyboardEvent): void => {
      if (!(e.ctrlKey || e.metaKey) || e.altKey || typing(e.target)) return;
      const letter = e.key.toLowerCase();
      if (letter === "z" && !e.shiftKey) back();
      else if (letter === "y" || (letter === "z" && e.shiftKey)) forth();
      else return;
      e.preventDefault();
    };
    addEventListener("keydown", key);
    return () => removeEventListener("keydown", key);
  }, []);
  return (
    <>
      <button type="button" class="tool" aria-label={say("Undo")} title={say("Undo (Ctrl+Z)")} disabled={!canUndo()} onClick={back}><svg viewBox="0 0 24 24" aria-hidden="true"><path d="M9 5 4 10l5 5M4 10h10a5 5 0 0 1 0 10h-4" class="stroke" /></svg></button>
      <button type="button" class="tool" aria-label={say("Redo")} title={say("Redo (Ctrl+Y)")} disabled={!canRedo()} onClick={forth}><svg viewBox="0 0 24 24" aria-hidden="true"><path d="m15 5 5 5-5 5M20 10H10a5 5 0 0 0 0 10h4" class="stroke" /></svg></button>
      <span class="unseen" role="status">{word}</span>
    </>
  );
}

export function Tools({ here }: { here: string }) {
  const known = useKnown(), kept = plansKept().length;
  return (
    <header>
      <span class="brand">Lanewick</span><span class="job quiet">{known.brief?.name ?? ""}</span><Theme />
      <span class="tools">
        <Steps />
        <a class="tool" href="#/plans" aria-current={here === "plans" || here === "jobs" ? "page" : undefined}>{kept ? say("Plans: {0}", kept) : say("Plans")}</a>
        <Languages />
      </span>
    </header>
  );
}
