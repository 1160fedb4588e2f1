//! One row of the field table, and what a form or a link needs to know about it.

use super::given::Given;
use super::group::leaf;
use super::parts::{Body, LATER};
use crate::plain::{Plain, plain};

/// The unit a number is given in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A bare number.
    None,
    /// Millimetres.
    Mm,
    /// Degrees.
    Degree,
    /// Kilograms.
    Kg,
    /// Newtons.
    Newton,
    /// Newton metres.
    NewtonMetre,
    /// Megapascals, newtons on a square millimetre.
    Megapascal,
    /// Hundredths.
    Percent,
}

impl Unit {
    /// The unit's symbol, empty for a bare number.
    pub const fn symbol(self) -> &'static str {
        match self {
            Unit::None => "",
            Unit::Mm => "mm",
            Unit::Degree => "°",
            Unit::Kg => "kg",
            Unit::Newton => "N",
            Unit::NewtonMetre => "N·m",
            Unit::Megapascal => "MPa",
            Unit::Percent => "%",
        }
    }
}

/// A closed interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Smallest value allowed.
    pub low: f64,
    /// Largest value allowed.
    pub high: f64,
}

impl Range {
    /// Whether `value` lies inside; never true of a NaN.
    pub fn contains(self, value: f64) -> bool {
        self.low <= value && value <= self.high
    }
}

/// Shorthand for a [`Range`] in the table.
pub(super) const fn range(low: f64, high: f64) -> Range {
    Range { low, high }
}

/// The most readings of one length that are kept.
pub const MOST_READINGS: usize = 5;
/// Readings are kept to this many decimals of a millimetre, which keeps links short.
pub(super) const READING_DECIMALS: u8 = 3;

/// What a field holds, with its default.
#[derive(Clone, Copy, Debug)]
pub enum Kind {
    /// A number between hard limits; outside the plausible range it is only remarked upon.
    Number {
        /// Value on the first page.
        default: f64,
        /// Its unit.
        unit: Unit,
        /// Outside this range there is no answer, only an error.
        hard: Range,
        /// Outside this range the answer comes with a warning.
        plausible: Range,
        /// A sensible increment for a button or an arrow key.
        step: f64,
        /// The usual values, marked on a slider.
        stops: &'static [f64],
        /// The most decimals it may have, which keeps links short; `None` for any number.
        decimals: Option<u8>,
    },
    /// One of a few words.
    Choice {
        /// Word on the first page.
        default: &'static str,
        /// Each word with its label.
        choices: &'static [(&'static str, &'static str)],
    },
    /// Yes or no.
    Flag {
        /// Value on the first page.
        default: bool,
    },
    /// Free text of the builder's own.
    Text {
        /// The most characters it may have.
        max_chars: usize,
    },
    /// A direction or point in the caliper frame, `[cw, rad, out]`.
    Vector {
        /// Value on the first page; `None` where the field may be left out.
        default: Option<[f64; 3]>,
    },
    /// A fixed pair of points.
    Points {
        /// Value on the first page.
        default: [[f64; 2]; 2],
        /// What the two coordinates are.
        axes: &'static [&'static str],
        /// The most decimals they may have, as for a number.
        decimals: Option<u8>,
    },
    /// One length read several times over, or not at all: at most [`MOST_READINGS`] numbers in mm.
    Readings {
        /// Outside this range there is no answer, only an error.
        hard: Range,
    },
    /// The caliper's solid pieces.
    Bodies {
        /// Value on the first page.
        default: fn() -> Vec<Body>,
    },
}

impl Kind {
    /// A number in the table, without marked stops and with a step of one.
    pub(super) const fn number(default: f64, unit: Unit, hard: Range, plausible: Range) -> Kind {
        Kind::Number { default, unit, hard, plausible, step: 1.0, stops: &[], decimals: None }
    }

    /// The same number with another step and marked stops.
    pub(super) const fn steps(self, new_step: f64, new_stops: &'static [f64]) -> Kind {
        match self {
            Kind::Number { default, unit, hard, plausible, decimals, .. } => {
                Kind::Number { default, unit, hard, plausible, step: new_step, stops: new_stops, decimals }
            }
            other => other,
        }
    }

    /// The same number with at most this many decimals.
    pub(super) const fn decimals(self, most: u8) -> Kind {
        match self {
            Kind::Number { default, unit, hard, plausible, step, stops, .. } => {
                Kind::Number { default, unit, hard, plausible, step, stops, decimals: Some(most) }
            }
            other => other,
        }
    }
}

/// A row of the field table: everything that form, file, link and help say about one input.
#[derive(Clone, Copy, Debug)]
pub struct Field {
    /// Full dotted path in a setup file, such as `wheel.hub_width`.
    pub key: &'static str,
    /// What a builder calls it.
    pub label: &'static str,
    /// One line on what it is and how to take it.
    pub help: &'static str,
    /// What it holds.
    pub kind: Kind,
}

impl Field {
    /// The last piece of the path: the key inside its own object.
    pub fn leaf(&self) -> &'static str {
        leaf(self.key)
    }

    /// The word at that place among the words of a choice, empty where there is none.
    pub(super) fn word(&self, index: usize) -> &'static str {
        match self.kind {
            Kind::Choice { choices, .. } => choices.get(index).map_or("", |(word, _)| word),
            _ => "",
        }
    }

    /// The hard limits of a number or of a reading, `[low, high]`; all numbers for any other kind.
    pub fn hard_range(&self) -> [f64; 2] {
        match self.kind {
            Kind::Number { hard, .. } | Kind::Readings { hard } => [hard.low, hard.high],
            _ => [f64::NEG_INFINITY, f64::INFINITY],
        }
    }

    /// Whether a setup may do without it, which then means the default.
    pub(super) fn may_be_left_out(&self) -> bool {
        matches!(self.kind, Kind::Vector { default: None } | Kind::Readings { .. }) || LATER.contains(&self.key)
    }

    /// The value on the first page.
    pub(super) fn default(&self) -> Given {
        match self.kind {
            Kind::Number { default, .. } => default.into(),
            Kind::Choice { default, .. } => default.into(),
            Kind::Flag { default } => Given::Flag(default),
            Kind::Text { .. } => "".into(),
            Kind::Vector { default } => default.datum().into(),
            Kind::Points { default, .. } => default.datum().into(),
            Kind::Readings { .. } => Given::List(Vec::new()),
            Kind::Bodies { default } => default().datum().into(),
        }
    }

    /// The row as plain data for a form.
    pub fn describe(&self) -> FieldDescription {
        let mut row = FieldDescription {
            key: self.key,
            label: self.label,
            help: self.help,
            unit: "",
            kind: "",
            default: self.default(),
            optional: self.may_be_left_out(),
            hard: None,
            plausible: None,
            step: None,
            stops: &[],
            decimals: None,
            axes: &[],
            choices: Vec::new(),
        };
        match self.kind {
            Kind::Number { unit, hard, plausible, step, stops, decimals, .. } => {
                row.kind = "number";
                row.unit = unit.symbol();
                row.hard = Some([hard.low, hard.high]);
                row.plausible = Some([plausible.low, plausible.high]);
                row.step = Some(step);
                row.stops = stops;
                row.decimals = decimals.map(f64::from);
            }
            Kind::Choice { choices, .. } => {
                row.kind = "choice";
                row.choices = choices.iter().map(|&(value, label)| ChoiceDescription { value, label }).collect();
            }
            Kind::Flag { .. } => row.kind = "flag",
            Kind::Text { .. } => row.kind = "text",
            Kind::Vector { .. } => {
                row.kind = "vector";
                row.unit = "mm";
            }
            Kind::Points { axes, decimals, .. } => {
                row.decimals = decimals.map(f64::from);
                row.kind = "points";
                row.unit = "mm";
                row.axes = axes;
            }
            Kind::Readings { hard } => {
                row.kind = "readings";
                row.unit = "mm";
                row.hard = Some([hard.low, hard.high]);
                row.decimals = Some(READING_DECIMALS.into());
            }
            Kind::Bodies { .. } => {
                row.kind = "bodies";
                row.unit = "mm";
            }
        }
        row
    }
}

/// A [`Field`] as plain data.
#[derive(Clone, Debug)]
pub struct FieldDescription {
    /// Full dotted path.
    pub key: &'static str,
    /// What a builder calls it.
    pub label: &'static str,
    /// One line of help.
    pub help: &'static str,
    /// Unit symbol, or empty.
    pub unit: &'static str,
    /// `number`, `choice`, `flag`, `text`, `vector`, `points`, `readings` or `bodies`.
    pub kind: &'static str,
    /// Value on the first page.
    pub default: Given,
    /// Whether a setup may do without it, which then means the default.
    pub optional: bool,
    /// Hard limits of a number, or of each of several readings.
    pub hard: Option<[f64; 2]>,
    /// Plausible limits of a number.
    pub plausible: Option<[f64; 2]>,
    /// Increment of a number.
    pub step: Option<f64>,
    /// Usual values of a number.
    pub stops: &'static [f64],
    /// The most decimals a number may have, where that is limited.
    pub decimals: Option<f64>,
    /// What the coordinates of points are; empty for anything else.
    pub axes: &'static [&'static str],
    /// The words of a choice.
    pub choices: Vec<ChoiceDescription>,
}

plain!(FieldDescription {
    key,
    label,
    help,
    unit,
    kind,
    default,
    optional,
    hard,
    plausible,
    step,
    stops,
    decimals,
    axes,
    choices
});

/// One word of a choice with its label.
#[derive(Clone, Copy, Debug)]
pub struct ChoiceDescription {
    /// The word in a setup file.
    pub value: &'static str,
    /// The label in a form.
    pub label: &'static str,
}

plain!(ChoiceDescription { value, label });
