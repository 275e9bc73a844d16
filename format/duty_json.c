/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matched packs with their duty as JSON: see lanewick/duty_json.h.
 */
#include "lanewick/duty_json.h"

#include "match_put.h"

static json_t *run_of(const lw_cell_list *list, const lw_duty_run *run)
{
    return json_pack("{s:o,s:o,s:s,s:b}", "largest_share", lw_json_number(run->share), "largest_a",
                     lw_json_number(run->most_a), "cell", list->cells[run->cell].id, "within_limit", run->within);
}

static json_t *protection_of(const lw_protection *p)
{
    const struct {
        const char *key;
        double value;
    } numbers[] = {{"charge_v", p->charge_v},
                   {"over_low_v", p->over_low_v},
                   {"over_high_v", p->over_high_v},
                   {"over_release_v", p->over_release_v},
                   {"under_low_v", p->under_low_v},
                   {"under_high_v", p->under_high_v},
                   {"under_release_v", p->under_release_v},
                   {"lamp_cutoff_v", p->lamp_cutoff_v},
                   {"overcurrent_low_a", p->overcurrent_low_a},
                   {"overcurrent_high_a", p->overcurrent_high_a},
                   {"short_ms", p->short_ms},
                   {"fuse_least_a", p->fuse_least_a},
                   {"fuse_most_a", p->fuse_most_a},
                   {"fuse_v", p->fuse_v},
                   {"fuse_breaks_a", p->fuse_breaks_a},
                   {"balance_start_v", p->balance_start_v},
                   {"balance_a", p->balance_a},
                   {"cell_wire_carries_a", p->cell_wire_carries_a},
                   {"strip_mm2", p->strip_mm2},
                   {"wire_mm2", p->wire_mm2},
                   {"charge_low_c", p->charge_low_c},
                   {"charge_high_c", p->charge_high_c}};
    json_t *out = json_pack("{s:b}", "balancing_needed", p->balancing_needed);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++)
        json_object_set_new(out, numbers[i].key, lw_json_number(numbers[i].value));
    return out;
}

static json_t *duty_of(const lw_cell_list *list, const lw_match *match, const lw_duty *duty)
{
    json_t *groups = json_array();
    for (int g = 0; g < match->groups; g++) {
        const lw_duty_group *group = &duty->group[g];
        json_t *one = json_pack("{s:i,s:o}", "cells", group->cells, "load", run_of(list, &group->load));
        if (group->charge.share > 0.0)
            json_object_set_new(one, "charge", run_of(list, &group->charge));
        if (group->cells > 1) {
            json_object_set_new(one, "join_allowed_v", lw_json_number(group->join_v));
            json_object_set_new(one, "join_a", lw_json_number(group->join_a));
        }
        json_array_append_new(groups, one);
    }
    return json_pack("{s:s,s:o,s:o,s:b,s:o,s:o,s:o}", "voltage_class", duty->class->name, "largest_share",
                     lw_json_number(duty->largest_share), "largest_a", lw_json_number(duty->largest_a), "within_limit",
                     duty->within, "join_allowed_v", lw_json_number(duty->join_v), "groups", groups, "protection",
                     protection_of(&duty->protection));
}

char *lw_match_duty_to_json(const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match,
                            const lw_duty *duty)
{
    json_t *object = json_object();
    lw_json_put_match(object, list, ask, match);
    json_object_set_new(object, "duty", duty_of(list, match, duty));
    return lw_json_line(object);
}
