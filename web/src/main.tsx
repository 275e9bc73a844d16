// SPDX-License-Identifier: GPL-3.0-or-later
// The page: the lane of stages, the present stage under it, the theme.
import { Component, render, type ComponentChildren } from "preact";
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { CellsStage } from "./cells";
import { core } from "./core";
import { FiguresStage } from "./figures";
import { Say } from "./form";
import { Languages } from "./language";
import { Lane, type Stage, type State } from "./lane";
import { LightStage } from "./light";
import { MastStage } from "./mast";
import { whole, show } from "./numbers";
import { PackStage } from "./pack";
import { Pair } from "./pair";
import { PlaceStage, poorest } from "./place";
import { PowerStage } from "./power";
import { asked, forget, useKnown, type Known } from "./state";
import { WiringStage } from "./wiring";

const themeKey = "lanewick.theme";
const state = (answer: { asked: string } | undefined, question?: string): State =>
  !answer ? "open" : question === undefined || answer.asked === question ? "lit" : "stale";

function stages(k: Known): Stage[] {
  const plan = k.plan?.value, climate = k.climate?.value, lamp = plan?.lamps[0];
  const worst = plan?.lamps.reduce((most, l) => Math.max(most, l.nights.dark_per_year.mean), 0) ?? 0;
  const power = state(k.plan, asked.plan(k));
  return [
    { id: "place", name: "Place", state: state(k.climate, asked.climate(k)), headline: climate ? `${show(climate.ghi_kwh_m2_day[poorest(climate)], 2)} kWh/m² a day` : "" },
    { id: "light", name: "Light", state: state(k.light, asked.light(k)), headline: k.light ? `${show(k.light.value.average_lx, 2)} lx` : "" },
    { id: "power", name: "Power", state: plan?.refused?.length && power === "lit" ? "refused" : power, headline: lamp ? `${worst > 0 && worst < 1 ? "under 1" : whole(worst)} dark ${Math.round(worst) === 1 || (worst > 0 && worst < 1) ? "night" : "nights"} a year` : "" },
    { id: "cells", name: "Cells", state: state(k.crate), headline: k.crate ? `${k.crate.value.tested} of ${k.crate.value.all} tested` : "" },
    { id: "pack", name: "Pack", state: state(k.match, k.cells), headline: k.match ? `weakest ${show(k.match.value.weakest_ah)} Ah` : "" },
    { id: "wiring", name: "Wiring", state: k.wiring?.value.refused ? "refused" : state(k.wiring), headline: k.wiring && !k.wiring.value.refused ? "readings known" : "" },
    { id: "mast", name: "Mast", state: k.mast && k.mast.value.verdict !== "stands" && k.mast.value.verdict !== "not_checked" ? "refused" : k.mast?.value.verdict === "not_checked" ? "open" : state(k.mast), headline: k.mast?.value.verdict === "stands" ? `base ${show(k.mast.value.base_depth_m, 2)} m deep` : "" },
    { id: "figures", name: "Figures", state: "always", headline: "each by itself" },
  ];
}

function Theme() {
  const [theme, setTheme] = useState(localStorage.getItem(themeKey) ?? (matchMedia("(prefers-color-scheme: light)").matches ? "paper" : "night"));
  useEffect(() => { document.documentElement.dataset["theme"] = theme; }, [theme]);
  const other = theme === "night" ? "paper" : "night";
  return <button class="small" onClick={() => { localStorage.setItem(themeKey, other); setTheme(other); }}>{other === "paper" ? "Bright page" : "Dark page"}</button>;
}

function Page() {
  const known = useKnown();
  const [hash, setHash] = useState(location.hash);
  const [role, setRole] = useState<string | null>(null);
  const [word, setWord] = useState("");
  const look = (): void => void ask<{ role: string }>("GET", "").then((s) => { setRole(s.role); setWord(""); }, (error: unknown) => { setRole("unknown"); setWord(sentence(error)); });
  useEffect(() => {
    look();
    const hear = (): void => setHash(location.hash);
    addEventListener("hashchange", hear);
    return () => removeEventListener("hashchange", hear);
  }, []);
  const [, stage = "", part = ""] = hash.split("/");
  const list = stages(known);
  const here = list.some((s) => s.id === stage) ? stage : "place";
  useEffect(() => {
    document.title = `${list.find((s) => s.id === here)?.name}, Lanewick`;
    if (hash.startsWith("#/")) { scrollTo(0, 0); document.getElementById("main")?.focus({ preventScroll: true }); }
  }, [here, part]);
  const rooms: Record<string, () => ComponentChildren> = {
    place: () => <PlaceStage />, light: () => <LightStage />, power: () => <PowerStage />, cells: () => <CellsStage />, pack: () => <PackStage />,
    wiring: () => <WiringStage />, mast: () => <MastStage />, figures: () => <FiguresStage name={part} />,
  };
  if (role === "none") return <Pair paired={look} />;
  return (
    <>
      <a class="skip" href="#main" onClick={(e) => { e.preventDefault(); document.getElementById("main")?.focus(); }}>To the content</a>
      <header><span class="brand">Lanewick</span><span class="job quiet">{known.brief?.name ?? ""}</span><Languages /><Theme /></header>
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
    const anew = (): void => { forget(); location.replace("/"); };
    return <main id="main"><h1>The page stumbled</h1><p class="alarm">{this.state.fault}</p><p>What was typed here is still kept. Open the page again; if it stumbles again, begin anew.</p>
      <div class="buttons"><button class="main" onClick={() => location.reload()}>Open again</button><button onClick={anew}>Forget what was typed and begin anew</button></div></main>;
  }
}

const page = document.getElementById("page");
if (page) {
  page.replaceChildren();
  render(<Guard><Page /></Guard>, page);
}
/* The core comes when the first screen stands. */
setTimeout(() => void core(), 1500);
/* Browsers keep pages only from places they trust: this machine, or a trusted certificate. */
if ("serviceWorker" in navigator && window.isSecureContext) void navigator.serviceWorker.register("/away.js").catch(() => undefined);
