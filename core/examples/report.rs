//! Prints the full report on setup files as JSON: `report FILE.json…`, `-` for standard input.
//!
//! One file gives one indented object, several give one line each. A file that cannot be read or worked out has its
//! problems on standard error; then the exit code is 2, after all files have been looked at.

mod files;

use std::process::ExitCode;

use files::{describe, read_setup};
use tabwright_core::{Report, report};

fn main() -> ExitCode {
    let files: Vec<String> = std::env::args().skip(1).collect();
    if files.is_empty() {
        eprintln!("usage: report FILE.json…   (- reads standard input)");
        return ExitCode::from(2);
    }
    let mut code = ExitCode::SUCCESS;
    for file in &files {
        match read_setup(file).and_then(|setup| report(&setup)) {
            Ok(report) => println!("{}", to_json(&report, files.len() == 1)),
            Err(problems) => {
                problems.iter().for_each(|problem| eprintln!("{}", describe(file, problem)));
                code = ExitCode::from(2);
            }
        }
    }
    code
}

fn to_json(report: &Report, indented: bool) -> String {
    let written = if indented { serde_json::to_string_pretty(report) } else { serde_json::to_string(report) };
    // A report is plain data: maps with text keys and finite numbers.
    written.unwrap_or_else(|error| format!("{{\"error\": \"{error}\"}}"))
}
