//! Setups that both views are drawn of, and where their points lie on the page.

use serde_json::{Value, json};
use tabwright_core::drawing::View;
use tabwright_core::{Mount, Setup, Side};

use crate::svg::Point;
use crate::{fixture_text, setup_with};

/// The page is written in hundredths, and turned by hundredths of a degree.
pub const DRAWN: f64 = 0.06;

/// Setups with both sides, both mounts, all joints, tilted lines, and holes and slots of either kind.
pub fn setups() -> Vec<Setup> {
    let text = fixture_text("reference/kernel.jsonl");
    let cases = text.lines().step_by(9).map(|line| serde_json::from_str::<Value>(line).unwrap());
    let mut setups: Vec<Setup> = cases.map(|case| setup_with(&case["changes"])).collect();
    setups.push(setup_with(&json!({"dropout": {"closed": true}, "wheel": {"rotor_diameter": 180}})));
    setups.push(setup_with(&json!({"tab": {"clock": 170}, "fork": {"tube_end": 90, "axle_offset": 40}})));
    setups.push(setup_with(&json!({"side": "right", "tab": {"clock": -100}, "dropout": {"slot_direction": -140}})));
    // The rotor alone makes the page as wide as it is.
    setups.push(setup_with(&json!({"tab": {"clock": 3}, "wheel": {"rotor_diameter": 290}})));
    // A caliper that reaches past the wheel's middle.
    let mut deep = setup_with(&json!({"side": "right"}));
    deep.caliper.bodies[1].inboard = 55.0;
    setups.push(deep);
    assert!(setups.iter().any(|setup| setup.caliper.mount == Mount::Post), "no post");
    assert!([Side::Left, Side::Right].iter().all(|side| setups.iter().any(|setup| setup.side == *side)), "one side");
    setups
}

/// From the view's coordinates to the page: the way ahead is to the left on the left side.
pub fn page(setup: &Setup, view: View) -> impl Fn(Point) -> Point {
    let across = if setup.side == Side::Left { 1.0 } else { -1.0 };
    let down = if view == View::Side { -1.0 } else { 1.0 };
    move |[back, second]: Point| [across * back, down * second]
}
