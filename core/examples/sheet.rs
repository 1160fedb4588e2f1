//! Prints what is cut for a setup file: `sheet FILE.json KIND [OPTION=VALUE…]`, `-` for standard input.
//!
//! KIND is `sheet` for the cut sheet as JSON, `template` for the template's pages as JSON, or a kind of file: `dxf_r12`,
//! `dxf_r2000`, `svg`, `template_svg`. Options are those of the page: `kerf=0.2`, `paper=letter`, `other_side=false`,
//! `metal=4130`, `date=…`, `link=…`. Exit code 2 where a file or an option cannot be read or a piece cannot be made.

mod files;

use std::process::ExitCode;

use files::{describe, read_setup};
use tabwright_core::cut::{CutOptions, cut_file, cut_sheet, cut_template};
use tabwright_core::{Given, Problem};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [file, kind, options @ ..] = arguments.as_slice() else {
        eprintln!("usage: sheet FILE.json sheet|template|dxf_r12|dxf_r2000|svg|template_svg [OPTION=VALUE…]");
        return ExitCode::from(2);
    };
    match answer(file, kind, options) {
        Ok(text) => {
            println!("{text}");
            ExitCode::SUCCESS
        }
        Err(problems) => {
            problems.iter().for_each(|problem| eprintln!("{}", describe(file, problem)));
            ExitCode::from(2)
        }
    }
}

fn answer(file: &str, kind: &str, options: &[String]) -> Result<String, Vec<Problem>> {
    let options = CutOptions::read(&Given::Object(options.iter().map(|option| member(option)).collect()))?;
    let setup = read_setup(file)?;
    match kind {
        "sheet" => cut_sheet(&setup, &options).map(to_json),
        "template" => cut_template(&setup, &options).map(to_json),
        kind => cut_file(&setup, kind, &options).map(|file| file.text),
    }
}

/// An option with its value: a number or a flag where it reads as one.
fn member(option: &str) -> (String, Given) {
    let (name, value) = option.split_once('=').unwrap_or((option, ""));
    let value = match (value, value.parse::<f64>()) {
        ("true" | "false", _) => Given::Flag(value == "true"),
        (_, Ok(number)) if name == "kerf" => number.into(),
        _ => value.into(),
    };
    (name.to_owned(), value)
}

fn to_json(answer: impl serde::Serialize) -> String {
    // Answers are plain data: records of fixed names and finite numbers.
    serde_json::to_string_pretty(&answer).unwrap_or_default()
}
