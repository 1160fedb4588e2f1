"""Pairs of solids apart, a millionth apart, touching and deep in each other; tiny ones, huge ones, tiny beside huge.

    python hard_pairs.py SEED [COUNT]     writes fixtures/reference/pairs.jsonl

The distance of each pair is the modelling kernel's, proved by a plane. Solids are convex: moved towards each other along
the line between their nearest points they keep those, so that the gap shrinks by the way moved. How deep one lies in
the other is the largest separation over all directions, searched for from many; the kernel confirms that the way out
parts them.
"""

import json
import math
import random
import sys

import numpy as np
from scipy.optimize import minimize

from frames import PROJECT
from measure import Body, KernelDoubt, distance, overlap, plane_gap, separation, unit
from solids import Slab, Spool

FILE = PROJECT / "fixtures" / "reference" / "pairs.jsonl"
SIZES = (0.1, 1.0, 10.0, 100.0, 1000.0)  # mm
BARELY = 1e-6  # mm
LOOKS = 4000  # directions from which the way out is searched
STARTS = 12
AMONG = 1e-4  # of the smaller solid's size: how much further than the depth parts a pair for the kernel


def spread(count):
    """Unit vectors all round, on a golden-angle spiral."""
    z = 1 - (2 * np.arange(count) + 1) / count
    angle = math.pi * (3 - math.sqrt(5)) * np.arange(count)
    square = np.sqrt(1 - z * z)
    return np.column_stack([square * np.cos(angle), square * np.sin(angle), z])


def draw_solid(rng, name, size):
    def between(low, high):
        return round(rng.uniform(low, high) * size, 9)

    if rng.random() < 0.5:
        corners = rng.randrange(1, 7)
        round_ones = corners < 3 or rng.random() < 0.5
        discs = tuple((between(-1, 1), between(-1, 1), between(0.1, 0.6) if round_ones else 0.0) for _ in range(corners))
        low = between(-0.5, 0.5)
        return Slab(name, discs, low, low + between(0.05, 1))
    start = (between(-1, 1), between(-1, 1), between(-1, 1))
    way = rng.choice(((1, 0, 0), (0, 1, 0), (0, 0, 1), unit(tuple(rng.gauss(0, 1) for _ in range(3)))))
    length = between(0.2, 2)
    radii = [between(0.1, 0.8)] * 2 if rng.random() < 0.5 else [between(0.1, 0.8), between(0.1, 0.8)]
    return Spool(name, start, tuple(a + length * b for a, b in zip(start, way)), *radii)


def moved(solid, way):
    if isinstance(solid, Slab):
        discs = tuple((x + way[0], y + way[1], r) for x, y, r in solid.discs)
        return Slab(solid.name, discs, solid.lo + way[2], solid.hi + way[2])
    ends = [tuple(a + b for a, b in zip(end, way)) for end in (solid.start, solid.end)]
    return Spool(solid.name, *ends, solid.start_radius, solid.end_radius)


def depth(a, b):
    """(depth, way out from a to b) of two solids that overlap."""
    looks = spread(LOOKS)
    found = np.array([plane_gap(a, b, tuple(n)) for n in looks])
    best, way = -math.inf, None
    for n in looks[np.argsort(found)[-STARTS:]]:
        answer = minimize(lambda v: -plane_gap(a, b, unit(tuple(v))), n, method="Nelder-Mead",
                          options={"xatol": 1e-12, "fatol": 1e-12, "maxiter": 4000, "initial_simplex": simplex(n)})
        if -answer.fun > best:
            best, way = -answer.fun, unit(tuple(answer.x))
    for n in natural(a, b):
        if plane_gap(a, b, n) > best:
            best, way = plane_gap(a, b, n), n
    return -best, way


def simplex(n):
    return np.vstack([n, n + 0.02 * np.eye(3)])


def natural(a, b):
    """Directions along and square to the axes of both, where the way out often lies."""
    axes = [(0.0, 0.0, 1.0) if isinstance(s.primitive, Slab) else s.primitive.axis for s in (a, b)]
    return [tuple(sign * x for x in axis) for axis in axes for sign in (1, -1)]


def plain(solid):
    if isinstance(solid, Slab):
        return {"discs": solid.discs, "low": solid.lo, "high": solid.hi}
    return {"ends": (solid.start, solid.end), "axis": solid.axis, "radii": (solid.start_radius, solid.end_radius)}


def cases_of(rng):
    """Records of one pair in every relation; the pair is drawn until the kernel can be sure of it."""
    sizes = [rng.choice(SIZES) for _ in range(2)]
    first, second = (draw_solid(rng, name, size) for name, size in zip("ab", sizes))
    heading = unit(tuple(rng.gauss(0, 1) for _ in range(3)))
    second = moved(second, tuple(2.5 * sum(sizes) * x for x in heading))
    a, b = Body(first), Body(second)
    if overlap(a, b) > 0:
        raise KernelDoubt("not apart")
    gap = separation(a, b)
    _, on_a, on_b = distance(a.shape, b.shape)
    if on_a is None or gap < 1e-3:
        raise KernelDoubt("not apart")
    normal = unit(tuple(q - p for p, q in zip(on_a, on_b)))
    if plane_gap(a, b, normal) < gap - BARELY / 10:
        raise KernelDoubt("the way between the nearest points is not good enough to move along")

    def shifted(by):
        return moved(second, tuple(-by * x for x in normal))

    for case, left in (("apart", gap), ("barely apart", BARELY), ("touching", 0.0)):
        yield record(case, first, shifted(gap - left), left)
    for share in (0.05, 0.6):
        inner = shifted(gap + share * min(sizes))
        c = Body(inner)
        deep, way = depth(a, c)
        if deep <= 0 or overlap(a, c) <= 0:
            raise KernelDoubt("no overlap")
        step = AMONG * min(sizes)
        if overlap(a, Body(moved(inner, tuple((deep + step) * x for x in way)))) > 0:
            raise KernelDoubt("the way out does not part them")
        yield record("overlapping", first, inner, -deep)


def record(case, first, second, gap):
    return {"case": case, "first": plain(first), "second": plain(second), "gap": gap}


def main(seed, count):
    records, doubts = [], 0
    for index in range(count):
        rng = random.Random(f"{seed}/{index}")
        while True:
            try:
                records.extend(list(cases_of(rng)))
                break
            except KernelDoubt:
                doubts += 1
    FILE.write_text("".join(json.dumps(record, separators=(",", ":")) + "\n" for record in records))
    print(f"{len(records)} records of {count} pairs; {doubts} draws that the kernel was not sure of")


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]) if len(sys.argv) > 2 else 40)
