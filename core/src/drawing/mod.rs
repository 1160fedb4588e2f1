//! Drawings of a setup as SVG text, pure functions of the setup.
//!
//! One drawing unit is a millimetre. Both views put `back` across the page and are equally wide, so that at equal width
//! they have one scale and line up above each other. The side view looks at the braked side with the leg upright; the
//! section looks down along the leg, outboard towards the bottom of the page. On the left side of a bicycle the way
//! ahead is to the left of the page, on the right side to the right, as a builder sees it.
//!
//! Shapes carry class names (`rotor`, `band`, `tube`, `plate`, `tab`, `hole`, `caliper`, `pad`, `nut`, `spokes`, `line`,
//! `hub`, `envelope`, `axis`, `dimension`, `label`, `ring`, `rule`; `binding` on the two parts that bind) and a title. Colours are left
//! to the page; plain attributes make the text readable as a file of its own.

mod canvas;
mod measure;
mod ring;
mod section;
pub(crate) mod shape;
mod side;
mod stack;
mod tack;

use crate::fit::{CaliperFrame, Outcome, Parts, Report, report_on};
use crate::setup::{Problem, Setup, Side, Warning};
use crate::solid::Vector;
use crate::words::{coordinate, row};
use canvas::{Canvas, Label};
use shape::Shape;

pub use measure::draw_measure;
pub use ring::draw_ring;
pub use stack::draw_stack;
pub use tack::draw_tack;

/// Which way a drawing looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// At the braked side, leg upright.
    Side,
    /// Down along the leg.
    Section,
}

impl View {
    const fn key(self) -> &'static str {
        match self {
            View::Side => "side",
            View::Section => "section",
        }
    }
}

/// Half the page's width at least, mm: common rotors share one scale.
const LEAST_HALF_WIDTH: f64 = 120.0;
/// The page grows in steps of this, mm, so that it does not creep while a slider moves.
const PAGE_STEP: f64 = 20.0;
/// Free edge around the parts, mm.
const PAGE_EDGE: f64 = 8.0;

/// A setup worked out once, for its report and for drawing either view.
pub struct Scene<'a> {
    setup: &'a Setup,
    parts: Parts,
    report: Report,
    frame: CaliperFrame,
    half_width: f64,
}

impl<'a> Scene<'a> {
    /// Works out a setup just as [`Setup::read`] returned it, with its warnings; spares a second check.
    ///
    /// # Errors
    /// A problem without a field where a gap could not be found.
    pub fn of(setup: &'a Setup, warnings: Vec<Warning>) -> Result<Self, Vec<Problem>> {
        let parts = Parts::of(setup);
        let report = report_on(setup, &parts, warnings)?;
        let frame = CaliperFrame::of(setup);
        let half_width = stepped(widest(setup, &frame) + PAGE_EDGE).max(LEAST_HALF_WIDTH);
        Ok(Self { setup, parts, report, frame, half_width })
    }

    /// The report on the setup.
    pub fn report(&self) -> &Report {
        &self.report
    }

    /// Draws a view; the result is a whole SVG document.
    pub fn draw(&self, view: View) -> String {
        let ahead = match self.setup.side {
            Side::Left => -1.0,
            Side::Right => 1.0,
        };
        let (canvas, low, high) = match view {
            View::Side => side::draw(self, Canvas::new(ahead, -1.0)),
            View::Section => section::draw(self, Canvas::new(ahead, 1.0)),
        };
        document(self, view, canvas, low, high)
    }

    /// The pair that binds: its two part names, its nearest points and its gap.
    fn binding(&self) -> Option<&crate::fit::PairReport> {
        self.report.pairs.iter().find(|pair| pair.name == self.report.binding)
    }

    /// The class of a part, marked when the part is one of the two that bind.
    fn class(&self, class: &str, part: &str) -> String {
        let binds = self.binding().is_some_and(|pair| pair.parts.iter().any(|name| name == part));
        if binds { format!("{class} binding") } else { class.to_owned() }
    }
}

/// Draws a setup; the result is a whole SVG document.
///
/// # Errors
/// As [`report`](crate::report).
///
/// ```
/// use tabwright_core::{Setup, drawing::{View, draw}};
/// let svg = draw(&Setup::default(), View::Side).unwrap();
/// assert!(svg.starts_with("<svg") && svg.contains("view-side verdict-clears"));
/// ```
pub fn draw(setup: &Setup, view: View) -> Result<String, Vec<Problem>> {
    Ok(Scene::of(setup, setup.checked()?)?.draw(view))
}

/// The next page size up, mm.
fn stepped(size: f64) -> f64 {
    (size / PAGE_STEP).ceil() * PAGE_STEP
}

/// Half the width that rotor and caliper need about the axle, mm.
fn widest(setup: &Setup, frame: &CaliperFrame) -> f64 {
    caliper_corners(setup, frame).fold(setup.wheel.rotor_diameter / 2.0, |most, corner| most.max(corner.x.abs()))
}

/// Every corner of every caliper body, at the rotor's mid-plane.
fn caliper_corners<'a>(setup: &'a Setup, frame: &'a CaliperFrame) -> impl Iterator<Item = Vector> + 'a {
    setup.caliper.bodies.iter().flat_map(|body| &body.outline).map(|&[cw, rad]| frame.point([cw, rad, 0.0]))
}

/// The number of the binding gap, written inwards from the page's edge on the given side of the page.
fn gap_label(text: &str, side: f64) -> Label<'_> {
    Label { text, class: "dimension", size: 9.0, anchor: if side < 0.0 { "start" } else { "end" } }
}

/// Wraps a finished canvas; `low` and `high` bound the page in its own y.
fn document(scene: &Scene<'_>, view: View, canvas: Canvas, low: f64, high: f64) -> String {
    let [x, y, width, height] = [-scene.half_width, low, 2.0 * scene.half_width, high - low];
    let key = view.key();
    let frame = Shape::new("rect").at(&[("x", x), ("y", y), ("width", width), ("height", height)]);
    let clip = Shape::new("clipPath").with(&[("id", &format!("page-{key}"))]).around(frame);
    let (looks, heading) = match view {
        View::Side => ("Side view of the brake on the fork leg", "Side view"),
        View::Section => ("Section along the leg", "Section"),
    };
    let title = format!("{looks}. {}", scene.report.summary);
    // The words are plain ASCII; full Unicode lower case would cost the page 13 kB of tables.
    let heading = format!("{heading}: {}", scene.report.verdict.word().to_ascii_lowercase());
    let word = Label { text: &heading, class: "label verdict-word", size: 8.0, anchor: "start" };
    let body = canvas.note([x + 4.0, y + 11.0], &word).into_group();
    let title_id = format!("title-{key}");
    Shape::new("svg")
        .with(&[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", &format!("view view-{key} verdict-{}", class_of(scene.report.verdict))),
            ("role", "img"),
            ("aria-labelledby", &title_id),
            ("viewBox", &row([x, y, width, height].map(coordinate), " ")),
            ("font-family", "sans-serif"),
        ])
        .around(Shape::text("title", &title).with(&[("id", &title_id)]))
        .around(Shape::new("defs").around(clip))
        .around(body.with(&[("clip-path", &format!("url(#page-{key})"))]))
        .written()
}

/// The verdict in the drawing's class name.
const fn class_of(verdict: Outcome) -> &'static str {
    match verdict {
        Outcome::Clears => "clears",
        Outcome::Tight => "tight",
        Outcome::Hits => "hits",
        Outcome::CannotBuild => "cannot_build",
    }
}
