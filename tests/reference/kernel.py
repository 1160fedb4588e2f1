"""Clearances of a setup by a full solid-modelling kernel.

    python kernel.py [SETUP.json]     prints {pair name: {gap, overlap_volume}}, the default setup's if no file is given
"""

import json
import sys
from pathlib import Path

from frames import default_setup
from measure import Body, Measure, measure
from parts import pairs


def setup_clearances(setup):
    """{pair name: Measure}: the smallest gap between any two solids of the groups, the largest common volume."""
    bodies = {}

    def body(primitive):
        if primitive not in bodies:
            bodies[primitive] = Body(primitive)
        return bodies[primitive]

    clearances = {}
    for name, (first, second) in pairs(setup).items():
        measures = [measure(body(a), body(b)) for a in first for b in second]
        clearances[name] = Measure(min(m.gap for m in measures), max(m.overlap_volume for m in measures))
    return clearances


def as_json(clearances):
    return {
        name: {"gap": round(m.gap, 6), "overlap_volume": round(m.overlap_volume, 6)}
        for name, m in clearances.items()
    }


if __name__ == "__main__":
    chosen = json.loads(Path(sys.argv[1]).read_text()) if len(sys.argv) > 1 else default_setup()
    print(json.dumps(as_json(setup_clearances(chosen)), indent=2))
