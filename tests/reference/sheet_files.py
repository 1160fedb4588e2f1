"""DXF by ezdxf and SVG by svgelements, both as rings of lines and arcs, and as polygons of the polygon library."""

import io
import math
from dataclasses import dataclass

import ezdxf
from ezdxf.math import bulge_to_arc
from shapely.geometry import Polygon
from svgelements import SVG, Arc, Circle, Close, Line, Move, Path

SAGITTA = 1e-5  # mm; how far a polygon's side may cut off its arc
MM_PER_UNIT = {4: 1.0}  # $INSUNITS of ezdxf: 4 is millimetres


@dataclass
class Edge:
    """A line, or an arc about a centre: `sweep` radians from start to end, counter-clockwise positive, 0 for a line."""

    start: tuple
    end: tuple
    centre: tuple | None = None
    radius: float = 0.0
    sweep: float = 0.0


class Ring:
    """A closed outline, y up."""

    def __init__(self, edges):
        self.edges = edges
        self.polygons = {}
        for edge, after in zip(edges, edges[1:] + edges[:1]):
            if math.dist(edge.end, after.start) > 1e-4:
                raise AssertionError(f"a gap in an outline: {edge.end} to {after.start}")

    def area(self):
        """Signed, with the arcs exact: half of the shoelace sum and the segments between chord and arc."""
        total = 0.0
        for edge in self.edges:
            (x, y), (u, v) = edge.start, edge.end
            total += (x * v - u * y) / 2
            total += edge.radius**2 / 2 * (edge.sweep - math.sin(edge.sweep))
        return total

    def length(self):
        return sum(abs(edge.sweep) * edge.radius if edge.sweep else math.dist(edge.start, edge.end) for edge in self.edges)

    def polygon(self, sagitta=SAGITTA):
        if sagitta not in self.polygons:
            self.polygons[sagitta] = self.polygon_of(sagitta)
        return self.polygons[sagitta]

    def polygon_of(self, sagitta):
        points = []
        for edge in self.edges:
            points.append(edge.start)
            if not edge.sweep:
                continue
            step = 2 * math.sqrt(2 * sagitta / edge.radius)
            count = max(1, math.ceil(abs(edge.sweep) / step))
            first = math.atan2(edge.start[1] - edge.centre[1], edge.start[0] - edge.centre[0])
            for index in range(1, count):
                angle = first + edge.sweep * index / count
                points.append((edge.centre[0] + edge.radius * math.cos(angle), edge.centre[1] + edge.radius * math.sin(angle)))
        return Polygon(points)

    def arcs(self):
        """(radius, centre, is_inner) of the arcs; inner ones bend against the outline."""
        way = math.copysign(1, self.area())
        return [(edge.radius, edge.centre, edge.sweep * way < 0) for edge in self.edges if edge.sweep]


@dataclass
class Flat:
    """What a file holds: rings of cut edges, round holes (x, y, radius), and marks."""

    rings: list
    holes: list
    marks: list


def read_dxf(text, version):
    """Raises where the reader finds a fault or something that should not be there."""
    document = ezdxf.read(io.StringIO(text))
    auditor = document.audit()
    faults = [str(entry.message) for entry in auditor.errors + auditor.fixes]
    if faults:
        raise AssertionError(f"audit: {faults}")
    if document.dxfversion != version:
        raise AssertionError(f"{document.dxfversion} instead of {version}")
    if version != "AC1009" and document.header["$INSUNITS"] not in MM_PER_UNIT:
        raise AssertionError(f"units: {document.header['$INSUNITS']}")
    rings, holes, marks = [], [], []
    for entity in document.modelspace():
        layer, kind = entity.dxf.layer, entity.dxftype()
        if (layer, kind) in (("CUT", "LWPOLYLINE"), ("CUT", "POLYLINE")):
            rings.append(ring_of(entity))
        elif (layer, kind) == ("HOLES", "CIRCLE"):
            holes.append((entity.dxf.center.x, entity.dxf.center.y, entity.dxf.radius))
        elif (layer, kind) == ("MARKS", "LINE"):
            marks.append(((entity.dxf.start.x, entity.dxf.start.y), (entity.dxf.end.x, entity.dxf.end.y)))
        else:
            raise AssertionError(f"{kind} on layer {layer}")
    expected = {"AC1009": "POLYLINE", "AC1015": "LWPOLYLINE"}[version]
    if any(entity.dxftype() != expected for entity in document.modelspace().query("LWPOLYLINE POLYLINE")):
        raise AssertionError(f"outlines are not {expected}")
    return Flat(rings, holes, marks)


def ring_of(polyline):
    if polyline.dxftype() == "LWPOLYLINE":
        closed = polyline.closed
        corners = [(x, y, bulge) for x, y, bulge in polyline.get_points("xyb")]
    else:
        closed = polyline.is_closed
        corners = [(vertex.dxf.location.x, vertex.dxf.location.y, vertex.dxf.get("bulge", 0.0)) for vertex in polyline.vertices]
    if not closed:
        raise AssertionError("an outline is open")
    edges = []
    for (x, y, bulge), (u, v, _) in zip(corners, corners[1:] + corners[:1]):
        if abs(bulge) < 1e-12:
            edges.append(Edge((x, y), (u, v)))
            continue
        centre, _, _, radius = bulge_to_arc((x, y), (u, v), bulge)
        edges.append(Edge((x, y), (u, v), (centre.x, centre.y), radius, 4 * math.atan(bulge)))
    return Ring(edges)


def read_svg(text):
    """The paths and circles of a cutting SVG; its size must be told in millimetres, one unit each."""
    # So many dots to the inch that a dot is a millimetre, which the library takes for 0.0393701 inches.
    svg = SVG.parse(io.StringIO(text), ppi=1 / 0.0393701)
    rings, holes = [], []
    for shape in svg.elements():
        if isinstance(shape, Path):
            rings.extend(ring_of_path(part) for part in shape.as_subpaths())
        elif isinstance(shape, Circle):
            holes.append((float(shape.cx), -float(shape.cy), float(shape.rx)))
    return Flat(rings, holes, [])


def ring_of_path(part):
    edges = []
    for segment in part:
        if isinstance(segment, Move) or segment.start == segment.end:
            continue
        start, end = (segment.start.x, -segment.start.y), (segment.end.x, -segment.end.y)
        if isinstance(segment, Arc):
            if abs(segment.rx - segment.ry) > 1e-6:
                raise AssertionError(f"not round: {segment}")
            # The page's y runs down: what turns one way there turns the other way here.
            edges.append(Edge(start, end, (segment.center.x, -segment.center.y), segment.rx, -segment.sweep))
        elif isinstance(segment, (Line, Close)):
            edges.append(Edge(start, end))
        else:
            raise AssertionError(f"neither line nor arc: {segment}")
    return Ring(edges)
