//! What welding did: the welded part against the tacked one.

use super::ellipse::SQUARED_95;
use super::reading::READING_SIGMAS;
use super::solution::Solution;
use crate::plain::plain;
use crate::words::{fine_length, hundredths};

/// How one hole moved. Lengths mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pulled {
    /// Backwards.
    pub back: f64,
    /// Up the leg.
    pub up: f64,
    /// In all.
    pub distance: f64,
    /// ± along the move.
    pub uncertainty: f64,
    /// Whether it is more than the readings' ± can account for.
    pub sure: bool,
}

plain!(Pulled { back, up, distance, uncertainty, sure });

/// How one number changed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PullChange {
    /// After less before.
    pub change: f64,
    /// ± of that.
    pub uncertainty: f64,
    /// Whether it is more than the ±.
    pub sure: bool,
}

plain!(PullChange { change, uncertainty, sure });

/// What welding did.
#[derive(Clone, Debug)]
pub struct WeldPull {
    /// The two holes.
    pub holes: [Pulled; 2],
    /// Tab against dropout plane, outboard positive, mm.
    pub offset: PullChange,
    /// Along the line of the holes, degrees.
    pub tilt: PullChange,
    /// Hole to hole, mm.
    pub spacing: PullChange,
    /// The same in words.
    pub sentence: String,
}

plain!(WeldPull { holes, offset, tilt, spacing, sentence });

/// Compares two solved states, whose readings have nothing in common.
pub(super) fn weld_pull(before: &Solution, after: &Solution) -> WeldPull {
    let (one, other) = (&before.located, &after.located);
    let hole = |hole: usize| {
        let (b, u) = (2 * hole, 2 * hole + 1);
        let by = [other.holes[b] - one.holes[b], other.holes[u] - one.holes[u]];
        let sum = |row: usize, column: usize| one.covariance[row][column] + other.covariance[row][column];
        let (bb, bu, uu) = (sum(b, b), sum(b, u), sum(u, u));
        let distance = by[0].hypot(by[1]);
        let way = if distance > 0.0 { [by[0] / distance, by[1] / distance] } else { [1.0, 0.0] };
        let variance = way[0] * way[0] * bb + 2.0 * way[0] * way[1] * bu + way[1] * way[1] * uu;
        // By the ellipse of both: squared length in standard deviations.
        let determinant = (bb * uu - bu * bu).max(f64::MIN_POSITIVE);
        let squared = (by[0] * by[0] * uu - 2.0 * by[0] * by[1] * bu + by[1] * by[1] * bb) / determinant;
        Pulled {
            back: by[0],
            up: by[1],
            distance,
            uncertainty: READING_SIGMAS * variance.max(0.0).sqrt(),
            sure: squared > SQUARED_95,
        }
    };
    let change = |change: f64, variance: f64| {
        let uncertainty = READING_SIGMAS * variance.max(0.0).sqrt();
        PullChange { change, uncertainty, sure: change.abs() > uncertainty }
    };
    let (low, high) = (&before.levelled, &after.levelled);
    let sum = |row: usize, column: usize| low.covariance[row][column] + high.covariance[row][column];
    let length = |holes: &[f64; 4]| (holes[0] - holes[2]).hypot(holes[1] - holes[3]);
    let (spacing_before, spacing_after) = (length(&one.holes), length(&other.holes));
    let slope = |at: &[f64; 3], spacing: f64| ((at[1] - at[0]) / spacing).atan().to_degrees();
    let per_mm = 1.0_f64.to_degrees() / spacing_after;
    let spacing_variance: f64 = [(&one.holes, &one.covariance), (&other.holes, &other.covariance)]
        .into_iter()
        .map(|(holes, covariance)| {
            let size = length(holes);
            let way = [(holes[0] - holes[2]) / size, (holes[1] - holes[3]) / size];
            super::squares::quadratic(covariance, &[way[0], way[1], -way[0], -way[1]])
        })
        .sum();
    let mut pull = WeldPull {
        holes: [hole(0), hole(1)],
        offset: change(
            (high.at[0] + high.at[1] - low.at[0] - low.at[1]) / 2.0,
            (sum(0, 0) + 2.0 * sum(0, 1) + sum(1, 1)) / 4.0,
        ),
        tilt: change(
            slope(&high.at, spacing_after) - slope(&low.at, spacing_before),
            per_mm * per_mm * (sum(0, 0) - 2.0 * sum(0, 1) + sum(1, 1)),
        ),
        spacing: change(spacing_after - spacing_before, spacing_variance),
        sentence: String::new(),
    };
    pull.sentence = sentence(&pull);
    pull
}

fn sentence(pull: &WeldPull) -> String {
    let mut parts = Vec::new();
    for (name, hole) in ["hole 1", "hole 2"].into_iter().zip(&pull.holes) {
        if hole.sure {
            parts.push(format!("{name} by {} ± {}", fine_length(hole.distance), fine_length(hole.uncertainty)));
        }
    }
    if pull.offset.sure {
        let side = if pull.offset.change > 0.0 { "outboard" } else { "inboard" };
        parts.push(format!("the tab {} {side}", fine_length(pull.offset.change.abs())));
    }
    if pull.tilt.sure {
        parts.push(format!("its tilt by {}°", hundredths(pull.tilt.change)));
    }
    if parts.is_empty() {
        return "Welding moved nothing by more than the readings' ±.".to_owned();
    }
    format!("Welding moved {}.", crate::words::row(parts, ", "))
}
