"""Cut sheets read back by programs of others. Any difference beyond its limit is an error.

    python sheets.py [--print] [CASE...]
"""

import json
import math
import subprocess
import sys
import tempfile
from pathlib import Path

import sheet_model
from frames import PROJECT, Frame
from sheet_cases import cases
from sheet_files import SAGITTA, read_dxf, read_svg
from shapely import affinity
from shapely.geometry import Polygon

PROGRAM = PROJECT / "target" / "checks" / "examples" / "sheet"
VERSIONS = {"dxf_r12": "AC1009", "dxf_r2000": "AC1015"}
KERFS = (0.2, 1.1)

LENGTH = 0.001  # mm: holes, radii, sizes
AREA = 0.001  # mm2, of a piece
DIFFERENCE = 0.01  # mm2 of symmetric difference
COARSE = 2e-4  # mm; sagitta where a hundredth matters
OFFSET = 0.01  # mm: how far a widened outline may be from the polygon library's


class Found:
    """The largest difference of each kind, and what was beyond its limit."""

    def __init__(self):
        self.largest = {}
        self.counts = {}
        self.faults = []

    def compare(self, case, kind, difference, limit):
        difference = abs(difference)
        self.counts[kind] = self.counts.get(kind, 0) + 1
        if difference > self.largest.get(kind, (-1.0,))[0]:
            self.largest[kind] = (difference, case, limit)
        if not difference <= limit:
            self.faults.append(f"{case}: {kind}: {difference:.6f}, limit {limit}")

    def check(self, case, kind, holds):
        self.counts[kind] = self.counts.get(kind, 0) + 1
        self.largest.setdefault(kind, (0.0, case, 0.0))
        if not holds:
            self.faults.append(f"{case}: {kind}")


def ask(setup, kind, **options):
    with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
        json.dump(setup, file)
        file.flush()
        words = [f"{name}={value}" for name, value in options.items()]
        done = subprocess.run([PROGRAM, file.name, kind, *words], capture_output=True, text=True)
    if done.returncode != 0:
        raise SystemExit(f"{kind}: {done.stderr.strip()}")
    return done.stdout


def pieces_of(flat):
    """[outer ring, its windows, its holes] of every piece, from left to right."""
    polygons = [(ring, ring.polygon(COARSE)) for ring in flat.rings]
    outers = [(ring, polygon) for ring, polygon in polygons if not any(other.contains(polygon) for _, other in polygons if other is not polygon)]
    outers.sort(key=lambda one: one[1].bounds[0])
    found = []
    for ring, polygon in outers:
        windows = [other for other, inner in polygons if inner is not polygon and polygon.contains(inner)]
        holes = [hole for hole in flat.holes if polygon.buffer(0.1).contains(sheet_model.Point(*hole[:2]))]
        found.append((ring, windows, sorted(holes)))
    return found


def material(ring, windows, holes):
    """Area with the arcs exact."""
    return abs(ring.area()) - sum(abs(window.area()) for window in windows) - sum(math.pi * radius**2 for _, _, radius in holes)


def solid(ring, windows, sagitta=SAGITTA):
    return Polygon(ring.polygon(sagitta).exterior, [window.polygon(sagitta).exterior for window in windows])


def check_case(found, case, setup):
    sheet = json.loads(ask(setup, "sheet"))
    read = {kind: read_dxf(ask(setup, kind), version) for kind, version in VERSIONS.items()}
    read["svg"] = read_svg(ask(setup, "svg"))
    reported = sheet["pieces"]
    for kind, flat in read.items():
        pieces = pieces_of(flat)
        found.check(case, f"{kind}: as many pieces as the sheet", len(pieces) == len(reported))
        for (ring, windows, holes), piece in zip(pieces, reported):
            found.compare(case, f"{kind}: area", material(ring, windows, holes) - piece["area"], AREA)
            low_x, low_y, high_x, high_y = ring.polygon().bounds
            found.compare(case, f"{kind}: width", high_x - low_x - piece["width"], LENGTH)
            found.compare(case, f"{kind}: height", high_y - low_y - piece["height"], LENGTH)
            length = ring.length() + sum(window.length() for window in windows) + sum(2 * math.pi * hole[2] for hole in holes)
            found.compare(case, f"{kind}: length of cut", length - piece["cut_length"], LENGTH)
            found.check(case, f"{kind}: as many holes as the sheet", len(holes) == piece["hole_count"])
            found.check(case, f"{kind}: the outline crosses itself nowhere", ring.polygon().is_valid)
            check_holes(found, case, kind, setup, sheet, piece, ring, holes)
        if kind != "svg":
            check_fillets(found, case, kind, setup, pieces, reported)
    check_outlines(found, case, setup, read, reported)
    check_marks(found, case, read)
    for kerf in KERFS:
        check_kerf(found, case, setup, read["dxf_r2000"], kerf)


def axle_of(setup, ring, holes):
    """Centre of the slot's round end, or of the axle's hole; None in a piece without."""
    radius = setup["dropout"]["slot_width"] / 2
    if setup["dropout"]["closed"]:
        centres = [hole[:2] for hole in holes if abs(hole[2] - radius) < 1e-6]
    else:
        centres = [centre for size, centre, inner in ring.arcs() if inner and abs(size - radius) < 1e-6]
    return centres[0] if centres else None


def check_holes(found, case, kind, setup, sheet, piece, ring, holes):
    entries = [hole for hole in sheet["holes"] if hole["piece"] == piece["key"] and hole["kind"] == "clearance"]
    if not entries:
        return
    frame = Frame(setup)
    across = 1 if setup["side"] == "left" else -1
    expected = dict(zip("AB", (frame.in_wheel_plane(*hole) for hole in setup["caliper"]["holes"])))
    for entry in entries:
        # The table against the caliper's own frame.
        found.compare(case, "table: hole back", entry["back"] - expected[entry["name"]][0], LENGTH)
        found.compare(case, "table: hole up", entry["up"] - expected[entry["name"]][1], LENGTH)
    radii = [hole for hole in holes if abs(hole[2] - entries[0]["diameter"] / 2) < LENGTH]
    found.check(case, f"{kind}: two bolt holes of the table's drill", len(radii) == 2)
    if len(radii) != 2:
        return
    spacing = math.dist(radii[0][:2], radii[1][:2])
    found.compare(case, f"{kind}: hole to hole", spacing - math.dist(expected["A"], expected["B"]), LENGTH)
    axle = axle_of(setup, ring, holes)
    if axle is None:
        return
    for entry in entries:
        wanted = (axle[0] + across * entry["back"], axle[1] + entry["up"])
        found.compare(case, f"{kind}: hole from the axle", min(math.dist(wanted, hole[:2]) for hole in radii), LENGTH)
        nearest = min(radii, key=lambda hole: math.dist(wanted, hole[:2]))
        rim = ring.polygon().exterior.distance(sheet_model.Point(*nearest[:2])) - nearest[2]
        found.compare(case, f"{kind}: rim to edge", rim - entry["edge"], LENGTH)


def check_fillets(found, case, kind, setup, pieces, reported):
    """Every inner arc but the slot's has the radius asked for, and no inner corner is left sharp but those of slot and joint."""
    for (ring, windows, holes), piece in zip(pieces, reported):
        asked = setup["tab"]["fillet_radius"]
        found.compare(case, f"{kind}: radius told for the inner corners", piece["fillet_radius"] - asked, 0.001 * max(asked, 1))
        slot = setup["dropout"]["slot_width"] / 2
        for radius, centre, inner in ring.arcs():
            if not inner or abs(radius - slot) < 1e-6:
                continue
            if piece["key"] == "tab" and case_ends_at_dropout(setup, centre, radius):
                continue
            found.compare(case, f"{kind}: radius of an inner corner", radius - piece["fillet_radius"], LENGTH)


def case_ends_at_dropout(setup, centre, radius):
    """A butted tab ends along the dropout's own edge, gap and all: eye and neck bend that edge inwards."""
    dropout, gap = setup["dropout"], setup["tab"]["weld_gap"]
    ends = [dropout["eye_radius"], dropout["neck_width"] / 2]
    return any(abs(radius - end - gap) < 0.01 for end in ends)


def check_outlines(found, case, setup, read, reported):
    """DXF of both releases, SVG and the polygon library's own plate cover the same ground."""
    drawn = {kind: [solid(ring, windows) for ring, windows, _ in pieces_of(flat)] for kind, flat in read.items()}
    for index, piece in enumerate(reported):
        base = drawn["dxf_r2000"][index]
        ring, _, holes = pieces_of(read["dxf_r2000"])[index]
        for kind in ("dxf_r12", "svg"):
            other = at_home(drawn[kind][index])
            found.compare(case, f"{kind} and dxf_r2000: outline", at_home(base).symmetric_difference(other).area, DIFFERENCE)
        model = sheet_model.piece(setup, piece["key"], piece["fillet_radius"])
        if model is not None:
            # Both with the axle at nought.
            axle = axle_of(setup, ring, holes)
            difference = model.symmetric_difference(affinity.translate(base, -axle[0], -axle[1])).area
            found.compare(case, "polygon library and dxf_r2000: outline", difference, DIFFERENCE)


def at_home(shape):
    low_x, low_y, _, _ = shape.bounds
    return affinity.translate(shape, -low_x, -low_y)


def check_marks(found, case, read):
    """Every hole has its punch cross on its centre."""
    for kind in VERSIONS:
        middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in read[kind].marks]
        for hole in read[kind].holes:
            on_it = [middle for middle in middles if math.dist(middle, hole[:2]) < LENGTH]
            found.check(case, f"{kind}: a cross on every hole", len(on_it) >= 2)


def check_kerf(found, case, setup, plain, kerf):
    wide = read_dxf(ask(setup, "dxf_r2000", kerf=kerf), VERSIONS["dxf_r2000"])
    for (ring, windows, holes), (wide_ring, wide_windows, wide_holes) in zip(pieces_of(plain), pieces_of(wide)):
        expected = at_home(solid(ring, windows, COARSE).buffer(kerf / 2, quad_segs=50))
        apart = expected.boundary.hausdorff_distance(at_home(solid(wide_ring, wide_windows, COARSE)).boundary)
        found.compare(case, f"kerf {kerf}: outline", apart, OFFSET)
        found.check(case, f"kerf {kerf}: as many holes", len(holes) == len(wide_holes))
        for narrow, (_, _, radius) in zip(holes, wide_holes):
            found.compare(case, f"kerf {kerf}: hole", radius - narrow[2] + kerf / 2, LENGTH)


def main(arguments):
    with_print = "--print" in arguments
    wanted = [word for word in arguments if word != "--print"]
    found = Found()
    chosen = cases(wanted)
    for case, setup in chosen:
        check_case(found, case, setup)
        print(f"  {case}", flush=True)
    if with_print:
        import sheet_print

        sheet_print.check(found, chosen)
    width = max(map(len, found.largest))
    print(f"{len(chosen)} cases; largest difference of each kind, with its limit:")
    for kind, (difference, case, limit) in sorted(found.largest.items()):
        print(f"  {kind:{width}}  {found.counts[kind]:5}  {difference:.6f}  {limit:g}  ({case})")
    for fault in found.faults:
        print(f"BEYOND: {fault}")
    return 1 if found.faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
