// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/canvas.h"

#include "base/file.h"
#include "base/memory.h"

#include <dlfcn.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>
#include <unistd.h>

enum { PATH_SIZE = 4096 };

static const char module_file[] = "mildsolve-draw.so";

// Beside the program: the build directory, and its src/ where Meson puts what src/meson.build makes; then the places
// of an installation, relative to bin/ so that it can be moved, and as configured.
static const char *const beside_program[] = {"", "src/", "../src/", "../" MILDSOLVE_MODULE_SUBDIR "/"};

static draw_module_entry *entry_of(void *library) {
    // ISO C has no conversion from void * to a function; POSIX promises the bytes are the same.
    void *symbol = dlsym(library, DRAW_MODULE_ENTRY);
    draw_module_entry *entry = NULL;
    memcpy(&entry, &symbol, sizeof entry);
    return entry;
}

// Never unloaded: GLib and fontconfig keep what they made until the process ends.
static const struct draw_module *load(const char *path, struct error *err) {
    void *library = dlopen(path, RTLD_NOW | RTLD_LOCAL | RTLD_NODELETE);
    if (!library) {
        error_set(err, STATUS_SYSTEM, "cannot load the drawing module: %s", dlerror());
        return NULL;
    }
    draw_module_entry *entry = entry_of(library);
    const struct draw_module *module = entry ? entry() : NULL;
    if (!module || module->version != DRAW_MODULE_VERSION) {
        error_set(err, STATUS_SYSTEM, "'%s' belongs to another version of this program", path);
        return NULL;
    }
    return module;
}

// NULL with an empty *err when the file is not there.
static const struct draw_module *load_from(const char *directory, const char *below, struct error *err) {
    char path[PATH_SIZE];
    int length = snprintf(path, sizeof path, "%s/%s%s", directory, below, module_file);
    if (length < 0 || (size_t)length >= sizeof path || access(path, R_OK) != 0)
        return NULL;
    return load(path, err);
}

static bool program_directory(char *ret, size_t size) {
    ssize_t length = readlink("/proc/self/exe", ret, size - 1);
    if (length <= 0)
        return false;
    ret[length] = '\0';
    char *slash = strrchr(ret, '/');
    if (!slash)
        return false;
    *slash = '\0';
    return true;
}

static const struct draw_module *find(const char *directory, struct error *err) {
    if (directory)
        return load_from(directory, "", err);
    char program[PATH_SIZE];
    const struct draw_module *module = NULL;
    if (program_directory(program, sizeof program))
        for (size_t i = 0; !module && i < sizeof beside_program / sizeof beside_program[0]; i++)
            module = load_from(program, beside_program[i], err);
    return module ? module : load_from(MILDSOLVE_MODULE_DIR, "", err);
}

static const struct draw_host host = {memory_new, memory_free};

enum status canvas_open(struct canvas *canvas, const char *directory, struct error *err) {
    struct error why = {0};
    const struct draw_module *module = find(directory, &why);
    if (!module && why.text[0])
        return error_set(err, STATUS_SYSTEM, "%s", why.text);
    if (!module)
        return error_set(err, STATUS_SYSTEM,
                         "the drawing module %s is neither beside the program nor in %s; charts need it", module_file,
                         directory ? directory : MILDSOLVE_MODULE_DIR);
    struct draw_session *session = NULL;
    struct signal_hold signals = {0};
    signal_hold_begin(
        &signals); // Pango begins its threads for fonts at any text: none may take a signal that is to wait
    enum status status = module->open(&host, &session, err);
    if (status == STATUS_OK)
        *canvas = (struct canvas){module, session, signals};
    else
        signal_hold_end(&signals);
    return status;
}

void canvas_close(struct canvas *canvas) {
    if (!canvas || !canvas->module)
        return;
    canvas->module->close(canvas->session);
    struct signal_hold signals = canvas->signals;
    *canvas = (struct canvas){0};
    signal_hold_end(&signals);
}

struct text_metric canvas_metric(const struct canvas *canvas) {
    return (struct text_metric){canvas->module->text_width, canvas->session};
}

enum format { FORMAT_PNG, FORMAT_SVG, FORMAT_PDF, FORMATS };

static const char *const suffixes[FORMATS] = {".png", ".svg", ".pdf"};

static enum format format_of(const char *path) {
    const char *slash = strrchr(path, '/');
    const char *name = slash ? slash + 1 : path;
    const char *dot = strrchr(name, '.');
    for (int i = 0; dot && i < FORMATS; i++)
        if (strcasecmp(dot, suffixes[i]) == 0)
            return (enum format)i;
    return FORMATS;
}

enum status canvas_check_suffix(const char *path, struct error *err) {
    if (format_of(path) != FORMATS)
        return STATUS_OK;
    return error_set(err, STATUS_USAGE,
                     "cannot tell the kind of picture from '%s'; the name must end in .png, .svg or .pdf", path);
}

static enum status to_file(void *data, const void *bytes, size_t size, struct error *err) {
    return file_replace_write(data, bytes, size, err);
}

// Ends the file on its way: whole, or not at all.
static enum status settle(struct file_replacement *file, enum status status, struct error *err) {
    if (status == STATUS_OK)
        return file_replace_commit(file, err);
    file_replace_release(file);
    return status;
}

enum status canvas_write(const struct canvas *canvas, const struct picture *picture, const char *path,
                         struct error *err) {
    enum status status = canvas_check_suffix(path, err);
    if (status != STATUS_OK)
        return status;
    draw_function *const functions[FORMATS] = {canvas->module->png, canvas->module->svg, canvas->module->pdf};
    struct file_replacement file;
    status = file_replace_begin(&file, path, err);
    if (status != STATUS_OK)
        return status;
    struct draw_sink sink = {to_file, &file};
    status = functions[format_of(path)](canvas->session, picture, &sink, err);
    return settle(&file, status, err);
}

enum status canvas_write_pages(const struct canvas *canvas, const struct draw_pages *pages, const char *path,
                               struct error *err) {
    struct file_replacement file;
    enum status status = file_replace_begin(&file, path, err);
    if (status != STATUS_OK)
        return status;
    struct draw_sink sink = {to_file, &file};
    status = canvas->module->pdf_pages(canvas->session, pages, &sink, err);
    return settle(&file, status, err);
}
