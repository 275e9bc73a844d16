// SPDX-License-Identifier: GPL-3.0-or-later
// From tested cells to groups: cells come as lines, the groups as columns drawn to the height of the weakest, the surplus above it.
import { useState } from "preact/hooks";
import { ask, sentence } from "./api";
import { Caution, Headline, LongField, NumberField, Say } from "./form";
import { show, typed } from "./numbers";
import type { Match } from "./shapes";
import { change, useKnown } from "./state";

interface Cell { id: string; capacity_ah: number; voltage_class?: string; resistance_mohm?: number }
const names: Record<string, keyof Cell> = { id: "id", cell: "id", code: "id", capacity_ah: "capacity_ah", ah: "capacity_ah", resistance_mohm: "resistance_mohm", mohm: "resistance_mohm", voltage_class: "voltage_class", class: "voltage_class" };

/** Lines of "code, Ah" and perhaps more columns, with or without a first line of names. Throws a sentence. */
export function cellsOf(text: string, voltageClass: string): Cell[] {
  const lines = text.split(/\r?\n/).map((line) => line.trim()).filter(Boolean);
  const mark = (lines[0] ?? "").includes("\t") ? "\t" : (lines[0] ?? "").includes(";") ? ";" : ",";
  const parts = (line: string): string[] => line.split(mark).map((part) => part.trim());
  const head = parts(lines[0] ?? "").map((name) => names[name.toLowerCase()]);
  const named = head.includes("capacity_ah");
  const columns: (keyof Cell | undefined)[] = named ? head : ["id", "capacity_ah", "resistance_mohm"];
  return lines.slice(named ? 1 : 0).map((line, i) => {
    const cell: Cell = { id: `line ${i + 1}`, capacity_ah: NaN, voltage_class: voltageClass };
    parts(line).forEach((part, c) => {
      const key = columns[c];
      if (key === "id" || key === "voltage_class") { if (part) cell[key] = part; }
      else if (key && part) cell[key] = typed(part);
    });
    if (Number.isNaN(cell.capacity_ah)) throw new Error(`Line ${i + (named ? 2 : 1)}, “${line}”: its capacity is not a number. A line is a code, ${mark === "\t" ? "a tab" : `“${mark}”`}, and the capacity in Ah.`);
    return cell;
  });
}

const example = Array.from({ length: 18 }, (_, i) => `N-${String(i + 1).padStart(2, "0")}; ${(1.62 + 0.045 * ((i * 7) % 13)).toFixed(2).replace(".", ",")}`).join("\n");

export function Columns({ match }: { match: Match }) {
  const most = Math.max(...match.group_capacity_ah), weakest = match.weakest_ah ?? most;
  const y = (ah: number): number => 150 - (ah / most) * 126;
  const width = Math.max(340, match.groups.length * 46 + 20);
  return (
    <figure>
      <div class="scroll" tabIndex={0} role="region" aria-label="Groups as columns">
        <svg viewBox={`0 0 ${width} 190`} width={width} height="190" role="img" aria-label={`${match.groups.length} groups. The weakest holds ${show(weakest)} Ah.`}>
          {match.group_capacity_ah.map((ah, g) => (
            <g key={g}>
              <rect x={16 + g * 46} y={y(weakest)} width="36" height={150 - y(weakest)} class="bar" />
              {ah > weakest ? <rect x={16 + g * 46} y={y(ah)} width="36" height={y(weakest) - y(ah)} class="surplus" /> : null}
              {match.groups[g]?.map((_, c, all) => <path key={c} d={`M${16 + g * 46} ${150 - ((150 - y(weakest)) * c) / all.length}h36`} class="cut" />)}
              <text x={34 + g * 46} y="166" class="tick">{g + 1}</text><text x={34 + g * 46} y="182" class="tick">{show(ah, 3)}</text>
            </g>
          ))}
          <path d={`M10 ${y(weakest)}H${width - 6}`} class="wish" />
        </svg>
      </div>
      <figcaption>Each column is a group, under it its Ah. The weakest group empties first and ends the night for all; what stands above the line helps nobody.</figcaption>
    </figure>
  );
}

export function PackStage() {
  const known = useKnown();
  const first = known.plan?.value.lamps[0]?.size;
  const [series, setSeries] = useState(first?.series ?? 3);
  const [parallel, setParallel] = useState(first?.parallel ?? 4);
  const [packs, setPacks] = useState(1);
  const [word, setWord] = useState("");
  const go = async (event: Event): Promise<void> => {
    event.preventDefault();
    setWord("");
    try {
      const cells = cellsOf(known.cells, "4v2");
      const value = await ask<Match>("POST", "/pack/match", { series, parallel, packs, cells });
      change({ match: { asked: known.cells, value } });
    } catch (error) { setWord(sentence(error)); }
  };
  const match = known.match?.value;
  return (
    <>
      <h1>Cells into packs</h1>
      <Caution text="Use only cells that were tested and found sound, all of one kind. A damaged, swollen or hot cell goes into sand, outdoors, not into a pack." />
      <form onSubmit={(e) => void go(e)}>
        <LongField label="Tested cells, one a line" hint="Code and capacity in Ah, as in “N-01; 1,86”. A third column is the resistance in milliohm. Lines copied from a table work." rows={8} value={known.cells} set={(cells) => change({ cells })} />
        {known.cells ? null : <button type="button" onClick={() => change({ cells: example })}>Fill in eighteen cells as an example</button>}
        <div class="triple">
          <NumberField label="Groups in series" value={series} low={1} high={100} whole set={(v) => setSeries(v ?? 1)} />
          <NumberField label="Cells in a group" value={parallel} low={0} high={1000} whole hint="0: groups may differ" set={(v) => setParallel(v ?? 0)} />
          <NumberField label="Packs" value={packs} low={1} high={1000} whole set={(v) => setPacks(v ?? 1)} />
        </div>
        <button class="main" disabled={!known.cells.trim()}>Make the groups</button>
      </form>
      <Say what={word} />
      {match ? (
        <section aria-label="Groups" class={known.match?.asked === known.cells ? "" : "stale"}>
          <div class="row">
            <Headline value={show(match.weakest_ah)} unit="Ah" of={`weakest group; no way of placing gives more than ${show(match.bound_ah)} Ah`} />
            <Headline value={String(match.left_out.length)} of="cells left over" />
          </div>
          <Columns match={match} />
          <ol>{match.groups.map((group, g) => <li key={g}>{group.join(", ")}</li>)}</ol>
          {match.left_out.length ? <p>Left over: {match.left_out.join(", ")}</p> : null}
          {match.notes?.map((n) => <p key={n}>{n}</p>)}
          {match.cautions.map((c) => <Caution key={c} text={c} />)}
        </section>
      ) : null}
    </>
  );
}
