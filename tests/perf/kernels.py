"""Times the gaps of the default setup in three libraries and prints ratios: this one, a solid-modelling kernel and a
collision library. Shapes are built beforehand; timed is what finds the gaps. One run, not a test.

    python kernels.py GAP_TIMES_PROGRAM SETUP.json
"""

import json
import math
import subprocess
import sys
import time
from pathlib import Path

import fcl
import numpy

sys.path.insert(0, str(Path(__file__).parents[1] / "reference"))

from measure import Body, distance  # noqa: E402
from outline import outline_points  # noqa: E402
from parts import pairs  # noqa: E402
from solids import Slab  # noqa: E402

ROUND_CORNERS = 96  # a circle is a polygon of this many corners in the collision library
ROUNDS = 20


def prism(low, high):
    """A convex mesh between two rings of as many points each."""
    count = len(low)
    faces = [count, *range(count - 1, -1, -1), count, *range(count, 2 * count)]
    for i in range(count):
        j = (i + 1) % count
        faces += [4, i, j, count + j, count + i]
    return fcl.Convex(numpy.array(low + high), count + 2, numpy.array(faces))


def mesh(primitive):
    if isinstance(primitive, Slab):
        widest = max(disc[2] for disc in primitive.discs)
        step = widest * math.tau / ROUND_CORNERS if widest > 0 else 1e9
        ring = outline_points(primitive.discs, step)
        return prism([(x, y, primitive.lo) for x, y in ring], [(x, y, primitive.hi) for x, y in ring])
    across = numpy.eye(3)[numpy.argmin(numpy.abs(primitive.axis))]
    first = numpy.cross(primitive.axis, across)
    first /= numpy.linalg.norm(first)
    second = numpy.cross(primitive.axis, first)
    angles = [k * math.tau / ROUND_CORNERS for k in range(ROUND_CORNERS)]

    def ring(centre, radius):
        return [tuple(numpy.array(centre) + radius * (math.cos(a) * first + math.sin(a) * second)) for a in angles]

    return prism(ring(primitive.start, primitive.start_radius), ring(primitive.end, primitive.end_radius))


def per_round(work):
    """Microseconds for one round, the median of several."""
    times = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        work()
        times.append((time.perf_counter() - start) * 1e6)
    return sorted(times)[ROUNDS // 2]


def main(program, setup_file):
    setup = json.loads(Path(setup_file).read_text())
    couples = [(a, b) for first, second in pairs(setup).values() for a in first for b in second]
    shapes = {p: Body(p).shape for couple in couples for p in couple}
    meshes = {p: fcl.CollisionObject(mesh(p)) for couple in couples for p in couple}

    def kernel():
        for a, b in couples:
            distance(shapes[a], shapes[b])

    def collision():
        for a, b in couples:
            fcl.distance(meshes[a], meshes[b], fcl.DistanceRequest(), fcl.DistanceResult())

    ours = float(subprocess.run([program, setup_file], check=True, capture_output=True, text=True).stdout)
    print(f"{len(couples)} pairs of solids in {Path(setup_file).name}, microseconds for all of them, once each:")
    for name, found in (("tabwright-core", ours), ("cadquery-ocp", per_round(kernel)), ("python-fcl", per_round(collision))):
        print(f"  {name:15} {found:10.1f}   {found / ours:8.1f} x")
    print(f"python-fcl: circles as {ROUND_CORNERS}-gons, no depth where solids overlap; its calls through Python are counted.")


if __name__ == "__main__":
    main(*sys.argv[1:])
