// SPDX-License-Identifier: GPL-3.0-or-later
// One lamp of a brief as the figure lamp_nights takes it. What the brief leaves open stays open: the figure has the brief's own
// defaults. Other loads, switches made by hand, dimming, lanes and weather of one's own are left out.
const SHARED_EFFICACY = 100; /* lm/W that a brief assumes */
const list = (brief, what) => brief.shelf[what] ?? [];
const named = (parts, name) => parts.find((p) => p.name === name) ?? (parts.length === 1 ? parts[0] : undefined);
/** By its label, else as rated. */
const watts = (panel) => (panel?.vmp_v === undefined ? panel?.watts ?? NaN : panel.vmp_v * panel.imp_a);
const written = (spans) => spans.map((s) => `${s.from} ${s.to} ${s.level}`).join("; ");

/** The kind of this name; a brief may tell but a number of lamps. */
const kindOf = ({ want }, name) => (Array.isArray(want.lamps) ? want.lamps.find((lamp) => lamp.name === name) ?? want.lamps[0] : {});

function headWatts(brief, lamp) {
  const lumens = lamp.lumens ?? brief.want.lumens;
  return lamp.head_w ?? brief.want.head_w ?? (lumens === undefined ? undefined : lumens / (lamp.efficacy_lm_w ?? brief.want.efficacy_lm_w ?? SHARED_EFFICACY));
}

function place(brief, found) {
  const { place: p, build } = brief, { dust } = p;
  return {
    lat_deg: p.lat_deg, lon_deg: p.lon_deg, elev_m: p.elev_m, utc_offset_h: p.utc_offset_h, horizon_deg: p.horizon_deg, albedo: p.albedo,
    dust_loss_per_day: dust?.loss_per_day, dust_most_loss: dust?.most_loss, dust_wash_mm: dust?.wash_rain_mm, dust_cleaned_days: dust?.cleaned_every_days,
    tilt_deg: found.tilt_deg ?? build?.tilt_deg, facing_deg: found.facing_deg ?? build?.facing_deg,
    wire_ohm: build?.wire_ohm, box_sun_share: build?.box_sun_share, box_absorbs: build?.box_absorbs,
  };
}

function parts(brief, size) {
  const panel = named(brief.shelf.panels, size.panel), cell = named(brief.shelf.cells, size.cell), charger = named(list(brief, "chargers"), size.charger);
  const driver = named(list(brief, "drivers"), size.driver), board = size.board ? list(brief, "boards").find((b) => b.name === size.board) : undefined;
  return {
    panel_w: panel?.watts ?? watts(panel), box_panel_w: watts(brief.shelf.panels[0]), voc_v: panel?.voc_v, isc_a: panel?.isc_a, vmp_v: panel?.vmp_v, imp_a: panel?.imp_a,
    panel_cells: panel?.cells, panel_tolerance_pct: panel?.tolerance_pct, panels: size.panels,
    charger: charger?.kind, end_v_per_cell: charger?.end_v_per_cell, charger_most_input_v: charger?.most_input_v, charger_most_a: charger?.most_a,
    charger_drop_v: charger?.drop_v, charger_efficiency: charger?.efficiency, charger_standby_a: charger?.standby_a, cold_stop_c: charger?.cold_stop_c, hot_stop_c: charger?.hot_stop_c,
    class: cell?.class, series: size.series, parallel: size.parallel, capacity_ah: cell?.capacity_ah, capacity_sd_pct: cell?.capacity_sd_pct, health: cell?.health, resistance_ohm: cell?.resistance_ohm,
    board_low_v: board?.low_v, driver: driver?.kind, driver_efficiency: driver?.efficiency, head_v: driver?.head_v, driver_low_stop_v: driver?.low_stop_v_per_cell, driver_standby_a: driver?.standby_a,
  };
}

/** The inputs of lamp_nights. */
export function lampInputs(brief, kind, size, found = {}) {
  const lamp = kindOf(brief, kind), { want } = brief, spans = lamp.schedule ?? want.schedule;
  return {
    ...place(brief, found), ...parts(brief, size), head_w: found.head_w ?? headWatts(brief, lamp), schedule: spans?.length ? written(spans) : undefined,
    dusk_sun_deg: want.dusk_sun_deg, dark_nights_per_year: want.dark_nights_per_year, sure_share: want.sure_share, planned_years: want.planned_years, seed: found.seed,
  };
}
