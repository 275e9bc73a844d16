// SPDX-License-Identifier: GPL-3.0-or-later
// The page: the lane of stages, the present stage under it, the theme.
import { Component, render, type ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { ask, Problem, sentence } from "./api";
import { alone } from "./carried";
import { CellsStage } from "./cells";
import { core } from "./core";
import { FiguresStage } from "./figures";
import { Say } from "./form";
import { Lane } from "./lane";
import { JobsView } from "./jobs";
import { LightStage } from "./light";
import { startLive, useWork } from "./live";
import { MastStage } from "./mast";
import { PackStage } from "./pack";
import { Pair } from "./pair";
import { PhonesView } from "./phones";
import { PlaceStage } from "./place";
import { PlansView } from "./plans";
import { PowerStage } from "./power";
import { PricesView } from "./prices";
import { SheetsStage } from "./sheets";
import { stages } from "./stages";
import { canUndo, forget, undo, useKnown } from "./state";
import { Tools } from "./tools";
import { keepVisit } from "./visit";
import { WiringStage } from "./wiring";
import { hearWords, loadSentences, say, told } from "./words";

const ASK_AGAIN_MS = 8000;
function Page() {
  const known = useKnown();
  useWork("plan"); /* the lane shows what is being computed */
  const [, again] = useState(0);
  useEffect(() => hearWords(() => again((n) => n + 1)), []);
  const [hash, setHash] = useState(location.hash);
  const [role, setRole] = useState<string | null>(null);
  const [word, setWord] = useState("");
  const look = (): void => void ask<{ role: string }>("GET", "").then((s) => { setRole(s.role); setWord(""); }, (error: unknown) => {
    setRole("unknown");
    setWord(error instanceof Problem && error.kind === "away" ? `${error.message} ${say("Meanwhile this device plans and computes by itself; printed sheets and the records of the workshop wait for the laptop.")}` : sentence(error));
  });
  useEffect(() => {
    look();
    const end = startLive();
    const hear = (): void => setHash(location.hash);
    addEventListener("hashchange", hear);
    hear(); /* it may have changed since the first drawing */
    return () => { removeEventListener("hashchange", hear); end(); };
  }, []);
  /* a laptop that did not answer is asked again: the word about it goes when it is back */
  useEffect(() => {
    if (!word) return;
    const again = setTimeout(look, ASK_AGAIN_MS);
    addEventListener("online", look);
    return () => { clearTimeout(again); removeEventListener("online", look); };
  });
  const [, stage = "", part = ""] = hash.split("/");
  const list = stages(known);
  const here = [...(alone() ? [] : ["jobs", "prices", "phones"]), "plans"].includes(stage) || list.some((s) => s.id === stage) ? stage : "place";
  useEffect(() => {
    document.title = `${list.find((s) => s.id === here)?.name ?? ({ jobs: say("What the laptop computes"), prices: say("Shelf and prices"), phones: say("Phones of the workshop") }[here] ?? say("Plans"))}, Lanewick`;
    if (hash.startsWith("#/")) { scrollTo(0, 0); document.getElementById("main")?.focus({ preventScroll: true }); }
  }, [here, part]);
  const rooms: Record<string, () => ComponentChildren> = {
    place: () => <PlaceStage />, light: () => <LightStage />, power: () => <PowerStage />, cells: () => <CellsStage />, pack: () => <PackStage />,
    wiring: () => <WiringStage />, mast: () => <MastStage />, sheets: () => <SheetsStage />, plans: () => <PlansView />, jobs: () => <JobsView />, phones: () => <PhonesView />, prices: () => <PricesView />, figures: () => <FiguresStage name={part} />,
  };
  if (role === "none") return <Pair paired={look} />;
  return (
    <>
      <a class="skip" href="#main" onClick={(e) => { e.preventDefault(); document.getElementById("main")?.focus(); }}>{say("To the content")}</a>
      <Tools here={here} />
      <Lane stages={list} here={here} />
      <div class="above"><Say what={word} /></div>
      <main id="main" tabIndex={-1} key={here}>{rooms[here]?.()}</main>
    </>
  );
}

/** What was kept may come from an older page: a fault must not lock the door for ever. */
class Guard extends Component<{ children: ComponentChildren }, { fault: string }> {
  override state = { fault: "" };
  override componentDidCatch(error: unknown): void {
    console.error(error);
    this.setState({ fault: sentence(error) });
  }
  override render() {
    if (!this.state.fault) return this.props.children;
    const anew = (): void => { forget(); history.replaceState(null, "", location.pathname); location.reload(); };
    const back = (): void => { undo(); this.setState({ fault: "" }); };
    return <main id="main"><h1>{say("The page stumbled")}</h1><p class="alarm">{told(this.state.fault)}</p><p>{say("What was typed here is still kept. Open the page again; if it stumbles again, begin anew.")}</p>
      {canUndo() ? <p>{say("Or take back what was changed last; the rest stays.")}</p> : null}
      <div class="buttons"><button class="main" onClick={() => location.reload()}>{say("Open again")}</button>{canUndo() ? <button onClick={back}>{say("Undo the last change")}</button> : null}<button onClick={anew}>{say("Forget what was typed and begin anew")}</button></div></main>;
  }
}

const page = document.getElementById("page");
if (page) {
  page.replaceChildren();
  render(<Guard><Page /></Guard>, page);
}
/* The core comes by itself when the page has stood for a while, so that a slow phone is free for the first taps; what needs it
 * earlier fetches it at once. */
const wait = (ms: number): Promise<void> => new Promise((done) => setTimeout(done, ms));
const there = wait(1500).then(loadSentences).catch(() => undefined).then(() => wait(4500)).then(core);
/* Browsers keep pages only from places they trust: this machine, or a trusted certificate. */
if (!alone() && "serviceWorker" in navigator && window.isSecureContext) void navigator.serviceWorker.register("/away.js").then(() => there).then(keepVisit).catch(() => undefined);
