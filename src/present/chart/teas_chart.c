// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/teas_chart.h"

#include "present/chart/chart_file.h"

struct job {
    const struct teas_chart_input *input;
    size_t unlabelled;
};

static enum status paint(void *data, const struct text_metric *metric, struct picture *ret, struct error *err) {
    struct job *job = data;
    struct teas_layout layout;
    enum status status = teas_layout_make(job->input, metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    job->unlabelled = layout.unlabelled_count;
    status = teas_picture(&layout, ret, err);
    teas_layout_release(&layout);
    return status;
}

enum status teas_chart_write(const struct teas_chart_input *input, const char *path, size_t *ret_unlabelled,
                             struct error *err) {
    struct job job = {input, 0};
    enum status status = chart_file_write(path, paint, &job, err);
    if (status == STATUS_OK && ret_unlabelled)
        *ret_unlabelled = job.unlabelled;
    return status;
}
