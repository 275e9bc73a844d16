/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every figure's description, each defined in its own core/ROOM/fig_NAME.c.
 */
#ifndef LANEWICK_REGISTER_H
#define LANEWICK_REGISTER_H

#include "lanewick/figure.h"

/* base */
extern const lw_figure lw_fig_normal_quantile;
/* sun */
extern const lw_figure lw_fig_climate;
extern const lw_figure lw_fig_sun_position;
extern const lw_figure lw_fig_night;
extern const lw_figure lw_fig_day_radiation;
extern const lw_figure lw_fig_hour_radiation;
extern const lw_figure lw_fig_sun_angles;
extern const lw_figure lw_fig_diffuse;
extern const lw_figure lw_fig_plane;
extern const lw_figure lw_fig_glass;
extern const lw_figure lw_fig_cell_temperature;
extern const lw_figure lw_fig_air_mass;
extern const lw_figure lw_fig_clear_sky;
extern const lw_figure lw_fig_dust;
extern const lw_figure lw_fig_markov_clearness;
extern const lw_figure lw_fig_clearness_distribution;
extern const lw_figure lw_fig_hour_clearness;
extern const lw_figure lw_fig_day_profile;
/* light */
extern const lw_figure lw_fig_beam_flux;
extern const lw_figure lw_fig_lux_point;
extern const lw_figure lw_fig_maintenance_factor;
extern const lw_figure lw_fig_lumen_maintenance;
extern const lw_figure lw_fig_led_point;
extern const lw_figure lw_fig_beam_fit;
extern const lw_figure lw_fig_diffuser;
extern const lw_figure lw_fig_diffuser_readings;
extern const lw_figure lw_fig_light_over_years;
extern const lw_figure lw_fig_light_colour;
extern const lw_figure lw_fig_led_type;
extern const lw_figure lw_fig_led_readings;
extern const lw_figure lw_fig_head_heat;
extern const lw_figure lw_fig_led_strings;
extern const lw_figure lw_fig_led_spares;
extern const lw_figure lw_fig_led_flicker;
extern const lw_figure lw_fig_led_counts;
extern const lw_figure lw_fig_light_over_supply;
/* cell */
extern const lw_figure lw_fig_resistor_discharge;
extern const lw_figure lw_fig_log_capacity;
extern const lw_figure lw_fig_capacity_restated;
extern const lw_figure lw_fig_pulse_resistance;
extern const lw_figure lw_fig_resistance_two_pulse;
extern const lw_figure lw_fig_self_discharge;
extern const lw_figure lw_fig_equalising_current;
extern const lw_figure lw_fig_meter_check;
extern const lw_figure lw_fig_combine_tests;
extern const lw_figure lw_fig_cell_verdict;
extern const lw_figure lw_fig_bench_plan;
extern const lw_figure lw_fig_remaining_life;
extern const lw_figure lw_fig_ageing_nmc;
extern const lw_figure lw_fig_ageing_lfp;
/* pack */
extern const lw_figure lw_fig_group_sharing;
extern const lw_figure lw_fig_protection_limits;
/* power */
extern const lw_figure lw_fig_panel;
extern const lw_figure lw_fig_worst_month;
extern const lw_figure lw_fig_panel_measured;
extern const lw_figure lw_fig_panel_match;
extern const lw_figure lw_fig_lamp_nights;
/* circuit */
extern const lw_figure lw_fig_nearest_value;
extern const lw_figure lw_fig_led_string;
extern const lw_figure lw_fig_string_sharing;
extern const lw_figure lw_fig_wire_drop;
extern const lw_figure lw_fig_wire_size;
extern const lw_figure lw_fig_lamps_in_row;
extern const lw_figure lw_fig_ampacity;
extern const lw_figure lw_fig_fuse;
extern const lw_figure lw_fig_pack_fault;
extern const lw_figure lw_fig_cell_fuse;
extern const lw_figure lw_fig_fuse_wire;
extern const lw_figure lw_fig_dusk_switch;
extern const lw_figure lw_fig_dusk_tolerance;
extern const lw_figure lw_fig_dusk_transistors;
extern const lw_figure lw_fig_sun_lux;
extern const lw_figure lw_fig_comparator_inputs;
extern const lw_figure lw_fig_divider_tolerance;
extern const lw_figure lw_fig_panel_sensor;
extern const lw_figure lw_fig_own_light;
extern const lw_figure lw_fig_timer_values;
extern const lw_figure lw_fig_dimmer_values;
extern const lw_figure lw_fig_schedule_circuit;
extern const lw_figure lw_fig_standby_energy;
extern const lw_figure lw_fig_charge_limits;
extern const lw_figure lw_fig_charge_program;
extern const lw_figure lw_fig_charger_compare;
extern const lw_figure lw_fig_panel_fits_pack;
extern const lw_figure lw_fig_thermistor_window;
extern const lw_figure lw_fig_charger_trial;
extern const lw_figure lw_fig_protector_trip;
/* mast */
extern const lw_figure lw_fig_base_depth;
extern const lw_figure lw_fig_base_ultimate;
extern const lw_figure lw_fig_bolt_strength;
extern const lw_figure lw_fig_clamp_slip;
extern const lw_figure lw_fig_cylinder_drag;
extern const lw_figure lw_fig_mast_bending;
extern const lw_figure lw_fig_mast_frequency;
extern const lw_figure lw_fig_mast_material;
extern const lw_figure lw_fig_mast_raising;
extern const lw_figure lw_fig_overhead_line;
extern const lw_figure lw_fig_panel_wind;
extern const lw_figure lw_fig_pipe_in_pipe;
extern const lw_figure lw_fig_plate_base;
extern const lw_figure lw_fig_sleeve_joint;
extern const lw_figure lw_fig_tapered_pole;
extern const lw_figure lw_fig_tube_buckling;
extern const lw_figure lw_fig_tube_section;
extern const lw_figure lw_fig_vortex_shedding;
extern const lw_figure lw_fig_wind_pressure;

#endif
