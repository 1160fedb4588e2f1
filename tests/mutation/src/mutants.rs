//! The list of mutants, as cargo-mutants draws it up.

use std::collections::HashMap;
use std::path::Path;

use serde::Deserialize;

/// What a mutant does.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq, Hash, PartialOrd, Ord)]
#[allow(missing_docs, reason = "the names are those of cargo-mutants")]
pub enum Genre {
    FnValue,
    BinaryOperator,
    UnaryOperator,
    MatchArm,
    MatchArmGuard,
    StructField,
}

/// A line and a column, both from 1, the column in characters.
#[derive(Clone, Copy, Debug, Deserialize, PartialEq, Eq, Hash)]
pub struct Place {
    /// From 1.
    pub line: usize,
    /// From 1.
    pub column: usize,
}

#[derive(Deserialize)]
struct Span {
    start: Place,
}

#[derive(Deserialize)]
struct Listed {
    name: String,
    file: String,
    span: Span,
    replacement: String,
    genre: Genre,
}

/// One change of the code.
#[derive(Clone, Debug)]
pub struct Mutant {
    /// What the copy knows it by; from 1.
    pub id: u32,
    /// The same as long as the function stays as it is, wherever in its file it stands.
    pub key: String,
    /// From the project's folder.
    pub file: String,
    /// Where the text to be replaced starts.
    pub at: Place,
    /// Rust.
    pub replacement: String,
    /// What it does.
    pub genre: Genre,
}

/// Reads a list that `cargo mutants --list --json` wrote.
pub fn read(file: &Path) -> Vec<Mutant> {
    let text = std::fs::read_to_string(file).expect("the list of mutants can be read");
    let listed: Vec<Listed> = serde_json::from_str(&text).expect("the list is cargo-mutants'");
    let mut seen: HashMap<String, u32> = HashMap::new();
    (1..)
        .zip(listed)
        .map(|(id, listed)| {
            let Listed { name, file, span, replacement, genre } = listed;
            let place = format!(":{}:{}", span.start.line, span.start.column);
            let name = name.replacen(&place, "", 1);
            let count = seen.entry(name.clone()).or_default();
            *count += 1;
            Mutant { id, key: format!("{name} #{count}"), file, at: span.start, replacement, genre }
        })
        .collect()
}
