/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where a line may not end: between a number and its unit ("4.10 V", "100 %", "3 x 4"), and before a sign that French
 * sets apart ("inawaka ?"). The text keeps its plain spaces, so that it is found when it is searched for.
 */
#include "canvas_inside.h"

#include <ctype.h>
#include <string.h>

static const char *const units[] = {
    "V",  "mV",  "A",  "mA", "Ah",  "mAh", "W",   "Wh", "kWh",  "kW", "Wp",  "mm", "cm",  "m",  "km", "mm²", "m²", "m³",
    "lx", "lux", "lm", "cd", "K",   "Hz",  "Ω",   "kΩ", "MΩ",   "mΩ", "ohm", "µF", "nF",  "pF", "h",  "min", "s",  "kg",
    "g",  "N",   "kN", "Nm", "kNm", "Pa",  "kPa", "l",  "degC", "°C", "°",   "MB", "km²", "x",  "×",  "LED"};

static bool ends_number(const char *text, size_t at)
{
    return at > 0 && (isdigit((unsigned char)text[at - 1]) || text[at - 1] == '_');
}

/* A letter, or any byte of a sign beyond ASCII but the long dash. */
static bool in_unit(const char *text)
{
    return isalpha((unsigned char)text[0]) || ((unsigned char)text[0] >= 0x80 && strncmp(text, "–", 3) != 0);
}

static bool is_unit(const char *text)
{
    size_t length = 0;
    while (in_unit(text + length))
        length++;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (strlen(units[i]) == length && strncmp(units[i], text, length) == 0)
            return true;
    return false;
}

/* "3 x" before a number: the space that ends at `at` is the second of "3 x 4". */
static bool is_times(const char *text, size_t at)
{
    return at >= 3 && text[at - 1] == 'x' && text[at - 2] == ' ' && isdigit((unsigned char)text[at - 3]) &&
           isdigit((unsigned char)text[at + 1]);
}

/* "V 0.05", "K 400": in some languages the unit comes first. */
static bool unit_comes_first(const char *text, size_t at)
{
    size_t first = at;
    while (first > 0 && in_unit(text + first - 1))
        first--;
    return first < at && (first == 0 || text[first - 1] == ' ') && isdigit((unsigned char)text[at + 1]) &&
           is_unit(text + first);
}

static bool keeps(const char *text, size_t at)
{
    const char *next = text + at + 1;
    if (*next && strchr("?!:;%", *next))
        return true;
    return (ends_number(text, at) && is_unit(next)) || is_times(text, at) || unit_comes_first(text, at);
}

PangoAttrList *lw_text_kept(const char *text)
{
    PangoAttrList *list = pango_attr_list_new();
    for (size_t i = 0; text[i]; i++) {
        if (i == 0 || text[i] != ' ' || !keeps(text, i))
            continue;
        PangoAttribute *kept = pango_attr_allow_breaks_new(FALSE);
        size_t first = i - 1, after = i + 2;
        while (first > 0 && ((unsigned char)text[first] & 0xC0U) == 0x80U)
            first--;
        while (((unsigned char)text[after] & 0xC0U) == 0x80U)
            after++;
        kept->start_index = (guint)first;
        kept->end_index = (guint)after;
        pango_attr_list_insert(list, kept);
    }
    return list;
}
