//! The ring about the axle: where the caliper may sit, as a band to lay over the side view.

use super::canvas::{Canvas, Label};
use super::shape::Shape;
use crate::fit::Verdict;
use crate::search::{Arc, Ring, Stretch};
use crate::setup::{Setup, Side};
use crate::words::{coordinate, degrees, length, row};

/// Width of the band, mm.
const BAND: f64 = 7.0;
/// From the band's middle to the thin arcs of the rules, and between those, mm.
const RULE_STEP: f64 = 4.0;
/// Stretches narrower than this have no room for their word, degrees.
const ROOM_FOR_A_WORD: f64 = 24.0;
/// An arc of a whole turn would begin where it ends and vanish, degrees.
const NEARLY_WHOLE: f64 = 359.9;

/// Draws a setup's ring as a whole SVG document about the axle, in the coordinates of the side view.
///
/// Classes: `ring clears`, `ring tight`, `ring hits` for the band, `rule line` where the line does not run up the leg,
/// `rule wheel` where the wheel does not drop out, `ring-word` for the words. The group `ring-band` carries the band's
/// radius as `data-radius`.
///
/// ```
/// use tabwright_core::{Setup, drawing::draw_ring, search::ring};
/// let setup = Setup::default();
/// let svg = draw_ring(&setup, &ring(&setup).unwrap());
/// assert!(svg.contains("ring clears") && svg.contains("ring hits"));
/// ```
pub fn draw_ring(setup: &Setup, ring: &Ring) -> String {
    let ahead = match setup.side {
        Side::Left => -1.0,
        Side::Right => 1.0,
    };
    let radius = band_radius(setup);
    let mut canvas = Canvas::new(ahead, -1.0);
    let runs = runs(&ring.stretches);
    for run in &runs {
        let class = format!("ring {}", word(run.verdict));
        canvas = canvas.arc(&class, &title(run), radius, clipped(run.from, run.to));
    }
    let rules = [
        ("rule line", "The line does not run up the leg here", rest(&ring.line_up)),
        ("rule wheel", "The wheel does not drop out with the caliper here", rest(&ring.wheel_out)),
    ];
    for (index, (class, title, arcs)) in rules.into_iter().enumerate() {
        let radius = radius + BAND / 2.0 + RULE_STEP * (index as f64 + 0.5);
        for arc in arcs {
            canvas = canvas.arc(class, title, radius, clipped(arc.from, arc.from + arc.width));
        }
    }
    for run in runs.iter().filter(|run| run.to - run.from >= ROOM_FOR_A_WORD) {
        let direction = crate::fit::radial((run.from + run.to) / 2.0) * (radius - BAND - 3.0);
        let [x, y] = canvas.at([direction.x, direction.y]);
        let label = Label { text: word(run.verdict), class: "ring-word", size: 7.0, anchor: "middle" };
        canvas = canvas.note([x, y + 2.0], &label);
    }
    let reach = radius + BAND + 2.0 * RULE_STEP;
    let band =
        canvas.into_group().with(&[("class", "ring-band")]).at(&[("data-radius", radius), ("stroke-width", BAND)]);
    Shape::new("svg")
        .with(&[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", "view view-ring"),
            ("role", "img"),
            ("aria-labelledby", "title-ring"),
            ("viewBox", &row([-reach, -reach, 2.0 * reach, 2.0 * reach].map(coordinate), " ")),
            ("font-family", "sans-serif"),
        ])
        .around(Shape::text("title", &heading(ring)).with(&[("id", "title-ring")]))
        .around(band)
        .written()
}

/// Radius of the band's middle: between spoke flange and braking band, where there is nothing but the rotor's arms, mm.
fn band_radius(setup: &Setup) -> f64 {
    let wheel = &setup.wheel;
    let (flange, braked) = (wheel.flange_diameter / 2.0, wheel.rotor_diameter / 2.0 - wheel.track_width);
    ((flange + braked) / 2.0).max(2.0 * BAND)
}

fn clipped(from: f64, to: f64) -> [f64; 2] {
    [from, to.min(from + NEARLY_WHOLE)]
}

/// A verdict's class and word.
const fn word(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Clears => "clears",
        Verdict::Tight => "tight",
        Verdict::Hits => "hits",
    }
}

/// Neighbouring stretches of one verdict as one, those that meet at ±180° too.
fn runs(stretches: &[Stretch]) -> Vec<Stretch> {
    let mut runs: Vec<Stretch> = Vec::new();
    for stretch in stretches {
        match runs.last_mut() {
            Some(last) if last.verdict == stretch.verdict => {
                last.to = stretch.to;
                if stretch.margin < last.margin {
                    (last.margin, last.binding) = (stretch.margin, stretch.binding);
                }
            }
            _ => runs.push(stretch.clone()),
        }
    }
    if let [first, .., last] = runs.as_slice()
        && first.verdict == last.verdict
    {
        let first = runs.remove(0);
        if let Some(last) = runs.last_mut() {
            last.to = first.to + 360.0;
            if first.margin < last.margin {
                (last.margin, last.binding) = (first.margin, first.binding);
            }
        }
    }
    runs
}

fn title(run: &Stretch) -> String {
    let label = run.binding.replace('/', " to ");
    let how = match run.verdict {
        Verdict::Clears => format!("{label} has at least {} to spare", length(run.margin)),
        _ => format!("{label} lacks up to {}", length(-run.margin)),
    };
    let to = if run.to > 180.0 { run.to - 360.0 } else { run.to };
    format!("{} to {}: {}; {how}", degrees(run.from), degrees(to), word(run.verdict))
}

/// What a rule's arcs leave of the turn.
fn rest(kept: &[Arc]) -> Vec<Arc> {
    crate::search::Arcs::of(kept).complement().arcs()
}

fn heading(ring: &Ring) -> String {
    match ring.windows.len() {
        0 => "No clock angle clears".to_owned(),
        1 => "One stretch of clock angles clears".to_owned(),
        count => format!("{count} stretches of clock angles clear"),
    }
}
