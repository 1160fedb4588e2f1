//! Pictures of what to measure, read back: their pages and parts by hand.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::drawing::draw_measure;
use tabwright_core::{Setup, Side};
use tabwright_tests::plates::{bounds, distance, ends, of};
use tabwright_tests::svg::{Point, read};
use tabwright_tests::{assert_near, setup_with};

/// Numbers in drawings are rounded to hundredths.
const DRAWN: f64 = 0.015;

/// Least and greatest across and along that each picture shows, its dimension and the number over that among it, from
/// the setup's numbers by hand.
fn shown() -> Vec<(&'static str, [f64; 4])> {
    vec![
        // The axle's ends with 3 of the axle: 50 + 6 + 12 + 3; the flange's 29 with 6, the line 4 over it.
        ("wheel.hub_width", [-71.0, 71.0, -35.0, 39.0 + 0.07 * 142.0]),
        // The flange's outer face is at 50 - 28, and 12 more are shown.
        ("wheel.rotor_inset", [10.0, 71.0, -35.0, 39.0 + 0.07 * 74.0]),
        // Beside the axle's end by 12.
        ("wheel.nut_diameter", [10.0, 80.0, -35.0, 35.0]),
        ("wheel.flange_diameter", [10.0, 71.0, -35.0, 35.0]),
        ("wheel.rotor_diameter", [-101.5, 101.5, -101.5, 101.5]),
        ("wheel.tyre_radius", [-340.0, 340.0, -340.0, 340.0]),
        // 1.6 times the tube's radius across.
        ("fork.tube_diameter", [-25.4, 25.4, -15.875, 15.875]),
        // Tubes end 4 within the page, at 56 + 31.75; the plate's top is 20 below its edge, at 20 + 80, the line 8 below.
        ("fork.tube_gap", [-91.75, 91.75, -20.0, 112.0 + 0.07 * 183.5]),
        // An arc of 0.55 of that height and half as much again.
        ("fork.leg_angle", [-99.0, 144.0, -99.0, 120.0]),
        // 45 of the tube, 12 ahead of its front were it over the axle, 4 below the eye.
        ("-fork.axle_offset", [-27.875, 29.875, -24.0, 65.0]),
        ("-fork.tube_end", [-27.875, 37.875, -24.0, 65.0]),
        ("-dropout.weld_length", [-27.875, 37.875, -24.0, 120.0]),
        ("-dropout.eye_radius", [-20.0, 20.0, -24.0, 24.0]),
        // The arc is 5 outside the eye.
        ("-dropout.slot_direction", [-37.5, 37.5, -37.5, 37.5]),
        ("dropout.thickness", [26.0, 91.75, -28.0, 72.0]),
        // The bodies, as the tab's lands are within them.
        ("caliper", [-38.0, 38.0, -18.0, 36.0]),
        ("caliper.throat", [-20.0, 34.0, -18.0, 36.0]),
    ]
}

/// Fails unless a page is about what is shown, with a free edge of 6 % of its larger side, no narrower and no wider than
/// texts need.
fn assert_page(setup: &Setup, path: &str, [left, right, low, high]: [f64; 4]) {
    let [x, y, width, height] = read(&draw_measure(setup, path, "1").unwrap())[0].view_box();
    assert_near(x + width / 2.0, (left + right) / 2.0, DRAWN, &format!("{path}: middle across"));
    assert_near(y + height / 2.0, -(low + high) / 2.0, DRAWN, &format!("{path}: middle down"));
    let edge = 0.12 * (right - left).max(high - low);
    let [wide, tall] = [right - left + edge, high - low + edge];
    assert_near(width, wide.max(1.25 * tall), DRAWN, &format!("{path}: width"));
    assert_near(height, tall.max(wide / 1.7), DRAWN, &format!("{path}: height"));
}

#[test]
fn a_picture_has_the_page_that_its_parts_and_its_dimension_need() {
    for side in [Side::Left, Side::Right] {
        let changes = json!({"fork": {"axle_offset": 14}, "dropout": {"slot_direction": 150}});
        let setup = Setup { side, ..setup_with(&changes) };
        for (path, [left, right, low, high]) in shown() {
            // What is seen from the braked side is mirrored with it.
            let is_mirrored = path.starts_with('-') && side == Side::Right;
            let [left, right] = if is_mirrored { [-right, -left] } else { [left, right] };
            assert_page(&setup, path.trim_start_matches('-'), [left, right, low, high]);
        }
    }
    // A hub so wide that its picture would be too low.
    let wide = setup_with(&json!({"wheel": {"hub_width": 200}}));
    assert_page(&wide, "wheel.hub_width", [-121.0, 121.0, -35.0, 39.0 + 0.07 * 242.0]);
}

/// Left, right, top and foot of each shape of a class.
fn boxes(setup: &Setup, path: &str, class: &str) -> Vec<[f64; 4]> {
    let drawing = read(&draw_measure(setup, path, "1").unwrap());
    of(&drawing, class).iter().map(|one| bounds(&one.points())).collect()
}

fn assert_boxes(found: &[[f64; 4]], expected: &[[f64; 4]], what: &str) {
    assert_eq!(found.len(), expected.len(), "{what}: {found:?}");
    for (found, expected) in found.iter().flatten().zip(expected.iter().flatten()) {
        assert_near(*found, *expected, DRAWN, what);
    }
}

fn square(reach: f64) -> [f64; 4] {
    [-reach, reach, -reach, reach]
}

/// Each kind of item of the pictures, from the setup's numbers by hand.
#[test]
fn the_parts_in_a_picture_are_where_they_are_in_steel() {
    let changes = json!({"fork": {"axle_offset": 14}, "dropout": {"closed": true}});
    for (side, way) in [(Side::Left, 1.0), (Side::Right, -1.0)] {
        let setup = Setup { side, ..setup_with(&changes) };
        for (class, reach) in [("rotor", 101.5), ("band", 101.5), ("hub", 29.0), ("hole", 4.5)] {
            assert_boxes(&boxes(&setup, "wheel.rotor_diameter", class), &[square(reach)], class);
        }
        let rings = read(&draw_measure(&setup, "wheel.tyre_radius", "1").unwrap());
        let rings = of(&rings, "tube")[0].lines();
        assert_boxes(&[bounds(&rings[0]), bounds(&rings[1])], &[square(340.0), square(280.0)], "tyre and rim");
        // Tube, eye and slot from the braked side; the neck reaches to 100 up, the tube to 240.
        let seen = |[ahead, back]: [f64; 2], [low, high]: [f64; 2]| {
            [(way * ahead).min(way * back), (way * ahead).max(way * back), -high, -low]
        };
        let path = "dropout.weld_length";
        assert_boxes(&boxes(&setup, path, "tube"), &[seen([-1.875, 29.875], [20.0, 240.0])], "tube");
        let plates = [seen([-13.0, 27.0], [-13.0, 100.0]), square(20.0)];
        assert_boxes(&boxes(&setup, path, "plate"), &plates, "neck and eye");
        assert_boxes(&boxes(&setup, path, "hole"), &[square(4.75)], "the axle's hole");
        // Along the rotor's edge: inboard to the left, away from the axle to the top, whatever the side.
        let path = "caliper.throat";
        let bodies = [[-12.0, 15.0, -36.0, -2.0], [-12.0, 34.0, -14.0, 18.0], [26.0, 34.0, -18.0, 8.0]];
        assert_boxes(&boxes(&setup, path, "caliper"), &bodies, "bodies");
        assert_boxes(&boxes(&setup, path, "tab"), &[[15.0, 21.0, -35.0, -17.0]], "the tab behind its face");
        assert_boxes(&boxes(&setup, path, "pad"), &[[-4.9, -0.9, -8.0, 8.0], [0.9, 4.9, -8.0, 8.0]], "pads");
        let faced = boxes(&setup, "caliper", "caliper");
        let faces = [[-38.0, 38.0, -36.0, -2.0], [-17.0, 17.0, -14.0, 18.0], [-24.0, 12.0, -18.0, 8.0]];
        assert_boxes(&faced, &faces, "bodies on the outboard face");
        let post = setup_with(&json!({"caliper": {"mount": "post", "bolt_direction": [0, -1, 0]}}));
        assert_boxes(&boxes(&post, path, "tab"), &[], "a post has no tab");
    }
}

/// The leg leans as on a bicycle that is seen from its left: up it goes back, by the leg's angle to the ground.
#[test]
fn the_legs_angle_is_drawn_on_a_leg_that_leans_by_it() {
    for (side, angle, offset) in [(Side::Left, 65.0, 14.0), (Side::Right, 72.5, -11.0)] {
        let changes = json!({"fork": {"leg_angle": angle, "axle_offset": offset}});
        let setup = Setup { side, ..setup_with(&changes) };
        let drawing = read(&draw_measure(&setup, "fork.leg_angle", "1").unwrap());
        let (sin, cos) = f64::to_radians(angle).sin_cos();
        let page = |back: f64, up: f64| [back * sin + up * cos, back * cos - up * sin];
        let axis = ends(of(&drawing, "axis")[0]);
        for (end, up) in axis.into_iter().zip([20.0, 240.0]) {
            assert_near(distance(end, page(offset, up)), 0.0, DRAWN, "the tube's axis");
        }
        // From the leg to the ground behind the axle.
        let radius = 0.55 * 120.0;
        let heads: Vec<Point> = of(&drawing, "end").iter().map(|one| one.points()[0]).collect();
        assert_near(distance(heads[0], page(0.0, radius)), 0.0, DRAWN, "at the leg");
        assert_near(distance(heads[1], [radius, 0.0]), 0.0, DRAWN, "at the ground's line");
    }
}
