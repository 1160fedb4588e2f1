//! What if the rotor were another, or the hub: one cell of that table.

use super::no_gap;
use super::ring::{clear_arcs, roomiest_of};
use super::shortest::{Rules, Shortest, shortest_here, shortest_of};
use super::sweep::Sweep;
use crate::fit::{Joint, Outcome, judge, recess};
use crate::plain::plain;
use crate::search::arcs::wrapped;
use crate::setup::{Problem, Setup};
use crate::solid::NotConverged;

/// Whether the fork stays as it is when the hub changes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fork {
    /// The fork is there; a wider hub recesses the dropouts.
    Kept,
    /// The fork is still to be built: its tubes stand so that the dropouts lap on their inside.
    FollowsHub,
}

/// One rotor on one hub.
#[derive(Clone, Debug)]
pub struct Cell {
    /// Rotor size, mm.
    pub rotor_diameter: f64,
    /// Hub width, mm.
    pub hub_width: f64,
    /// Between the tubes, mm: the setup's own, or what the fork would be built to.
    pub tube_gap: f64,
    /// With the setup's own clock angle.
    pub as_cut: Standing,
    /// Shortest tube end at that clock angle, mm; none where none does.
    pub as_cut_tube_end: Option<f64>,
    /// With the clock angle that has most room among those that keep to the rules; none where none clears.
    pub best: Option<Standing>,
    /// Shortest dropout with any clock angle that keeps to the rules.
    pub shortest: Shortest,
    /// How far the plate's outer face lies beyond the tube's inner side, mm.
    pub recess: f64,
    /// `short`, `lap`, `let_in` or `beyond`.
    pub joint: Joint,
}

plain!(Cell { rotor_diameter, hub_width, tube_gap, as_cut, as_cut_tube_end, best, shortest, recess, joint });

/// A clock angle with its verdict.
#[derive(Clone, Debug)]
pub struct Standing {
    /// Clock angle, degrees.
    pub clock: f64,
    /// The verdict on the whole.
    pub verdict: Outcome,
    /// Worst margin, mm.
    pub margin: f64,
    /// Key of the pair that binds.
    pub binding: &'static str,
}

plain!(Standing { clock, verdict, margin, binding });

/// The setup with another rotor and hub.
pub fn with_rotor_and_hub(setup: &Setup, rotor_diameter: f64, hub_width: f64, fork: Fork) -> Setup {
    let mut other = setup.clone();
    other.wheel.rotor_diameter = rotor_diameter;
    other.wheel.hub_width = hub_width;
    if fork == Fork::FollowsHub {
        other.fork.tube_gap = hub_width + 2.0 * other.dropout.thickness;
    }
    other
}

/// What comes of a setup with another rotor and hub.
///
/// # Errors
/// The problems of the changed setup where it cannot be worked out.
pub fn what_if(
    setup: &Setup,
    rotor_diameter: f64,
    hub_width: f64,
    fork: Fork,
    rules: Rules,
) -> Result<Cell, Vec<Problem>> {
    let setup = with_rotor_and_hub(setup, rotor_diameter, hub_width, fork);
    setup.checked()?;
    cell(&setup, rules).map_err(no_gap)
}

fn cell(setup: &Setup, rules: Rules) -> Result<Cell, NotConverged> {
    let judged = judge(setup)?;
    let as_cut = Standing {
        clock: setup.tab.clock,
        verdict: judged.outcome,
        margin: judged.binding.margin(),
        binding: judged.binding.name.key(),
    };
    let allowed = rules.arcs(setup);
    let mut sweep = Sweep::of(setup)?;
    let clear = clear_arcs(&mut sweep)?.and(&allowed);
    let best = roomiest_of(&mut sweep, &clear)?.map(|best| Standing {
        clock: wrapped(best.clock),
        // No clock angle mends what cannot be built.
        verdict: if judged.outcome == Outcome::CannotBuild { Outcome::CannotBuild } else { Outcome::Clears },
        margin: best.worst.margin(),
        binding: best.worst.name.key(),
    });
    let recess = recess(setup);
    Ok(Cell {
        rotor_diameter: setup.wheel.rotor_diameter,
        hub_width: setup.wheel.hub_width,
        tube_gap: setup.fork.tube_gap,
        as_cut,
        as_cut_tube_end: shortest_here(setup)?,
        best,
        shortest: shortest_of(std::slice::from_mut(&mut sweep), &allowed, rules, setup)?,
        recess: recess.value,
        joint: recess.joint,
    })
}
