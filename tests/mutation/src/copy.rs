//! The copy of the project that has all mutants in it.

use std::collections::{BTreeMap, BTreeSet, HashMap};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

use crate::mutants::Mutant;
use crate::rewrite::rewrite;

const SWITCH: &str = include_str!("switch.rs");

/// The folders of a run.
pub struct Folders {
    /// The project.
    pub project: PathBuf,
    /// Everything that a run writes.
    pub out: PathBuf,
}

impl Folders {
    /// The project with its mutants.
    pub fn copy(&self) -> PathBuf {
        self.out.join("copy")
    }

    /// A command of cargo's in the copy.
    pub fn cargo(&self) -> Command {
        let mut cargo = Command::new("cargo");
        // Whatever the project forbids or warns of, the copy may do.
        cargo.current_dir(self.copy()).env("CARGO_TARGET_DIR", self.out.join("build"));
        cargo.env("RUSTFLAGS", "--cap-lints allow");
        cargo
    }
}

/// What became of the mutants that are not in the copy.
#[derive(Default, serde::Serialize, serde::Deserialize)]
pub struct Left {
    /// The mutant alone does not compile: by their keys.
    pub unviable: BTreeSet<String>,
    /// What stands round it does not compile with a switch in it.
    pub unswitched: BTreeSet<String>,
    /// In constants, patterns and conditions that bind names.
    pub unfit: BTreeSet<String>,
}

impl Left {
    /// As the last run left it.
    pub fn kept(folders: &Folders) -> Self {
        let text = fs::read_to_string(folders.out.join("left.json")).ok();
        text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default()
    }

    /// Whether a mutant is not in the copy.
    pub fn has(&self, mutant: &Mutant) -> bool {
        [&self.unviable, &self.unswitched, &self.unfit].iter().any(|keys| keys.contains(&mutant.key))
    }
}

fn write_if_new(file: &Path, text: &[u8]) {
    if fs::read(file).is_ok_and(|old| old == text) {
        return;
    }
    fs::create_dir_all(file.parent().expect("a file is in a folder")).expect("a folder can be made");
    fs::write(file, text).expect("a file can be written");
}

/// Copies the project, and puts its mutants in, less and less of them until it compiles.
pub fn make(folders: &Folders, mutants: &[Mutant]) -> Left {
    let mut left = Left::kept(folders);
    let mut sources: BTreeMap<&str, Vec<&Mutant>> = BTreeMap::new();
    mutants.iter().for_each(|mutant| sources.entry(&mutant.file).or_default().push(mutant));
    copy_others(folders, &sources);
    loop {
        left.unfit.clear();
        for (file, mutants) in &sources {
            let source = fs::read_to_string(folders.project.join(file)).expect("a source file can be read");
            let rewritten = rewrite(&source, mutants.iter().filter(|mutant| !left.has(mutant)).copied());
            for mutant in mutants {
                if rewritten.unviable.contains(&mutant.id) {
                    left.unviable.insert(mutant.key.clone());
                } else if !rewritten.fitted.contains(&mutant.id) && !left.has(mutant) {
                    left.unfit.insert(mutant.key.clone());
                }
            }
            let text =
                rewritten.text + if *file == "core/src/lib.rs" { "\n#[doc(hidden)]\npub mod mutant;\n" } else { "" };
            write_if_new(&folders.copy().join(file), text.as_bytes());
        }
        let (unviable, unswitched) = (left.unviable.len(), left.unswitched.len());
        let errors = drop_faulty(folders, mutants, &mut left);
        fs::write(folders.out.join("left.json"), serde_json::to_string_pretty(&left).expect("keys are text"))
            .expect("a file can be written");
        eprintln!("{errors} errors, {} unviable, {} unswitched", left.unviable.len(), left.unswitched.len());
        if errors == 0 {
            return left;
        }
        assert!(
            unviable < left.unviable.len() || unswitched < left.unswitched.len(),
            "the copy does not compile: see cargo check in {}",
            folders.copy().display()
        );
    }
}

fn copy_others(folders: &Folders, sources: &BTreeMap<&str, Vec<&Mutant>>) {
    let listed = Command::new("git")
        .args(["ls-files", "-co", "--exclude-standard", "-z"])
        .current_dir(&folders.project)
        .output()
        .expect("git is there");
    let listed = String::from_utf8(listed.stdout).expect("names are UTF-8");
    for name in listed.split('\0').filter(|name| !name.is_empty() && !sources.contains_key(name)) {
        // A file may be listed and deleted.
        if let Ok(bytes) = fs::read(folders.project.join(name)) {
            let lib = if name == "core/src/lib.rs" { "\n#[doc(hidden)]\npub mod mutant;\n" } else { "" };
            write_if_new(&folders.copy().join(name), &[&bytes, lib.as_bytes()].concat());
        }
    }
    write_if_new(&folders.copy().join("core/src/mutant.rs"), SWITCH.as_bytes());
}

/// What a place in a rewritten file belongs to.
enum Owner {
    /// To what this mutant adds.
    Added(u32),
    /// To the switches of the expression of which this is the first mutant.
    Switched(u32),
}

/// The innermost owner of a range of bytes.
fn owner(text: &str, start: usize, end: usize) -> Option<Owner> {
    let mut open: Vec<(usize, &str)> = Vec::new();
    let mut found: Option<(usize, &str)> = None;
    let mut at = 0;
    while let Some(offset) = text[at..].find("/*") {
        let mark = at + offset;
        at = mark + 2;
        let Some(length) = text[at..].find("*/") else {
            break;
        };
        let name = &text[at..at + length];
        match name.as_bytes().first() {
            Some(b'<' | b'=') => open.push((mark, name)),
            Some(b'>') if name.len() == 1 => {
                if let Some((from, name)) = open.pop()
                    && from <= start
                    && end <= at + length + 2
                    && found.is_none_or(|(best, _)| best < from)
                {
                    found = Some((from, name));
                }
            }
            _ => {}
        }
    }
    let (_, name) = found?;
    let id = name[1..].parse().ok()?;
    Some(if name.starts_with('=') { Owner::Added(id) } else { Owner::Switched(id) })
}

/// The mutants of an expression, from the text of its switches.
fn switched(text: &str, first: u32) -> Vec<u32> {
    let start = text.find(&format!("/*<{first}*/")).expect("the mark was found before");
    let mut depth = 0;
    let mut ids = vec![first];
    for mark in text[start..].split("/*").skip(1) {
        let Some((name, _)) = mark.split_once("*/") else {
            continue;
        };
        match name.as_bytes().first() {
            Some(b'<' | b'=') => depth += 1,
            Some(b'>') => depth -= 1,
            _ => continue,
        }
        if depth == 0 {
            break;
        }
        if depth == 2
            && let Some(id) = name.strip_prefix('=').and_then(|id| id.parse().ok())
        {
            ids.push(id);
        }
    }
    ids
}

/// Checks the copy, and takes out what the compiler's errors belong to. How many errors there were.
fn drop_faulty(folders: &Folders, mutants: &[Mutant], left: &mut Left) -> usize {
    let arguments = ["check", "--profile", "checks", "-p", "tabwright-core", "--lib", "--message-format=json"];
    let checked = folders.cargo().args(arguments).output().expect("cargo is there");
    let keys: HashMap<u32, &str> = mutants.iter().map(|mutant| (mutant.id, mutant.key.as_str())).collect();
    let mut errors = 0;
    let mut lost = 0;
    for line in String::from_utf8_lossy(&checked.stdout).lines() {
        let Ok(message) = serde_json::from_str::<Value>(line) else {
            continue;
        };
        let message = &message["message"];
        let spans = message["spans"].as_array().map(Vec::as_slice).unwrap_or_default();
        if message["level"] != "error" || spans.is_empty() {
            continue;
        }
        errors += 1;
        let owners: Vec<(Owner, String)> = sorted(spans)
            .filter_map(|span| {
                let text = fs::read_to_string(folders.copy().join(span["file_name"].as_str()?)).ok()?;
                let place = |name: &str| span[name].as_u64().map(|place| place as usize);
                Some((owner(&text, place("byte_start")?, place("byte_end")?)?, text))
            })
            .collect();
        let added = owners.iter().find_map(|(owner, _)| match owner {
            Owner::Added(id) => Some(*id),
            Owner::Switched(_) => None,
        });
        if let Some(id) = added {
            left.unviable.insert(keys[&id].to_owned());
        } else if let Some((Owner::Switched(first), text)) = owners.first() {
            left.unswitched.extend(switched(text, *first).iter().map(|id| keys[id].to_owned()));
        } else {
            lost += 1;
            eprintln!("{}", message["rendered"].as_str().unwrap_or_default());
        }
    }
    if lost > 0 {
        eprintln!("{lost} errors belong to no mutant");
    }
    errors
}

/// The primary ones first.
fn sorted(spans: &[Value]) -> impl Iterator<Item = &Value> {
    let is_primary = |span: &&Value| span["is_primary"] == true;
    spans.iter().filter(is_primary).chain(spans.iter().filter(move |span| !is_primary(span)))
}
