/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Speed of the sheets: all of one lamp, the labels alone of one hundred lamps with 400 cells (600 codes), and all
 * sheets of those hundred lamps; and the most memory, which must not grow with the number of labels.
 */
#include "lanewick/desk.h"
#include "lanewick/desk_sheets.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>
#include <unistd.h>

enum { REPEATS = 3, MOST_BRIEF = 1 << 20 };

static double now_s(void)
{
    struct timespec t;
    (void)clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static bool plan_of(const char *path, lw_plan *plan)
{
    static char text[MOST_BRIEF];
    lw_error err = {0};
    FILE *file = fopen(path, "rb");
    if (!file)
        return false;
    const size_t length = fread(text, 1, sizeof text, file);
    (void)fclose(file);
    const lw_plan_request request = {.brief = text, .brief_length = length, .folder = ".", .seed = 1};
    return lw_desk_plan(&request, plan, &err) && plan->refused.count == 0 && plan->kind_count > 0;
}

static void measure(const lw_plan *plan, const char *group, const char *name, const char *folder, lw_paper paper)
{
    static const char *const papers[] = {"pdf", "svg", "png"};
    double least = 1e9;
    size_t pages = 0;
    lw_sheet_file *files = calloc(LW_SHEETS_MOST, sizeof *files);
    for (int repeat = 0; repeat < REPEATS && files; repeat++) {
        lw_error err = {0};
        size_t count = 0;
        const lw_sheets_request request = {.plan = plan,
                                           .grid = "auto",
                                           .group = group,
                                           .prefix = "",
                                           .date = "2026-11-25",
                                           .words = lw_words_find("en"),
                                           .paper = paper};
        const double start = now_s();
        if (!lw_desk_sheets(&request, folder, files, &count, &err)) {
            (void)fprintf(stderr, "%s: %s\n", name, err.message);
            break;
        }
        const double took = now_s() - start;
        least = took < least ? took : least;
        pages = 0;
        for (size_t i = 0; i < count; i++) {
            char path[200];
            pages += files[i].pages;
            (void)snprintf(path, sizeof path, "%s/%s", folder, files[i].name);
            (void)unlink(path);
        }
    }
    free(files);
    struct rusage usage;
    (void)getrusage(RUSAGE_SELF, &usage);
    (void)printf("result %s %s %.6f\n", name, papers[paper], least);
    (void)printf("%s: %zu pages, at most %.0f MB so far\n", name, pages, (double)usage.ru_maxrss / 1024.0);
}

int main(void)
{
    char folder[] = "/tmp/lanewick-sheets-XXXXXX";
    lw_plan *plan = malloc(sizeof *plan);
    if (!plan || !mkdtemp(folder) || !plan_of(LW_SOURCE_DIR "/demo/nsungwi.json", plan))
        return 1;
    plan->kind_count = 1;
    plan->kind[0].count = 1;
    measure(plan, "all", "sheets_of_one_lamp", folder, LW_PAPER_PDF);
    measure(plan, "all", "sheets_of_one_lamp", folder, LW_PAPER_SVG);
    measure(plan, "all", "sheets_of_one_lamp", folder, LW_PAPER_PNG);
    plan->kind[0].design.series = 2;
    plan->kind[0].design.parallel = 2;
    plan->kind[0].count = 100;
    measure(plan, "labels", "labels_of_100_lamps", folder, LW_PAPER_PDF);
    measure(plan, "all", "sheets_of_100_lamps", folder, LW_PAPER_PDF);
    free(plan);
    return rmdir(folder) == 0 ? 0 : 1;
}
