//! How long each question to the core takes at most, over setups from the whole hard ranges:
//! `slowest COUNT [SEED [QUESTION]]`, in ms of the processor's time, with the number of the draw that took longest.
//! `QUESTION` is part of a name; without it all are asked.

use std::process::ExitCode;

use tabwright_tests::answers::QUESTIONS;
use tabwright_tests::clock::processor_ms;
use tabwright_tests::draw::{Seeded, setup};

fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let number = |index: usize, usual: &str| arguments.get(index).map_or(usual, String::as_str).parse::<u32>();
    let (Ok(count), Ok(seed)) = (number(0, ""), number(1, "1")) else {
        eprintln!("usage: slowest COUNT [SEED [QUESTION]]   (whole numbers, and part of a question's name)");
        return ExitCode::from(2);
    };
    let wanted = arguments.get(2).map_or("", String::as_str);
    println!("{:<28}{:>10}{:>10}{:>10}   draw", "", "median", "1 in 100", "longest");
    for question in QUESTIONS.iter().filter(|question| question.name.contains(wanted)) {
        let mut times: Vec<(f64, u32)> = Vec::new();
        for draw in 0..count {
            let Some(setup) = setup(&mut Seeded(seed.wrapping_add(draw)), 1.0) else { continue };
            let before = processor_ms();
            let _ = std::hint::black_box((question.ask)(&setup));
            times.push((processor_ms() - before, draw));
        }
        times.sort_by(|a, b| a.0.total_cmp(&b.0));
        let at = |share: f64| times.get(((times.len() as f64 - 1.0) * share) as usize).copied().unwrap_or_default();
        let (longest, draw) = at(1.0);
        println!("{:<28}{:>10.2}{:>10.2}{longest:>10.2}   {draw}", question.name, at(0.5).0, at(0.99).0);
    }
    ExitCode::SUCCESS
}
