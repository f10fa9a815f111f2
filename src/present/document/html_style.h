// SPDX-License-Identifier: GPL-3.0-or-later
// The style sheet of HTML documents: screen from a phone to a wide window, light and dark, and print.
#ifndef MILDSOLVE_PRESENT_DOCUMENT_HTML_STYLE_H
#define MILDSOLVE_PRESENT_DOCUMENT_HTML_STYLE_H

extern const char html_style[];          // everything but colours and paper
extern const char html_style_colours[];  // light, dark and print
extern const char html_style_grey[];     // the same without colour
extern const char html_style_one_page[]; // large type, for a sheet on the easel
#define html_style_page "@page{size:%s;margin:15mm 14mm 17mm}\n"

#endif
