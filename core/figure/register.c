/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of figures: one line each, in order of their rooms. It lists, it never computes.
 */
#include "register.h"

#include <string.h>

/* One line each. */
/* clang-format off */
static const lw_figure *const figures[] = {
    /* base */
    &lw_fig_normal_quantile,
    /* sun */
    &lw_fig_climate,
    &lw_fig_sun_position,
    &lw_fig_night,
    &lw_fig_day_radiation,
    &lw_fig_hour_radiation,
    &lw_fig_sun_angles,
    &lw_fig_diffuse,
    &lw_fig_plane,
    &lw_fig_glass,
    &lw_fig_cell_temperature,
    &lw_fig_air_mass,
    &lw_fig_clear_sky,
    &lw_fig_dust,
    &lw_fig_markov_clearness,
    &lw_fig_clearness_distribution,
    &lw_fig_hour_clearness,
    &lw_fig_day_profile,
    /* light */
    &lw_fig_beam_flux,
    &lw_fig_lux_point,
    &lw_fig_maintenance_factor,
    &lw_fig_lumen_maintenance,
    &lw_fig_led_point,
    &lw_fig_beam_fit,
    &lw_fig_diffuser,
    &lw_fig_diffuser_readings,
    &lw_fig_light_over_years,
    &lw_fig_light_colour,
    &lw_fig_led_type,
    &lw_fig_led_readings,
    &lw_fig_head_heat,
    &lw_fig_led_strings,
    &lw_fig_led_spares,
    &lw_fig_led_flicker,
    &lw_fig_led_counts,
    &lw_fig_light_over_supply,
    /* cell */
    &lw_fig_resistor_discharge,
    &lw_fig_log_capacity,
    &lw_fig_capacity_restated,
    &lw_fig_pulse_resistance,
    &lw_fig_resistance_two_pulse,
    &lw_fig_self_discharge,
    &lw_fig_equalising_current,
    &lw_fig_meter_check,
    &lw_fig_combine_tests,
    &lw_fig_cell_verdict,
    &lw_fig_bench_plan,
    &lw_fig_remaining_life,
    &lw_fig_ageing_nmc,
    &lw_fig_ageing_lfp,
    /* pack */
    &lw_fig_group_sharing,
    &lw_fig_protection_limits,
    /* power */
    &lw_fig_panel,
    &lw_fig_worst_month,
    &lw_fig_panel_measured,
    &lw_fig_panel_match,
    &lw_fig_lamp_nights,
    /* circuit */
    &lw_fig_nearest_value,
    &lw_fig_led_string,
    &lw_fig_string_sharing,
    &lw_fig_wire_drop,
    &lw_fig_wire_size,
    &lw_fig_lamps_in_row,
    &lw_fig_ampacity,
    &lw_fig_fuse,
    &lw_fig_pack_fault,
    &lw_fig_cell_fuse,
    &lw_fig_fuse_wire,
    &lw_fig_dusk_switch,
    &lw_fig_dusk_tolerance,
    &lw_fig_dusk_transistors,
    &lw_fig_sun_lux,
    &lw_fig_comparator_inputs,
    &lw_fig_divider_tolerance,
    &lw_fig_panel_sensor,
    &lw_fig_own_light,
    &lw_fig_timer_values,
    &lw_fig_dimmer_values,
    &lw_fig_schedule_circuit,
    &lw_fig_standby_energy,
    &lw_fig_charge_limits,
    &lw_fig_charge_program,
    &lw_fig_charger_compare,
    &lw_fig_panel_fits_pack,
    &lw_fig_thermistor_window,
    &lw_fig_charger_trial,
    &lw_fig_protector_trip,
    /* mast */
    &lw_fig_base_depth,
    &lw_fig_base_ultimate,
    &lw_fig_bolt_strength,
    &lw_fig_clamp_slip,
    &lw_fig_cylinder_drag,
    &lw_fig_mast_bending,
    &lw_fig_mast_frequency,
    &lw_fig_mast_material,
    &lw_fig_mast_raising,
    &lw_fig_overhead_line,
    &lw_fig_panel_wind,
    &lw_fig_pipe_in_pipe,
    &lw_fig_plate_base,
    &lw_fig_sleeve_joint,
    &lw_fig_tapered_pole,
    &lw_fig_tube_buckling,
    &lw_fig_tube_section,
    &lw_fig_vortex_shedding,
    &lw_fig_wind_pressure,
};
/* clang-format on */

size_t lw_figure_count(void)
{
    return sizeof figures / sizeof figures[0];
}

const lw_figure *lw_figure_at(size_t i)
{
    return figures[i];
}

const lw_figure *lw_figure_find(const char *name)
{
    for (size_t i = 0; i < lw_figure_count(); i++)
        if (strcmp(figures[i]->name, name) == 0)
            return figures[i];
    return NULL;
}

const char *lw_figure_nearest(const char *name)
{
    const lw_figure *best = figures[0];
    for (size_t i = 1; i < lw_figure_count(); i++)
        if (lw_spelling_distance(figures[i]->name, name) < lw_spelling_distance(best->name, name))
            best = figures[i];
    return best->name;
}
