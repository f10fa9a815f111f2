// SPDX-License-Identifier: GPL-3.0-or-later
// GHS hazard pictograms as lines of a picture: a square set on a point, red frame, black symbol on white (UN GHS
// 1.4.10.4.2; Reg. (EC) 1272/2008 Annex I 1.2 and Annex V, from memory). The symbols are our own drawings.
#ifndef MILDSOLVE_PRESENT_CHART_PICTOGRAM_H
#define MILDSOLVE_PRESENT_CHART_PICTOGRAM_H

#include "present/chart/picture.h"

// Numbers as in GHS02 ... GHS09; explosives (1) and gases under pressure (4) are no hazards of our liquids.
bool pictogram_known(int number);
const char *pictogram_name(int number); // "flame"; NULL when not known

// From tip to tip of a square with sides of `side` pt.
double pictogram_width(double side);

// Draws into the upright square of pictogram_width(side) with its upper left corner at (x, y). The number must be
// known.
void pictogram_draw(struct picture *picture, int number, double x, double y, double side);

#endif
