//! Stack and tack for the browser. Each answers `{ ok: true, answer }` or `{ ok: false, errors }`.

use tabwright_core::build::{Stack, stack as stack_of};
use tabwright_core::drawing::draw_stack;
use tabwright_core::plain::{Datum, Plain};
use wasm_bindgen::prelude::*;

use crate::SetupObject;
use crate::ring::answer;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("build.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `Answer<StackDrawing>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<StackDrawing>")]
    pub type StackAnswer;
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

/// The sideways stack of a setup, with its bar to scale.
#[wasm_bindgen]
pub fn stack(setup: SetupObject) -> StackAnswer {
    answer(setup, |setup| {
        let stack = stack_of(setup);
        let svg = draw_stack(&stack);
        Ok(StackDrawing { stack, svg })
    })
}
