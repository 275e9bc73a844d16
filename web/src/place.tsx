// SPDX-License-Identifier: GPL-3.0-or-later
// Where the lane is, and what sun falls there: months as bars with the spread that the estimate has.
import { useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Headline, NumberField, Say, TextField } from "./form";
import { MONTHS, show } from "./numbers";
import type { Brief, Climate } from "./shapes";
import { firstBrief } from "./start";
import { asked, change, useKnown } from "./state";

export const poorest = (c: Climate): number => c.ghi_kwh_m2_day.indexOf(Math.min(...c.ghi_kwh_m2_day));

export async function fetchClimate(brief: Brief): Promise<void> {
  const { lat_deg, lon_deg, elev_m } = brief.place;
  const value = await ask<Climate>("GET", `/climate?lat=${lat_deg}&lon=${lon_deg}${elev_m === undefined ? "" : `&elev=${elev_m}`}`);
  change({ climate: { asked: JSON.stringify([lat_deg, lon_deg, elev_m]), value } });
}

function Months({ climate }: { climate: Climate }) {
  const most = Math.max(...climate.ghi_kwh_m2_day.map((g, m) => g * (1 + (climate.ghi_spread_pct[m] ?? 0) / 100)), 1);
  const y = (value: number): number => 128 - (value / most) * 112;
  const worst = poorest(climate);
  return (
    <figure>
      <svg viewBox="0 0 340 150" class="plot" role="img" aria-label={`Sun on level ground in each month. Least in ${MONTHS[worst]}: ${show(climate.ghi_kwh_m2_day[worst], 2)} kilowatt-hours a square metre a day.`}>
        <path d="M4 128h332" class="axis" />
        {climate.ghi_kwh_m2_day.map((ghi, m) => {
          const x = 6 + m * 27.8, spread = (ghi * (climate.ghi_spread_pct[m] ?? 0)) / 100;
          return (
            <g key={m}>
              <rect x={x} width="22" y={y(ghi)} height={128 - y(ghi)} class={m === worst ? "bar poor" : "bar"} />
              <path d={`M${x + 11} ${y(ghi + spread)}V${y(ghi - spread)}m-4 0h8M${x + 7} ${y(ghi + spread)}h8`} class="spread" />
              <text x={x + 11} y="143" class="tick">{(MONTHS[m] ?? "").slice(0, 1)}</text>
            </g>
          );
        })}
      </svg>
      <figcaption>Sun on level ground, kWh a square metre a day. The thin line on each bar: how far the true mean may lie from it. Hatched: the poorest month, which rules the lamp.</figcaption>
      <details><summary>As numbers</summary>
        <div class="scroll" tabIndex={0} role="region" aria-label="Months as numbers"><table><thead><tr><th>Month</th><th>Sun</th><th>Spread</th><th>Air</th><th>Rain</th></tr></thead>
          <tbody>{MONTHS.map((month, m) => (
            <tr key={month}><th scope="row">{month}</th><td>{show(climate.ghi_kwh_m2_day[m], 3)}</td><td>± {show(climate.ghi_spread_pct[m], 2)} %</td><td>{show(climate.t_mean_c[m], 3)} °C</td><td>{show(climate.rain_mm[m], 2)} mm</td></tr>
          ))}</tbody></table></div>
        <p class="quiet">It rests on: {climate.basis}.</p>
      </details>
    </figure>
  );
}

export function PlaceStage() {
  const known = useKnown();
  const place = known.brief?.place;
  const [lat, setLat] = useState<number | undefined>(place?.lat_deg);
  const [lon, setLon] = useState<number | undefined>(place?.lon_deg);
  const [name, setName] = useState(place?.name ?? "");
  const [word, setWord] = useState("");
  const [busy, setBusy] = useState(false);

  const run = async (work: () => Promise<void>): Promise<void> => {
    setBusy(true);
    setWord("");
    try { await work(); } catch (error) { setWord(sentence(error)); }
    setBusy(false);
  };
  const take = (event: Event): void => {
    event.preventDefault();
    if (lat === undefined || lon === undefined) return setWord("Type latitude and longitude, or load the example.");
    const { elev_m: _height, utc_offset_h: _clock, horizon_deg: _hills, ...rest } = place ?? { lat_deg: lat, lon_deg: lon };
    const moved = !place || place.lat_deg !== lat || place.lon_deg !== lon;
    const brief: Brief = known.brief
      ? { ...known.brief, place: { ...(moved ? rest : place), ...(name ? { name } : {}), lat_deg: lat, lon_deg: lon } }
      : firstBrief(lat, lon, name);
    change({ brief });
    void run(() => fetchClimate(brief));
  };
  const example = (): Promise<void> => run(async () => {
    const brief = await ask<Brief>("GET", "/built-in/demo/nsungwi.json");
    change({ brief });
    setLat(brief.place.lat_deg);
    setLon(brief.place.lon_deg);
    setName(brief.place.name ?? "");
    await fetchClimate(brief);
  });
  const here = (): void => navigator.geolocation.getCurrentPosition(
    ({ coords }) => { setLat(Number(coords.latitude.toFixed(4))); setLon(Number(coords.longitude.toFixed(4))); },
    () => setWord("The phone does not tell its position. Type latitude and longitude, for example from a map."));

  const climate = known.climate?.value;
  const fresh = known.climate?.asked === asked.climate(known);
  return (
    <>
      <h1>Where is the lane?</h1>
      {known.brief ? null : <p class="lead">Lanewick plans a lamp that is lit every night: which panel, how many cells, what light. It begins with the place, because the poorest month of sun rules everything.</p>}
      <form onSubmit={take}>
        <TextField label="Name of the place" value={name} set={setName} />
        <div class="pair">
          <NumberField label="Latitude" unit="degrees, south: minus" value={lat} low={-90} high={90} optional set={setLat} />
          <NumberField label="Longitude" unit="degrees, west: minus" value={lon} low={-180} high={180} optional set={setLon} />
        </div>
        <div class="buttons">
          <button class="main" disabled={busy}>{busy ? "Looking…" : "Take this place"}</button>
          {window.isSecureContext && "geolocation" in navigator ? <button type="button" onClick={here}>Where I stand</button> : null}
          <button type="button" onClick={() => void example()} disabled={busy}>Load the example, Nsungwi Landing</button>
        </div>
      </form>
      <Say what={word} />
      {climate ? (
        <section aria-label="Sun of the place" class={fresh ? "" : "stale"}>
          {fresh ? null : <p class="note">The place has changed since. Take it to see its sun.</p>}
          <div class="row">
            <Headline value={show(climate.ghi_kwh_m2_day[poorest(climate)], 2)} unit="kWh/m² a day" of={`in ${MONTHS[poorest(climate)]}, the poorest month`} />
            <Headline value={show(climate.elev_m, 3)} unit="m" of="above the sea" />
          </div>
          <Months climate={climate} />
          <p><a class="next" href="#/power">Next: plan the lamps</a></p>
        </section>
      ) : null}
    </>
  );
}
