//! For each measurement: from where it is seen, and what is measured.

use super::View;
use super::dimension::{Dimension, across, along, straight};
use super::hub::{axle_end, height};
use super::leg::{lean_clock, short_top, top};
use crate::fit::{dropout_plane, neck_top, radial, rotor_plane, tangential};
use crate::setup::{CaliperMeasured, Setup, lug_share, pad_corners};

/// Room between a part and a dimension beside it, mm.
const ROOM: f64 = 8.0;

/// The picture for a number of a setup; without a dimension for `caliper`.
pub(super) fn entry(setup: &Setup, path: &str) -> Option<(View, Option<Dimension>)> {
    if path == "caliper" {
        return Some((View::Face, None));
    }
    let (view, dimension) = match path.split_once('.')? {
        ("wheel", key) => wheel(setup, key),
        ("fork", key) => fork(setup, key),
        ("dropout", key) => dropout(setup, key),
        ("caliper", key) => caliper(setup, key),
        ("measured", key) => measured(setup, key),
        _ => None,
    }?;
    Some((view, Some(dimension)))
}

type Entry = Option<(View, Dimension)>;

fn wheel(setup: &Setup, key: &str) -> Entry {
    let wheel = &setup.wheel;
    let (plane, rotor, end, high) = (dropout_plane(setup), rotor_plane(setup), axle_end(setup), height(setup) + 4.0);
    let (eye, flange, nut, axle) =
        (setup.dropout.eye_radius, wheel.flange_diameter / 2.0, wheel.nut_diameter / 2.0, wheel.axle_diameter / 2.0);
    let (flange_out, radius) = (plane - wheel.flange_inset, wheel.rotor_diameter / 2.0);
    let outer = plane + setup.dropout.thickness;
    Some(match key {
        "hub_width" => (View::Hub, across([-plane, eye], [plane, eye], high)),
        "rotor_inset" => (View::HubEnd, across([rotor, high], [plane, eye], high)),
        "flange_inset" => (View::HubEnd, across([flange_out, flange], [plane, eye], high)),
        "rotor_thickness" => {
            let half = wheel.rotor_thickness / 2.0;
            (View::HubEnd, across([rotor - half, high], [rotor + half, high], high))
        }
        "flange_diameter" => {
            let at = flange_out - 1.5;
            (View::HubEnd, along([at, -flange], [at, flange], flange_out - 12.0))
        }
        "axle_diameter" => (View::HubEnd, along([end, -axle], [end, axle], end + ROOM + 4.0)),
        "nut_diameter" => (View::HubEnd, along([end, -nut], [end, nut], end + ROOM + 4.0)),
        "nut_height" => (View::HubEnd, across([outer, nut], [end, nut], high)),
        "rotor_diameter" => (View::Rotor, straight([-radius, 0.0], [radius, 0.0])),
        "track_width" => (View::Rotor, straight([0.0, radius - wheel.track_width], [0.0, radius])),
        "rim_diameter" => (View::Wheel, straight([-wheel.rim_diameter / 2.0, 0.0], [wheel.rim_diameter / 2.0, 0.0])),
        "tyre_radius" => (View::Wheel, straight([0.0, 0.0], [0.0, -wheel.tyre_radius])),
        _ => return None,
    })
}

fn fork(setup: &Setup, key: &str) -> Entry {
    let fork = &setup.fork;
    let (radius, beside) = (fork.tube_diameter / 2.0, fork.axle_offset + fork.tube_diameter / 2.0 + ROOM);
    Some(match key {
        "tube_diameter" => (View::Tube, along([0.0, -radius], [0.0, radius], 1.3 * radius)),
        "tube_wall" => (View::Tube, straight([radius - fork.tube_wall, 0.0], [radius, 0.0])),
        "tube_gap" => {
            let (half, at) = (fork.tube_gap / 2.0, top(setup) - ROOM);
            (View::Front, straight([-half, at], [half, at]))
        }
        "leg_angle" => (View::Lean, Dimension::Angle { radius: 0.55 * top(setup), from: lean_clock(setup), to: 90.0 }),
        "axle_offset" => {
            let at = short_top(setup) - ROOM;
            (View::Leg, across([0.0, 0.0], [fork.axle_offset, at], at))
        }
        "tube_end" => {
            let beside = beside.max(setup.dropout.eye_radius + ROOM);
            (View::Leg, along([0.0, 0.0], [fork.axle_offset, fork.tube_end], beside))
        }
        _ => return None,
    })
}

fn dropout(setup: &Setup, key: &str) -> Entry {
    let (dropout, plane) = (&setup.dropout, dropout_plane(setup));
    let eye = dropout.eye_radius;
    let (neck, slot) = (neck_top(setup), radial(dropout.slot_direction));
    Some(match key {
        "thickness" => (View::FrontEnd, across([plane, -eye], [plane + dropout.thickness, -eye], -eye - ROOM)),
        "eye_radius" => {
            // Square to the slot, where the round is whole.
            let side = tangential(dropout.slot_direction) * eye;
            (View::Eye, straight([0.0, 0.0], [side.x, side.y]))
        }
        "neck_width" => {
            let length = neck.back.hypot(neck.up).max(1e-9);
            let (side, share) = ([neck.up / length, -neck.back / length], 0.6);
            let end = |sign: f64| {
                [share * neck.back + sign * neck.radius * side[0], share * neck.up + sign * neck.radius * side[1]]
            };
            (View::Dropout, straight(end(-1.0), end(1.0)))
        }
        "weld_length" => {
            let at = setup.fork.axle_offset + setup.fork.tube_diameter / 2.0;
            let upper = neck.up + neck.radius;
            (View::Dropout, along([at, setup.fork.tube_end], [neck.back, upper], at + ROOM))
        }
        "slot_width" => {
            let (place, side) = (slot * (0.75 * eye), tangential(dropout.slot_direction) * (dropout.slot_width / 2.0));
            let end = |sign: f64| [place.x + sign * side.x, place.y + sign * side.y];
            (View::Eye, straight(end(-1.0), end(1.0)))
        }
        "slot_direction" => (View::Eye, Dimension::Angle { radius: 1.25 * eye, from: 0.0, to: dropout.slot_direction }),
        _ => return None,
    })
}

/// Least rad of all pieces.
fn lowest(setup: &Setup) -> f64 {
    setup.caliper.bodies.iter().flat_map(|body| &body.outline).fold(0.0, |low, corner| low.min(corner[1]))
}

fn caliper(setup: &Setup, key: &str) -> Entry {
    let (caliper, pad) = (&setup.caliper, &setup.caliper.pad);
    let (half, outer, low) = (pad.length / 2.0, pad.height / 2.0, lowest(setup) - ROOM);
    let upper = caliper.holes[0][1].max(caliper.holes[1][1]) + setup.tab.edge + ROOM;
    let inner = caliper.bodies.iter().fold(0.0, |low: f64, body| low.min(-body.inboard)) - ROOM;
    Some(match key {
        "pad.length" => (View::Face, across([-half, -outer], [half, -outer], low)),
        "pad.height" => (View::Face, along([half, -outer], [half, outer], half + ROOM)),
        "pad.edge_inset" => (View::Edge, along([0.0, outer], [0.0, outer + pad.edge_inset], inner)),
        "throat" => (View::Edge, along([0.0, outer], [0.0, outer + caliper.throat], inner)),
        "mount_depth" => (View::Edge, across([0.0, outer], [caliper.mount_depth, upper - ROOM], upper)),
        "lateral_adjust" => {
            let reach = caliper.lateral_adjust;
            (View::Edge, across([0.0, low], [reach, low], low))
        }
        _ => return None,
    })
}

fn measured(setup: &Setup, key: &str) -> Entry {
    let (caliper, pad, found) = (&setup.caliper, &setup.caliper.pad, CaliperMeasured::of(setup));
    let ([left, right], [one, two]) = (pad_corners(setup), caliper.holes);
    let (half, outer, low) = (pad.length / 2.0, pad.height / 2.0, lowest(setup) - ROOM);
    let beside = half + found.body_right + ROOM;
    let halves = found.halves_length / 2.0;
    let lug = |share: f64| caliper.mount_depth + share * found.lug_thickness;
    let inner = lug_share(caliper);
    let upper = one[1].max(two[1]) + setup.tab.edge + ROOM;
    Some(match key {
        "hole_spacing" => (View::Face, straight(one, two)),
        "hole_1_left" => (View::Face, straight(left, one)),
        "hole_1_right" => (View::Face, straight(right, one)),
        "hole_2_left" => (View::Face, straight(left, two)),
        "hole_2_right" => (View::Face, straight(right, two)),
        "lug_edge" => {
            let length = (two[0] - one[0]).hypot(two[1] - one[1]).max(1e-9);
            let way = [0, 1].map(|axis| (one[axis] - two[axis]) / length * found.lug_edge);
            (View::Face, straight(one, [one[0] + way[0], one[1] + way[1]]))
        }
        "body_left" => (View::Face, across([-half - found.body_left, outer], [-half, -outer], low)),
        "body_right" => (View::Face, across([half, -outer], [half + found.body_right, outer], low)),
        "body_top" => (View::Face, along([half, outer], [half, outer + found.body_top], beside)),
        "halves_length" => (View::Face, across([-halves, -outer], [halves, -outer], low)),
        "halves_top" => (View::Face, along([half, outer], [halves, outer + found.halves_top], beside)),
        "halves_drop" => (View::Face, along([half, -outer], [halves, -outer - found.halves_drop], beside)),
        "inboard" => (View::Edge, across([-found.inboard, -outer], [0.0, low], low)),
        "outboard" => (View::Edge, across([0.0, low], [found.outboard, -outer], low)),
        "lug_thickness" => (View::Edge, across([lug(-inner), one[1]], [lug(1.0 - inner), one[1]], upper)),
        _ => return None,
    })
}
