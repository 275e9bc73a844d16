/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files built into the program: the page (web/), the built-in pages (serve/pages), the description of the API.
 * The table is written by scripts/embed at build time.
 */
#ifndef LANEWICK_SERVE_PAGE_H
#define LANEWICK_SERVE_PAGE_H

#include <stddef.h>

typedef struct lw_page_file {
    const char *path, *type, *etag; /* etag with its quotes */
    const char *bytes;
    size_t length;
    const char *gzip; /* NULL when it would not be smaller */
    size_t gzip_length;
} lw_page_file;

extern const lw_page_file lw_page_files[]; /* sorted by path */
extern const size_t lw_page_file_count;

/* NULL when there is none. */
const lw_page_file *lw_page_find(const char *path);

#endif
