/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists of printed sheets as JSON: see lanewick/sheets_json.h.
 */
#include "lanewick/sheets_json.h"

#include "json_help.h"

static char *dump(json_t *object)
{
    char *text = object ? json_dumps(object, JSON_COMPACT) : NULL;
    json_decref(object);
    return text;
}

static json_t *count_of(size_t pages)
{
    return json_integer((json_int_t)pages);
}

char *lw_sheet_files_to_json(const lw_sheet_file *files, size_t count, const lw_written *removed)
{
    json_t *list = json_array();
    for (size_t i = 0; list && i < count; i++)
        (void)json_array_append_new(list, json_pack("{s:s,s:o,s:s,s:o}", "file", files[i].name, "title",
                                                    lw_json_text(files[i].title), "for", files[i].group, "pages",
                                                    count_of(files[i].pages)));
    json_t *gone = json_array();
    for (size_t i = 0; gone && i < removed->count; i++)
        (void)json_array_append_new(gone, json_string(removed->file[i].name));
    return dump(json_pack("{s:o,s:o}", "files", list, "removed", gone));
}

char *lw_sheets_to_json(const lw_sheets_said *said)
{
    json_t *languages = json_array(), *list = json_array();
    for (size_t i = 0; languages && i < said->language_count; i++)
        (void)json_array_append_new(
            languages, json_pack("{s:s,s:s}", "code", said->languages[2 * i], "name", said->languages[2 * i + 1]));
    for (size_t i = 0; list && i < said->count; i++) {
        const lw_sheet_file *file = &said->files[i];
        (void)json_array_append_new(list, json_pack("{s:s,s:o,s:s,s:o,s:o}", "name", file->name, "title",
                                                    lw_json_text(file->title), "for", file->group, "lamp",
                                                    lw_json_text(file->lamp), "pages", count_of(file->pages)));
    }
    return dump(json_pack("{s:s,s:s,s:o,s:o}", "plan", said->code, "language", said->language, "languages", languages,
                          "sheets", list));
}
