// SPDX-License-Identifier: GPL-3.0-or-later
// What is wired in a planned lamp: its wires and fuse, its head, the values of the switch made by hand.
import { show, signed } from "./numbers";
import type { Circuit, HandSwitch, Middle, Wire } from "./shapes";
import { say } from "./words";

/** 15 kΩ, 2.2 MΩ */
const ohm = (value: number): string => (value >= 1e6 ? `${show(value / 1e6)} MΩ` : value >= 1e3 ? `${show(value / 1e3)} kΩ` : `${show(value)} Ω`);
const light = (m: Middle): string => say("{0} lx ({1} to {2})", show(m.middle, 2), show(m.low, 2), show(m.high, 2));
export const area = (w: Wire): string => `${signed(String(w.area_mm2))} mm²`;

interface Row { name: string; what: string; value: string }
function Rows({ label, rows }: { label: string; rows: Row[] }) {
  return (
    <div class="scroll" tabIndex={0} role="region" aria-label={label}><table><thead><tr><th>{say("Part")}</th><th>{say("What it does")}</th><th>{say("Value")}</th></tr></thead>
      <tbody>{rows.map((r) => <tr key={r.name}><th scope="row">{r.name}</th><td>{r.what}</td><td>{r.value}</td></tr>)}</tbody></table></div>
  );
}

function sensor(s: HandSwitch): Row[] {
  const rb = { name: "Rb", what: s.sensor === "panel" ? say("across the panel, before its diode") : say("below the photoresistor"), value: ohm(s.resistor_ohm) };
  const delay = { name: "C1", what: say("at the sensor: headlights must last {0} s", show(s.delay_s, 1)), value: `${show(s.delay_uf)} µF` };
  const three: [string, string, string] = s.sensor === "transistors" ? [say("to the collector of Q1"), say("below both emitters"), say("from Q2 to Q3")] : [say("reference, to plus"), say("reference, to minus"), say("keeps on and off apart")];
  return [rb, { name: "R1", what: three[0], value: ohm(s.r1_ohm) }, { name: "R2", what: three[1], value: ohm(s.r2_ohm) }, { name: "R3", what: three[2], value: ohm(s.r3_ohm) }, delay];
}

function timed(s: HandSwitch): Row[] {
  const rows: Row[] = [];
  if (s.timer) rows.push({ name: "Rt, Ct", what: say("full light for {0} h ({1} to {2}); output {3} of the counter", show(s.timer.hours, 2), show(s.timer.worst_low_h, 2), show(s.timer.worst_high_h, 2), s.timer.output), value: `${ohm(s.timer.resistor_ohm)}, ${show(s.timer.capacitor_uf)} µF` });
  if (s.lower_level) rows.push({ name: "Rh, Rl, Cl", what: say("then {0} % of the light ({1} to {2})", show(100 * s.lower_level.level, 2), show(100 * s.lower_level.worst_low, 2), show(100 * s.lower_level.worst_high, 2)), value: `${ohm(s.lower_level.on_ohm)}, ${ohm(s.lower_level.off_ohm)}, ${show(s.lower_level.capacitor_nf)} nF` });
  return rows;
}

const sees = (s: HandSwitch): string => ({ comparator: say("Photoresistor and comparator"), transistors: say("Photoresistor and transistors"), panel: say("The panel as sensor, and a comparator") })[s.sensor];

export function SwitchValues({ of: s }: { of: HandSwitch }) {
  return (
    <section aria-label={say("The switch made by hand")}>
      <h2>{say("The switch made by hand")}</h2>
      <p>{sees(s)}. {say("With the full pack it goes on below {0}, with the empty one off above {1}: nine of ten switches from these parts.", light(s.on_full_lx), light(s.off_lx))}</p>
      <Rows label={say("Values of the switch")} rows={[...sensor(s), ...timed(s)]} />
      <p>{say("It makes a night {0} min longer, give or take {1}, and takes {2} Wh a month itself; the plan's nights count both.", show(s.nights_longer_min, 2), show(s.nights_spread_min, 1), show(s.standby_wh_month, 2))}</p>
      {s.own_light.good ? null : <p class="caution">{say("It sees its own lamp: {0} lx, good up to {1}. Turn it away from the head or put it into a short black tube.", show(s.own_light.lx, 2), show(s.own_light.limit_lx, 2))}</p>}
      <p class="quiet">{say("The dusk sheet has the circuit and the boards to solder.")}</p>
    </section>
  );
}

export function WiredParts({ of: c }: { of: NonNullable<Circuit["parts"]> }) {
  const lead = (name: string, w: Wire): Row => ({ name, what: say("{0} m there and as much back; red plus, black minus", show(w.length_m)), value: area(w) });
  const h = c.head;
  return (
    <section>
      <h2>{say("Wires and head")}</h2>
      <Rows label={say("Wires and head")} rows={[
        lead(say("Panel to charger"), c.panel_wire), lead(say("Pack"), c.pack_wire), lead(say("Head"), c.head_wire),
        { name: say("Fuse"), what: say("at the pack's plus, before anything else"), value: `${show(c.fuse_a)} A` },
        { name: say("LED board"), what: say("strings side by side × LEDs in each, {0} mA", show(h.led_ma, 2)), value: `${h.strings} × ${h.leds_in_series}` },
        { name: say("Resistor"), what: say("in each string"), value: ohm(h.resistor_ohm) },
      ]} />
    </section>
  );
}
