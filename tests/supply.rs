//! What the project is built from: licences, versions, checksums, nothing twice, and a reason for each.

#![allow(clippy::panic, reason = "a test that cannot go on should stop")]

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

use serde_json::Value;
use tabwright_tests::fixture;

/// Licences that let anyone use the page and pass it on, by their SPDX names.
const ALLOWED: [&str; 10] = [
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-3-Clause",
    "ISC",
    "MIT",
    "NCSA",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
    // One file at a time; in tests alone.
    "MPL-2.0",
];
/// Crates of which two versions are built, and why.
const TWICE: [(&str, &str); 2] = [
    ("hashbrown", "parry3d-f64 and its own dependency want different ones; one of them is in the page"),
    ("syn", "reads code while building; nothing of it is in the page"),
];
const MANIFESTS: [&str; 5] =
    ["core/Cargo.toml", "wasm/Cargo.toml", "tests/Cargo.toml", "tests/fuzz/Cargo.toml", "tests/mutation/Cargo.toml"];
const NPM: [&str; 2] = ["www", "tests/browser"];

fn root(path: &str) -> String {
    let path = fixture("..").join(path);
    std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

fn json(path: &str) -> Value {
    serde_json::from_str(&root(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// Whether an SPDX expression leaves a way that is allowed. `/` is how it was written before.
fn is_allowed(license: &str) -> bool {
    let license = license.replace(['(', ')'], "").replace('/', " OR ");
    // In AND with OR inside brackets, each alternative is allowed or not by itself: both sides are looked at.
    license.split(" AND ").all(|part| part.split(" OR ").any(|one| ALLOWED.contains(&one.trim())))
}

fn packages() -> Vec<Value> {
    let metadata = Command::new(env!("CARGO"))
        .args(["metadata", "--locked", "--format-version", "1", "--manifest-path"])
        .arg(fixture("../Cargo.toml"))
        .output()
        .unwrap_or_else(|error| panic!("cargo metadata: {error}"));
    let metadata: Value = serde_json::from_slice(&metadata.stdout).unwrap_or_default();
    metadata["packages"].as_array().cloned().unwrap_or_default()
}

#[test]
fn every_crate_comes_from_the_registry_under_a_licence_that_is_allowed() {
    let packages = packages();
    assert!(packages.len() > 50, "{} crates", packages.len());
    for package in &packages {
        let name = package["name"].as_str().unwrap_or_default();
        let license = package["license"].as_str().unwrap_or_default();
        assert!(is_allowed(license), "{name}: \"{license}\"");
        let source = package["source"].as_str();
        assert!(name.starts_with("tabwright-") == source.is_none(), "{name} comes from {source:?}");
        assert!(source.is_none_or(|source| source.starts_with("registry+")), "{name} comes from {source:?}");
    }
}

#[test]
fn no_crate_is_built_in_two_versions_without_a_reason() {
    let mut versions: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for package in packages() {
        let text = |key: &str| package[key].as_str().unwrap_or_default().to_owned();
        versions.entry(text("name")).or_default().insert(text("version"));
    }
    let twice: Vec<&str> =
        versions.iter().filter(|(_, versions)| versions.len() > 1).map(|(name, _)| name.as_str()).collect();
    assert_eq!(twice, TWICE.map(|(name, _)| name), "{versions:#?}");
}

#[test]
fn lock_files_have_a_checksum_for_everything_from_outside() {
    for lock in ["Cargo.lock", "tests/fuzz/Cargo.lock", "tests/mutation/Cargo.lock"] {
        for package in root(lock).split("[[package]]").skip(1) {
            assert_eq!(package.contains("source = "), package.contains("checksum = "), "{lock}: {package}");
        }
    }
    for folder in NPM {
        let lock = json(&format!("{folder}/package-lock.json"));
        let packages = lock["packages"].as_object().cloned().unwrap_or_default();
        assert!(packages.len() > 1, "{folder}");
        for (name, package) in packages.iter().filter(|(name, _)| !name.is_empty()) {
            assert!(package["integrity"].as_str().is_some_and(|sum| sum.starts_with("sha512-")), "{folder}: {name}");
            assert!(
                is_allowed(package["license"].as_str().unwrap_or_default()),
                "{folder}: {name}, {}",
                package["license"]
            );
        }
    }
}

/// Names of what a manifest asks for, by the sections whose names end in `dependencies`.
fn asked_for(manifest: &str) -> BTreeSet<String> {
    let mut names = BTreeSet::new();
    let mut inside = false;
    for line in root(manifest).lines() {
        if let Some(section) = line.strip_prefix('[') {
            inside = section.trim_end_matches(']').ends_with("dependencies");
        } else if inside && let Some((name, _)) = line.split_once(['=', '.']) {
            names.insert(name.trim().to_owned());
        }
    }
    names
        .into_iter()
        .filter(|name| !name.starts_with(['#', ' ']) && !name.starts_with("tabwright-") && !name.is_empty())
        .collect()
}

#[test]
fn npm_and_python_are_asked_for_one_version_alone() {
    for folder in NPM {
        for (name, version) in npm_of(folder) {
            assert!(version.chars().all(|char| char.is_ascii_digit() || char == '.'), "{folder}: {name} {version}");
        }
    }
    for line in
        root("tests/reference/requirements.txt").lines().filter(|line| !line.is_empty() && !line.starts_with('#'))
    {
        assert!(line.contains("=="), "{line}");
    }
}

fn npm_of(folder: &str) -> Vec<(String, String)> {
    let manifest = json(&format!("{folder}/package.json"));
    let sections = ["dependencies", "devDependencies"].into_iter().filter_map(|key| manifest[key].as_object());
    let each =
        sections.flatten().map(|(name, version)| (name.clone(), version.as_str().unwrap_or_default().to_owned()));
    each.collect()
}

#[test]
fn the_guide_gives_a_reason_for_each_dependency_and_for_no_other() {
    let guide = root("DEVELOPERS.md");
    let table = guide.split("## Dependencies").nth(1).and_then(|rest| rest.split("\n## ").next()).unwrap_or_default();
    let rows = table.lines().filter(|line| line.starts_with("| ") && !line.starts_with("| dependency"));
    let named: BTreeSet<String> = rows
        .filter_map(|row| row.split('|').nth(1))
        .flat_map(|cell| {
            cell.split(" (")
                .next()
                .unwrap_or_default()
                .split(", ")
                .map(|name| name.trim().to_owned())
                .collect::<Vec<_>>()
        })
        .collect();
    let python = root("tests/reference/requirements.txt");
    let python = python.lines().filter_map(|line| line.split_once("==")).map(|(name, _)| name.to_owned());
    let asked: BTreeSet<String> = MANIFESTS
        .into_iter()
        .flat_map(asked_for)
        .chain(NPM.into_iter().flat_map(npm_of).map(|(name, _)| name))
        .chain(python)
        .collect();
    assert_eq!(named, asked);
}

#[test]
fn licences_are_told_apart() {
    for good in ["MIT", "Apache-2.0/MIT", "(MIT OR Apache-2.0) AND Unicode-3.0", "GPL-3.0 OR MIT"] {
        assert!(is_allowed(good), "{good}");
    }
    for bad in ["", "GPL-3.0-only", "MIT AND GPL-3.0-only", "Proprietary"] {
        assert!(!is_allowed(bad), "{bad}");
    }
}
