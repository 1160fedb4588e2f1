//! Mutation testing of the core: all mutants in one build, switched by the environment. `tests/mutation/run --help` says how.

mod copy;
mod judge;
mod mutants;
mod rate;
mod rewrite;
mod tests;
mod work;

use std::path::PathBuf;

use copy::{Folders, Left};
use mutants::Mutant;
use tests::Survey;

fn main() {
    let mut arguments = std::env::args().skip(1);
    let mut next = || arguments.next().expect("tests/mutation/run gives all arguments");
    let step = next();
    let folders = Folders { project: PathBuf::from(next()), out: PathBuf::from(next()) };
    let mutants = mutants::read(&folders.out.join("mutants.json"));
    match step.as_str() {
        "survey" => survey(&folders, &mutants),
        "judge" => {
            let number = |text: String| text.parse().expect("a number");
            let (within, seed) = (number(next()), number(next()));
            judge(&folders, &mutants, within, seed as u64);
        }
        _ => rate::print(&judged(&folders, &mutants), &mutants, &Left::kept(&folders), &judge::verdicts(&folders)),
    }
}

/// Makes the copy, builds its tests and runs each alone.
fn survey(folders: &Folders, mutants: &[Mutant]) {
    copy::make(folders, mutants);
    let tests = Survey::of(folders, mutants).tests;
    for test in tests.iter().filter(|test| !test.passes) {
        eprintln!("fails without a mutant or takes too long, and is left out: {}", test.name);
    }
    println!("{} tests", tests.len());
}

/// The mutants that are in the copy.
fn judged(folders: &Folders, mutants: &[Mutant]) -> Vec<Mutant> {
    let left = Left::kept(folders);
    mutants.iter().filter(|mutant| !left.has(mutant)).cloned().collect()
}

/// Judges what is not known to be caught, by tests that take no longer than `within` seconds.
fn judge(folders: &Folders, mutants: &[Mutant], within: f64, seed: u64) {
    let mut tests = Survey::kept(folders).tests;
    tests.retain(|test| test.seconds <= within);
    judge::judge(folders, &judged(folders, mutants), &tests, seed);
}
