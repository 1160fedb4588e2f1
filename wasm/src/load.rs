//! Loads for the browser: `{ ok: true, answer }` or `{ ok: false, errors }`.

use tabwright_core::load;
use tabwright_core::plain::{Datum, Plain};
use wasm_bindgen::prelude::*;

use crate::ring::answer;
use crate::{SetupObject, to_js};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("load.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `Answer<Loads>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<Loads>")]
    pub type LoadsAnswer;
    /// `Answer<WheelSize>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<WheelSize>")]
    pub type WheelSizeAnswer;
}

/// What the brake does to tab, bolts, weld and axle.
#[wasm_bindgen]
pub fn loads(setup: SetupObject) -> LoadsAnswer {
    answer(setup, load::loads)
}

/// A wheel's size by its ISO 5775 designation, such as `47-559`.
#[wasm_bindgen]
pub fn wheel_size(text: &str) -> WheelSizeAnswer {
    let told = |size: load::WheelSize| to_js(Datum::Record(&["ok", "answer"], vec![&true, &size as &dyn Plain]));
    crate::answer(|| Ok(told(load::wheel_size(text)?))).unchecked_into()
}
