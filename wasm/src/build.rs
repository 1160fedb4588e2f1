//! Stack and tack for the browser. Each answers `{ ok: true, answer }` or `{ ok: false, errors }`.

use tabwright_core::build::{
    Stack, TabHoles, TackCheck, Tacked, fit_tab as fit, stack as stack_of, tack_check as check,
};
use tabwright_core::drawing::{draw_stack, draw_tack};
use tabwright_core::plain::{Datum, Plain};
use wasm_bindgen::prelude::*;

use crate::ring::answer;
use crate::{SetupObject, given, problem};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("build.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `Answer<StackDrawing>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<StackDrawing>")]
    pub type StackAnswer;
    /// `Answer<TackDrawing>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<TackDrawing>")]
    pub type TackAnswer;
    /// `TabHoles` in TypeScript.
    #[wasm_bindgen(typescript_type = "TabHoles")]
    pub type TabHolesObject;
    /// `Answer<FitTab>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<FitTab>")]
    pub type FitTabAnswer;
}

struct StackDrawing {
    stack: Stack,
    svg: String,
}

impl Plain for StackDrawing {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["stack", "svg"], vec![&self.stack, &self.svg])
    }
}

struct TackDrawing {
    check: TackCheck,
    svg: TackPictures,
}

impl Plain for TackDrawing {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["check", "svg"], vec![&self.check, &self.svg])
    }
}

struct TackPictures {
    before: Option<String>,
    after: Option<String>,
}

impl Plain for TackPictures {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["before", "after"], vec![&self.before, &self.after])
    }
}

/// The sideways stack of a setup, with its bar to scale.
#[wasm_bindgen]
pub fn stack(setup: SetupObject) -> StackAnswer {
    answer(setup, |setup| {
        let stack = stack_of(setup);
        let svg = draw_stack(&stack);
        Ok(StackDrawing { stack, svg })
    })
}

/// Where the tacked and the welded part really are and what to do, with a picture of each.
#[wasm_bindgen]
pub fn tack_check(setup: SetupObject) -> TackAnswer {
    answer(setup, |setup| {
        let check = check(setup)?;
        let picture = |tacked: &Tacked| tacked.as_built.as_ref().map(|built| draw_tack(setup, built));
        let svg = TackPictures { before: picture(&check.before), after: check.after.as_ref().and_then(picture) };
        Ok(TackDrawing { check, svg })
    })
}

/// Which rotors and clock angles the two holes of a tab serve.
#[wasm_bindgen]
pub fn fit_tab(setup: SetupObject, holes: TabHolesObject) -> FitTabAnswer {
    answer(setup, |setup| {
        let no_plain_data = |_| vec![problem("The holes are not plain data.".to_owned())];
        fit(setup, TabHoles::read(&given::given(&holes).map_err(no_plain_data)?)?)
    })
}
