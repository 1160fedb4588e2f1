//! Prints drawn setups with the reports on them, one JSON object a line: `drawn COUNT SEED`.

use std::io::Write;
use std::process::ExitCode;

use tabwright_core::report;
use tabwright_tests::draw::{Seeded, setup};

fn main() -> ExitCode {
    let numbers: Vec<u32> = std::env::args().skip(1).filter_map(|text| text.parse().ok()).collect();
    let [count, seed] = numbers.as_slice() else {
        eprintln!("usage: drawn COUNT SEED   (whole numbers)");
        return ExitCode::from(2);
    };
    let mut source = Seeded(*seed);
    let mut out = std::io::BufWriter::new(std::io::stdout().lock());
    for index in 0..*count {
        // Any setup at all, and such as are nearer to a builder's.
        let share = [1.0, 0.5, 0.2][index as usize % 3];
        let Some(setup) = setup(&mut source, share) else { continue };
        let line = report(&setup).map(|report| serde_json::json!({"setup": setup, "report": report}));
        match line {
            Ok(line) if writeln!(out, "{line}").is_ok() => {}
            Ok(_) => return ExitCode::FAILURE,
            Err(problems) => {
                eprintln!("{index}: {problems:?}");
                return ExitCode::FAILURE;
            }
        }
    }
    ExitCode::SUCCESS
}
