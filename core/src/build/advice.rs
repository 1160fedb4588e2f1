//! One piece of advice on a tacked or welded part.

use super::contradiction::Contradiction;
use super::figures::{Figures, State, Uncertainty, figures};
use super::limits::{Limit, limits};
use super::reading::Reading;
use crate::fit::{Outcome, Report};
use crate::plain::plain;
use crate::setup::Setup;
use crate::solid::NotConverged;
use crate::words::{fine_length, row};

/// A part that keeps every limit, but lies further from its design than this, is told so, mm.
const FAR_ENOUGH_TO_SAY: f64 = 1.0;
/// The kinds of advice.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AdviceKind {
    /// Readings are missing.
    MeasureMore,
    /// Readings contradict each other.
    MeasureAgain,
    /// The design itself does not go together.
    Redesign,
    /// Within all limits.
    Weld,
    /// Shims bring it within all limits.
    Shim,
    /// Filing one hole long brings it within all limits.
    File,
    /// The tab has to move.
    Break,
}

plain!(AdviceKind:
    MeasureMore = "measure_more",
    MeasureAgain = "measure_again",
    Redesign = "redesign",
    Weld = "weld",
    Shim = "shim",
    File = "file",
    Break = "break",
);

/// Shims between tab and caliper.
#[derive(Clone, Debug, PartialEq)]
pub struct ShimAdvice {
    /// Under hole 1 and hole 2, mm.
    pub thickness: [f64; 2],
    /// The pieces that make it, mm.
    pub pieces: [Vec<f64>; 2],
    /// Slot minus rotor then, mm.
    pub misalignment: f64,
    /// Tilt along the holes then, degrees.
    pub tilt: f64,
}

plain!(ShimAdvice { thickness, pieces, misalignment, tilt });

/// A hole to be filed long.
#[derive(Clone, Debug, PartialEq)]
pub struct FileAdvice {
    /// 1 or 2.
    pub hole: f64,
    /// By how much, mm.
    pub amount: f64,
    /// Which way, `[back, up]`, as a unit vector.
    pub direction: [f64; 2],
    /// The same in words.
    pub towards: String,
}

plain!(FileAdvice { hole, amount, direction, towards });

/// How the tab has to move.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MoveAdvice {
    /// Of the middle between the holes, mm.
    pub back: f64,
    /// Of the middle between the holes, mm.
    pub up: f64,
    /// The same away from the axle, mm.
    pub radial: f64,
    /// The same in the way of growing clock angles, mm.
    pub tangential: f64,
    /// Outboard, mm.
    pub out: f64,
    /// Along the line of the holes, degrees, positive where hole 2 goes outboard.
    pub tilt: f64,
    /// In the wheel plane, degrees, growing clock angles positive.
    pub turn: f64,
}

plain!(MoveAdvice { back, up, radial, tangential, out, tilt, turn });

/// Exactly one piece of advice.
#[derive(Clone, Debug)]
pub struct Advice {
    /// Which.
    pub kind: AdviceKind,
    /// A few words.
    pub title: String,
    /// All of it.
    pub text: String,
    /// Whether it would be another at one end of the ±.
    pub close: bool,
    /// To take, or to take again.
    pub readings: Vec<Reading>,
    /// The shims.
    pub shim: Option<ShimAdvice>,
    /// The hole to file.
    pub file: Option<FileAdvice>,
    /// The move.
    pub r#move: Option<MoveAdvice>,
}

impl crate::plain::Plain for Advice {
    fn datum(&self) -> crate::plain::Datum<'_> {
        let Self { kind, title, text, close, readings, shim, file, r#move } = self;
        crate::plain::Datum::Record(
            &["kind", "title", "text", "close", "readings", "shim", "file", "move"],
            vec![kind, title, text, close, readings, shim, file, r#move],
        )
    }
}
crate::plain::serialize!(Advice);

impl Advice {
    pub(super) fn plain(kind: AdviceKind, title: &str, text: String) -> Self {
        let title = title.to_owned();
        Self { kind, title, text, close: false, readings: Vec::new(), shim: None, file: None, r#move: None }
    }

    pub(super) fn measure_more(missing: &[Reading]) -> Self {
        let names = row(missing.iter().map(|reading| reading.label().to_owned()), ", ");
        let text = format!("To place the tab it takes yet: {names}.");
        Self { readings: missing.to_vec(), ..Self::plain(AdviceKind::MeasureMore, "Measure on", text) }
    }

    pub(super) fn measure_again(contradiction: &Contradiction) -> Self {
        let readings = contradiction.suspect.map_or_else(|| contradiction.readings.clone(), |one| vec![one]);
        let text = contradiction.message.clone();
        Self { readings, ..Self::plain(AdviceKind::MeasureAgain, "Measure again", text) }
    }
}

/// A part as it stands, with what it is judged by.
pub(super) struct Judged<'a> {
    pub(super) setup: &'a Setup,
    pub(super) state: &'a State,
    pub(super) uncertainty: &'a Uncertainty,
    pub(super) designed: &'a Figures,
    pub(super) designed_state: &'a State,
    pub(super) limits: &'a [Limit],
    pub(super) welded: bool,
}

impl Judged<'_> {
    /// The advice; `report` is that on the design.
    pub(super) fn advice(&self, report: &Report) -> Result<Advice, NotConverged> {
        let close = self.limits.iter().any(|limit| !limit.sure);
        if matches!(report.verdict, Outcome::Hits | Outcome::CannotBuild) {
            let text = format!("As designed it does not go together: {} Change the setup first.", report.summary);
            return Ok(Advice::plain(AdviceKind::Redesign, "Change the design", text));
        }
        let outside: Vec<&Limit> = self.limits.iter().filter(|limit| !limit.ok).collect();
        let advice = if outside.is_empty() {
            self.weld()
        } else if let Some(advice) = self.shim(&outside)? {
            advice
        } else if let Some(advice) = self.file()? {
            advice
        } else {
            self.move_tab(&outside)
        };
        if !close {
            return Ok(advice);
        }
        let labels = row(self.limits.iter().filter(|limit| !limit.sure).map(|limit| limit.label.clone()), ", ");
        let text = format!(
            "{} Close to the limit, closer than the readings tell: {labels}. Read more to be sure.",
            advice.text
        );
        Ok(Advice { close, text, ..advice })
    }

    fn weld(&self) -> Advice {
        if self.welded {
            let text = "All as wanted after welding. Bolt the caliper on and set it to the rotor.".to_owned();
            return Advice::plain(AdviceKind::Weld, "Good as welded", text);
        }
        let aside = self.away();
        let text = if aside < FAR_ENOUGH_TO_SAY {
            "Every limit is kept. Weld in short runs on both sides in turn, and measure again when cold.".to_owned()
        } else {
            format!(
                "Every limit is kept, though a hole lies {} from where it was designed. Weld in short runs on both sides in turn, and measure again when cold.",
                fine_length(aside)
            )
        };
        Advice::plain(AdviceKind::Weld, "Weld it", text)
    }

    /// How far the farther hole lies from its design, mm.
    fn away(&self) -> f64 {
        let apart = |at: usize| {
            (self.state[at] - self.designed_state[at]).hypot(self.state[at + 1] - self.designed_state[at + 1])
        };
        apart(0).max(apart(2))
    }

    /// Whether every limit is kept in another state.
    pub(super) fn keeps(&self, state: &State) -> Result<bool, NotConverged> {
        let figures = figures(self.setup, state)?;
        let limits = limits(self.setup, state, &figures, self.uncertainty, self.designed);
        Ok(limits.iter().all(|limit| limit.ok))
    }
}
