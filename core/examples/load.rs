//! Prints what the brake does to the setups of files, as JSON: `load FILE.json…`, `-` for standard input.

mod files;

use std::process::ExitCode;

use files::{describe, read_setup};
use tabwright_core::load::loads;

fn main() -> ExitCode {
    let mut code = ExitCode::SUCCESS;
    for file in std::env::args().skip(1) {
        match read_setup(&file).and_then(|setup| loads(&setup)) {
            // Plain data with text keys and finite numbers can be written.
            Ok(loads) => println!("{}", serde_json::to_string_pretty(&loads).unwrap_or_default()),
            Err(problems) => {
                problems.iter().for_each(|problem| eprintln!("{}", describe(&file, problem)));
                code = ExitCode::from(2);
            }
        }
    }
    code
}
