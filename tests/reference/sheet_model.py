"""The plate once more, by the polygon library from the setup alone: discs, hulls, unions, and offsets for the fillets."""

import math

from frames import Frame
from parts import plate_parts
from shapely import affinity
from shapely.geometry import LineString, Point
from shapely.ops import unary_union

QUARTER = 1200  # sides to a quarter of a circle: less than 1e-5 mm off a disc of 30


def disc(back, up, radius):
    return Point(back, up).buffer(radius, quad_segs=QUARTER)


def hull(discs):
    return unary_union([disc(*one) for one in discs]).convex_hull


def plate(setup, radius, names=("eye", "neck", "lands", "web")):
    """Material without holes and slot, its inner corners closed by a disc of `radius`; (back, up)."""
    parts = [part for part in plate_parts(setup, Frame(setup)) if part.name in names]
    sharp = unary_union([hull(part.discs) for part in parts])
    if radius == 0:
        return sharp
    return sharp.buffer(radius, quad_segs=QUARTER).buffer(-radius, quad_segs=QUARTER)


def slot(setup, solid):
    """What is cut away at the axle, with its lead-in at 45 degrees from where each side leaves the plate."""
    dropout = setup["dropout"]
    half, chamfer = dropout["slot_width"] / 2, dropout["slot_chamfer"]
    if dropout["closed"]:
        return None
    way = math.radians(dropout["slot_direction"])
    along, square = (math.sin(way), math.cos(way)), (-math.cos(way), math.sin(way))

    def at(a, s):
        return (a * along[0] + s * square[0], a * along[1] + s * square[1])

    cuts = [LineString([(0, 0), at(400, 0)]).buffer(half, quad_segs=QUARTER)]
    if chamfer > 0:
        for side in (half, -half):
            ray = LineString([at(0, side), at(400, side)])
            exit_at = math.dist(at(0, side), min(
                ray.intersection(solid.boundary).geoms if ray.intersection(solid.boundary).geom_type != "Point" else [ray.intersection(solid.boundary)],
                key=lambda point: math.dist(at(0, side), (point.x, point.y)),
            ).coords[0])
            start, far = exit_at - chamfer, chamfer * 4
            out = math.copysign(1, side)
            cuts.append(LineString([at(start, side), at(start + far, side + out * far), at(start + far, side)]).convex_hull)
    return unary_union(cuts)


def piece(setup, key, radius):
    """The polygon of a piece as it is seen on its outer face, or None where this model has none."""
    names = {"plate": ("eye", "neck", "lands", "web"), "other_side": ("eye", "neck"), "dropout": ("eye", "neck")}.get(key)
    if names is None or key == "dropout" and setup["tab"]["build"] != "one_piece":
        return None
    solid = plate(setup, radius, names)
    cut = slot(setup, solid)
    if cut is not None:
        solid = max(parts_of(solid.difference(cut)), key=lambda part: part.area)
    across = 1 if setup["side"] == "left" else -1
    if key == "other_side":
        across = -across
    return affinity.scale(solid, across, 1, origin=(0, 0))


def parts_of(shape):
    return list(getattr(shape, "geoms", [shape]))
