//! Measuring parts, for the browser. Each answers `{ ok: true, answer }` or `{ ok: false, errors }`.

use tabwright_core::plain::{Datum, Plain};
use tabwright_core::search::{self, Sensitivity};
use tabwright_core::{CaliperMeasured, Given, Problem, Setup, Warning, drawing};
use wasm_bindgen::prelude::*;

use crate::{SetupObject, answer, given, problem, read, to_js};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("measure.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `Field[]` in TypeScript.
    #[wasm_bindgen(typescript_type = "Field[]")]
    pub type MeasuredFields;
    /// `Measured` in TypeScript.
    #[wasm_bindgen(typescript_type = "Measured")]
    pub type MeasuredObject;
    /// `Answer<string>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<string>")]
    pub type PictureAnswer;
    /// `Answer<Sensitivity>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<Sensitivity>")]
    pub type SensitivityAnswer;
    /// `Answer<MeasuredCaliper>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<MeasuredCaliper>")]
    pub type MeasuredAnswer;
    /// `Answer<CaliperAsMeasured>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<CaliperAsMeasured>")]
    pub type CaliperAnswer;
}

fn told<J: JsCast>(work: impl FnOnce() -> Result<JsValue, Vec<Problem>>) -> J {
    answer(work).unchecked_into()
}

fn found(answer: &dyn Plain) -> JsValue {
    to_js(Datum::Record(&["ok", "answer"], vec![&true, answer]))
}

/// What to measure for a number of a setup or of a measured caliper, as SVG text with `text` at the dimension; `"caliper"`
/// is the caliper alone.
#[wasm_bindgen]
pub fn measure_picture(setup: SetupObject, path: &str, text: &str) -> PictureAnswer {
    told(|| Ok(found(&drawing::draw_measure(&read(setup)?.0, path, text)?)))
}

/// What one millimetre or degree more or less of a number would change.
#[wasm_bindgen]
pub fn sensitivity(setup: SetupObject, path: &str) -> SensitivityAnswer {
    told(|| {
        let answer: Sensitivity = search::sensitivity(&read(setup)?.0, path)?;
        Ok(found(&answer))
    })
}

/// The table of the numbers that a caliper is measured by.
#[wasm_bindgen]
pub fn measured_fields() -> MeasuredFields {
    to_js(CaliperMeasured::fields().datum()).unchecked_into()
}

struct Measured(Given, bool);

impl Plain for Measured {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["measured", "tells_all"], vec![&self.0, &self.1])
    }
}

/// What measuring a setup's caliper would give, and whether these numbers tell all of it.
#[wasm_bindgen]
pub fn measure_caliper(setup: SetupObject) -> MeasuredAnswer {
    told(|| {
        let setup = read(setup)?.0;
        Ok(found(&Measured((&CaliperMeasured::of(&setup)).into(), CaliperMeasured::tells_all_of(&setup))))
    })
}

struct AsMeasured(Given, Option<Warning>);

impl Plain for AsMeasured {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["caliper", "doubt"], vec![&self.0, &self.1])
    }
}

impl AsMeasured {
    fn of(setup: &Setup, doubt: Option<Warning>) -> Self {
        let members = match Given::from(setup) {
            Given::Object(members) => members,
            _ => Vec::new(),
        };
        let caliper = members.into_iter().find(|(name, _)| name == "caliper");
        Self(caliper.map_or(Given::Nothing, |(_, caliper)| caliper), doubt)
    }
}

/// The setup's caliper with its holes, its bodies or both as measured.
#[wasm_bindgen]
pub fn caliper_as_measured(setup: SetupObject, measured: MeasuredObject, holes: bool, bodies: bool) -> CaliperAnswer {
    told(|| {
        let setup = read(setup)?.0;
        let plain =
            given::given(&measured).map_err(|_| vec![problem("The measurements are not plain data.".to_owned())])?;
        let measured = CaliperMeasured::read(&plain)?;
        let doubt = measured.doubt(&setup);
        Ok(found(&AsMeasured::of(&measured.put_into(&setup, holes, bodies)?, doubt)))
    })
}

/// The setup's caliper of the other hand.
#[wasm_bindgen]
pub fn mirrored_caliper(setup: SetupObject) -> CaliperAnswer {
    told(|| {
        let mut setup = read(setup)?.0;
        setup.caliper = setup.caliper.mirrored();
        Ok(found(&AsMeasured::of(&setup, None)))
    })
}
