/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The weather of an explicit year as one system meets it: light behind glass and dirt, cell and pack temperature,
 * and what the schedule asks for in each step.
 */
#include "drive.h"

#include "lanewick/plane.h"
#include "lanewick/sun.h"

#include <math.h>

lw_plane lw_system_plane(const lw_system *system, double lat_deg)
{
    lw_plane plane = system->plane;
    if (system->facing_equator)
        plane.facing_deg = lat_deg < 0.0 ? 0.0 : 180.0;
    return plane;
}

static bool take(lw_arena *arena, int n, double **out, lw_error *err)
{
    *out = lw_arena_take(arena, (size_t)n, sizeof **out, err);
    return *out != NULL;
}

bool lw_drive_levels(const lw_system *system, double lat_deg, double lon_deg, double utc_offset_h, int steps,
                     lw_arena *arena, double **level_h, double **on_h, double **dark_h, lw_error *err)
{
    const lw_load *load = &system->load;
    double *share;
    if (!take(arena, LW_HOURS * steps, level_h, err) || !take(arena, LW_HOURS * steps, on_h, err) ||
        !take(arena, LW_HOURS * steps, dark_h, err) || !take(arena, LW_HOURS, &share, err))
        return false;
    if (!lw_dark_shares(lat_deg, lon_deg, utc_offset_h, system->sun_method, load->dusk_altitude_deg,
                        load->dusk_midpoints, share, err))
        return false;
    lw_dark_part nights[LW_DAYS];
    lw_load_nights(load, share, nights);
    lw_load on = *load, dark = *load;
    dark.span_count = 0;
    for (int i = 0; i < on.span_count; i++)
        on.spans[i].level = on.spans[i].level > 0.0 ? 1.0 : 0.0;
    return lw_load_levels(load, nights, steps, *level_h, err) && lw_load_levels(&on, nights, steps, *on_h, err) &&
           lw_load_levels(&dark, nights, steps, *dark_h, err);
}

static void pack_course(const lw_model *model, const lw_weather_year *year, lw_drive *out)
{
    const lw_system *s = model->system;
    const double share = lw_box_hour_share(&s->box);
    double pack_c = year->air_c[0];
    for (int turn = 0; turn < 2; turn++) /* the first turn only finds how the year begins */
        for (int h = 0; h < LW_HOURS; h++) {
            double level = 0.0;
            for (int k = 0; k < s->steps_per_hour; k++)
                level += out->level_h[h * s->steps_per_hour + k];
            const double target = lw_box_target_c(s, model->array_w, year->air_c[h], year->ghi_w_m2[h], level);
            pack_c += share * (target - pack_c);
            out->pack_c[h] = pack_c;
        }
}

bool lw_drive_prepare(const lw_model *model, const lw_weather_year *year, lw_arena *arena, lw_drive *out, lw_error *err)
{
    const lw_system *s = model->system;
    lw_sun_hour *sun = lw_arena_take(arena, LW_HOURS, sizeof *sun, err);
    if (!sun || !lw_sun_year(year->lat_deg, year->lon_deg, year->utc_offset_h, s->sun_method, sun, err))
        return false;
    if (!lw_drive_levels(s, year->lat_deg, year->lon_deg, year->utc_offset_h, s->steps_per_hour, arena, &out->level_h,
                         &out->on_h, &out->dark_h, err))
        return false;
    const lw_plane plane = lw_system_plane(s, year->lat_deg);
    double dust[LW_DAYS];
    if (s->panel.dusty)
        lw_dust_year(&s->panel.dust, year->rain_mm, dust);
    for (int h = 0; h < LW_HOURS; h++) {
        lw_plane_hour hour;
        double on_plane, absorbed;
        lw_plane_prepare_hour(&plane, &sun[h], &hour);
        lw_plane_lanes(&plane, &hour, 1, &year->ghi_w_m2[h], &year->dhi_w_m2[h], &year->dni_w_m2[h], &on_plane,
                       &absorbed);
        out->light_w_m2[h] =
            fmax(0.0, absorbed) * s->panel.factor * s->panel.clean_share * (s->panel.dusty ? dust[h / 24] : 1.0);
        out->cell_c[h] = lw_cell_temperature_c(&plane, year->air_c[h], on_plane, year->wind_m_s[h]);
    }
    lw_load_other_w(&s->load, out->other_w);
    for (int h = 0; h < 24; h++)
        out->other_w[h] += s->load.standby_w + s->charger.standby_w;
    pack_course(model, year, out);
    return true;
}
