//! How many mutants are caught.

use std::collections::{BTreeMap, HashMap};

use crate::copy::Left;
use crate::judge::Verdict;
use crate::mutants::Mutant;

#[derive(Default)]
struct Count {
    caught: usize,
    judged: usize,
}

impl Count {
    fn line(&self, what: &str) -> String {
        let share = 100.0 * self.caught as f64 / self.judged.max(1) as f64;
        format!(
            "{share:6.1} %  {:5} of {:5}, {:4} survive  {what}",
            self.caught,
            self.judged,
            self.judged - self.caught
        )
    }
}

/// Prints the survivors and the rates by file, by module and of all.
pub fn print(fitted: &[Mutant], listed: &[Mutant], left: &Left, verdicts: &BTreeMap<String, Verdict>) {
    let places: HashMap<&str, usize> = fitted.iter().map(|mutant| (mutant.key.as_str(), mutant.at.line)).collect();
    let mut by_file: BTreeMap<&str, Count> = BTreeMap::new();
    let mut by_module: BTreeMap<String, Count> = BTreeMap::new();
    let mut all = Count::default();
    for mutant in fitted {
        let Some(verdict) = verdicts.get(&mutant.key) else {
            continue;
        };
        let is_caught = verdict.caught_by.is_some();
        if !is_caught {
            let change = mutant.key.split_once(": ").map_or("", |(_, change)| change);
            println!("{}:{} {change} ({} tests)", mutant.file, places[mutant.key.as_str()], verdict.passed.len());
        }
        let module = mutant.file.split('/').take(3).collect::<Vec<_>>().join("/");
        for count in [by_file.entry(&mutant.file).or_default(), by_module.entry(module).or_default(), &mut all] {
            count.judged += 1;
            count.caught += usize::from(is_caught);
        }
    }
    println!();
    by_file.iter().for_each(|(file, count)| println!("{}", count.line(file)));
    println!();
    by_module.iter().for_each(|(module, count)| println!("{}", count.line(module)));
    println!("{}", all.line("all"));
    println!(
        "{} listed: {} unviable, {} without a switch, {} in the copy",
        listed.len(),
        left.unviable.len(),
        left.unswitched.len() + left.unfit.len(),
        fitted.len()
    );
}
