//! Sideways: the caliper's slot against the rotor, and the plate against the tube.

use super::frame::{dropout_plane, rotor_plane, tab_plane};
use crate::plain::plain;
use crate::setup::{MatingFace, Setup};
use crate::tolerance::AT_THE_LIMIT;

/// Where the caliper's slot comes to lie against the rotor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lateral {
    /// `out` of the slot's middle with the caliper in the middle of its adjustment, mm.
    pub slot_centre: f64,
    /// `out` of the rotor's mid-plane, mm.
    pub rotor_plane: f64,
    /// Slot minus rotor, mm, outboard positive.
    pub misalignment: f64,
    /// The caliper's own adjustment either way, mm.
    pub adjust: f64,
    /// Adjustment left inboard once the slot is on the rotor, mm; negative where it does not get there.
    pub room_inboard: f64,
    /// Adjustment left outboard once the slot is on the rotor, mm; negative where it does not get there.
    pub room_outboard: f64,
    /// Whether the caliper can be set on the rotor at all.
    pub usable: bool,
}

/// The sideways place of a setup's caliper.
pub fn lateral(setup: &Setup) -> Lateral {
    let caliper = &setup.caliper;
    let mating_face = match caliper.mating_face {
        MatingFace::Inner => tab_plane(setup),
        MatingFace::Outer => tab_plane(setup) + setup.dropout.thickness,
    };
    let slot_centre = mating_face - caliper.mount_depth;
    let misalignment = slot_centre - rotor_plane(setup);
    let adjust = caliper.lateral_adjust;
    Lateral {
        slot_centre,
        rotor_plane: rotor_plane(setup),
        misalignment,
        adjust,
        // A slot that lies outboard of the rotor uses up adjustment inboard.
        room_inboard: adjust - misalignment,
        room_outboard: adjust + misalignment,
        usable: misalignment.abs() <= adjust + AT_THE_LIMIT,
    }
}

/// How plate and tube meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joint {
    /// The plate does not reach the tube.
    Short,
    /// The plate laps on the inside of the tube.
    Lap,
    /// The plate is let into a slot in the tube.
    LetIn,
    /// The plate would lie beyond the tube: it cannot be built.
    Beyond,
}

plain!(Joint: Short = "short", Lap = "lap", LetIn = "let_in", Beyond = "beyond");

/// How far the plate's outer face lies beyond the tube's inner side.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Recess {
    /// Outboard positive, mm.
    pub value: f64,
    /// What that means for the joint.
    pub joint: Joint,
}

/// The recess of a setup's dropout.
pub fn recess(setup: &Setup) -> Recess {
    let value = dropout_plane(setup) + setup.dropout.thickness - setup.fork.tube_gap / 2.0;
    let joint = if value < -AT_THE_LIMIT {
        Joint::Short
    } else if value <= AT_THE_LIMIT {
        Joint::Lap
    } else if value <= setup.fork.tube_diameter + AT_THE_LIMIT {
        Joint::LetIn
    } else {
        Joint::Beyond
    };
    Recess { value, joint }
}
