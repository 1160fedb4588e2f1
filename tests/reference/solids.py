"""The two primitives, as plain data and as solids of the modelling kernel.

Slab: the convex hull of discs (back, up, radius), from out = lo to out = hi.
Spool: the convex hull of two coaxial circles.
A full turn has a seam, where the kernel's surface begins and ends; `seam` turns it, in radians.
"""

import math
from dataclasses import dataclass

from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_MakeVertex,
)
from OCP.BRepPrimAPI import BRepPrimAPI_MakeCone, BRepPrimAPI_MakeCylinder, BRepPrimAPI_MakePrism
from OCP.Geom import Geom_Circle
from OCP.gp import gp_Ax2, gp_Circ, gp_Dir, gp_Pnt, gp_Vec

from outline import Arc, hull_outline

LOOKS = 720  # directions in which a point is compared with a slab's outline


@dataclass(frozen=True)
class Slab:
    name: str
    discs: tuple
    lo: float
    hi: float

    def support(self, n):
        """How far the solid extends in direction n."""
        flat = math.hypot(n[0], n[1])
        sideways = max(n[2] * self.lo, n[2] * self.hi)
        return sideways + max(x * n[0] + y * n[1] + r * flat for x, y, r in self.discs)

    def outside(self, point):
        """How far the point lies outside, looking along many directions; negative inside."""
        x, y, z = point
        planes = [self.lo - z, z - self.hi]
        for k in range(LOOKS):
            c, s = math.cos(k * math.tau / LOOKS), math.sin(k * math.tau / LOOKS)
            planes.append(x * c + y * s - max(u * c + v * s + r for u, v, r in self.discs))
        return max(planes)

    def shape(self, seam=0.0):
        prism = BRepPrimAPI_MakePrism(self._face(seam), gp_Vec(0, 0, self.hi - self.lo))
        return prism.Shape()

    def _face(self, seam):
        pieces = hull_outline(self.discs)
        wire = BRepBuilderAPI_MakeWire()
        corners = [self._vertex(p.at(p.begin) if isinstance(p, Arc) else p.start) for p in pieces]
        for piece, start, end in zip(pieces, corners, corners[1:] + corners[:1]):
            wire.Add(self._edge(piece, start, end, seam))
        return BRepBuilderAPI_MakeFace(wire.Wire(), True).Face()

    def _edge(self, piece, start, end, seam):
        if not isinstance(piece, Arc):
            return BRepBuilderAPI_MakeEdge(start, end).Edge()
        axes = gp_Ax2(gp_Pnt(*piece.centre, self.lo), gp_Dir(0, 0, 1), gp_Dir(1, 0, 0))
        circle = gp_Circ(axes, piece.radius)
        if piece.finish - piece.begin == math.tau:
            return BRepBuilderAPI_MakeEdge(circle.Rotated(circle.Axis(), seam)).Edge()
        return BRepBuilderAPI_MakeEdge(Geom_Circle(circle), start, end, piece.begin, piece.finish).Edge()

    def _vertex(self, point):
        return BRepBuilderAPI_MakeVertex(gp_Pnt(*point, self.lo)).Vertex()


@dataclass(frozen=True)
class Spool:
    name: str
    start: tuple
    end: tuple
    start_radius: float
    end_radius: float

    @property
    def length(self):
        return math.dist(self.start, self.end)

    @property
    def axis(self):
        """Unit vector from start to end; a flat spool lies square to `out`."""
        if self.length == 0:
            return (0.0, 0.0, 1.0)
        return tuple((b - a) / self.length for a, b in zip(self.start, self.end))

    def support(self, n):
        along = sum(a * b for a, b in zip(n, self.axis))
        square = math.sqrt(max(0.0, sum((a - along * b) ** 2 for a, b in zip(n, self.axis))))
        ends = ((self.start, self.start_radius), (self.end, self.end_radius))
        return max(sum(a * b for a, b in zip(point, n)) + radius * square for point, radius in ends)

    def outside(self, point):
        """How far the point lies outside its wall (square to the axis) or its ends; negative inside."""
        from_start = tuple(p - q for p, q in zip(point, self.start))
        along = sum(a * b for a, b in zip(from_start, self.axis))
        square = math.sqrt(max(0.0, sum(a * a for a in from_start) - along * along))
        share = along / self.length if self.length else 0.0
        radius = self.start_radius + share * (self.end_radius - self.start_radius)
        return max(-along, along - self.length, square - radius)

    def shape(self, seam=0.0):
        axes = gp_Ax2(gp_Pnt(*self.start), gp_Dir(*self.axis))
        axes.Rotate(axes.Axis(), seam)
        if self.length == 0:
            edge = BRepBuilderAPI_MakeEdge(gp_Circ(axes, max(self.start_radius, self.end_radius))).Edge()
            return BRepBuilderAPI_MakeFace(BRepBuilderAPI_MakeWire(edge).Wire(), True).Face()
        if self.start_radius == self.end_radius:
            return BRepPrimAPI_MakeCylinder(axes, self.start_radius, self.length).Solid()
        return BRepPrimAPI_MakeCone(axes, self.start_radius, self.end_radius, self.length).Solid()
