//! Prints the answer of one search on a setup file as JSON: `search FILE.json WHAT`, `-` for standard input.
//!
//! WHAT is `ring`, `shortest`, `what-if`, `two-rotors`, `fixes` or `positions`. `--rotors 160,180` and `--hubs 100,115`
//! give the sizes to try instead of the usual ones, `--fork-follows` lets the fork follow the hub, `--any-line` and
//! `--wheel-stays` drop the rule that the line runs up the leg and that the wheel drops out. Exit code 2 where a file or
//! an option cannot be read.

mod files;

use std::process::ExitCode;

use files::{describe, read_setup};
use serde_json::Value;
use tabwright_core::search::{Fork, Rules, fixes, positions, ring, shortest_dropout, two_rotors, what_if};
use tabwright_core::{Kind, Problem, Setup};

struct Options {
    rotors: Vec<f64>,
    hubs: Vec<f64>,
    fork: Fork,
    rules: Rules,
}

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [file, what, options @ ..] = arguments.as_slice() else {
        eprintln!("usage: search FILE.json ring|shortest|what-if|two-rotors|fixes|positions [OPTION…]");
        return ExitCode::from(2);
    };
    let answer =
        read_options(options).and_then(|options| read_setup(file).and_then(|setup| answer(&setup, what, &options)));
    match answer {
        Ok(answer) => {
            println!("{answer:#}");
            ExitCode::SUCCESS
        }
        Err(problems) => {
            problems.iter().for_each(|problem| eprintln!("{}", describe(file, problem)));
            ExitCode::from(2)
        }
    }
}

fn answer(setup: &Setup, what: &str, options: &Options) -> Result<Value, Vec<Problem>> {
    let Options { rotors, hubs, fork, rules } = options;
    match what {
        "ring" => ring(setup).map(to_json),
        "shortest" => shortest_dropout(setup, *rules).map(to_json),
        "what-if" => {
            let cells =
                rotors.iter().flat_map(|rotor| hubs.iter().map(|hub| what_if(setup, *rotor, *hub, *fork, *rules)));
            cells.collect::<Result<Vec<_>, _>>().map(to_json)
        }
        "two-rotors" => {
            let pairs = rotors
                .iter()
                .enumerate()
                .flat_map(|(index, one)| rotors[index + 1..].iter().map(|other| [*one, *other]));
            pairs.map(|pair| two_rotors(setup, pair, *rules)).collect::<Result<Vec<_>, _>>().map(to_json)
        }
        "fixes" => fixes(setup).map(to_json),
        "positions" => positions(setup).map(to_json),
        other => Err(refused(other, "is no search. Ask for ring, shortest, what-if, two-rotors, fixes or positions.")),
    }
}

fn read_options(arguments: &[String]) -> Result<Options, Vec<Problem>> {
    let mut options = Options {
        rotors: usual("wheel.rotor_diameter"),
        hubs: usual("wheel.hub_width"),
        fork: Fork::Kept,
        rules: Rules::ALL,
    };
    let mut arguments = arguments.iter();
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--rotors" => options.rotors = sizes(arguments.next())?,
            "--hubs" => options.hubs = sizes(arguments.next())?,
            "--fork-follows" => options.fork = Fork::FollowsHub,
            "--any-line" => options.rules.line_up = false,
            "--wheel-stays" => options.rules.wheel_out = false,
            other => return Err(refused(other, "is no option of search.")),
        }
    }
    Ok(options)
}

fn sizes(text: Option<&String>) -> Result<Vec<f64>, Vec<Problem>> {
    let text = text.map_or("", String::as_str);
    let numbers: Result<Vec<f64>, _> = text.split(',').map(|number| number.trim().parse()).collect();
    numbers.map_err(|_| refused(text, "is no list of sizes. Write numbers with commas between, such as 160,180,203."))
}

fn usual(path: &str) -> Vec<f64> {
    match Setup::field(path).map(|field| field.kind) {
        Some(Kind::Number { stops, .. }) => stops.to_vec(),
        _ => Vec::new(),
    }
}

fn refused(what: &str, why: &str) -> Vec<Problem> {
    vec![Problem { field: String::new(), value: String::new(), message: format!("\"{what}\" {why}") }]
}

fn to_json(answer: impl serde::Serialize) -> Value {
    // Answers are plain data: maps with text keys and finite numbers.
    serde_json::to_value(answer).unwrap_or(Value::Null)
}
