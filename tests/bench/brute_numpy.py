#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Brute force over the blends of exactly K bottles, vectorised with NumPy, as a yardstick for bench_search.

Standard input: a line "remove D P H LIMIT", a line "spare D P H" (stretched coordinates 2 delta_d, delta_p, delta_h; the
limit is a distance), then one line "D P H" a bottle. Arguments: K, STEPS, and the seconds after which it stops.
Prints: blends looked at, seconds, largest distance from the spared among those inside.
"""
import itertools
import sys
import time

import numpy


def compositions(k, steps):
    return numpy.array([c for c in itertools.product(range(1, steps), repeat=k) if sum(c) == steps], dtype=float) / steps


def sets_in_chunks(bottles, k, size):
    sets = itertools.combinations(range(bottles), k)
    while True:
        chunk = list(itertools.islice(sets, size))
        if not chunk:
            return
        yield numpy.array(chunk)


def main():
    k, steps, most_seconds = int(sys.argv[1]), int(sys.argv[2]), float(sys.argv[3])
    lines = [line.split() for line in sys.stdin]
    remove, limit = numpy.array(lines[0][1:4], dtype=float), float(lines[0][4])
    spare = numpy.array(lines[1][1:4], dtype=float)
    places = numpy.array(lines[2:], dtype=float)
    start = time.process_time()
    shares = compositions(k, steps)
    best, looked_at = 0.0, 0
    for chunk in sets_in_chunks(len(places), k, max(1, 200000 // len(shares))):
        x = shares @ places[chunk]  # sets, compositions, 3
        inside = ((x - remove) ** 2).sum(axis=2) <= limit**2
        away = ((x - spare) ** 2).sum(axis=2)
        best = max(best, numpy.where(inside, away, 0).max())
        looked_at += inside.size
        if time.process_time() - start > most_seconds:
            break
    print(looked_at, time.process_time() - start, repr(float(best) ** 0.5))


main()
