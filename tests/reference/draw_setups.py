"""Seeded random setups around what stands on a bench, some of them clear and some of them hitting.

    python draw_setups.py SEED [COUNT]     prints one setup per line
"""

import json
import math
import random
import sys

from frames import Frame, default_setup, with_changes
from parts import web_choices

SMALLEST_LET_IN = 0.05  # mm; a tab is drawn flush with the tube or clearly to one side of that
WEB_CHOICE = 0.01  # mm; the shortest web is shorter than the next by at least this much
CORNER = 0.5  # mm2; twice the area that every corner of an outline cuts off


def draw_setup(seed, index):
    """Setup number `index`; the same whatever the number of setups drawn."""
    rng = random.Random(f"{seed}/{index}")
    while True:
        setup = with_changes(default_setup(), Draw(rng).changes())
        if clear_cut(setup):
            return setup


def clear_cut(setup):
    """False where a rounding error could change which solids there are."""
    frame = Frame(setup)
    let_in = frame.recess + setup["tab"]["offset"]
    first, second = web_choices(setup, frame)[:2]
    return (let_in == 0 or abs(let_in) > SMALLEST_LET_IN) and second[0] - first[0] > WEB_CHOICE


class Draw:
    def __init__(self, rng):
        self.rng = rng

    def between(self, low, high, decimals=2):
        return round(self.rng.uniform(low, high), decimals) + 0.0  # + 0.0 turns -0.0 into 0.0

    def often(self, share):
        return self.rng.random() < share

    def changes(self):
        post = self.often(0.4)
        hub_width = self.rng.randrange(180, 301) / 2
        thickness = self.rng.randrange(16, 37) / 4
        return {
            "side": self.rng.choice(("left", "right")),
            "wheel": self.wheel(hub_width),
            "fork": self.fork(hub_width + 2 * thickness),
            "dropout": {
                "thickness": thickness,
                "eye_radius": self.between(14, 26),
                "neck_width": self.between(18, 34),
                "weld_length": self.between(40, 100),
            },
            "caliper": self.caliper(post),
            "tab": {
                "clock": self.between(-40, 50) if self.often(0.6) else self.between(-180, 180),
                "offset": 0 if self.often(0.3) else self.between(-6, 6),
                "reach": 0 if self.often(0.3) else self.between(-3, 4),
                "edge": self.between(7, 12),
            },
        }

    def wheel(self, hub_width):
        usual = (140, 160, 180, 203, 220)
        return {
            "hub_width": hub_width,
            "rotor_inset": self.between(5, 20),
            "rotor_diameter": self.rng.choice(usual) if self.often(0.4) else self.between(140, 220),
            "rotor_thickness": self.between(1.5, 2.5),
            "track_width": self.between(10, 20),
            "flange_diameter": self.between(36, 90),
            "flange_inset": self.between(18, 38),
            "rim_diameter": self.between(380, 640),
            "nut_diameter": self.between(18, 36),
            "nut_height": self.between(5, 20),
        }

    def fork(self, lap_gap):
        kind = self.rng.choices(("short", "lap", "let in"), (20, 25, 55))[0]
        recess = {"short": self.between(-8, -0.1), "lap": 0, "let in": self.between(0.1, 20)}[kind]
        return {
            "tube_diameter": self.between(22, 40),
            "tube_gap": round(lap_gap - 2 * recess, 4),
            "leg_angle": self.between(55, 80),
            "axle_offset": 0 if self.often(0.3) else self.between(-10, 20),
            "tube_end": self.between(5, 60),
        }

    def caliper(self, post):
        changes = {
            "mount": "post" if post else "side_lug",
            "holes": self.holes(74 if post else 51),
            "mount_depth": self.between(-0.5, 5) if post else self.between(8, 20),
            "mating_face": self.rng.choice(("inner", "outer")),
            "pad": {
                "length": self.between(18, 38),
                "height": self.between(10, 22),
                "edge_inset": self.between(-0.5, 2),
            },
            "throat": self.between(1, 6),
            "bodies": self.bodies(),
            "line": {
                "exit": [self.between(-42, 42), self.between(-18, 45), self.between(-28, 40)],
                "direction": self.direction(),
                "diameter": self.between(4, 6.5),
            },
            "bolt": {"tool_diameter": self.between(8, 22), "tool_length": self.between(20, 90)},
        }
        if post:
            changes["bolt_direction"] = [self.between(-0.4, 0.4, 4), self.between(-1, -0.8, 4), self.between(-0.2, 0.2, 4)]
        return changes

    def holes(self, apart):
        half = apart / 2
        middle, height, tilt = self.between(-6, 6), self.between(14, 42), self.between(-6, 6)
        return [
            [round(middle - half + self.between(-1, 1), 4), round(height - tilt, 4)],
            [round(middle + half + self.between(-1, 1), 4), round(height + tilt, 4)],
        ]

    def direction(self):
        while True:
            vector = [self.between(-1, 1, 4) for _ in range(3)]
            if math.hypot(*vector) > 0.3:
                return vector

    def bodies(self):
        count = self.rng.randint(2, 5)
        bolted = [False] + [self.often(0.4) for _ in range(count - 1)]
        self.rng.shuffle(bolted)
        return [self.body(f"body {i}", flag) for i, flag in enumerate(bolted, start=1)]

    def body(self, name, bolted):
        low = self.between(-32, 18)
        long_way = self.often(0.3)  # an arm that reaches far towards the axle
        return {
            "name": name,
            "outline": self.outline(long_way),
            "inboard": -low,
            "outboard": round(low + self.between(3, 45), 4),
            "bolted": bolted,
        }

    def outline(self, long_way):
        """Corners of a strictly convex polygon on an ellipse, either way round."""
        half_cw, half_rad = self.between(7, 34), self.between(28, 50) if long_way else self.between(6, 20)
        cw, rad = self.between(-22, 22), self.between(-50, -10) if long_way else self.between(-8, 28)
        while True:
            count = self.rng.randint(3, 8)
            turns = sorted(self.rng.uniform(0, math.tau) for _ in range(count))
            corners = [
                [round(cw + half_cw * math.cos(t), 3) + 0.0, round(rad + half_rad * math.sin(t), 3) + 0.0] for t in turns
            ]
            if min(corner_areas(corners)) > CORNER:
                return corners[::-1] if self.often(0.5) else corners


def corner_areas(corners):
    """Twice the area of the triangle at every corner, positive at a convex corner of a counter-clockwise outline."""
    shifted = zip(corners, corners[1:] + corners[:1], corners[2:] + corners[:2])
    return [(b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]) for a, b, c in shifted]


if __name__ == "__main__":
    for number in range(int(sys.argv[2]) if len(sys.argv) > 2 else 1):
        print(json.dumps(draw_setup(int(sys.argv[1]), number)))
