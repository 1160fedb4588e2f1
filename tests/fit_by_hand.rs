//! Pads on the band and the wheel's way out, against sums and searches that take nothing but the drawing for granted.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::fit::{Part, Parts, bridge_radius, pad_cover, pad_radius, radial, rotor_plane};
use tabwright_core::solid::{Slab, Solid, Spool, Vector};
use tabwright_core::{Setup, Side};
use tabwright_tests::{assert_near, report_of, setup_with};

/// The pad's share of the band, cut into strips across the rotor: from the band's lower circle to the rotor's edge.
fn cover_by_strips(setup: &Setup) -> f64 {
    const STRIPS: u32 = 20_000;
    let (pad, edge, middle) = (&setup.caliper.pad, setup.wheel.rotor_diameter / 2.0, pad_radius(setup));
    let band = edge - setup.wheel.track_width;
    let (low, high) = (middle - pad.height / 2.0, middle + pad.height / 2.0);
    let strip = |index: u32| {
        let x = pad.length * ((f64::from(index) + 0.5) / f64::from(STRIPS) - 0.5);
        let height = |radius: f64| (radius * radius - x * x).max(0.0).sqrt();
        (high.min(height(edge)) - low.max(height(band))).max(0.0)
    };
    (0..STRIPS).map(strip).sum::<f64>() / f64::from(STRIPS) / pad.height
}

#[test]
fn the_pads_cover_is_the_sum_of_strips() {
    let mut part = 0;
    for (reach, track, pad) in [
        (0.0, 16.0, json!({})),
        (6.0, 16.0, json!({"length": 44})),
        (-7.0, 12.0, json!({"height": 22})),
        (15.0, 20.0, json!({"length": 90, "height": 12})),
        (-19.0, 9.0, json!({"length": 18, "height": 9, "edge_inset": 3})),
        (-20.0, 8.0, json!({"length": 28, "height": 14})),
        (3.0, 30.0, json!({"length": 120, "height": 30, "edge_inset": -4})),
    ] {
        for rotor in [140, 203] {
            let setup = setup_with(&json!({
                "wheel": {"rotor_diameter": rotor, "track_width": track}, "caliper": {"pad": pad}, "tab": {"reach": reach},
            }));
            let (found, by_strips) = (pad_cover(&setup), cover_by_strips(&setup));
            assert_near(found.coverage, by_strips, 1e-5, &format!("{pad} {reach}"));
            let (edge, pad) = (f64::from(rotor) / 2.0, &setup.caliper.pad);
            let (low, high) = (found.radius - pad.height / 2.0, found.radius + pad.height / 2.0);
            assert_near(found.overhang, (high.hypot(pad.length / 2.0) - edge).max(0.0), 1e-9, "its corners");
            assert_near(found.below_band, (edge - track - low).max(0.0), 1e-9, "its lower edge");
            part += usize::from(by_strips > 0.05 && by_strips < 0.95);
        }
    }
    assert!(part >= 6, "{part}");
}

fn removal_setups() -> Vec<Setup> {
    let mut setups = Vec::new();
    for side in ["left", "right"] {
        for (clock, slot) in
            [(28, 180), (90, 95), (90, 130), (150, -170), (-60, 180), (-100, -90), (-178, 150), (10, -160), (60, 15)]
        {
            for (throat, shift) in [(3.0, 0.0), (14.0, 22.0)] {
                let mut json = tabwright_tests::default_json();
                let changes = json!({"side": side, "tab": {"clock": clock}, "dropout": {"slot_direction": slot}, "caliper": {"throat": throat}});
                tabwright_tests::merge(&mut json, &changes);
                // The bridge reaches further one way than the other.
                for corner in json["caliper"]["bodies"][0]["outline"].as_array_mut().unwrap() {
                    let cw = corner[0].as_f64().unwrap();
                    corner[0] = Value::from(cw + shift);
                }
                setups.push(Setup::read(&json).unwrap().0);
            }
        }
    }
    setups
}

/// The bridge as an arc of many points, the axle at many places along the slot: how near the rotor's edge comes to it.
#[test]
fn the_wheels_way_out_is_that_of_a_dense_look() {
    let (mut free, mut blocked) = (0, 0);
    for setup in removal_setups() {
        let (bridge, rotor) = (bridge_radius(&setup), setup.wheel.rotor_diameter / 2.0);
        let pad = &setup.caliper.pad;
        assert_near(bridge, pad_radius(&setup) + pad.height / 2.0 + setup.caliper.throat, 1e-9, "the bridge's inside");
        let corners = setup.caliper.bodies.iter().flat_map(|body| &body.outline);
        let (low, high) = corners.fold((f64::MAX, f64::MIN), |(low, high), [cw, _]| (low.min(*cw), high.max(*cw)));
        let way = if setup.side == Side::Left { 1.0 } else { -1.0 };
        let slot = radial(setup.dropout.slot_direction);
        let (mut least, mut where_least) = (f64::MAX, 0.0);
        for step in 0..=600 {
            let cw = low + (high - low) * f64::from(step) / 600.0;
            let point = radial(setup.tab.clock + way * (cw / bridge).asin().to_degrees()) * bridge;
            for part in 0..=400 {
                let travel = rotor * f64::from(part) / 400.0;
                let gap = (point - slot * travel).length() - rotor;
                if gap < least {
                    (least, where_least) = (gap, travel);
                }
            }
        }
        let found = report_of(&setup).wheel_removal;
        assert_eq!(found.comes_out, least > -1e-6, "{least}");
        assert_near(found.gap.unwrap(), least, 0.15, "how near");
        match found.travel {
            Some(travel) => {
                assert_near(travel, where_least, 0.5, "where");
                blocked += 1;
            }
            None => free += 1,
        }
    }
    assert!(free >= 6 && blocked >= 6, "{free} {blocked}");
}

fn slab(part: &Part) -> &Slab {
    match &part.solid {
        Solid::Slab(slab) => slab,
        Solid::Spool(_) => panic!("{} is flat", part.name),
    }
}

fn spool(part: &Part) -> &Spool {
    match &part.solid {
        Solid::Spool(spool) => spool,
        Solid::Slab(_) => panic!("{} is round", part.name),
    }
}

fn assert_slab(part: &Part, discs: &[[f64; 3]], [low, high]: [f64; 2]) {
    let slab = slab(part);
    assert_eq!(slab.discs.len(), discs.len(), "{}", part.name);
    for (disc, [back, up, radius]) in slab.discs.iter().zip(discs) {
        for (got, expected) in [(disc.back, back), (disc.up, up), (disc.radius, radius)] {
            assert_near(got, *expected, 1e-9, &part.name);
        }
    }
    assert_near(slab.low, low, 1e-9, &part.name);
    assert_near(slab.high, high, 1e-9, &part.name);
}

fn assert_spool(part: &Part, [start, end]: [Vector; 2], radii: [f64; 2]) {
    let spool = spool(part);
    assert!((spool.ends[0] - start).length() < 1e-9, "{} starts at {}", part.name, spool.ends[0]);
    assert!((spool.ends[1] - end).length() < 1e-9, "{} ends at {}", part.name, spool.ends[1]);
    assert_eq!(spool.radii, radii, "{}", part.name);
    let along = end - start;
    assert!(spool.axis.cross(along).length() < 1e-9 * along.length(), "{}", part.name);
}

/// Every part where the sizes put it, by hand: a hub of 118 mm with the rotor 17.5 inside, plates of 7 mm, a caliper straight
/// behind the axle, so that its own clockwise is down on the left side and up on the right.
#[test]
fn parts_lie_where_their_sizes_put_them() {
    for (side, down) in [("left", 1.0), ("right", -1.0)] {
        for (face, bolts) in [("inner", 1.0), ("outer", -1.0)] {
            let setup = setup_with(&json!({
                "side": side,
                "wheel": {
                    "hub_width": 118, "rotor_inset": 17.5, "rotor_diameter": 180, "rotor_thickness": 2.3, "tyre_radius": 340,
                    "flange_diameter": 62, "flange_inset": 31, "rim_diameter": 540, "nut_diameter": 27, "nut_height": 13,
                },
                "fork": {"tube_diameter": 28, "tube_gap": 133, "axle_offset": 7, "tube_end": 24},
                "dropout": {"thickness": 7, "eye_radius": 23, "neck_width": 30, "weld_length": 88},
                "caliper": {"mating_face": face, "bolt": {"tool_diameter": 15, "tool_length": 43}},
                "tab": {"clock": 90, "offset": 2, "edge": 11},
            }));
            let parts = Parts::of(&setup);
            // Pads at 90 − 0.5 − 8 = 81.5, holes 26 further out and 25.5 to either side; the neck ends in (7, 24 + 88 − 15).
            let (plate, tab, slot) = ([59.0, 66.0], [61.0, 68.0], 41.5);
            let holes = [[107.5, 25.5 * down], [107.5, -25.5 * down]];
            let land = |[back, up]: [f64; 2]| [back, up, 11.0];
            assert_slab(&parts.rotor, &[[0.0, 0.0, 90.0]], [slot - 1.15, slot + 1.15]);
            assert_slab(&parts.nut, &[[0.0, 0.0, 13.5]], [66.0, 79.0]);
            assert_slab(&parts.eye, &[[0.0, 0.0, 23.0]], plate);
            assert_slab(&parts.neck, &[[0.0, 0.0, 15.0], [7.0, 97.0, 15.0]], plate);
            assert_slab(parts.lands.as_ref().unwrap(), &holes.map(land), tab);
            // From the upper hole the eye is 110.5 mm away and the neck's end 123.3.
            let upper = [107.5, 25.5, 11.0];
            assert_slab(parts.web.as_ref().unwrap(), &[upper, [0.0, 0.0, 18.4]], tab);
            let tube = Vector::new(7.0, 24.0, 133.0 / 2.0 + 14.0);
            assert_spool(&parts.tube, [tube, tube + Vector::Y * 300.0], [14.0, 14.0]);
            assert_spool(&parts.spokes, [Vector::Z * 28.0, Vector::ZERO], [31.0, 270.0]);
            for (body, part) in setup.caliper.bodies.iter().zip(&parts.caliper) {
                let corner = |[cw, rad]: &[f64; 2]| [81.5 + rad, -cw * down, 0.0];
                let corners: Vec<[f64; 3]> = body.outline.iter().map(corner).collect();
                assert_slab(part, &corners, [slot - body.inboard, slot + body.outboard]);
            }
            for ([back, up], tool) in holes.into_iter().zip(&parts.tools) {
                let start = Vector::new(back, up, if bolts > 0.0 { 68.0 } else { 61.0 });
                assert_spool(tool, [start, start + Vector::Z * (43.0 * bolts)], [7.5, 7.5]);
            }
            // The line leaves 24 mm to one side and 13 mm out, on its outboard face, along (−0.7, 0.714).
            let exit = Vector::new(81.5 + 13.0, 24.0 * down, slot + 30.0);
            let way = Vector::new(0.714, 0.7 * down, 0.0).normalize();
            assert_spool(&parts.line, [exit, exit + way * 30.0], [2.5, 2.5]);
        }
    }
}

/// Posts have no flat tab; the key comes along their bolts from their own faces.
#[test]
fn keys_come_along_the_bolts_of_posts() {
    let caliper = json!({"mount": "post", "bolt_direction": [0, -2, 0], "mount_depth": 6});
    let setup = setup_with(&json!({"caliper": caliper, "tab": {"clock": 90}}));
    let parts = Parts::of(&setup);
    assert!(parts.lands.is_none() && parts.web.is_none());
    for (up, tool) in [25.5, -25.5].into_iter().zip(&parts.tools) {
        let start = Vector::new(93.0 + 26.0, up, 35.0 + 6.0);
        assert_spool(tool, [start, start + Vector::X * 40.0], [7.0, 7.0]);
    }
}

/// The rotor runs as far inside the dropout as the hub has it.
#[test]
fn the_rotor_runs_where_the_hub_has_it() {
    let setup = setup_with(&json!({"wheel": {"hub_width": 118, "rotor_inset": 17.5}}));
    assert_near(rotor_plane(&setup), 41.5, 1e-12, "half of 118 less 17.5");
}
