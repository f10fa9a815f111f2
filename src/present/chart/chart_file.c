// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/chart_file.h"

#include "present/chart/canvas.h"

enum status chart_file_write(const char *path, chart_painter *paint, void *data, struct error *err) {
    struct canvas canvas;
    enum status status = canvas_check_suffix(path, err);
    if (status == STATUS_OK)
        status = canvas_open(&canvas, NULL, err);
    if (status != STATUS_OK)
        return status;
    struct text_metric metric = canvas_metric(&canvas);
    struct picture picture;
    status = paint(data, &metric, &picture, err);
    if (status == STATUS_OK) {
        status = canvas_write(&canvas, &picture, path, err);
        picture_release(&picture);
    }
    canvas_close(&canvas);
    return status;
}
