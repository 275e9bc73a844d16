/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The plan as a workshop reads it: what to build, how dark it gets, what limits, what it costs, what to mind - and
 * then the tables (plan_tables.c).
 */
#include "plan_text.h"

#include "lanewick/desk.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

enum { LINE = 96, LONGEST = 2048 };

char *lw_text_say(const lw_text *text, const char *sentence, char *out, size_t size)
{
    (void)lw_say_sentence(text->words, sentence, out, size);
    return out;
}

void lw_text_line(const lw_text *text, const char *format, ...)
{
    char english[LONGEST], said[LONGEST];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(english, sizeof english, format, arguments);
    va_end(arguments);
    (void)fputs(lw_text_say(text, english, said, sizeof said), text->out);
}

char *lw_band_text(const lw_text *text, const lw_dark_band *band, char *out, size_t size)
{
    char mean[24];
    if (band->mean >= 9.95)
        (void)snprintf(mean, sizeof mean, "%.0f", band->mean);
    else if (band->mean > 0.0 && band->mean < 0.05)
        (void)snprintf(mean, sizeof mean, "%s", SAY("under 0.1"));
    else
        (void)snprintf(mean, sizeof mean, "%.2g", round(band->mean * 10.0) / 10.0);
    (void)snprintf(out, size, SAY("%s (%.0f to %.0f)"), mean, band->low, band->high); /* rounded as the page does */
    return out;
}

char *lw_lamp_text(const lw_text *text, const lw_plan *plan, size_t kind, char *out, size_t size)
{
    const char *name = plan->brief.want.lamp[kind].name;
    if (strstr(name, "lamp"))
        (void)snprintf(out, size, SAY("the %s"), name);
    else
        (void)snprintf(out, size, SAY("a %s lamp"), name);
    return out;
}

const char *lw_month_text(const lw_text *text, int month)
{
    static const char *const names[] =
        /* words */ {"January", "February", "March",     "April",   "May",      "June",
                     "July",    "August",   "September", "October", "November", "December"};
    return month >= 1 && month <= 12 ? SAY(names[month - 1]) : "";
}

void lw_text_heading(const lw_text *text, const char *words)
{
    char said[LONGEST];
    (void)fprintf(text->out, text->colour ? "\n\033[1m%s\033[0m\n" : "\n%s\n",
                  lw_text_say(text, words, said, sizeof said));
}

int lw_text_letters(const char *text, int bytes)
{
    int n = 0;
    for (int i = 0; i < bytes; i++)
        n += ((unsigned char)text[i] & 0xC0) != 0x80;
    return n;
}

/* A space at which the line was not to be broken is an ordinary one on the screen, where people look for "K 12 500". */
static void put_word(const lw_text *text, const char *word, int length)
{
    for (int i = 0; i < length; i++) {
        const bool joint = strncmp(word + i, "\xc2\xa0", 2) == 0;
        (void)fputc(joint ? ' ' : word[i], text->out);
        i += joint ? 1 : 0;
    }
}

void lw_text_wrap(const lw_text *text, int indent, const char *words)
{
    char said[LONGEST];
    int column = indent;
    words = lw_text_say(text, words, said, sizeof said);
    (void)fprintf(text->out, "%*s", indent, "");
    bool first = true;
    while (*words) {
        const int length = (int)strcspn(words, " "), wide = lw_text_letters(words, length);
        if (!first && column + 1 + wide > LINE) {
            (void)fprintf(text->out, "\n%*s", indent, "");
            column = indent;
            first = true;
        }
        (void)fputs(first ? "" : " ", text->out);
        put_word(text, words, length);
        column += wide + (first ? 0 : 1);
        first = false;
        words += length;
        while (*words == ' ')
            words++;
    }
    (void)fputc('\n', text->out);
}

static void refused(const lw_text *text, const lw_plan *plan)
{
    (void)fprintf(text->out, "%s\n\n%s\n", plan->brief.name,
                  SAY("Refused for safety: this lamp may not be built as the brief says."));
    char source[2 * sizeof plan->refused.item[0].source];
    for (size_t i = 0; i < plan->refused.count; i++) {
        const lw_refusal *r = &plan->refused.item[i];
        (void)fputc('\n', text->out);
        lw_text_wrap(text, 0, r->reason);
        lw_text_wrap(text, 2, r->remedy);
        (void)fprintf(text->out, "  %s: %s.\n", SAY("Source"), lw_text_say(text, r->source, source, sizeof source));
    }
}

static void mast_line(const lw_text *text, const lw_plan_mast *mast, char *line, size_t size)
{
    const double high_m = mast->wish.height_m, reserve = mast->result.bending.reserve;
    if (mast->wish.base == LW_BASE_PLATE)
        (void)snprintf(line, size,
                       SAY("Mast: %s, %.3g m high, on a plate; strength over load %.2f (a licensed engineer decides)."),
                       mast->pole_name, high_m, reserve);
    else
        (void)snprintf(line, size,
                       SAY("Mast: %s, %.3g m above ground, %.2f m in it; strength over load %.2f (a licensed engineer "
                           "decides)."),
                       mast->pole_name, high_m, mast->length_m - high_m, reserve);
}

static void lamp(const lw_text *text, const lw_plan *plan, const lw_plan_kind *kind)
{
    const lw_lamp_kind *lamp = &plan->brief.want.lamp[kind->kind];
    const lw_shelf *shelf = &plan->brief.shelf;
    char what[200], band[64], line[600], money[48], name[LW_NAME + 16], trim[120] = "";
    lw_design_text(shelf, &kind->design, what, sizeof what);
    if (kind->design.trimmed)
        (void)snprintf(trim, sizeof trim, SAY(" For that, late light is down to %.0f %%."),
                       100.0 * plan->brief.want.least_late_level);
    (void)snprintf(line, sizeof line, "%d x %s, %.0f lm: %s (%.0f Wh), %s.", kind->count,
                   lw_plan_kind_name(plan, (size_t)(kind - plan->kind), name, sizeof name), lamp->lumens, what,
                   lw_design_pack_wh(shelf, &kind->design), shelf->charger[kind->design.charger].name);
    lw_text_wrap(text, 2, line);
    (void)snprintf(line, sizeof line,
                   kind->keeps
                       ? SAY("Dark nights %s a year; wish kept in %.0f of 100 years drawn; %s each.%s")
                       : SAY("Dark nights %s a year; wish MISSED, kept only in %.0f of 100 years drawn; %s each.%s"),
                   lw_band_text(text, &kind->outcome.dark, band, sizeof band), floor(100.0 * kind->outcome.sure_share),
                   lw_money_joined(&shelf->currency, kind->cost_minor, money, sizeof money), trim);
    lw_text_wrap(text, 6, line);
    if (kind->guaranteed) {
        (void)snprintf(
            line, sizeof line,
            SAY("That is for the mean of the tested capacities; with what is sure in nine cases of ten, %s."),
            lw_band_text(text, &kind->guaranteed_dark, band, sizeof band));
        lw_text_wrap(text, 6, line);
    }
    if (kind->near[0])
        lw_text_wrap(text, 6, kind->near);
    if (kind->mast.checked) {
        mast_line(text, &kind->mast, line, sizeof line);
        lw_text_wrap(text, 6, line);
    }
}

/* " (25 W instead of 20 W)" of what would be changed. */
static const char *figures_of(const lw_text *text, const char *what)
{
    const char *figures = text->words && text->words->count ? NULL : strstr(what, " ("); /* they are told in English */
    return figures ? figures : "";
}

static void limits(const lw_text *text, const lw_plan *plan)
{
    const lw_plan_kind *kind = &plan->kind[0];
    for (size_t i = 1; i < plan->kind_count; i++)
        if (plan->kind[i].outcome.dark.mean > kind->outcome.dark.mean)
            kind = &plan->kind[i];
    const lw_what_if *more = kind->limit_what[2] == 'n' ? &kind->more_panel : &kind->more_pack;
    char line[500], from[64], to[64], name[LW_NAME + 16];
    const bool panel = kind->limit_what[2] == 'n';
    const int n = snprintf(line, sizeof line,
                           panel ? SAY("What limits: the panel, in %s.") : SAY("What limits: the pack, in %s."),
                           lw_month_text(text, kind->limit_month));
    (void)snprintf(line + n, sizeof line - (size_t)n,
                   panel ? SAY(" With a quarter more panel%s, dark nights of %s go from %s to %s a year.")
                         : SAY(" With a quarter more pack%s, dark nights of %s go from %s to %s a year."),
                   figures_of(text, more->what), lw_lamp_text(text, plan, kind->kind, name, sizeof name),
                   lw_band_text(text, &kind->outcome.dark, from, sizeof from),
                   lw_band_text(text, &more->dark, to, sizeof to));
    lw_text_wrap(text, 0, line);
    if (kind->dim.given && kind->outcome.dark.mean >= 0.1 &&
        kind->dim.dark.mean <= plan->brief.want.dark_nights_per_year) {
        (void)snprintf(line, sizeof line,
                       SAY("Cheapest cure: give half light while the pack is below 30 %%. Then they fall to %s."),
                       lw_band_text(text, &kind->dim.dark, to, sizeof to));
        lw_text_wrap(text, 0, line);
    }
}

/* "north", "30 degrees from north, clockwise" */
static char *facing_text(const lw_text *text, double facing_deg, char *out, size_t size)
{
    static const char *const names[] =
        /* words */ {"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"};
    const double eighths = fmod(facing_deg, 360.0) / 45.0;
    if (fabs(eighths - round(eighths)) < 1e-6)
        (void)snprintf(out, size, "%s", SAY(names[(int)lround(eighths) % 8]));
    else
        (void)snprintf(out, size, SAY("%.0f degrees from north, clockwise"), facing_deg);
    return out;
}

static void costs(const lw_text *text, const lw_plan *plan, int built)
{
    const lw_currency *currency = &plan->brief.shelf.currency;
    const int64_t shared = lw_plan_shared_minor(plan);
    char money[48], each[48];
    (void)fprintf(text->out, SAY("Cost: %s in all, %s a lamp.\n"),
                  lw_money_text(currency, plan->cost_minor, money, sizeof money),
                  lw_money_text(currency, built > 0 ? (plan->cost_minor + built / 2) / built : 0, each, sizeof each));
    if (shared > 0)
        (void)fprintf(text->out,
                      SAY("  Of it %s is cement, in whole bags for all masts; it is in the price of no lamp.\n"),
                      lw_money_text(currency, shared, money, sizeof money));
}

static void summary(const lw_text *text, const lw_plan *plan)
{
    const lw_brief *brief = &plan->brief;
    const int wanted = lw_brief_lamps(brief);
    char line[500], each[64];
    lw_text_heading(text, brief->name);
    (void)snprintf(line, sizeof line,
                   SAY("Wish: at most %.3g dark nights a year for %.3g years, in %.0f of 100 years drawn."),
                   brief->want.dark_nights_per_year, brief->want.planned_years, 100.0 * brief->want.sure_share);
    lw_text_wrap(text, 0, line);
    if (plan->lane.given)
        lw_lane_summary(text, plan);
    (void)fprintf(text->out, "\n%s\n", SAY("Build"));
    for (size_t i = 0; i < plan->kind_count; i++)
        lamp(text, plan, &plan->kind[i]);
    if (plan->lamps_without > 0)
        (void)fprintf(text->out, SAY("  The shelf has no parts left for %d of the %d lamps.\n"), plan->lamps_without,
                      wanted);
    (void)fprintf(text->out, SAY("  Panels tilted %.0f degrees, facing %s.\n\n"), plan->tilt_deg,
                  facing_text(text, plan->facing_deg, each, sizeof each));
    if (plan->kind_count > 0)
        limits(text, plan);
    costs(text, plan, wanted - plan->lamps_without);
    if (plan->left_out.count > 0)
        (void)fprintf(text->out,
                      lw_say_many(text->words, "Left out for safety: %zu kind of part, for the reasons below.\n",
                                  "Left out for safety: %zu kinds of part, for the reasons below.\n",
                                  plan->left_out.count),
                      plan->left_out.count);
    (void)fprintf(text->out, SAY("Mind %zu cautions and %zu assumptions below.\n"), plan->caution_count,
                  brief->assumed.count);
}

char *lw_desk_plan_text(const lw_plan *plan, const lw_words *words, bool colour)
{
    char *bytes = NULL;
    size_t length = 0;
    lw_text text = {open_memstream(&bytes, &length), words, colour};
    if (!text.out)
        return NULL;
    if (plan->refused.count > 0) {
        refused(&text, plan);
    } else {
        summary(&text, plan);
        lw_lane_tables(&text, plan);
        lw_plan_tables(&text, plan);
    }
    if (fclose(text.out) != 0) {
        free(bytes);
        return NULL;
    }
    return bytes;
}
