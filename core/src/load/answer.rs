//! What is said about loads, as plain data.

use crate::plain::plain;
use crate::search::Arc;
use crate::words::{rounded, row};

/// From this utilisation on a result is close to its limit: what is left is less than what such an estimate can be off
/// by. Common practice, no source.
const CLOSE_FROM: f64 = 0.8;

/// How a result stands against what is allowed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// A number to know, without a limit.
    Told,
    /// Well below the limit.
    Holds,
    /// Below the limit, but by less than an estimate can be off.
    Close,
    /// Above the limit.
    Over,
}

plain!(State: Told = "told", Holds = "holds", Close = "close", Over = "over");

impl State {
    /// The state in a word or three, empty where there is nothing to judge.
    pub const fn word(self) -> &'static str {
        match self {
            State::Told => "",
            State::Holds => "Holds",
            State::Close => "Close to its limit",
            State::Over => "Too much",
        }
    }

    pub(super) fn of(utilisation: Option<f64>) -> Self {
        match utilisation {
            None => State::Told,
            Some(share) if share > 1.0 => State::Over,
            Some(share) if share > CLOSE_FROM => State::Close,
            Some(_) => State::Holds,
        }
    }
}

/// One result: a number, what is allowed, and where both come from.
#[derive(Clone, Debug)]
pub struct LoadResult {
    /// Stable key, such as `weld_static`.
    pub id: &'static str,
    /// What it is.
    pub label: String,
    /// The number, in `unit`.
    pub value: f64,
    /// `N`, `N·m`, `MPa`, `mm`, `°`, `%` or empty.
    pub unit: &'static str,
    /// What is allowed, in `unit`; none for a number that is only to be known.
    pub allowable: Option<f64>,
    /// `value` / `allowable`; none where nothing is allowed or nothing limits it, never below 0.
    pub utilisation: Option<f64>,
    /// How it stands.
    pub state: State,
    /// The same in a word or three; empty where there is nothing to judge.
    pub verdict: &'static str,
    /// The result in a sentence.
    pub sentence: String,
    /// The formula's name in words.
    pub formula: &'static str,
    /// Where formula and limit come from.
    pub source: &'static str,
    /// One line of caution.
    pub caution: &'static str,
}

plain!(LoadResult {
    id,
    label,
    value,
    unit,
    allowable,
    utilisation,
    state,
    verdict,
    sentence,
    formula,
    source,
    caution
});

/// What a result is called and where it comes from; the number is put in by [`Basis::told`] or [`Basis::against`].
#[derive(Clone, Copy)]
pub(super) struct Basis {
    pub(super) id: &'static str,
    pub(super) label: &'static str,
    pub(super) unit: &'static str,
    pub(super) formula: &'static str,
    pub(super) source: &'static str,
    pub(super) caution: &'static str,
}

/// A limit of nothing at all is passed by any load; this utilisation stands for it.
const NOTHING_ALLOWED: f64 = 1e6;

impl Basis {
    /// A number to know.
    pub(super) fn told(&self, value: f64, sentence: impl Into<String>) -> LoadResult {
        self.result(value, None, sentence.into())
    }

    /// A number against what is allowed; below nought nothing is asked of the part.
    pub(super) fn against(&self, value: f64, allowable: f64, sentence: impl Into<String>) -> LoadResult {
        self.result(value, Some(allowable), sentence.into())
    }

    fn result(&self, value: f64, allowable: Option<f64>, sentence: String) -> LoadResult {
        let utilisation = allowable.map(|allowable| match (value <= 0.0, allowable > 0.0) {
            (true, _) => 0.0,
            (false, true) => (value / allowable).min(NOTHING_ALLOWED),
            (false, false) => NOTHING_ALLOWED,
        });
        let state = State::of(utilisation);
        LoadResult {
            id: self.id,
            label: self.label.to_owned(),
            value,
            unit: self.unit,
            allowable,
            utilisation,
            state,
            verdict: state.word(),
            sentence,
            formula: self.formula,
            source: self.source,
            caution: self.caution,
        }
    }
}

impl LoadResult {
    /// Takes a result above its limit as close to it, with a verdict of its own: what is passed is no strength.
    pub(super) fn yields_but(mut self, verdict: &'static str) -> Self {
        if self.state == State::Over {
            (self.state, self.verdict) = (State::Close, verdict);
        }
        self
    }
}

/// Results on one part.
#[derive(Clone, Debug)]
pub struct LoadGroup {
    /// Stable key, such as `axle`.
    pub id: &'static str,
    /// Heading.
    pub label: &'static str,
    /// What is and is not in these numbers, in a sentence or two.
    pub note: String,
    /// The results, in a fixed order.
    pub results: Vec<LoadResult>,
}

plain!(LoadGroup { id, label, note, results });

/// A force on a body, for the drawing.
#[derive(Clone, Debug)]
pub struct ForceVector {
    /// Stable key, such as `pads_on_caliper`.
    pub id: &'static str,
    /// What it is.
    pub label: &'static str,
    /// The body it acts on: `wheel`, `caliper`, `plate` or `fork`.
    pub on: &'static str,
    /// Where it acts, `[back, up, out]`, mm.
    pub point: [f64; 3],
    /// The force, `[back, up, out]`, N.
    pub force: [f64; 3],
    /// The moment that comes with it about that point, `[back, up, out]`, N·mm.
    pub moment: [f64; 3],
    /// Size of the force, N.
    pub size: f64,
}

plain!(ForceVector { id, label, on, point, force, moment, size });

/// What another rotor would ask of the hand.
#[derive(Clone, Debug)]
pub struct RotorHand {
    /// Rotor diameter, mm.
    pub rotor: f64,
    /// Hand force for the same stop, as a multiple of that with the setup's own rotor.
    pub hand: f64,
    /// Pad force of the same stop, N.
    pub pad_force: f64,
}

plain!(RotorHand { rotor, hand, pad_force });

/// What another slot would change.
#[derive(Clone, Debug)]
pub struct SlotChoice {
    /// What it is.
    pub label: &'static str,
    /// Clock angle it opens towards, degrees; none for a closed hole.
    pub direction: Option<f64>,
    /// Force on the braked dropout along the slot, out of it positive, N; none for a closed hole.
    pub outward: Option<f64>,
    /// Whether the force keeps the axle in.
    pub seats: bool,
    /// The same in a sentence.
    pub sentence: String,
}

plain!(SlotChoice { label, direction, outward, seats, sentence });

/// A straight cut through the plate, for the drawing.
#[derive(Clone, Debug)]
pub struct Cut {
    /// `root` or `neck`.
    pub id: &'static str,
    /// What it is.
    pub label: &'static str,
    /// Its two ends, `[back, up]`, mm.
    pub ends: [[f64; 2]; 2],
    /// Utilisation there.
    pub utilisation: f64,
}

plain!(Cut { id, label, ends, utilisation });

/// A line of weld, for the drawing.
#[derive(Clone, Debug)]
pub struct WeldSeam {
    /// `tube` or `joint`.
    pub id: &'static str,
    /// Its two ends, `[back, up, out]`, mm.
    pub ends: [[f64; 3]; 2],
}

plain!(WeldSeam { id, ends });

/// Everything that is said about the loads of a setup.
#[derive(Clone, Debug)]
pub struct Loads {
    /// What stands above everything else: that it is an estimate, and what to do before anybody rides.
    pub caution: String,
    /// In words first, where something is too much; none where nothing is.
    pub headline: Option<String>,
    /// The largest utilisation; none where nothing could be judged.
    pub worst: Option<f64>,
    /// Key of the result with the largest utilisation.
    pub worst_id: &'static str,
    /// How the whole stands.
    pub state: State,
    /// The braking that is judged, in a sentence.
    pub case: String,
    /// The results by part, in a fixed order.
    pub groups: Vec<LoadGroup>,
    /// Every force on every body.
    pub forces: Vec<ForceVector>,
    /// Clock angles of the caliper at which the brake keeps the axle in its slot; all round for a closed hole.
    pub seating: Vec<Arc>,
    /// The hand force with other rotors.
    pub rotors: Vec<RotorHand>,
    /// What another slot would change.
    pub slots: Vec<SlotChoice>,
    /// The weakest cuts through the plate.
    pub cuts: Vec<Cut>,
    /// The lines of weld that were counted.
    pub seams: Vec<WeldSeam>,
}

plain!(Loads { caution, headline, worst, worst_id, state, case, groups, forces, seating, rotors, slots, cuts, seams });

/// The caution above every answer about loads.
pub(super) const CAUTION: &str = "An estimate for comparing designs, never an approval. Local rules and licensed practice come first. Have a qualified welder do the welds, proof-test the finished fork before anybody rides it, and inspect it for cracks again and again.";

/// What stands first where something is too much.
pub(super) fn headline(groups: &[LoadGroup]) -> Option<String> {
    let mut over: Vec<&LoadResult> =
        groups.iter().flat_map(|group| &group.results).filter(|result| result.state == State::Over).collect();
    over.sort_by(|a, b| b.utilisation.unwrap_or(0.0).total_cmp(&a.utilisation.unwrap_or(0.0)));
    let told = |result: &&LoadResult| {
        let label = lower_first(&result.label);
        match result.utilisation {
            Some(share) if share < NOTHING_ALLOWED => format!("{label} at {} times its limit", rounded(share, 1)),
            _ => format!("{label} with nothing to bear it"),
        }
    };
    let named = row(over.iter().take(3).map(told), ", ");
    let rest = over.len().saturating_sub(3);
    let more = if rest > 0 { format!(", and {rest} more") } else { String::new() };
    (!over.is_empty()).then(|| format!("Too much: {named}{more}. Do not build it like this."))
}

/// A label inside a sentence.
pub(super) fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or(String::new(), |first| first.to_lowercase().chain(chars).collect())
}
