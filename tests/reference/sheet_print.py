"""What Chromium puts on paper, measured in the vectors of its PDF: 1:1, on A4 and US Letter, with tiles that fit together."""

import json
import math
import subprocess
import tempfile
from pathlib import Path

import pdfplumber
from frames import Frame

PRINTER = Path(__file__).with_name("print_template.mjs")
PAPERS = {"A4": (210.0, 297.0), "US Letter": (215.9, 279.4)}
CASES = ("as it starts", "right", "far round", "long plate", "butt welded", "on a plate that is there")
MM = 25.4 / 72

PAPER = 0.5  # mm: PDF sizes are whole points in places
PRINT = 0.1  # mm
CLOSE = 0.5  # mm; two marks in one place


def check(found, cases):
    jobs = [(case, setup, paper) for case, setup in cases if case in CASES for paper in PAPERS]
    with tempfile.TemporaryDirectory() as folder:
        words = []
        for index, (_, setup, paper) in enumerate(jobs):
            file = Path(folder) / f"{index}.json"
            file.write_text(json.dumps(setup))
            words += [str(file), paper, str(Path(folder) / f"{index}.pdf")]
        subprocess.run(["node", PRINTER, *words], check=True)
        for index, (case, setup, paper) in enumerate(jobs):
            with pdfplumber.open(Path(folder) / f"{index}.pdf") as pdf:
                check_print(found, f"{case}, {paper}", setup, paper, pdf.pages)


def check_print(found, case, setup, paper, pages):
    for page in pages:
        found.compare(case, "print: paper's width", float(page.width) * MM - PAPERS[paper][0], PAPER)
        found.compare(case, "print: paper's height", float(page.height) * MM - PAPERS[paper][1], PAPER)
        strokes = strokes_of(page)
        across = [stroke for stroke in strokes if level(stroke) and abs(length(stroke) - 100) < 5]
        up = [stroke for stroke in strokes if upright(stroke) and abs(length(stroke) - 100) < 5]
        found.check(case, "print: a bar of 100 mm on both axes of every page", bool(across) and bool(up))
        for kind, bars in (("across", across), ("up", up)):
            for bar in bars:
                found.compare(case, f"print: bar {kind}", length(bar) - 100, PRINT)
        squares = [box for box in boxes_of(page) if abs(box[2] - 50) < 3 and abs(box[3] - 50) < 3]
        found.check(case, "print: a square of 50 mm on every page", len(squares) == 1)
        for _, _, width, height in squares:
            found.compare(case, "print: square's width", width - 50, PRINT)
            found.compare(case, "print: square's height", height - 50, PRINT)
    check_holes(found, case, setup, [rounds_of(page) for page in pages])
    check_tiles(found, case, paper, pages)


def check_holes(found, case, setup, pages):
    """Both bolt holes, on one page or, by the overlap, on two."""
    drill = {"M5": {"fine": 5.3, "medium": 5.5, "coarse": 5.8}, "M6": {"fine": 6.4, "medium": 6.6, "coarse": 7.0}}  # ISO 273
    wanted = drill[setup["caliper"]["bolt"]["size"]][setup["cut"]["hole_fit"]]
    holes = [[circle for circle in circles if abs(circle[2] - wanted) < 0.3] for circles in pages]
    for circles in holes:
        for _, _, size in circles:
            found.compare(case, "print: size of a hole", size - wanted, PRINT)
    frame = Frame(setup)
    centres = [frame.in_wheel_plane(*hole) for hole in setup["caliper"]["holes"]]
    together = [circles for circles in holes if len(circles) == 2]
    for circles in together:
        found.compare(case, "print: hole to hole", math.dist(circles[0][:2], circles[1][:2]) - math.dist(*centres), PRINT)
    found.check(case, "print: both holes are on paper", sum(map(len, holes)) >= 2)


def check_tiles(found, case, paper, pages):
    """Pages laid on each other by the marks that both show have their outlines on each other too."""
    width, height = PAPERS[paper]
    if len(pages) < 2:
        return
    outlines = [[box for box in boxes_of(page) if box[3] > 30 and box[2] < width - 5 and abs(box[2] - box[3]) > 0.1] for page in pages]
    marks = [[circle[:2] for circle in rounds_of(page) if abs(circle[2] - 4) < 0.05 and 0 < circle[0] < width and 0 < circle[1] < height] for page in pages]
    for index in range(len(pages)):
        shared = 0
        for other in range(len(pages)):
            # The browser leaves out what lies beyond a page altogether.
            same = [(here, there) for here in outlines[index] for there in outlines[other] if math.dist(here[2:], there[2:]) < 0.05]
            if other == index or not same:
                continue
            # Two pieces may be alike; the right two are those that most marks agree with.
            shared_here = max((marks_shared(marks[index], marks[other], shift_of(pair)) for pair in same), key=len)
            for one, mark in shared_here:
                apart = min(off(pair, one, mark) for pair in same)
                found.compare(case, "print: outlines of pages joined by a mark", apart, PRINT)
            shared += len(shared_here)
        found.check(case, "print: two marks or more join every page to another", shared >= 2)


def shift_of(pair):
    here, there = pair
    return (there[0] - here[0], there[1] - here[1])


def marks_shared(ones, others, shift):
    """Pairs of marks that lie on each other once the first page is moved by `shift`."""
    near = [(one, min(others, key=lambda mark: math.dist(mark, (one[0] + shift[0], one[1] + shift[1])))) for one in ones]
    return [(one, mark) for one, mark in near if math.dist(mark, (one[0] + shift[0], one[1] + shift[1])) < CLOSE]


def off(pair, one, mark):
    """How far an outline is off itself on the other page, when the two pages are laid together by a mark."""
    return math.dist(shift_of(pair), (mark[0] - one[0], mark[1] - one[1]))


def strokes_of(page):
    """Straight lines, each (x, y, x, y) in mm, y down."""
    found = []
    for line in page.lines:
        (x, y), (u, v) = line["pts"][0], line["pts"][-1]
        found.append(tuple(float(value) * MM for value in (x, y, u, v)))
    return found


def boxes_of(page):
    """Rectangles and closed curves by their bounds: (x, y, width, height) in mm."""
    shapes = [*page.rects, *page.curves]
    return [tuple(float(value) * MM for value in (shape["x0"], shape["top"], shape["width"], shape["height"])) for shape in shapes]


def rounds_of(page):
    """Circles: (x, y, diameter) in mm."""
    return [(x + width / 2, y + height / 2, width) for x, y, width, height in boxes_of(page) if width > 1 and abs(width - height) < 0.02]


def length(stroke):
    return math.dist(stroke[:2], stroke[2:])


def level(stroke):
    return abs(stroke[1] - stroke[3]) < 0.02


def upright(stroke):
    return abs(stroke[0] - stroke[2]) < 0.02
