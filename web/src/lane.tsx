// SPDX-License-Identifier: GPL-3.0-or-later
// The way through the job, drawn as a lane seen from the side: a mast for each stage. State is a shape and a word; colour repeats it.
import { useEffect, useRef } from "preact/hooks";
import { say } from "./words";

export type State = "open" | "lit" | "busy" | "stale" | "refused" | "always";
export interface Stage { id: string; name: string; state: State; headline: string }

const words = (): Record<State, string> => ({ open: say("not yet"), lit: "", busy: say("computing"), stale: say("re-do"), refused: say("refused"), always: "" });

function MastPicture({ state }: { state: State }) {
  const lit = state === "lit" || state === "stale" || state === "busy";
  return (
    <svg viewBox="0 0 84 84" class={`mast ${state}`} aria-hidden="true">
      {lit ? <path d="M53 25 26 82h54z" class="cone" /> : null}
      <path d="M34 84V22h16" class="pole" />
      <path d="M22 20 44 12" class="panel" />
      {state === "refused" ? <path d="M42 23h22m-19 0 3 9h10l3-9m-21 13 24-18" class="hollow" /> : <path d="M43 22h20l3 6H40z" class="head" />}
      {state === "stale" || state === "busy" ? <path d="M40 33h26" class="dash" /> : null}
      <path d="M0 83h84" class="ground" />
    </svg>
  );
}

function Bench() {
  return (
    <svg viewBox="0 0 84 84" class="mast bench" aria-hidden="true">
      <path d="M14 84V48L42 28l28 20v36" class="pole" /><path d="M30 84V60h24v24" class="pole" /><path d="M36 60v-7h12v7" class="panel" /><path d="M0 83h84" class="ground" />
    </svg>
  );
}

export function Lane({ stages, here }: { stages: Stage[]; here: string }) {
  const list = useRef<HTMLOListElement>(null);
  useEffect(() => {
    const show = (): void => {
      const present = list.current?.querySelector<HTMLElement>("[aria-current]");
      if (list.current && present) list.current.scrollLeft = present.offsetLeft - (list.current.clientWidth - present.clientWidth) / 2;
    };
    show();
    addEventListener("resize", show);
    return () => removeEventListener("resize", show);
  }, [here]);
  return (
    <nav aria-label={say("Stages of the job")}>
      <ol class="lane" ref={list}>
        {stages.map((stage) => (
          <li key={stage.id}>
            <a href={`#/${stage.id}`} aria-current={stage.id === here ? "page" : undefined}>
              {stage.state === "always" ? <Bench /> : <MastPicture state={stage.state} />}
              <span class="name">{stage.name}</span>
              <span class="answer">{[words()[stage.state], stage.headline].filter(Boolean).join(": ")}</span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
