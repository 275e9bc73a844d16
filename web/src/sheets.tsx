// SPDX-License-Identifier: GPL-3.0-or-later
// The printed sheets of the plan: looked at page by page, printed or kept as PDF, in the language of who builds.
import { useEffect, useState } from "preact/hooks";
import { ask, askFile, Problem, sentence } from "./api";
import { alone } from "./carried";
import { Choice, Say } from "./form";
import { asked, repeatPlan, useWork } from "./live";
import { change, useKnown } from "./state";
import { language, say, sayMany, told } from "./words";

interface Sheet { name: string; title: string; for: string; lamp: string; pages: number }
interface List { plan: string; language: string; languages: { code: string; name: string }[]; sheets: Sheet[] }
const groups = (): [string, string][] => [["all", say("everything")], ["bench", say("the bench")], ["market", say("the market")], ["mast", say("the mast")], ["handover", say("handing over")], ["labels", say("labels")]];

function Preview({ job, sheet, tongue }: { job: string; sheet: Sheet; tongue: string }) {
  const [page, setPage] = useState(1);
  const [picture, setPicture] = useState("");
  const [word, setWord] = useState("");
  useEffect(() => {
    const stop = new AbortController();
    let made = "";
    setWord("");
    askFile(`/jobs/${job}/sheets/${sheet.name}?language=${tongue}&paper=svg&page=${page}`, stop.signal)
      .then((file) => { made = URL.createObjectURL(file); setPicture(made); }, (error: unknown) => { if (!stop.signal.aborted) setWord(sentence(error)); });
    return () => { stop.abort(); if (made) setTimeout(() => URL.revokeObjectURL(made), 1000); };
  }, [job, sheet.name, tongue, page]);
  return (
    <figure class="preview">
      <Say what={word} />
      {picture ? <img src={picture} alt={say("{0}, page {1} of {2}", sheet.title, page, sheet.pages)} /> : word ? null : <p class="quiet">{say("Drawing the sheet…")}</p>}
      {sheet.pages > 1 ? <div class="buttons"><button type="button" disabled={page === 1} onClick={() => setPage(page - 1)}>{say("Page before")}</button><button type="button" disabled={page === sheet.pages} onClick={() => setPage(page + 1)}>{say("Next page")}</button></div> : null}
      <figcaption>{say("{0}, page {1} of {2}", sheet.title, page, sheet.pages)}</figcaption>
    </figure>
  );
}

/** The viewer of the device prints; a file is the way where it does not open. */
function Print({ path, name, tell }: { path: string; name: string; tell: (word: string) => void }) {
  const [busy, setBusy] = useState(false);
  const get = async (way: "print" | "keep"): Promise<void> => {
    /* A window that opens later is taken for an advertisement: it opens now and is filled when the file is there. */
    const view = way === "print" ? window.open("", "_blank") : null;
    setBusy(true);
    tell("");
    try {
      const address = URL.createObjectURL(await askFile(`${path}${way === "print" ? "&print=yes" : ""}`));
      if (view) view.location.href = address;
      else {
        const link = document.createElement("a");
        link.href = address;
        link.download = `${name}.pdf`;
        link.click();
      }
      setTimeout(() => URL.revokeObjectURL(address), 60000);
    } catch (error) { view?.close(); tell(sentence(error)); }
    setBusy(false);
  };
  return <><button type="button" class="main" disabled={busy} onClick={() => void get("print")}>{say("Print")}</button><button type="button" disabled={busy} onClick={() => void get("keep")}>{say("Keep as a file")}</button></>;
}

function Ready({ job }: { job: string }) {
  const [tongue, setTongue] = useState(language);
  const [group, setGroup] = useState("all");
  const [list, setList] = useState<List | null>(null);
  const [name, setName] = useState("");
  const [word, setWord] = useState("");
  useEffect(() => {
    const stop = new AbortController();
    ask<List>("GET", `/jobs/${job}/sheets?language=${tongue}&for=${group}`, undefined, stop.signal).then((found) => {
      setList(found);
      if (group === "all") change({ sheets: { asked: job, value: { pages: found.sheets.reduce((sum, s) => sum + s.pages, 0) } } });
    }, (error: unknown) => {
      if (stop.signal.aborted) return;
      /* The server was started anew and has forgotten the plan: the same brief gives the same plan again. */
      if (error instanceof Problem && error.status === 404) repeatPlan();
      else setWord(sentence(error));
    });
    return () => stop.abort();
  }, [job, tongue, group]);
  if (!list) return word ? <Say what={word} /> : <p class="quiet" role="status">{say("Drawing the sheets…")}</p>;
  const sheet = list.sheets.find((s) => s.name === name) ?? list.sheets[0], all = list.sheets.reduce((sum, s) => sum + s.pages, 0);
  return (
    <>
      <p>{say("Each sheet carries the code {0}: sheets of one plan belong together.", list.plan)}</p>
      <div class="pair">
        <Choice label={say("Language of the sheets")} value={tongue} set={setTongue} of={list.languages.map((l) => [l.code, l.name])} />
        <Choice label={say("Sheets for")} value={group} set={setGroup} of={groups()} />
      </div>
      <div class="buttons"><Print path={`/jobs/${job}/sheets/all?language=${tongue}&for=${group}`} name={`${list.plan}-${group}`} tell={setWord} /></div>
      <p class="hint">{sayMany("{0} page in one PDF.", "{0} pages in one PDF.", all)} {say("Print at 100 %, not fitted to the page: the bar on the sheet must measure 100 mm.")}</p>
      <Say what={word} />
      {sheet ? <section aria-label={say("One sheet")}>
        <h2>{say("One sheet")}</h2>
        <Choice label={say("Look at")} value={sheet.name} set={setName} of={list.sheets.map((s) => [s.name, [s.title, s.lamp].filter(Boolean).join(", ")])} />
        <Preview key={sheet.name} job={job} sheet={sheet} tongue={tongue} />
        <div class="buttons"><Print path={`/jobs/${job}/sheets/${sheet.name}?language=${tongue}`} name={`${list.plan}-${sheet.name}`} tell={setWord} /></div>
      </section> : <p>{say("There are no sheets of this kind for the plan.")}</p>}
    </>
  );
}

export function SheetsStage() {
  const known = useKnown(), work = useWork("plan"), plan = known.plan?.value, fresh = known.plan?.asked === asked.plan(known);
  const missing = plan && !plan.job && !plan.refused?.length, here = missing && plan.here;
  /* A plan of this device is made again by the laptop as soon as it answers: the same brief gives the same plan. */
  const again = (): void => void (alone() ? undefined : ask("GET", "").then(() => repeatPlan(), () => undefined));
  useEffect(() => { if (here) again(); else if (missing) repeatPlan(); }, [missing]);
  const body = () => {
    if (!plan) return <><p>{say("Sheets are printed from a plan.")}</p><p class="onward"><a class="next" href="#/power">{say("Plan the lamps")}</a></p></>;
    if (plan.refused?.length) return <section class="refusal" aria-label={say("Refused")}><h2>{say("Refused: no sheets")}</h2><p>{say("A plan that is refused must not be built, so there is nothing to print.")}</p>{plan.refused.map((r) => <p key={r.id}><strong>{told(r.reason)}</strong></p>)}<p><a href="#/power">{say("What would make it acceptable")}</a></p></section>;
    if (here && !work?.busy) return <><p class="note" role="status">{say("This plan was made on this device. The laptop draws and prints its sheets.")}</p>
      {alone() ? <p>{say("Keep the plan as a file (the button is below the plan), bring it to a laptop and run there: lanewick sheet plan.json")}</p> : <div class="buttons"><button type="button" class="main" onClick={again}>{say("Ask the laptop again")}</button></div>}
      <p><a href="#/power">{say("To the plan")}</a></p></>;
    if (work?.busy || !plan.job || !fresh) return <p class="note" role="status">{work?.busy ? say("The plan is being computed; the sheets follow.") : say("Something has changed since the plan was made.")} <a href="#/power">{say("To the plan")}</a></p>;
    return <Ready key={plan.job} job={plan.job} />;
  };
  return (
    <>
      <h1>{say("Sheets to build from")}</h1>
      {body()}
      {plan && !plan.refused?.length && !alone() ? <p><a href="#/prices">{say("Shelf and prices of the workshop")}</a></p> : null}
      {plan && !plan.refused?.length && !known.brief?.place.wind ? <p class="quiet">{say("There is no mast sheet, because the plan knows no wind.")} <a href="#/mast">{say("To the mast")}</a></p> : null}
    </>
  );
}
