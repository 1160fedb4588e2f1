//! The caliper: its outboard face, and its slot seen along the rotor's edge.

use super::super::canvas::Canvas;
use super::super::side::outboard;
use super::Drawn;
use crate::fit::pad_radius;
use crate::setup::{MatingFace, Mount, Setup};
use crate::solid::Disc;

/// Thickness of a pad with its backing, for the picture alone, mm.
const PAD_THICKNESS: f64 = 4.0;

/// Least and greatest cw, rad and out of all pieces and lands.
fn extent(setup: &Setup) -> [[f64; 2]; 3] {
    let caliper = &setup.caliper;
    let mut found = [[0.0_f64; 2]; 3];
    let mut hold = |axis: usize, value: f64| {
        found[axis] = [found[axis][0].min(value), found[axis][1].max(value)];
    };
    for body in &caliper.bodies {
        for &[cw, rad] in &body.outline {
            hold(0, cw);
            hold(1, rad);
        }
        hold(2, -body.inboard);
        hold(2, body.outboard);
    }
    for [cw, rad] in caliper.holes {
        for sign in [-1.0, 1.0] {
            hold(0, cw + sign * setup.tab.edge);
            hold(1, rad + sign * setup.tab.edge);
        }
    }
    found
}

/// At the outboard face: bodies over the pads, the rotor behind.
pub(super) fn face(setup: &Setup, canvas: Canvas) -> Drawn {
    let (pad, radius) = (&setup.caliper.pad, setup.wheel.rotor_diameter / 2.0);
    let canvas = canvas.hull("rotor", "", &[Disc::new(0.0, -pad_radius(setup), radius)]);
    let (half, depth) = (pad.length / 2.0, pad.height / 2.0);
    let canvas = outboard(setup, canvas, &|class, _| class.to_owned());
    let canvas = canvas.rectangle("pad", "", [-half, half], [-depth, depth]);
    let canvas = canvas.line("axis", "", [-4.0, 0.0], [4.0, 0.0]).line("axis", "", [0.0, -4.0], [0.0, 4.0]);
    let [cw, rad, _] = extent(setup);
    (canvas, [cw, rad])
}

/// Along the rotor's edge, outboard to the right: slot, pads, rotor and tab.
pub(super) fn edge(setup: &Setup, canvas: Canvas) -> Drawn {
    let (caliper, wheel) = (&setup.caliper, &setup.wheel);
    let [_, rad, out] = extent(setup);
    let mut canvas = canvas;
    for body in &caliper.bodies {
        let high =
            body.outline.iter().fold([f64::MAX, f64::MIN], |[low, high], [_, rad]| [low.min(*rad), high.max(*rad)]);
        canvas = canvas.rectangle("caliper", "", [-body.inboard, body.outboard], high);
    }
    let (half, outer) = (wheel.rotor_thickness / 2.0, caliper.pad.height / 2.0);
    let wide = half + PAD_THICKNESS;
    canvas = canvas.rectangle("hole", "", [-wide, wide], [rad[0] - 2.0, outer + caliper.throat]);
    for side in [-1.0, 1.0] {
        canvas = canvas.rectangle("pad", "", [side * half, side * wide], [-outer, outer]);
    }
    canvas = canvas.rectangle("band", "", [-half, half], [rad[0] - 6.0, outer + caliper.pad.edge_inset]);
    if caliper.mount == Mount::SideLug {
        let thickness = setup.dropout.thickness;
        let start = match caliper.mating_face {
            MatingFace::Inner => caliper.mount_depth,
            MatingFace::Outer => caliper.mount_depth - thickness,
        };
        let reach = [0, 1].map(|hole| caliper.holes[hole][1]);
        let high = [reach[0].min(reach[1]) - setup.tab.edge, reach[0].max(reach[1]) + setup.tab.edge];
        canvas = canvas.rectangle("tab", "", [start, start + thickness], high);
    }
    canvas = canvas.line("axis", "", [0.0, rad[0] - 6.0], [0.0, rad[1] + 6.0]);
    (canvas, [[out[0], out[1].max(caliper.mount_depth + setup.dropout.thickness)], [rad[0] - 6.0, rad[1] + 6.0]])
}
