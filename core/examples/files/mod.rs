//! Setup files in, problems in words out: what the examples share.

use std::io::Read;

use tabwright_core::{Problem, Setup};

/// Reads a setup from a file, `-` for standard input.
pub(crate) fn read_setup(file: &str) -> Result<Setup, Vec<Problem>> {
    let text = read(file).map_err(|error| {
        vec![Problem { field: String::new(), value: String::new(), message: format!("cannot be read: {error}.") }]
    })?;
    Setup::from_json(&text).map(|(setup, _)| setup)
}

fn read(file: &str) -> std::io::Result<String> {
    if file != "-" {
        return std::fs::read_to_string(file);
    }
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    Ok(text)
}

/// A problem as one line.
pub(crate) fn describe(file: &str, problem: &Problem) -> String {
    let field = if problem.field.is_empty() { String::new() } else { format!("{}: ", problem.field) };
    let value = if problem.value.is_empty() { String::new() } else { format!(" (found {})", problem.value) };
    format!("{file}: {field}{}{value}", problem.message)
}
