/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * LW_LANES lamps through their year, twice. The second run ends where its state meets that of the first: from there
 * on both are the same, to the last bit.
 */
#include "lanes.h"
#include "lanewick/nights.h"

#include <math.h>
#include <string.h>

static void begin(const lw_engine *engine, const lw_lane_parts *parts, lw_lane_state *s)
{
    const lw_lane_model *m = &engine->lanes;
    const lw_lane_parts plain = {1.0, 1.0, 1.0, 1.0};
    for (int l = 0; l < LW_LANES; l++) {
        const lw_lane_parts *p = parts ? &parts[l] : &plain;
        s->full[l] = m->full * (float)p->capacity_factor;
        s->inverse_full[l] = s->full[l] > 0.0F ? 1.0F / s->full[l] : 0.0F;
        s->photo[l] = (float)(p->panel_factor * engine->system.panel.factor);
        s->resistance[l] = (float)p->resistance_factor;
        s->load[l] = (float)p->load_factor;
        s->charge[l] = s->full[l] * m->start_share;
    }
}

static void empty_sums(lw_lane_sums *sums)
{
    memset(sums, 0, sizeof *sums);
    for (int l = 0; l < LW_LANES; l++)
        sums->lowest[l] = 1.0F;
}

static void keep(lw_run_log *log, int day, const lw_lane_sums *sums)
{
    memcpy(log->missing[day], sums->missing, sizeof sums->missing);
    memcpy(log->wanted[day], sums->wanted, sizeof sums->wanted);
    memcpy(log->lowest[day], sums->lowest, sizeof sums->lowest);
    memcpy(log->panel[day], sums->panel, sizeof sums->panel);
    memcpy(log->load[day], sums->load, sizeof sums->load);
    memcpy(log->spilled[day], sums->spilled, sizeof sums->spilled);
    memcpy(log->taken[day], sums->taken, sizeof sums->taken);
    memcpy(log->charge[day], sums->charge, sizeof sums->charge);
    memcpy(log->cold[day], sums->cold, sizeof sums->cold);
    memcpy(log->hot[day], sums->hot, sizeof sums->hot);
}

/* The evening of 31 December and the morning of 1 January are one night. */
static void join_last(lw_run_log *log, const lw_lane_sums *morning)
{
    const int d = LW_DAYS - 1;
    for (int l = 0; l < LW_LANES; l++) {
        log->missing[d][l] += morning->missing[l];
        log->wanted[d][l] += morning->wanted[l];
        log->lowest[d][l] = fminf(log->lowest[d][l], morning->lowest[l]);
        log->panel[d][l] += morning->panel[l];
        log->load[d][l] += morning->load[l];
        log->spilled[d][l] += morning->spilled[l];
        log->taken[d][l] += morning->taken[l];
        log->charge[d][l] += morning->charge[l];
        log->cold[d][l] += morning->cold[l];
        log->hot[d][l] += morning->hot[l];
    }
}

static void summarise(const lw_engine *engine, const lw_drive_block *drive, const lw_run_log *log,
                      const lw_lane_state *s, int l, lw_nights_summary *out)
{
    memset(out, 0, sizeof *out);
    out->lowest_charge_share = 1.0F;
    float missing = 0.0F, taken = 0.0F, charge = 0.0F;
    for (int d = 0; d < LW_DAYS; d++) {
        const int m = engine->month[d];
        const bool dark = log->missing[d][l] > engine->lanes.dark_limit * log->wanted[d][l] + 1e-9F;
        out->dark_nights = (uint16_t)(out->dark_nights + dark);
        out->by_month[m] = (uint8_t)(out->by_month[m] + dark);
        missing += log->missing[d][l];
        out->wanted_wh += log->wanted[d][l];
        out->lowest_charge_share = fminf(out->lowest_charge_share, log->lowest[d][l]);
        out->panel_month_wh[m] += log->panel[d][l];
        out->load_month_wh[m] += log->load[d][l];
        out->spilled_month_wh[m] += log->spilled[d][l];
        taken += log->taken[d][l];
        charge += log->charge[d][l];
        out->cold_h += log->cold[d][l];
        out->hot_h += log->hot[d][l];
    }
    for (int m = 0; m < LW_MONTHS; m++) {
        out->panel_wh += out->panel_month_wh[m];
        out->load_wh += out->load_month_wh[m];
        out->spilled_wh += out->spilled_month_wh[m];
    }
    out->unserved_share = out->wanted_wh > 0.0F ? missing / out->wanted_wh : 0.0F;
    out->full_cycles = taken * s->inverse_full[l];
    out->pack_low_c = drive->pack_low_c[l];
    out->pack_high_c = drive->pack_high_c[l];
    out->pack_mean_c = drive->pack_mean_c[l];
    out->mean_charge_share = charge * s->inverse_full[l] / (float)LW_HOURS;
}

void lw_engine_run(const lw_engine *engine, const lw_drive_block *drive, const lw_lane_parts *parts, lw_run_log *log,
                   lw_nights_summary out[LW_LANES])
{
    lw_lane_hours *hours = lw_lane_hours_here();
    lw_lane_state s;
    lw_lane_sums morning, night;
    begin(engine, parts, &s);
    for (int run = 0; run < 2; run++) {
        empty_sums(&morning);
        hours(engine, drive, 0, 12, &s, &morning);
        for (int d = 0; d < LW_DAYS; d++) {
            if (run == 1 && memcmp(log->noon[d], s.charge, sizeof s.charge) == 0)
                break;
            memcpy(log->noon[d], s.charge, sizeof s.charge);
            empty_sums(&night);
            const int from = 12 + 24 * d;
            hours(engine, drive, from, d + 1 < LW_DAYS ? from + 24 : LW_HOURS, &s, &night);
            keep(log, d, &night);
        }
    }
    join_last(log, &morning);
    for (int l = 0; l < LW_LANES; l++)
        summarise(engine, drive, log, &s, l, &out[l]);
}
