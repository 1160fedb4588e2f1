"""The plate once more, by the polygon library from the setup alone: discs, hulls, unions, and offsets for the fillets."""

import math

from frames import Frame
from parts import plate_parts
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.polygon import orient
from shapely.ops import unary_union

QUARTER = 600  # sides to a quarter of a circle: less than 3e-5 mm off a disc of 30
OVERLAP = 1e-6  # mm; what only touches may stay apart in a union
TOUCH = 6e-5  # mm; makes up for the disc's sides, so that it does touch
SMOOTH = 0.02  # radians; sides of a disc bend the other way, by less


def disc(back, up, radius):
    return Point(back, up).buffer(radius, quad_segs=QUARTER)


def hull(discs):
    return unary_union([disc(*one) for one in discs]).convex_hull


def plate(setup, radius, names=("eye", "neck", "lands", "web")):
    """Material without holes and slot, its inner corners filled by a disc of `radius`; (back, up).

    The library's own offset drops corners of outlines with this many sides, so fillets are made one by one: a disc of that
    radius touches two of the parts where the parts, each grown by it, cross.
    """
    parts = [part.discs for part in plate_parts(setup, Frame(setup)) if part.name in names]
    solids = [hull(discs) for discs in parts]
    sharp = unary_union(solids)
    if radius == 0:
        return sharp
    grown = unary_union([hull([(x, y, size + radius) for x, y, size in discs]) for discs in parts])
    fills = []
    for centre in inner_corners(grown):
        # Disc and parts together enclose what the fillet fills.
        closed = unary_union([sharp, disc(centre.x, centre.y, radius + TOUCH)])
        fills.extend(Polygon(ring).buffer(OVERLAP) for part in parts_of(closed) for ring in part.interiors)
    return unary_union([sharp, *fills])


def inner_corners(shape):
    """Corners that bend against the outline, material on the left; discs and hulls have none, so these are where two of them cross."""
    found = []
    for part in parts_of(shape):
        for ring in orient(part).exterior, *orient(part).interiors:
            points = list(ring.coords)[:-1]
            for before, here, after in zip(points[-1:] + points[:-1], points, points[1:] + points[:1]):
                one = (here[0] - before[0], here[1] - before[1])
                other = (after[0] - here[0], after[1] - here[1])
                turn = math.atan2(one[0] * other[1] - one[1] * other[0], one[0] * other[0] + one[1] * other[1])
                if turn < -SMOOTH:
                    found.append(Point(here))
    return found


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
