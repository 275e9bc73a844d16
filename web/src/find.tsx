// SPDX-License-Identifier: GPL-3.0-or-later
// A place by the name of a climate station near it: the list follows the letters that are typed.
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Frame, useId } from "./form";
import { show } from "./numbers";
import type { FoundPlace } from "./shapes";
import { language, say, sayMany } from "./words";

function countryName(code: string): string {
  try {
    return new Intl.DisplayNames([language()], { type: "region" }).of(code) ?? code;
  } catch {
    return code;
  }
}

export function Find({ found, tell, take }: { found: FoundPlace[]; tell: (places: FoundPlace[]) => void; take: (place: FoundPlace) => void }) {
  const [text, setText] = useState("");
  const [word, setWord] = useState("");
  const id = useId();
  useEffect(() => {
    setWord("");
    if (text.trim().length < 2) { tell([]); return undefined; }
    const stop = new AbortController();
    const later = setTimeout(() => {
      ask<{ places: FoundPlace[] }>("GET", `/places?name=${encodeURIComponent(text.trim().slice(0, 60))}`, undefined, stop.signal).then(
        ({ places }) => { tell(places); setWord(places.length ? sayMany("{0} place found", "{0} places found", places.length) : say("No climate station has this name. Try the next town, or tap the map.")); },
        (error: unknown) => { if (!stop.signal.aborted) setWord(sentence(error)); });
    }, 120);
    return () => { clearTimeout(later); stop.abort(); };
  }, [text]);
  return (
    <>
      <Frame id={id} label={say("Search by name")} hint={say("Names of climate stations: towns, airports, missions. Accents do not matter.")}>
        <input id={id} type="search" autocomplete="off" value={text} onInput={(e) => setText(e.currentTarget.value)} aria-describedby={`${id}-h`} />
      </Frame>
      <p class="quiet" role="status">{word}</p>
      {found.length ? <ul class="found">{found.map((p) => (
        <li key={`${p.name} ${p.lat_deg} ${p.lon_deg}`}><button type="button" onClick={() => { setText(""); take(p); }}>
          <strong>{p.name}</strong> <span class="quiet">{countryName(p.country)}, {show(p.lat_deg, 4)}°, {show(p.lon_deg, 4)}°{p.elev_m === null ? "" : `, ${show(p.elev_m, 4)} m`}</span>
        </button></li>
      ))}</ul> : null}
    </>
  );
}
