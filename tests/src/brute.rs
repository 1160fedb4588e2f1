//! Plain reports on neighbouring setups, which know nothing of bounds and sweeps, and setups to try searches on.

use serde_json::{Value, json};
use tabwright_core::fit::{Pair, Parts, Run, binding, clearances, line_run, wheel_removal};
use tabwright_core::search::Rules;
use tabwright_core::{Outcome, Setup, Verdict};

use crate::{merge, report_of, setup_with};

/// The setup with one number changed.
#[must_use]
pub fn with(setup: &Setup, field: &str, value: f64) -> Setup {
    let mut other = setup.clone();
    *other.number_at(field).unwrap_or_else(|| panic!("no number {field}")) = value;
    other
}

/// The setup with its caliper at a clock angle.
#[must_use]
pub fn at_clock(setup: &Setup, clock: f64) -> Setup {
    let mut setup = setup.clone();
    setup.tab.clock = clock - 360.0 * ((clock + 180.0) / 360.0).floor();
    setup
}

/// The gap that decides, whether the setup can be built or not.
#[must_use]
pub fn deciding(setup: &Setup) -> Pair {
    let pairs = clearances(setup, &Parts::of(setup)).unwrap_or_else(|_| panic!("a gap could not be found"));
    binding(&pairs).cloned().unwrap_or_else(|| panic!("there is always the throat"))
}

/// Whether every gap is as wanted with the caliper at a clock angle and the tube's end at a distance from the axle.
#[must_use]
pub fn does(setup: &Setup, clock: f64, tube_end: f64) -> bool {
    let mut setup = at_clock(setup, clock);
    setup.fork.tube_end = tube_end;
    deciding(&setup).verdict() == Verdict::Clears
}

/// Whether a setup keeps to the rules with its caliper at a clock angle; the tube's end has no say in it.
#[must_use]
pub fn keeps(setup: &Setup, rules: Rules, clock: f64) -> bool {
    let setup = at_clock(setup, clock);
    (!rules.line_up || line_run(&setup).run == Run::Up) && (!rules.wheel_out || wheel_removal(&setup).comes_out())
}

/// Whether a setup is one that can be worked out, and its report clears.
#[must_use]
pub fn clears(setup: &Setup) -> bool {
    setup.checked().is_ok() && report_of(setup).verdict == Outcome::Clears
}

/// Clock angles all round, so many degrees apart, off round numbers.
pub fn clocks(step: f64) -> impl Iterator<Item = f64> {
    (0..(360.0 / step) as u32).map(move |index| -179.9863 + step * f64::from(index))
}

/// Setups that differ in what searches treat apart: side, mount, offset of axle and tab, slot, leg, what stands in the way.
#[must_use]
pub fn uneven() -> Vec<(&'static str, Setup)> {
    let left = json!({
        "wheel": {"rotor_diameter": 180, "hub_width": 110, "nut_diameter": 9},
        "fork": {"tube_gap": 121, "axle_offset": 7.5, "tube_end": 33, "tube_diameter": 28.6, "leg_angle": 71},
        "dropout": {"slot_direction": 150},
        "tab": {"clock": -35, "offset": 1.3},
        "required": {"tube": 4.5, "nut": 0.5},
    });
    let right = json!({
        "side": "right",
        "wheel": {"rotor_diameter": 220, "nut_diameter": 10},
        "fork": {"axle_offset": 18, "tube_end": 41, "tube_diameter": 35},
        "dropout": {"slot_direction": -110},
        "tab": {"clock": 63, "offset": -0.8},
        "required": {"tube": 5.5, "nut": 0.7, "line": 3.5},
    });
    let posts = json!({
        "wheel": {"rotor_diameter": 160, "hub_width": 115, "nut_diameter": 12},
        "fork": {"tube_gap": 126, "axle_offset": -6, "tube_end": 52},
        "caliper": {"mount": "post", "bolt_direction": [0.3, -1, 0.2]},
        "tab": {"clock": 104},
        "required": {"tool": 2.5},
    });
    let nut = json!({
        "fork": {"tube_end": 24, "axle_offset": 3},
        "tab": {"clock": -77},
    });
    [("left", left), ("right", right), ("posts", posts), ("nut", nut)]
        .map(|(name, changes)| (name, setup_with(&changes)))
        .to_vec()
}

/// As [`setup_with`], on top of a setup.
#[must_use]
pub fn changed(setup: &Setup, changes: &Value) -> Setup {
    let mut json = serde_json::to_value(setup).unwrap_or_default();
    merge(&mut json, changes);
    Setup::read(&json).unwrap_or_else(|problems| panic!("{changes}: {problems:#?}")).0
}
