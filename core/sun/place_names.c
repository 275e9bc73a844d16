/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Finding a place by the name of a station: see lanewick/place_names.h.
 */
#include "lanewick/place_names.h"

#include <stdbool.h>
#include <string.h>

/* Plain letters of U+00C0..U+017F (Latin-1 Supplement and Latin Extended-A of Unicode); ' ' for what is no letter. */
static const char plain_letters[] = "aaaaaaaceeeeiiiidnooooo ouuuuytsaaaaaaaceeeeiiiidnooooo ouuuuyty"
                                    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkklllllll"
                                    "lllnnnnnnnnnoooooooorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";

/* The hooked letters of Hausa (Latin Extended-B and IPA Extensions); 0 for others. */
static char hooked(unsigned code)
{
    switch (code) {
    case 0x181:
    case 0x253:
        return 'b';
    case 0x18A:
    case 0x257:
        return 'd';
    case 0x198:
    case 0x199:
        return 'k';
    case 0x1B3:
    case 0x1B4:
        return 'y';
    default:
        return 0;
    }
}

/* One letter of the text, and how many bytes it took. */
static char fold_one(const char *text, size_t *bytes)
{
    const unsigned char first = (unsigned char)text[0], second = (unsigned char)text[first ? 1 : 0];
    *bytes = 1;
    if (first >= 'A' && first <= 'Z')
        return (char)(first + 'a' - 'A');
    if ((first >= 'a' && first <= 'z') || (first >= '0' && first <= '9'))
        return (char)first;
    if (first < 0xC3 || first > 0xC9 || (second & 0xC0U) != 0x80)
        return ' ';
    *bytes = 2;
    const unsigned code = ((first & 0x1FU) << 6) | (second & 0x3FU);
    if (code - 0xC0 < sizeof plain_letters - 1)
        return plain_letters[code - 0xC0];
    return hooked(code) ? hooked(code) : ' ';
}

void lw_place_fold(const char *text, char out[LW_PLACE_SOUGHT_BYTES])
{
    size_t n = 0, bytes = 0;
    for (; *text && n < LW_PLACE_SOUGHT_BYTES - 1; text += bytes) {
        const unsigned char lead = (unsigned char)*text;
        const char letter = fold_one(text, &bytes);
        if (lead == 0xCC || lead == 0xCD) { /* combining accents (U+0300..U+036F) */
            bytes = text[1] ? 2 : 1;
            continue;
        }
        if (lead == '\'')
            continue; /* "N'Djamena" is found as "ndjamena" */
        if (letter != ' ' || (n > 0 && out[n - 1] != ' '))
            out[n++] = letter;
    }
    while (n > 0 && out[n - 1] == ' ')
        n--;
    out[n] = '\0';
}

/* 0: begins with it; 1: a word begins with it; 2: holds it; 3: does not. */
static int fit(const char *name, const char *sought)
{
    char folded[LW_PLACE_SOUGHT_BYTES];
    lw_place_fold(name, folded);
    const char *at = strstr(folded, sought);
    if (!at)
        return 3;
    if (at == folded)
        return 0;
    for (; at; at = strstr(at + 1, sought))
        if (at[-1] == ' ')
            return 1;
    return 2;
}

size_t lw_place_search(const lw_place_names *names, const char *sought, const lw_place_name **out, size_t most)
{
    char folded[LW_PLACE_SOUGHT_BYTES];
    size_t found[3] = {0};
    lw_place_fold(sought, folded);
    if (strlen(folded) < 2)
        return 0;
    /* Kept in order of fit: a better one moves the tail. */
    for (size_t i = 0; i < names->count && found[0] < most; i++) {
        const int rank = fit(names->rows[i].name, folded);
        const size_t all = found[0] + found[1] + found[2];
        size_t place = 0;
        for (int r = 0; r <= rank && r < 3; r++)
            place += found[r];
        if (rank == 3 || place >= most)
            continue;
        const size_t tail = (all < most ? all : most - 1) - place;
        memmove(&out[place + 1], &out[place], tail * sizeof(const lw_place_name *));
        out[place] = &names->rows[i];
        found[rank]++;
        if (all == most) { /* one fell off the end */
            const int last = found[2] > 0 ? 2 : 1;
            found[last]--;
        }
    }
    return found[0] + found[1] + found[2];
}
