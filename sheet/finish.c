/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What cairo cannot write into a PDF: the language of its text (ISO 32000-1, 14.9.2), the title in the window's bar and
 * printing at true size (12.2, ViewerPreferences). Done by libqpdf through its C interface.
 */
#include "finish.h"

#include <qpdf/qpdf-c.h>

#include <stdlib.h>
#include <string.h>

static void complete(qpdf_data pdf, const char *language)
{
    const qpdf_oh root = qpdf_get_root(pdf), wishes = qpdf_oh_new_dictionary(pdf);
    qpdf_oh_replace_key(pdf, root, "/Lang", qpdf_oh_new_unicode_string(pdf, language));
    qpdf_oh_replace_key(pdf, wishes, "/DisplayDocTitle", qpdf_oh_new_bool(pdf, QPDF_TRUE));
    qpdf_oh_replace_key(pdf, wishes, "/PrintScaling", qpdf_oh_new_name(pdf, "/None"));
    qpdf_oh_replace_key(pdf, root, "/ViewerPreferences", wishes);
}

/* Takes the written document over into memory of our own. */
static bool take(qpdf_data pdf, unsigned char **bytes, size_t *length)
{
    const size_t size = qpdf_get_buffer_length(pdf);
    unsigned char *copy = size ? malloc(size) : NULL;
    if (!copy)
        return false;
    memcpy(copy, qpdf_get_buffer(pdf), size);
    free(*bytes);
    *bytes = copy;
    *length = size;
    return true;
}

bool lw_pdf_finish(const char *language, unsigned char **bytes, size_t *length, lw_error *err)
{
    qpdf_data pdf = qpdf_init();
    qpdf_silence_errors(pdf);
    qpdf_set_suppress_warnings(pdf, QPDF_TRUE);
    bool done = (qpdf_read_memory(pdf, "sheet", (const char *)*bytes, *length, NULL) & QPDF_ERRORS) == 0;
    if (done) {
        complete(pdf, language);
        done = (qpdf_init_write_memory(pdf) & QPDF_ERRORS) == 0;
    }
    if (done) {
        qpdf_set_deterministic_ID(pdf, QPDF_TRUE);
        done = (qpdf_write(pdf) & QPDF_ERRORS) == 0 && take(pdf, bytes, length);
    }
    qpdf_cleanup(&pdf);
    return done || lw_fail(err, LW_STORAGE, "", "The language of a sheet could not be written into its PDF.");
}
