//! Everything that the core says of one setup, for checks that ask whether it may be said at all.

use tabwright_core::build::{TabHoles, fit_tab, stack, tack_check};
use tabwright_core::cut::{CutOptions, Paper, cut_file, cut_sheet, cut_template};
use tabwright_core::drawing::{View, draw, draw_measure, draw_ring, draw_stack, draw_tack};
use tabwright_core::load::loads;
use tabwright_core::plain::{Datum, Plain};
use tabwright_core::search::{
    Fork, Rules, compare, explain, fixes, positions, ring, sensitivity, shortest_dropout, two_rotors, what_if,
};
use tabwright_core::{CaliperMeasured, Given, Problem, Setup, report};

/// An answer, or why there is none.
pub type Answered = Result<Box<dyn Plain>, Vec<Problem>>;

/// One thing to ask of a setup.
pub struct Question {
    /// What it is called in messages.
    pub name: &'static str,
    /// Asks it.
    pub ask: fn(&Setup) -> Answered,
    /// Whether it looks at many setups, and so takes its time.
    pub is_search: bool,
}

fn boxed(answer: impl Plain + 'static) -> Box<dyn Plain> {
    Box::new(answer)
}

const fn one(name: &'static str, ask: fn(&Setup) -> Answered) -> Question {
    Question { name, ask, is_search: false }
}

const fn many(name: &'static str, ask: fn(&Setup) -> Answered) -> Question {
    Question { name, ask, is_search: true }
}

/// Every question there is; a new export of the core gets a line here.
pub const QUESTIONS: &[Question] = &[
    one("report", |setup| report(setup).map(boxed)),
    one("side view", |setup| draw(setup, View::Side).map(boxed)),
    one("section", |setup| draw(setup, View::Section).map(boxed)),
    one("setup as data", |setup| Ok(boxed(Given::from(setup)))),
    one("measured caliper", |setup| Ok(boxed(Given::from(&CaliperMeasured::of(setup))))),
    one("picture of a hub", |setup| draw_measure(setup, "wheel.rotor_inset", "1 mm").map(boxed)),
    one("picture of a caliper", |setup| draw_measure(setup, "caliper", "1 mm").map(boxed)),
    one("message", |setup| explain(setup, None).map(boxed)),
    one("comparison", |setup| compare(setup, &Setup::default()).map(boxed)),
    one("sensitivity", |setup| sensitivity(setup, "wheel.rotor_inset").map(boxed)),
    one("cut sheet", |setup| cut_sheet(setup, &CutOptions::default()).map(boxed)),
    one("coarse drawing exchange", |setup| cut_file(setup, "dxf_r12", &wide_cut()).map(boxed)),
    one("drawing exchange", |setup| cut_file(setup, "dxf_r2000", &CutOptions::default()).map(boxed)),
    one("cutting SVG", |setup| cut_file(setup, "svg", &wide_cut()).map(boxed)),
    one("template in one", |setup| cut_file(setup, "template_svg", &CutOptions::default()).map(boxed)),
    one("template", |setup| cut_template(setup, &wide_cut()).map(boxed)),
    one("loads", |setup| loads(setup).map(boxed)),
    one("line-up", |setup| Ok(boxed(stack(setup)))),
    one("picture of the line-up", |setup| Ok(boxed(draw_stack(&stack(setup))))),
    one("tack", |setup| tack_check(setup).map(boxed)),
    one("picture of the tack", |setup| {
        let built = tack_check(setup)?.before.as_built;
        Ok(boxed(built.map(|built| draw_tack(setup, &built))))
    }),
    one("bought tab", |setup| fit_tab(setup, TabHoles::Distances([58.0, 71.0, 51.0])).map(boxed)),
    one("tab in place", |setup| fit_tab(setup, TabHoles::Points([[20.0, 61.0], [-31.0, 61.0]])).map(boxed)),
    many("ring", |setup| ring(setup).map(boxed)),
    many("picture of the ring", |setup| ring(setup).map(|ring| boxed(draw_ring(setup, &ring)))),
    many("positions", |setup| positions(setup).map(boxed)),
    many("shortest dropout", |setup| shortest_dropout(setup, Rules::ALL).map(boxed)),
    many("fixes", |setup| fixes(setup).map(boxed)),
    many("what if", |setup| {
        let wheel = &setup.wheel;
        what_if(setup, wheel.rotor_diameter, wheel.hub_width, Fork::FollowsHub, Rules::ALL).map(boxed)
    }),
    many("two rotors", |setup| two_rotors(setup, [160.0, 180.0], Rules::ALL).map(boxed)),
];

/// With what widens outlines and takes more pages.
fn wide_cut() -> CutOptions {
    CutOptions { kerf: 1.2, paper: Paper::Letter, other_side: false, ..CutOptions::default() }
}

/// Fails where a question has no answer, or one that holds something other than finite numbers.
///
/// A field that is named may keep a search from its answer: another rotor may not go with this setup.
#[track_caller]
pub fn assert_sound(setup: &Setup, question: &Question) {
    match (question.ask)(setup) {
        Ok(answer) => assert_finite(answer.datum(), question.name),
        Err(problems) => {
            let excused = !problems.is_empty() && problems.iter().all(|problem| !problem.field.is_empty());
            assert!(excused, "{}: no answer, {problems:?}", question.name);
        }
    }
}

/// Fails unless all numbers are finite and no text writes one that is not.
#[track_caller]
pub fn assert_finite(datum: Datum<'_>, path: &str) {
    match datum {
        Datum::Number(number) => assert!(number.is_finite(), "{path} is {number}"),
        Datum::Text(text) => assert!(!writes_no_number(text), "{path}: {text}"),
        Datum::List(items) => {
            let each = (0..).map_while(|index| items.item(index).map(|item| (index, item)));
            each.for_each(|(index, item)| assert_finite(item.datum(), &format!("{path}.{index}")));
        }
        Datum::Record(names, values) => {
            names.iter().zip(values).for_each(|(name, value)| assert_finite(value.datum(), &format!("{path}.{name}")));
        }
        Datum::Members(members) => {
            members.into_iter().for_each(|(name, value)| assert_finite(value.datum(), &format!("{path}.{name}")));
        }
        Datum::Nothing | Datum::Flag(_) | Datum::Whole(_) | Datum::Huge(_) => {}
    }
}

/// Whether some word of a text is how Rust writes what is not finite.
fn writes_no_number(text: &str) -> bool {
    let words = text.split(|char: char| !char.is_ascii_alphabetic());
    words.into_iter().any(|word| matches!(word, "NaN" | "inf"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_finite_is_seen_wherever_it_is() {
        for bad in [Given::List(vec![Given::Number(f64::NAN)]), Given::Text("<path d=\"M0 NaN\"/>".to_owned())] {
            assert!(std::panic::catch_unwind(|| assert_finite(bad.datum(), "x")).is_err());
        }
        assert_finite(Given::Text("information in inches".to_owned()).datum(), "x");
    }
}
