/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The last step of a PDF: language and wishes to the viewer.
 */
#ifndef LANEWICK_FINISH_H
#define LANEWICK_FINISH_H

#include "lanewick/error.h"

#include <stddef.h>

/* Writes the language (ISO 639-1) into the PDF; its bytes are replaced by new ones, or stay as they are on error. */
LW_MUST_CHECK bool lw_pdf_finish(const char *language, unsigned char **bytes, size_t *length, lw_error *err);

#endif
