//! Pictures that show what to measure: a real part as the setup has it, with one dimension drawn on it.
//!
//! `table.rs` says what each view shows and, for each measurement, its view and its dimension; `lengths.rs` has the lengths
//! that both are made of; `dimension.rs` draws the dimension.

mod dimension;
mod lengths;
mod table;

use super::canvas::Canvas;
use super::shape::Shape;
use super::side::{axle_slot, outboard};
use crate::fit::Parts;
use crate::setup::{Mount, Problem, Setup, Side, hold};
use crate::solid::{Disc, Solid};
use crate::words::{coordinate, row};
use dimension::Dimension;
use lengths::lengths;
use table::{BARE, ENTRIES, Item, Kind, Seen, View};

/// Free edge about parts and dimension, as a share of the picture's larger side.
const EDGE: f64 = 0.06;
/// Width of a picture against its height, within these limits, so that texts have room at any size.
const SHAPE: [f64; 2] = [1.25, 1.7];

/// Draws what to measure for a number, such as `wheel.rotor_inset` or `measured.hole_spacing`, with `text` at the
/// dimension; `caliper` draws the caliper's outboard face without any. The result is a whole SVG document.
///
/// # Errors
/// There is no picture for that number.
///
/// ```
/// use tabwright_core::{Setup, drawing::draw_measure};
/// let svg = draw_measure(&Setup::default(), "wheel.rotor_inset", "15 mm").unwrap();
/// assert!(svg.starts_with("<svg") && svg.contains(">15 mm<"));
/// ```
pub fn draw_measure(setup: &Setup, path: &str, text: &str) -> Result<String, Vec<Problem>> {
    let lengths = lengths(setup);
    let (view, dimension) = match entry(&lengths, path) {
        Some((view, dimension)) => (view, Some(dimension)),
        None if path == BARE.0 => (BARE.1, None),
        None => {
            let message = ["There is no picture for \"", path, "\"."].concat();
            return Err(vec![Problem { field: path.to_owned(), value: String::new(), message }]);
        }
    };
    let ahead = if view.seen == Seen::FromTheSide && setup.side == Side::Right { 1.0 } else { -1.0 };
    let mut canvas = Canvas::new(ahead, -1.0);
    if view.seen == Seen::Leaning {
        let lean = 90.0 - setup.fork.leg_angle;
        canvas = canvas.placed([0.0; 2], lean, |canvas| items(setup, canvas, view.items, &lengths));
    } else {
        canvas = items(setup, canvas, view.items, &lengths);
    }
    let mut bounds = named(&lengths, &view.bounds);
    if let Some(dimension) = &dimension {
        dimension.grow(&mut bounds);
    }
    let page = page(&canvas, bounds);
    if let Some(dimension) = &dimension {
        canvas = dimension.draw(canvas, page, text);
    }
    Ok(Shape::new("svg")
        .with(&[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", "view view-measure"),
            ("viewBox", &row(page.map(coordinate), " ")),
            ("font-family", "sans-serif"),
            ("aria-hidden", "true"),
        ])
        .around(canvas.into_group())
        .written())
}

/// Lengths by their places; a minus before a place is one before the length.
fn named(lengths: &[f64], places: &[i8]) -> [f64; 5] {
    let mut values = [0.0; 5];
    for (value, &place) in values.iter_mut().zip(places) {
        let length = lengths.get(usize::from(place.unsigned_abs())).copied().unwrap_or_default();
        *value = if place < 0 { -length } else { length };
    }
    values
}

fn entry(lengths: &[f64], path: &str) -> Option<(&'static View, Dimension)> {
    let entry = ENTRIES.iter().find(|entry| entry.0 == path)?;
    Some((entry.1, Dimension::new(entry.2, named(lengths, &entry.3))))
}

/// x, y, width and height of the page about a rectangle of the view.
fn page(canvas: &Canvas, [left, right, low, high, _]: [f64; 5]) -> [f64; 4] {
    // Both coordinates may change their sign on the way to the page.
    let (one, other) = (canvas.at([left, low]), canvas.at([right, high]));
    let (mut width, mut height) = ((one[0] - other[0]).abs(), (one[1] - other[1]).abs());
    let edge = 2.0 * EDGE * width.max(height);
    (width, height) = (width + edge, height + edge);
    (width, height) = (width.max(SHAPE[0] * height), height.max(width / SHAPE[1]));
    [(one[0] + other[0] - width) / 2.0, (one[1] + other[1] - height) / 2.0, width, height]
}

fn items(setup: &Setup, mut canvas: Canvas, items: &[Item], lengths: &[f64]) -> Canvas {
    for &Item(kind, class, places) in items {
        let [a, b, c, d, _] = named(lengths, &places);
        canvas = match kind {
            // A post needs no tab.
            Kind::Rectangle if class == "tab" && setup.caliper.mount == Mount::Post => canvas,
            Kind::Rectangle => canvas.rectangle(class, "", [a, b], [c, d]),
            Kind::Disc => canvas.hull(class, "", &[Disc::new(a, b, c)]),
            Kind::Ring => canvas.ring(class, "", [0.0; 2], [a, b]),
            Kind::Line => canvas.line(class, "", [a, b], [c, d]),
            Kind::Face => outboard(setup, canvas, &|class, _| class.to_owned()),
            Kind::Bodies => bodies(setup, canvas),
            Kind::Plate => plate(setup, canvas),
        };
    }
    canvas
}

/// The caliper's bodies along the rotor's edge: out across, rad along.
fn bodies(setup: &Setup, mut canvas: Canvas) -> Canvas {
    for body in &setup.caliper.bodies {
        let mut rad = [f64::MAX, f64::MIN];
        body.outline.iter().for_each(|corner| hold(&mut rad, corner[1]));
        canvas = canvas.rectangle("caliper", "", [-body.inboard, body.outboard], rad);
    }
    canvas
}

fn plate(setup: &Setup, mut canvas: Canvas) -> Canvas {
    let parts = Parts::of(setup);
    for part in [&parts.neck, &parts.eye] {
        if let Solid::Slab(slab) = &part.solid {
            canvas = canvas.hull("plate", "", &slab.discs);
        }
    }
    canvas.hull("hole", "", &axle_slot(setup))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

    use super::table::Run;
    use super::*;
    use crate::setup::CaliperMeasured;

    /// Numbers of the caliper that are drawn; all of wheel, fork and dropout are.
    const CALIPER: [&str; 6] =
        ["pad.length", "pad.height", "pad.edge_inset", "throat", "mount_depth", "lateral_adjust"];

    /// A setup with no two dimensions alike, its caliper drawn as measured.
    fn setup() -> Setup {
        let mut setup = Setup::default();
        setup.fork.axle_offset = 14.0;
        setup.dropout.slot_direction = 150.0;
        setup.caliper.holes = [[-28.5, 23.0], [25.5, 27.5]];
        CaliperMeasured::of(&setup).put_into(&mut setup, true, true).unwrap();
        setup
    }

    fn drawn_length(setup: &Setup, path: &str) -> f64 {
        match entry(&lengths(setup), path) {
            Some((_, Dimension { run: Run::Angle, angle: [_, from, to], .. })) => to - from,
            Some((_, Dimension { ends: [[x1, y1], [x2, y2]], .. })) => (x2 - x1).hypot(y2 - y1),
            None => f64::NAN,
        }
    }

    #[test]
    fn a_dimension_is_drawn_as_long_as_its_number() {
        for side in [Side::Left, Side::Right] {
            let mut setup = Setup { side, ..setup() };
            let mut measured = CaliperMeasured::of(&setup);
            let mut paths: Vec<String> = CaliperMeasured::fields().iter().map(|field| field.key.to_owned()).collect();
            for group in crate::describe_fields() {
                let whole = ["wheel", "fork", "dropout"].contains(&group.key);
                let numbers = group
                    .fields
                    .iter()
                    // Nobody measures what is yet to be filed.
                    .filter(|field| field.kind == "number" && field.key != "dropout.slot_chamfer");
                paths.extend(numbers.filter(|_| whole).map(|field| field.key.to_owned()));
            }
            paths.extend(CALIPER.map(|key| format!("caliper.{key}")));
            assert_eq!(paths.len(), 15 + 12 + 6 + 6 + 6);
            for path in paths {
                let number = setup.number_at(&path).or(measured.number_at(&path)).copied().unwrap();
                let length = drawn_length(&setup, &path);
                assert!((length - number).abs() < 1e-5, "{path}: {length} for {number}");
                let svg = draw_measure(&setup, &path, "<9 mm>").unwrap();
                assert!(svg.contains("&lt;9 mm&gt;</text>") && !svg.contains("NaN") && !svg.contains("inf"), "{path}");
            }
        }
    }

    #[test]
    fn an_unknown_number_has_no_picture() {
        for path in ["wheel", "wheel.hub", "tab.clock", "", "measured.", "caliper.pad"] {
            assert_eq!(draw_measure(&Setup::default(), path, "").unwrap_err()[0].field, path);
        }
        assert!(draw_measure(&Setup::default(), "caliper", "").is_ok());
    }
}
