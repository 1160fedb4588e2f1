//! Prints stack or tack check of setup files as JSON, or pictures of the check: `tack stack|check|draw FILE.json …`, `-` for
//! standard input.

mod files;

use std::process::ExitCode;

use files::{describe, read_setup};
use tabwright_core::build::{stack, tack_check};
use tabwright_core::drawing::{draw_stack, draw_tack};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let (what, files) = match arguments.as_slice() {
        [what, files @ ..] if !files.is_empty() && ["stack", "check", "draw"].contains(&what.as_str()) => (what, files),
        _ => {
            eprintln!("usage: tack stack|check|draw FILE.json …");
            return ExitCode::from(2);
        }
    };
    let mut code = ExitCode::SUCCESS;
    for file in files {
        let answer = read_setup(file).and_then(|setup| match what.as_str() {
            "stack" => Ok(serde_json::to_value(stack(&setup))),
            "draw" => tack_check(&setup).map(|check| {
                println!("{}", draw_stack(&stack(&setup)));
                let built = [Some(check.before), check.after].into_iter().flatten().filter_map(|state| state.as_built);
                built.for_each(|built| println!("{}", draw_tack(&setup, &built)));
                Ok(serde_json::Value::Null)
            }),
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
