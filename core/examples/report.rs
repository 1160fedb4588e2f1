//! Prints the full report on setup files as JSON: `report FILE.json…`, `-` for standard input.
//!
//! One file gives one indented object, several give one line each. A file that cannot be read or worked out has its
//! problems on standard error; then the exit code is 2, after all files have been looked at.

use std::io::Read;
use std::process::ExitCode;

use tabwright_core::{Problem, Report, Setup, report};

fn main() -> ExitCode {
    let files: Vec<String> = std::env::args().skip(1).collect();
    if files.is_empty() {
        eprintln!("usage: report FILE.json…   (- reads standard input)");
        return ExitCode::from(2);
    }
    let mut code = ExitCode::SUCCESS;
    for file in &files {
        match report_on(file) {
            Ok(report) => println!("{}", to_json(&report, files.len() == 1)),
            Err(problems) => {
                problems.iter().for_each(|problem| eprintln!("{}", describe(file, problem)));
                code = ExitCode::from(2);
            }
        }
    }
    code
}

fn report_on(file: &str) -> Result<Report, Vec<Problem>> {
    let text = read(file).map_err(|error| {
        vec![Problem { field: String::new(), value: String::new(), message: format!("cannot be read: {error}.") }]
    })?;
    let (setup, _) = Setup::from_json(&text)?;
    report(&setup)
}

fn read(file: &str) -> std::io::Result<String> {
    if file != "-" {
        return std::fs::read_to_string(file);
    }
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    Ok(text)
}

fn describe(file: &str, problem: &Problem) -> String {
    let field = if problem.field.is_empty() { String::new() } else { format!("{}: ", problem.field) };
    let value = if problem.value.is_empty() { String::new() } else { format!(" (found {})", problem.value) };
    format!("{file}: {field}{}{value}", problem.message)
}

fn to_json(report: &Report, indented: bool) -> String {
    let written = if indented { serde_json::to_string_pretty(report) } else { serde_json::to_string(report) };
    // A report is plain data: maps with text keys and finite numbers.
    written.unwrap_or_else(|error| format!("{{\"error\": \"{error}\"}}"))
}
