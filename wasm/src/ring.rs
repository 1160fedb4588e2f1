//! Where the caliper may sit, for the browser: `{ ok: true, answer }` or `{ ok: false, errors }`.

use tabwright_core::drawing::draw_ring;
use tabwright_core::plain::{Datum, Plain};
use tabwright_core::search::{self, Ring};
use tabwright_core::{Problem, Setup};
use wasm_bindgen::prelude::*;

use crate::{SetupObject, read, to_js};

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("ring.d.ts");

#[wasm_bindgen]
extern "C" {
    /// `Answer<RingDrawing>` in TypeScript.
    #[wasm_bindgen(typescript_type = "Answer<RingDrawing>")]
    pub type RingAnswer;
}

struct RingDrawing {
    ring: Ring,
    svg: String,
}

impl Plain for RingDrawing {
    fn datum(&self) -> Datum<'_> {
        Datum::Record(&["ring", "svg"], vec![&self.ring, &self.svg])
    }
}

/// Where about the axle the caliper may sit, and the band that shows it; the setup's own clock angle does not matter.
#[wasm_bindgen]
pub fn ring(setup: SetupObject) -> RingAnswer {
    answer(setup, |setup| {
        let ring = search::ring(setup)?;
        let svg = draw_ring(setup, &ring);
        Ok(RingDrawing { ring, svg })
    })
}

/// The answer of a search as `{ ok: true, answer }`, or what is wrong with the setup.
pub(crate) fn answer<T: Plain, J: JsCast>(
    setup: SetupObject,
    ask: impl FnOnce(&Setup) -> Result<T, Vec<Problem>>,
) -> J {
    let found = |answer: &dyn Plain| to_js(Datum::Record(&["ok", "answer"], vec![&true, answer]));
    crate::answer(|| Ok(found(&ask(&read(setup)?.0)?))).unchecked_into()
}
