//! Measuring parts, for the browser: pictures of what to measure, what hangs on it, and a caliper from measurements.

use tabwright_core::plain::{Datum, Plain};
use tabwright_core::search::sensitivity;
use tabwright_core::{CaliperMeasured, FieldDescription, Given, Problem, Setup, Warning, drawing};
use wasm_bindgen::prelude::*;

use crate::{SetupObject, answer, given, problem, read, to_js};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("measure.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `MeasureQuestion` in TypeScript.
    #[wasm_bindgen(typescript_type = "MeasureQuestion")]
    pub type MeasureQuestion;
    /// `MeasureAnswer` in TypeScript.
    #[wasm_bindgen(typescript_type = "MeasureAnswer")]
    pub type MeasureAnswer;
}

/// One question on measuring a setup's parts; `path` names a number of the setup or of a measured caliper.
///
/// - `"picture"`: what to measure as SVG text, with `text` at the dimension; path `"caliper"` is the caliper alone.
/// - `"sensitivity"`: what one millimetre or degree more or less would change.
/// - `"caliper"`: the numbers that a caliper is measured by, with the setup's own.
/// - `"holes"`, `"bodies"`, `"whole"`: the setup's caliper with those, or both, as `measured` has them.
/// - `"mirrored"`: the setup's caliper of the other hand.
#[wasm_bindgen]
pub fn measure(setup: SetupObject, what: &str, path: &str, text: &str, measured: MeasureQuestion) -> MeasureAnswer {
    answer(|| {
        let mut setup = read(setup)?.0;
        Ok(match what {
            "picture" => told(&drawing::draw_measure(&setup, path, text)?),
            "sensitivity" => told(&sensitivity(&setup, path)?),
            "caliper" => told(&Measured {
                fields: CaliperMeasured::fields(),
                measured: (&CaliperMeasured::of(&setup)).into(),
                tells_all: CaliperMeasured::tells_all_of(&setup),
            }),
            "mirrored" => {
                setup.caliper.mirror();
                told(&AsMeasured::of(&setup, None))
            }
            _ => told(&as_measured(setup, what, &measured)?),
        })
    })
    .unchecked_into()
}

fn told(answer: &dyn Plain) -> JsValue {
    to_js(Datum::Record(&["ok", "answer"], vec![&true, answer]))
}

fn as_measured(mut setup: Setup, what: &str, measured: &JsValue) -> Result<AsMeasured, Vec<Problem>> {
    let no_plain_data = |_| vec![problem("The measurements are not plain data.".to_owned())];
    let measured = CaliperMeasured::read(&given::given(measured).map_err(no_plain_data)?)?;
    measured.put_into(&mut setup, what != "bodies", what != "holes")?;
    Ok(AsMeasured::of(&setup, measured.doubt(&setup)))
}

struct Measured {
    fields: Vec<FieldDescription>,
    measured: Given,
    tells_all: bool,
}

impl Plain for Measured {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["fields", "measured", "tells_all"], vec![&self.fields, &self.measured, &self.tells_all])
    }
}

struct AsMeasured {
    setup: Given,
    doubt: Option<Warning>,
}

impl AsMeasured {
    fn of(setup: &Setup, doubt: Option<Warning>) -> Self {
        Self { setup: setup.into(), doubt }
    }
}

impl Plain for AsMeasured {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["setup", "doubt"], vec![&self.setup, &self.doubt])
    }
}
