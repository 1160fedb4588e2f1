//! Pictures that show what to measure: a real part as the setup has it, with one dimension drawn on it.
//!
//! `table.rs` says for each measurement from where it is seen and between which points it runs; `caliper.rs`, `hub.rs` and
//! `leg.rs` draw the parts, `dimension.rs` the dimension.

mod caliper;
mod dimension;
mod hub;
mod leg;
mod table;

use super::canvas::Canvas;
use super::shape::Shape;
use crate::setup::{Problem, Setup, Side};
use crate::words::{coordinate, row};

/// Free edge about parts and dimension, as a share of the picture's larger side.
const EDGE: f64 = 0.06;
/// Width of a picture against its height, within these limits, so that texts have room at any size.
const SHAPE: [f64; 2] = [1.25, 1.7];

/// A part on the page, and the rectangle it needs there: least and greatest of both coordinates of the view.
type Drawn = (Canvas, [[f64; 2]; 2]);

/// From where a part is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum View {
    /// At the caliper's outboard face, the axle below.
    Face,
    /// Along the rotor's edge, outboard to the right.
    Edge,
    /// The hub cut along the axle, outboard to the right.
    Hub,
    /// Its braked end alone.
    HubEnd,
    /// At the rotor.
    Rotor,
    /// At the whole wheel.
    Wheel,
    /// At the fork leg on the braked side.
    Leg,
    /// At the dropout, the tube behind it.
    Dropout,
    /// At its eye alone.
    Eye,
    /// At the leg, upright as the bicycle stands.
    Lean,
    /// At both legs from ahead, the braked one to the right.
    Front,
    /// The lower end of the braked leg from ahead.
    FrontEnd,
    /// The tube cut across.
    Tube,
}

impl View {
    /// The page's x for the way ahead, and the sign from the view's second coordinate to the page's y.
    fn canvas(self, setup: &Setup) -> Canvas {
        let is_from_the_side =
            matches!(self, View::Leg | View::Dropout | View::Eye | View::Lean | View::Tube | View::Rotor | View::Wheel);
        // Views that have no way ahead put their first coordinate to the right.
        Canvas::new(if is_from_the_side && setup.side == Side::Right { 1.0 } else { -1.0 }, -1.0)
    }

    fn draw(self, setup: &Setup) -> Drawn {
        let canvas = self.canvas(setup);
        match self {
            View::Face => caliper::face(setup, canvas),
            View::Edge => caliper::edge(setup, canvas),
            View::Hub => hub::section(setup, canvas, false),
            View::HubEnd => hub::section(setup, canvas, true),
            View::Rotor => hub::rotor(setup, canvas),
            View::Wheel => hub::wheel(setup, canvas),
            View::Leg => leg::side(setup, canvas, false, leg::short_top(setup)),
            View::Dropout => leg::side(setup, canvas, true, leg::top(setup)),
            View::Eye => leg::side(setup, canvas, true, 1.2 * setup.dropout.eye_radius),
            View::Lean => leg::lean(setup, canvas),
            View::Front => leg::front(setup, canvas, false),
            View::FrontEnd => leg::front(setup, canvas, true),
            View::Tube => leg::tube(setup, canvas),
        }
    }
}

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
    let Some((view, dimension)) = table::entry(setup, path) else {
        let message = format!("There is no picture for \"{path}\".");
        return Err(vec![Problem { field: path.to_owned(), value: String::new(), message }]);
    };
    let (canvas, mut bounds) = view.draw(setup);
    if let Some(dimension) = &dimension {
        bounds = dimension.within(bounds);
    }
    // On the page: both coordinates may have changed their sign.
    let corners = [0, 1].map(|end| canvas.at([bounds[0][end], bounds[1][end]]));
    let [[left, right], [top, bottom]] =
        [0, 1].map(|axis| [corners[0][axis].min(corners[1][axis]), corners[0][axis].max(corners[1][axis])]);
    let edge = EDGE * (right - left).max(bottom - top);
    let (width, height) = (right - left + 2.0 * edge, bottom - top + 2.0 * edge);
    let (wide, high) = (width.max(SHAPE[0] * height), height.max(width / SHAPE[1]));
    let page = [(left + right - wide) / 2.0, (top + bottom - high) / 2.0, wide, high];
    let canvas = match &dimension {
        Some(dimension) => dimension.draw(canvas, page, text),
        None => canvas,
    };
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

#[cfg(test)]
mod tests {
    use super::dimension::Dimension;
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
        CaliperMeasured::of(&setup).put_into(&setup, true, true).unwrap()
    }

    fn drawn_length(setup: &Setup, path: &str) -> f64 {
        match table::entry(setup, path).and_then(|(_, dimension)| dimension) {
            Some(Dimension::Length { ends: [[x1, y1], [x2, y2]], .. }) => (x2 - x1).hypot(y2 - y1),
            Some(Dimension::Angle { from, to, .. }) => to - from,
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
                let numbers = group.fields.iter().filter(|field| field.kind == "number");
                paths.extend(numbers.filter(|_| whole).map(|field| field.key.to_owned()));
            }
            paths.extend(CALIPER.map(|key| format!("caliper.{key}")));
            assert_eq!(paths.len(), 15 + 12 + 6 + 6 + 6);
            for path in paths {
                let number = setup.number_at(&path).or(measured.number_at(&path)).copied().unwrap();
                let length = drawn_length(&setup, &path);
                assert!((length - number).abs() < 1e-9, "{path}: {length} for {number}");
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
