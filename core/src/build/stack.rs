//! The sideways stack: everything between the hub's face and the caliper's slot, against what the caliper adjusts by.

use super::chance::{Chance, Shape};
use super::normal::normal_between;
use super::suggestions::{Classes, classes};
use super::tilt::{TiltStack, tilt_stack};
use crate::fit::lateral;
use crate::plain::plain;
use crate::setup::{MatingFace, Setup};
use crate::tolerance::AT_THE_LIMIT;
use crate::words::{fine_length as length, hundredths, percent};

/// A dimension's ± is this many standard deviations: a shop that holds its ± in 997 of 1000 parts.
pub const STACK_SIGMAS: f64 = 3.0;
/// Share of builds that a tab is to be held for.
pub const WANTED_SHARE: f64 = 0.99;
/// Builds drawn for each shape.
const BUILDS: u32 = 20_000;
const SEED: u64 = 20_261_127;
/// The tab's own ± is found to this, mm.
const TAB_STEP: f64 = 1e-6;

/// One dimension of the stack.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution {
    /// Path of its tolerance.
    pub field: &'static str,
    /// What a builder calls it.
    pub label: &'static str,
    /// `mm` or `°`.
    pub unit: &'static str,
    /// ± in that unit.
    pub tolerance: f64,
    /// Millimetres of misalignment for one unit.
    pub sensitivity: f64,
    /// |sensitivity| · tolerance, mm.
    pub effect: f64,
    /// Share of the variance.
    pub share: f64,
    /// Why it counts as it does.
    pub note: &'static str,
}

plain!(Contribution { field, label, unit, tolerance, sensitivity, effect, share, note });

/// Where the slot can come to lie, `[low, high]` in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StackRanges {
    /// With everything at the end of its ± at once.
    pub worst: [f64; 2],
    /// By root sum of squares.
    pub rss: [f64; 2],
}

plain!(StackRanges { worst, rss });

/// What a simulation of one shape found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Simulated {
    /// How each dimension was spread.
    pub shape: Shape,
    /// Share of builds inside the adjustment.
    pub within: f64,
    /// Its standard error.
    pub standard_error: f64,
}

plain!(Simulated { shape, within, standard_error });

/// A seeded simulation of builds.
#[derive(Clone, Debug, PartialEq)]
pub struct Simulation {
    /// Builds for each shape.
    pub builds: f64,
    /// Seed of the draws.
    pub seed: f64,
    /// One for each shape.
    pub shapes: Vec<Simulated>,
}

plain!(Simulation { builds, seed, shapes });

/// How true the tab must be welded sideways.
#[derive(Clone, Debug, PartialEq)]
pub struct TabHeld {
    /// Share of builds that shall be inside.
    pub share: f64,
    /// The tab's ± now, mm.
    pub now: f64,
    /// The largest ± that does it, mm, up to the field's limit; none where no tab is true enough.
    pub tolerance: Option<f64>,
    /// Whether the ± now is inside.
    pub held: bool,
    /// The same in words.
    pub sentence: String,
}

plain!(TabHeld { share, now, tolerance, held, sentence });

/// The sideways stack of a setup. Lengths mm, outboard positive.
#[derive(Clone, Debug)]
pub struct Stack {
    /// Slot minus rotor as designed.
    pub misalignment: f64,
    /// The caliper's adjustment either way.
    pub adjust: f64,
    /// Every dimension, from the hub to the slot.
    pub contributions: Vec<Contribution>,
    /// ± if everything errs the same way at once.
    pub worst: f64,
    /// ± by root sum of squares.
    pub rss: f64,
    /// The same as places of the slot.
    pub ranges: StackRanges,
    /// Share of builds inside the adjustment, by normal distributions.
    pub within: f64,
    /// Whether even the worst case is inside.
    pub always: bool,
    /// The dimension that matters most.
    pub decisive: Option<&'static str>,
    /// The same share by drawing.
    pub simulation: Simulation,
    /// What the tab must be held to.
    pub tab: TabHeld,
    /// Classes of general tolerances.
    pub classes: Vec<Classes>,
    /// A tab out of square.
    pub tilt: TiltStack,
    /// The whole in words.
    pub sentences: Vec<String>,
}

plain!(Stack {
    misalignment,
    adjust,
    contributions,
    worst,
    rss,
    ranges,
    within,
    always,
    decisive,
    simulation,
    tab,
    classes,
    tilt,
    sentences,
});

/// Worst case and root sum of squares of effects that are each ±.
///
/// ```
/// use tabwright_core::build::sum_of;
/// let (worst, rss) = sum_of([3.0, 4.0]);
/// assert_eq!((worst, rss), (7.0, 5.0));
/// ```
pub fn sum_of(effects: impl IntoIterator<Item = f64>) -> (f64, f64) {
    let (worst, squares) =
        effects.into_iter().fold((0.0, 0.0), |(sum, squares), effect| (sum + effect.abs(), squares + effect * effect));
    (worst, squares.sqrt())
}

/// One tolerance and the number of the setup that it is about; none for what is no number of the setup.
struct Dimension {
    field: &'static str,
    of: Option<&'static str>,
    note: &'static str,
}

const DIMENSIONS: [Dimension; 7] = [
    Dimension {
        field: "tolerance.hub_width",
        of: Some("wheel.hub_width"),
        note: "Rotor and plate both hang on the hub's face, so its width drops out.",
    },
    Dimension { field: "tolerance.rotor_inset", of: Some("wheel.rotor_inset"), note: "Moves the rotor." },
    Dimension { field: "tolerance.runout", of: None, note: "The rotor swings this far to both sides as it turns." },
    Dimension { field: "tolerance.tab_offset", of: Some("tab.offset"), note: "Moves the tab and the caliper with it." },
    Dimension { field: TAB_TILT, of: None, note: "Swings the slot about the line of the holes." },
    Dimension { field: "tolerance.plate", of: Some("dropout.thickness"), note: "" },
    Dimension { field: "tolerance.mount_depth", of: Some("caliper.mount_depth"), note: "Moves the slot." },
];
pub(super) const TAB_TILT: &str = "tolerance.tab_tilt";
pub(super) const TAB_OFFSET: &str = "tolerance.tab_offset";

impl Dimension {
    fn note(&self, setup: &Setup) -> &'static str {
        match (self.field, setup.caliper.mating_face) {
            ("tolerance.plate", MatingFace::Inner) => "The caliper sits on the inner face, which does not move.",
            ("tolerance.plate", MatingFace::Outer) => "The caliper sits on the outer face.",
            _ => self.note,
        }
    }

    /// Millimetres of misalignment for one unit.
    fn sensitivity(&self, setup: &Setup) -> f64 {
        match self.of {
            // The misalignment is a sum of lengths, so half the difference over two units is exact.
            Some(path) => (misaligned(setup, path, 1.0) - misaligned(setup, path, -1.0)) / 2.0,
            None if self.field == TAB_TILT => pad_lever(setup) * 1.0_f64.to_radians(),
            None => 1.0,
        }
    }
}

fn misaligned(setup: &Setup, path: &str, by: f64) -> f64 {
    let mut other = setup.clone();
    if let Some(number) = other.number_at(path) {
        *number += by;
    }
    lateral(&other).misalignment
}

/// From the middle between the holes to the pads' middle, in the wheel plane, mm.
fn pad_lever(setup: &Setup) -> f64 {
    let [first, second] = setup.caliper.holes;
    ((first[0] + second[0]) / 2.0).hypot((first[1] + second[1]) / 2.0)
}

/// Every dimension of the stack.
fn contributions(setup: &Setup) -> Vec<Contribution> {
    let mut given = setup.clone();
    let mut all = Vec::new();
    for dimension in &DIMENSIONS {
        let Some(field) = Setup::field(dimension.field) else { continue };
        let Some(tolerance) = given.number_at(dimension.field).map(|number| *number) else { continue };
        let sensitivity = dimension.sensitivity(setup);
        all.push(Contribution {
            field: dimension.field,
            label: field.label,
            unit: if dimension.field == TAB_TILT { "°" } else { "mm" },
            tolerance,
            sensitivity,
            effect: sensitivity.abs() * tolerance,
            share: 0.0,
            note: dimension.note(setup),
        });
    }
    let (_, rss) = sum_of(all.iter().map(|one| one.effect));
    if rss > 0.0 {
        all.iter_mut().for_each(|one| one.share = (one.effect / rss) * (one.effect / rss));
    }
    all
}

/// The sideways stack of a setup: contributions, worst case, share of builds, tilt and what would help.
///
/// ± of dimensions are [`STACK_SIGMAS`] standard deviations of independent normal distributions; the simulation draws
/// other shapes too. Never fails: a setup that was read has a sum.
///
/// ```
/// use tabwright_core::{Setup, build::stack};
/// let stack = stack(&Setup::default());
/// assert_eq!(stack.misalignment, 0.0);
/// assert!(stack.within > 0.999 && stack.decisive == Some("tolerance.tab_offset"));
/// ```
pub fn stack(setup: &Setup) -> Stack {
    let (contributions, lateral) = (contributions(setup), lateral(setup));
    let (misalignment, adjust) = (lateral.misalignment, lateral.adjust);
    let (worst, rss) = sum_of(contributions.iter().map(|one| one.effect));
    let around = |by: f64| [misalignment - by, misalignment + by];
    let most = contributions.iter().fold(None::<&Contribution>, |most, one| match most {
        Some(most) if most.effect >= one.effect => Some(most),
        _ if one.effect > 0.0 => Some(one),
        most => most,
    });
    let mut stack = Stack {
        misalignment,
        adjust,
        worst,
        rss,
        ranges: StackRanges { worst: around(worst), rss: around(rss) },
        within: share_within(misalignment, rss, adjust),
        always: misalignment.abs() + worst <= adjust + AT_THE_LIMIT,
        decisive: most.map(|one| one.field),
        simulation: simulate(&contributions, misalignment, adjust),
        tab: tab_held(&contributions, misalignment, adjust),
        classes: classes(setup, &contributions),
        tilt: tilt_stack(setup),
        sentences: Vec::new(),
        contributions,
    };
    stack.sentences = sentences(&stack);
    stack
}

/// Share of builds whose slot lies within the adjustment, where `rss` is [`STACK_SIGMAS`] standard deviations.
pub fn share_within(misalignment: f64, rss: f64, adjust: f64) -> f64 {
    // Only where nothing is spread does a limit count as reached by a hair.
    let limit = if rss > 0.0 { adjust } else { adjust + AT_THE_LIMIT };
    normal_between(misalignment, rss / STACK_SIGMAS, -limit, limit)
}

fn simulate(contributions: &[Contribution], misalignment: f64, adjust: f64) -> Simulation {
    let mut chance = Chance::new(SEED);
    let shapes = Shape::ALL.map(|shape| {
        let inside = (0..BUILDS).filter(|_| {
            let drawn = contributions.iter().fold(misalignment, |sum, one| sum + one.effect * chance.draw(shape));
            drawn.abs() <= adjust + AT_THE_LIMIT
        });
        let within = inside.count() as f64 / f64::from(BUILDS);
        Simulated { shape, within, standard_error: (within * (1.0 - within) / f64::from(BUILDS)).sqrt() }
    });
    Simulation { builds: f64::from(BUILDS), seed: SEED as f64, shapes: shapes.to_vec() }
}

/// The largest ± of the tab's offset that leaves the share wanted, by halving.
fn tab_held(contributions: &[Contribution], misalignment: f64, adjust: f64) -> TabHeld {
    let now = contributions.iter().find(|one| one.field == TAB_OFFSET).map_or(0.0, |one| one.tolerance);
    let share = |tab: f64| {
        let effects = contributions.iter().map(|one| match one.field {
            TAB_OFFSET => one.sensitivity * tab,
            _ => one.effect,
        });
        share_within(misalignment, sum_of(effects).1, adjust)
    };
    let limit = Setup::field(TAB_OFFSET).map_or(0.0, |field| field.hard_range()[1]);
    let tolerance = if share(0.0) < WANTED_SHARE {
        None
    } else if share(limit) >= WANTED_SHARE {
        Some(limit)
    } else {
        let (mut good, mut bad) = (0.0, limit);
        while bad - good > TAB_STEP {
            let middle = (good + bad) / 2.0;
            if share(middle) >= WANTED_SHARE { good = middle } else { bad = middle }
        }
        Some(good)
    };
    let held = tolerance.is_some_and(|tolerance| now <= tolerance);
    let sentence = match tolerance {
        None => format!("No tab is true enough: the rest alone leaves {} of builds inside.", percent(share(0.0))),
        Some(most) if held => format!(
            "Welded to ±{}, the tab is held well enough; ±{} would still leave 99 of 100 builds inside.",
            length(now),
            length(most)
        ),
        Some(most) => format!("For 99 of 100 builds weld the tab to ±{}, not ±{}.", length(most), length(now)),
    };
    TabHeld { share: WANTED_SHARE, now, tolerance, held, sentence }
}

fn sentences(stack: &Stack) -> Vec<String> {
    let adjust = length(stack.adjust);
    let inside = if stack.always {
        format!("Even if every part errs the same way at once, the caliper's ±{adjust} take it up.")
    } else {
        format!("The caliper's ±{adjust} take up {} of builds.", percent(stack.within))
    };
    let spread = format!(
        "The slot lies {} from the rotor as designed; ±{} at worst, ±{} by root sum of squares.",
        length(stack.misalignment.abs()),
        length(stack.worst),
        length(stack.rss),
    );
    let mut all = vec![inside, spread];
    if let Some(one) = stack.contributions.iter().find(|one| Some(one.field) == stack.decisive) {
        let by = hundredths(one.tolerance) + if one.unit == "mm" { " mm" } else { one.unit };
        all.push(format!("What matters most: {} {by}, {} of the spread.", one.label, percent(one.share)));
    }
    all.push(stack.tab.sentence.clone());
    all.push(stack.tilt.sentence.clone());
    all
}
