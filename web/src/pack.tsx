// SPDX-License-Identifier: GPL-3.0-or-later
// From tested cells to groups: cells come as lines, the groups as columns drawn to the height of the weakest, the surplus above it.
import { useEffect, useState } from "preact/hooks";
import { cellsOf, packOf } from "./asks";
import { CrateCells } from "./cratecells";
import { Caution, Headline, LongField, NumberField, Say } from "./form";
import { asked, compute, useWork } from "./live";
import { plain, show } from "./numbers";
import { PlanPacks, StorePacks } from "./planpacks";
import { Slots } from "./slots";
import type { Match } from "./shapes";
import { change, useKnown } from "./state";
import { say, told } from "./words";

const example = (): string => Array.from({ length: 18 }, (_, i) => `N-${String(i + 1).padStart(2, "0")}; ${plain(Number((1.62 + 0.045 * ((i * 7) % 13)).toFixed(2)))}`).join("\n");

export function Columns({ groups, capacities, weakest }: { groups: string[][]; capacities: number[]; weakest: number }) {
  const most = Math.max(...capacities);
  const y = (ah: number): number => 150 - (ah / most) * 126;
  const width = Math.max(340, groups.length * 46 + 20);
  return (
    <figure>
      <div class="scroll" tabIndex={0} role="region" aria-label={say("Groups as columns")}>
        <svg viewBox={`0 0 ${width} 190`} width={width} height="190" role="img" aria-label={say("{0} groups. The weakest holds {1} Ah.", groups.length, show(weakest))}>
          {capacities.map((ah, g) => (
            <g key={g}>
              <rect x={16 + g * 46} y={y(weakest)} width="36" height={150 - y(weakest)} class="bar" />
              {ah > weakest ? <rect x={16 + g * 46} y={y(ah)} width="36" height={y(weakest) - y(ah)} class="surplus" /> : null}
              {groups[g]?.map((_, c, all) => <path key={c} d={`M${16 + g * 46} ${150 - ((150 - y(weakest)) * c) / all.length}h36`} class="cut" />)}
              <text x={34 + g * 46} y="166" class="tick">{g + 1}</text><text x={34 + g * 46} y="182" class="tick">{show(ah, 3)}</text>
            </g>
          ))}
          <path d={`M10 ${y(weakest)}H${width - 6}`} class="wish" />
        </svg>
      </div>
      <figcaption>{say("Each column is a group, under it its Ah. The weakest group empties first and ends the night for all; what stands above the line helps nobody.")}</figcaption>
    </figure>
  );
}

function Answer({ match, cells }: { match: Match; cells: string }) {
  return (
    <>
      <div class="row">
        <Headline value={show(match.weakest_ah)} unit="Ah" of={say("weakest group; no way of placing gives more than {0} Ah", show(match.bound_ah))} />
        <Headline value={String(match.left_out.length)} of={say("cells left over")} />
      </div>
      <Columns groups={match.groups} capacities={match.group_capacity_ah} weakest={match.weakest_ah ?? Math.min(...match.group_capacity_ah)} />
      <Slots match={match} cells={cells} />
      {match.notes?.map((n) => <p key={n}>{told(n)}</p>)}
      {match.cautions.map((c) => <Caution key={c} text={c} />)}
    </>
  );
}

export function PackStage() {
  const known = useKnown(), work = useWork("match"), size = packOf(known);
  const [word, setWord] = useState(""), [turn, setTurn] = useState(0), look = (): void => setTurn((n) => n + 1);
  useEffect(() => setWord(""), [known.cells]);
  const go = (event: Event): void => {
    event.preventDefault();
    try { cellsOf(known.cells, "4v2"); compute("match"); } catch (error) { setWord(error instanceof Error ? error.message : String(error)); }
  };
  const set = (part: Partial<typeof known.pack>): void => change({ pack: { ...known.pack, ...part } });
  const match = known.match?.value, lamp = known.plan?.value.lamps[0];
  return (
    <>
      <h1>{say("Cells into packs")}</h1>
      <Caution text={say("Use only cells that were tested and found sound, all of one kind. A damaged, swollen or hot cell goes into sand, outdoors, not into a pack.")} />
      <CrateCells />
      <PlanPacks changed={look} />
      <StorePacks turn={turn} changed={look} />
      <h2>{say("Groups from any cells")}</h2>
      <form onSubmit={go}>
        <LongField label={say("Tested cells, one a line")} hint={say("Code and capacity in Ah, as in “N-01; 1.86”. A third column is the resistance in milliohm. Lines copied from a table work.")} rows={8} value={known.cells} set={(cells) => change({ cells })} />
        {known.cells ? null : <button type="button" onClick={() => change({ cells: example() })}>{say("Fill in eighteen cells as an example")}</button>}
        <div class="triple">
          <NumberField label={say("Groups in series")} value={size.series} low={1} high={100} whole set={(series) => set({ series })} />
          <NumberField label={say("Cells in a group")} value={size.parallel} low={0} high={1000} whole hint={say("0: groups may differ")} set={(parallel) => set({ parallel })} />
          <NumberField label={say("Packs")} value={size.packs} low={1} high={1000} whole set={(packs) => set({ packs })} />
        </div>
        {lamp ? <p class="hint">{say("The plan wants {0} × {1} cells a lamp.", lamp.size.series, lamp.size.parallel)}</p> : null}
        {match && known.match?.asked === asked.match(known) ? null : <div class="buttons"><button class="main" disabled={!known.cells.trim()}>{say("Make the groups")}</button></div>}
      </form>
      <Say what={word || (work?.word ?? "")} />
      {match ? <section aria-label={say("Groups")} class={known.match?.asked === asked.match(known) ? "" : "stale"}><Answer match={match} cells={known.cells} /></section> : null}
      {match ? <p class="onward"><a class="next" href="#/wiring">{say("Next: the wiring")}</a></p> : null}
    </>
  );
}
