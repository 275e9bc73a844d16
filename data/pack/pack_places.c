/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writes the names and positions of the climate stations as a C source, in the order of the alphabet:
 *   pack_places normals.csv out.c
 * Names stand in capitals there; each word gets one capital here. Two stations of one name and country keep both.
 */
#include "csv.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_ROWS = 20000, NAME = 64 };
#define NO_HEIGHT 9999.0
typedef struct row {
    char name[NAME], country[3];
    double lat_deg, lon_deg, elev_m;
} row;
static row rows[MAX_ROWS];

static void word_case(const char *from, char *to)
{
    size_t n = 0;
    for (char before = ' '; *from && n < NAME - 1; before = *from++) {
        if (strchr("\"\\?", *from))
            continue;
        const int letter = (unsigned char)*from;
        to[n++] = (char)(isalnum((unsigned char)before) || before == '\'' ? tolower(letter) : toupper(letter));
    }
    to[n] = '\0';
}

static int compare(const void *a, const void *b)
{
    const row *x = a, *y = b;
    const int by_name = strcmp(x->name, y->name), by_country = strcmp(x->country, y->country);
    if (by_name || by_country)
        return by_name ? by_name : by_country;
    return (x->lat_deg > y->lat_deg) - (x->lat_deg < y->lat_deg);
}

static size_t read_rows(const char *path)
{
    csv c;
    size_t n = 0;
    csv_open(&c, path);
    while (csv_next(&c)) {
        const char *name = c.row[csv_column(&c, "name")], *country = c.row[csv_column(&c, "iso2")];
        if (n == MAX_ROWS || strlen(country) > 2)
            csv_stop(&c, "too many rows, or a country of more than two letters");
        /* Dots, or the number of a device: no name. */
        if (!strpbrk(name, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") || strncmp(name, "WXPOD", 5) == 0)
            continue;
        row *r = &rows[n++];
        word_case(name, r->name);
        memcpy(r->country, country, strlen(country) + 1);
        r->lat_deg = csv_number(&c, csv_column(&c, "lat_deg"), -90.0, 90.0, NAN);
        r->lon_deg = csv_number(&c, csv_column(&c, "lon_deg"), -180.0, 180.0, NAN);
        r->elev_m = csv_number(&c, csv_column(&c, "elev_m"), -430.0, 8850.0, NO_HEIGHT);
    }
    qsort(rows, n, sizeof rows[0], compare);
    return n;
}

int main(int argc, char **argv)
{
    if (argc != 3)
        return 2;
    const size_t n = read_rows(argv[1]);
    FILE *out = fopen(argv[2], "w");
    if (!out)
        return 1;
    fputs("/* Made by data/pack/pack_places.c; do not edit. */\n#include \"lanewick/place_names.h\"\n\n#include "
          "<math.h>\n\n"
          "static const lw_place_name rows[] = {\n",
          out);
    for (size_t i = 0; i < n; i++) {
        fprintf(out, "    {\"%s\", \"%s\", %.3f, %.3f, ", rows[i].name, rows[i].country, rows[i].lat_deg,
                rows[i].lon_deg);
        if (rows[i].elev_m >= NO_HEIGHT)
            fputs("NAN},\n", out);
        else
            fprintf(out, "%.0f.0},\n", rows[i].elev_m);
    }
    fprintf(out, "};\n\nlw_place_names lw_place_names_packed(void)\n{\n    return (lw_place_names){rows, %zu};\n}\n",
            n);
    return fclose(out) == 0 ? 0 : 1;
}
