"""Gap and common volume of two solids by the modelling kernel, each answer proved.

The kernel's distance search can miss the nearest place, for one between a straight edge and a cone, and return a local
solution instead. Two convex solids allow a proof: the plane square to the line between the two nearest points must
leave each solid wholly on its own side, and as far apart as the kernel says. An answer that fails it is asked again
with the surfaces turned into rational splines (the same surfaces, another search), then with the seams of the round
surfaces elsewhere; one that still fails is an error.
Common volume has a witness too: the centre of the common part must not lie outside either solid.
"""

import math
from collections import Counter
from dataclasses import dataclass
from functools import cached_property

from OCP.Bnd import Bnd_Box
from OCP.BRepAlgoAPI import BRepAlgoAPI_Common
from OCP.BRepBndLib import BRepBndLib
from OCP.BRepBuilderAPI import BRepBuilderAPI_NurbsConvert
from OCP.BRepExtrema import BRepExtrema_DistShapeShape
from OCP.BRepGProp import BRepGProp
from OCP.GProp import GProp_GProps

TOUCH = 1e-7  # mm; the kernel's own confusion distance
PROOF = 1e-6  # mm; how closely a separating plane must confirm the kernel's distance
OUTSIDE = 1e-4  # mm; how far a common part's centre may seem to lie outside a solid
SEAM_TURN = 1.0  # radians
AXES = ((1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1))
FIRST_TILT = 1e-4  # radians
TILT_ROUNDS = 300

tally = Counter()  # how the answers of this process came about


class KernelDoubt(Exception):
    """The kernel's answer could not be confirmed."""


@dataclass(frozen=True)
class Measure:
    gap: float
    overlap_volume: float


class Body:
    """A primitive with its kernel shape, the same shape in splines and with its seam elsewhere, and its bounding box."""

    def __init__(self, primitive):
        self.primitive = primitive
        self.name = primitive.name
        self.shape = primitive.shape()
        self.box = Bnd_Box()
        BRepBndLib.AddOptimal_s(self.shape, self.box, False, False)

    @cached_property
    def splines(self):
        return BRepBuilderAPI_NurbsConvert(self.shape, True).Shape()

    @cached_property
    def turned(self):
        return self.primitive.shape(seam=SEAM_TURN)

    @cached_property
    def turned_splines(self):
        return BRepBuilderAPI_NurbsConvert(self.turned, True).Shape()


def common(first, second):
    """(volume, centre) of the common part of two shapes."""
    part = BRepAlgoAPI_Common(first, second)
    if not part.IsDone():
        raise KernelDoubt("no common part could be computed")
    properties = GProp_GProps()
    BRepGProp.VolumeProperties_s(part.Shape(), properties)
    centre = properties.CentreOfMass()
    return properties.Mass(), (centre.X(), centre.Y(), centre.Z())


def distance(first, second):
    """(distance, point on first, point on second); 0 and no points where a vertex lies inside the other shape."""
    search = BRepExtrema_DistShapeShape(first, second)
    if not search.IsDone() or search.NbSolution() == 0:
        raise KernelDoubt("no distance could be computed")
    if search.InnerSolution():
        return 0.0, None, None
    p, q = search.PointOnShape1(1), search.PointOnShape2(1)
    return search.Value(), (p.X(), p.Y(), p.Z()), (q.X(), q.Y(), q.Z())


def plane_gap(a, b, n):
    """How far apart the planes square to n are that hold a on the near side and b on the far side."""
    return -b.primitive.support(tuple(-x for x in n)) - a.primitive.support(n)


def confirmed(a, b, gap, on_a, on_b):
    """True when some plane parts the solids by `gap`; the search starts square to the line between the points.

    A rounding of 1e-8 mm in the points tilts a plane along a 300 mm tube by microns, hence the search. The plane is
    tilted eight ways, each round's ways between the last one's, by less and less where no way parts the solids further.
    """
    n = unit(tuple(q - p for p, q in zip(on_a, on_b)))
    best = plane_gap(a, b, n)
    step = FIRST_TILT
    for round_number in range(TILT_ROUNDS):
        if best >= gap - PROOF:
            break
        reached, steered = max((plane_gap(a, b, m), m) for m in tilted(n, step, round_number))
        if reached > best:
            best, n = reached, steered
        else:
            step *= 0.8
    if best > gap + PROOF:
        raise KernelDoubt(f"{a.name}/{b.name}: points {gap:.9f} apart, planes {best:.9f} apart")
    return best >= gap - PROOF


def tilted(n, step, round_number):
    """Eight unit vectors around n, `step` radians from it."""
    smallest = min(range(3), key=lambda i: abs(n[i]))
    first = unit(cross(n, tuple(float(i == smallest) for i in range(3))))
    second = cross(n, first)
    for way in range(8):
        angle = round_number + way * math.tau / 8
        c, s = step * math.cos(angle), step * math.sin(angle)
        yield unit(tuple(x + c * u + s * v for x, u, v in zip(n, first, second)))


def cross(u, v):
    return (u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0])


def unit(vector):
    length = math.sqrt(sum(x * x for x in vector))
    return tuple(x / length for x in vector)


def in_contact(a, b):
    """True when a plane square to one of the axes touches both solids and parts them."""
    return any(abs(plane_gap(a, b, n)) <= TOUCH for n in AXES)


def overlap(a, b):
    """Volume of the common part, 0 where there is none; a positive one is witnessed by its centre."""
    if a.box.IsOut(b.box) or in_contact(a, b):
        return 0.0
    for kind, first, second in (("plain", a.shape, b.shape), ("splines", a.splines, b.splines)):
        volume, centre = common(first, second)
        if volume <= 0:
            return 0.0
        if max(a.primitive.outside(centre), b.primitive.outside(centre)) <= OUTSIDE:
            tally[f"overlap, {kind}"] += 1
            return volume
    raise KernelDoubt(f"{a.name}/{b.name}: common volume {volume:.9f} about {centre}, which is outside")


def separation(a, b):
    """Distance between two solids without common volume."""
    answers = []
    for kind, first, second in (
        ("plain", a.shape, b.shape),
        ("second in splines", a.shape, b.splines),
        ("first in splines", a.splines, b.shape),
        ("both in splines", a.splines, b.splines),
        ("seams turned", a.turned, b.turned),
        ("seams turned, in splines", a.turned_splines, b.turned_splines),
    ):
        gap, on_a, on_b = distance(first, second)
        answers.append(f"{kind} {gap:.9f}")
        if gap <= TOUCH and in_contact(a, b):
            tally["contact"] += 1
            return 0.0
        if gap > TOUCH and confirmed(a, b, gap, on_a, on_b):
            tally[f"gap, {kind}"] += 1
            return gap
    raise KernelDoubt(f"{a.name}/{b.name}: no distance could be proved: {', '.join(answers)}")


def measure(a, b):
    volume = overlap(a, b)
    return Measure(0.0, volume) if volume > 0 else Measure(separation(a, b), 0.0)
