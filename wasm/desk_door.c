/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The desk's door for the page: whole plans, lanes, packs, masts and circuits from the same functions as the program's.
 * The page walks its document and hands the values over one by one, then walks the answer the same way
 * (web/src/desk.ts is the other side); between the two a document is a ticket (values/jansson.h). No files, no store,
 * one thread.
 */
#include "desk_door.h"

#include "lanewick/desk.h"
#include "lanewick/desk_json.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { DEPTH = 64, SEED_BITS = 53, ANSWER_BYTES = 48 << 20 };

static json_t *question, *answer;
static json_t *open_value[DEPTH]; /* from the whole document to the part under way */
static char *open_key[DEPTH];     /* under which the next value comes */
static int depth;
static char *room;
static lw_error fault;

#ifdef __wasm__
__attribute__((import_module("page"), import_name("progress"))) void lw_page_progress(double done);
#else
static void lw_page_progress(double done)
{
    (void)done;
}
#endif

void lw_desk_door_begin(void)
{
    json_decref(question);
    json_decref(answer);
    question = answer = NULL;
    for (int i = 0; i < DEPTH; i++) {
        free(open_key[i]);
        open_key[i] = NULL;
    }
    depth = 0;
    fault = (lw_error){0};
    json_forget_tickets();
}

char *lw_desk_door_room(int bytes)
{
    free(room);
    room = bytes >= 0 ? calloc((size_t)bytes + 1, 1) : NULL;
    return room;
}

/* --- the question ---------------------------------------------------------------------------------------------- */

static int put(json_t *value)
{
    if (!value)
        return -1;
    if (depth == 0 && question) {
        json_decref(value);
        return -1;
    }
    if (depth == 0) {
        question = value;
        return 0;
    }
    json_t *into = open_value[depth - 1];
    char **key = &open_key[depth - 1];
    const int done = json_is_array(into) ? json_array_append_new(into, value) : json_object_set_new(into, *key, value);
    free(*key);
    *key = NULL;
    return done;
}

int lw_desk_door_open(int list)
{
    json_t *value = depth < DEPTH ? (list ? json_array() : json_object()) : NULL;
    if (put(value) < 0)
        return -1;
    open_value[depth++] = value;
    return 0;
}

int lw_desk_door_close(void)
{
    if (depth == 0)
        return -1;
    depth--;
    return 0;
}

int lw_desk_door_key(void)
{
    if (depth == 0 || !room)
        return -1;
    free(open_key[depth - 1]);
    open_key[depth - 1] = strdup(room);
    return open_key[depth - 1] ? 0 : -1;
}

/* A whole number is an integer, as in JSON text. */
int lw_desk_door_number(double x)
{
    const bool whole = x == floor(x) && fabs(x) < ldexp(1.0, SEED_BITS);
    return put(whole ? json_integer((json_int_t)x) : json_real(x));
}

int lw_desk_door_text(void)
{
    return put(json_string(room));
}

int lw_desk_door_flag(int yes)
{
    return put(json_boolean(yes));
}

int lw_desk_door_none(void)
{
    return put(json_null());
}

/* --- asking ---------------------------------------------------------------------------------------------------- */

static void tell(void *payload, double done, const char *what)
{
    (void)payload;
    (void)what;
    lw_page_progress(done);
}

static bool run_plan(const char *brief, uint64_t seed, char **out)
{
    const lw_plan_request request = {
        .brief = brief, .brief_length = strlen(brief), .seed = seed, .threads = 1, .progress = tell, .no_files = true};
    lw_plan *plan = malloc(sizeof *plan);
    const bool done = (plan || lw_fail(&fault, LW_STORAGE, "", "There is not enough memory for a plan.")) &&
                      lw_desk_plan(&request, plan, &fault);
    if (done)
        *out = lw_plan_to_json(plan, brief, strlen(brief));
    free(plan);
    return done;
}

static bool run_document(lw_desk_json *wish, const char *text, char **out)
{
    char *memory = malloc(ANSWER_BYTES);
    lw_arena arena = lw_arena_over(memory, ANSWER_BYTES);
    const bool done = (memory || lw_fail(&fault, LW_STORAGE, "", "There is not enough memory for this.")) &&
                      wish(text, strlen(text), &arena, out, &fault);
    free(memory);
    return done;
}

static bool run(int wish, double seed, char **out)
{
    static lw_desk_json *const wishes[LW_WISH_COUNT] = {
        [LW_WISH_LANE] = lw_desk_lane,           [LW_WISH_LANE_SEARCH] = lw_desk_lane_search,
        [LW_WISH_PACK] = lw_desk_pack,           [LW_WISH_MAST] = lw_desk_mast,
        [LW_WISH_CIRCUIT] = lw_desk_circuit,     [LW_WISH_RIBBON] = lw_desk_ribbon,
        [LW_WISH_LAMP_MAST] = lw_desk_lamp_mast,
    };
    char *text = depth == 0 ? json_dumps(question, 0) : NULL;
    if (!text || wish < 0 || wish >= LW_WISH_COUNT || !(seed >= 0.0 && seed < ldexp(1.0, SEED_BITS))) {
        free(text);
        return lw_fail(&fault, LW_BUG, "", "The page asked for something that is not there: open it again.");
    }
    const bool done =
        wish == LW_WISH_PLAN ? run_plan(text, (uint64_t)seed, out) : run_document(wishes[wish], text, out);
    free(text);
    return done;
}

int lw_desk_door_run(int wish, double seed)
{
    char *text = NULL;
    fault = (lw_error){0};
    json_decref(answer);
    answer = NULL;
    if (run(wish, seed, &text) && text)
        answer = json_loadb(text, strlen(text), 0, NULL);
    free(text);
    if (!answer && fault.family == 0)
        (void)lw_fail(&fault, LW_STORAGE, "", "There is not enough memory for the answer.");
    return answer ? 0 : (int)fault.family;
}

const char *lw_desk_door_fault(int what)
{
    const char *const told[] = {fault.message, fault.field, lw_family_problem(fault.family)};
    return what >= 0 && what < 3 ? told[what] : NULL;
}

/* --- the answer ------------------------------------------------------------------------------------------------ */

const json_t *lw_desk_door_answer(void)
{
    return answer;
}

int lw_desk_door_kind(const json_t *value)
{
    return value ? (int)json_typeof(value) : -1;
}

int lw_desk_door_count(const json_t *value)
{
    return (int)(json_is_array(value) ? json_array_size(value) : json_object_size(value));
}

const json_t *lw_desk_door_entry(const json_t *value, int place)
{
    if (place < 0)
        return NULL;
    return json_is_array(value) ? json_array_get(value, (size_t)place) : json_object_at(value, (size_t)place);
}

const char *lw_desk_door_entry_key(const json_t *value, int place)
{
    return place < 0 ? NULL : json_object_key_at(value, (size_t)place);
}

double lw_desk_door_value(const json_t *value)
{
    return json_number_value(value);
}

const char *lw_desk_door_words(const json_t *value)
{
    return json_string_value(value);
}
