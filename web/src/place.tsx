// SPDX-License-Identifier: GPL-3.0-or-later
// Where the lane is, and what sun falls there: months as bars with the spread that the estimate has.
import { useEffect, useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Find } from "./find";
import { Headline, NumberField, Say, TextField } from "./form";
import { Horizon } from "./horizon";
import { asked, compute, useWork } from "./live";
import { PlaceMap, type Spot } from "./map";
import { month, months, show } from "./numbers";
import type { Brief, Climate, FoundPlace } from "./shapes";
import { firstBrief } from "./start";
import { change, useKnown } from "./state";
import { say, told } from "./words";

/** Polar nights have none. */
export const sun = (kwh: number | undefined): string => show(kwh !== undefined && kwh < 0.005 ? 0 : kwh, 2);
export const poorest = (c: Climate): number => c.ghi_kwh_m2_day.indexOf(Math.min(...c.ghi_kwh_m2_day));

function Months({ climate }: { climate: Climate }) {
  const most = Math.max(...climate.ghi_kwh_m2_day.map((g, m) => g * (1 + (climate.ghi_spread_pct[m] ?? 0) / 100)), 1);
  const y = (value: number): number => 128 - (value / most) * 112;
  const worst = poorest(climate);
  return (
    <figure>
      <svg viewBox="0 0 340 150" class="plot" role="img" aria-label={say("Sun on level ground in each month. Least in {0}: {1} kilowatt-hours a square metre a day.", month(worst), sun(climate.ghi_kwh_m2_day[worst]))}>
        <path d="M4 128h332" class="axis" />
        {climate.ghi_kwh_m2_day.map((ghi, m) => {
          const x = 6 + m * 27.8, spread = (ghi * (climate.ghi_spread_pct[m] ?? 0)) / 100;
          return (
            <g key={m}>
              <rect x={x} width="22" y={y(ghi)} height={128 - y(ghi)} class={m === worst ? "bar poor" : "bar"} />
              <path d={`M${x + 11} ${y(ghi + spread)}V${y(ghi - spread)}m-4 0h8M${x + 7} ${y(ghi + spread)}h8`} class="spread" />
              <text x={x + 11} y="143" class="tick">{month(m).slice(0, 1)}</text>
            </g>
          );
        })}
      </svg>
      <figcaption>{say("Sun on level ground, kWh a square metre a day. The thin line on each bar: how far the true mean may lie from it. Hatched: the poorest month, which rules the lamp.")}</figcaption>
      <details><summary>{say("As numbers")}</summary>
        <div class="scroll" tabIndex={0} role="region" aria-label={say("Months as numbers")}><table><thead><tr><th>{say("Month")}</th><th>{say("Sun")}</th><th>{say("Spread")}</th><th>{say("Air")}</th><th>{say("Rain")}</th></tr></thead>
          <tbody>{months().map((name, m) => (
            <tr key={m}><th scope="row">{name}</th><td>{sun(climate.ghi_kwh_m2_day[m])}</td><td>± {show(climate.ghi_spread_pct[m], 2)} %</td><td>{show(climate.t_mean_c[m], 3)} °C</td><td>{show(climate.rain_mm[m], 2)} mm</td></tr>
          ))}</tbody></table></div>
        <p class="quiet">{say("It rests on: {0}.", told(climate.basis))}</p>
      </details>
    </figure>
  );
}

/** A place that has moved loses what belonged to the old one: height, clock, hills, wind. */
function moved(brief: Brief | null, lat: number, lon: number, name: string): Brief {
  if (!brief) return firstBrief(lat, lon, name);
  const { elev_m: _height, utc_offset_h: _clock, horizon_deg: _hills, wind: _wind, ...rest } = brief.place;
  const same = brief.place.lat_deg === lat && brief.place.lon_deg === lon;
  return { ...brief, place: { ...(same ? brief.place : rest), ...(name ? { name } : {}), lat_deg: lat, lon_deg: lon } };
}

export function PlaceStage() {
  const known = useKnown(), place = known.brief?.place, work = useWork("climate");
  const [lat, setLat] = useState<number | undefined>(place?.lat_deg);
  const [lon, setLon] = useState<number | undefined>(place?.lon_deg);
  const [name, setName] = useState(place?.name ?? "");
  const [word, setWord] = useState("");
  const [found, setFound] = useState<FoundPlace[]>([]);
  /* Undo, or another plan, moves the place from outside. */
  useEffect(() => { if (place) { setLat(place.lat_deg); setLon(place.lon_deg); setName(place.name ?? ""); } }, [place?.lat_deg, place?.lon_deg, place?.name]);

  const settle = (spot: Spot, called: string): void => {
    setFound([]);
    setLat(spot.lat);
    setLon(spot.lon);
    setName(called);
    setWord("");
    const first = !known.brief;
    change({ brief: moved(known.brief, spot.lat, spot.lon, called) });
    if (first) compute("climate");
  };
  const take = (event: Event): void => {
    event.preventDefault();
    if (lat === undefined || lon === undefined) return setWord(say("Search a name, tap the map, or type latitude and longitude."));
    settle({ lat, lon }, name);
  };
  const example = async (): Promise<void> => {
    try {
      const brief = await ask<Brief>("GET", "/built-in/demo/nsungwi.json");
      setFound([]);
      change({ brief });
      compute("climate");
    } catch (error) { setWord(sentence(error)); }
  };
  const here = (): void => navigator.geolocation.getCurrentPosition(
    ({ coords }) => settle({ lat: Number(coords.latitude.toFixed(4)), lon: Number(coords.longitude.toFixed(4)) }, name),
    () => setWord(say("The phone does not tell its position. Search a name, or tap the map.")));

  const climate = known.climate?.value, fresh = known.climate?.asked === asked.climate(known);
  return (
    <>
      <h1>{say("Where is the lane?")}</h1>
      {known.brief ? null : <p class="lead">{say("Lanewick plans a lamp that is lit every night: which panel, how many cells, what light. It begins with the place, because the poorest month of sun rules everything.")}</p>}
      <Find key={place?.name ?? ""} found={found} tell={setFound} take={(p) => settle({ lat: p.lat_deg, lon: p.lon_deg }, p.name)} />
      <PlaceMap mark={lat === undefined || lon === undefined ? null : { lat, lon }} dots={found.map((p) => ({ lat: p.lat_deg, lon: p.lon_deg }))} set={(spot) => settle(spot, place?.name ?? name)} />
      <form onSubmit={take}>
        <TextField label={say("Name of the place")} value={name} set={setName} />
        <div class="pair">
          <NumberField label={say("Latitude")} unit={say("degrees, south: minus")} value={lat} low={-90} high={90} optional set={setLat} />
          <NumberField label={say("Longitude")} unit={say("degrees, west: minus")} value={lon} low={-180} high={180} optional set={setLon} />
        </div>
        <div class="buttons">
          <button class="main">{say("Take this place")}</button>
          {window.isSecureContext && "geolocation" in navigator ? <button type="button" onClick={here}>{say("Where I stand")}</button> : null}
          <button type="button" onClick={() => void example()}>{say("Load the example, Nsungwi Landing")}</button>
        </div>
      </form>
      <Say what={word || (work?.word ?? "")} />
      {climate ? (
        <section aria-label={say("Sun of the place")} class={fresh ? "" : "stale"}>
          <div class="row">
            <Headline value={sun(climate.ghi_kwh_m2_day[poorest(climate)])} unit={say("kWh/m² a day")} of={say("in {0}, the poorest month", month(poorest(climate)))} />
            <Headline value={show(climate.elev_m, 3)} unit="m" of={say("above the sea")} />
          </div>
          <Months climate={climate} />
        </section>
      ) : null}
      {known.brief ? <details><summary>{say("Hills, trees and roofs around")}</summary>
        <Horizon heights={place?.["horizon_deg"] as number[] | undefined} set={(heights) => {
          if (!known.brief) return;
          const { horizon_deg: _old, ...rest } = known.brief.place;
          change({ brief: { ...known.brief, place: heights ? { ...rest, horizon_deg: heights } : rest } });
        }} />
      </details> : null}
      {climate ? <p class="onward"><a class="next" href="#/light">{say("Next: the light on the lane")}</a></p> : null}
    </>
  );
}
