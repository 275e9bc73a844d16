/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The verdict of a cell: safety first, then each limit of the grading rules against the estimate and its uncertainty.
 */
#include "verdict_inside.h"

#include "lanewick/stats.h"

#include <math.h>

static const double low_found_v = 2.5;

static double rule(const lw_grading *grading, lw_rule_id id)
{
    return grading->rules[id].value;
}

const char *lw_verdict_text(lw_verdict verdict)
{
    static const char *const texts[] = /* words */ {"sound", "tired", "unsure", "scrap"};
    return texts[verdict];
}

double lw_scrap_ah(const lw_cell_facts *facts, const lw_grading *grading)
{
    return facts->rated_ah.given ? rule(grading, LW_RULE_CAPACITY_SCRAP_SHARE) * facts->rated_ah.value
                                 : rule(grading, LW_RULE_CAPACITY_SCRAP_AH);
}

static double tired_ah(const lw_cell_facts *facts, const lw_grading *grading)
{
    return facts->rated_ah.given ? rule(grading, LW_RULE_CAPACITY_TIRED_SHARE) * facts->rated_ah.value
                                 : rule(grading, LW_RULE_CAPACITY_TIRED_AH);
}

double lw_scrap_ohm(const lw_cell_facts *facts, const lw_grading *grading)
{
    const double most = rule(grading, LW_RULE_RESISTANCE_SCRAP_OHM);
    return facts->median_ohm > 0.0 ? fmin(most, rule(grading, LW_RULE_RESISTANCE_SCRAP_RATIO) * facts->median_ohm)
                                   : most;
}

double lw_chance_below(const lw_estimate *e, double limit)
{
    if (e->sd <= 0.0)
        return e->value < limit ? 1.0 : 0.0;
    return lw_normal_distribution((limit - e->value) / e->sd);
}

/* What the limits say of one quantity. */
typedef struct grade {
    bool scrap, open, tired;
} grade;

static void say(lw_judgement *out, const lw_grading *grading, lw_rule_id id, const char *text)
{
    lw_add_reason(out, text, grading->rules[id].source);
}

static grade grade_capacity(const lw_cell_facts *facts, const lw_grading *grading, lw_judgement *out)
{
    const double sure = rule(grading, LW_RULE_CONFIDENCE);
    const bool rated = facts->rated_ah.given;
    const lw_rule_id scrap = rated ? LW_RULE_CAPACITY_SCRAP_SHARE : LW_RULE_CAPACITY_SCRAP_AH;
    const lw_rule_id tired = rated ? LW_RULE_CAPACITY_TIRED_SHARE : LW_RULE_CAPACITY_TIRED_AH;
    grade g = {0};
    if (facts->capacity_ah.sd > 0.0)
        out->scrap_chance = lw_chance_below(&facts->capacity_ah, lw_scrap_ah(facts, grading));
    if (facts->capacity_ah.tests == 0) {
        g.open = true;
        say(out, grading, scrap, "Its capacity is not tested.");
        return g;
    }
    g.scrap = out->scrap_chance >= sure;
    if (g.scrap) {
        say(out, grading, scrap, "Its capacity is below the scrap limit.");
        return g;
    }
    if (facts->repeat_difference_pct > rule(grading, LW_RULE_REPEAT_DIFFERENCE_PCT)) {
        g.open = true;
        say(out, grading, LW_RULE_REPEAT_DIFFERENCE_PCT, "Its capacity tests differ too much.");
    }
    if (out->scrap_chance > 1.0 - sure) {
        g.open = true;
        say(out, grading, scrap, "Its capacity is too near the scrap limit to tell.");
    }
    if (lw_chance_below(&facts->capacity_ah, tired_ah(facts, grading)) > 1.0 - sure) {
        g.tired = true;
        say(out, grading, tired, "Its capacity is not surely above the limit for sound.");
    }
    return g;
}

static grade grade_resistance(const lw_cell_facts *facts, const lw_grading *grading, lw_judgement *out)
{
    const double sure = rule(grading, LW_RULE_CONFIDENCE), limit = lw_scrap_ohm(facts, grading);
    grade g = {0};
    const bool by_ratio = limit < rule(grading, LW_RULE_RESISTANCE_SCRAP_OHM);
    const lw_rule_id id = by_ratio ? LW_RULE_RESISTANCE_SCRAP_RATIO : LW_RULE_RESISTANCE_SCRAP_OHM;
    if (facts->resistance_ohm.tests == 0) {
        g.open = true;
        say(out, grading, id, "Its resistance is not tested.");
        return g;
    }
    const double above = 1.0 - lw_chance_below(&facts->resistance_ohm, limit);
    g.scrap = above >= sure;
    g.open = !g.scrap && above > 1.0 - sure;
    if (g.scrap || g.open)
        say(out, grading, id,
            g.scrap ? "Its resistance is above the scrap limit."
                    : "Its resistance is too near the scrap limit to tell.");
    const double tired = rule(grading, LW_RULE_RESISTANCE_TIRED_RATIO) * facts->median_ohm;
    if (!g.scrap && tired > 0.0 && lw_chance_below(&facts->resistance_ohm, tired) < 0.5) {
        g.tired = true;
        say(out, grading, LW_RULE_RESISTANCE_TIRED_RATIO, "Its resistance is high beside cells of its marking.");
    }
    return g;
}

double lw_hold_least_v(const lw_test_class *class, const lw_grading *grading)
{
    static const double rule_full_v = 4.20;
    if (class && class->flat_high_v > 0.0)
        return class->flat_high_v;
    return (class ? class->full_v : rule_full_v) - (rule_full_v - rule(grading, LW_RULE_REST_24H_V));
}

/* In the flat part the voltage says nothing; below it the cell has surely lost its charge. */
static void grade_rest(const lw_cell_facts *facts, const lw_grading *grading, lw_judgement *out, grade *g)
{
    const bool flat = facts->class && facts->class->flat_high_v > 0.0;
    if (!facts->rest_24h_v.given || facts->rest_24h_v.value >= lw_hold_least_v(facts->class, grading))
        return;
    if (!flat || facts->rest_24h_v.value < facts->class->flat_low_v) {
        g->scrap = true;
        say(out, grading, LW_RULE_REST_24H_V, "It fails to hold its charge: too low 24 h after a full charge.");
    } else if (facts->leak_mv_day.tests == 0) {
        g->open = true;
        say(out, grading, LW_RULE_REST_24H_V,
            "24 h after a full charge its voltage lies where this class tells nothing: rest it longer.");
    }
}

static grade grade_hold(const lw_cell_facts *facts, const lw_grading *grading, lw_judgement *out)
{
    const double sure = rule(grading, LW_RULE_CONFIDENCE);
    grade g = {0};
    if (!facts->rest_24h_v.given && facts->leak_mv_day.tests == 0) {
        g.open = true;
        say(out, grading, LW_RULE_REST_24H_V, "It is not known whether it holds its charge.");
        return g;
    }
    grade_rest(facts, grading, out, &g);
    if (g.scrap || facts->leak_mv_day.tests == 0)
        return g;
    const double above = 1.0 - lw_chance_below(&facts->leak_mv_day, rule(grading, LW_RULE_LEAK_SCRAP_MV_DAY));
    g.scrap = above >= sure;
    g.open = !g.scrap && above > 1.0 - sure;
    if (g.scrap || g.open)
        say(out, grading, LW_RULE_LEAK_SCRAP_MV_DAY,
            g.scrap ? "It leaks: its resting voltage falls too fast." : "It may leak: the rest was too short to tell.");
    if (!g.scrap && lw_chance_below(&facts->leak_mv_day, rule(grading, LW_RULE_LEAK_TIRED_MV_DAY)) < 0.5) {
        g.tired = true;
        say(out, grading, LW_RULE_LEAK_TIRED_MV_DAY, "Its resting voltage falls faster than that of a good cell.");
    }
    return g;
}

/* The questions that tests must still answer. */
static void open_questions(const lw_cell_facts *facts, grade capacity, grade resistance, grade hold,
                           bool open[LW_TEST_COUNT])
{
    const bool low = facts->found_v.given && facts->found_v.value < low_found_v;
    open[LW_TEST_RECOVERY] = low && !facts->recovered;
    open[LW_TEST_LOOK] = !facts->found_v.given || !facts->class;
    open[LW_TEST_CAPACITY] = capacity.open;
    open[LW_TEST_RESISTANCE] = resistance.open;
    open[LW_TEST_HOLD] = hold.open && !facts->rest_24h_v.given;
    open[LW_TEST_LEAK] = hold.open && facts->rest_24h_v.given;
}

/* No question is open: sound or tired. */
static void pass(const lw_cell_facts *facts, const lw_grading *grading, bool tired, lw_judgement *out)
{
    out->verdict = tired || facts->torn_wrap ? LW_TIRED : LW_SOUND;
    if (facts->torn_wrap)
        lw_add_reason(out, "Its wrap is torn: wrap it anew before use.", "safety, common practice");
    if (out->verdict == LW_SOUND)
        say(out, grading, LW_RULE_CONFIDENCE,
            "Capacity, resistance and rest are all on the good side of their limits.");
}

void lw_judge_cell(const lw_cell_facts *facts, const lw_grading *grading, lw_judgement *out)
{
    *out = (lw_judgement){.verdict = LW_SCRAP};
    if (facts->rated_ah.given && facts->capacity_ah.tests > 0)
        out->health = (lw_reading){true, facts->capacity_ah.value / facts->rated_ah.value};
    if (lw_unsafe_cell(facts, out))
        return;
    const bool old = facts->age_years.given && facts->age_years.value > rule(grading, LW_RULE_AGE_YEARS);
    if (old)
        say(out, grading, LW_RULE_AGE_YEARS, "It is too old by its date code.");
    const grade capacity = grade_capacity(facts, grading, out);
    const grade resistance = grade_resistance(facts, grading, out);
    const grade hold = grade_hold(facts, grading, out);
    if (old || capacity.scrap || resistance.scrap || hold.scrap)
        return;
    bool open[LW_TEST_COUNT] = {0};
    open_questions(facts, capacity, resistance, hold, open);
    if (open[LW_TEST_LOOK])
        lw_add_reason(out, facts->class ? "Its voltage as found was not noted." : "Its voltage class is unknown.",
                      "safety refusal, common practice");
    lw_choose_next(facts, grading, open, out);
    out->verdict = LW_UNSURE;
    if (out->next == LW_TEST_NONE)
        pass(facts, grading, capacity.tired || resistance.tired || hold.tired, out);
}
