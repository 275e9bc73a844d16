/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is wired in one lamp of a plan, as JSON.
 */
#include "json_help.h"
#include "plan_json.h"

#include "lanewick/circuit_json.h"

static json_t *lux(const lw_dusk_spread *s)
{
    return json_pack("{s:o,s:o,s:o,s:o,s:o}", "middle", lw_json_number(s->nominal), "low", lw_json_number(s->p05),
                     "high", lw_json_number(s->p95), "worst_low", lw_json_number(s->worst_low), "worst_high",
                     lw_json_number(s->worst_high));
}

static json_t *minutes(const lw_minutes *m)
{
    return json_pack("{s:o,s:o,s:o,s:o,s:o}", "middle", lw_json_number(m->nominal), "low", lw_json_number(m->p05),
                     "high", lw_json_number(m->p95), "worst_low", lw_json_number(m->worst_low), "worst_high",
                     lw_json_number(m->worst_high));
}

static void set_timer(json_t *out, const lw_switch_values *v)
{
    if (v->timer_h > 0.0)
        json_object_set_new(out, "timer",
                            json_pack("{s:o,s:o,s:i,s:o,s:o,s:o}", "resistor_ohm", lw_json_number(v->timer_ohm),
                                      "capacitor_uf", lw_json_number(v->timer_uf), "output", v->timer_stages, "hours",
                                      lw_json_number(v->timer_h), "worst_low_h", lw_json_number(v->timer_low_h),
                                      "worst_high_h", lw_json_number(v->timer_high_h)));
    if (v->dim_hz > 0.0)
        json_object_set_new(out, "lower_level",
                            json_pack("{s:o,s:o,s:o,s:o,s:o,s:o,s:o}", "on_ohm", lw_json_number(v->dim_on_ohm),
                                      "off_ohm", lw_json_number(v->dim_off_ohm), "capacitor_nf",
                                      lw_json_number(v->dim_nf), "frequency_hz", lw_json_number(v->dim_hz), "level",
                                      lw_json_number(v->level), "worst_low", lw_json_number(v->level_low), "worst_high",
                                      lw_json_number(v->level_high)));
}

json_t *lw_plan_switch_json(const lw_dusk_board *dusk)
{
    static const char *const names[] = {"dusk", "dusk_timer", "two_levels", "pack_dimming"};
    const lw_switch_values *v = &dusk->values;
    char parts[300];
    lw_switch_parts_text(dusk->kind, v->sensor, parts, sizeof parts);
    json_t *out = json_pack("{s:s,s:s,s:s,s:o,s:o,s:o,s:o,s:o,s:o}", "circuit", names[dusk->kind], "sensor",
                            lw_switch_sensor_name(v->sensor), "parts", parts, "resistor_ohm",
                            lw_json_number(v->resistor_ohm), "r1_ohm", lw_json_number(v->r1_ohm), "r2_ohm",
                            lw_json_number(v->r2_ohm), "r3_ohm", lw_json_number(v->r3_ohm), "delay_uf",
                            lw_json_number(v->delay_uf), "delay_s", lw_json_number(v->delay_s));
    set_timer(out, v);
    json_object_set_new(out, "wanted_lx", lw_json_number(dusk->wanted_lx));
    json_object_set_new(out, "on_lx", lux(&dusk->on));
    json_object_set_new(out, "off_lx", lux(&dusk->off));
    json_object_set_new(out, "on_full_lx", lux(&dusk->on_full));
    json_object_set_new(out, "off_full_lx", lux(&dusk->off_full));
    json_object_set_new(out, "dusk_longer_min", minutes(&dusk->dusk));
    json_object_set_new(out, "dawn_longer_min", minutes(&dusk->dawn));
    json_object_set_new(out, "nights_longer_min", lw_json_number(dusk->longer_min));
    json_object_set_new(out, "nights_spread_min", lw_json_number(dusk->spread_min));
    json_object_set_new(out, "dark_cloud_longer_min", lw_json_number(dusk->dark_cloud_min));
    json_object_set_new(out, "standby_ma", lw_json_number(1e3 * v->standby_a));
    json_object_set_new(out, "standby_wh_month", lw_json_number(dusk->standby_wh_month));
    json_object_set_new(out, "own_light",
                        json_pack("{s:o,s:o,s:b,s:b}", "lx", lw_json_number(dusk->own_lx), "limit_lx",
                                  lw_json_number(dusk->own_limit_lx), "stable", dusk->own_stable, "good",
                                  dusk->own_good));
    return out;
}

static json_t *charging(const lw_charge_year *year)
{
    json_t *months = json_array();
    for (int m = 0; m < 12; m++)
        json_array_append_new(months, json_pack("{s:i,s:o,s:o,s:o}", "month", m + 1, "panel_v",
                                                lw_json_number(year->month[m].panel_v), "pack_v",
                                                lw_json_number(year->month[m].pack_v), "amps",
                                                lw_json_number(year->month[m].amps)));
    return json_pack("{s:b,s:o,s:o,s:o,s:o,s:o,s:o}", "fills_every_month", year->fills, "months", months,
                     "back_at_night_ma", lw_json_number(year->back_ma), "thermistor_0_ohm",
                     lw_json_number(year->ice_ohm), "thermistor_45_ohm", lw_json_number(year->hot_ohm),
                     "long_life_v_per_cell", lw_json_number(year->long_life_v), "bleed_h_per_pct",
                     lw_json_number(year->bleed_h));
}

static json_t *wire(const lw_lamp_wire *w)
{
    return json_pack("{s:o,s:o}", "length_m", lw_json_number(w->length_m), "area_mm2", lw_json_number(w->area_mm2));
}

/* What is joined: enough to draw it with its values. */
static json_t *joined(const lw_lamp_circuit *l)
{
    static const char *const drivers[] = {"none", "linear", "buck", "boost"};
    json_t *head = json_pack("{s:i,s:i,s:o,s:o,s:s}", "strings", l->head.strings, "leds_in_series", l->head.leds,
                             "led_ma", lw_json_number(1e3 * l->head.led_a), "resistor_ohm",
                             lw_json_number(l->head.ballast_ohm), "driver", drivers[l->head.driver]);
    return json_pack("{s:o,s:o,s:o,s:o,s:o,s:o}", "fuse_a", lw_json_number(l->protection.fuse_a), "board_opens_a",
                     lw_json_number(l->protection.trip_a), "panel_wire", wire(&l->panel_wire), "pack_wire",
                     wire(&l->pack_wire), "head_wire", wire(&l->head_wire), "head", head);
}

json_t *lw_plan_circuits_json(const lw_plan *plan)
{
    json_t *out = json_array();
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        const lw_circuit_card *card = &kind->circuit;
        json_t *one = card->there ? lw_lamp_readings_json(&card->readings, card->own_switch) : json_object();
        if (!card->there)
            json_object_set_new(one, "why_not", lw_json_text(card->why_not));
        json_object_set_new(one, "kind", lw_json_text(plan->brief.want.lamp[kind->kind].name));
        json_object_set_new(one, "count", json_integer(kind->count));
        if (card->there)
            json_object_set_new(one, "parts", joined(&card->parts));
        json_object_set_new(one, "charging", charging(&card->charge));
        json_array_append_new(out, one);
    }
    return out;
}

char *lw_plan_circuits_to_json(const lw_plan *plan)
{
    return lw_json_line(json_pack("{s:o}", "circuits", lw_plan_circuits_json(plan)));
}
