/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The tables of a plan: the year as a picture, alternatives, years ahead, parts, cautions, what was left out,
 * assumptions. Readable without colour; colour only repeats what signs say.
 */
#include "plan_text.h"

#include "lanewick/bill.h"

#include <math.h>
#include <string.h>

enum { BAR = 40, NIGHT = 14 };

static void repeat(const lw_text *text, char sign, int n)
{
    for (int i = 0; i < n; i++)
        (void)fputc(sign, text->out);
}

static void in_colour(const lw_text *text, const char *code)
{
    if (text->colour)
        (void)fprintf(text->out, "\033[%sm", code);
}

/* The bytes of the first letters of a text (UTF-8). */
static int first_bytes(const char *text, int letters)
{
    int n = 0;
    for (; text[n] && (letters > 0 || ((unsigned char)text[n] & 0xC0) == 0x80); n++)
        letters -= ((unsigned char)text[n + 1] & 0xC0) != 0x80;
    return n;
}

/* One month: hours of night as o; energy that the panel could bring as = (taken) and + (no room in the pack); what the
 * lamp uses as a bar |. */
static void month_line(const lw_text *text, const lw_plan_kind *kind, int m, double scale)
{
    const lw_outcome *o = &kind->outcome;
    const double in = o->panel_month_wh[m], taken = in - o->spilled_month_wh[m], out = o->load_month_wh[m];
    const int night = (int)fmin(NIGHT, round(kind->night_h[m]));
    const int used = (int)lround(taken * scale), all = (int)lround(in * scale);
    const int need = (int)lround(out * scale);
    const char *month = lw_month_text(text, m + 1);
    const int three = first_bytes(month, 3);
    (void)fprintf(text->out, "  %.*s %5.1f ", three, month, kind->night_h[m]);
    repeat(text, 'o', night);
    (void)fprintf(text->out, "%*s %5.0f %5.0f %5.0f  ", NIGHT - night, "", in, taken, out);
    in_colour(text, "33");
    for (int i = 0; i < BAR; i++)
        (void)fputc(i == need ? '|' : i < used ? '=' : i < all ? '+' : ' ', text->out);
    in_colour(text, "0");
    if (o->by_month[m] >= 0.05) {
        in_colour(text, "31");
        (void)fprintf(text->out, " %4.1f ", o->by_month[m]);
        repeat(text, '#', (int)fmin(8.0, ceil(o->by_month[m])));
        in_colour(text, "0");
    }
    (void)fputc('\n', text->out);
}

static void year_picture(const lw_text *text, const lw_plan *plan, const lw_plan_kind *kind)
{
    char heading[200], name[LW_NAME + 16];
    double most = 1e-9;
    for (int m = 0; m < LW_MONTHS; m++)
        most = fmax(most, fmax(kind->outcome.panel_month_wh[m], kind->outcome.load_month_wh[m]));
    (void)snprintf(heading, sizeof heading, SAY("The year of %s (year %.3g of the plan, mean of %u simulated years)"),
                   lw_lamp_text(text, plan, kind->kind, name, sizeof name), plan->brief.want.planned_years,
                   kind->outcome.years);
    lw_text_heading(text, heading);
    lw_text_line(text, "  hours of night             sun taken  lamp  Wh a day: = taken  + no room  | lamp     dark "
                       "nights\n");
    for (int m = 0; m < LW_MONTHS; m++)
        month_line(text, kind, m, (BAR - 1) / most);
}

static void options(const lw_text *text, const lw_plan *plan, size_t k)
{
    char heading[160], what[200], band[64], money[48], name[LW_NAME + 16];
    (void)snprintf(heading, sizeof heading, SAY("Alternatives for %s (cost without mast)"),
                   lw_lamp_text(text, plan, k, name, sizeof name));
    lw_text_heading(text, heading);
    lw_text_line(text, "    cost           dark nights a year   wish   what\n");
    for (size_t i = 0; i < plan->option_count[k]; i++) {
        const lw_option *option = &plan->option[k][i];
        const lw_candidate *c = &option->candidate;
        lw_design_text(&plan->brief.shelf, &c->design, what, sizeof what);
        (void)fprintf(text->out, "  %s %-14s %-20s %-6s %s, %s%s\n", option->chosen ? ">" : " ",
                      lw_money_text(&plan->brief.shelf.currency, c->cost_minor, money, sizeof money),
                      lw_band_text(text, &c->outcome.dark, band, sizeof band), c->keeps ? SAY("kept") : SAY("missed"),
                      what, plan->brief.shelf.charger[c->design.charger].name,
                      c->design.trimmed ? SAY(", late light down") : "");
    }
}

static void ahead(const lw_text *text, const lw_plan *plan)
{
    char band[64], name[LW_NAME + 16];
    lw_text_heading(text, SAY("The years ahead"));
    lw_text_line(text, "  lamp                 year  pack left  dark nights a year\n");
    for (size_t i = 0; i < plan->kind_count; i++)
        for (size_t y = 0; y < plan->kind[i].ahead_count; y++) {
            const lw_year_ahead *a = &plan->kind[i].ahead[y];
            (void)fprintf(text->out, "  %-20.20s %4.0f %8.0f %%  %s\n",
                          y == 0 ? lw_plan_kind_name(plan, i, name, sizeof name) : "", a->year,
                          100.0 * a->capacity_share, lw_band_text(text, &a->dark, band, sizeof band));
        }
}

static void what_if(const lw_text *text, const lw_what_if *one)
{
    char band[64], what[2 * sizeof one->what];
    if (one->given)
        (void)fprintf(text->out, "    %-60s %s\n", lw_text_say(text, one->what, what, sizeof what),
                      lw_band_text(text, &one->dark, band, sizeof band));
}

static void helps(const lw_text *text, const lw_plan *plan)
{
    char band[64], name[LW_NAME + 16];
    lw_text_heading(text, SAY("What would help (dark nights a year: mean, and what 90 of 100 years lie between)"));
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        lw_text_line(text, "  %s: %s as planned; %s is the tightest month, the %s limits\n",
                     lw_plan_kind_name(plan, i, name, sizeof name),
                     lw_band_text(text, &kind->outcome.dark, band, sizeof band), lw_month_text(text, kind->limit_month),
                     kind->limit_what);
        what_if(text, &kind->more_panel);
        what_if(text, &kind->more_pack);
        what_if(text, &kind->dim);
        what_if(text, &kind->trim);
        lw_text_line(text, "    the textbook (worst month, three nights of store) would say: %.0f W, %.0f Wh\n",
                     kind->textbook.panel_w, kind->textbook.pack_wh);
        if (!isnan(kind->file_dark_nights))
            (void)fprintf(text->out, "    %-60s %.0f\n", SAY("the year of your weather file, as planned"),
                          kind->file_dark_nights);
    }
}

static void parts(const lw_text *text, const lw_plan *plan)
{
    char price[48], cost[48];
    lw_text_heading(text, SAY("Parts"));
    for (size_t i = 0; i < plan->part_count; i++) {
        const char *name = lw_part_is_own(plan->part[i].name) ? SAY(plan->part[i].name) : plan->part[i].name;
        const int wide = lw_text_letters(name, (int)strlen(name));
        (void)fprintf(text->out, "  %4d  %s", plan->part[i].count, name);
        (void)fprintf(text->out, wide > 40 ? "\n%*s" : "%*s", wide > 40 ? 48 : 40 - wide, "");
        (void)fprintf(text->out, " %14s %14s\n",
                      lw_money_text(&plan->brief.shelf.currency, plan->part[i].price_minor, price, sizeof price),
                      lw_money_text(&plan->brief.shelf.currency, plan->part[i].cost_minor, cost, sizeof cost));
    }
    (void)fprintf(text->out, "        %-40s %14s %14s\n", SAY("all"), "",
                  lw_money_text(&plan->brief.shelf.currency, plan->cost_minor, cost, sizeof cost));
    if (!plan->choice_complete)
        lw_text_line(text, "  A cheaper sharing of the shelf is possible, but not below %s.\n",
                     lw_money_text(&plan->brief.shelf.currency, plan->bound_minor, cost, sizeof cost));
}

/* The very cells of each lamp. */
static void packs(const lw_text *text, const lw_plan *plan)
{
    if (plan->pack_count == 0)
        return;
    lw_text_heading(text, SAY("Packs from the listed cells (each design is simulated with its weakest pack)"));
    for (size_t i = 0; i < plan->pack_count; i++) {
        const lw_plan_pack *pack = &plan->pack[i];
        const lw_plan_kind *kind = &plan->kind[pack->kind];
        lw_text_line(text, "  %s %d of this build: weakest group %.3f Ah\n", plan->brief.want.lamp[kind->kind].name,
                     pack->number + 1, pack->weakest_ah);
        size_t next = pack->first;
        for (int g = 0; g < kind->design.series; g++) {
            char line[48 + 40 * (LW_PLAN_CELL_ID + 1)];
            int n = snprintf(line, sizeof line, "  group %d  %.3f Ah ", g + 1, pack->group_ah[g]);
            for (int p = 0; p < kind->design.parallel && n < (int)sizeof line; p++)
                n += snprintf(line + n, sizeof line - (size_t)n, " %s", plan->cell_id[next++]);
            lw_text_wrap(text, 6, line);
        }
    }
}

/* Pole, hole and concrete of each kind of lamp. */
static void masts(const lw_text *text, const lw_plan *plan)
{
    lw_text_heading(text, SAY("Masts (a screening: a licensed engineer decides)"));
    if (!plan->brief.place.wind_given)
        lw_text_wrap(text, 2, "Not checked: the brief gives no wind (place.wind).");
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_mast *mast = &plan->kind[i].mast;
        const lw_mast_result *r = &mast->result;
        if (!mast->checked)
            continue;
        (void)fprintf(text->out, "  %s: %s\n", plan->brief.want.lamp[plan->kind[i].kind].name,
                      SAY(lw_mast_verdict_text(r->verdict)));
        if (mast->wish.base == LW_BASE_PLATE)
            lw_text_line(text, "    %s, %g x %g mm, %.2f m long, on a plate\n", mast->pole_name,
                         mast->wish.pipe.diameter_mm, mast->wish.pipe.wall_mm, mast->length_m);
        else
            lw_text_line(text, "    %s, %g x %g mm, %.2f m long with %.2f m in the ground\n", mast->pole_name,
                         mast->wish.pipe.diameter_mm, mast->wish.pipe.wall_mm, mast->length_m,
                         mast->length_m - mast->wish.height_m);
        if (mast->wish.upper.pipe.diameter_mm > 0.0)
            lw_text_line(text,
                         "    made of two: the upper pipe %g x %g mm, %.2f m long, reaches %.2f m into the lower one\n",
                         mast->wish.upper.pipe.diameter_mm, mast->wish.upper.pipe.wall_mm, r->joint.upper_length_m,
                         mast->wish.upper.lap_m);
        if (mast->wish.base == LW_BASE_PLATE)
            lw_text_line(text, "    plate %.2f m, %.0f mm thick, four bolts M%g on a square of %.3f m\n",
                         r->foot.plate_m, r->foot.plate_mm, mast->wish.plate.bolt_mm, r->foot.spacing_m);
        if (mast->depth_m <= 0.0)
            lw_text_line(text, "    no hole: it is bolted to rock; %.0f kg to raise\n", r->total_kg);
        else
            lw_text_line(text, "    hole %.2f m wide, %.2f m deep, %.2f m3 of concrete; %.0f kg to raise\n",
                         lw_plan_mast_hole_m(mast), mast->depth_m, mast->concrete_m3, r->total_kg);
        lw_text_line(text, "    wind %.0f N, %.0f N m at the ground; strength over load %.2f; the top moves %.0f mm\n",
                     r->bending.shear_n, r->bending.moment_nm, r->bending.reserve, r->bending.sway_mm);
    }
}

static const char *step_text(const lw_text *text, const char *at)
{
    static const char *const names[] = /* words */ {"pack", "charging", "wiring", "mast"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strcmp(names[i], at) == 0)
            return SAY(names[i]);
    return at;
}

static void cautions(const lw_text *text, const lw_plan *plan)
{
    char line[1200], said[1024];
    lw_text_heading(text, SAY("Cautions, each at its step"));
    for (size_t i = 0; i < plan->caution_count; i++) {
        (void)snprintf(line, sizeof line, "! %s: %s", step_text(text, plan->caution[i].at),
                       lw_text_say(text, plan->caution[i].text, said, sizeof said));
        lw_text_wrap(text, 2, line);
    }
}

static void left_out(const lw_text *text, const lw_plan *plan)
{
    if (plan->left_out.count == 0)
        return;
    char line[2000], reason[960], remedy[960];
    lw_text_heading(text, SAY("Left out of every lamp, for safety"));
    for (size_t i = 0; i < plan->left_out.count; i++) {
        (void)snprintf(line, sizeof line, "%s %s",
                       lw_text_say(text, plan->left_out.item[i].reason, reason, sizeof reason),
                       lw_text_say(text, plan->left_out.item[i].remedy, remedy, sizeof remedy));
        lw_text_wrap(text, 2, line);
    }
}

static void assumptions(const lw_text *text, const lw_plan *plan)
{
    const lw_assumptions *list = &plan->brief.assumed;
    lw_text_heading(text, SAY("Assumed, because the brief does not say"));
    char value[2 * sizeof list->item[0].value], why[2 * sizeof list->item[0].why];
    for (size_t i = 0; i < list->count; i++)
        (void)fprintf(text->out, "  %-34s %-20s %s\n", list->item[i].key,
                      lw_text_say(text, list->item[i].value, value, sizeof value),
                      lw_text_say(text, list->item[i].why, why, sizeof why));
    lw_text_line(text, "  Climate: %s.\n", plan->climate.basis);
    lw_text_line(text, "  Seed %llu; %ld years of hours were simulated for this plan.\n",
                 (unsigned long long)plan->seed, plan->simulated_years);
}

void lw_plan_tables(const lw_text *text, const lw_plan *plan)
{
    for (size_t i = 0; i < plan->kind_count; i++)
        if (i == 0 || plan->kind[i].kind != plan->kind[i - 1].kind)
            year_picture(text, plan, &plan->kind[i]);
    helps(text, plan);
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++)
        options(text, plan, k);
    ahead(text, plan);
    parts(text, plan);
    packs(text, plan);
    masts(text, plan);
    lw_plan_wired_text(text, plan);
    cautions(text, plan);
    left_out(text, plan);
    assumptions(text, plan);
}
