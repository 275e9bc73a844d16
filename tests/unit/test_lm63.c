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

static bool read_text(const char *text, bool tolerant, lw_lm63 *out, lw_error *err)
{
    const size_t length = strlen(text);
    memcpy(bytes, text, length);
    return read_bytes(length, tolerant, out, err);
}

#define HEAD "IESNA:LM-63-2002\n[TEST] t\n[TESTLAB] t\n[ISSUEDATE] 01-JAN-2024\n[MANUFAC] m\nTILT=NONE\n"
#define ANGLES "0 15 30 45 60 75 90\n0\n"

/* So many of a text, from that byte on; where they end. */
static size_t lines(size_t at, const char *text, int count)
{
    for (int i = 0; i < count; i++, at += strlen(text))
        memcpy(bytes + at, text, strlen(text));
    return at;
}

/* Six faults on four lines are all told, each with its own; the error is the first. */
static void all_defects_are_listed(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    assert_false(read_text(HEAD "1 -1 1 7 1 1 3 0 0 0\n1 1 -5\n0 15 30 25 60 75 90\n0\n300 310 x 280 -150 40 0 8\n",
                           false, &file, &err));
    assert_string_equal(err.field, "line 7");
    static const struct {
        size_t line;
        const char *part;
    } faults[] = {{7, "unit of length is 3"}, {8, "input watts are -5"}, {9, "angle 25 comes after 30"},
                  {11, "\"x\" stands"},       {11, "5 of 7 is -150"},    {11, "\"8\" stands after"}};
    assert_int_equal(file.defect_count, sizeof faults / sizeof faults[0]);
    for (size_t i = 0; i < file.defect_count; i++) {
        assert_int_equal(file.defects[i].line, faults[i].line);
        assert_int_equal(file.defects[i].severity, LW_FATAL);
        assert_non_null(strstr(file.defects[i].text, faults[i].part));
    }
    /* a hundred wrong values: the list ends, and so does the reading; harmless ones leave room for the fatal */
    size_t length = lines(0, HEAD "1 -1 1 100 1 1 2 0 0 0\n1 1 5\n", 1);
    length = lines(length, "300\n", 100);
    assert_false(read_bytes(length, false, &file, &err));
    assert_int_equal(file.defect_count, LW_LM63_MAX_DEFECTS);
    length = lines(lines(0, "IESNA91\n", 1), "no keyword\n", 99);
    assert_false(read_bytes(length, false, &file, &err));
    assert_int_equal(file.defects[file.defect_count - 1].severity, LW_FATAL);
    assert_int_equal(file.defects_left_out, 99 - LW_LM63_MAX_DEFECTS / 2);
}

/* A missing keyword is missing where the keywords end. */
static void no_defect_stands_on_line_0(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    assert_true(
        read_text("IESNA:LM-63-1995\n[TEST] t\n[LAMP] l\nTILT=NONE\n1 -1 1 2 4 1 2 0 0 0\n1 1 5\n0 90\n0 30 60 90\n"
                  "9 0\n9 0\n9 0\n9 0\n",
                  false, &file, &err));
    assert_int_equal(file.defect_count, 2);
    assert_int_equal(file.defects[0].line, 4); /* [MANUFAC] */
    assert_int_equal(file.defects[1].line, 9); /* equal planes */
}

/* The table of 1022.036 lm (straight lines by hand) with lamps of 100 lm, 10 000 lm, and of 1100 lm. */
static void lumens_of_lamps_and_table_agree(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    static const char *const lamps[] = {"100", "10220", "1100", "1022"};
    for (size_t i = 0; i < 4; i++) {
        char text[600];
        (void)snprintf(text, sizeof text, HEAD "1 %s 1 7 1 1 2 0 0 0\n1 1 5\n" ANGLES "300 310 330 280 150 40 0\n",
                       lamps[i]);
        assert_true(read_text(text, false, &file, &err) == (i >= 2));
        assert_string_equal(err.field, i < 2 ? "line 7" : "");
        assert_true(read_text(text, true, &file, &err));
        assert_true(fabs(file.lumens - 1022.036459) < 1e-5);
        assert_int_equal(file.defect_count, i < 2 ? 1 : 0);
    }
}

/* Type B: one plane holds no light (read once as 0 lm without a word); planes to 60 degrees are told or refused. */
static void flood_types_need_their_planes(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    static const char one[] = HEAD "1 -1 1 7 1 2 2 0 0 0\n1 1 5\n" ANGLES "300 310 330 280 150 40 0\n";
    assert_false(read_text(one, false, &file, &err));
    assert_string_equal(err.field, "line 10");
    assert_false(read_text(one, true, &file, &err));
    static const char narrow[] = HEAD "1 -1 1 2 2 2 2 0 0 0\n1 1 5\n-90 90\n0 60\n9 9\n9 9\n";
    assert_false(read_text(narrow, false, &file, &err));
    assert_true(read_text(narrow, true, &file, &err));
    assert_int_equal(file.defects[0].severity, LW_MENDED);
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
    size_t cells = 0; /* of the whole circle, which the mirror plane 90-270 halves in the form of 1995 alone */
    for (double c = 0.0; c <= 360.0; c += 10.0)
        for (size_t v = 0; v < first.table.vertical_count; v++)
            kept[cells++] = lw_intensity_cd(&first.table, c, first.table.vertical_deg[v]);
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
    assert_int_equal(second.table.symmetry, LW_SYMMETRY_NONE);
    assert_int_equal(second.table.horizontal_count, 37);
    assert_int_equal(second.defect_count, 0);
    for (size_t h = 0; h < 37; h++)
        assert_true(second.table.horizontal_deg[h] == 10.0 * (double)h);
    for (size_t i = 0; i < cells; i++)
        assert_true(fabs(second.table.candela[i] - kept[i]) <= 5.1e-4 * kept[i]);
    assert_non_null(strstr(text, "[ISSUEDATE] 09-MAR-2026\r\n"));
}

/* Oddities of the list in docs/models/lm63.md: LM-63-1995 alone has planes 90 to 270 (text of an open 3-D format's
 * extension); a disc has two negative numbers since 2002 (LM-63-2019 Table 1, restated); straight down is one
 * direction in all planes (geometry). */
static void oddities_of_the_whole_table_are_told(void **state)
{
    (void)state;
    static const struct {
        const char *text, *part;
        size_t line;
    } odd[] = {
        {HEAD "1 -1 1 3 3 1 2 0 0 0\n1 1 5\n0 45 90\n90 180 270\n9 8 0\n9 7 0\n9 6 0\n", "LM-63-1995 alone", 10},
        {HEAD "1 -1 1 3 2 1 2 0 0 0\n1 1 5\n0 45 90\n0 90\n9 8 0\n8 8 0\n", "straight down is one direction", 11},
        {HEAD "1 -1 1 3 2 1 2 0 0 0\n1 1 5\n90 135 180\n0 90\n0 8 9\n0 8 7\n", "straight up is one direction", 11},
        {HEAD "1 -1 1 3 1 1 2 -.1 0 0\n1 1 5\n0 45 90\n0\n9 8 0\n", "disc is written as in LM-63-1995", 7},
        {HEAD "1 -1 1 3 1 1 2 0 0 0\n1 1 5\n0 45 90\n0\n9 8 4\n", "ends at 90 degree with 4 cd", 11},
        {HEAD "1 -1 1 3 1 1 2 0 0 0\n1 1 5\n0 45 90\n0\n0 0 0\n", "gives no light", 11},
    };
    static lw_lm63 file;
    lw_error err;
    for (size_t i = 0; i < sizeof odd / sizeof odd[0]; i++) {
        assert_true(read_text(odd[i].text, false, &file, &err));
        assert_int_equal(file.defect_count, 1);
        assert_int_equal(file.defects[0].severity, LW_TOLD);
        assert_int_equal(file.defects[0].line, odd[i].line);
        assert_non_null(strstr(file.defects[0].text, odd[i].part));
    }
}

/* candela = value x multiplier x ballast factor x ballast-lamp factor in 1986 and 1991 (reference order of the
 * numbers, from memory): a factor of 0 would put the light out without a word. */
static void a_ballast_lamp_factor_of_0_is_a_fault(void **state)
{
    (void)state;
    static lw_lm63 file;
    lw_error err;
    const char *text = "IESNA91\n[TEST] t\n[MANUFAC] m\nTILT=NONE\n1 -1 1 3 1 1 2 0 0 0\n1 0 5\n0 45 90\n0\n9 8 0\n";
    assert_false(read_text(text, false, &file, &err));
    assert_string_equal(err.field, "line 6");
    assert_true(read_text(text, true, &file, &err));
    assert_int_equal(file.defects[0].severity, LW_MENDED);
    assert_true(fabs(lw_intensity_peak_cd(&file.table) - 9.0) < 1e-12);
}

/* Angles come back as they were, close steps too; one plane is written as plane 0, and a table without plane 180 keeps
 * its flux in the whole circle. */
static void written_angles_read_back(void **state)
{
    (void)state;
    static lw_lm63 first, second;
    static char text[ROOM];
    lw_error err;
    assert_true(read_text(HEAD "1 -1 1 5 4 1 2 0 0 0\n1 1 5\n0 100.001 100.002 100.0031 180\n90 123.456 200 270\n"
                               "9 8 7 6 1\n9 5 4 3 1\n9 7 6 5 1\n9 6 5 4 1\n",
                          false, &first, &err));
    const double lumens = first.lumens;
    const size_t length = lw_lm63_write(&first.table, 5.0, "x", "2026-03-09", "n", text, sizeof text);
    memcpy(bytes, text, length);
    assert_true(read_bytes(length, false, &second, &err));
    static const double planes[] = {0.0, 56.544, 90.0, 123.456, 200.0, 270.0, 340.0, 360.0};
    assert_int_equal(second.table.horizontal_count, 8);
    for (size_t h = 0; h < 8; h++)
        assert_true(fabs(second.table.horizontal_deg[h] - planes[h]) < 1e-9);
    assert_true(second.table.vertical_deg[2] == 100.002 && second.table.vertical_deg[3] == 100.0031);
    assert_true(fabs(second.lumens / lumens - 1.0) < 1e-3);
    assert_true(read_text(HEAD "1 -1 1 3 1 1 2 0 0 0\n1 1 5\n0 45 90\n45\n9 8 0\n", false, &first, &err));
    const size_t one = lw_lm63_write(&first.table, 5.0, "x", "2026-03-09", "n", text, sizeof text);
    assert_true(one < sizeof text);
    assert_non_null(strstr(text, "0 45 90\r\n0\r\n"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(real_files_give_their_lumens),
        cmocka_unit_test(type_b_has_its_own_solid_angle),
        cmocka_unit_test(all_defects_are_listed),
        cmocka_unit_test(no_defect_stands_on_line_0),
        cmocka_unit_test(lumens_of_lamps_and_table_agree),
        cmocka_unit_test(flood_types_need_their_planes),
        cmocka_unit_test(each_fault_is_named_with_its_line),
        cmocka_unit_test(tolerant_mode_mends_and_says_so),
        cmocka_unit_test(cut_anywhere_never_reads_on),
        cmocka_unit_test(written_file_reads_back),
        cmocka_unit_test(oddities_of_the_whole_table_are_told),
        cmocka_unit_test(a_ballast_lamp_factor_of_0_is_a_fault),
        cmocka_unit_test(written_angles_read_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
