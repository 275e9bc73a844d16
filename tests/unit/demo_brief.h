/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A brief of the sources as text, for tests of whole plans.
 */
#ifndef LANEWICK_TESTS_DEMO_BRIEF_H
#define LANEWICK_TESTS_DEMO_BRIEF_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

static char brief[32768];

static size_t read_brief(const char *name)
{
    char path[512];
    (void)snprintf(path, sizeof path, "%s/%s.json", LW_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    const size_t length = fread(brief, 1, sizeof brief - 1, file);
    (void)fclose(file);
    brief[length] = '\0';
    return length;
}

#endif
