//! The full report on a setup, as plain data with stable keys.

use super::clearance::{Pair, Verdict, binding, clearances};
use super::coverage::pad_cover;
use super::holes::{Hole, Posts, holes, posts};
use super::judgement::outcome;
use super::lateral::{Joint, Lateral, lateral, recess};
use super::line::{Run, line_run};
use super::parts::Parts;
use super::removal::{WheelRemoval, wheel_removal};
use super::sentences;
use crate::plain::plain;
use crate::setup::{Problem, Setup, Warning};

/// The verdict on a whole setup, from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Outcome {
    /// Every gap is at least what is wanted.
    Clears,
    /// Nothing touches, but a gap is smaller than wanted.
    Tight,
    /// Something overlaps.
    Hits,
    /// Whatever the gaps: the caliper cannot be set on the rotor, or the plate cannot meet the tube.
    CannotBuild,
}

plain!(Outcome: Clears = "clears", Tight = "tight", Hits = "hits", CannotBuild = "cannot_build");

impl Outcome {
    /// The outcome in a word or three.
    pub const fn word(self) -> &'static str {
        match self {
            Outcome::Clears => "Clears",
            Outcome::Tight => "Tight",
            Outcome::Hits => "Hits",
            Outcome::CannotBuild => "Cannot be built",
        }
    }
}

impl From<Verdict> for Outcome {
    fn from(verdict: Verdict) -> Self {
        match verdict {
            Verdict::Clears => Outcome::Clears,
            Verdict::Tight => Outcome::Tight,
            Verdict::Hits => Outcome::Hits,
        }
    }
}

/// Everything that is known of a setup. Lengths mm, angles degrees, points `[back, up, out]` in the leg frame.
#[derive(Clone, Debug)]
pub struct Report {
    /// The verdict on the whole.
    pub verdict: Outcome,
    /// The verdict in a sentence that names the binding pair and its number.
    pub summary: String,
    /// Key of the binding pair.
    pub binding: &'static str,
    /// Every pair, in a fixed order.
    pub pairs: Vec<PairReport>,
    /// The two caliper holes.
    pub holes: [Hole; 2],
    /// Hole to hole.
    pub hole_spacing: f64,
    /// The posts of a post mount.
    pub post: Option<Posts>,
    /// The pads on the rotor.
    pub pad: PadReport,
    /// The caliper's slot against the rotor.
    pub lateral: LateralReport,
    /// The line's way out.
    pub line: LineReport,
    /// The plate against the tube.
    pub recess: RecessReport,
    /// The wheel's way out.
    pub wheel_removal: RemovalReport,
    /// Whatever is unusual.
    pub warnings: Vec<Warning>,
}

plain!(Report {
    verdict,
    summary,
    binding,
    pairs,
    holes,
    hole_spacing,
    post,
    pad,
    lateral,
    line,
    recess,
    wheel_removal,
    warnings,
});

/// One pair.
#[derive(Clone, Debug)]
pub struct PairReport {
    /// Stable key, such as `caliper/tube`.
    pub name: &'static str,
    /// In words.
    pub label: String,
    /// The pieces that are nearest to each other.
    pub parts: [String; 2],
    /// Signed gap.
    pub gap: f64,
    /// The gap wanted.
    pub required: f64,
    /// Gap beyond what is wanted.
    pub margin: f64,
    /// The verdict on this pair.
    pub verdict: Verdict,
    /// The two nearest points.
    pub points: [[f64; 3]; 2],
}

plain!(PairReport { name, label, parts, gap, required, margin, verdict, points });

/// The pads on the rotor.
#[derive(Clone, Debug)]
pub struct PadReport {
    /// Distance of the pads' middle from the axle.
    pub radius: f64,
    /// Share of the pad on the braking band, 0 to 1.
    pub coverage: f64,
    /// How far the pad reaches past the rotor's edge.
    pub overhang: f64,
    /// How far it reaches below the braking band.
    pub below_band: f64,
    /// The same in words.
    pub sentence: String,
}

plain!(PadReport { radius, coverage, overhang, below_band, sentence });

/// The caliper's slot against the rotor.
#[derive(Clone, Debug)]
pub struct LateralReport {
    /// `out` of the slot's middle.
    pub slot_centre: f64,
    /// `out` of the rotor's mid-plane.
    pub rotor_plane: f64,
    /// Slot minus rotor, outboard positive.
    pub misalignment: f64,
    /// The caliper's own adjustment either way.
    pub adjust: f64,
    /// What is left of it inboard.
    pub room_inboard: f64,
    /// What is left of it outboard.
    pub room_outboard: f64,
    /// Whether the caliper can be set on the rotor.
    pub usable: bool,
    /// The same in words.
    pub sentence: String,
}

plain!(LateralReport { slot_centre, rotor_plane, misalignment, adjust, room_inboard, room_outboard, usable, sentence });

/// The line's way out.
#[derive(Clone, Debug)]
pub struct LineReport {
    /// Angle between the line and the leg.
    pub angle: f64,
    /// `up`, `across` or `away`.
    pub run: Run,
    /// Turn needed to run parallel to the leg.
    pub turn: f64,
    /// Room that this turn needs.
    pub room: f64,
    /// The same in words.
    pub sentence: String,
}

plain!(LineReport { angle, run, turn, room, sentence });

/// The plate against the tube.
#[derive(Clone, Debug)]
pub struct RecessReport {
    /// Plate's outer face beyond the tube's inner side.
    pub value: f64,
    /// `short`, `lap`, `let_in` or `beyond`.
    pub kind: Joint,
    /// The same in words.
    pub sentence: String,
}

plain!(RecessReport { value, kind, sentence });

/// The wheel's way out.
#[derive(Clone, Debug)]
pub struct RemovalReport {
    /// Whether the wheel comes out with the caliper bolted on.
    pub comes_out: bool,
    /// Least distance from the rotor's edge to the bridge on the way; none where the wheel moves sideways.
    pub gap: Option<f64>,
    /// Travel of the axle at which the way is blocked most.
    pub travel: Option<f64>,
    /// The same in words.
    pub sentence: String,
}

plain!(RemovalReport { comes_out, gap, travel, sentence });

/// The full report on a setup.
///
/// # Errors
/// The problems of a setup that was changed in code to something that cannot be worked out, and a problem without a
/// field where a gap could not be found.
///
/// ```
/// use tabwright_core::{Outcome, Setup, report};
/// let mut setup = Setup::default();
/// assert_eq!(report(&setup).unwrap().verdict, Outcome::Clears);
/// setup.wheel.rotor_diameter = 180.0;
/// let report = report(&setup).unwrap();
/// assert_eq!(report.verdict, Outcome::Hits);
/// ```
pub fn report(setup: &Setup) -> Result<Report, Vec<Problem>> {
    report_on(setup, &Parts::of(setup), setup.checked()?)
}

/// The full report on a setup that was read or checked, on its parts and with its warnings.
pub(crate) fn report_on(setup: &Setup, parts: &Parts, mut warnings: Vec<Warning>) -> Result<Report, Vec<Problem>> {
    let Ok(pairs) = clearances(setup, parts) else {
        return Err(vec![no_gap()]);
    };
    let Some(worst) = binding(&pairs) else {
        return Err(vec![no_gap()]);
    };
    let (cover, lateral, line, recess) = (pad_cover(setup), lateral(setup), line_run(setup), recess(setup));
    let (removal, holes) = (wheel_removal(setup), holes(setup));
    let verdict = outcome(setup, worst);
    sentences::add_warnings(setup, &cover, &removal, &mut warnings);

    Ok(Report {
        verdict,
        summary: sentences::summary(verdict, worst, &pairs, &lateral, &recess),
        binding: worst.name.key(),
        holes: holes.holes,
        hole_spacing: holes.spacing,
        post: posts(setup),
        pad: PadReport {
            radius: cover.radius,
            coverage: cover.coverage,
            overhang: cover.overhang,
            below_band: cover.below_band,
            sentence: sentences::pad(&cover),
        },
        lateral: lateral_report(&lateral),
        line: LineReport {
            angle: line.angle,
            run: line.run,
            turn: line.angle,
            room: line.room,
            sentence: sentences::line(&line),
        },
        recess: RecessReport { value: recess.value, kind: recess.joint, sentence: sentences::recess(&recess) },
        wheel_removal: removal_report(&removal),
        warnings,
        pairs: pairs.iter().map(pair_report).collect(),
    })
}

/// What a builder is told where a gap could not be found.
pub(crate) fn no_gap() -> Problem {
    let message = "A gap could not be worked out for this setup. Change one of the last numbers a little.".to_owned();
    Problem { field: String::new(), value: String::new(), message }
}

fn pair_report(pair: &Pair) -> PairReport {
    PairReport {
        name: pair.name.key(),
        label: pair.name.label(),
        parts: pair.parts.clone(),
        gap: pair.gap,
        required: pair.required,
        margin: pair.margin(),
        verdict: pair.verdict(),
        points: pair.points.map(|point| [point.x, point.y, point.z]),
    }
}

fn lateral_report(lateral: &Lateral) -> LateralReport {
    LateralReport {
        slot_centre: lateral.slot_centre,
        rotor_plane: lateral.rotor_plane,
        misalignment: lateral.misalignment,
        adjust: lateral.adjust,
        room_inboard: lateral.room_inboard,
        room_outboard: lateral.room_outboard,
        usable: lateral.usable,
        sentence: sentences::lateral(lateral),
    }
}

fn removal_report(removal: &WheelRemoval) -> RemovalReport {
    let (gap, travel) = match *removal {
        WheelRemoval::Free { gap } => (Some(gap), None),
        WheelRemoval::Blocked { gap, travel } => (Some(gap), Some(travel)),
        WheelRemoval::Sideways => (None, None),
    };
    RemovalReport { comes_out: removal.comes_out(), gap, travel, sentence: sentences::removal(removal) }
}
