"""Pad coverage by a polygon library: the share of the pad's area that lies on the braking band.

    python coverage.py [SETUP.json]
"""

import json
import sys
from pathlib import Path

from shapely.geometry import Point, box

from frames import Frame, default_setup

# The chord of one segment stays within R (pi / 4 / N)^2 / 2 of its circle: 2e-7 mm at R = 110 and N = 16384.
QUARTER_SEGMENTS = 16384


def pad_coverage(setup):
    wheel, pad = setup["wheel"], setup["caliper"]["pad"]
    radius = wheel["rotor_diameter"] / 2
    centre = Frame(setup).pad_radius
    pad_box = box(-pad["length"] / 2, centre - pad["height"] / 2, pad["length"] / 2, centre + pad["height"] / 2)
    axle = Point(0, 0)
    disc = axle.buffer(radius, quad_segs=QUARTER_SEGMENTS)
    hole = axle.buffer(radius - wheel["track_width"], quad_segs=QUARTER_SEGMENTS)
    return pad_box.intersection(disc).difference(hole).area / pad_box.area


if __name__ == "__main__":
    chosen = json.loads(Path(sys.argv[1]).read_text()) if len(sys.argv) > 1 else default_setup()
    print(json.dumps({"coverage": round(pad_coverage(chosen), 9)}))
