//! The cut sheet for the browser. Each call answers `{ ok: true, answer }` or `{ ok: false, errors }`.

use tabwright_core::cut::{self, CutOptions};
use tabwright_core::{Given, Problem};
use wasm_bindgen::prelude::*;

use crate::ring::answer;
use crate::{SetupObject, given, problem};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("cut.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `CutOptions` in TypeScript.
    #[wasm_bindgen(typescript_type = "CutOptions")]
    pub type CutOptionsObject;
    /// `Answer<CutSheet>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<CutSheet>")]
    pub type CutSheetAnswer;
    /// `Answer<CutFile>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<CutFile>")]
    pub type CutFileAnswer;
    /// `Answer<CutTemplate>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<CutTemplate>")]
    pub type CutTemplateAnswer;
}

/// Pieces, holes, narrow places, gaps as cut, weights and notes.
#[wasm_bindgen]
pub fn cut_sheet(setup: SetupObject, options: CutOptionsObject) -> CutSheetAnswer {
    answer(setup, |setup| cut::cut_sheet(setup, &read(&options)?))
}

/// A file to save: `"dxf_r12"`, `"dxf_r2000"`, `"svg"` or `"template_svg"`.
#[wasm_bindgen]
pub fn cut_file(setup: SetupObject, kind: &str, options: CutOptionsObject) -> CutFileAnswer {
    answer(setup, |setup| cut::cut_file(setup, kind, &read(&options)?))
}

/// The 1:1 template on pages of paper.
#[wasm_bindgen]
pub fn cut_template(setup: SetupObject, options: CutOptionsObject) -> CutTemplateAnswer {
    answer(setup, |setup| cut::cut_template(setup, &read(&options)?))
}

fn read(options: &JsValue) -> Result<CutOptions, Vec<Problem>> {
    let given: Given =
        given::given(options).map_err(|_| vec![problem("The options are not plain data.".to_owned())])?;
    CutOptions::read(&given)
}
