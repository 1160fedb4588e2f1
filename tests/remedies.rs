//! Remedies for a tacked or welded part, by hand: which is given, how much of it, and in which words.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::build::{Advice, AdviceKind, Reading, SHIMS};
use tabwright_core::{MatingFace, Setup};
use tabwright_tests::tacked::{Part, tacked, welded};
use tabwright_tests::{assert_near, pair, report_of, setup_with};

/// Each reading twice: what is odd is believed then.
fn twice(setup: &Setup, part: &Part) -> Vec<(Reading, f64)> {
    let readings = part.readings(setup);
    readings.iter().chain(&readings).copied().collect()
}

fn advice(setup: &Setup, part: &Part) -> Advice {
    tacked(setup, &twice(setup, part)).advice
}

fn advice_when_welded(setup: &Setup, part: &Part) -> Advice {
    welded(setup, &twice(setup, part)).advice
}

/// A setup whose caliper cannot be in the plate's way, so that it may sit anywhere.
fn design(changes: &Value) -> Setup {
    let mut setup = setup_with(changes);
    setup.caliper.bodies.iter_mut().for_each(|body| body.bolted = true);
    setup
}

/// So much is wanted of every gap that none may become closer than it was designed, and pads so low, flush with the
/// rotor's edge, that half a millimetre outward is more than a twentieth of them.
fn tight(changes: &Value) -> Setup {
    let mut setup = design(changes);
    (setup.caliper.pad.height, setup.caliper.pad.edge_inset) = (4.0, 0.0);
    let required = &mut setup.required;
    (required.tube, required.plate, required.spokes, required.nut) = (50.0, 50.0, 50.0, 50.0);
    (required.rotor, required.tool, required.line) = (50.0, 50.0, 50.0);
    setup
}

/// At 90° the pads lie straight behind the axle, hole 1 above hole 2; at 45° the line of the holes and the radius to each
/// run askew to the leg. Of two holes that could be filed alike, the one is named that takes no gap from the caliper.
#[test]
fn a_hole_off_its_place_is_filed_back_in_words_that_say_the_way() {
    for (clock, hole, by, words) in [
        (90, 0, [0.0, -0.8], "away from hole 2"),
        (90, 0, [0.0, 0.8], "towards hole 2"),
        (45, 1, [-0.5, 0.5], "away from hole 1"),
        (90, 0, [1.1, 0.0], "towards the axle"),
        (90, 1, [-1.1, 0.0], "away from the axle"),
        (90, 1, [0.8, 0.8], "forwards and down the leg"),
        (90, 0, [-0.7, 0.9], "backwards and down the leg"),
        (45, 0, [0.9, 0.0], "forwards"),
        (45, 1, [-0.9, 0.0], "backwards"),
        (45, 1, [0.0, 0.9], "down the leg"),
        (45, 0, [0.0, -0.9], "up the leg"),
        (45, 0, [-0.9, -0.2], "backwards"),
        (45, 0, [-0.9, -0.42], "backwards and up the leg"),
        // Ahead of the leg hole 2 is the upper one.
        (-45, 1, [0.5, 0.5], "towards hole 1"),
    ] {
        let setup = tight(&json!({"tab": {"clock": clock}, "fork": {"axle_offset": 2}}));
        let mut moves = [[0.0; 2]; 2];
        moves[hole] = by;
        let part = Part::designed(&setup).moved(moves, [0.0; 2]);
        let size = by[0].hypot(by[1]);
        for (advice, then) in
            [(advice(&setup, &part), " With that it can be welded."), (advice_when_welded(&setup, &part), "")]
        {
            assert_eq!(advice.kind, AdviceKind::File, "{clock}°, {by:?}: {}", advice.text);
            let file = advice.file.unwrap();
            assert_eq!(file.hole, hole as f64 + 1.0, "{clock}°, {by:?}");
            assert_near(file.amount, size, 1e-6, "as far as it is off");
            assert_near(file.direction[0], -by[0] / size, 1e-6, "back");
            assert_near(file.direction[1], -by[1] / size, 1e-6, "up");
            assert_eq!(file.towards, words);
            assert_eq!(advice.title, format!("File hole {} by {size:.2} mm", hole + 1));
            // ISO 273, medium: a hole of 6.6 for a bolt of 6.
            let text = format!(
                "File hole {} long by {size:.2} mm, {words}. The bolts' play is 0.60 mm. Put a hardened washer over the slot.{then}",
                hole + 1
            );
            assert!(advice.text.starts_with(&text), "{}", advice.text);
        }
    }
}

/// From 1.5 mm on, or where less than 2 mm would be left beside a slot that is 3.3 mm from its middle to its side.
#[test]
fn a_slot_is_no_longer_than_is_good() {
    for (edge, most) in [(9.0, 1.5), (6.5, 1.2), (6.1, 0.8)] {
        let mut setup = tight(&json!({"tab": {"clock": 90}}));
        setup.tab.edge = edge;
        for (by, kind) in [(most - 0.01, AdviceKind::File), (most + 0.01, AdviceKind::Break)] {
            let part = Part::designed(&setup).moved([[-by, 0.0], [0.0; 2]], [0.0; 2]);
            assert_eq!(advice(&setup, &part).kind, kind, "edge {edge}, off by {by}");
        }
    }
    let mut post = tight(&json!({"tab": {"clock": 90}}));
    post.caliper.mount = tabwright_core::Mount::Post;
    post.caliper.bolt_direction = Some([0.0, -1.0, 0.0]);
    let part = Part::designed(&post).moved([[1.0, 0.0], [0.0; 2]], [0.0; 2]);
    assert_eq!(advice(&post, &part).kind, AdviceKind::Break, "a post's thread cannot be filed");
    let aside = Part::designed(&post).moved([[0.0; 2]; 2], [3.0; 2]);
    assert_eq!(advice(&post, &aside).kind, AdviceKind::Break, "nor is a face shimmed that is none");
}

/// With the holes' line askew too: what is filed for the spacing alone runs along it, by the misfit.
#[test]
fn holes_too_far_apart_are_filed_along_their_line() {
    for (side, clock) in [("left", 67), ("right", 112), ("left", -70)] {
        let setup = design(&json!({
            "side": side, "tab": {"clock": clock}, "fork": {"axle_offset": 2},
            "caliper": {"holes": [[-22, 30], [29, 21]]}, "required": {"tube": 0.1, "plate": 0.1, "line": 0.1},
        }));
        let own = 51.0_f64.hypot(9.0);
        let along = Part::designed(&setup).along();
        for misfit in [0.9, -0.8] {
            // Hole 1 alone is off, and aside too, so that the way back to its design is longer than that along the line.
            let aside = 0.7;
            let by = [-misfit * along[0] - aside * along[1], -misfit * along[1] + aside * along[0]];
            let part = Part::designed(&setup).moved([by, [0.0; 2]], [0.0; 2]);
            let advice = advice(&setup, &part);
            assert_eq!(advice.kind, AdviceKind::File, "{}", advice.text);
            let file = advice.file.unwrap();
            assert_near(file.amount, (part.spacing() - own).abs(), 1e-6, "by the misfit");
            let (now, way) = (part.along(), if (file.hole == 1.0) == (misfit > 0.0) { 1.0 } else { -1.0 });
            assert_near(file.direction[0], way * now[0], 1e-6, "back along the line");
            assert_near(file.direction[1], way * now[1], 1e-6, "up along the line");
            let other = if file.hole == 1.0 { 2 } else { 1 };
            let words = if misfit > 0.0 { "towards" } else { "away from" };
            assert_eq!(file.towards, format!("{words} hole {other}"));
        }
    }
}

/// Hole 2 alone is off, along the line and a little aside. To file hole 1 would take the caliper nearer to the tube, so it
/// is hole 2, along the line, as that is shorter than the way back to its design.
#[test]
fn the_second_hole_is_filed_where_the_first_would_take_a_gap() {
    for (side, along, words) in [("left", -0.9, "away from hole 1"), ("right", 0.9, "towards hole 1")] {
        let mut setup = design(&json!({"side": side, "tab": {"clock": 45}, "fork": {"axle_offset": 2}}));
        setup.required.line = 0.1;
        setup.required.tube = pair(&report_of(&setup), "caliper/tube").gap - 0.1;
        let designed = Part::designed(&setup);
        let line = designed.along();
        // Outward at 45° is as far back as up.
        let by = line.map(|way| along * way + 0.25 * 0.5_f64.sqrt());
        let part = designed.moved([[0.0; 2], by], [0.0; 2]);
        let advice = advice(&setup, &part);
        assert_eq!(advice.kind, AdviceKind::File, "{side}: {}", advice.text);
        let (file, now) = (advice.file.unwrap(), part.along());
        assert_eq!((file.hole, file.towards.as_str()), (2.0, words));
        assert_near(file.amount, (part.spacing() - 51.0).abs(), 1e-6, "by the misfit");
        assert_near(file.direction[0], -along.signum() * now[0], 1e-6, "back along the line");
        assert_near(file.direction[1], -along.signum() * now[1], 1e-6, "up along the line");
    }
}

/// Where the caliper sits against the rotor: the face under the pads, less the depth of the slot.
fn misalignment(setup: &Setup, part: &Part) -> f64 {
    let [[x1, y1], [x2, y2]] = setup.caliper.holes;
    // The pads' middle is the origin of the caliper's own frame.
    let share = -(x1 * (x2 - x1) + y1 * (y2 - y1)) / ((x2 - x1).powi(2) + (y2 - y1).powi(2));
    let face = part.steps[0] * (1.0 - share) + part.steps[1] * share;
    let face = if setup.caliper.mating_face == MatingFace::Outer { face + setup.dropout.thickness } else { face };
    face - setup.caliper.mount_depth + part.inset
}

fn shimmed_setups() -> Vec<Setup> {
    [json!({}), json!({"side": "right", "caliper": {"mating_face": "outer", "mount_depth": 21}})]
        .into_iter()
        .map(|mut changes| {
            changes["tab"] = json!({"clock": 75, "offset": 0.3});
            changes["wheel"] = json!({"rotor_inset": 14.8});
            changes["caliper"]["holes"] = json!([[-18, 30], [33, 21]]);
            design(&changes)
        })
        .collect()
}

/// Packs of at most two common shims, nothing included.
fn packs() -> Vec<f64> {
    let mut all = vec![0.0];
    all.extend(SHIMS);
    all.extend(SHIMS.iter().flat_map(|one| SHIMS.map(|other| one + other)));
    all
}

#[test]
fn a_welded_tab_that_tilts_is_shimmed_by_the_packs_that_set_it_straightest() {
    let mut titles = Vec::new();
    for setup in shimmed_setups() {
        // Shims move the caliper inboard from an inner face, outboard from an outer one.
        let way = if setup.caliper.mating_face == MatingFace::Outer { 1.0 } else { -1.0 };
        for steps in [[-0.3, 0.55], [0.6, -0.25], [0.1, 0.97], [1.3, 2.2], [2.4, 1.5], [2.6, 3.4]] {
            let part = Part::designed(&setup).moved([[0.0; 2]; 2], steps.map(|step| -way * step));
            assert_eq!(advice(&setup, &part).kind, AdviceKind::Break, "a tab that is only tacked is set straight");
            let advice = advice_when_welded(&setup, &part);
            assert_eq!(advice.kind, AdviceKind::Shim, "{steps:?}: {}", advice.text);
            let shim = advice.shim.unwrap();
            let then = |thickness: [f64; 2]| {
                let mut part = part;
                part.steps.iter_mut().zip(thickness).for_each(|(step, by)| *step += way * by);
                part
            };
            let off = |part: &Part| misalignment(&setup, part).hypot(part.steps[1] - part.steps[0]);
            // Bolts bend where packs differ by more than half a millimetre.
            let choices = packs().into_iter().flat_map(|one| packs().into_iter().map(move |other| [one, other]));
            let tapered = choices.filter(|[one, other]| (one - other).abs() > 1e-6 && (one - other).abs() <= 0.5);
            let least = tapered.map(|choice| off(&then(choice))).fold(f64::MAX, f64::min);
            let done = then(shim.thickness);
            assert_near(off(&done), least, 1e-6, "nothing sets it straighter");
            assert_near(shim.misalignment, misalignment(&setup, &done), 1e-6, "the slot then");
            let tilt = ((done.steps[1] - done.steps[0]) / done.spacing()).atan().to_degrees();
            assert_near(shim.tilt, tilt, 1e-6, "the tilt then");
            let pack = |hole: usize| {
                let pieces: Vec<String> = shim.pieces[hole].iter().map(|piece| format!("{piece:.2} mm")).collect();
                format!("{:.2} mm ({})", shim.thickness[hole], pieces.join(" + "))
            };
            let [one, other] = shim.thickness;
            let (title, put) = if one == 0.0 {
                (format!("Shim hole 2 by {other:.2} mm"), format!("{} under the bolt of hole 2", pack(1)))
            } else if other == 0.0 {
                (format!("Shim hole 1 by {one:.2} mm"), format!("{} under the bolt of hole 1", pack(0)))
            } else {
                (
                    format!("Shim by {one:.2} mm and {other:.2} mm"),
                    format!("{} under hole 1 and {} under hole 2", pack(0), pack(1)),
                )
            };
            assert_eq!(advice.title, title);
            let text = format!(
                "Between tab and caliper put {put}; the slot then lies {:.2} mm from the rotor. Bolts must still reach through.",
                shim.misalignment.abs()
            );
            assert!(advice.text.starts_with(&text) && !advice.text.contains("can be welded"), "{}", advice.text);
            titles.push([one == 0.0, other == 0.0]);
        }
    }
    // All three ways of saying it.
    for kind in [[true, false], [false, true], [false, false]] {
        assert!(titles.contains(&kind), "{titles:?}");
    }
}

#[test]
fn a_tab_aside_is_shimmed_alike_under_both_bolts_by_the_fewest_pieces() {
    for setup in shimmed_setups() {
        let way = if setup.caliper.mating_face == MatingFace::Outer { 1.0 } else { -1.0 };
        let designed = Part::designed(&setup);
        for (off, pieces) in [(2.1, &[0.1, 2.0][..]), (2.49, &[0.5, 2.0]), (2.97, &[1.0, 2.0]), (3.52, &[1.5, 2.0])] {
            // So far from the rotor, on the side that shims come from.
            let by = -way * off - misalignment(&setup, &designed);
            let part = designed.moved([[0.0; 2]; 2], [by; 2]);
            for advice in [advice(&setup, &part), advice_when_welded(&setup, &part)] {
                let shim = advice.shim.unwrap();
                let (sum, mut sorted) = (pieces.iter().sum::<f64>(), shim.pieces[0].clone());
                sorted.sort_by(f64::total_cmp);
                assert_eq!((sorted.as_slice(), &shim.pieces[1]), (pieces, &shim.pieces[0]));
                assert_near(shim.thickness[0], sum, 1e-9, "thickness");
                assert_eq!(advice.title, format!("Shim by {sum:.2} mm"));
                assert!(advice.text.contains(" under both bolts; the slot"), "{}", advice.text);
            }
        }
    }
}

/// The whole sentence, with a move in every way; the hole spacing is told only where it is off.
#[test]
fn a_move_is_told_in_full() {
    let setup = design(&json!({"tab": {"clock": 90}}));
    let designed = Part::designed(&setup);
    // Turned by 1.5° towards growing angles, 0.8 back and 1.2 down, with hole 2 outboard by 1° and the whole 2.5 aside.
    let half = 51.0 * 1.0_f64.to_radians().tan() / 2.0;
    let middle = designed.middle();
    let (sin, cos) = 1.5_f64.to_radians().sin_cos();
    let holes = designed.holes.map(|[back, up]| {
        let (b, u) = (back - middle[0], up - middle[1]);
        [middle[0] + 0.8 + b * cos + u * sin, middle[1] - 1.2 + u * cos - b * sin]
    });
    let part = Part { holes, steps: [-2.5 - half, -2.5 + half], ..designed };
    let way = "0.80 mm forwards, 1.20 mm up the leg, 2.50 mm outboard, 1.00° so that hole 2 goes inboard, \
               1.50° turned towards falling clock angles";
    let tacked = advice(&setup, &part);
    assert_eq!((tacked.kind, tacked.title.as_str()), (AdviceKind::Break, "Break the tack and move the tab"));
    assert!(tacked.text.starts_with("Do not weld it so. "), "{}", tacked.text);
    let end = format!(" Move the tab at the middle between its holes: {way}.");
    assert!(tacked.text.contains(&end) && !tacked.text.contains("drill"), "{}", tacked.text);
    for limit in ["Slot against rotor: −2.50 mm", "Tilt along the holes: 1.00°"] {
        assert!(tacked.text.contains(limit), "{}", tacked.text);
    }
    let welded = advice_when_welded(&setup, &part);
    assert_eq!((welded.kind, welded.title.as_str()), (AdviceKind::Break, "Cut it off and weld it anew"));
    assert!(welded.text.starts_with("Not good as welded. ") && welded.text.contains(&end), "{}", welded.text);
    let by = tacked.r#move.unwrap();
    for (got, expected) in [
        (by.back, -0.8),
        (by.up, 1.2),
        (by.out, 2.5),
        (by.tilt, -1.0),
        (by.turn, -1.5),
        (by.radial, -0.8),
        (by.tangential, -1.2),
    ] {
        assert_near(got, expected, 1e-6, "the way back");
    }
    let apart = part.moved([[0.0, 2.5], [0.0; 2]], [0.0; 2]);
    let text = advice(&setup, &apart).text;
    assert!(text.contains("The holes' spacing stays as it is: drill the tab anew if it is too far off."), "{text}");
}

/// A part within its limits whose farther hole lies a millimetre and more from its design is told so.
#[test]
fn what_is_welded_far_from_its_design_is_told() {
    let setup = design(&json!({"tab": {"clock": 75}, "required": {"tube": 1}}));
    for (holes, far) in [
        ([[0.6, -0.7], [0.6, -0.7]], None),
        ([[0.0, 0.0], [0.3, 0.4]], None),
        ([[0.6, -0.8001], [0.6, -0.8001]], Some("1.00 mm")),
        ([[0.9, -1.2], [0.6, -0.9]], Some("1.50 mm")),
        ([[0.3, -1.0], [0.5, -1.2]], Some("1.30 mm")),
    ] {
        let part = Part::designed(&setup).moved(holes, [0.0; 2]);
        let tacked = advice(&setup, &part);
        assert_eq!((tacked.kind, tacked.title.as_str()), (AdviceKind::Weld, "Weld it"), "{}", tacked.text);
        let told = tacked.text.contains("though a hole lies ");
        assert_eq!(told, far.is_some(), "{}", tacked.text);
        assert!(far.is_none_or(|far| tacked.text.contains(&format!("lies {far} from"))), "{}", tacked.text);
        let welded = advice_when_welded(&setup, &part);
        assert_eq!((welded.kind, welded.title.as_str()), (AdviceKind::Weld, "Good as welded"), "{}", welded.text);
        assert!(welded.text.starts_with("All as wanted after welding. "), "{}", welded.text);
    }
}
