//! Forces in balance on every body, and which way they point.

use proptest::prelude::*;
use serde_json::{Value, json};
use tabwright_core::fit::CaliperFrame;
use tabwright_core::load::{ForceVector, Loads, Statics, bolt_points, brake_case, loads, tube_seams};
use tabwright_core::solid::Vector;
use tabwright_core::{MatingFace, Setup, fit};
use tabwright_tests::{assert_near, fixture_text, setup_with};

fn loads_of(setup: &Setup) -> Loads {
    loads(setup).unwrap_or_else(|problems| unreachable!("{problems:?}"))
}

/// What is left of forces and moments on a body, as shares of the largest term; moments about a far-off point.
fn rest(forces: &[ForceVector], body: &str) -> (usize, f64, f64) {
    let about = Vector::new(37.0, -210.0, 55.0);
    let (mut force, mut moment, mut largest, mut largest_moment) = (Vector::ZERO, Vector::ZERO, 1e-12_f64, 1e-12_f64);
    let mut count = 0;
    for push in forces.iter().filter(|push| push.on == body) {
        let (at, own) = (Vector::from(push.point), Vector::from(push.force));
        let turn = (at - about).cross(own);
        force += own;
        moment += turn + Vector::from(push.moment);
        largest = largest.max(own.length());
        largest_moment = largest_moment.max(turn.length()).max(Vector::from(push.moment).length());
        count += 1;
    }
    (count, force.length() / largest, moment.length() / largest_moment)
}

/// Sums of forces and of moments are nought on wheel, caliper, plate and fork, for setups of all kinds: both sides, both
/// mounts, all joints (made up, `fixtures/reference/kernel.jsonl`), every case.
#[test]
fn every_body_is_in_balance() {
    let text = fixture_text("reference/kernel.jsonl");
    let words = ["iso_static", "iso_fatigue", "rider", "own"];
    let (mut tried, mut worst) = (0, 0.0_f64);
    for (index, line) in text.lines().enumerate() {
        let case: Value = serde_json::from_str(line).unwrap_or_default();
        let mut setup = setup_with(&case["changes"]);
        setup.load = setup_with(&json!({"load": {
            "case": words[index % words.len()],
            "slope": (index % 31) as f64 - 15.0,
            "friction": 0.3 + (index % 9) as f64 / 10.0,
        }}))
        .load;
        let vectors = Statics::of(&setup, &brake_case(&setup)).vectors();
        for (body, forces) in [("wheel", 4), ("caliper", 2), ("plate", 3), ("fork", 3)] {
            let (count, force, moment) = rest(&vectors, body);
            assert_eq!(count, forces, "{body}");
            assert!(force < 1e-9 && moment < 1e-9, "{body}, {line}: {force:e} and {moment:e}");
            worst = worst.max(force).max(moment);
        }
        tried += 1;
    }
    println!("{tried} setups, 4 bodies each: the largest rest is {worst:e} of the largest term");
    assert!(tried >= 300);
}

/// What one body does to another, the other does back.
#[test]
fn action_is_reaction() {
    let loads = loads_of(&Setup::default());
    let find =
        |id: &str| loads.forces.iter().find(|force| force.id == id).unwrap_or_else(|| unreachable!("no force {id}"));
    for (one, other) in [
        ("pads_on_wheel", "pads_on_caliper"),
        ("plate_on_wheel", "axle_on_plate"),
        ("far_on_wheel", "axle_on_far"),
        ("plate_on_caliper", "caliper_on_plate"),
        ("tube_on_plate", "plate_on_tube"),
    ] {
        let (one, other) = (find(one), find(other));
        assert_eq!(one.point, other.point);
        for axis in 0..3 {
            assert!(
                (one.force[axis] + other.force[axis]).abs() < 1e-9
                    && (one.moment[axis] + other.moment[axis]).abs() < 1e-6
            );
        }
    }
}

/// By hand, on the default setup with 1000 N: pads at 93 mm and 28°, rotor at 35 mm, dropouts' middles at ± 53 mm.
/// P = 340 000 / 93 = 3655.9 N along (cos 28°, − sin 28°) = (3228.0, −1716.4). Moments about the far dropout: the near one
/// gets 500 + 3228.0 · 88 / 106 = 3179.8 back and −1716.4 · 88 / 106 = −1424.9 up.
#[test]
fn the_dropouts_share_as_by_hand() {
    let setup = Setup::default();
    let statics = Statics::of(&setup, &brake_case(&setup));
    let [near, far] = [statics.axle_on_plate.force, statics.axle_on_far.force];
    println!("near {near}, far {far}");
    for (got, expected) in [(near.x, 3179.8), (near.y, -1424.9), (far.x, 1048.1), (far.y, -291.5)] {
        assert!((got - expected).abs() < 0.1, "{got} for {expected}");
    }
}

/// jitetan.com/term/disc_brake_za.html: a caliper behind the leg pushes a front wheel out of its slot, one ahead of the leg
/// pushes it in. By the same sign friction draws a caliper behind the leg upwards.
#[test]
fn behind_the_leg_the_axle_is_lifted_and_ahead_it_is_seated() {
    for side in ["left", "right"] {
        for (clock, lifts) in
            [(45.0, true), (90.0, true), (135.0, true), (-45.0, false), (-90.0, false), (-135.0, false)]
        {
            let setup = setup_with(&json!({"side": side, "tab": {"clock": clock}, "dropout": {"slot_direction": 180}}));
            let loads = loads_of(&setup);
            let axle =
                loads.groups.iter().flat_map(|group| &group.results).find(|result| result.id == "axle_retention");
            let along = axle.map_or(f64::NAN, |result| result.value);
            println!("{side}, caliper at {clock}: {along:.0} N out of the slot");
            assert_eq!(along > 0.0, lifts, "{side} {clock}: {along}");
            let seated = loads.seating.iter().any(|arc| arc.contains(clock));
            assert_eq!(seated, !lifts);
            let drag =
                loads.forces.iter().find(|force| force.id == "pads_on_caliper").map_or([0.0; 3], |force| force.force);
            assert_eq!(drag[1] > 0.0, lifts, "friction draws the caliper up behind the leg");
        }
    }
}

/// Seating angles are those where the force along the slot is no more than nought, whatever the slot and the case.
#[test]
fn seating_arcs_are_where_the_axle_is_pressed_in() {
    let mut edges = 0;
    for case in ["iso_static", "rider", "own"] {
        for slot in [180.0, -90.0, 90.0, 150.0, -170.0, 20.0] {
            let at = |clock: f64| {
                setup_with(
                    &json!({"load": {"case": case}, "tab": {"clock": clock}, "dropout": {"slot_direction": slot}}),
                )
            };
            let arcs = loads_of(&at(0.0)).seating;
            for step in 0..72 {
                let clock = f64::from(step) * 5.0 - 179.0;
                let setup = at(clock);
                let statics = Statics::of(&setup, &brake_case(&setup));
                let along = statics.axle_on_plate.force.dot(fit::radial(slot));
                assert_eq!(
                    arcs.iter().any(|arc| arc.contains(clock)),
                    along <= 0.0,
                    "{case} slot {slot} clock {clock}: {along}"
                );
            }
            edges += arcs.iter().filter(|arc| arc.width < 360.0).count();
        }
    }
    println!("{edges} arcs looked at");
    let closed = setup_with(&json!({"dropout": {"closed": true}}));
    assert!(loads_of(&closed).seating.iter().all(|arc| arc.width == 360.0));
}

/// At either end of a seating arc the axle is neither pressed in nor pushed out.
#[test]
fn seating_ends_where_nothing_pushes_along_the_slot() {
    let mut ends = 0;
    for (case, slot, leg) in [("iso_static", 90.0, 65), ("own", -70.0, 65), ("rider", 180.0, 72), ("rider", 130.0, 58)]
    {
        let at = |clock: f64| {
            let fork = json!({"leg_angle": leg});
            let changes = json!({"load": {"case": case}, "tab": {"clock": clock}, "dropout": {"slot_direction": slot}, "fork": fork});
            let setup = setup_with(&changes);
            let statics = Statics::of(&setup, &brake_case(&setup));
            (statics.axle_on_plate.force.dot(fit::radial(slot)) / statics.pad_force, setup)
        };
        for arc in loads_of(&at(0.0).1).seating {
            assert!(arc.width < 360.0, "{case} {slot}");
            for end in [arc.from, arc.to()] {
                assert!(at(end).0.abs() < 1e-9, "{case} {slot}: {} at {end}", at(end).0);
            }
            assert!(at(arc.middle()).0 < -0.1);
            ends += 2;
        }
    }
    assert!(ends >= 8, "{ends} ends");
}

/// On a small wheel with a large rotor the pads' force is less than the road's: the slot alone decides.
#[test]
fn where_the_road_outweighs_the_pads_the_slot_alone_decides() {
    let seats = |slot: f64| {
        let setup = setup_with(&json!({
            "wheel": {"tyre_radius": 80, "rotor_diameter": 320, "rotor_inset": 45}, "tab": {"reach": 10},
            "dropout": {"slot_direction": slot},
        }));
        loads_of(&setup).seating.iter().map(|arc| arc.width).collect::<Vec<_>>()
    };
    assert_eq!(seats(-90.0), [360.0], "the road presses the axle into a slot that opens forward");
    assert!(seats(90.0).is_empty(), "and out of one that opens backward");
    let half = seats(180.0);
    assert!(half.len() == 1 && (half[0] - 180.0).abs() < 1e-9, "and does neither along the leg: {half:?}");
}

/// Side lugs meet the tab's inner or outer face, posts their own faces; by hand from widths and depths.
#[test]
fn bolts_meet_the_mating_face() {
    for (face, offset, side) in [("inner", 1.5, "left"), ("outer", -2.0, "right"), ("outer", 3.0, "left")] {
        let setup = setup_with(&json!({
            "side": side, "tab": {"offset": offset, "clock": 70}, "caliper": {"mating_face": face},
        }));
        let thick = if setup.caliper.mating_face == MatingFace::Outer { 6.0 } else { 0.0 };
        for point in bolt_points(&setup) {
            assert_near(point.z, 50.0 + offset + thick, 1e-12, "the face");
            // 25.5 mm beside and 26 beyond the pads' middle at 93.
            assert_near(point.x.hypot(point.y), 119.0_f64.hypot(25.5), 1e-9, "from the axle");
        }
    }
    let caliper = json!({"mount": "post", "bolt_direction": [0, -1, 0], "mount_depth": 7});
    let post = setup_with(&json!({"caliper": caliper}));
    bolt_points(&post).iter().for_each(|point| assert_near(point.z, 35.0 + 7.0, 1e-12, "a post"));
}

/// Where each force is drawn: the caliper's between its bolts, the tube's in the middle of the welds, or at the tube's end
/// where there are none, the crown's 400 mm above the axle on the tube's line.
#[test]
fn forces_are_told_where_they_act() {
    for (gap, offset, welded) in [(112.0, 8.0, true), (111.992, -6.0, false), (96.0, 11.0, true)] {
        let setup = setup_with(&json!({
            "fork": {"tube_gap": gap, "axle_offset": offset, "tube_end": 27},
            "caliper": {"holes": [[-24, 21], [27, 34]]},
            "tab": {"clock": 50},
        }));
        let statics = Statics::of(&setup, &brake_case(&setup));
        let [first, second] = bolt_points(&setup);
        let halfway = first + (second - first) / 2.0;
        assert!((statics.caliper_on_plate.point - halfway).length() < 1e-9, "{}", statics.caliper_on_plate.point);
        let seams = tube_seams(&setup);
        assert_eq!(seams.is_some(), welded, "{gap}");
        let bare = Vector::new(offset, 27.0, 53.0);
        let weld = seams.map_or(bare, |seams| seams.centroid());
        assert!((statics.plate_on_tube.point - weld).length() < 1e-9, "{}", statics.plate_on_tube.point);
        assert_eq!(statics.crown_on_fork.point, Vector::new(offset, 400.0, 0.0));
        let pads = CaliperFrame::of(&setup).origin;
        assert_eq!((statics.pads_on_wheel.point, statics.axle_on_far.point), (pads, Vector::Z * -53.0));
    }
}

/// A forward slot turns the force of a caliper behind the leg onto its wall; a closed hole ends the question.
#[test]
fn other_slots_change_what_they_say() {
    let loads = loads_of(&setup_with(&json!({"tab": {"clock": 90}})));
    let seats: Vec<(Option<f64>, bool)> = loads.slots.iter().map(|slot| (slot.direction, slot.seats)).collect();
    assert_eq!(seats, [(Some(180.0), false), (Some(-90.0), true), (Some(90.0), false), (None, true)]);
    let closed = loads_of(&setup_with(&json!({"dropout": {"closed": true}})));
    let ids: Vec<&str> = closed.groups[1].results.iter().map(|result| result.id).collect();
    assert_eq!(ids, ["axle_across", "axle_clamp"]);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// The mirror image of a bicycle has the mirror image's loads: in the leg frame the very same numbers.
    #[test]
    fn left_and_right_are_loaded_alike(clock in -180.0..180.0_f64, rotor in 140.0..220.0_f64, leg in 50.0..80.0_f64) {
        let of = |side: &str| loads_of(&setup_with(&json!({
            "side": side, "wheel": {"rotor_diameter": rotor}, "fork": {"leg_angle": leg}, "tab": {"clock": clock}, "load": {"case": "rider"},
        })));
        // The default caliper's holes are symmetrical, so that it is its own mirror image here.
        let (left, right) = (of("left"), of("right"));
        for (a, b) in left.forces.iter().zip(&right.forces) {
            for axis in 0..3 {
                prop_assert!((a.force[axis] - b.force[axis]).abs() < 1e-9 * a.size.max(1.0));
            }
        }
    }

    /// No input gives a number that is none, and what is above its limit is said in words first.
    #[test]
    fn every_number_is_a_number(
        clock in -180.0..180.0_f64, rotor in 90.0..320.0_f64, thickness in 1.0..25.0_f64, edge in 2.0..40.0_f64, leg in 0.5..20.0_f64,
        lap in 5.0..300.0_f64, offset in -100.0..150.0_f64, gap in 40.0..300.0_f64, tube in 8.0..90.0_f64, neck in 5.0..120.0_f64,
        words in 0..1296_usize,
    ) {
        let of = |list: &[&'static str], place: usize| list[place % list.len()];
        let changes = json!({
            "wheel": {"rotor_diameter": rotor},
            "fork": {"axle_offset": offset, "tube_gap": gap, "tube_diameter": tube},
            "dropout": {"thickness": thickness, "weld_length": lap, "neck_width": neck, "closed": words % 5 == 0, "slot_direction": clock / 2.0},
            "tab": {"clock": clock, "edge": edge, "build": of(&["one_piece", "butt_welded"], words)},
            "load": {
                "case": of(&["iso_static", "iso_fatigue", "rider", "own"], words / 2),
                "material": of(&["mild_steel", "4130", "stainless_304", "6061_t6", "a36", "own"], words / 3),
                "metal_friction": if words % 7 == 0 { 0.0 } else { 0.2 },
                "nut_torque": if words % 11 == 0 { 0.0 } else { 20.0 },
                "bolt_torque": if words % 13 == 0 { 0.0 } else { 6.0 },
                "weld": {"leg": leg, "kind": of(&["fillet", "butt"], words / 5), "method": of(&["asd", "ec3_simplified", "ec3_directional"], words / 7)},
            },
        });
        let mut json = tabwright_tests::default_json();
        tabwright_tests::merge(&mut json, &changes);
        // Wall and pads have limits of their own.
        json["fork"]["tube_wall"] = json!(1.0_f64.min(tube / 4.0));
        let Ok((setup, _)) = Setup::read(&json) else { return Ok(()); };
        let loads = loads_of(&setup);
        let text = serde_json::to_string(&loads).unwrap_or_default();
        prop_assert!(!text.contains("NaN") && !text.contains("inf "), "{}", text);
        let mut over = 0;
        for result in loads.groups.iter().flat_map(|group| &group.results) {
            prop_assert!(result.value.is_finite(), "{}", result.id);
            prop_assert!(result.allowable.is_none_or(f64::is_finite) && result.utilisation.is_none_or(|share| share.is_finite() && share >= 0.0), "{}", result.id);
            prop_assert!(!result.label.is_empty() && !result.formula.is_empty() && !result.source.is_empty() && !result.caution.is_empty(), "{}", result.id);
            prop_assert!(!result.sentence.is_empty() && !result.sentence.contains("NaN"), "{}", result.id);
            if result.utilisation > Some(1.0) {
                over += 1;
                prop_assert!(!result.verdict.is_empty() && result.verdict != "Holds");
            }
        }
        if loads.worst > Some(1.0) {
            prop_assert!(loads.headline.as_ref().is_some_and(|text| text.starts_with("Too much: ") && text.ends_with("Do not build it like this.")));
        }
        prop_assert!(loads.headline.is_none() || over > 0);
        prop_assert!(loads.caution.contains("never an approval") && loads.caution.contains("roof-test") && loads.caution.contains("qualified welder"));
    }
}
