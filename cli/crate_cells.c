/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick crate new, add, tool, list, show.
 */
#include "crate_cli.h"

#include "lanewick/records_json.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool lw_crate_new(lw_crate_job *job, lw_error *err)
{
    const char *name, *origin;
    lw_crate_record crate = {0};
    const lw_text_option texts[] = {{"--name", &name}, {"--origin", &origin}};
    if (!lw_crate_texts(job, texts, 2, err) || !lw_crate_words(job, 1, 1, "CODE", err))
        return false;
    lw_cell_record trial = lw_cell_blank(); /* the same rule for codes */
    if (!lw_record_text("code", job->argv[1], crate.code, sizeof crate.code, err))
        return false;
    memcpy(trial.code, crate.code, sizeof trial.code);
    if (!lw_cell_check(&trial, err) || !lw_record_text("name", name ? name : "", crate.name, sizeof crate.name, err) ||
        !lw_record_text("origin", origin ? origin : "", crate.origin, sizeof crate.origin, err) ||
        !lw_crate_open(job, true, err))
        return false;
    lw_store_now(job->store, crate.received);
    lw_store_what(job->store, "crate new");
    lw_error inner = {0};
    if (!lw_store_put(job->store, LW_CRATES, &crate, &inner)) {
        if (strstr(inner.message, "crate.code"))
            return lw_fail(err, LW_WRONG_INPUT, "code", "There is a crate %s already.", crate.code);
        return lw_fail(err, inner.family, inner.field, "%s", inner.message);
    }
    if (job->json)
        (void)printf("{\"crate\":\"%s\",\"id\":\"%s\"}\n", crate.code, crate.id);
    else
        lw_cli_print("crate %s is there; add cells with `lanewick crate enter %s`\n"
                     "CAUTION: eye protection and gloves when packs are opened; not alone; dry sand at hand. Swollen "
                     "or hot cells go out of the house.\n"
                     "Local rules on moving and on handing in batteries come first.\n",
                     crate.code, crate.code);
    return true;
}

static void print_cautions(const lw_cell_record *cell)
{
    for (size_t i = 0; lw_found_caution(cell, i); i++)
        lw_cli_tell("CAUTION: %s\n", lw_found_caution(cell, i));
}

static void print_json(char *text)
{
    (void)puts(text ? text : "{}");
    free(text);
}

bool lw_crate_add(lw_crate_job *job, lw_error *err)
{
    lw_cell_record cell = lw_cell_blank();
    if (!lw_crate_cell_options(job, &cell, err) || !lw_crate_words(job, 2, 2, "CRATE CODE", err) ||
        !lw_record_text("code", job->argv[2], cell.code, sizeof cell.code, err) || !lw_crate_open(job, false, err) ||
        !lw_desk_cell_add(job->store, job->argv[1], &cell, err))
        return false;
    print_cautions(&cell);
    const lw_standing_record none = lw_standing_blank();
    if (job->json)
        print_json(lw_cell_to_json(&cell, &none, job->argv[1], ""));
    else
        lw_cli_print("%s is in crate %s\n", cell.code, job->argv[1]);
    return true;
}

static bool take_tool(lw_crate_job *job, lw_instrument_record *tool, lw_error *err)
{
    *tool = (lw_instrument_record){.percent = NAN, .digits = NAN, .step = NAN, .ohm = NAN, .tolerance_pct = NAN};
    const lw_number_option numbers[] = {{"--percent", &tool->percent, 0.0, 20.0, "%"},
                                        {"--digits", &tool->digits, 0.0, 100.0, ""},
                                        {"--step", &tool->step, 1e-6, 1.0, "V"},
                                        {"--ohm", &tool->ohm, 0.01, 1e5, "ohm"},
                                        {"--tolerance", &tool->tolerance_pct, 0.0, 50.0, "%"}};
    if (!lw_crate_numbers(job, numbers, sizeof numbers / sizeof numbers[0], err) ||
        !lw_crate_words(job, 1, 1, "NAME", err) ||
        !lw_record_text("name", job->argv[1], tool->name, sizeof tool->name, err))
        return false;
    const bool resistor = !isnan(tool->ohm);
    (void)snprintf(tool->kind, sizeof tool->kind, "%s", resistor ? "resistor" : "meter");
    return resistor || !isnan(tool->percent + tool->digits + tool->step) ||
           lw_fail(err, LW_WRONG_INPUT, "percent",
                   "A meter needs --percent, --digits and --step (volts of one digit); a resistor needs --ohm.");
}

bool lw_crate_tool(lw_crate_job *job, lw_error *err)
{
    lw_instrument_record tool, before;
    bool found;
    if (!take_tool(job, &tool, err) || !lw_crate_open(job, true, err) ||
        !lw_store_get(job->store, LW_INSTRUMENTS, "name", tool.name, &before, &found, err))
        return false;
    if (found)
        memcpy(tool.id, before.id, sizeof tool.id);
    lw_store_what(job->store, "crate tool");
    if (!lw_store_put(job->store, LW_INSTRUMENTS, &tool, err))
        return false;
    if (job->json)
        print_json(lw_instrument_to_json(&tool));
    else
        lw_cli_print("%s is kept as a %s\n", tool.name, tool.kind);
    return true;
}

typedef struct printer {
    bool json;
    int count;
} printer;

static bool print_row(void *payload, const void *record)
{
    printer *p = payload;
    const lw_cell_view *view = record;
    p->count++;
    if (p->json) {
        char *text = lw_cell_to_json(&view->cell, &view->standing, view->crate, view->pack);
        (void)printf("%s%s", p->count > 1 ? ",\n" : "", text ? text : "{}");
        free(text);
        return true;
    }
    char volts[16] = "      -", capacity[24] = "     -";
    if (!isnan(view->cell.found_v))
        (void)snprintf(volts, sizeof volts, "%5.3f V", view->cell.found_v);
    if (!isnan(view->standing.capacity_ah))
        (void)snprintf(capacity, sizeof capacity, "%.2f Ah", view->standing.capacity_ah);
    (void)printf("%-10s %-8s %s  %-8s %-8s %-7s %-18s %s%s%s\n", view->cell.code, view->crate, volts,
                 view->standing.verdict, capacity, view->cell.voltage_class, view->cell.marking, view->cell.look,
                 view->pack[0] ? "  in pack " : "", view->pack);
    return true;
}

bool lw_crate_list(lw_crate_job *job, lw_error *err)
{
    lw_cell_filter filter = {0};
    double limit = 0.0;
    filter.free_only = lw_cli_take_switch(&job->argc, job->argv, "--free");
    const lw_text_option texts[] = {
        {"--search", &filter.search}, {"--verdict", &filter.verdict}, {"--after", &filter.after}};
    const lw_number_option number = {"--limit", &limit, 0.0, 1e6, ""};
    if (!lw_crate_texts(job, texts, 3, err) || !lw_crate_numbers(job, &number, 1, err) ||
        !lw_crate_words(job, 0, 1, "[CRATE]", err) || !lw_crate_open(job, false, err))
        return false;
    lw_crate_record crate;
    if (job->argc > 1) {
        if (!lw_desk_crate(job->store, job->argv[1], &crate, err))
            return false;
        filter.crate = crate.code;
    }
    filter.limit = (int)limit;
    printer p = {.json = job->json};
    if (job->json)
        (void)printf("{\"cells\":[");
    const bool done = lw_store_cells(job->store, &filter, print_row, &p, err);
    if (job->json)
        (void)printf("]}\n");
    else if (done)
        lw_cli_print(p.count == 1 ? "%d cell\n" : "%d cells\n", p.count);
    return done;
}

static bool print_test(void *payload, const void *record)
{
    (void)payload;
    const lw_test_record *test = record;
    lw_cli_print("test    %s  %-9s %.200s%s%s\n", test->at, test->method, test->readings, test->note[0] ? "  " : "",
                 test->note);
    return true;
}

static bool print_result(void *payload, const void *record)
{
    (void)payload;
    const lw_result_record *result = record;
    lw_cli_print("result  %-22s %.5g", result->kind, result->value);
    if (!isnan(result->sd))
        (void)printf(" +- %.2g", result->sd);
    lw_cli_print("%s%s\n", result->note[0] ? "  " : "", result->note);
    return true;
}

static bool print_journal(void *payload, const void *record)
{
    (void)payload;
    const lw_journal_entry *entry = record;
    lw_cli_print("journal %s  %s: %s%s\n", entry->at, entry->who, entry->what, entry->after ? "" : " (removed)");
    return true;
}

static bool print_place(void *payload, const void *record)
{
    const lw_slot_record *slot = record;
    lw_pack_record pack;
    bool found = false;
    lw_error err = {0};
    if (!lw_store_get(payload, LW_PACKS, "id", slot->pack, &pack, &found, &err) || !found)
        return true;
    lw_cli_print("pack    %s group %d place %d  since %s%s%s\n", pack.code, slot->group, slot->place, slot->since,
                 slot->until[0] ? " until " : "", slot->until);
    return true;
}

static bool keep_view(void *payload, const void *record)
{
    memcpy(payload, record, sizeof(lw_cell_view));
    return false;
}

static void print_worth(const lw_standing_record *s, double rated_ah)
{
    if (!isnan(s->capacity_ah))
        lw_cli_print("worth   %.3f Ah +- %.3f", s->capacity_ah, s->capacity_sd_ah);
    if (!isnan(s->capacity_ah) && !isnan(rated_ah))
        lw_cli_print(", %.0f %% +- %.0f of its %.3g Ah when new", 100.0 * s->capacity_ah / rated_ah,
                     100.0 * s->capacity_sd_ah / rated_ah, rated_ah);
    if (!isnan(s->resistance_ohm))
        lw_cli_print("   %.0f mohm +- %.0f", 1000.0 * s->resistance_ohm, 1000.0 * s->resistance_sd_ohm);
    (void)printf("%s", isnan(s->capacity_ah) && isnan(s->resistance_ohm) ? "" : "\n");
    if (s->reasons[0])
        lw_cli_print("because %s\n", s->reasons);
    if (s->next_test[0])
        lw_cli_print("next    %s\n", s->next_test);
}

static bool print_slot(void *payload, const void *record)
{
    const lw_slot_record *slot = record;
    lw_cell_record cell;
    bool found = false;
    lw_error err = {0};
    if (lw_store_get(payload, LW_CELLS, "id", slot->cell, &cell, &found, &err) && found)
        lw_cli_print("cell    %s group %d place %d%s%s\n", cell.code, slot->group, slot->place,
                     slot->until[0] ? " until " : "", slot->until);
    return true;
}

/* What a pack's label leads to. */
static bool show_pack(lw_crate_job *job, const lw_pack_record *pack, lw_error *err)
{
    lw_cli_print("pack    %s %s, class %s, %d groups in series, weakest %.3f Ah, since %s\n", pack->code, pack->state,
                 pack->voltage_class, pack->series, pack->weakest_ah, pack->at);
    return lw_store_each(job->store, LW_SLOTS, "pack", pack->id, print_slot, job->store, err) &&
           lw_store_journal(job->store, pack->id, print_journal, NULL, err);
}

/* False also on error: then the cell is looked for, and tells it. */
static bool is_pack(lw_crate_job *job, lw_pack_record *pack)
{
    lw_error ignored = {0};
    bool found = false;
    return lw_store_get(job->store, LW_PACKS, "code", job->argv[1], pack, &found, &ignored) && found;
}

bool lw_crate_show(lw_crate_job *job, lw_error *err)
{
    lw_cell_record cell;
    lw_pack_record pack;
    static lw_cell_view view;
    if (!lw_crate_words(job, 1, 1, "CELL", err) || !lw_crate_open(job, false, err))
        return false;
    if (!job->json && is_pack(job, &pack))
        return show_pack(job, &pack, err);
    if (!lw_desk_cell(job->store, job->argv[1], &cell, err) ||
        !lw_store_cells(job->store, &(lw_cell_filter){.search = cell.code, .limit = 1}, keep_view, &view, err))
        return false;
    if (job->json) {
        print_json(lw_cell_to_json(&view.cell, &view.standing, view.crate, view.pack));
        return true;
    }
    printer p = {0};
    (void)print_row(&p, &view);
    print_worth(&view.standing, view.cell.rated_ah);
    print_cautions(&cell);
    return lw_store_each(job->store, LW_TESTS, "cell", cell.id, print_test, NULL, err) &&
           lw_store_each(job->store, LW_RESULTS, "cell", cell.id, print_result, NULL, err) &&
           lw_store_each(job->store, LW_SLOTS, "cell", cell.id, print_place, job->store, err) &&
           lw_store_journal(job->store, cell.id, print_journal, NULL, err);
}
