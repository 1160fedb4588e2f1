//! How a sheet or a file is wanted: what is no property of the part itself.

use crate::setup::{Given, Material, Problem};
use crate::words::{given_length, length_digits};

/// Paper that templates are printed on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm, ISO 216.
    A4,
    /// 8.5 by 11 in, 215.9 by 279.4 mm.
    Letter,
}

crate::plain::plain!(Paper: A4 = "a4", Letter = "letter");

impl Paper {
    /// Width and height, mm.
    pub const fn size(self) -> [f64; 2] {
        match self {
            Paper::A4 => [210.0, 297.0],
            Paper::Letter => [215.9, 279.4],
        }
    }
}

/// How a sheet or a file is wanted.
#[derive(Clone, Debug, PartialEq)]
pub struct CutOptions {
    /// Metal to weigh; none for the setup's own.
    pub metal: Option<Material>,
    /// Width of the cut, mm: files are larger by half of it all round, their holes smaller.
    pub kerf: f64,
    /// Paper of the template.
    pub paper: Paper,
    /// Date for the title block.
    pub date: String,
    /// Link of the setup for the title block.
    pub link: String,
    /// Whether the other leg's dropout is wanted too.
    pub other_side: bool,
}

impl Default for CutOptions {
    fn default() -> Self {
        Self { metal: None, kerf: 0.0, paper: Paper::A4, date: String::new(), link: String::new(), other_side: true }
    }
}

/// The widest cut, mm: a flame cuts no wider.
const MOST_KERF: f64 = 5.0;
/// The longest date and link, in characters.
const MOST_DATE: usize = 60;
const MOST_LINK: usize = 4000;

impl CutOptions {
    /// Reads options from plain data; what is left out has its default.
    ///
    /// # Errors
    /// A problem for every unknown or wrong member, its field `options.` and the name.
    ///
    /// ```
    /// use tabwright_core::{Given, cut::{CutOptions, Paper}};
    /// let given = Given::Object(vec![("paper".to_owned(), "letter".into())]);
    /// assert_eq!(CutOptions::read(&given).unwrap().paper, Paper::Letter);
    /// ```
    pub fn read(given: &Given) -> Result<Self, Vec<Problem>> {
        let mut options = Self::default();
        let members = match given {
            Given::Nothing => return Ok(options),
            given => given.members().ok_or_else(|| vec![problem("", given, "Options must be an object.")])?,
        };
        let mut problems = Vec::new();
        for (name, value) in members {
            if let Err(message) = options.take(name, value) {
                problems.push(problem(name, value, &message));
            }
        }
        if problems.is_empty() { Ok(options) } else { Err(problems) }
    }

    fn take(&mut self, name: &str, value: &Given) -> Result<(), String> {
        match name {
            "metal" => {
                let all = [
                    Material::MildSteel,
                    Material::A36,
                    Material::ColdDrawn1018,
                    Material::HotRolled1018,
                    Material::CrMo4130,
                    Material::Stainless304,
                    Material::Aluminium6061,
                    Material::Own,
                ];
                let found = all.into_iter().find(|metal| Some(metal.word()) == value.text());
                self.metal = Some(
                    found.ok_or("Metal must be one of \"mild_steel\", \"4130\", \"stainless_304\", \"6061_t6\".")?,
                );
            }
            "kerf" => {
                let read = value.number().filter(|kerf| (0.0..=MOST_KERF).contains(kerf));
                self.kerf = read.ok_or_else(|| {
                    format!("Width of cut must be a number from {} to {}.", length_digits(0.0), given_length(MOST_KERF))
                })?;
            }
            "paper" => {
                self.paper = match value.text() {
                    Some("a4") => Paper::A4,
                    Some("letter") => Paper::Letter,
                    _ => return Err("Paper must be \"a4\" or \"letter\".".to_owned()),
                }
            }
            "date" => self.date = text(value, MOST_DATE)?,
            "link" => self.link = text(value, MOST_LINK)?,
            "other_side" => self.other_side = value.flag().ok_or("The other leg's plate must be true or false.")?,
            _ => return Err("There is no such option. Leave it out.".to_owned()),
        }
        Ok(())
    }
}

fn text(value: &Given, most: usize) -> Result<String, String> {
    let read = value.text().filter(|text| text.chars().count() <= most && !text.chars().any(char::is_control));
    read.map(str::to_owned).ok_or_else(|| format!("It must be one line of text, {most} characters at most."))
}

fn problem(name: &str, value: &Given, message: &str) -> Problem {
    let field = if name.is_empty() { "options".to_owned() } else { format!("options.{name}") };
    let value: String = value.to_string().chars().take(40).collect();
    Problem { field, value, message: message.to_owned() }
}
