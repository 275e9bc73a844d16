/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a brief wants: lamps alike (a number) or different (a list), their light, schedule and other loads, and
 * how sure the light must be.
 */
#include "brief_read.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const size_t NO_KIND = LW_BRIEF_KINDS;

lw_moment lw_brief_read_moment(lw_doc *doc, const char *key)
{
    char text[32];
    lw_moment moment = {LW_AT_DUSK, 0.0};
    lw_doc_text(doc, key, NULL, text, sizeof text);
    if (!lw_moment_from_text(text, &moment))
        lw_doc_fail(doc, key,
                    "is \"%s\"; write \"dusk\", \"dusk+3.5h\", \"dawn-1h\", \"22:30\" or \"50%%\" of the night.", text);
    return moment;
}

static void read_schedule(lw_doc *doc, lw_lamp_kind *lamp)
{
    const json_t *list = lw_doc_list(doc, "schedule", 0, LW_BRIEF_STEPS);
    if (list && json_array_size(list) == 0)
        lw_doc_fail(doc, "schedule", "is empty; leave it out for full light from dusk to dawn.");
    if (list)
        lamp->span_count = 0;
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc span = lw_doc_element(doc, "schedule", list, i);
        lw_span *out = &lamp->span[lamp->span_count++];
        out->from = lw_brief_read_moment(&span, "from");
        out->until = lw_brief_read_moment(&span, "to");
        out->level = lw_doc_number(&span, "level", 0.0, 1.0, "of full light");
        (void)lw_doc_done(&span);
    }
}

static double read_clock(lw_doc *doc, const char *key)
{
    const lw_moment moment = lw_brief_read_moment(doc, key);
    if (moment.kind != LW_AT_CLOCK)
        lw_doc_fail(doc, key, "must be a time of the clock, such as \"18:30\".");
    return moment.value;
}

static void read_loads(lw_doc *doc, lw_lamp_kind *lamp)
{
    const json_t *list = lw_doc_list(doc, "other_loads", 0, LW_BRIEF_LOADS);
    if (list)
        lamp->load_count = 0;
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc load = lw_doc_element(doc, "other_loads", list, i);
        lw_other_load *out = &lamp->load[lamp->load_count++];
        lw_doc_text(&load, "name", "other load", out->name, sizeof out->name);
        out->power_w = lw_doc_number(&load, "watts", 0.001, 100.0, "W");
        out->always = lw_doc_flag_or(&load, "always", false, NULL);
        if (!out->always) {
            out->from_h = read_clock(&load, "from");
            out->until_h = read_clock(&load, "to");
            if (out->from_h == out->until_h)
                lw_doc_fail(&load, "to",
                            "is the same time as from; for a load that never rests write \"always\": true.");
        }
        (void)lw_doc_done(&load);
    }
}

/* Light, schedule and loads; what the part does not say stays as it was. */
static void read_lamp(lw_doc *doc, lw_lamp_kind *lamp)
{
    const bool lumens = lw_doc_has(doc, "lumens"), watts = lw_doc_has(doc, "head_w");
    const bool efficacy = lw_doc_has(doc, "efficacy_lm_w");
    if (efficacy)
        lamp->efficacy_lm_w = lw_doc_number(doc, "efficacy_lm_w", 5.0, 230.0, "lm/W");
    if (lumens)
        lamp->lumens = lw_doc_number(doc, "lumens", 5.0, 20000.0, "lm");
    if (watts)
        lamp->head_w = lw_doc_number(doc, "head_w", 0.05, 150.0, "W");
    if (lumens && watts && efficacy)
        lw_doc_fail(doc, "efficacy_lm_w", "is given besides lumens and head_w; give two of the three.");
    if (lumens && !watts)
        lamp->head_w = 0.0;
    if (watts && !lumens)
        lamp->lumens = 0.0;
    if (lumens && watts)
        lamp->efficacy_lm_w = lamp->lumens / lamp->head_w;
    read_schedule(doc, lamp);
    read_loads(doc, lamp);
}

/* The lamps that the plan is to find for the lane; 1 W until they are found. */
static void take_for_lane(lw_doc *doc, lw_want *want, lw_lamp_kind *lamp)
{
    if (want->lane.kind != NO_KIND)
        lw_doc_fail(doc, "lumens", "is missing, as in another kind; only one can be found from want.lane.");
    want->lane.kind = (size_t)(lamp - want->lamp);
    want->lane.count_told = json_object_get(doc->object, "count") || json_object_get(doc->object, "lamps");
    lamp->head_w = 1.0;
}

/* Watts from lumens; the whole night at full light when no schedule was given. A kind without light is the lane's. */
static void complete(lw_doc *doc, lw_want *want, lw_lamp_kind *lamp)
{
    const bool dark = lamp->lumens <= 0.0 && lamp->head_w <= 0.0;
    if (doc->root->failed)
        return;
    if (dark && !want->lane.given)
        lw_doc_fail(doc, "lumens", "is missing; give lumens (with efficacy_lm_w) or head_w, or the light on a lane.");
    if (dark && want->lane.given)
        take_for_lane(doc, want, lamp);
    if (lamp->efficacy_lm_w <= 0.0) {
        lamp->efficacy_lm_w = 100.0;
        lw_assume(doc->root->assumed, "want.efficacy_lm_w", "common white LEDs in a plain head, losses counted",
                  "100 lm/W");
    }
    if (lamp->head_w <= 0.0)
        lamp->head_w = lamp->lumens / lamp->efficacy_lm_w;
    if (lamp->span_count == 0) {
        lamp->span[lamp->span_count++] = (lw_span){.from = {LW_AT_DUSK, 0.0}, .until = {LW_AT_DAWN, 0.0}, .level = 1.0};
        if (!dark)
            lw_assume(doc->root->assumed, "want.schedule", "no schedule given", "full light from dusk to dawn");
    }
    if (lamp->lumens <= 0.0)
        lamp->lumens = lamp->head_w * lamp->efficacy_lm_w;
}

static void read_lamp_list(lw_doc *doc, lw_want *want, const lw_lamp_kind *common)
{
    const json_t *list = lw_doc_list(doc, "lamps", 1, LW_BRIEF_KINDS);
    int all = 0;
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc entry = lw_doc_element(doc, "lamps", list, i);
        lw_lamp_kind *lamp = &want->lamp[want->lamp_count++];
        char name[LW_NAME];
        *lamp = *common;
        (void)snprintf(name, sizeof name, "lamp %zu", i + 1);
        lw_doc_text(&entry, "name", name, lamp->name, sizeof lamp->name);
        lamp->count = lw_doc_integer_or(&entry, "count", 1, LW_BRIEF_LAMPS, (lw_doc_or){1.0, "", NULL});
        read_lamp(&entry, lamp);
        complete(&entry, want, lamp);
        (void)lw_doc_done(&entry);
        all += lamp->count;
    }
    if (all > LW_BRIEF_LAMPS)
        lw_doc_fail(doc, "lamps", "are %d in all; %d are possible in one brief.", all, LW_BRIEF_LAMPS);
}

static void read_lamps(lw_doc *doc, lw_want *want)
{
    lw_lamp_kind common = {.count = 1};
    (void)snprintf(common.name, sizeof common.name, "%s", lw_lamp_unnamed);
    read_lamp(doc, &common);
    const json_t *lamps = doc->object ? json_object_get(doc->object, "lamps") : NULL;
    if (json_is_array(lamps)) {
        read_lamp_list(doc, want, &common);
        return;
    }
    const char *why = want->lane.given ? NULL : "one lamp";
    want->lamp[0] = common;
    want->lamp[0].count = lw_doc_integer_or(doc, "lamps", 1, LW_BRIEF_LAMPS, (lw_doc_or){1.0, "", why});
    want->lamp_count = 1;
    complete(doc, want, &want->lamp[0]);
}

static void read_dim(lw_doc *doc, lw_want *want)
{
    want->dims = lw_doc_has(doc, "dim_when_low");
    lw_doc dim = lw_doc_part(doc, "dim_when_low", false);
    if (want->dims) {
        want->dim.below_share = lw_doc_number(&dim, "below_charge", 0.05, 0.95, "of a full pack");
        want->dim.factor = lw_doc_number(&dim, "level", 0.05, 0.95, "of the light wished");
    }
    (void)lw_doc_done(&dim);
}

void lw_brief_read_want(lw_doc *brief, lw_want *want)
{
    lw_doc doc = lw_doc_part(brief, "want", true);
    want->lane.given = lw_doc_has(&doc, "lane");
    want->lane.kind = NO_KIND;
    read_lamps(&doc, want);
    if (want->lane.given && want->lane.kind == NO_KIND)
        lw_doc_fail(&doc, "lane",
                    "finds lumens and number of lamps: leave lumens and head_w out of that kind of lamp.");
    want->dark_nights_per_year =
        lw_doc_number_or(&doc, "dark_nights_per_year", 0.0, 200.0, (lw_doc_or){5.0, "", "a lane that people count on"});
    want->planned_years = lw_doc_number_or(&doc, "planned_years", 1.0, 15.0,
                                           (lw_doc_or){3.0, "years", "common life of a pack of reclaimed cells"});
    want->sure_share = lw_doc_number_or(&doc, "sure_share", 0.5, 0.99,
                                        (lw_doc_or){0.9, "of the draws", "the wish holds in nine draws of ten"});
    want->dusk_sun_deg = lw_doc_number_or(&doc, "dusk_sun_deg", -12.0, 0.0,
                                          (lw_doc_or){-4.0, "degrees", "sun's height at which a dusk switch works"});
    want->least_late_level = lw_doc_number_or(&doc, "least_late_level", 0.0, 1.0, (lw_doc_or){1.0, "", NULL});
    read_dim(&doc, want);
    const int chosen =
        lw_doc_choice(&doc, "switch", "driver|" LW_SWITCH_WORDS, 0, "the driver's own dusk switch, true to 4 minutes");
    want->hand_switch = chosen > 0;
    want->switch_kind = chosen > 0 ? (lw_switch_kind)(chosen - 1) : LW_SWITCH_DUSK;
    want->switch_sensor = (lw_switch_sensor)lw_doc_choice(&doc, "switch_sensor", LW_SENSE_WORDS, 0, NULL);
    (void)lw_doc_done(&doc);
}
