/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The next test. Each open question has a chance to be answered by its test: with a normal belief (m, s) and a test of
 * standard uncertainty t, the belief afterwards has s' with 1/s'^2 = 1/s^2 + 1/t^2 and its mean is spread by
 * sqrt(s^2 - s'^2) around m; the question is answered when the mean lies z s' or more from the limit (preposterior
 * analysis, Raiffa and Schlaifer 1961). A scrap answer ends everything, so tests that may give one come first.
 */
#include "verdict_inside.h"

#include "lanewick/stats.h"

#include <math.h>

/* Bench time of a practised person; the chances where nothing is known yet come from reported yields of 30 to 70 %
 * (from memory). */
static const lw_bench_cost costs[LW_TEST_COUNT] = {
    [LW_TEST_NONE] = {"none", "Nothing more to test.", 0.0, 0.0, false},
    [LW_TEST_LOOK] = {"look", "Look at it, smell it, read its voltage and write down its marking.", 2.0, 0.05, false},
    [LW_TEST_RECOVERY] =
        {"recovery",
         "Bring it to 3.0 V at 0.05 C or less, staying beside it; scrap it if it is not there within 60 "
         "minutes or gets warm.",
         65.0, 1.1, false},
    [LW_TEST_RESISTANCE] = {"resistance", "Read its voltage open and 10 s after connecting the resistor.", 3.0, 0.05,
                            false},
    [LW_TEST_CAPACITY] =
        {"capacity",
         "Charge it full, rest it an hour, discharge it through the resistor and read the voltage to the "
         "end.",
         12.0, 10.0, true},
    [LW_TEST_HOLD] = {"hold", "Charge it full and read its voltage after 24 h of rest.", 4.0, 28.0, true},
    [LW_TEST_LEAK] = {"leak", "Rest it full for 3 days, read its voltage, and read it again 14 days later.", 4.0, 408.0,
                      true},
};

const lw_bench_cost *lw_bench_cost_of(lw_bench_test test)
{
    return &costs[test];
}

/* Chance that one more test of standard uncertainty t decides on which side of the limit the quantity lies. */
static double chance_settled(double m, double s, double limit, double t, double z)
{
    const double after = 1.0 / sqrt(1.0 / (s * s) + 1.0 / (t * t));
    const double moves = sqrt(fmax(s * s - after * after, 1e-18));
    return lw_normal_distribution((limit - z * after - m) / moves) +
           lw_normal_distribution((m - limit - z * after) / moves);
}

static double chance_of(const lw_cell_facts *facts, const lw_grading *grading, lw_bench_test test)
{
    const double z = lw_normal_quantile(grading->rules[LW_RULE_CONFIDENCE].value);
    if (test == LW_TEST_CAPACITY) {
        const double limit = lw_scrap_ah(facts, grading);
        if (facts->capacity_ah.sd > 0.0)
            return chance_settled(facts->capacity_ah.value, facts->capacity_ah.sd, limit, 0.012 * limit, z);
        return 0.9; /* nothing known yet: one test nearly always decides */
    }
    if (test == LW_TEST_RESISTANCE && facts->resistance_ohm.sd > 0.0)
        return chance_settled(facts->resistance_ohm.value, facts->resistance_ohm.sd, lw_scrap_ohm(facts, grading),
                              0.004, z);
    if (test == LW_TEST_LEAK && facts->leak_mv_day.tests > 0)
        return chance_settled(facts->leak_mv_day.value, facts->leak_mv_day.sd,
                              grading->rules[LW_RULE_LEAK_SCRAP_MV_DAY].value, 0.1, z);
    return 0.95;
}

/* Chance that the test ends it all by a scrap answer; what is worth finding out first. */
static double chance_of_scrap(const lw_cell_facts *facts, const lw_grading *grading, lw_bench_test test)
{
    if (test == LW_TEST_CAPACITY)
        return facts->capacity_ah.sd > 0.0 ? lw_chance_below(&facts->capacity_ah, lw_scrap_ah(facts, grading)) : 0.4;
    return test == LW_TEST_RECOVERY ? 0.6 : test == LW_TEST_RESISTANCE ? 0.15 : 0.1;
}

void lw_choose_next(const lw_cell_facts *facts, const lw_grading *grading, const bool open[LW_TEST_COUNT],
                    lw_judgement *out)
{
    out->next = LW_TEST_NONE;
    if (open[LW_TEST_RECOVERY]) { /* no charge and no load before that */
        out->next = LW_TEST_RECOVERY;
        out->next_settles = 0.95;
        return;
    }
    int questions = 0;
    for (int t = LW_TEST_LOOK; t < LW_TEST_COUNT; t++)
        questions += open[t];
    double best = -1.0;
    for (int t = LW_TEST_LOOK; t < LW_TEST_COUNT; t++) {
        if (!open[t])
            continue;
        const double settles = chance_of(facts, grading, (lw_bench_test)t);
        /* the last open question: its own chance; before that the chance of ending by scrap */
        const double worth = questions == 1 ? settles : settles * chance_of_scrap(facts, grading, (lw_bench_test)t);
        if (worth / costs[t].minutes > best) {
            best = worth / costs[t].minutes;
            out->next = (lw_bench_test)t;
            out->next_settles = settles;
        }
    }
}
