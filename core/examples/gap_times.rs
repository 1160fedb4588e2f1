//! Times the gaps of a setup file, pair by pair as a report has them: `gap_times FILE.json [ROUNDS]` prints microseconds
//! for one round, the median of a hundred batches.

mod files;

use std::process::ExitCode;
use std::time::Instant;

use files::{describe, read_setup};
use tabwright_core::fit::{Parts, clearances};

const BATCHES: usize = 100;

fn main() -> ExitCode {
    let mut arguments = std::env::args().skip(1);
    let file = arguments.next().unwrap_or_default();
    let rounds: u32 = arguments.next().and_then(|rounds| rounds.parse().ok()).unwrap_or(20);
    let setup = match read_setup(&file) {
        Ok(setup) => setup,
        Err(problems) => {
            problems.iter().for_each(|problem| eprintln!("{}", describe(&file, problem)));
            return ExitCode::from(2);
        }
    };
    let parts = Parts::of(&setup);
    let mut times: Vec<f64> = (0..BATCHES)
        .map(|_| {
            let start = Instant::now();
            for _ in 0..rounds {
                let _ = std::hint::black_box(clearances(&setup, &parts));
            }
            start.elapsed().as_secs_f64() * 1e6 / f64::from(rounds)
        })
        .collect();
    times.sort_by(f64::total_cmp);
    println!("{:.2}", times[BATCHES / 2]);
    ExitCode::SUCCESS
}
