// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/teas_chart.h"

#include "present/chart/canvas.h"

static enum status write_layout(const struct canvas *canvas, const struct teas_layout *layout, const char *path,
                                struct error *err) {
    struct picture picture;
    enum status status = teas_picture(layout, &picture, err);
    if (status != STATUS_OK)
        return status;
    status = canvas_write(canvas, &picture, path, err);
    picture_release(&picture);
    return status;
}

enum status teas_chart_write(const struct teas_chart_input *input, const char *path, size_t *ret_unlabelled,
                             struct error *err) {
    enum status status = canvas_check_suffix(path, err);
    if (status != STATUS_OK)
        return status;
    struct canvas canvas;
    status = canvas_open(&canvas, NULL, err);
    if (status != STATUS_OK)
        return status;
    struct text_metric metric = canvas_metric(&canvas);
    struct teas_layout layout;
    status = teas_layout_make(input, &metric, &layout, err);
    if (status == STATUS_OK) {
        status = write_layout(&canvas, &layout, path, err);
        if (status == STATUS_OK && ret_unlabelled)
            *ret_unlabelled = layout.unlabelled_count;
        teas_layout_release(&layout);
    }
    canvas_close(&canvas);
    return status;
}
