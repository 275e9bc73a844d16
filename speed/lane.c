/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Speed of the search for masts with the nights in the loop: the whole search for the 220 m path of the demo, tables
 * included (lane_220_m), and a short lane against brute force, which sizes every way of standing on its own in all ways
 * of building (lane_48_m). Processor time of one thread, so that other work on the machine does not count; wall time
 * for two threads.
 */
#include "desk/lane_cost.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { REPEATS = 3, MOST_WAYS = 2000, ARENA = 32 << 20, TEXT = 1 << 20 };

static lw_plan plan;
static lw_plan_work work;
static lw_lane_cost cost;
static lw_size_memory memory;
static lw_layout ways[MOST_WAYS];

static double now_s(clockid_t which)
{
    struct timespec t;
    (void)clock_gettime(which, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static lw_plan_request read_brief(const char *name)
{
    char path[600];
    char *text = malloc(TEXT);
    (void)snprintf(path, sizeof path, LW_SOURCE_DIR "/%s", name);
    FILE *file = fopen(path, "rb");
    if (!file || !text)
        exit(1);
    const size_t length = fread(text, 1, TEXT, file);
    (void)fclose(file);
    return (lw_plan_request){.brief = text, .brief_length = length, .seed = 1, .threads = 1, .lane_only = true};
}

static void must(bool done, const lw_error *err)
{
    if (done)
        return;
    (void)fprintf(stderr, "%s\n", err->message);
    exit(1);
}

static double search_s(const lw_plan_request *request)
{
    const clockid_t which = request->threads == 1 ? CLOCK_PROCESS_CPUTIME_ID : CLOCK_MONOTONIC;
    double best = INFINITY;
    for (int i = 0; i < REPEATS; i++) {
        lw_error err = {0};
        const double from = now_s(which);
        must(lw_desk_plan(request, &plan, &err), &err);
        best = fmin(best, now_s(which) - from);
    }
    return best;
}

/* One way alone: nothing is known from others, every way of building is sized. */
static int64_t alone(const lw_lane_row *row)
{
    static const lw_choice_kind none[LW_BRIEF_KINDS];
    lw_candidate sizes[LW_LANE_SIZES];
    lw_lamp_kind lamp, bare;
    lw_lane_row look = *row;
    lw_error err = {0};
    size_t count;
    int64_t total;
    bool cheapest;
    lw_lane_cost_begin(&cost, &work, none);
    lw_lane_lamp(work.brief, row, &lamp);
    bare = lamp;
    bare.head = 0;
    memset(&memory, 0, sizeof memory);
    must(lw_lane_cost_of(&cost, &look, &err), &err); /* makes the engine */
    const lw_other_light other = {&bare, cost.ready_count > 0 ? cost.ready[0].engine : NULL, row->level, &memory};
    bool fed = other.engine != NULL;
    if (fed) {
        must(lw_work_sizes(&work, work.brief->want.lane.kind, &other, LW_ALL_WAYS, sizes, LW_LANE_SIZES, &count, &err),
             &err);
        fed = lw_lane_cost_share(&cost, &lamp, sizes, count, &total, &cheapest);
    }
    lw_lane_cost_end(&cost);
    return fed ? total : INT64_MAX;
}

static double brute_s(const lw_plan_request *request, int64_t *least)
{
    lw_error err = {0};
    size_t count;
    void *bytes = malloc(ARENA);
    lw_arena arena = lw_arena_over(bytes, ARENA);
    const double from = now_s(CLOCK_PROCESS_CPUTIME_ID);
    memset(&plan, 0, sizeof plan);
    plan.seed = request->seed;
    must(lw_brief_from_json(request->brief, request->brief_length, &plan.brief, &err), &err);
    work = (lw_plan_work){.request = request, .plan = &plan, .brief = &plan.brief};
    must(lw_work_begin(&work, &err), &err);
    const lw_lane_want *want = &plan.brief.want.lane;
    if (lw_layout_room(&want->ask.wish) > MOST_WAYS)
        exit(1);
    must(lw_layout_all(&want->ask.wish, &arena, ways, &count, &err), &err);
    *least = INT64_MAX;
    for (size_t i = 0; i < 2 * count; i++) {
        lw_lane_row row = {.layout = ways[i / 2]};
        row.layout.lumens_each = 5.0 * ceil(row.layout.lumens_each / 5.0 - 1e-9);
        row.head_w = row.layout.lumens_each / want->ask.lumens_per_w[row.layout.head];
        row.level = i % 2 ? fmin(1.0, 0.05 * ceil(row.layout.late_level / 0.05 - 1e-9)) : 1.0;
        const int64_t found = alone(&row);
        *least = found < *least ? found : *least;
    }
    lw_work_end(&work);
    free(bytes);
    return now_s(CLOCK_PROCESS_CPUTIME_ID) - from;
}

int main(void)
{
    int64_t least;
    lw_plan_request path = read_brief("demo/nsungwi-lane.json");
    const lw_plan_request lane = read_brief("tests/briefs/lane.json");
    (void)printf("result lane_220_m search %.4f\n", search_s(&path));
    path.threads = 2;
    (void)printf("result lane_220_m search_2_threads %.4f\n", search_s(&path));
    const double searched = search_s(&lane);
    const int64_t found = plan.lane.chosen.cost_minor;
    (void)printf("result lane_48_m brute_force %.4f\n", brute_s(&lane, &least));
    (void)printf("result lane_48_m search %.4f\n", searched);
    if (found != least)
        (void)fprintf(stderr, "speed/lane: the search finds %lld, brute force %lld\n", (long long)found,
                      (long long)least);
    return found == least ? 0 : 1;
}
