"""Dense sampling: an upper bound of the distance between two solids that owes nothing to the modelling kernel.

Points all over the surface of one solid, each with its exact distance from the other.
"""

import math

import numpy as np
import shapely

from outline import outline_points
from solids import Slab

RINGS = 12  # how finely end faces and walls are sampled
ARC_STEP = 0.1  # mm; chords that stand for a slab's arcs


def surface_points(solid, step):
    return slab_points(solid, step) if isinstance(solid, Slab) else spool_points(solid, step)


def slab_points(slab, step):
    rim = np.array(outline_points(slab.discs, step))
    middle = rim.mean(axis=0)
    faces = np.concatenate([middle + share * (rim - middle) for share in np.linspace(0, 1, RINGS)])
    layers = [with_out(faces, slab.lo), with_out(faces, slab.hi)]
    return np.concatenate(layers + [with_out(rim, out) for out in np.linspace(slab.lo, slab.hi, RINGS)])


def with_out(points, out):
    return np.column_stack([points, np.full(len(points), out)])


def spool_points(spool, step):
    start, axis = np.array(spool.start), np.array(spool.axis)
    side = np.cross(axis, np.eye(3)[np.argmin(np.abs(axis))])
    side /= np.linalg.norm(side)
    widest = max(spool.start_radius, spool.end_radius)
    turns = np.linspace(0, math.tau, max(24, math.ceil(math.tau * widest / step)), endpoint=False)
    ring = np.outer(np.cos(turns), side) + np.outer(np.sin(turns), np.cross(axis, side))
    wall = [(t, spool.start_radius + t * (spool.end_radius - spool.start_radius))
            for t in np.linspace(0, 1, max(2, math.ceil(spool.length / step)))]
    ends = [(t, share * r) for t, r in (wall[0], wall[-1]) for share in np.linspace(0, 1, RINGS)]
    return np.concatenate([start + t * spool.length * axis + r * ring for t, r in wall + ends])


def distances_from(solid, points):
    """Distance of every point from the solid, 0 inside."""
    if isinstance(solid, Slab):
        outline = shapely.Polygon(outline_points(solid.discs, ARC_STEP))
        shapely.prepare(outline)
        flat = shapely.distance(outline, shapely.points(points[:, :2]))
        beyond = np.maximum(np.maximum(solid.lo - points[:, 2], points[:, 2] - solid.hi), 0)
        return np.hypot(flat, beyond)
    from_start = points - np.array(solid.start)
    along = from_start @ np.array(solid.axis)
    square = np.linalg.norm(from_start - np.outer(along, solid.axis), axis=1)
    half = shapely.Polygon([(0, 0), (solid.length, 0), (solid.length, solid.end_radius), (0, solid.start_radius)])
    return shapely.distance(half, shapely.points(along, square))


def sampled_gap(a, b, step):
    """Upper bound of the gap, at most about `step` too large; 0 where a sampled point lies in the other solid."""
    return min(
        float(distances_from(b, surface_points(a, step)).min()), float(distances_from(a, surface_points(b, step)).min())
    )
