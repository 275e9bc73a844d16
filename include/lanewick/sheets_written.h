/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The list that lies beside printed sheets: which files were written there, of which plan. So the sheets of an earlier
 * plan can be taken away, and nothing else. Lines of text:
 *   # what this is
 *   plan 0123456789abcdef
 *   0123456789abcdef mast-1-path.pdf
 */
#ifndef LANEWICK_SHEETS_WRITTEN_H
#define LANEWICK_SHEETS_WRITTEN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { LW_WRITTEN_MOST = 2000, LW_WRITTEN_NAME = 120 };
extern const char lw_written_name[]; /* of the list itself */

typedef struct lw_written {
    uint64_t plan; /* fingerprint of all that the plan says */
    size_t count;
    struct {
        uint64_t mark; /* fingerprint of the file's bytes: another's file under the same name has another */
        char name[LW_WRITTEN_NAME];
    } file[LW_WRITTEN_MOST];
} lw_written;

/* false: not such a list, or a name in it that is no plain name of a file in that folder; out is then empty. */
bool lw_written_read(const char *text, size_t length, lw_written *out);
bool lw_written_has(const lw_written *list, const char *name);
/* false: it is full, or not a plain name. */
bool lw_written_add(lw_written *list, const char *name, uint64_t mark);
/* free() it; NULL when memory is out. */
char *lw_written_text(const lw_written *list);

#endif
