//! Inputs: one table of fields, the structs it fills, and the strict reader.

mod bodies;
mod choices;
mod consistency;
mod field;
mod given;
mod group;
mod input;
mod measured;
mod parts;
mod reader;
mod schema;
mod tack;
mod word;

use serde::Serialize;
use serde_json::Value;

pub use choices::{
    Bicycle, BoltClass, BoltSize, Build, Electrode, HoleFit, LoadCase, Material, MatingFace, Mount, Scheme, Side,
    TestWheel, ToleranceClass, WeldKind, WeldMethod,
};
pub use field::{ChoiceDescription, Field, FieldDescription, Kind, MOST_READINGS, Range, Unit};
pub use given::Given;
pub use measured::CaliperMeasured;
pub(crate) use measured::{hold, lug_share};
pub use parts::{Body, Bolt, Caliper, Cut, Dropout, Fork, Line, Load, Pad, Required, Tab, Tolerance, Weld, Wheel};
pub use reader::{Problem, Warning};
pub use schema::setup_schema;
pub use tack::{Tack, TackAfter, TackBefore};

use group::{Group, Input, Slot};
use reader::{Findings, read_group};

use crate::plain::plain;

/// The version of the setup's shape that this library reads and writes.
pub const VERSION: u32 = 1;

/// A whole setup: wheel, fork, dropout, caliper, tab and what the builder wants of them.
///
/// Lengths in mm, angles in degrees, masses in kg. A `Setup` made by [`Setup::read`] holds only finite numbers inside
/// the table's hard ranges that go together; the fields are public so that a search may vary them, and
/// [`Setup::checked`] tells whether the result is still one that can be worked out.
#[derive(Clone, Debug, PartialEq)]
pub struct Setup {
    /// Version of the shape, [`VERSION`].
    pub version: u32,
    /// The builder's own name for it.
    pub name: String,
    /// The braked side.
    pub side: Side,
    /// Hub, rotor and rim.
    pub wheel: Wheel,
    /// The fork leg.
    pub fork: Fork,
    /// The plate that carries the axle.
    pub dropout: Dropout,
    /// The caliper.
    pub caliper: Caliper,
    /// The tab and where it sits.
    pub tab: Tab,
    /// How plate and holes are cut.
    pub cut: Cut,
    /// The smallest gaps accepted.
    pub required: Required,
    /// How well each dimension is held.
    pub tolerance: Tolerance,
    /// The braking it is judged under.
    pub load: Load,
    /// Readings on the tacked and on the welded part.
    pub tack: Tack,
}

impl Setup {
    const BLANK: Setup = Setup {
        version: VERSION,
        name: String::new(),
        side: Side::BLANK,
        wheel: Wheel::BLANK,
        fork: Fork::BLANK,
        dropout: Dropout::BLANK,
        caliper: Caliper::BLANK,
        tab: Tab::BLANK,
        cut: Cut::BLANK,
        required: Required::BLANK,
        tolerance: Tolerance::BLANK,
        load: Load::BLANK,
        tack: Tack::BLANK,
    };
    const TABLE: &'static [Field] = &[
        Field {
            key: "version",
            label: "Version",
            help: "Version of the file's shape.",
            kind: Kind::Number {
                default: VERSION as f64,
                unit: Unit::None,
                hard: Range { low: VERSION as f64, high: VERSION as f64 },
                plausible: Range { low: VERSION as f64, high: VERSION as f64 },
                step: 1.0,
                stops: &[],
                decimals: None,
            },
        },
        Field { key: "name", label: "Name", help: "Your own name for this setup.", kind: Kind::Text { max_chars: 80 } },
        Field { key: "side", label: "Brake side", help: "From the rider's seat.", kind: Side::kind(Side::Left) },
    ];
}

impl Group for Setup {
    fn path(&self) -> &'static str {
        ""
    }

    fn table(&self) -> &'static [Field] {
        Self::TABLE
    }

    fn slots(&mut self) -> Vec<Slot<'_>> {
        vec![Slot::Version(self.version), self.name.slot(), self.side.slot()]
    }

    fn groups(&mut self) -> Vec<&mut dyn Group> {
        vec![
            &mut self.wheel,
            &mut self.fork,
            &mut self.dropout,
            &mut self.caliper,
            &mut self.tab,
            &mut self.cut,
            &mut self.required,
            &mut self.tolerance,
            &mut self.load,
            &mut self.tack,
        ]
    }
}

impl From<&Setup> for Given {
    fn from(setup: &Setup) -> Self {
        group::given(&mut setup.clone())
    }
}

impl Serialize for Setup {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        Given::from(self).serialize(serializer)
    }
}

impl Default for Setup {
    /// The table's defaults: a left-hand brake on a wide fork that clears everything. Measure the real parts.
    fn default() -> Self {
        let mut setup = Setup::BLANK;
        group::fill(&mut setup);
        setup
    }
}

impl Setup {
    /// Reads a setup from plain data, such as JSON's, strictly, with whatever is unusual about it.
    ///
    /// # Errors
    /// Every unknown, missing, mistyped or out-of-range field and every pair of fields that cannot go together, all at
    /// once.
    ///
    /// ```
    /// use tabwright_core::Setup;
    /// let mut json = serde_json::to_value(Setup::default()).unwrap();
    /// json["wheel"]["rotor_diameter"] = "abc".into();
    /// let problems = Setup::read(&json).unwrap_err();
    /// assert_eq!(problems[0].field, "wheel.rotor_diameter");
    /// assert_eq!(problems[0].message, "Rotor size must be a number from 90 to 320 mm, such as 203.");
    /// ```
    pub fn read(given: impl Into<Given>) -> Result<(Setup, Vec<Warning>), Vec<Problem>> {
        Setup::read_given(&given.into())
    }

    fn read_given(given: &Given) -> Result<(Setup, Vec<Warning>), Vec<Problem>> {
        let (mut setup, mut findings) = (Setup::default(), Findings::default());
        read_group(&mut setup, given, &mut findings);
        if findings.problems.is_empty() {
            consistency::check(&setup, &mut findings);
        }
        if findings.problems.is_empty() { Ok((setup, findings.warnings)) } else { Err(findings.problems) }
    }

    /// The row of the field table for a dotted path such as `wheel.hub_width`.
    pub fn field(path: &str) -> Option<&'static Field> {
        let mut found = None;
        let mut setup = Setup::BLANK;
        group::visit(&mut setup, &mut |field| {
            if field.key == path {
                found = Some(field);
            }
        });
        found
    }

    /// The place of a number by its dotted path; none where there is no such number.
    pub fn number_at(&mut self, path: &str) -> Option<&mut f64> {
        group::number(self, path)
    }

    /// Reads a setup from the text of a JSON file.
    ///
    /// # Errors
    /// As [`Setup::read`]; text that is not JSON gives one problem with line and column.
    pub fn from_json(text: &str) -> Result<(Setup, Vec<Warning>), Vec<Problem>> {
        let json: Value = serde_json::from_str(text).map_err(|error| vec![not_json(text, &error)])?;
        Setup::read(&json)
    }

    /// Reads a setup that was made or changed in code, by the same rules as one from a file.
    ///
    /// # Errors
    /// As [`Setup::read`].
    pub fn checked(&self) -> Result<Vec<Warning>, Vec<Problem>> {
        // A NaN or an infinity becomes nothing in plain data, and nothing is no number to the reader.
        Setup::read(self).map(|(_, warnings)| warnings)
    }
}

/// The most of a faulty line that is repeated in a message, in characters.
const SHOWN_LINE_CHARS: usize = 60;

/// What is wrong with text that is not JSON, with the line at fault: it names the field.
fn not_json(text: &str, error: &serde_json::Error) -> Problem {
    let line = text.lines().nth(error.line().saturating_sub(1)).unwrap_or_default();
    let value: String = line.trim().chars().filter(|char| !char.is_control()).take(SHOWN_LINE_CHARS).collect();
    let message = if error.is_eof() {
        format!("The file ends too early, in line {}. Save it again whole, or open another.", error.line())
    } else {
        format!("This is not JSON: {error}. A value must be a plain number, text in quotes, true or false.")
    };
    Problem { field: String::new(), value, message }
}

/// One group of a form, with its rows.
#[derive(Clone, Debug)]
pub struct GroupDescription {
    /// Key of the group in a setup file; empty for the fields at the top.
    pub key: &'static str,
    /// Heading.
    pub label: &'static str,
    /// One line on the group.
    pub help: &'static str,
    /// Its rows, nested groups included.
    pub fields: Vec<FieldDescription>,
}

plain!(GroupDescription { key, label, help, fields });

const GROUPS: [(&str, &str, &str); 11] = [
    ("", "Setup", "What it is called and which side is braked."),
    ("wheel", "Wheel", "Hub, rotor and rim, measured on the real parts."),
    ("fork", "Fork", "The leg on the braked side."),
    ("dropout", "Dropout", "The plate that carries the axle."),
    ("caliper", "Caliper", "A rigid, handed thing: seen on its outboard face, never mirrored."),
    ("tab", "Tab", "The plate that carries the caliper, and where it sits."),
    ("cut", "Cutting", "Holes, tolerances and the least material left."),
    ("required", "Gaps wanted", "The smallest gaps you accept."),
    ("tolerance", "Tolerances", "How well each dimension is held."),
    ("load", "Brake case", "The braking the part is judged under."),
    ("tack", "Tack check", "What is read on the tacked part, and again after welding."),
];

/// The whole field table, group by group in form order.
pub fn describe_fields() -> Vec<GroupDescription> {
    let mut groups: Vec<GroupDescription> =
        GROUPS.iter().map(|&(key, label, help)| GroupDescription { key, label, help, fields: Vec::new() }).collect();
    let mut setup = Setup::BLANK;
    group::visit(&mut setup, &mut |field| {
        if field.key == "version" {
            return;
        }
        let top = field.key.split_once('.').map_or("", |(top, _)| top);
        if let Some(group) = groups.iter_mut().find(|group| group.key == top) {
            group.fields.push(field.describe());
        }
    });
    groups
}
