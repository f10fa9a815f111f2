// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/pictogram.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

// Drawn on a field of 1000 by 1000 whose sides' middles are the tips of the square; y downwards.
#define FIELD 1000.0
// Width of the red frame, across; about a fourteenth of the side, so 0.7 mm of the smallest pictogram of 10 mm.
#define FRAME 50.0

enum { SPOTS_MAX = 256, CURVE_STEPS = 10 };

// An outline: M x y begins, L x y goes straight, C x y x y x y curves (cubic Bezier), whole numbers only; closed and
// filled.
struct outline {
    bool white; // a hole in what lies below
    const char *path;
};

#define DISC(white_hole, x, y, r)                                                                                      \
    { white_hole, "O " #x " " #y " " #r }

static const struct outline flame[] = {
    {false, "M 415 668 C 285 625 285 505 365 405 C 372 450 385 478 412 492 C 395 385 440 275 545 195 C 535 300 610 340 "
            "632 440 C 655 420 662 395 660 365 C 735 470 735 625 590 668 Z"},
    {true, "M 470 655 C 405 620 410 560 480 490 C 490 535 520 545 530 580 C 545 570 550 555 550 540 C 590 590 580 640 "
           "530 655 Z"},
    {false, "M 345 705 L 655 705 L 655 750 L 345 750 Z"},
};

static const struct outline flame_over_circle[] = {
    {false, "M 440 470 C 360 445 350 360 400 295 C 405 325 415 342 430 350 C 425 280 455 200 525 140 C 520 215 570 245 "
            "585 310 C 600 298 605 280 604 262 C 650 330 650 440 560 470 Z"},
    {true, "M 475 455 C 440 430 445 395 487 350 C 493 380 510 385 517 410 C 527 402 530 392 530 382 C 555 410 550 440 "
           "520 455 Z"},
    DISC(false, 500, 610, 130),
    DISC(true, 500, 610, 82),
    {false, "M 395 762 L 605 762 L 605 800 L 395 800 Z"},
};

static const struct outline corrosion[] = {
    // a tube drips on a metal bar
    {false, "M 282 350 L 427 190 C 455 165 505 212 483 241 L 338 401 Z"},
    {true, "M 297 360 L 434 214 C 445 205 468 225 459 239 L 323 386 Z"},
    {false, "M 278 332 L 357 404 L 343 420 L 264 348 Z"},
    {false, "M 292 412 C 318 452 318 478 292 478 C 266 478 266 452 292 412 Z"},
    {false, "M 292 492 C 322 540 322 570 292 570 C 262 570 262 540 292 492 Z"},
    {false, "M 205 610 L 236 610 C 246 650 338 650 348 610 L 470 610 L 470 685 L 280 685 Z"},
    // and one on a hand
    {false, "M 718 350 L 573 190 C 545 165 495 212 517 241 L 662 401 Z"},
    {true, "M 703 360 L 566 214 C 555 205 532 225 541 239 L 677 386 Z"},
    {false, "M 722 332 L 643 404 L 657 420 L 736 348 Z"},
    {false, "M 708 412 C 682 452 682 478 708 478 C 734 478 734 452 708 412 Z"},
    {false, "M 708 492 C 678 540 678 570 708 570 C 738 570 738 540 708 492 Z"},
    {false, "M 535 632 C 532 612 560 606 580 608 L 652 610 C 662 650 752 650 762 606 L 790 606 L 715 690 L 665 692 C "
            "640 694 630 690 615 684 L 560 660 C 545 654 537 645 535 632 Z"},
    {false, "M 640 680 C 620 712 585 726 552 716 C 540 706 548 694 570 692 L 605 670 Z"},
};

static const struct outline skull[] = {
    // two crossed bones
    {false, "M 300 575 C 300 545 335 535 352 556 C 375 540 405 560 392 588 L 690 668 C 705 690 690 715 668 708 C 662 "
            "730 628 735 622 708 L 615 686 L 345 612 C 322 622 298 600 300 575 Z"},
    {false, "M 700 575 C 700 545 665 535 648 556 C 625 540 595 560 608 588 L 310 668 C 295 690 310 715 332 708 C 338 "
            "730 372 735 378 708 L 385 686 L 655 612 C 678 622 702 600 700 575 Z"},
    // white round the skull, then the skull
    {true,
     "M 500 165 C 620 165 690 250 675 350 C 665 410 630 430 610 450 L 610 560 L 390 560 L 390 450 C 370 430 335 410 "
     "325 350 C 310 250 380 165 500 165 Z"},
    {false,
     "M 500 185 C 605 185 665 260 652 345 C 642 400 600 415 592 440 L 590 520 C 570 545 430 545 410 520 L 408 440 C "
     "400 415 358 400 348 345 C 335 260 395 185 500 185 Z"},
    DISC(true, 437, 340, 48),
    DISC(true, 563, 340, 48),
    {true, "M 500 395 L 525 445 L 475 445 Z"},
    {true, "M 447 480 L 457 480 L 457 535 L 447 532 Z"},
    {true, "M 494 480 L 506 480 L 506 540 L 494 540 Z"},
    {true, "M 543 480 L 553 480 L 553 532 L 543 535 Z"},
};

static const struct outline exclamation[] = {
    {false, "M 430 250 C 430 170 570 170 570 250 L 540 575 C 535 620 465 620 460 575 Z"},
    DISC(false, 500, 710, 62),
};

static const struct outline health_hazard[] = {
    {false,
     "M 500 150 C 560 150 590 195 580 255 C 572 300 555 320 550 335 L 552 375 C 570 410 660 410 685 450 C 710 495 "
     "715 560 715 640 L 590 765 L 410 765 L 285 640 C 285 560 290 495 315 450 C 340 410 430 410 448 375 L 450 335 C "
     "445 320 428 300 420 255 C 410 195 440 150 500 150 Z"},
    {true,
     "M 500 420 L 530 515 L 625 470 L 570 560 L 680 600 L 565 625 L 600 720 L 515 660 L 480 755 L 455 655 L 350 700 "
     "L 415 610 L 320 560 L 430 545 L 405 450 L 475 510 Z"},
};

static const struct outline environment[] = {
    // bare tree on its ground
    {false,
     "M 335 640 C 352 560 352 470 338 405 L 262 345 L 278 330 L 342 378 L 336 275 L 362 272 L 372 362 L 428 262 L "
     "450 274 L 390 390 C 390 420 392 440 396 458 L 474 382 L 488 398 L 402 498 C 404 560 412 600 430 640 Z"},
    {false, "M 235 640 L 530 640 C 500 682 440 690 400 715 L 310 715 Z"},
    // fish on its back
    {false, "M 500 548 C 545 470 645 462 715 528 L 770 478 L 762 556 L 778 612 L 708 580 C 645 640 545 620 500 548 Z"},
    DISC(true, 556, 552, 18),
    // water
    {false,
     "M 450 706 C 482 682 512 702 544 680 C 576 660 606 680 638 666 C 664 655 684 668 706 654 L 722 650 L 605 765 "
     "L 395 765 L 352 728 C 395 730 430 722 450 706 Z"},
};

static const struct {
    int number;
    const char *name;
    const struct outline *outlines;
    size_t count;
} symbols[] = {
#define SYMBOL(number, name, array)                                                                                    \
    { number, name, array, sizeof(array) / sizeof((array)[0]) }
    SYMBOL(2, "flame", flame),
    SYMBOL(3, "flame over circle", flame_over_circle),
    SYMBOL(5, "corrosion", corrosion),
    SYMBOL(6, "skull and crossbones", skull),
    SYMBOL(7, "exclamation mark", exclamation),
    SYMBOL(8, "health hazard", health_hazard),
    SYMBOL(9, "environment", environment),
};
static const size_t symbol_count = sizeof symbols / sizeof symbols[0];

static size_t symbol_of(int number) {
    for (size_t i = 0; i < symbol_count; i++)
        if (symbols[i].number == number)
            return i;
    return symbol_count;
}

bool pictogram_known(int number) {
    return symbol_of(number) < symbol_count;
}

const char *pictogram_name(int number) {
    return pictogram_known(number) ? symbols[symbol_of(number)].name : NULL;
}

double pictogram_width(double side) {
    return side * sqrt(2);
}

// --- drawing ---

// Where the field lies on the page.
struct placing {
    double x, y, scale;
};

static struct spot placed(const struct placing *at, struct spot field) {
    return (struct spot){at->x + field.x * at->scale, at->y + field.y * at->scale};
}

static struct spot read_spot(const char **path) {
    char *end;
    double x = (double)strtol(*path, &end, 10);
    double y = (double)strtol(end, &end, 10);
    *path = end;
    return (struct spot){x, y};
}

struct tracing {
    struct spot spots[SPOTS_MAX];
    size_t count;
};

static void trace(struct tracing *tracing, struct spot spot) {
    assert(tracing->count < SPOTS_MAX);
    tracing->spots[tracing->count++] = spot;
}

static void trace_curve(struct tracing *tracing, const char **path) {
    struct spot a = tracing->spots[tracing->count - 1];
    struct spot b = read_spot(path), c = read_spot(path), d = read_spot(path);
    for (int i = 1; i <= CURVE_STEPS; i++) {
        double t = (double)i / CURVE_STEPS, u = 1 - t;
        double wa = u * u * u, wb = 3 * u * u * t, wc = 3 * u * t * t, wd = t * t * t;
        trace(tracing,
              (struct spot){wa * a.x + wb * b.x + wc * c.x + wd * d.x, wa * a.y + wb * b.y + wc * c.y + wd * d.y});
    }
}

static void trace_path(struct tracing *tracing, const char *path) {
    while (*path) {
        char step = *path++;
        if (step == 'M' || step == 'L')
            trace(tracing, read_spot(&path));
        else if (step == 'C')
            trace_curve(tracing, &path);
        else
            assert(step == 'Z' || step == ' ');
    }
}

static void draw_outline(struct picture *picture, const struct placing *at, const struct outline *outline) {
    struct picture_paint paint = {NULL, true, outline->white ? INK_WHITE : INK_BLACK};
    const char *path = outline->path;
    if (*path == 'O') {
        path++;
        struct spot centre = read_spot(&path);
        picture_disc(picture, placed(at, centre), (double)strtol(path, NULL, 10) * at->scale, paint);
        return;
    }
    struct tracing tracing = {.count = 0};
    trace_path(&tracing, path);
    for (size_t i = 0; i < tracing.count; i++)
        tracing.spots[i] = placed(at, tracing.spots[i]);
    picture_path(picture, tracing.spots, tracing.count, true, paint);
}

static void draw_square(struct picture *picture, const struct placing *at, double inset, enum ink ink) {
    double half = FIELD / 2, reach = half - inset;
    struct spot corners[] = {{half, half - reach}, {half + reach, half}, {half, half + reach}, {half - reach, half}};
    for (size_t i = 0; i < 4; i++)
        corners[i] = placed(at, corners[i]);
    picture_path(picture, corners, 4, true, (struct picture_paint){NULL, true, ink});
}

void pictogram_draw(struct picture *picture, int number, double x, double y, double side) {
    size_t symbol = symbol_of(number);
    assert(symbol < symbol_count);
    struct placing at = {x, y, pictogram_width(side) / FIELD};
    draw_square(picture, &at, 0, INK_RED);
    draw_square(picture, &at, FRAME * sqrt(2), INK_WHITE);
    for (size_t i = 0; i < symbols[symbol].count; i++)
        draw_outline(picture, &at, &symbols[symbol].outlines[i]);
}
