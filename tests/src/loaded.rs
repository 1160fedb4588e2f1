//! Plates under load, and setups whose loads are not alike.

use serde_json::json;
use tabwright_core::Setup;
use tabwright_core::load::{Plate, Statics, brake_case};

use crate::setup_with;

/// Both sides, both mating faces, above and below the dropout, a rider's case.
pub fn setups() -> Vec<Setup> {
    [
        json!({"tab": {"clock": 55, "offset": 2}}),
        json!({"side": "right", "tab": {"clock": 150, "edge": 13}, "dropout": {"eye_radius": 28}, "caliper": {"mating_face": "outer"}}),
        json!({"tab": {"clock": -80}, "fork": {"axle_offset": 17, "tube_end": 35}, "load": {"case": "rider"}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

/// A setup's plate in its own brake case.
pub fn plate_of(setup: &Setup) -> Plate {
    Plate::of(setup, &Statics::of(setup, &brake_case(setup)))
}
