"""Setups and frames: reading a setup, and turning the caliper's coordinates into the leg's.

Leg frame: (back, up, out) from the axle centre on the wheel's mid-plane, in millimetres.
Clock angles are degrees from `up`, turning towards `back`.
"""

import copy
import json
import math
from pathlib import Path

PROJECT = Path(__file__).resolve().parents[2]
DEFAULT_SETUP = PROJECT / "fixtures" / "setups" / "default.json"


def default_setup():
    return json.loads(DEFAULT_SETUP.read_text())


def with_changes(setup, changes):
    """A copy of `setup` with `changes` laid over it: objects are merged, anything else is replaced."""
    merged = copy.deepcopy(setup)
    for key, value in changes.items():
        if isinstance(value, dict) and isinstance(merged.get(key), dict):
            merged[key] = with_changes(merged[key], value)
        else:
            merged[key] = copy.deepcopy(value)
    return merged


def changes_between(base, setup):
    """The smallest nested object that turns `base` into `setup`; a key only `base` has is an error."""
    missing = set(base) - set(setup)
    if missing:
        raise ValueError(f"cannot express left-out fields as changes: {sorted(missing)}")
    changes = {}
    for key, value in setup.items():
        if isinstance(value, dict) and isinstance(base.get(key), dict):
            inner = changes_between(base[key], value)
            if inner:
                changes[key] = inner
        elif key not in base or base[key] != value:
            changes[key] = value
    return changes


class Frame:
    """Where things sit sideways, and the caliper frame placed on the wheel."""

    def __init__(self, setup):
        wheel, tab, pad = setup["wheel"], setup["tab"], setup["caliper"]["pad"]
        self.dropout_out = wheel["hub_width"] / 2
        self.rotor_out = self.dropout_out - wheel["rotor_inset"]
        self.pad_radius = wheel["rotor_diameter"] / 2 - pad["edge_inset"] - pad["height"] / 2 + tab["reach"]
        self.recess = self.dropout_out + setup["dropout"]["thickness"] - setup["fork"]["tube_gap"] / 2

        clock = math.radians(tab["clock"])
        handed = {"left": 1.0, "right": -1.0}[setup["side"]]
        self.rad = (math.sin(clock), math.cos(clock))
        self.cw = (handed * math.cos(clock), -handed * math.sin(clock))

    def in_wheel_plane(self, cw, rad):
        """(back, up) of a caliper point."""
        reach = self.pad_radius + rad
        return (reach * self.rad[0] + cw * self.cw[0], reach * self.rad[1] + cw * self.cw[1])

    def point(self, cw, rad, out):
        return (*self.in_wheel_plane(cw, rad), self.rotor_out + out)

    def direction(self, vector):
        """A caliper vector in leg coordinates, one unit long."""
        cw, rad, out = vector
        length = math.sqrt(cw * cw + rad * rad + out * out)
        if length == 0:
            raise ValueError("a direction needs a length")
        return (
            (cw * self.cw[0] + rad * self.rad[0]) / length,
            (cw * self.cw[1] + rad * self.rad[1]) / length,
            out / length,
        )
