"""The outline of the convex hull of discs, as exact lines and arcs."""

import math
from dataclasses import dataclass

ANGLE_EPS = 1e-12  # radians; tangents closer than this count as one


@dataclass(frozen=True)
class Line:
    start: tuple
    end: tuple


@dataclass(frozen=True)
class Arc:
    """Counter-clockwise from angle `begin` to `finish` (radians, begin < finish)."""

    centre: tuple
    radius: float
    begin: float
    finish: float

    def at(self, angle):
        return (self.centre[0] + self.radius * math.cos(angle), self.centre[1] + self.radius * math.sin(angle))


def reach(disc, angle):
    """How far the disc extends in the direction `angle`."""
    x, y, radius = disc
    return x * math.cos(angle) + y * math.sin(angle) + radius


def without_swallowed(discs):
    kept = []
    for disc in sorted(set(discs), key=lambda d: -d[2]):
        if all(math.dist(disc[:2], big[:2]) > big[2] - disc[2] for big in kept):
            kept.append(disc)
    return kept


def tangent_angles(discs):
    """Directions in which two discs reach equally far and no other disc reaches further."""
    angles = []
    for i, a in enumerate(discs):
        for b in discs[i + 1 :]:
            apart = math.dist(a[:2], b[:2])
            along = math.atan2(b[1] - a[1], b[0] - a[0])
            swing = math.acos((a[2] - b[2]) / apart)
            for angle in (along + swing, along - swing):
                if reach(a, angle) >= max(reach(d, angle) for d in discs) - 1e-9:
                    angles.append(angle % math.tau)
    angles.sort()
    return [a for i, a in enumerate(angles) if i == 0 or a - angles[i - 1] > ANGLE_EPS]


def hull_outline(discs):
    """Counter-clockwise lines and arcs around the hull of discs (x, y, radius)."""
    discs = without_swallowed(discs)
    if len(discs) == 1:
        x, y, radius = discs[0]
        return [Arc((x, y), radius, 0.0, math.tau)]

    angles = tangent_angles(discs)
    stretches = []  # (disc, begin, finish): the disc is outermost over that range of directions
    for begin, finish in zip(angles, angles[1:] + [angles[0] + math.tau]):
        middle = (begin + finish) / 2
        outermost = max(discs, key=lambda d: reach(d, middle))
        if stretches and stretches[-1][0] == outermost:
            stretches[-1] = (outermost, stretches[-1][1], finish)
        else:
            stretches.append((outermost, begin, finish))
    if len(stretches) > 1 and stretches[0][0] == stretches[-1][0]:
        disc, begin, _ = stretches.pop()
        stretches[0] = (disc, begin - math.tau, stretches[0][2])

    pieces = []
    for (disc, begin, finish), (following, _, _) in zip(stretches, stretches[1:] + stretches[:1]):
        arc = Arc(disc[:2], disc[2], begin, finish)
        if disc[2] > 0:
            pieces.append(arc)
        pieces.append(Line(arc.at(finish), Arc(following[:2], following[2], 0, 0).at(finish)))
    return pieces


def outline_points(discs, step):
    """Points on the outline, at most `step` apart."""
    points = []
    for piece in hull_outline(discs):
        if isinstance(piece, Arc):
            count = max(8, math.ceil(piece.radius * (piece.finish - piece.begin) / step))
            turn = (piece.finish - piece.begin) / count
            points += [piece.at(piece.begin + k * turn) for k in range(count)]
        else:
            count = max(1, math.ceil(math.dist(piece.start, piece.end) / step))
            points += [
                tuple(a + (b - a) * k / count for a, b in zip(piece.start, piece.end)) for k in range(count)
            ]
    return points
