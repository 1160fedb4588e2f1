//! The sideways stack as a bar to scale, against the caliper's adjustment.

use super::shape::Shape;
use crate::build::Stack;
use crate::words::{coordinate, fine_length, row};

/// Half the width of the bars on the page.
const HALF: f64 = 150.0;
/// Free edge on either side for words.
const EDGE: f64 = 10.0;
const BAR: f64 = 12.0;
const ROW: f64 = 30.0;
const TEXT: f64 = 9.0;
/// The longest bar fills this share of the page.
const FILLED: f64 = 0.95;
/// The least that fills the page, mm, so that a stack of nothing has a scale.
const LEAST_REACH: f64 = 0.1;

/// Draws a stack as a whole SVG document: inboard to the left, the rotor in the middle.
///
/// Classes: `adjustment`, `worst` (one piece for each dimension and side), `rss`, `slot`, `rotor`, `label`.
///
/// ```
/// use tabwright_core::{Setup, build::stack, drawing::draw_stack};
/// let svg = draw_stack(&stack(&Setup::default()));
/// assert!(svg.starts_with("<svg") && svg.contains("adjustment"));
/// ```
pub fn draw_stack(stack: &Stack) -> String {
    let reach = (stack.misalignment.abs() + stack.worst).max(stack.adjust).max(LEAST_REACH);
    let scale = HALF * FILLED / reach;
    let x = |mm: f64| (mm * scale * 100.0).round() / 100.0;
    let bar = |class: &str, line: f64, [from, to]: [f64; 2], fill: &str, title: &str| {
        let [from, to] = [x(from), x(to)];
        let place = [("x", from), ("y", line * ROW), ("width", to - from), ("height", BAR)];
        Shape::new("rect").at(&place).with(&[("class", class), ("fill", fill), ("stroke", "#444444")]).titled(title)
    };
    let word = |line: f64, text: &str| {
        let place = [("x", -HALF), ("y", line * ROW - 3.0), ("font-size", TEXT)];
        Shape::text("text", text).at(&place).with(&[("class", "label"), ("text-anchor", "start")])
    };
    let adjust = stack.adjust;
    let mut group = Shape::new("g")
        .around(word(0.0, &format!("Caliper adjusts by ±{}", fine_length(adjust))))
        .around(bar("adjustment", 0.0, [-adjust, adjust], "#cfe3cf", "What the caliper adjusts by"))
        .around(word(1.0, &format!("Worst case ±{}", fine_length(stack.worst))));
    let mut ordered: Vec<_> = stack.contributions.iter().filter(|one| one.effect > 0.0).collect();
    ordered.sort_by(|one, other| other.effect.total_cmp(&one.effect));
    let mut reached = 0.0;
    for one in ordered {
        let (from, to) = (reached, reached + one.effect);
        let title = format!("{} {}", one.label, fine_length(one.effect));
        for ends in [[from, to], [-to, -from]] {
            group = group.around(bar("worst", 1.0, ends.map(|end| stack.misalignment + end), "#e8dfc8", &title));
        }
        reached = to;
    }
    group = group.around(word(2.0, &format!("Root sum of squares ±{}", fine_length(stack.rss)))).around(bar(
        "rss",
        2.0,
        stack.ranges.rss,
        "#d9cfa8",
        "99.7 of 100 builds lie inside",
    ));
    let bottom = 2.0 * ROW + BAR + 4.0;
    let upright = |class: &str, at: f64, dash: &str, title: &str| {
        let place = [("x1", x(at)), ("x2", x(at)), ("y1", -2.0), ("y2", bottom)];
        let line = Shape::new("line").at(&place).with(&[("class", class), ("stroke", "#222222")]);
        let line = if dash.is_empty() { line } else { line.with(&[("stroke-dasharray", dash)]) };
        line.titled(title)
    };
    let foot = |at: f64, anchor: &str, text: &str| {
        let place = [("x", at), ("y", bottom + TEXT + 2.0), ("font-size", TEXT)];
        Shape::text("text", text).at(&place).with(&[("class", "label"), ("text-anchor", anchor)])
    };
    group = group
        .around(upright("rotor", 0.0, "", "The rotor"))
        .around(upright("slot", stack.misalignment, "4 2", "The slot as designed"))
        .around(foot(-HALF, "start", "inboard"))
        .around(foot(0.0, "middle", "rotor"))
        .around(foot(HALF, "end", "outboard"));
    let top = -TEXT - 6.0;
    let page = [-HALF - EDGE, top, 2.0 * (HALF + EDGE), bottom + TEXT + 8.0 - top];
    let title = "The caliper's slot against its adjustment, to scale";
    Shape::new("svg")
        .with(&[
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("class", "stack"),
            ("role", "img"),
            ("aria-label", title),
            ("viewBox", &row(page.map(coordinate), " ")),
            ("font-family", "sans-serif"),
        ])
        .around(Shape::text("title", title))
        .around(group)
        .written()
}
