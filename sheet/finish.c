/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What cairo cannot write into a PDF: the language of its text (ISO 32000-1, 14.9.2), the title in the window's bar and
 * printing at true size (12.2, ViewerPreferences). Done by libqpdf through its C interface.
 */
#include "finish.h"

#include "pdf.h"

static void complete(qpdf_data pdf, const char *language)
{
    const qpdf_oh root = qpdf_get_root(pdf), wishes = qpdf_oh_new_dictionary(pdf);
    qpdf_oh_replace_key(pdf, root, "/Lang", qpdf_oh_new_unicode_string(pdf, language));
    qpdf_oh_replace_key(pdf, wishes, "/DisplayDocTitle", qpdf_oh_new_bool(pdf, QPDF_TRUE));
    qpdf_oh_replace_key(pdf, wishes, "/PrintScaling", qpdf_oh_new_name(pdf, "/None"));
    qpdf_oh_replace_key(pdf, root, "/ViewerPreferences", wishes);
}

bool lw_pdf_finish(const char *language, unsigned char **bytes, size_t *length, lw_error *err)
{
    qpdf_data pdf = lw_pdf_open(*bytes, *length);
    bool done = pdf != NULL;
    if (done) {
        complete(pdf, language);
        done = lw_pdf_write(pdf, bytes, length);
        qpdf_cleanup(&pdf);
    }
    return done || lw_fail(err, LW_STORAGE, "", "The language of a sheet could not be written into its PDF.");
}
