// SPDX-License-Identifier: GPL-3.0-or-later
// Where the lane is, and what sun falls there: months as bars with the spread that the estimate has.
import { useEffect, useRef, useState } from "preact/hooks";
import { away } from "./api";
import { textFile } from "./carried";
import { Find } from "./find";
import { Headline, NumberField, Say, TextField } from "./form";
import { Horizon } from "./horizon";
import { asked, compute, useWork, workOf } from "./live";
import { PlaceMap, type Spot } from "./map";
import { month, months, show } from "./numbers";
import type { Brief, Climate, FoundPlace } from "./shapes";
import { firstBrief } from "./start";
import { change, knownNow, useKnown } from "./state";
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

/* Height, clock, hills and wind of a place hold within a walk around it. */
const WALK_KM = 1, DEGREE_KM = 111;
function near(a: Spot, b: Spot): boolean {
  const east = (a.lon - b.lon) * Math.cos((a.lat * Math.PI) / 180);
  return Math.hypot(a.lat - b.lat, east) * DEGREE_KM <= WALK_KM;
}
const belongs = ["elev_m", "utc_offset_h", "horizon_deg", "wind", "gust_m_s"] as const;
type Fact = (typeof belongs)[number];
const factName = (fact: Fact): string => ({ elev_m: say("its height"), utc_offset_h: say("its clock"), horizon_deg: say("its hills"), wind: say("its wind"), gust_m_s: say("its wind") })[fact];

/** A place that has moved away loses what belonged to the old one. */
function moved(brief: Brief | null, spot: Spot, name: string, away: boolean): Brief {
  if (!brief) return firstBrief(spot.lat, spot.lon, name);
  const { name: old, ...rest } = brief.place, place = { ...rest, ...(name ? { name } : {}), lat_deg: spot.lat, lon_deg: spot.lon };
  if (away) for (const fact of belongs) delete (place as Record<string, unknown>)[fact];
  /* a job that was called by its place is so again */
  return { ...brief, ...(brief.name === old && old !== name ? { name: name || say("My lane") } : {}), place };
}

export function PlaceStage() {
  const known = useKnown(), place = known.brief?.place, work = useWork("climate");
  const [lat, setLat] = useState<number | undefined>(place?.lat_deg);
  const [lon, setLon] = useState<number | undefined>(place?.lon_deg);
  const [name, setName] = useState(place?.name ?? "");
  const [word, setWord] = useState("");
  const [found, setFound] = useState<FoundPlace[]>([]);
  const [lost, setLost] = useState<{ facts: Fact[]; from: Brief } | null>(null);
  /* Where height, clock, hills and wind belong to; and where this stage has moved the place itself. */
  const home = useRef<Spot | null>(null), own = useRef("");
  /* Undo, or another plan, moves the place from outside. */
  useEffect(() => {
    if (!place) return;
    setLat(place.lat_deg);
    setLon(place.lon_deg);
    setName(place.name ?? "");
    if (own.current === JSON.stringify([place.lat_deg, place.lon_deg])) return;
    home.current = { lat: place.lat_deg, lon: place.lon_deg };
    setLost(null);
  }, [place?.lat_deg, place?.lon_deg, place?.name]);
  useEffect(() => { if (place && !known.climate && !workOf("climate")) compute("climate"); }, [place?.lat_deg, place?.lon_deg]);

  /** called: the name that belongs to the spot itself; else the old place's goes with it, and what was typed stays. */
  const settle = (spot: Spot, called?: string): void => {
    const away = home.current !== null && !near(spot, home.current), typed = name === (place?.name ?? "") ? "" : name;
    const named = called ?? (away ? typed : name);
    setFound([]);
    setLat(spot.lat);
    setLon(spot.lon);
    setName(named);
    setWord("");
    const facts = belongs.filter((fact) => place?.[fact] !== undefined);
    if (away && known.brief && facts.length) setLost({ facts, from: known.brief });
    if (away || !home.current) home.current = spot;
    own.current = JSON.stringify([spot.lat, spot.lon]);
    change({ brief: moved(known.brief, spot, named, away) });
    const k = knownNow();
    if (k.climate?.asked !== asked.climate(k) && !workOf("climate")?.busy) compute("climate");
  };
  const goBack = (): void => {
    if (!lost || !known.brief) return;
    own.current = "";
    const { name: title } = lost.from;
    change({ brief: { ...known.brief, ...(title === undefined ? {} : { name: title }), place: lost.from.place } });
  };
  const take = (event: Event): void => {
    event.preventDefault();
    if (lat === undefined || lon === undefined) return setWord(say("Search a name, tap the map, or type latitude and longitude."));
    settle({ lat, lon });
  };
  const example = async (): Promise<void> => {
    try {
      const brief = JSON.parse(await textFile("/built-in/demo/nsungwi.json")) as Brief;
      setFound([]);
      setWord("");
      change({ brief });
      compute("climate");
    } catch { setWord(away()); }
  };
  const here = (): void => navigator.geolocation.getCurrentPosition(
    ({ coords }) => settle({ lat: Number(coords.latitude.toFixed(4)), lon: Number(coords.longitude.toFixed(4)) }),
    () => setWord(say("The phone does not tell its position. Search a name, or tap the map.")));

  const climate = known.climate?.value, fresh = known.climate?.asked === asked.climate(known);
  return (
    <>
      <h1>{say("Where is the lane?")}</h1>
      {known.brief ? null : <p class="lead">{say("Lanewick plans a lamp that is lit every night: which panel, how many cells, what light. It begins with the place, because the poorest month of sun rules everything.")}</p>}
      <Find key={place?.name ?? ""} found={found} tell={setFound} take={(p) => settle({ lat: p.lat_deg, lon: p.lon_deg }, p.name)} />
      <PlaceMap mark={lat === undefined || lon === undefined ? null : { lat, lon }} dots={found.map((p) => ({ lat: p.lat_deg, lon: p.lon_deg }))} set={settle} />
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
      <div role="status">{lost ? <div class="note">
        <p>{say("The place has moved. What belonged to the old one was taken out: {0}. Tell it anew where you know it.", [...new Set(lost.facts.map(factName))].join(", "))}</p>
        <button type="button" class="small" onClick={goBack}>{say("Back to the old place")}</button>
      </div> : null}</div>
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
      {climate || place ? <p class="onward"><a class="next" href="#/light">{say("Next: the light on the lane")}</a></p> : null}
    </>
  );
}
