/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A finished PDF opened once more, and written back in the place of its bytes.
 */
#ifndef LANEWICK_PDF_H
#define LANEWICK_PDF_H

#include <qpdf/qpdf-c.h>

#include <stdbool.h>
#include <stddef.h>

/* NULL: not a PDF. The bytes must outlive it; qpdf_cleanup() it. */
qpdf_data lw_pdf_open(const unsigned char *bytes, size_t length);

/* The document in the place of *bytes, which stay as they are when this fails. */
bool lw_pdf_write(qpdf_data pdf, unsigned char **bytes, size_t *length);

#endif
