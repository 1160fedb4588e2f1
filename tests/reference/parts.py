"""The parts of a setup as slabs and spools, and the groups that make up each clearance pair."""

import math

from frames import Frame
from solids import Slab, Spool

TUBE_LENGTH = 300.0  # how much of the fork tube is looked at
BOOT_LENGTH = 30.0  # stiff first stretch of the brake line
EYE_SHARE = 0.8  # the web may end on a disc of this share of the plate's eye


def upper_neck_disc(setup):
    fork, dropout = setup["fork"], setup["dropout"]
    radius = dropout["neck_width"] / 2
    return (fork["axle_offset"], fork["tube_end"] + dropout["weld_length"] - radius, radius)


def hole_discs(setup, frame):
    edge = setup["tab"]["edge"]
    return [(*frame.in_wheel_plane(cw, rad), edge) for cw, rad in setup["caliper"]["holes"]]


def web_choices(setup, frame):
    """(length, land, disc) of every web the tab could have, the shortest first; of equals the land nearer to the neck, then further ahead."""
    ends = (upper_neck_disc(setup), (0.0, 0.0, EYE_SHARE * setup["dropout"]["eye_radius"]))
    lands = hole_discs(setup, frame)
    webs = [(math.dist(land[:2], end[:2]), land, end) for land in lands for end in ends]
    return sorted(webs, key=lambda web: (round(web[0], 6), round(math.dist(web[1][:2], ends[0][:2]), 6), web[1][0]))


def plate_parts(setup, frame):
    lo = frame.dropout_out
    hi = lo + setup["dropout"]["thickness"]
    lower_neck = (0.0, 0.0, setup["dropout"]["neck_width"] / 2)
    parts = [
        Slab("eye", ((0.0, 0.0, setup["dropout"]["eye_radius"]),), lo, hi),
        Slab("neck", (lower_neck, upper_neck_disc(setup)), lo, hi),
    ]
    if setup["caliper"]["mount"] == "side_lug":
        offset = setup["tab"]["offset"]
        _, land, end = web_choices(setup, frame)[0]
        parts.append(lands(setup, frame))
        parts.append(Slab("web", (land, end), lo + offset, hi + offset))
    return parts


def lands(setup, frame):
    lo = frame.dropout_out + setup["tab"]["offset"]
    return Slab("lands", tuple(hole_discs(setup, frame)), lo, lo + setup["dropout"]["thickness"])


def rotor(setup, frame):
    wheel = setup["wheel"]
    half = wheel["rotor_thickness"] / 2
    disc = (0.0, 0.0, wheel["rotor_diameter"] / 2)
    return Slab("rotor", (disc,), frame.rotor_out - half, frame.rotor_out + half)


def nut(setup, frame):
    lo = frame.dropout_out + setup["dropout"]["thickness"]
    disc = (0.0, 0.0, setup["wheel"]["nut_diameter"] / 2)
    return Slab("nut", (disc,), lo, lo + setup["wheel"]["nut_height"])


def tube(setup):
    fork = setup["fork"]
    radius = fork["tube_diameter"] / 2
    back, out = fork["axle_offset"], fork["tube_gap"] / 2 + radius
    lower = fork["tube_end"]
    return Spool("tube", (back, lower, out), (back, lower + TUBE_LENGTH, out), radius, radius)


def spokes(setup):
    wheel = setup["wheel"]
    flange_out = wheel["hub_width"] / 2 - wheel["flange_inset"]
    return Spool(
        "spokes", (0.0, 0.0, flange_out), (0.0, 0.0, 0.0), wheel["flange_diameter"] / 2, wheel["rim_diameter"] / 2
    )


def caliper_bodies(setup, frame, only_free=False):
    return [
        Slab(
            body["name"],
            tuple((*frame.in_wheel_plane(cw, rad), 0.0) for cw, rad in body["outline"]),
            frame.rotor_out - body["inboard"],
            frame.rotor_out + body["outboard"],
        )
        for body in setup["caliper"]["bodies"]
        if not (only_free and body["bolted"])
    ]


def cylinder(name, start, direction, length, radius):
    end = tuple(a + length * d for a, d in zip(start, direction))
    return Spool(name, start, end, radius, radius)


def tools(setup, frame):
    """The room a tool needs, one cylinder per bolt, from the bolt's head away from the caliper."""
    caliper = setup["caliper"]
    bolt = caliper["bolt"]
    if caliper["mount"] == "post":
        start_out = frame.rotor_out + caliper["mount_depth"]
        direction = tuple(-x for x in frame.direction(caliper["bolt_direction"]))
    else:
        tab_out = frame.dropout_out + setup["tab"]["offset"]
        inner = caliper["mating_face"] == "inner"
        start_out = tab_out + setup["dropout"]["thickness"] if inner else tab_out
        direction = (0.0, 0.0, 1.0 if inner else -1.0)
    return [
        cylinder(
            f"tool {i}",
            (*frame.in_wheel_plane(cw, rad), start_out),
            direction,
            bolt["tool_length"],
            bolt["tool_diameter"] / 2,
        )
        for i, (cw, rad) in enumerate(caliper["holes"])
    ]


def boot(setup, frame):
    line = setup["caliper"]["line"]
    return cylinder(
        "boot", frame.point(*line["exit"]), frame.direction(line["direction"]), BOOT_LENGTH, line["diameter"] / 2
    )


def pairs(setup):
    """{pair name: (solids, solids)}; a pair without solids on one side is left out."""
    frame = Frame(setup)
    bodies = caliper_bodies(setup, frame)
    plate, the_tube, the_spokes = plate_parts(setup, frame), [tube(setup)], [spokes(setup)]
    the_rotor, the_nut, the_boot = [rotor(setup, frame)], [nut(setup, frame)], [boot(setup, frame)]
    side_lug = setup["caliper"]["mount"] == "side_lug"
    groups = {}
    if side_lug and frame.recess + setup["tab"]["offset"] > 0:
        groups["tab/tube"] = ([lands(setup, frame)], the_tube)
    groups["caliper/tube"] = (bodies, the_tube)
    groups["caliper/plate"] = (caliper_bodies(setup, frame, only_free=True), plate)
    groups["caliper/spokes"] = (bodies, the_spokes)
    groups["caliper/nut"] = (bodies, the_nut)
    groups["rotor/tube"] = (the_rotor, the_tube)
    groups["rotor/plate"] = (the_rotor, plate)
    groups["nut/tube"] = (the_nut, the_tube)
    groups["tool/tube"] = (tools(setup, frame), the_tube)
    groups["line/tube"] = (the_boot, the_tube)
    groups["line/rotor"] = (the_boot, the_rotor)
    groups["line/spokes"] = (the_boot, the_spokes)
    return {name: group for name, group in groups.items() if group[0] and group[1]}
