//! The tests, one by one: how long each takes, and which mutants it comes by.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use serde::{Deserialize, Serialize};
use serde_json::Value;

use crate::copy::Folders;
use crate::mutants::Mutant;

/// Tests longer than this, s, are left out.
const MOST_SECONDS: f64 = 60.0;

/// One test of the copy.
#[derive(Clone, Serialize, Deserialize)]
pub struct Test {
    /// The program that has it.
    pub program: PathBuf,
    /// Where cargo would run it.
    pub folder: PathBuf,
    /// Its name in the program.
    pub name: String,
    /// What it takes alone.
    pub seconds: f64,
    /// Whether it passes in time with no mutant on.
    pub passes: bool,
    /// The mutants that it comes by.
    pub reached: BTreeSet<u32>,
}

/// What came of a call of tests.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// All passed.
    Passed,
    /// At least one failed.
    Failed,
    /// They took too long.
    Hung,
}

/// Builds the copy's test programs: each with the folder to run it in.
pub fn build(folders: &Folders) -> Vec<(PathBuf, PathBuf)> {
    let arguments = ["test", "--no-run", "--profile", "checks", "--lib", "--tests", "--message-format=json"];
    let packages = ["-p", "tabwright-core", "-p", "tabwright-tests"];
    let built =
        folders.cargo().args(arguments).args(packages).stderr(Stdio::inherit()).output().expect("cargo is there");
    assert!(built.status.success(), "the copy's tests do not build");
    let messages = String::from_utf8_lossy(&built.stdout).into_owned();
    let messages = messages.lines().filter_map(|line| serde_json::from_str::<Value>(line).ok());
    let program = |message: Value| {
        let manifest = Path::new(message["manifest_path"].as_str()?).parent()?.to_owned();
        Some((PathBuf::from(message["executable"].as_str()?), manifest))
    };
    messages.filter_map(program).collect()
}

/// A call of some tests of one program, with nothing random in it.
pub fn call(program: &Path, folder: &Path, names: &[&str]) -> Command {
    let mut call = Command::new(program);
    call.args(["--exact", "--test-threads=1"]).args(names).current_dir(folder);
    call.env("RUST_BACKTRACE", "0").env("TABWRIGHT_SWEEP", "60");
    call.env("PROPTEST_RNG_SEED", "1")
        .env("PROPTEST_DISABLE_FAILURE_PERSISTENCE", "1")
        .env("PROPTEST_MAX_SHRINK_ITERS", "0");
    call.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    call
}

/// Waits for a call to end, and ends it after `most` seconds.
pub fn wait(mut child: Child, most: f64) -> Outcome {
    let start = Instant::now();
    let mut pause = Duration::from_micros(500);
    loop {
        match child.try_wait().expect("a child can be waited for") {
            Some(status) if status.success() => return Outcome::Passed,
            Some(_) => return Outcome::Failed,
            None if start.elapsed().as_secs_f64() > most => {
                let _ = child.kill();
                let _ = child.wait();
                return Outcome::Hung;
            }
            None => std::thread::sleep(pause),
        }
        pause = (pause * 3 / 2).min(Duration::from_millis(20));
    }
}

/// Every test with the mutants that it comes by, and a list of mutants to know whether those are still the same.
#[derive(Default, Serialize, Deserialize)]
pub struct Survey {
    mutants: Vec<String>,
    /// All tests of all programs.
    pub tests: Vec<Test>,
}

fn kept(folders: &Folders) -> PathBuf {
    folders.out.join("tests.json")
}

impl Survey {
    /// The last one; an empty one where there was none.
    pub fn kept(folders: &Folders) -> Self {
        let text = fs::read_to_string(kept(folders)).ok();
        text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default()
    }

    /// Runs every test alone that the last survey of the same mutants did not know.
    pub fn of(folders: &Folders, mutants: &[Mutant]) -> Self {
        let keys: Vec<String> = mutants.iter().map(|mutant| mutant.key.clone()).collect();
        let last = Some(Self::kept(folders)).filter(|last| last.mutants == keys).unwrap_or_default();
        let mut known = Vec::new();
        let mut new = Vec::new();
        for (program, folder) in build(folders) {
            let listed =
                Command::new(&program).args(["--list", "--format", "terse"]).output().expect("a test program runs");
            let listed = String::from_utf8_lossy(&listed.stdout).into_owned();
            for name in listed.lines().filter_map(|line| line.strip_suffix(": test")) {
                match last.tests.iter().find(|test| test.name == name && test.program == program) {
                    Some(test) => known.push(test.clone()),
                    None => new.push((program.clone(), folder.clone(), name.to_owned())),
                }
            }
        }
        println!("{} tests to run alone", new.len());
        known.extend(crate::work::in_parallel(&new, |(program, folder, name), worker| {
            alone(folders, program, folder, name, worker)
        }));
        let survey = Self { mutants: keys, tests: known };
        fs::write(kept(folders), serde_json::to_string(&survey).expect("tests are plain data"))
            .expect("a file can be written");
        survey
    }
}

fn alone(folders: &Folders, program: &Path, folder: &Path, name: &str, worker: usize) -> Test {
    let file = folders.out.join(format!("reached.{worker}"));
    let _ = fs::remove_file(&file);
    let start = Instant::now();
    let child = call(program, folder, &[name]).env("MUTANTS_REACHED", &file).spawn().expect("a test program runs");
    let outcome = wait(child, MOST_SECONDS);
    let seconds = start.elapsed().as_secs_f64();
    let reached = fs::read_to_string(&file).unwrap_or_default();
    Test {
        program: program.to_owned(),
        folder: folder.to_owned(),
        name: name.to_owned(),
        seconds,
        passes: outcome == Outcome::Passed,
        reached: reached.lines().filter_map(|line| line.parse().ok()).collect(),
    }
}
