//! Prints stack and tack check of setup files as JSON: `tack stack|check FILE.json …`, `-` for standard input.

mod files;

use std::process::ExitCode;

use files::{describe, read_setup};
use tabwright_core::build::{stack, tack_check};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (what, files) = match arguments.as_slice() {
        [what, files @ ..] if !files.is_empty() && ["stack", "check"].contains(&what.as_str()) => (what, files),
        _ => {
            eprintln!("usage: tack stack|check FILE.json …");
            return ExitCode::from(2);
        }
    };
    let mut code = ExitCode::SUCCESS;
    for file in files {
        let answer = read_setup(file).and_then(|setup| match what.as_str() {
            "stack" => Ok(serde_json::to_value(stack(&setup))),
            _ => tack_check(&setup).map(serde_json::to_value),
        });
        match answer {
            // Answers are plain data: maps with text keys and finite numbers.
            Ok(answer) => println!("{:#}", answer.unwrap_or_default()),
            Err(problems) => {
                problems.iter().for_each(|problem| eprintln!("{}", describe(file, problem)));
                code = ExitCode::from(2);
            }
        }
    }
    code
}
