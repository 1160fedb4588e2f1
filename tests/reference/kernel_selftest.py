"""Checks the reference itself: closed forms, and dense sampling of some random setups.

    python kernel_selftest.py
"""

import math

from coverage import pad_coverage
from draw_setups import draw_setup
from frames import default_setup, with_changes
from measure import Body, common, measure
from parts import pairs
from sampling import sampled_gap
from solids import Slab, Spool

SAMPLED_SETUPS = 3
SAMPLE_STEP = 3.0  # mm

PI = math.pi


def close(got, expected, tolerance, what):
    assert abs(got - expected) <= tolerance, f"{what}: expected {expected:.9f}, got {got:.9f}"


def gap_and_volume(a, b):
    result = measure(Body(a), Body(b))
    return result.gap, result.overlap_volume


def check(what, a, b, gap, volume=0.0):
    """Both ways round."""
    for first, second in ((a, b), (b, a)):
        got_gap, got_volume = gap_and_volume(first, second)
        close(got_gap, gap, 1e-6, f"{what}, gap")
        close(got_volume, volume, 1e-6 * max(1.0, volume), f"{what}, common volume")


def rod(start, end, radius):
    return Spool("rod", start, end, radius, radius)


def block(x0, x1, y0, y1, lo, hi):
    return Slab("block", ((x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)), lo, hi)


def volumes():
    stadium = Slab("stadium", ((0.0, 0.0, 5.0), (20.0, 0.0, 5.0)), 0.0, 2.0)
    inside = block(-50, 50, -50, 50, -50, 50)
    check("stadium in a block", stadium, inside, 0.0, 2 * (20 * 10 + PI * 25))
    # Hull of discs of radii 10 and 4, centres 20 apart: two tangents, and arcs of a half turn plus and minus twice the slant.
    slant = math.asin(6 / 20)
    area = 14 * math.sqrt(400 - 36) + 100 * (PI / 2 + slant) + 16 * (PI / 2 - slant)
    check("tapered hull in a block", Slab("hull", ((3.0, 1.0, 10.0), (3.0, 21.0, 4.0)), -1.0, 2.0), inside, 0.0, 3 * area)
    cone = Spool("cone", (0.0, 0.0, 0.0), (0.0, 0.0, 9.0), 8.0, 2.0)
    check("cone in a block", cone, inside, 0.0, PI * 9 / 3 * (64 + 16 + 4))
    turned = Slab("turned", ((4.0, 3.0, 0.0), (-3.0, 4.0, 0.0), (-4.0, -3.0, 0.0), (3.0, -4.0, 0.0)), 0.0, 1.0)
    check("turned square in a block", turned, inside, 0.0, 50.0)
    swallowed = Slab("disc", ((0.0, 0.0, 9.0), (1.0, 1.0, 2.0)), 0.0, 1.0)
    check("disc that swallows another", swallowed, inside, 0.0, PI * 81)


def gaps():
    upright = rod((0.0, 0.0, 0.0), (0.0, 100.0, 0.0), 10.0)
    check("parallel cylinders", upright, rod((30.0, 20.0, 0.0), (30.0, 60.0, 0.0), 5.0), 15.0)
    check("crossing cylinders", upright, rod((40.0, 50.0, -50.0), (40.0, 50.0, 50.0), 7.0), 23.0)
    check("cylinders end to end", upright, rod((0.0, 103.0, 0.0), (0.0, 120.0, 0.0), 4.0), 3.0)
    check("cylinder rim to block corner", upright, block(13, 30, 104, 120, -5, 5), 5.0)
    check("cylinder and flat face", upright, block(-30, 30, 20, 50, 14.5, 20), 4.5)
    check("cylinder and block edge", upright, block(18, 30, 20, 50, 6, 20), math.hypot(18, 6) - 10)
    check("discs side by side", Slab("a", ((0.0, 0.0, 10.0),), 0.0, 2.0), Slab("b", ((30.0, 40.0, 15.0),), 1.0, 3.0), 25.0)
    check("discs over each other", Slab("a", ((0.0, 0.0, 10.0),), 0.0, 2.0), Slab("b", ((3.0, 4.0, 15.0),), 2.25, 3.0), 0.25)

    cone = Spool("cone", (0.0, 0.0, 22.0), (0.0, 0.0, 0.0), 29.0, 280.0)
    slant = math.hypot(22, 251)
    for x in (60.0, 95.0, 150.0):  # the nearest place is the middle of a straight edge, 40 out
        gap = ((40 - 22) * 251 + (x - 29) * 22) / slant
        check(f"cone and edge at {x}", cone, block(x, x + 50, -38, 38, 40, 50), gap)
    corners = ((-103.308, 29.63, 0.0), (-90.621, 10.798, 0.0), (-90.336, -16.207, 0.0), (-96.18, -24.488, 0.0))
    near_seam = Slab("quad", corners, 46.28, 68.73)
    wide = Spool("wide cone", (0.0, 0.0, 39.1), (0.0, 0.0, 0.0), 36.925, 258.47)
    # Nearest: the foot of the axle on the long side, its distance from the axle, against the slope in the plane through it.
    ex, ey = -90.336 + 90.621, -16.207 - 10.798
    foot = abs(-90.621 * ey - 10.798 * ex) / math.hypot(ex, ey)
    drop, spread = 39.1, 258.47 - 36.925
    gap = ((46.28 - 39.1) * spread + (foot - 36.925) * drop) / math.hypot(drop, spread)
    check("cone and edge near the seam", wide, near_seam, gap)
    check("cone's small end", cone, block(-5, 5, -5, 5, 30, 50), 8.0)
    flat = Spool("flat", (0.0, 0.0, 5.0), (0.0, 0.0, 5.0), 30.0, 280.0)
    check("flat disc", flat, block(0, 5, 0, 5, 8, 9), 3.0)
    assert gap_and_volume(flat, block(0, 5, 0, 5, 5, 9)) == (0.0, 0.0), "flat disc in contact"


def overlaps():
    # A rod inside another, and a body that holds no corner of the other.
    big = rod((0.0, 0.0, 0.0), (0.0, 100.0, 0.0), 10.0)
    check("rod inside a rod", big, rod((1.0, 30.0, 1.0), (1.0, 40.0, 1.0), 3.0), 0.0, PI * 9 * 10)
    check("block through a rod", big, block(-50, 50, 20, 30, -1, 1), 0.0,
          10 * 2 * (math.sqrt(99) + 100 * math.asin(0.1)))
    check("touching along a line", big, block(-5, 5, 20, 30, 10, 15), 0.0, 0.0)
    volume, _ = common(Body(big).splines, Body(block(-50, 50, 20, 30, -1, 1)).splines)
    close(volume, 20 * (math.sqrt(99) + 100 * math.asin(0.1)), 1e-3, "common volume of splines")


def coverages():
    pad = {"caliper": {"pad": {"length": 30, "height": 16, "edge_inset": 0}}, "tab": {"reach": 0}}
    wheel = {"wheel": {"rotor_diameter": 203, "track_width": 20}}
    radius, half = 101.5, 15
    # Fully in the band but for the two top corners, where the rotor's edge falls away.
    under_arc = half * math.sqrt(radius**2 - half**2) + radius**2 * math.asin(half / radius)
    share = (under_arc - 30 * (radius - 16)) / (30 * 16)
    close(pad_coverage(with_changes(with_changes(default_setup(), pad), wheel)), share, 1e-7, "coverage under the edge")
    low = with_changes(with_changes(default_setup(), pad), {"wheel": {"track_width": 20}, "tab": {"reach": -2}})
    close(pad_coverage(low), 1.0, 1e-7, "full coverage")


def samples():
    seen = 0
    for index in range(SAMPLED_SETUPS):
        for name, (first, second) in pairs(draw_setup(1, index)).items():
            for a in first:
                for b in second:
                    gap, volume = gap_and_volume(a, b)
                    sampled = sampled_gap(a, b, SAMPLE_STEP)
                    what = f"setup {index}, {name}, {a.name}/{b.name}: kernel {gap:.6f}, {volume:.6f} mm3"
                    what += f", sampled {sampled:.6f}"
                    assert gap - 1e-3 <= sampled <= gap + SAMPLE_STEP, what
                    seen += 1
    return seen


if __name__ == "__main__":
    volumes()
    gaps()
    overlaps()
    coverages()
    print(f"reference self-test passed, {samples()} pairs of solids sampled")
