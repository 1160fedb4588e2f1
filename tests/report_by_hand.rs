//! The report's numbers and words worked by hand, and each contradiction named at its limit.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::fit::{CaliperFrame, Joint, Run, hole_centres};
use tabwright_core::search::compare;
use tabwright_core::{MatingFace, Mount, Outcome, Report, Setup, Verdict};
use tabwright_tests::{assert_near, default_json, fixture_text, merge, report_of, setup_with};

fn setups() -> Vec<Setup> {
    let text = fixture_text("reference/kernel.jsonl");
    let cases = text.lines().step_by(3).map(|line| serde_json::from_str::<Value>(line).unwrap_or_default());
    let mut setups: Vec<Setup> = cases.map(|case| setup_with(&case["changes"])).collect();
    for changes in [
        json!({"tab": {"offset": 1.5}}),
        json!({"tab": {"offset": -1.5}}),
        json!({"tab": {"offset": 4}}),
        json!({"tab": {"offset": -4}}),
        json!({"tab": {"offset": 0.04}}),
        json!({"fork": {"tube_gap": 118}}),
        json!({"fork": {"tube_gap": 104}}),
        json!({"fork": {"tube_gap": 40}}),
        json!({"tab": {"reach": 6}}),
        json!({"tab": {"reach": -9}}),
        json!({"dropout": {"slot_direction": 28}}),
        json!({"dropout": {"slot_direction": 60}}),
        json!({"caliper": {"line": {"direction": [0, -1, 0.3]}}}),
        json!({"caliper": {"line": {"direction": [1, 0.2, 0]}}}),
    ] {
        let mut json = default_json();
        merge(&mut json, &changes);
        setups.extend(Setup::read(&json).ok().map(|(setup, _)| setup));
    }
    setups
}

/// As the report writes a length.
fn told(value: f64) -> String {
    format!("{value:.1} mm").replace('-', "−")
}

/// A warning of a field whose message has these words: one out of its plausible range has another.
fn warned(report: &Report, field: &str, words: &str) -> Option<f64> {
    let is_it = |warning: &&tabwright_core::Warning| warning.field == field && warning.message.contains(words);
    report.warnings.iter().find(is_it).map(|warning| warning.value)
}

#[test]
fn slot_and_rotor_are_compared_sideways_as_by_hand() {
    for setup in setups() {
        let found = report_of(&setup).lateral;
        let (wheel, caliper) = (&setup.wheel, &setup.caliper);
        let rotor = wheel.hub_width / 2.0 - wheel.rotor_inset;
        let inner = wheel.hub_width / 2.0 + setup.tab.offset;
        let face = if caliper.mating_face == MatingFace::Inner { inner } else { inner + setup.dropout.thickness };
        let off = face - caliper.mount_depth - rotor;
        assert_near(found.slot_centre, face - caliper.mount_depth, 1e-9, "slot");
        assert_near(found.misalignment, off, 1e-9, "misalignment");
        assert_near(found.room_inboard, caliper.lateral_adjust - off, 1e-9, "room inboard");
        assert_near(found.room_outboard, caliper.lateral_adjust + off, 1e-9, "room outboard");
        assert_eq!(found.usable, off.abs() <= caliper.lateral_adjust + 1e-6);
        let words = &found.sentence;
        if off.abs() < 0.05 {
            assert!(words.contains("in line") && words.contains(&told(caliper.lateral_adjust)), "{words}");
        } else {
            assert!(words.contains(&told(off.abs())), "{words}");
            let (sits, moves) = if off > 0.0 { ("outboard of", "inboard") } else { ("inboard of", "outboard") };
            assert!(words.contains(sits), "{words}");
            assert_eq!(words.contains("cannot"), !found.usable, "{words}");
            assert_eq!(words.contains(&format!("move the caliper {moves}")), found.usable, "{words}");
            let left = if off > 0.0 { found.room_inboard } else { found.room_outboard };
            assert_eq!(words.contains(&format!("leaves {}", told(left.max(0.0)))), found.usable, "{words}");
        }
    }
}

#[test]
fn plate_and_tube_meet_as_by_hand() {
    let mut kinds = Vec::new();
    for setup in setups() {
        let found = report_of(&setup).recess;
        let value = setup.wheel.hub_width / 2.0 + setup.dropout.thickness - setup.fork.tube_gap / 2.0;
        assert_near(found.value, value, 1e-9, "recess");
        let (kind, words) = match value {
            value if value < -1e-6 => (Joint::Short, "short of the tube"),
            value if value <= 1e-6 => (Joint::Lap, "laps flat"),
            value if value <= setup.fork.tube_diameter => (Joint::LetIn, "let"),
            _ => (Joint::Beyond, "beyond"),
        };
        assert_eq!(found.kind, kind);
        assert!(found.sentence.contains(words), "{}", found.sentence);
        assert!(kind == Joint::Lap || found.sentence.contains(&told(value.abs())), "{}", found.sentence);
        kinds.push(kind);
    }
    assert!([Joint::Short, Joint::Lap, Joint::LetIn, Joint::Beyond].iter().all(|kind| kinds.contains(kind)));
    // At the tube's far side and a tenth past it.
    let at = |tube_gap: f64| report_of(&setup_with(&json!({"fork": {"tube_gap": tube_gap}}))).recess.kind;
    let across = 112.0 - 2.0 * Setup::default().fork.tube_diameter;
    assert_eq!([at(across), at(across - 0.2)], [Joint::LetIn, Joint::Beyond]);
}

/// The angle to the leg by the cosine, up to 60 up the leg, up to 120 across; a bend of radius r swings out by r (1 − cos).
#[test]
fn the_line_leaves_as_by_hand() {
    for setup in setups() {
        let found = report_of(&setup).line;
        let line = &setup.caliper.line;
        let way = CaliperFrame::of(&setup).direction(line.direction);
        let cosine = way.y / way.length();
        let angle = cosine.acos().to_degrees();
        assert_near(found.angle, angle, 1e-6, "angle");
        assert_near(found.turn, angle, 1e-6, "turn");
        assert_near(found.room, line.min_bend_radius * (1.0 - cosine), 1e-6, "room");
        let words = match found.run {
            Run::Up => "up the leg",
            Run::Across => "across the leg",
            Run::Away => "wrong way",
        };
        assert!(found.sentence.contains(words), "{}", found.sentence);
        if angle < 1.0 {
            assert!(found.sentence.contains("parallel to it"), "{}", found.sentence);
        } else {
            assert!(found.sentence.contains(&told(found.room)), "{}", found.sentence);
            assert!(found.sentence.contains(&format!("{angle:.0}°")), "{}", found.sentence);
        }
    }
    let run = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        report_of(&setup_with(&json!({"tab": {"clock": 0}, "caliper": {"line": {"direction": [sin, cos, 0]}}})))
            .line
            .run
    };
    assert_eq!([run(0.0), run(59.9), run(60.1), run(119.9)], [Run::Up, Run::Up, Run::Across, Run::Across]);
    assert_eq!([run(120.1), run(180.0)], [Run::Away, Run::Away]);
}

#[test]
fn holes_are_told_from_the_axle_and_the_neck() {
    for setup in setups() {
        let report = report_of(&setup);
        for (hole, [back, up]) in report.holes.iter().zip(hole_centres(&setup)) {
            assert_eq!([hole.back, hole.up], [back, up]);
            assert_near(hole.distance, (back * back + up * up).sqrt(), 1e-9, "distance");
            assert_near(hole.from_lower_edge, up + setup.dropout.eye_radius, 1e-9, "from the lower edge");
            let aside = (back - setup.fork.axle_offset).abs() - setup.dropout.neck_width / 2.0;
            assert_near(hole.from_neck_edge, aside, 1e-9, "from the neck's edge");
        }
        let [[b1, u1], [b2, u2]] = hole_centres(&setup);
        assert_near(report.hole_spacing, (b1 - b2).hypot(u1 - u2), 1e-9, "spacing");
        assert_eq!(report.post.is_some(), setup.caliper.mount == Mount::Post);
    }
}

#[test]
fn words_and_warnings_tell_the_numbers_they_are_about() {
    for setup in setups() {
        let report = report_of(&setup);
        let pad = &report.pad;
        assert!(pad.sentence.starts_with(&(100.0 * pad.coverage + 1e-9).floor().to_string()), "{}", pad.sentence);
        assert_eq!(pad.sentence.contains(&format!("stand {} past", told(pad.overhang))), pad.overhang >= 0.05);
        assert_eq!(pad.sentence.contains(&format!("is {} below", told(pad.below_band))), pad.below_band >= 0.05);
        assert_eq!(warned(&report, "tab.reach", "of the pad"), (pad.coverage < 0.95).then_some(pad.coverage));
        let offset = setup.tab.offset;
        assert_eq!(warned(&report, "tab.offset", "one plane"), (offset.abs() > 0.05).then_some(offset));
        let removal = &report.wheel_removal;
        let way = warned(&report, "dropout.slot_direction", "unbolted");
        assert_eq!(way.is_some(), !removal.comes_out);
        assert_eq!(removal.sentence.starts_with("Unbolt"), !removal.comes_out, "{}", removal.sentence);
        match (removal.gap, removal.travel) {
            (Some(gap), Some(travel)) => {
                assert!(gap < 0.0 && way == Some(gap), "{way:?}");
                assert!(removal.sentence.contains(&format!("{} along", told(travel))), "{}", removal.sentence);
                assert!(removal.sentence.contains(&format!("runs {} into", told(-gap))), "{}", removal.sentence);
            }
            (Some(gap), None) => assert!(gap > -1e-6 && removal.comes_out),
            _ => assert!(setup.dropout.closed && removal.sentence.contains("sideways") && way == Some(0.0)),
        }
        // The summary: the pair that binds with its number, and how many more are as bad.
        let binding = report.pairs.iter().find(|pair| pair.name == report.binding).unwrap();
        let count = |verdict: Verdict| report.pairs.iter().filter(|pair| pair.verdict == verdict).count();
        let summary = &report.summary;
        if report.verdict == Outcome::CannotBuild {
            let why =
                if report.recess.kind == Joint::Beyond { &report.recess.sentence } else { &report.lateral.sentence };
            assert_eq!(summary, why);
            continue;
        }
        assert!(summary.contains(&binding.label), "{summary}");
        let (more, words) = match report.verdict {
            Outcome::Tight => (count(Verdict::Tight) - 1, ["pair is tight", "pairs are tight"]),
            Outcome::Hits => (count(Verdict::Hits) - 1, ["pair hits", "pairs hit"]),
            _ => (0, ["", ""]),
        };
        let words = format!("{more} more {}.", words[usize::from(more != 1)]);
        assert_eq!(summary.contains(&words), more > 0, "{summary}");
        assert_eq!(summary.contains(" more "), more > 0, "{summary}");
        let gap = if report.verdict == Outcome::Hits { -binding.gap } else { binding.gap };
        assert!(summary.contains(&told(gap)), "{summary}");
        assert!(report.verdict == Outcome::Hits || summary.contains(&told(binding.required)), "{summary}");
        // The points of the throat lie on the radius through the pads, on the rotor's mid-plane.
        let throat = report.pairs.iter().find(|pair| pair.name == "rotor/throat").unwrap();
        let (sin, cos) = setup.tab.clock.to_radians().sin_cos();
        for (point, radius) in
            throat.points.iter().zip([setup.wheel.rotor_diameter / 2.0, setup.wheel.rotor_diameter / 2.0 + throat.gap])
        {
            let expected = [sin * radius, cos * radius, setup.wheel.hub_width / 2.0 - setup.wheel.rotor_inset];
            for (got, expected) in point.iter().zip(expected) {
                assert_near(*got, expected, 1e-9, "throat");
            }
        }
        let order: Vec<&str> = report.pairs.iter().map(|pair| pair.name).collect();
        let usual = [
            "tab/tube",
            "caliper/tube",
            "caliper/plate",
            "caliper/spokes",
            "caliper/nut",
            "rotor/throat",
            "rotor/tube",
            "rotor/plate",
            "nut/tube",
            "tool/tube",
            "line/tube",
            "line/rotor",
            "line/spokes",
        ];
        let places: Vec<usize> = order.iter().filter_map(|name| usual.iter().position(|one| one == name)).collect();
        assert!(places.len() == order.len() && places.windows(2).all(|pair| pair[0] < pair[1]), "{order:?}");
    }
}

/// Problems and warnings of the default with these changes, by field.
fn found(changes: &Value) -> (Vec<String>, Vec<(String, f64)>) {
    let mut json = default_json();
    merge(&mut json, changes);
    match Setup::read(&json) {
        Ok((_, warnings)) => (Vec::new(), warnings.into_iter().map(|warning| (warning.field, warning.value)).collect()),
        Err(problems) => (problems.into_iter().map(|problem| problem.field).collect(), Vec::new()),
    }
}

#[test]
fn fields_that_cannot_go_together_are_refused_at_their_limit() {
    let posts = |direction: Value, second: Value| json!({"caliper": {"mount": "post", "bolt_direction": direction, "holes": [[-25.5, 26], second]}});
    for (field, refused, taken) in [
        (
            "wheel.rotor_inset",
            json!({"wheel": {"hub_width": 80, "rotor_inset": 40}}),
            json!({"wheel": {"hub_width": 80.2, "rotor_inset": 40}}),
        ),
        (
            "wheel.flange_inset",
            json!({"wheel": {"hub_width": 80, "flange_inset": 40}}),
            json!({"wheel": {"hub_width": 80.2, "flange_inset": 40}}),
        ),
        (
            "fork.tube_wall",
            json!({"fork": {"tube_diameter": 12, "tube_wall": 6}}),
            json!({"fork": {"tube_diameter": 12.2, "tube_wall": 6}}),
        ),
        (
            "caliper.holes",
            json!({"caliper": {"holes": [[-25.5, 26], [-24.6, 26]]}}),
            json!({"caliper": {"holes": [[-25.5, 26], [-24.5, 26]]}}),
        ),
        (
            "caliper.line.direction",
            json!({"caliper": {"line": {"direction": [0, 0, 0]}}}),
            json!({"caliper": {"line": {"direction": [0, 0, 0.01]}}}),
        ),
        ("caliper.bolt_direction", posts(Value::Null, json!([25.5, 26])), posts(json!([0, -1, 0]), json!([25.5, 26]))),
        (
            "caliper.bolt_direction",
            posts(json!([0, 0, 1]), json!([25.5, 26])),
            posts(json!([0, -0.1, 1]), json!([25.5, 26])),
        ),
        (
            "tab.old_edge",
            json!({"tab": {"old_edge": [[10, 20], [10.9, 20]]}}),
            json!({"tab": {"old_edge": [[10, 20], [11, 20]]}}),
        ),
    ] {
        let (problems, _) = found(&refused);
        assert_eq!(problems, [field], "{refused}");
        let (problems, _) = found(&taken);
        assert!(!problems.contains(&field.to_owned()), "{taken}: {problems:?}");
    }
    // Pads from their inset to the axle, and a hair less.
    let rotor = Setup::default().wheel.rotor_diameter;
    let inset = Setup::default().caliper.pad.edge_inset;
    let pads = |height: f64, reach: f64| {
        found(&json!({"caliper": {"pad": {"height": height}}, "tab": {"reach": reach}, "wheel": {"rotor_diameter": rotor}})).0
    };
    let most = rotor / 2.0 - inset;
    for reach in [0.0, 5.0, -5.0] {
        let is_refused = |height: f64| pads(height, reach).contains(&"caliper.pad.height".to_owned());
        let (under, over) = (most + reach - 0.1, most + reach + 0.1);
        assert!(!is_refused(under.min(60.0)), "{under} at {reach}");
        assert!(over > 60.0 || is_refused(over), "{over} at {reach}");
    }
}

#[test]
fn oddities_are_warned_of_beyond_their_limit_with_their_number() {
    let warns = |changes: Value, field: &str| {
        let warned = found(&changes).1.into_iter().filter(|one| one.0 == field);
        warned.map(|one| one.1).collect::<Vec<f64>>()
    };
    for (field, odd, value, usual) in [
        (
            "dropout.slot_width",
            json!({"dropout": {"slot_width": 9}, "wheel": {"axle_diameter": 9.5}}),
            9.0,
            json!({"dropout": {"slot_width": 9.5}, "wheel": {"axle_diameter": 9.5}}),
        ),
        (
            "dropout.slot_width",
            json!({"dropout": {"slot_width": 20, "eye_radius": 10}}),
            20.0,
            json!({"dropout": {"slot_width": 19.9, "eye_radius": 10}}),
        ),
        (
            "dropout.weld_length",
            json!({"dropout": {"weld_length": 25, "neck_width": 26}}),
            25.0,
            json!({"dropout": {"weld_length": 26, "neck_width": 26}}),
        ),
        (
            "wheel.nut_diameter",
            json!({"wheel": {"nut_diameter": 10, "axle_diameter": 10}}),
            10.0,
            json!({"wheel": {"nut_diameter": 10.1, "axle_diameter": 10}}),
        ),
        (
            "load.tensile_strength",
            json!({"load": {"material": "own", "yield_strength": 300, "tensile_strength": 290}}),
            290.0,
            json!({"load": {"material": "own", "yield_strength": 300, "tensile_strength": 300}}),
        ),
        (
            "caliper.bolt_direction",
            json!({"caliper": {"mount": "post", "bolt_direction": [0, -2, 0], "holes": [[-25.5, 26], [25.5, 26.3]]}}),
            0.3,
            json!({"caliper": {"mount": "post", "bolt_direction": [0, -2, 0], "holes": [[-25.5, 26], [25.5, 26.19]]}}),
        ),
    ] {
        // Out of the plausible range is another warning of the same field.
        let (warned, usually) = (warns(odd.clone(), field), warns(usual.clone(), field));
        assert_eq!(warned.len(), usually.len() + 1, "{odd}: {warned:?}, {usual}: {usually:?}");
        assert!(warned.iter().any(|one| (one - value).abs() < 1e-9), "{odd}: {warned:?}");
    }
    let known = json!({"load": {"material": "mild_steel", "yield_strength": 300, "tensile_strength": 290}});
    assert!(warns(known, "load.tensile_strength").is_empty(), "numbers that do not count");
}

#[test]
fn a_lever_is_told_in_whole_per_cent() {
    let with_reach = |reach: f64| setup_with(&json!({"tab": {"reach": reach}}));
    // The pads are 93 mm from the axle; a hundredth of that is 0.93.
    for (reach, words) in [
        (0.0, "as hard"),
        (0.4, "as hard"),
        (1.0, "1 % harder"),
        (4.65, "5 % harder"),
        (-1.0, "1 % weaker"),
        (-4.65, "5 % weaker"),
    ] {
        let told = compare(&Setup::default(), &with_reach(reach)).unwrap().sentences.pop().unwrap();
        assert!(told.ends_with(&format!("brakes {words}.")), "{reach}: {told}");
    }
}
