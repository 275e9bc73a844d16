/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Runs one fuzz target without a fuzzer, as an ordinary test: over every file of a directory as it is, cut short
 * at many places, and with bytes changed by a fixed random stream. A crash or a sanitizer's report is the failure.
 */
#include "lanewick/rng.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_BYTES = 4 << 20, CUTS = 100, CHANGES = 150, BUDGET_BYTES = 40 << 20 };

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

/* The target sees an exact copy on the heap, so that a sanitizer notices one byte read beyond the end. */
static void one(const unsigned char *bytes, size_t size)
{
    unsigned char *copy = malloc(size ? size : 1);
    if (!copy)
        abort();
    memcpy(copy, bytes, size);
    (void)LLVMFuzzerTestOneInput(copy, size);
    free(copy);
}

/* Large files get fewer rounds, so that every target ends in seconds. */
static int rounds(int most, size_t size)
{
    const size_t affordable = BUDGET_BYTES / (size + 1);
    return affordable < (size_t)most ? (int)affordable + 1 : most;
}

static void vary(unsigned char *bytes, size_t size, uint64_t stream)
{
    one(bytes, size);
    const int cuts = rounds(CUTS, size);
    for (int i = 0; i < cuts; i++)
        one(bytes, size * (size_t)i / (size_t)cuts);
    lw_rng rng = lw_rng_stream(20261125, stream, 0);
    const int changes = size ? rounds(CHANGES, size) : 0;
    for (int i = 0; i < changes; i++) {
        const size_t place = (size_t)(lw_rng_uniform(&rng) * (double)size);
        const unsigned char before = bytes[place];
        bytes[place] = (unsigned char)(lw_rng_uniform(&rng) * 256.0);
        one(bytes, size);
        bytes[place] = before;
    }
}

static long run_file(const char *path, unsigned char *bytes, uint64_t stream)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return 0;
    const size_t size = fread(bytes, 1, MAX_BYTES, file);
    (void)fclose(file);
    vary(bytes, size, stream);
    return 1;
}

int main(int argc, char **argv)
{
    DIR *directory = argc == 2 ? opendir(argv[1]) : NULL;
    unsigned char *bytes = malloc(MAX_BYTES);
    if (!directory || !bytes) {
        (void)printf("usage: fuzz_NAME DIRECTORY\n");
        free(bytes);
        return 2;
    }
    long files = 0;
    const struct dirent *entry;
    while ((entry = readdir(directory)) != NULL) {
        char path[4096];
        (void)snprintf(path, sizeof path, "%s/%s", argv[1], entry->d_name);
        if (entry->d_name[0] != '.')
            files += run_file(path, bytes, (uint64_t)files);
    }
    one((const unsigned char *)"", 0);
    (void)closedir(directory);
    free(bytes);
    (void)printf("%ld files of the corpus\n", files);
    return files > 0 ? 0 : 1;
}
