/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure cell_verdict: what a cell is worth, why, and what to test next.
 */
#include "lanewick/figure.h"
#include "lanewick/verdict.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    CLASS,
    FOUND,
    LOOK,
    RATED,
    AGE,
    CAPACITY,
    CAPACITY_SD,
    CRATE,
    CRATE_SD,
    OHM,
    OHM_SD,
    MEDIAN,
    REST_24H,
    LEAK,
    LEAK_SD,
    RECOVERED,
    HOT,
    NO_TAPER
};
static const lw_input inputs[] = {
    [CLASS] = {"voltage_class", "", "what is known of the chemistry", LW_CHOICE, 0, 0, "4v2|4v35|lfp|unknown",
               "unknown", 0, 0},
    [FOUND] = {"found_v", "V", "voltage as found, 0 to 4.6", LW_NUMBER, -1e5, 1e5, NULL, "", 0, 0},
    [LOOK] = {"look", "", "words, separated by spaces: dent rust leak swollen smell top torn open; ok", LW_TEXT, 0, 0,
              NULL, "ok", 0, 0},
    [RATED] = {"rated_ah", "Ah", "rated capacity, where the marking tells it", LW_NUMBER, 0.05, 400.0, NULL, "", 0, 0},
    [AGE] = {"age_years", "a", "by its date code", LW_NUMBER, 0.0, 60.0, NULL, "", 0, 0},
    [CAPACITY] = {"capacity_ah", "Ah", "results of its capacity tests", LW_NUMBERS, 0.0, 400.0, NULL, "", 0, 20},
    [CAPACITY_SD] = {"capacity_sd_ah", "Ah", "their standard uncertainties", LW_NUMBERS, 1e-6, 400.0, NULL, "", 0, 20},
    [CRATE] = {"crate_ah", "Ah", "mean of the crate's tested cells of its marking", LW_NUMBER, 0.05, 400.0, NULL, "", 0,
               0},
    [CRATE_SD] = {"crate_sd_ah", "Ah", "how far they lie apart; a fifth of the mean when left out", LW_NUMBER, 1e-4,
                  400.0, NULL, "", 0, 0},
    [OHM] = {"resistance_mohm", "mohm", "10 s d.c. resistance", LW_NUMBER, 0.01, 1e5, NULL, "", 0, 0},
    [OHM_SD] = {"resistance_sd_mohm", "mohm", "its standard uncertainty", LW_NUMBER, 0.01, 1e5, NULL, "4", 0, 0},
    [MEDIAN] = {"median_mohm", "mohm", "median of its marking in the crate", LW_NUMBER, 0.01, 1e5, NULL, "", 0, 0},
    [REST_24H] = {"rest_24h_v", "V", "voltage 24 h after a full charge, 0 to 4.6", LW_NUMBER, -1e5, 1e5, NULL, "", 0,
                  0},
    [LEAK] = {"leak_mv_day", "mV/d", "fall of the resting voltage (figure self_discharge)", LW_NUMBER, -100.0, 1000.0,
              NULL, "", 0, 0},
    [LEAK_SD] = {"leak_sd_mv_day", "mV/d", "its standard uncertainty", LW_NUMBER, 0.001, 100.0, NULL, "0.1", 0, 0},
    [RECOVERED] = {"recovered", "", "found low, then brought to 3.0 V within 60 minutes, attended", LW_FLAG, 0, 0, NULL,
                   "no", 0, 0},
    [HOT] = {"hot_on_charge", "", "above 45 degC or 10 K above the air at 0.5 C or less", LW_FLAG, 0, 0, NULL, "no", 0,
             0},
    [NO_TAPER] = {"no_taper", "", "the charging current did not fall within 6 h", LW_FLAG, 0, 0, NULL, "no", 0, 0},
};

enum { VERDICT, REASONS, SOURCES, NEXT, NEXT_WHAT, NEXT_MINUTES, NEXT_CHANCE, VALUE, SD, HEALTH, SCRAP_CHANCE };
static const lw_output outputs[] = {
    [VERDICT] = {"verdict", "", "sound, tired, unsure or scrap", LW_TEXT},
    [REASONS] = {"reasons", "", "why", LW_TEXT},
    [SOURCES] = {"sources", "", "where the rules come from, in the same order", LW_TEXT},
    [NEXT] = {"next_test", "", "for unsure: the test that settles it for the least bench time", LW_TEXT},
    [NEXT_WHAT] = {"next_what", "", "how to do it", LW_TEXT},
    [NEXT_MINUTES] = {"next_minutes", "min", "of a person", LW_NUMBER},
    [NEXT_CHANCE] = {"next_settles", "", "chance that it answers its question", LW_NUMBER},
    [VALUE] = {"fused_ah", "Ah", "capacity from all tests and the crate", LW_NUMBER},
    [SD] = {"fused_sd_ah", "Ah", "its standard uncertainty", LW_NUMBER},
    [HEALTH] = {"health", "", "capacity over rated capacity", LW_NUMBER},
    [SCRAP_CHANCE] = {"scrap_chance", "", "chance that the capacity is below the scrap limit", LW_NUMBER},
};

static bool read_look(const char *text, lw_cell_facts *f, lw_error *err)
{
    const struct {
        const char *word;
        bool *flag;
    } words[] = {{"dent", &f->dent},   {"rust", &f->rust},       {"leak", &f->leak},      {"swollen", &f->swollen},
                 {"smell", &f->smell}, {"top", &f->damaged_top}, {"torn", &f->torn_wrap}, {"open", &f->open_circuit}};
    while (*text) {
        const size_t length = strcspn(text, " ");
        bool known = length == 0 || (length == 2 && strncmp(text, "ok", 2) == 0);
        for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
            if (length == strlen(words[i].word) && strncmp(text, words[i].word, length) == 0)
                known = *words[i].flag = true;
        if (!known)
            return lw_fail(
                err, LW_WRONG_INPUT, "look",
                "look has the word \"%.*s\"; the words are dent, rust, leak, swollen, smell, top, torn, open, ok.",
                (int)length, text);
        text += length + (text[length] == ' ');
    }
    return true;
}

static lw_reading maybe(const lw_value *v)
{
    return (lw_reading){v->given, v->number};
}

/* Largest less smallest of repeated tests, in per cent of their middle, as the records are judged. */
static double spread_pct(const double *ah, size_t n)
{
    double low = n ? ah[0] : 0.0, high = low;
    for (size_t i = 1; i < n; i++) {
        low = fmin(low, ah[i]);
        high = fmax(high, ah[i]);
    }
    return high > 0.0 ? 200.0 * (high - low) / (high + low) : 0.0;
}

static bool read_capacity(const lw_value *in, lw_cell_facts *f, lw_error *err)
{
    const size_t n = in[CAPACITY].given ? in[CAPACITY].count : 0;
    double sd[20];
    if (in[CAPACITY_SD].given && in[CAPACITY_SD].count != n)
        return lw_fail(err, LW_WRONG_INPUT, "capacity_sd_ah", "capacity_sd_ah has %zu values, capacity_ah %zu.",
                       in[CAPACITY_SD].count, n);
    for (size_t i = 0; i < n; i++)
        sd[i] = in[CAPACITY_SD].given ? in[CAPACITY_SD].list[i] : 0.01 * in[CAPACITY].list[i] + 0.005;
    f->repeat_difference_pct = spread_pct(in[CAPACITY].list, n);
    const lw_estimate crate = {in[CRATE].number, in[CRATE_SD].given ? in[CRATE_SD].number : 0.2 * in[CRATE].number, 0};
    if (n == 0 && !in[CRATE].given)
        return true;
    return lw_estimate_from(in[CAPACITY].list, sd, n, in[CRATE].given ? &crate : NULL, &f->capacity_ah, err);
}

static bool read_facts(const lw_value *in, lw_cell_facts *f, lw_error *err)
{
    f->class = lw_test_class_find(in[CLASS].text);
    f->found_v = maybe(&in[FOUND]);
    f->rest_24h_v = maybe(&in[REST_24H]);
    if (f->found_v.given && !lw_cell_volts("found_v", &f->found_v.value, 1, err))
        return false;
    if (f->rest_24h_v.given && !lw_cell_volts("rest_24h_v", &f->rest_24h_v.value, 1, err))
        return false;
    f->rated_ah = maybe(&in[RATED]);
    f->age_years = maybe(&in[AGE]);
    f->recovered = in[RECOVERED].number != 0.0;
    f->hot_on_charge = in[HOT].number != 0.0;
    f->no_taper = in[NO_TAPER].number != 0.0;
    if (in[OHM].given)
        f->resistance_ohm = (lw_estimate){in[OHM].number / 1000.0, in[OHM_SD].number / 1000.0, 1};
    f->median_ohm = in[MEDIAN].given ? in[MEDIAN].number / 1000.0 : 0.0;
    if (in[LEAK].given)
        f->leak_mv_day = (lw_estimate){in[LEAK].number, in[LEAK_SD].number, 1};
    return read_look(in[LOOK].text, f, err) && read_capacity(in, f, err);
}

static bool join(const lw_judgement *j, bool sources, lw_arena *arena, lw_value *out, lw_error *err)
{
    enum { ROOM = 1600 };
    char *text = lw_arena_take(arena, ROOM, 1, err);
    if (!text)
        return false;
    size_t used = 0;
    for (size_t i = 0; i < j->reason_count && used + 1 < ROOM; i++) {
        const int added = snprintf(text + used, ROOM - used, "%s%s", i ? (sources ? "; " : " ") : "",
                                   sources ? j->reasons[i].source : j->reasons[i].text);
        used += added > 0 ? (size_t)added : 0;
    }
    *out = lw_value_text(text);
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_cell_facts facts = {0};
    if (!read_facts(in, &facts, err))
        return false;
    lw_judgement j;
    lw_judge_cell(&facts, &lw_grading_default, &j);
    out[VERDICT] = lw_value_text(lw_verdict_text(j.verdict));
    if (j.verdict == LW_UNSURE) {
        const lw_bench_cost *cost = lw_bench_cost_of(j.next);
        out[NEXT] = lw_value_text(cost->name);
        out[NEXT_WHAT] = lw_value_text(cost->what);
        out[NEXT_MINUTES] = lw_value_number(cost->minutes);
        out[NEXT_CHANCE] = lw_value_number(j.next_settles);
    }
    if (facts.capacity_ah.sd > 0.0) {
        out[VALUE] = lw_value_number(facts.capacity_ah.value);
        out[SD] = lw_value_number(facts.capacity_ah.sd);
        out[SCRAP_CHANCE] = lw_value_number(j.scrap_chance);
    }
    if (j.health.given)
        out[HEALTH] = lw_value_number(j.health.value);
    return join(&j, false, arena, &out[REASONS], err) && join(&j, true, arena, &out[SOURCES], err);
}

const lw_figure lw_fig_cell_verdict = {
    .name = "cell_verdict",
    .room = "cell",
    .summary =
        "What a cell is worth - sound, tired, unsure or scrap - with reasons, and the next test for an unsure one.",
    .source = "grading rules of data/grading/rules.csv, each with its source; safety refusals common practice",
    .limits = "Health is told only against a rated capacity that the marking names. A resting voltage says nothing of "
              "health.",
    .caution =
        "A cell that is hot, swollen, leaking or was found below 2.0 V goes out of the house and to recycling, not to "
        "another try. Follow local rules on battery waste.",
    .example = "voltage_class=4v2 found_v=3.61 capacity_ah=1.93 capacity_sd_ah=0.02 resistance_mohm=68 rest_24h_v=4.13",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
