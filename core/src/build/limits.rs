//! What a tacked part is judged by.

use super::figures::{COVERAGE, Figures, MISALIGNMENT, SPACING, State, TILT, Uncertainty, slope_of};
use crate::fit::PairName;
use crate::plain::plain;
use crate::setup::{BoltSize, Setup};
use crate::tolerance::AT_THE_LIMIT;
use crate::words::{fine_length, hundredths, percent};

/// As much pad on the band as this is full cover; and so much less than designed, or than full, is taken: common practice,
/// no source.
const FULL_COVER: f64 = 0.95;
const COVER_LOST: f64 = 0.05;

/// One limit, and where the part lies. Lengths mm, angles degrees, coverage a share.
#[derive(Clone, Debug)]
pub struct Limit {
    /// `spacing`, `sideways`, `tilt`, `coverage` or the key of a pair.
    pub key: &'static str,
    /// In words.
    pub label: String,
    /// `mm`, `°`, or empty for a share.
    pub unit: &'static str,
    /// Where the part lies.
    pub value: f64,
    /// ± of that.
    pub uncertainty: f64,
    /// The least allowed.
    pub low: Option<f64>,
    /// The most allowed.
    pub high: Option<f64>,
    /// Whether it is inside.
    pub ok: bool,
    /// Whether it is, or is not, at both ends of the ± too.
    pub sure: bool,
    /// The same in words.
    pub sentence: String,
}

plain!(Limit { key, label, unit, value, uncertainty, low, high, ok, sure, sentence });

/// What the bolts' holes allow the spacing to be off, mm: medium holes of ISO 273 (M5 5.5, M6 6.6), less the bolt, half of it
/// at each of the two holes.
pub fn bolt_play(size: BoltSize) -> f64 {
    hole_diameter(size) - bolt_diameter(size)
}

/// ISO 273 medium, mm.
pub(super) const fn hole_diameter(size: BoltSize) -> f64 {
    match size {
        BoltSize::M5 => 5.5,
        BoltSize::M6 => 6.6,
    }
}

const fn bolt_diameter(size: BoltSize) -> f64 {
    match size {
        BoltSize::M5 => 5.0,
        BoltSize::M6 => 6.0,
    }
}

/// The tilt along the line of the holes at which the pads' corners use up the running clearance, degrees.
pub fn allowed_tilt(setup: &Setup) -> f64 {
    let [first, second] = setup.caliper.holes;
    let (across, up) = (second[0] - first[0], second[1] - first[1]);
    let spacing = across.hypot(up);
    let pad = &setup.caliper.pad;
    // How far the pad's corner lies from its middle, along the line of the holes.
    let corner = (pad.length / 2.0 * across.abs() + pad.height / 2.0 * up.abs()) / spacing;
    (setup.tack.running / corner).atan().to_degrees()
}

/// The least share of the pad on the band that is taken, where a design has full cover.
pub(super) fn usable_cover() -> f64 {
    FULL_COVER - COVER_LOST
}

/// The caliper's own distance from hole to hole, mm.
pub(super) fn own_spacing(setup: &Setup) -> f64 {
    let [first, second] = setup.caliper.holes;
    (second[0] - first[0]).hypot(second[1] - first[1])
}

/// What a number must keep to.
enum Bounds {
    /// Either way of nought.
    Within(f64),
    AtLeast(f64),
}

fn limit(
    key: &'static str,
    label: String,
    unit: &'static str,
    (value, uncertainty): (f64, f64),
    bounds: Bounds,
    words: impl Fn(f64) -> String,
) -> Limit {
    let (low, high, allowed) = match bounds {
        Bounds::Within(most) => (-most, Some(most), format!("±{} is allowed", words(most))),
        Bounds::AtLeast(least) => (least, None, format!("{} at least is wanted", words(least))),
    };
    let inside = |value: f64| value >= low - AT_THE_LIMIT && high.is_none_or(|high| value <= high + AT_THE_LIMIT);
    let ok = inside(value);
    let sure = inside(value - uncertainty) == ok && inside(value + uncertainty) == ok;
    let (start, rest) = label.split_at(label.len().min(1));
    let start = start.to_ascii_uppercase();
    let sentence = format!("{start}{rest}: {} ± {}; {allowed}.", words(value), words(uncertainty));
    Limit { key, label, unit, value, uncertainty, low: Some(low), high, ok, sure, sentence }
}

/// Every limit of a part as built, in a fixed order; `designed` are the figures of a part exactly as designed.
pub(super) fn limits(
    setup: &Setup,
    state: &State,
    figures: &Figures,
    uncertainty: &Uncertainty,
    designed: &Figures,
) -> Vec<Limit> {
    let number = |index: usize| (figures.numbers[index], uncertainty.numbers[index]);
    let misfit = (figures.numbers[SPACING] - own_spacing(setup), uncertainty.numbers[SPACING]);
    let least_cover = designed.numbers[COVERAGE].min(FULL_COVER) - COVER_LOST;
    let degrees = |angle: f64| hundredths(angle) + "°";
    let tilt = (slope_of(state).atan().to_degrees(), uncertainty.numbers[TILT]);
    let (play, adjust) = (bolt_play(setup.caliper.bolt.size), setup.caliper.lateral_adjust);
    let own = |text: &str| text.to_owned();
    let mut all = vec![
        limit("spacing", own("Hole spacing against the caliper's"), "mm", misfit, Bounds::Within(play), fine_length),
        limit("sideways", own("Slot against rotor"), "mm", number(MISALIGNMENT), Bounds::Within(adjust), fine_length),
        limit("tilt", own("Tilt along the holes"), "°", tilt, Bounds::Within(allowed_tilt(setup)), degrees),
        limit("coverage", own("Pad on the braking band"), "", number(COVERAGE), Bounds::AtLeast(least_cover), percent),
    ];
    for (name, gap) in &figures.pairs {
        let of = |pairs: &[(PairName, f64)]| pairs.iter().find(|(other, _)| other == name).map(|(_, value)| *value);
        let uncertainty = of(&uncertainty.pairs).unwrap_or(0.0);
        // A gap that was designed tight need not be wider as built, but must not be closer.
        let least = of(&designed.pairs).map_or(f64::INFINITY, |gap| gap.max(0.0)).min(name.required(setup));
        all.push(limit(name.key(), name.label(), "mm", (*gap, uncertainty), Bounds::AtLeast(least), fine_length));
    }
    all
}
