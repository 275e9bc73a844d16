/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * LM-63 reader and writer on the files of tests/data/photometry (origins in its README). Lumens: integrated
 * independently by a script (straight lines in the vertical angle, exact sine integral, trapezium over planes).
 */
#include "lanewick/lm63.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { ARENA = 16 << 20, ROOM = 1 << 20 };
static unsigned char memory[ARENA];
static char bytes[ROOM];

static size_t load(const char *name)
{
    char path[400];
    (void)snprintf(path, sizeof path, "%s/tests/data/photometry/%s", LW_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    const size_t length = fread(bytes, 1, sizeof bytes, file);
    (void)fclose(file);
    return length;
}

static bool read_bytes(size_t length, bool tolerant, lw_lm63 *out, lw_error *err)
{
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    *err = (lw_error){0};
    return lw_lm63_read(bytes, length, tolerant, &arena, out, err);
}

static void real_files_give_their_lumens(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double lumens, above_horizontal, peak;
        lw_symmetry symmetry;
    } files[] = {
        {"path-a.ies", 775.5903, 0.0, 1985.8, LW_SYMMETRY_ROUND},
        {"pole-a.ies", 13773.2483, 12.6635, 5054.0, LW_SYMMETRY_ROUND},
        {"lane-a.ies", 9598.3295, 0.0, 6274.6, LW_SYMMETRY_MIRROR_90},
        {"ring-a.ies", 1224.6035, 0.0, 2160.3, LW_SYMMETRY_NONE},
        {"street-a.ies", 11911.0867, 0.0, 12704.0, LW_SYMMETRY_MIRROR_0},
        {"example2019-a.ies", 8749.7313, 0.0, 8500.0, LW_SYMMETRY_ROUND},
    };
    static lw_lm63 file;
    lw_error err;
    for (size_t i = 0; i < sizeof files / sizeof files[0]; i++) {
        assert_true(read_bytes(load(files[i].name), false, &file, &err));
        assert_true(fabs(file.lumens - files[i].lumens) < 1e-4);
        assert_true(fabs(lw_intensity_flux_lm(&file.table, 90.0, 180.0) - files[i].above_horizontal) < 1e-3);
        assert_true(fabs(lw_intensity_peak_cd(&file.table) - files[i].peak) < 1e-9);
        assert_int_equal(file.table.symmetry, files[i].symmetry);
    }
}

/* Solid angle cos(H) dV dH of type B: closed form pi * 2 * 0.55 for these five equal steps. */
static void type_b_has_its_own_solid_angle(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    assert_true(read_bytes(load("typeb-a.ies"), false, &file, &err));
    assert_true(fabs(file.lumens - 3.455752) < 1e-6);
}

static void each_fault_is_named_with_its_line(void **state)
{
    (void)state;
    static const struct {
        const char *name, *field;
    } faults[] = {{"truncated", "line 11"},      {"extra-numbers", "line 12"}, {"angles-not-rising", "line 9"},
                  {"huge-count", "line 7"},      {"nan-candela", "line 11"},   {"negative-candela", "line 11"},
                  {"decimal-comma", "line 7"},   {"span-270", "line 10"},      {"bad-type", "line 7"},
                  {"text-in-numbers", "line 3"}, {"no-tilt-line", "line 11"}};
    static lw_lm63 file;
    lw_error err;
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        char name[64];
        (void)snprintf(name, sizeof name, "broken/%s.ies", faults[i].name);
        assert_false(read_bytes(load(name), false, &file, &err));
        assert_int_equal(err.family, LW_WRONG_INPUT);
        assert_string_equal(err.field, faults[i].field);
    }
}

static void tolerant_mode_mends_and_says_so(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    assert_true(read_bytes(load("broken/extra-numbers.ies"), true, &file, &err));
    assert_true(fabs(file.lumens - 1022.036459) < 1e-5);
    assert_int_equal(file.defects[file.defect_count - 1].severity, LW_MENDED);
    assert_false(read_bytes(load("broken/nan-candela.ies"), true, &file, &err));
}

/* Every shorter piece of a good file is refused or read, never more than its bytes: the rest is garbage. */
static void cut_anywhere_never_reads_on(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    const size_t length = load("path-a.ies");
    for (size_t cut = 0; cut < length; cut++) {
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        char *piece = malloc(cut ? cut : 1);
        assert_non_null(piece);
        memcpy(piece, bytes, cut);
        err = (lw_error){0};
        const bool done = lw_lm63_read(piece, cut, false, &arena, &file, &err);
        assert_true(done == (err.family == LW_OK));
        free(piece);
    }
}

static void written_file_reads_back(void **state)
{
    (void)state;
    static lw_lm63 first, second;
    static char text[ROOM];
    static double kept[4096];
    lw_error err;
    assert_true(read_bytes(load("lane-a.ies"), false, &first, &err));
    const size_t cells = first.table.vertical_count * first.table.horizontal_count;
    memcpy(kept, first.table.candela, cells * sizeof *kept);
    char note[200];
    memset(note, 'n', sizeof note - 1);
    note[sizeof note - 1] = '\0';
    const size_t length = lw_lm63_write(&first.table, 7.25, "bottle head", "2026-03-09", note, text, sizeof text);
    assert_true(length < sizeof text);
    for (const char *line = text; *line; line = strstr(line, "\r\n") + 2)
        assert_true(strstr(line, "\r\n") - line <= 132);
    memcpy(bytes, text, length);
    assert_true(read_bytes(length, false, &second, &err));
    assert_int_equal(second.year, 2019);
    assert_int_equal(second.table.symmetry, LW_SYMMETRY_MIRROR_90);
    for (size_t i = 0; i < cells; i++)
        assert_true(fabs(second.table.candela[i] - kept[i]) <= 5.1e-4 * kept[i]);
    assert_non_null(strstr(text, "[ISSUEDATE] 09-MAR-2026\r\n"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(real_files_give_their_lumens),      cmocka_unit_test(type_b_has_its_own_solid_angle),
        cmocka_unit_test(each_fault_is_named_with_its_line), cmocka_unit_test(tolerant_mode_mends_and_says_so),
        cmocka_unit_test(cut_anywhere_never_reads_on),       cmocka_unit_test(written_file_reads_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
