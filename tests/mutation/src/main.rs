//! Mutation testing of the core: all mutants in one build, switched by the environment. `tests/mutation/run --help` says how.

mod copy;
mod judge;
mod mutants;
mod rate;
mod rewrite;
mod tests;
mod work;

use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::PathBuf;

use copy::{Folders, Left};
use mutants::Mutant;
use tests::Survey;

/// Which mutants are looked at, and by which tests.
struct Choice {
    /// Tests that take longer than this, s, are left out.
    within: f64,
    /// Draws the order.
    seed: u64,
    /// So many, the first of the order.
    most: usize,
    /// Part of the name of the file they stand in.
    only: String,
}

impl Choice {
    /// The chosen of the mutants that are in the copy, in order.
    fn of(&self, folders: &Folders, mutants: &[Mutant]) -> Vec<Mutant> {
        let left = Left::kept(folders);
        let is_wanted = |mutant: &&Mutant| mutant.file.contains(&self.only) && !left.has(mutant);
        let mut chosen: Vec<Mutant> = mutants.iter().filter(is_wanted).cloned().collect();
        chosen.sort_by_cached_key(|mutant| {
            let mut hasher = DefaultHasher::new();
            (self.seed, &mutant.key).hash(&mut hasher);
            hasher.finish()
        });
        chosen.truncate(self.most);
        chosen
    }
}

fn main() {
    let mut arguments = std::env::args().skip(1);
    let mut next = || arguments.next().expect("tests/mutation/run gives all arguments");
    let step = next();
    let folders = Folders { project: PathBuf::from(next()), out: PathBuf::from(next()) };
    let mut number = || next().parse::<usize>().expect("a number");
    let (within, seed, most) = (number() as f64, number() as u64, number());
    let choice = Choice { within, seed, most, only: next() };
    let mutants = mutants::read(&folders.out.join("mutants.json"));
    match step.as_str() {
        "survey" => survey(&folders, &mutants),
        "judge" => judge(&folders, &mutants, &choice),
        _ => rate::print(&choice.of(&folders, &mutants), &mutants, &Left::kept(&folders), &judge::verdicts(&folders)),
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

/// Judges those of the choice that are not known to be caught.
fn judge(folders: &Folders, mutants: &[Mutant], choice: &Choice) {
    let mut tests = Survey::kept(folders).tests;
    tests.retain(|test| test.seconds <= choice.within);
    judge::judge(folders, &choice.of(folders, mutants), &tests);
}
