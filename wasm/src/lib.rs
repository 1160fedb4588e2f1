//! Tabwright's core for the browser: parse, call the core, convert. No maths and no DOM.
//!
//! With the feature `whole`, which is on unless switched off, there is everything. Without it there is what a page needs
//! before it shows a first verdict, so that nobody waits for the rest.
//!
//! Every function takes plain JavaScript data and returns plain data. What is wrong with a setup comes back as data,
//! never as an exception: `{ ok: false, errors }`.

#[cfg(feature = "whole")]
pub mod build;
#[cfg(feature = "whole")]
pub mod cut;
mod given;
#[cfg(feature = "whole")]
pub mod load;
#[cfg(feature = "whole")]
pub mod measure;
pub mod ring;
#[cfg(feature = "whole")]
pub mod search;

use serde::Serialize;
use tabwright_core::drawing::{Scene, View};
use tabwright_core::plain::{Datum, Plain};
use tabwright_core::{Given, Lengths, Problem, Setup, Warning, describe_fields};
use wasm_bindgen::prelude::*;

/// The standard library's allocator would be 3 kB more to download.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static MEMORY: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("types.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `FieldGroup[]` in TypeScript.
    #[wasm_bindgen(typescript_type = "FieldGroup[]")]
    pub type FieldGroups;
    /// `Setup` in TypeScript.
    #[wasm_bindgen(typescript_type = "Setup")]
    pub type SetupObject;
    /// `UpdateResult` in TypeScript.
    #[wasm_bindgen(typescript_type = "UpdateResult")]
    pub type UpdateResult;
    /// `ReportResult` in TypeScript.
    #[wasm_bindgen(typescript_type = "ReportResult")]
    pub type ReportResult;
    /// `DrawingResult` in TypeScript.
    #[wasm_bindgen(typescript_type = "DrawingResult")]
    pub type DrawingResult;
}

/// Sends the text of a panic to the console. Runs once, when the module is loaded.
#[wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
}

/// The field table, group by group in form order.
#[wasm_bindgen]
pub fn fields() -> FieldGroups {
    to_js(describe_fields().datum()).unchecked_into()
}

/// The setup that the page starts with.
#[wasm_bindgen]
pub fn default_setup() -> SetupObject {
    to_js(Given::from(&Setup::default()).datum()).unchecked_into()
}

/// Report and drawings of a setup in one go, or what is wrong with it. `views` may name `"side"` and `"section"`.
#[wasm_bindgen]
pub fn update(setup: SetupObject, views: Vec<String>) -> UpdateResult {
    answer(|| {
        let views = views.iter().map(|view| read_view(view)).collect::<Result<Vec<_>, _>>()?;
        let (setup, warnings) = read(setup)?;
        let scene = Scene::of(&setup, warnings)?;
        let asked =
            [(View::Side, "side"), (View::Section, "section")].into_iter().filter(|(view, _)| views.contains(view));
        let drawings =
            Given::Object(asked.map(|(view, name)| (name.to_owned(), Given::Text(scene.draw(view)))).collect());
        Ok(to_js(Datum::Record(&["ok", "report", "drawings"], vec![&true, scene.report(), &drawings])))
    })
    .unchecked_into()
}

/// How words in reports and drawings write lengths from now on: `"in"` for inches, anything else for millimetres.
/// Numbers stay in millimetres.
#[wasm_bindgen]
pub fn speak_in(unit: &str) {
    tabwright_core::speak_in(if unit == "in" { Lengths::Inches } else { Lengths::Millimetres });
}

/// The full report on a setup, or what is wrong with it.
#[wasm_bindgen]
pub fn report(setup: SetupObject) -> ReportResult {
    answer(|| {
        let (setup, warnings) = read(setup)?;
        Ok(to_js(Datum::Record(&["ok", "report"], vec![&true, Scene::of(&setup, warnings)?.report()])))
    })
    .unchecked_into()
}

/// A drawing of a setup as SVG text, or what is wrong with it. `view` is `"side"` or `"section"`.
#[wasm_bindgen]
pub fn drawing(setup: SetupObject, view: &str) -> DrawingResult {
    answer(|| {
        let view = read_view(view)?;
        let (setup, warnings) = read(setup)?;
        Ok(to_js(Datum::Record(&["ok", "svg"], vec![&true, &Scene::of(&setup, warnings)?.draw(view)])))
    })
    .unchecked_into()
}

/// What `work` makes, or the problems that keep it from making it.
fn answer(work: impl FnOnce() -> Result<JsValue, Vec<Problem>>) -> JsValue {
    work().unwrap_or_else(|errors| to_js(Datum::Record(&["ok", "errors"], vec![&false, &errors])))
}

fn read(setup: SetupObject) -> Result<(Setup, Vec<Warning>), Vec<Problem>> {
    let given = given::given(&setup).map_err(|found| {
        vec![problem(format!(
            "The setup is not plain data: {found:?} is in it. Give an object like the one default_setup() returns."
        ))]
    })?;
    Setup::read(given)
}

fn read_view(view: &str) -> Result<View, Vec<Problem>> {
    match view {
        "side" => Ok(View::Side),
        "section" => Ok(View::Section),
        other => Err(vec![problem(format!("There is no view \"{other}\". Ask for \"side\" or \"section\"."))]),
    }
}

fn problem(message: String) -> Problem {
    Problem { field: String::new(), value: String::new(), message }
}

/// Plain objects and `null`, as JSON would have them.
fn to_js(value: Datum<'_>) -> JsValue {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    // Only a value that fails to describe itself could fail here, and these are plain structs.
    value.serialize(&serializer).unwrap_or(JsValue::NULL)
}
