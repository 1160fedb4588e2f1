//! Which way the line leaves the caliper.

use super::frame::CaliperFrame;
use crate::plain::plain;
use crate::setup::Setup;
use crate::tolerance::AT_THE_LIMIT;

/// Up the leg: at most this far from `up`, degrees.
pub(crate) const UP_THE_LEG: f64 = 60.0;
/// Across the leg: at most this far from `up`, degrees.
const ACROSS: f64 = 120.0;

/// The way the line leaves, against the leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Run {
    /// Within 60° of the leg, towards the crown.
    Up,
    /// Within 120° of the leg.
    Across,
    /// Downwards.
    Away,
}

plain!(Run: Up = "up", Across = "across", Away = "away");

/// How the line leaves the caliper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LineRun {
    /// Angle between its direction and `up`, degrees; also the turn needed to run parallel to the leg.
    pub angle: f64,
    /// The same in a word.
    pub run: Run,
    /// Room that this turn needs sideways of the leg at the tightest bend, mm.
    pub room: f64,
}

/// The run of a setup's line.
pub fn line_run(setup: &Setup) -> LineRun {
    let line = &setup.caliper.line;
    let direction = CaliperFrame::of(setup).direction(line.direction).normalize();
    let up = direction.y.clamp(-1.0, 1.0);
    let degrees = up.acos().to_degrees();
    let run = if degrees <= UP_THE_LEG + AT_THE_LIMIT {
        Run::Up
    } else if degrees <= ACROSS + AT_THE_LIMIT {
        Run::Across
    } else {
        Run::Away
    };
    LineRun { angle: degrees, run, room: line.min_bend_radius * (1.0 - up) }
}
