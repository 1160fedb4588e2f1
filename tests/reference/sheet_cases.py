"""Setups whose sheets are read back: every way to build, both sides, and the shapes that outlines have trouble with."""

from frames import default_setup, with_changes

POST = {
    "mount": "post",
    "holes": [[-37, 20], [37, 20]],
    "bolt_direction": [0, -1, 0],
    "mount_depth": 0,
}

CHANGES = {
    "as it starts": {},
    "right": {"side": "right"},
    "no fillets": {"tab": {"fillet_radius": 0}},
    "large fillets": {"tab": {"fillet_radius": 12}},
    "small fillets": {"tab": {"fillet_radius": 2.5}},
    "axle hole": {"dropout": {"closed": True}},
    "slot to the front": {"dropout": {"slot_direction": -135}},
    "no lead-in": {"dropout": {"slot_chamfer": 0}},
    "long lead-in": {"dropout": {"slot_chamfer": 3, "slot_direction": 172}},
    "far round": {"tab": {"clock": 55}},
    "close to the leg": {"tab": {"clock": 15}},
    "small rotor": {"wheel": {"rotor_diameter": 160}, "dropout": {"eye_radius": 17}},
    "large rotor, right": {"side": "right", "wheel": {"rotor_diameter": 220}, "tab": {"clock": 31.5}},
    "axle ahead": {"fork": {"axle_offset": -9.25}},
    "wide neck": {"dropout": {"neck_width": 40, "eye_radius": 20}},
    "narrow neck": {"dropout": {"neck_width": 20, "eye_radius": 25}},
    "butt welded": {"tab": {"build": "butt_welded"}},
    "butt welded, right": {"side": "right", "tab": {"build": "butt_welded", "weld_gap": 2.4, "fillet_radius": 8}},
    "on a plate that is there": {"tab": {"build": "on_existing"}},
    "two planes": {"tab": {"offset": 6}},
    "a step": {"tab": {"offset": 3}},
    "posts": {"caliper": POST},
    "fine holes, M5": {"caliper": {"bolt": {"size": "M5"}}, "cut": {"hole_fit": "fine", "tolerance_class": "f"}},
    "long plate": {"dropout": {"weld_length": 180}, "fork": {"tube_end": 60}, "tab": {"clock": 30}},
}


def cases(wanted=()):
    """(name, setup) of every case, or of those named."""
    unknown = set(wanted) - set(CHANGES)
    if unknown:
        raise SystemExit(f"no such case: {', '.join(sorted(unknown))}; there are: {', '.join(CHANGES)}")
    return [(name, with_changes(default_setup(), changes)) for name, changes in CHANGES.items() if not wanted or name in wanted]
