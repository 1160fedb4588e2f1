//! Everything a builder wants to know of a part as built, with its uncertainty.

use super::as_built::{built_misalignment, built_setup, pads_middle, seat, swung_out, tab_middle};
use super::locate::Holes4;
use super::reading::READING_SIGMAS;
use super::squares::quadratic;
use crate::fit::{Pair, PairName, Parts, clearances, turned_cover};
use crate::setup::Setup;
use crate::solid::NotConverged;

/// Back and up of both holes, the steps at both, the rotor's inset; mm.
pub(super) type State = [f64; 7];
/// The covariance of a [`State`].
pub(super) type Spread = [[f64; 7]; 7];

/// Derivatives are taken over this much either way, mm: a little less than a good reading's own ±.
const DIFFERENCE: f64 = 0.05;
/// A gap smaller than this has no direction, mm.
const TOUCHING: f64 = 1e-9;

/// Numbers of a part that have an uncertainty; lengths mm, angles degrees.
#[derive(Clone, Debug)]
pub(super) struct Figures {
    pub(super) numbers: [f64; NUMBERS],
    pub(super) pairs: Vec<(PairName, f64)>,
}

const NUMBERS: usize = 10;
pub(super) const SPACING: usize = 0;
pub(super) const MISALIGNMENT: usize = 1;
pub(super) const OFFSET: usize = 2;
pub(super) const INSET: usize = 3;
pub(super) const TILT: usize = 4;
pub(super) const RADIUS: usize = 5;
pub(super) const CLOCK: usize = 6;
pub(super) const COVERAGE: usize = 7;
pub(super) const OVERHANG: usize = 8;
pub(super) const BELOW_BAND: usize = 9;

pub(super) fn holes_of(state: &State) -> Holes4 {
    [state[0], state[1], state[2], state[3]]
}

pub(super) fn level_of(state: &State) -> [f64; 3] {
    [state[4], state[5], state[6]]
}

/// The tab's tilt along the line of the holes as a slope, positive where hole 2 lies outboard.
pub(super) fn slope_of(state: &State) -> f64 {
    let spacing = (state[2] - state[0]).hypot(state[3] - state[1]);
    (state[5] - state[4]) / spacing.max(f64::MIN_POSITIVE)
}

/// The setup in that state, but for the tilt, which no setup has.
pub(super) fn setup_of(setup: &Setup, state: &State) -> Setup {
    let mut built = built_setup(setup, &holes_of(state));
    built.tab.offset = (state[4] + state[5]) / 2.0;
    built.wheel.rotor_inset = state[6];
    built
}

/// The state of a part exactly as designed.
pub(super) fn designed_state(setup: &Setup) -> State {
    let [first, second] = crate::fit::hole_centres(setup);
    let offset = setup.tab.offset;
    [first[0], first[1], second[0], second[1], offset, offset, setup.wheel.rotor_inset]
}

/// All figures of a state. A tilted caliper's gaps are those of a straight one and what the turn moves its nearest points
/// by, which is right to first order.
pub(super) fn figures(setup: &Setup, state: &State) -> Result<Figures, NotConverged> {
    let built = setup_of(setup, state);
    let holes = holes_of(state);
    let slope = slope_of(state);
    let pairs = clearances(&built, &Parts::of(&built))?;
    let pairs = pairs.iter().map(|pair| (pair.name, pair.gap + swung(&built, &holes, slope, pair))).collect();
    let seat = seat(setup, &holes);
    let cover = turned_cover(&built, seat.skew());
    let numbers = [
        (holes[0] - holes[2]).hypot(holes[1] - holes[3]),
        built_misalignment(setup, level_of(state)),
        (state[4] + state[5]) / 2.0,
        state[6],
        slope.atan().to_degrees(),
        seat.radius(),
        seat.clock(),
        cover.coverage,
        cover.overhang,
        cover.below_band,
    ];
    Ok(Figures { numbers, pairs })
}

/// How much a tilt opens a gap, mm: the tab turns about the middle between its holes, the caliper, which is set on the rotor,
/// about its pads.
fn swung(setup: &Setup, holes: &Holes4, slope: f64, pair: &Pair) -> f64 {
    let pivot = match pair.name {
        PairName::RotorThroat | PairName::RotorTube | PairName::RotorPlate | PairName::NutTube => return 0.0,
        PairName::TabTube | PairName::ToolTube => tab_middle(setup, holes),
        PairName::CaliperTube
        | PairName::CaliperPlate
        | PairName::CaliperSpokes
        | PairName::CaliperNut
        | PairName::LineTube
        | PairName::LineRotor
        | PairName::LineSpokes => pads_middle(setup, holes),
    };
    let [first, second] = pair.points;
    let apart = first - second;
    let size = apart.length();
    if size < TOUCHING || slope == 0.0 {
        return 0.0;
    }
    // Overlapping parts have their nearest points the other way round.
    let direction = apart / (size * pair.gap.signum());
    direction.dot(swung_out(holes, slope, pivot, first))
}

/// ± of each figure, in the same order.
pub(super) struct Uncertainty {
    pub(super) numbers: [f64; NUMBERS],
    pub(super) pairs: Vec<(PairName, f64)>,
}

/// ± of all figures by derivatives.
pub(super) fn uncertainty(
    setup: &Setup,
    state: &State,
    spread: &Spread,
    here: &Figures,
) -> Result<Uncertainty, NotConverged> {
    let mut beside = Vec::with_capacity(state.len());
    for index in 0..state.len() {
        let moved = |by: f64| {
            let mut other = *state;
            other[index] += by;
            figures(setup, &other)
        };
        beside.push((moved(DIFFERENCE)?, moved(-DIFFERENCE)?));
    }
    let plus_minus = |figure: &dyn Fn(&Figures) -> f64| {
        let slope: State = std::array::from_fn(|index| {
            let (more, less) = &beside[index];
            (figure(more) - figure(less)) / (2.0 * DIFFERENCE)
        });
        READING_SIGMAS * quadratic(spread, &slope).max(0.0).sqrt()
    };
    let numbers = std::array::from_fn(|index| plus_minus(&|figures| figures.numbers[index]));
    // A pair that stops being one a little way off has no change there.
    let pair = |&(name, gap): &(PairName, f64)| {
        let of =
            |figures: &Figures| figures.pairs.iter().find(|(other, _)| *other == name).map_or(gap, |(_, gap)| *gap);
        (name, plus_minus(&of))
    };
    Ok(Uncertainty { numbers, pairs: here.pairs.iter().map(pair).collect() })
}
