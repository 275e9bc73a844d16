/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The real groups of matched cells in the lamp they are meant for: see lanewick/desk_pack.h. Both wirings meet the
 * same weather and the same scatter of parts, so that their difference is that of the wiring alone.
 */
#include "lanewick/desk_pack.h"

#include "lanewick/plan.h"

#include <ctype.h>
#include <math.h>

/* The class whose open voltage lies nearest to the system's, which may be the user's own points. */
static const lw_cell_class *class_of(const lw_battery *battery)
{
    const lw_cell_class *near = &lw_class_4v2;
    const lw_cell_class *const all[] = {&lw_class_4v2, &lw_class_4v35, &lw_class_lfp};
    const double mean_v = lw_ocv_mean_v(&battery->ocv, 0.0, 1.0);
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (fabs(lw_ocv_mean_v(&all[i]->ocv, 0.0, 1.0) - mean_v) < fabs(lw_ocv_mean_v(&near->ocv, 0.0, 1.0) - mean_v))
            near = all[i];
    return near;
}

/* What the cells are told to be, capitals or not; one class for all (matching refuses mixtures), NULL: not told. */
static const lw_cell_class *told_class(const char *told)
{
    char name[8] = "";
    for (size_t i = 0; i + 1 < sizeof name && told[i]; i++)
        name[i] = (char)tolower((unsigned char)told[i]);
    return lw_cell_class_find(name);
}

/* The lamp's charger and cut-off against the hard limits of the class. */
static bool check_limits(const lw_system *system, const lw_cell_class *class, lw_error *err)
{
    const lw_battery *battery = &system->battery;
    const double charger_v = system->charger.full_v / battery->series, top_v = fmax(battery->ceiling_v, charger_v);
    if (top_v > class->limit_v)
        return lw_fail(err, LW_REFUSED, "ceiling_v",
                       "The lamp charges its cells up to %.2f V; cells of class %s must never pass %.2f V. Lower the "
                       "charger's end of charge to %.2f V a cell.",
                       top_v, class->name, class->limit_v, class->ceiling_v);
    if (battery->cutoff_v > 0.0 && battery->cutoff_v < class->floor_v)
        return lw_fail(err, LW_REFUSED, "cutoff_v",
                       "The lamp empties its cells down to %.2f V; cells of class %s must not fall below %.2f V. Use a "
                       "cut-off of %.2f V.",
                       battery->cutoff_v, class->name, class->floor_v, class->cutoff_v);
    return true;
}

static bool check(const lw_pack_nights_ask *ask, const lw_cell_class **class, bool *assumed, lw_error *err)
{
    const lw_battery *battery = &ask->system->battery;
    if (battery->kind != LW_BATTERY_CELLS)
        return lw_fail(err, LW_WRONG_INPUT, "battery.kind",
                       "battery.kind is bucket; a lamp that takes a pack of these cells needs the kind cells.");
    if (ask->match.series != battery->series)
        return lw_fail(err, LW_WRONG_INPUT, "series",
                       "series is %d; charger and driver of this lamp are made for %d groups in series.",
                       ask->match.series, battery->series);
    if (!lw_in_range(err, "planned_years", ask->planned_years, 0.0, LW_PACK_YEARS, "years") ||
        !lw_in_range(err, "health", ask->health, 0.3, 1.0, "of new"))
        return false;
    const lw_cell_class *told = told_class(ask->match.cells[0].voltage_class);
    *class = class_of(battery);
    *assumed = told == NULL;
    if (told && (told == &lw_class_lfp) != (*class == &lw_class_lfp))
        return lw_fail(err, LW_REFUSED, "voltage_class",
                       "The cells are of class %s, the lamp is made for class %s. Use a lamp of the cells' own class.",
                       told->name, (*class)->name);
    *class = told ? told : *class;
    return check_limits(ask->system, *class, err);
}

/* The cells in use as they stand in the list, in groups as even in number as can be. */
static void wire_as_they_come(const lw_match_ask *ask, const lw_match *match, int *group)
{
    const int each = match->used / ask->series, more = match->used % ask->series;
    int g = 0, filled = 0;
    for (size_t i = 0; i < ask->n; i++) {
        group[i] = -1;
        if (match->group[i] < 0)
            continue;
        group[i] = g;
        if (++filled == each + (g < more)) {
            g++;
            filled = 0;
        }
    }
}

/* Sums of capacity, parallel resistances; of the 10 s resistance 0.65 act at once as in lw_battery_pack(). */
static void put_groups(const lw_pack_nights_ask *ask, const int *group, lw_pack_wiring *out)
{
    double conductance[LW_MAX_SERIES] = {0.0};
    bool known[LW_MAX_SERIES];
    out->weakest_ah = INFINITY;
    for (int g = 0; g < ask->match.series; g++) {
        out->group[g] = (lw_group){0};
        known[g] = true;
    }
    for (size_t i = 0; i < ask->match.n; i++) {
        const lw_lot_cell *cell = &ask->match.cells[i];
        const int g = group[i];
        if (g < 0)
            continue;
        out->group[g].capacity_ah += cell->capacity_ah;
        known[g] = known[g] && cell->resistance_mohm > 0.0;
        conductance[g] += known[g] ? 1000.0 / cell->resistance_mohm : 0.0;
    }
    for (int g = 0; g < ask->match.series; g++) {
        const lw_group *own = &ask->system->battery.groups[g];
        out->group[g].r0_ohm = known[g] ? 0.65 / conductance[g] : own->r0_ohm;
        out->group[g].r1_ohm = known[g] ? 0.35 / conductance[g] : own->r1_ohm;
        out->weakest_ah = fmin(out->weakest_ah, out->group[g].capacity_ah);
    }
}

/* Spread of the weakest group's sum, in per cent; 0 where no uncertainty is told. */
static double capacity_sd_pct(const lw_match_ask *ask, const lw_match *match)
{
    double variance[LW_MAX_SERIES] = {0.0};
    int weakest = 0;
    for (size_t i = 0; i < ask->n; i++)
        if (match->group[i] >= 0)
            variance[match->group[i]] += ask->cells[i].capacity_sd_ah * ask->cells[i].capacity_sd_ah;
    for (int g = 1; g < match->groups; g++)
        if (match->capacity_ah[g] < match->capacity_ah[weakest])
            weakest = g;
    return 100.0 * sqrt(variance[weakest]) / match->capacity_ah[weakest];
}

/* The lamp's nights as it stands in `system`; life: of the first year drawn. */
static bool run_nights(const lw_pack_nights_ask *ask, const lw_system *system, lw_arena *arena, lw_dark_band *dark,
                       lw_nights_summary *life, lw_error *err)
{
    const size_t used = arena->used;
    bool done = false;
    if (ask->hours) {
        lw_nights *nights = lw_arena_take(arena, 1, sizeof *nights, err);
        done = nights && lw_nights_explicit(system, ask->hours, arena, nights, err);
        if (done) {
            *dark = (lw_dark_band){nights->dark_nights, nights->dark_nights, nights->dark_nights};
            *life = (lw_nights_summary){.full_cycles = (float)nights->full_cycles,
                                        .mean_charge_share = (float)nights->mean_charge_share,
                                        .pack_mean_c = (float)nights->pack_mean_c};
        }
    } else {
        lw_night_draws draws = ask->draws;
        draws.system = system;
        lw_nights_summary *summaries = lw_arena_take(arena, draws.years, sizeof *summaries, err);
        done = summaries && lw_desk_night_draws(&draws, summaries, dark, err);
        if (done)
            *life = summaries[0];
    }
    arena->used = used;
    return done;
}

static bool run_years(const lw_pack_nights_ask *ask, const lw_cell_class *class, lw_system *system, lw_arena *arena,
                      lw_pack_wiring *pack, lw_error *err)
{
    const lw_system *stated = ask->system;
    const double ceiling_v = stated->battery.ceiling_v > 0.0 ? stated->battery.ceiling_v : class->ceiling_v;
    lw_nights_summary today = {0}, later;
    for (int g = 0; g < ask->match.series; g++)
        system->battery.groups[g] = pack->group[g];
    if (!lw_system_check(system, err))
        return false;
    for (int year = 0; year <= ask->planned_years; year++) {
        const lw_worn worn = lw_worn_after(class, ceiling_v, ask->health, &today, year);
        pack->capacity_share[year] = worn.capacity_factor;
        system->battery.capacity_factor = worn.capacity_factor;
        system->battery.resistance_factor = worn.resistance_factor;
        system->panel.factor = stated->panel.factor * worn.panel_factor;
        if (!run_nights(ask, system, arena, &pack->dark[year], year == 0 ? &today : &later, err))
            return false;
    }
    return true;
}

bool lw_desk_pack_nights(const char *bytes, size_t length, lw_pack_nights_ask *ask, lw_arena *arena, lw_cell_list *list,
                         lw_pack_nights *out, lw_error *err)
{
    const lw_cell_class *class = NULL;
    ask->match.packs = 1;
    if (!lw_desk_pack_match(bytes, length, &ask->match, arena, list, &out->match, err) ||
        !check(ask, &class, &out->system_class, err))
        return false;
    int *group = lw_arena_take(arena, ask->match.n, sizeof *group, err);
    lw_system *system = lw_arena_take(arena, 1, sizeof *system, err);
    if (!group || !system)
        return false;
    *system = *ask->system;
    const double sd_pct = capacity_sd_pct(&ask->match, &out->match);
    if (sd_pct > 0.0)
        system->tolerances.capacity_pct = sd_pct;
    out->years = ask->planned_years;
    out->system_mohm = false;
    for (int g = 0; g < out->match.groups; g++)
        out->system_mohm = out->system_mohm || !(out->match.group_mohm[g] > 0.0);
    wire_as_they_come(&ask->match, &out->match, group);
    put_groups(ask, out->match.group, &out->matched);
    put_groups(ask, group, &out->as_they_come);
    return run_years(ask, class, system, arena, &out->matched, err) &&
           run_years(ask, class, system, arena, &out->as_they_come, err);
}
