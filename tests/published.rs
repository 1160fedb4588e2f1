//! Published figures, each with its source.

use serde_json::json;
use tabwright_tests::{assert_near, report_of, setup_with};

/// Post-mount placement: P. Verdone, "The problem with flat mount", peterverdone.com/the-problem-with-flat-mount, a
/// frame builder's own page, second-hand. Top = sin 60° · k + cos 60° · 22.06102725, Bolt 1 = cos 60° · k − sin 60° ·
/// 22.06102725, k = 51.81082007 + (D − 160) / 2. Bolt 2 = Bolt 1 + 74 (post spacing: jitetan.com/term/disc_brake_za.html);
/// the page's own Bolt 2 is cut off in the copy that was read, so this one is inferred.
#[test]
fn posts_stand_where_the_published_equations_put_them() {
    let (k_160, aside, spacing) = (51.81082007, 22.06102725, 74.0);
    let (sin, cos) = 60.0_f64.to_radians().sin_cos();
    let (edge_inset, pad_height) = (0.5, 16.0);
    let pads_160 = 80.0 - edge_inset - pad_height / 2.0;
    // The caliper frame's radius is the published path; 60° lies between it and the posts' face.
    let first = [-aside, k_160 - pads_160];
    let second = [first[0] + spacing * sin, first[1] + spacing * cos];
    let published = [
        (140.0, 47.240, 1.800, 75.800),
        (160.0, 55.900, 6.800, 80.800),
        (180.0, 64.560, 11.800, 85.800),
        (200.0, 73.221, 16.800, 90.800),
        (203.0, 74.520, 17.550, 91.550),
    ];
    for side in ["left", "right"] {
        // A caliper for the other side is the mirror image of this one.
        let hand = if side == "left" { 1.0 } else { -1.0 };
        let mirrored = |[cw, rad]: [f64; 2]| [hand * cw, rad];
        for (rotor, top, bolt_1, bolt_2) in published {
            for clock in [-75.0, 28.0, 160.0] {
                let report = report_of(&setup_with(&json!({
                    "side": side,
                    "wheel": {"rotor_diameter": rotor},
                    "tab": {"clock": clock},
                    "caliper": {
                        "mount": "post",
                        "holes": [mirrored(first), mirrored(second)],
                        "bolt_direction": [hand * cos, -sin, 0.0],
                        "mount_depth": 0.0,
                    },
                })));
                let what = format!("rotor {rotor}, {side}, clock {clock}");
                let post = report.post.as_ref().map(|post| (post.face_distance, post.along[0], post.along[1]));
                let (face, along_1, along_2) = post.unwrap_or_default();
                assert_near(face, top, 0.005, &format!("Top, {what}"));
                assert_near(along_1, bolt_1, 0.005, &format!("Bolt 1, {what}"));
                assert_near(along_2, bolt_2, 0.005, &format!("Bolt 2, {what}"));
            }
        }
    }
}

/// Side-lug hole spacing 51 mm: jitetan.com/term/disc_brake_za.html.
#[test]
fn side_lug_holes_are_51_mm_apart() {
    let report = report_of(&setup_with(&json!({})));
    assert_near(report.hole_spacing, 51.0, 1e-9, "hole spacing");
    for hole in report.holes {
        assert_near(hole.distance, hole.back.hypot(hole.up), 1e-9, "straight distance");
        // Hand calculation: pads at 101.5 − 0.5 − 8 = 93 mm, holes 26 mm further out and 25.5 mm to either side.
        assert_near(hole.distance, 119.0_f64.hypot(25.5), 1e-9, "straight distance by hand");
    }
}
