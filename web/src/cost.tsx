// SPDX-License-Identifier: GPL-3.0-or-later
// Cost against dark nights: each way of building the lamp is a mark, the chosen one a lit lamp.
import { band, money, whole } from "./numbers";
import type { Lamp, Option, Plan } from "./shapes";
import { optionsOf, type Trial } from "./trial";
import { say, told } from "./words";

/** Nights grow from 0 by the square root: the few that matter get the room. */
const height = (nights: number, most: number): number => 132 - Math.sqrt(nights / most) * 112;
const tried = (o: Option, t: Trial): boolean => o.size.panel === t.panel && o.size.panels === t.panels && o.size.parallel === t.parallel;

export function CostPicture({ plan, lamp, trial, take }: { plan: Plan; lamp: Lamp; trial: Trial; take: (trial: Trial) => void }) {
  const options = optionsOf(plan, lamp);
  if (options.length < 2) return null;
  const { currency, decimals } = plan.cost;
  const costs = options.map((o) => o.cost_per_lamp), least = Math.min(...costs), span = Math.max(...costs) - least || 1;
  const most = Math.max(...options.map((o) => o.dark_per_year.high), 10);
  const x = (cost: number): number => 44 + ((cost - least) / span) * 276;
  const wish = height(plan.wish.dark_nights_per_year, most);
  const ticks = [0, 1, 5, 20, 50, 100, 200].filter((n) => n <= most);
  return (
    <>
      <h3>{say("Cost against dark nights")}</h3>
      <figure>
        <svg viewBox="0 0 340 170" class="plot" role="img" aria-label={say("{0} ways to build this lamp, from {1} up. The table below holds them.", options.length, money(least, decimals, currency))}>
          {ticks.map((n) => <g key={n}><path d={`M36 ${height(n, most)}H332`} class="rule" /><text x="30" y={height(n, most) + 4} class="tick right">{n}</text></g>)}
          <path d={`M36 ${wish}H332`} class="wish" /><text x="332" y={wish - 4} class="tick right">{say("wished")}</text>
          {options.map((o, i) => {
            const cx = x(o.cost_per_lamp), d = o.dark_per_year;
            return (
              <g key={i}>
                <path d={`M${cx} ${height(d.low, most)}V${height(d.high, most)}`} class="spread" />
                {tried(o, trial) && !o.chosen ? <circle cx={cx} cy={height(d.mean, most)} r="9" class="looked" /> : null}
                {o.chosen ? <path d={`M${cx - 7} ${height(d.mean, most) - 9}h14l4 9h-22z`} class="lamp" /> : <circle cx={cx} cy={height(d.mean, most)} r="4.5" class={o.keeps_wish ? "dot keeps" : "dot"} />}
              </g>
            );
          })}
          <text x="44" y="160" class="tick left">{money(least, decimals, currency)}</text><text x="332" y="160" class="tick right">{money(least + span, decimals, currency)}</text>
        </svg>
        <figcaption>{say("Across: cost of one lamp with its mast. Up: dark nights a year, with the span of nine in ten years. The lit lamp is the chosen one; full dots keep the wish, rings miss it; a wide ring is the one tried above.")}</figcaption>
      </figure>
      <details><summary>{say("The other ways to build it")}</summary>
        <div class="scroll" tabIndex={0} role="region" aria-label={say("Other ways to build it")}><table><thead><tr><th>{say("Lamp")}</th><th>{say("Cost")}</th><th>{say("Dark nights")}</th><td /><td /></tr></thead>
          <tbody>{options.map((o, i) => <tr key={i}><th scope="row">{told(o.what)}</th><td>{money(o.cost_per_lamp, decimals)}</td><td>{o.dark_per_year.mean > 99 ? whole(o.dark_per_year.mean) : band(o.dark_per_year)}</td><td>{o.chosen ? say("chosen") : o.keeps_wish ? say("keeps the wish") : ""}</td>
            <td><button type="button" class="small" aria-label={say("Try {0}", told(o.what))} onClick={() => take(o.size)}>{say("Try")}</button></td></tr>)}</tbody></table></div>
      </details>
    </>
  );
}
