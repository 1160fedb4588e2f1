//! Which mutants the tests catch.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fs;
use std::fs::File;
use std::io::Write;
use std::path::PathBuf;
use std::process::Stdio;
use std::sync::Mutex;

use serde::{Deserialize, Serialize};

use crate::copy::Folders;
use crate::mutants::Mutant;
use crate::tests::{Outcome, Test, call, wait};

/// Short tests share a call of about this long, s: a call has its own cost, and does not end at the first failure.
const SHARED_CALL: f64 = 0.25;
/// What a call costs besides its tests, s.
const OWN_COST: f64 = 0.01;

/// What is known of a mutant.
#[derive(Clone, Serialize, Deserialize)]
pub struct Verdict {
    /// The mutant's.
    pub key: String,
    /// The test that failed, or what else told it.
    pub caught_by: Option<String>,
    /// The tests that passed with it on.
    pub passed: BTreeSet<String>,
}

/// The verdicts so far, the last of each mutant.
pub fn verdicts(folders: &Folders) -> BTreeMap<String, Verdict> {
    let text = fs::read_to_string(results(folders)).unwrap_or_default();
    let verdicts = text.lines().filter_map(|line| serde_json::from_str::<Verdict>(line).ok());
    verdicts.map(|verdict| (verdict.key.clone(), verdict)).collect()
}

fn results(folders: &Folders) -> PathBuf {
    folders.out.join("results.jsonl")
}

/// By file of mutants: how often each test has caught one.
type Catches = Mutex<HashMap<(String, usize), u32>>;

/// Judges the `mutants` that no test is known to catch by those `tests` that are not known to pass with them, in their
/// order, and keeps each verdict as soon as it is there.
pub fn judge(folders: &Folders, mutants: &[Mutant], tests: &[Test]) {
    let known = verdicts(folders);
    let order: Vec<(&Mutant, BTreeSet<String>)> = mutants
        .iter()
        .filter_map(|mutant| match known.get(&mutant.key) {
            Some(verdict) if verdict.caught_by.is_some() => None,
            Some(verdict) if reaching(mutant, tests).all(|(_, test)| verdict.passed.contains(&test.name)) => None,
            Some(verdict) => Some((mutant, verdict.passed.clone())),
            None => Some((mutant, BTreeSet::new())),
        })
        .collect();
    println!("{} mutants to judge", order.len());
    let file = File::options().create(true).append(true).open(results(folders)).expect("results can be written");
    let file = Mutex::new(file);
    let catches = Catches::new(caught_before(&known, tests));
    crate::work::in_parallel(&order, |(mutant, passed), worker| {
        let verdict = verdict(folders, mutant, passed, tests, &catches, worker);
        let line = serde_json::to_string(&verdict).expect("a verdict is plain data") + "\n";
        file.lock().expect("no worker panics").write_all(line.as_bytes()).expect("results can be written");
    });
}

fn caught_before(known: &BTreeMap<String, Verdict>, tests: &[Test]) -> HashMap<(String, usize), u32> {
    let mut catches = HashMap::new();
    for verdict in known.values() {
        let test = |name: &String| tests.iter().position(|test| name.ends_with(&test.name));
        if let (Some(test), Some((file, _))) = (verdict.caught_by.as_ref().and_then(test), verdict.key.split_once(": "))
        {
            *catches.entry((file.to_owned(), test)).or_default() += 1;
        }
    }
    catches
}

fn reaching<'a>(mutant: &Mutant, tests: &'a [Test]) -> impl Iterator<Item = (usize, &'a Test)> {
    let id = mutant.id;
    tests.iter().enumerate().filter(move |(_, test)| test.passes && test.reached.contains(&id))
}

fn verdict(
    folders: &Folders,
    mutant: &Mutant,
    passed: &BTreeSet<String>,
    tests: &[Test],
    catches: &Catches,
    worker: usize,
) -> Verdict {
    let mut passed = passed.clone();
    let mut waiting: Vec<(usize, &Test)> =
        reaching(mutant, tests).filter(|(_, test)| !passed.contains(&test.name)).collect();
    let credit = |index: usize| {
        let count = catches.lock().expect("no worker panics").get(&(mutant.file.clone(), index)).copied();
        f64::from(count.unwrap_or_default())
    };
    waiting.sort_by_cached_key(|(index, test)| ((test.seconds + OWN_COST) / (0.2 + credit(*index)) * 1e6) as u64);
    let mut caught_by = None;
    while caught_by.is_none() && !waiting.is_empty() {
        let shared = share(&mut waiting);
        caught_by = catcher(folders, mutant, &shared, worker);
        if let Some((index, _)) =
            caught_by.as_ref().and_then(|name| shared.iter().find(|(_, test)| name.ends_with(&test.name)))
        {
            *catches.lock().expect("no worker panics").entry((mutant.file.clone(), *index)).or_default() += 1;
        }
        if caught_by.is_none() {
            passed.extend(shared.iter().map(|(_, test)| test.name.clone()));
        }
    }
    if caught_by.is_some() {
        passed.clear();
    }
    Verdict { key: mutant.key.clone(), caught_by, passed }
}

/// Takes the first of the waiting tests, and what of the same program fits into the same call.
fn share<'a>(waiting: &mut Vec<(usize, &'a Test)>) -> Vec<(usize, &'a Test)> {
    let program = &waiting[0].1.program;
    let mut seconds = 0.0;
    let mut shared = Vec::new();
    waiting.retain(|&(index, test)| {
        let is_in = shared.is_empty() || (test.program == *program && seconds + test.seconds <= SHARED_CALL);
        if is_in {
            seconds += test.seconds;
            shared.push((index, test));
        }
        !is_in
    });
    shared
}

/// The test that fails with the mutant on, after the name of its program.
fn catcher(folders: &Folders, mutant: &Mutant, tests: &[(usize, &Test)], worker: usize) -> Option<String> {
    let first = tests[0].1;
    let names: Vec<&str> = tests.iter().map(|(_, test)| test.name.as_str()).collect();
    let output = folders.out.join(format!("output.{}.{worker}", std::process::id()));
    let mut call = call(&first.program, &first.folder, &names);
    call.env("MUTANT", mutant.id.to_string());
    call.stdout(File::create(&output).map_or_else(|_| Stdio::null(), Stdio::from));
    let seconds: f64 = tests.iter().map(|(_, test)| test.seconds).sum();
    let outcome = wait(call.spawn().expect("a test program runs"), 10.0 * seconds + 2.0);
    let program = first.program.file_name().unwrap_or_default().to_string_lossy().into_owned();
    let program = program.rsplit_once('-').map_or(program.as_str(), |(name, _)| name).to_owned();
    match outcome {
        Outcome::Passed => None,
        Outcome::Hung => Some(format!("{program}: too long, {}", names[0])),
        Outcome::Failed => {
            let output = fs::read(&output).unwrap_or_default();
            let output = String::from_utf8_lossy(&output);
            let failed = output.rsplit_once("\nfailures:\n").and_then(|(_, names)| names.split_whitespace().next());
            Some(format!("{program}: {}", failed.unwrap_or("no longer runs")))
        }
    }
}
