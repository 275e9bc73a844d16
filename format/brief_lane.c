/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The light on a lane that a brief wants, and the heads of its shelf: docs/brief.md.
 */
#include "brief_read.h"
#include "head_read.h"
#include "lane_wish.h"

#include "lanewick/led.h"
#include "lanewick/plan_mast.h"
#include "lanewick/units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

void lw_brief_read_heads(lw_doc *shelf, lw_shelf *out, lw_layout_request *light)
{
    const json_t *list = lw_doc_list(shelf, "heads", 0, LW_SHELF_KINDS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "heads", list, i);
        lw_shelf_head *head = &out->head[out->head_count++];
        char name[LW_NAME];
        (void)snprintf(name, sizeof name, "head %zu", i + 1);
        lw_doc_text(&doc, "name", name, head->name, sizeof head->name);
        head->efficacy_lm_w = lw_doc_number_or(&doc, "efficacy_lm_w", 5.0, 230.0, (lw_doc_or){NAN, "lm/W", NULL});
        lw_read_lane_head(&doc, i, light);
        head->count = lw_brief_read_count(&doc, false);
        head->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
}

static const double bottle_left_per_year = 0.95;

/* What a diffuser lets through after so many years, over that of a new one: it yellows as its material does, not by the
 * usual share that the maintenance of a brief holds. */
static double yellowed(const lw_head *head, double years, bool usual)
{
    lw_diffuser old = head->diffuser;
    if (!head->has_diffuser)
        return 1.0;
    old.years += years;
    const double left = lw_diffuser_share(&old).usual / lw_diffuser_share(&head->diffuser).usual;
    return usual ? left / pow(bottle_left_per_year, years) : left;
}

/* Heads of the shelf, or the one that the lane tells. */
static void read_head(lw_doc *lane, lw_brief *brief)
{
    lw_layout_request *ask = &brief->want.lane.ask;
    const double efficacy = brief->want.lamp[brief->want.lane.kind].efficacy_lm_w;
    const size_t heads = brief->shelf.head_count;
    if (heads > 0 && lw_doc_has(lane, "head"))
        lw_doc_fail(lane, "head", "is given, and so are heads on the shelf; give one of them.");
    if (heads == 0) {
        lw_doc head = lw_doc_part(lane, "head", false);
        lw_read_lane_head(&head, 0, ask);
        (void)lw_doc_done(&head);
    }
    ask->wish.head_count = heads > 0 ? heads : 1;
    for (size_t i = 0; i < ask->wish.head_count; i++) {
        ask->wish.head[i].yellowed =
            yellowed(&ask->head[i], brief->want.planned_years, !lw_doc_has(lane, "maintenance"));
        const double own = heads > 0 ? brief->shelf.head[i].efficacy_lm_w : NAN;
        ask->lumens_per_w[i] = isnan(own) ? efficacy : own;
    }
}

static size_t kind_of(lw_doc *doc, const lw_want *want)
{
    char name[LW_NAME];
    lw_doc_text(doc, "lamp", NULL, name, sizeof name);
    for (size_t k = 0; k < want->lamp_count; k++)
        if (strcmp(want->lamp[k].name, name) == 0 && k != want->lane.kind)
            return k;
    lw_doc_fail(doc, "lamp", "is \"%s\"; it must be the name of another kind of want.lamps.", name);
    return 0;
}

/* A lamp that keeps other hours cannot be told at each step of the schedule. */
static bool same_hours(const lw_lamp_kind *a, const lw_lamp_kind *b)
{
    bool same = a->span_count == b->span_count;
    for (size_t i = 0; same && i < a->span_count; i++)
        same = a->span[i].from.kind == b->span[i].from.kind && a->span[i].from.value == b->span[i].from.value &&
               a->span[i].until.kind == b->span[i].until.kind && a->span[i].until.value == b->span[i].until.value &&
               a->span[i].level == b->span[i].level;
    return same;
}

/* The head of a lamp that also stands there: a flat board (Lambert) where nothing is told. */
static void read_also_head(lw_doc *also, double years, bool usual, lw_head *head, lw_lamp *lamp)
{
    const double lumens = head->lumens;
    lw_doc doc = lw_doc_part(also, "head", false);
    lw_head_read_shape(&doc, head);
    (void)lw_doc_done(&doc);
    lamp->maintenance *= yellowed(head, years, usual);
    lamp->beam = (lw_beam){.peak_cd = head->round ? lumens / (4.0 * lw_pi) : lw_cosine_peak_cd(lumens, head->cos_power),
                           .cos_power = head->cos_power,
                           .round = head->round,
                           .street_plane_deg = head->street_plane_deg};
}

/* Lamps of other kinds that also stand on the lane, with the lumens of their kind. */
static void read_also(lw_doc *lane, lw_want *want)
{
    const json_t *list = lw_doc_list(lane, "also", 0, LW_LAYOUT_FIXED);
    lw_layout_wish *wish = &want->lane.ask.wish;
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(lane, "also", list, i);
        const lw_lamp_kind *kind = &want->lamp[kind_of(&doc, want)];
        lw_lamp *lamp = &wish->fixed[wish->fixed_count++];
        lw_head *head = &want->lane.ask.fixed_head[i];
        *lamp = (lw_lamp){.maintenance = wish->maintenance};
        head->lumens = kind->lumens;
        read_also_head(&doc, want->planned_years, !lw_doc_has(lane, "maintenance"), head, lamp);
        lamp->x_m = lw_doc_number(&doc, "x_m", -1e5, 1e5, "m");
        lamp->y_m = lw_doc_number(&doc, "y_m", -1e5, 1e5, "m");
        lamp->height_m = lw_doc_number_or(&doc, "height_m", 1.0, 20.0, (lw_doc_or){4.0, "m", NULL});
        lamp->turn_deg = lw_doc_number_or(&doc, "turn_deg", -360.0, 360.0, (lw_doc_or){90.0, "degree", NULL});
        lamp->tilt_deg = lw_doc_number_or(&doc, "tilt_deg", -45.0, 45.0, (lw_doc_or){0.0, "degree", NULL});
        if (!doc.root->failed && !want->lane.late_given && !same_hours(kind, &want->lamp[want->lane.kind]))
            lw_doc_fail(&doc, "lamp", "is \"%s\", which keeps another schedule; it must be the lane's.", kind->name);
        (void)lw_doc_done(&doc);
    }
}

/* Light left when the heads are dirtiest and oldest (figure maintenance_factor): dust-protected head in dirty air,
 * wiped once a year; LEDs that lose 1e-5 an hour (IES TM-21 form, from memory for boards at 85 degC), 12 h a night; one
 * in twenty gone; a bottle that yellows by 5 % a year. */
static double maintenance_after(double years)
{
    const lw_decay leds = {.b = 1.0, .alpha_per_h = 1e-5};
    const double left = lw_dirt_share(LW_DUST_PROTECTED, LW_AIR_DIRTY, 12.0) *
                        lw_decay_share(&leds, years * 365.0 * 12.0) * 0.95 * pow(bottle_left_per_year, years);
    return fmax(0.1, 0.01 * round(100.0 * left));
}

static void read_number(lw_doc *lane, lw_brief *brief)
{
    lw_want *want = &brief->want;
    lw_layout_wish *wish = &want->lane.ask.wish;
    const int told = want->lamp[want->lane.kind].count;
    const bool free_number = !lw_doc_has(lane, "masts") && !lw_doc_has(lane, "mast_places") &&
                             !lw_doc_has(lane, "fewest_masts") && !lw_doc_has(lane, "most_masts");
    if (want->lane.count_told && free_number)
        wish->fewest_masts = wish->most_masts = (size_t)told;
    else if (want->lane.count_told && (wish->fewest_masts != wish->most_masts || (int)wish->most_masts != told))
        lw_doc_fail(lane, "masts", "differ from the %d lamps that are wanted of this kind.", told);
    const int others = lw_brief_lamps(brief) - told;
    if ((int)wish->most_masts > LW_BRIEF_LAMPS - others) {
        wish->most_masts = (size_t)(LW_BRIEF_LAMPS - others);
        if (wish->most_masts < wish->fewest_masts)
            lw_doc_fail(lane, "masts", "are too many with the %d other lamps; %d are possible in one brief.", others,
                        LW_BRIEF_LAMPS);
    }
    want->lamp[want->lane.kind].count = (int)wish->fewest_masts;
}

/* Any schedule but full light from dusk to dawn says something of its own. */
static bool says_more(const lw_lamp_kind *lamp)
{
    const lw_span *s = &lamp->span[0];
    return lamp->span_count != 1 || s->level < 1.0 || s->from.kind != LW_AT_DUSK || s->from.value != 0.0 ||
           s->until.kind != LW_AT_DAWN || s->until.value != 0.0;
}

/* The masts of a brief whose height is stated stand so high. Heights of the lane are those of its light. */
static void read_height(lw_doc *brief, lw_doc *lane, lw_brief *out)
{
    lw_doc build = lw_doc_part(brief, "build", false), mast = lw_doc_part(&build, "mast", false);
    lw_layout_wish *wish = &out->want.lane.ask.wish;
    const double light_m = out->build.mast.height_m - lw_light_below_top_m;
    if (!lw_doc_has(&mast, "height_m"))
        return;
    if (!lw_doc_has(lane, "heights_m")) {
        wish->height_count = 1;
        wish->heights_m[0] = light_m;
        lw_assume(brief->root->assumed, "want.lane.heights_m", "the light hangs below the top of build.mast.height_m",
                  "%.4g m", light_m);
        return;
    }
    bool among = out->want.lamp_count > 1; /* it is that of the other lamps */
    for (size_t i = 0; i < wish->height_count; i++)
        among = among || fabs(wish->heights_m[i] - light_m) < 0.005;
    if (!among)
        lw_doc_fail(
            lane, "heights_m",
            "and build.mast.height_m (%.4g m, its light at %.4g m) are both given and differ; give one of them.",
            out->build.mast.height_m, light_m);
}

void lw_brief_read_lane(lw_doc *brief, lw_brief *out)
{
    lw_lane_want *want = &out->want.lane;
    if (!want->given || brief->root->failed)
        return;
    lw_doc whole = lw_doc_part(brief, "want", true);
    lw_doc doc = lw_doc_part(&whole, "lane", true);
    const double left = maintenance_after(out->want.planned_years);
    want->ask.wish.maintenance =
        lw_doc_number_or(&doc, "maintenance", 0.01, 1.0,
                         (lw_doc_or){left, "of the first light", "head wiped yearly, LEDs and bottle aged"});
    want->late_given = lw_doc_has(&doc, "late");
    lw_read_lane_wish(&doc, true, &want->ask, &want->late);
    const lw_lamp_kind *lamp = &out->want.lamp[want->kind];
    if (!brief->root->failed)
        read_height(brief, &doc, out);
    if (want->late_given && says_more(lamp))
        lw_doc_fail(&doc, "late", "is given, and so is a schedule; the late light follows from one of them.");
    if (want->late_given && out->want.hand_switch)
        lw_doc_fail(&doc, "late", "is sought, but a switch made by hand is made for a schedule; give want.schedule.");
    read_head(&doc, out);
    read_also(&doc, &out->want);
    if (!brief->root->failed)
        read_number(&doc, out);
    (void)lw_doc_done(&doc);
}
