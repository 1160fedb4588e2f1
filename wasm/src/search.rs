//! The other searches for the browser. Each answers `{ ok: true, answer }` or `{ ok: false, errors }`.

use tabwright_core::search::{self, Fork, Rules};
use wasm_bindgen::prelude::*;

use crate::ring::answer;
use crate::{SetupObject, read};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("search.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `Answer<Shortest>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<Shortest>")]
    pub type ShortestAnswer;
    /// `Answer<WhatIfCell>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<WhatIfCell>")]
    pub type WhatIfAnswer;
    /// `Answer<TwoRotors>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<TwoRotors>")]
    pub type TwoRotorsAnswer;
    /// `Answer<Fixes>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<Fixes>")]
    pub type FixesAnswer;
    /// `Answer<Position[]>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<Position[]>")]
    pub type PositionsAnswer;
    /// `Answer<Comparison>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<Comparison>")]
    pub type ComparisonAnswer;
    /// `Answer<Explanation>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<Explanation>")]
    pub type ExplanationAnswer;
}

/// The shortest dropout, with or without the rules that the line runs up the leg and that the wheel drops out.
#[wasm_bindgen]
pub fn shortest(setup: SetupObject, line_up: bool, wheel_out: bool) -> ShortestAnswer {
    answer(setup, |setup| search::shortest_dropout(setup, Rules { line_up, wheel_out }))
}

/// One cell of the what-if table; `fork_follows` where the fork is still to be built to the hub.
#[wasm_bindgen]
pub fn what_if(
    setup: SetupObject,
    rotor_diameter: f64,
    hub_width: f64,
    fork_follows: bool,
    line_up: bool,
    wheel_out: bool,
) -> WhatIfAnswer {
    let fork = if fork_follows { Fork::FollowsHub } else { Fork::Kept };
    answer(setup, |setup| search::what_if(setup, rotor_diameter, hub_width, fork, Rules { line_up, wheel_out }))
}

/// Where one tab serves two rotors.
#[wasm_bindgen]
pub fn two_rotors(setup: SetupObject, one: f64, other: f64, line_up: bool, wheel_out: bool) -> TwoRotorsAnswer {
    answer(setup, |setup| search::two_rotors(setup, [one, other], Rules { line_up, wheel_out }))
}

/// What would fix a setup that does not clear.
#[wasm_bindgen]
pub fn fixes(setup: SetupObject) -> FixesAnswer {
    answer(setup, search::fixes)
}

/// The eight places a caliper could go.
#[wasm_bindgen]
pub fn positions(setup: SetupObject) -> PositionsAnswer {
    answer(setup, search::positions)
}

/// How a second setup differs from a first.
#[wasm_bindgen]
pub fn compare(first: SetupObject, second: SetupObject) -> ComparisonAnswer {
    answer(first, |first| search::compare(first, &read(second)?.0))
}

/// A setup and its verdict in a message, with what a second setup changes.
#[wasm_bindgen]
pub fn explain(setup: SetupObject, other: Option<SetupObject>) -> ExplanationAnswer {
    answer(setup, |setup| {
        let other = other.map(read).transpose()?;
        search::explain(setup, other.as_ref().map(|(other, _)| other))
    })
}
