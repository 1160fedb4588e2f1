//! Welds as each rule counts them, worked from the lines that are drawn.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::{Value, json};
use tabwright_core::fit::{Parts, dropout_plane};
use tabwright_core::load::{
    Chord, Line, LoadResult, Loads, Plate, Push, Section, Statics, THROAT, ThroatStress, WeldGroup, WeldLine, WeldRule,
    brake_case, dropout_middle, loads, strength, tube_seams,
};
use tabwright_core::solid::{Solid, Vector};
use tabwright_core::{Build, Material, Setup, WeldKind, WeldMethod};
use tabwright_tests::draw::{Seeded, Source};
use tabwright_tests::{assert_near, setup_with};

fn result(found: &Loads, id: &str) -> LoadResult {
    let mut results = found.groups.iter().flat_map(|group| &group.results);
    results.find(|result| result.id == id).unwrap_or_else(|| panic!("no {id}")).clone()
}

fn statics(setup: &Setup) -> Statics {
    Statics::of(setup, &brake_case(setup))
}

fn setups() -> Vec<Setup> {
    let mut setups = Vec::new();
    for method in ["asd", "ec3_simplified", "ec3_directional"] {
        for (material, clock) in [("mild_steel", 28), ("4130", 100), ("6061_t6", 75)] {
            for leg in [3, 6] {
                setups.push(setup_with(&json!({
                    "tab": {"clock": clock, "build": "butt_welded"},
                    "load": {"material": material, "weld": {"method": method, "leg": leg}},
                })));
            }
        }
    }
    setups
}

fn is_european(setup: &Setup) -> bool {
    setup.load.material == Material::Aluminium6061 || setup.load.weld.method != WeldMethod::Asd
}

/// EN 1993-1-8 4.5.1: a throat less at either end, and none thinner than 3 mm counts.
#[test]
fn a_weld_to_the_tube_counts_without_its_ends_by_the_european_rules() {
    for setup in setups() {
        let found = loads(&setup).unwrap();
        let rule = WeldRule::of(&setup, &strength(&setup));
        assert_eq!(matches!(rule, WeldRule::Allowable(_)), !is_european(&setup));
        let mut group = tube_seams(&setup).unwrap();
        let throat = THROAT * setup.load.weld.leg;
        if is_european(&setup) {
            for line in &mut group.lines {
                let way = (line.to - line.from).normalize();
                (line.from, line.to) = (line.from + way * throat, line.to - way * throat);
            }
        }
        let [stress, limit] = rule.worst(&group, statics(&setup).plate_on_tube).unwrap();
        let weld = result(&found, "weld_static");
        assert_near(weld.value, stress, 1e-6 * stress, "stress");
        assert_near(weld.allowable.unwrap(), limit, 1e-9 * limit, "limit");
        let note = &found.groups.iter().find(|group| group.id == "weld").unwrap().note;
        assert_eq!(note.contains("below 3 mm"), is_european(&setup) && throat < 3.0, "{note}");
        let length: f64 = group.lines.iter().map(|line| (line.to - line.from).length()).sum();
        assert!(note.contains(&format!("{} lines along the lap, {length:.1} mm in all", group.lines.len())), "{note}");
        // Shear of the metal beside the weld: the same force on the thinnest of leg, plate and tube.
        let thinnest = setup.load.weld.leg.min(setup.dropout.thickness).min(setup.fork.tube_wall);
        let at_middle = Push::sum(&[statics(&setup).plate_on_tube], group.centroid());
        let peak = group.peak(at_middle.force, at_middle.moment).unwrap();
        assert_near(result(&found, "weld_metal").value, peak * throat / thinnest, 1e-6 * peak * throat, "metal");
    }
}

/// By hand: σ⊥ = τ⊥ = 100/√2 from 100 MPa square to one face; across to the other the same turned round.
#[test]
fn the_directional_rule_takes_the_worse_of_both_ways() {
    let stress = |face: f64, across: f64, along: f64| ThroatStress {
        whole: Vector::new(face, across, along),
        face,
        across,
        along,
    };
    let rule = WeldRule::Directional([400.0, 260.0]);
    let half = 100.0 / 2.0_f64.sqrt();
    let [value, limit] = rule.judge(&stress(100.0, 0.0, 50.0));
    assert_near(value, (half * half + 3.0 * (half * half + 2500.0)).sqrt(), 1e-9, "face alone");
    assert_eq!(limit, 400.0);
    // 100 on one face and 40 on the other: 99.0 and 42.4 on the throat's two ways.
    let (sum, difference) = (140.0 / 2.0_f64.sqrt(), 60.0 / 2.0_f64.sqrt());
    let [value, limit] = rule.judge(&stress(100.0, 40.0, 0.0));
    assert_near(value, (difference * difference + 3.0 * sum * sum).sqrt(), 1e-9, "both faces");
    assert_eq!(limit, 400.0);
    // Where the limit square to the throat is low, that one decides.
    let tight = WeldRule::Directional([400.0, 150.0]);
    assert_eq!(tight.judge(&stress(100.0, 40.0, 0.0)), [sum, 150.0]);
    assert_eq!(tight.judge(&stress(40.0, 100.0, 0.0))[1], 150.0);
    for rule in [WeldRule::Allowable(145.0), WeldRule::Simplified(208.0)] {
        let (WeldRule::Allowable(limit) | WeldRule::Simplified(limit)) = rule else {
            unreachable!("both have one limit")
        };
        assert_near(rule.judge(&stress(30.0, 40.0, 120.0))[0], 130.0, 1e-9, "the whole stress");
        assert_eq!(rule.judge(&stress(30.0, 40.0, 120.0))[1], limit);
    }
}

/// The joint of a butted tab lies square across the web at the eye's rim or the neck's round end, on both faces.
#[test]
fn a_tabs_joint_lies_square_across_its_web_at_its_rim() {
    let near = json!({"wheel": {"rotor_diameter": 100}, "dropout": {"eye_radius": 80}, "tab": {"build": "butt_welded", "clock": 170, "offset": 1.5}});
    for base in setups().into_iter().chain([setup_with(&near)]) {
        for kind in [WeldKind::Butt, WeldKind::Fillet] {
            let mut setup = base.clone();
            setup.load.weld.kind = kind;
            let found = loads(&setup).unwrap();
            let lines: Vec<[Vector; 2]> = found
                .seams
                .iter()
                .filter(|seam| seam.id == "joint")
                .map(|seam| seam.ends.map(|[back, up, out]| Vector::new(back, up, out)))
                .collect();
            let [one, other] = lines[..] else { panic!("{} lines", lines.len()) };
            let Some(Solid::Slab(web)) = Parts::of(&setup).web.map(|web| web.solid) else { panic!("there is a web") };
            let [land, root] = web.discs[..] else { panic!("a web has two ends") };
            let along = Vector::new(land.back - root.back, land.up - root.up, 0.0).normalize();
            let is_eye = root.back == 0.0 && root.up == 0.0;
            // No further out than the land, where the eye reaches past it.
            let reach = (land.back - root.back).hypot(land.up - root.up);
            let radius = if is_eye { setup.dropout.eye_radius } else { root.radius }.min(reach);
            let middle = dropout_middle(&setup);
            assert_near(middle, dropout_plane(&setup) + setup.dropout.thickness / 2.0, 1e-9, "the dropout's middle");
            for (line, face) in [(one, -0.5), (other, 0.5)] {
                let way = line[1] - line[0];
                assert_near(way.dot(along), 0.0, 1e-6, "square to the web");
                let from_root = (line[0] - Vector::new(root.back, root.up, 0.0)).dot(along);
                assert_near(from_root, radius, 1e-6, "at the rim");
                assert_near(line[0].z, middle + setup.tab.offset + face * setup.dropout.thickness, 1e-9, "on a face");
                // From edge to edge: half as wide as the tangents of both discs are apart there.
                let long = (land.back - root.back).hypot(land.up - root.up);
                let slope = (root.radius - land.radius) / long;
                let width = 2.0 * (root.radius - from_root * slope) / (1.0 - slope * slope).sqrt();
                assert_near(way.length(), width, 1e-6, "as wide as the web");
            }
            let joint = result(&found, "joint_static");
            let strength = strength(&setup);
            if kind == WeldKind::Fillet {
                let throat = (THROAT * setup.load.weld.leg).min(setup.dropout.thickness / 2.0);
                let line = |[from, to]: [Vector; 2]| WeldLine { from, to, throat, face: Vector::Z };
                let group = WeldGroup { lines: vec![line(one), line(other)] };
                let rule = WeldRule::of(&setup, &strength);
                let [stress, limit] = rule.worst(&group, statics(&setup).caliper_on_plate).unwrap();
                assert_near(joint.value, stress, 1e-6 * stress, "fillets");
                assert_near(joint.allowable.unwrap(), limit, 1e-9 * limit, "limit");
            } else {
                let share = if is_european(&setup) { 1.0 } else { 0.6 };
                assert_near(joint.allowable.unwrap(), share * strength.yield_strength, 1e-9, "plate's own metal");
                // The caliper's whole load on the web's rectangle.
                let [from, to] = [one[0], one[1]].map(|end| [end.x, end.y]);
                let line = Line::new(from, (to[1] - from[1]).atan2(to[0] - from[0]));
                let ends = [0.0, (to[0] - from[0]).hypot(to[1] - from[1])];
                let chord = Chord { line, ends, pieces: vec![ends] };
                let section = Section::of(&chord, setup.dropout.thickness, middle + setup.tab.offset);
                let stress = section.stress(&[statics(&setup).caliper_on_plate]).von_mises;
                assert_near(joint.value, stress, 1e-6 * stress, "the web's section");
            }
        }
        let mut whole = base.clone();
        whole.tab.build = Build::OnePiece;
        assert!(loads(&whole).unwrap().seams.iter().all(|seam| seam.id == "tube"), "no joint in one piece");
    }
}

/// Where the plate's two planes, its clamps and its welds are.
#[test]
fn the_plate_is_held_along_its_welds_and_loaded_at_axle_and_bolts() {
    for setup in [
        setup_with(&json!({"tab": {"offset": 1.5, "clock": 60}})),
        setup_with(&json!({"side": "right", "fork": {"axle_offset": 10}, "dropout": {"eye_radius": 24}})),
        setup_with(&json!({"tab": {"clock": 120}, "fork": {"tube_end": 50}})),
    ] {
        let plate = Plate::of(&setup, &statics(&setup));
        let middle = setup.wheel.hub_width / 2.0 + setup.dropout.thickness / 2.0;
        assert_near(plate.dropout_out, middle, 1e-9, "dropout");
        assert_near(plate.tab_out, middle + setup.tab.offset, 1e-9, "tab");
        let seams = tube_seams(&setup).unwrap().lines;
        let ends: Vec<[[f64; 2]; 2]> =
            seams.iter().map(|line| [[line.from.x, line.from.y], [line.to.x, line.to.y]]).collect();
        assert_eq!(&plate.held[..ends.len()], &ends[..], "held along the welds");
        let halfway = |[a, b]: [[f64; 2]; 2]| [(a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0];
        let middles: Vec<[f64; 2]> = ends.iter().map(|line| halfway(*line)).collect();
        let joined: Vec<[[f64; 2]; 2]> = middles.windows(2).map(|pair| [pair[0], pair[1]]).collect();
        assert_eq!(&plate.held[ends.len()..], &joined[..], "and from weld to weld");
        let count = middles.len() as f64;
        let centre = [0, 1].map(|axis: usize| middles.iter().map(|middle| middle[axis]).sum::<f64>() / count);
        for load in &plate.loads {
            let end = load.way[load.way.len() - 1];
            assert!((end[0] - centre[0]).hypot(end[1] - centre[1]) < 1e-9, "each way ends in the middle of the welds");
            assert_eq!(load.way[0], [load.push.point.x, load.push.point.y], "and starts at its load");
        }
        let spreads: Vec<f64> = plate.loads.iter().map(|load| load.spread).collect();
        assert_eq!(spreads, [setup.wheel.nut_diameter / 2.0, 3.3, 3.3], "clamps of nut and M6 bolts");
        // Ways keep inside the plate, clear of the slot.
        for load in plate.loads.iter().filter(|load| load.from_caliper) {
            for ends in load.way.windows(2).skip(1) {
                let rises = ends[1][1] - ends[0][1];
                assert!(rises.abs() < 400.0 && ends[0] != ends[1], "{:?}", load.way);
                let slot = setup.dropout.slot_width / 2.0;
                let from_axle = ends[0][0].hypot(ends[0][1]);
                assert!(from_axle > slot || from_axle == 0.0, "a way through the slot: {:?}", load.way);
            }
        }
    }
}

/// EN 1999-1-1 table 8.8: 170 MPa of 4043A in 6061, which is less than the plate's own 175: 170 / (√3 · 1.25) = 78.5,
/// whatever the rule chosen.
#[test]
fn aluminium_is_judged_by_its_filler() {
    for method in ["asd", "ec3_simplified", "ec3_directional"] {
        let load = json!({"material": "6061_t6", "weld": {"method": method}});
        let setup = setup_with(&json!({"load": load}));
        let WeldRule::Simplified(limit) = WeldRule::of(&setup, &strength(&setup)) else { panic!("{method}") };
        assert_near(limit, 170.0 / (3.0_f64.sqrt() * 1.25), 1e-9, method);
    }
}

/// The lap advised is the shortest of all that a search by hundredths finds, never below what the neck's round end needs.
#[test]
fn the_lap_advised_is_the_shortest_that_holds() {
    let (mut least, mut none, mut between) = (0, 0, 0);
    for (load, clock) in [
        (json!({"weld": {"leg": 6}}), 28),
        (json!({"weld": {"leg": 3}}), 90),
        (json!({"weld": {"leg": 4, "method": "ec3_directional"}, "material": "4130"}), 100),
        (json!({"weld": {"leg": 2, "method": "ec3_simplified"}}), 60),
        (json!({"weld": {"leg": 5}, "material": "6061_t6"}), 130),
        (json!({"case": "own", "own_force": 50, "weld": {"leg": 5}}), 28),
        (json!({"case": "own", "own_force": 9000, "weld": {"leg": 1}}), 28),
    ] {
        let setup = setup_with(&json!({"tab": {"clock": clock}, "load": load}));
        let holds = |lap: f64| {
            let mut other = setup.clone();
            other.dropout.weld_length = lap;
            let found = loads(&other).unwrap();
            let mut results = found.groups.iter().flat_map(|group| &group.results);
            results.any(|result| result.id == "weld_static" && result.utilisation <= Some(1.0))
        };
        let found = result(&loads(&setup).unwrap(), "weld_length");
        if found.sentence.contains("No lap") {
            assert!(!holds(300.0) && found.value == 300.0, "{load}");
            none += 1;
        } else {
            assert!(holds(found.value), "{load}: {}", found.value);
            let shortest = setup.dropout.neck_width / 2.0;
            if found.value == shortest {
                least += 1;
            } else {
                assert!(found.value > shortest && !holds(found.value - 0.02), "{load}: {}", found.value);
                between += 1;
            }
        }
    }
    assert!(least > 0 && none > 0 && between > 1, "{least} {none} {between}");
}

/// On a lap the line lies where the flare between the flat and the tube is as deep as the leg, on a plate that is let in
/// where the tube's wall comes through its faces, and never beyond the plate's edge: by the tube's circle. It runs from the
/// tube's end, or the plate's, to the plate's round end.
#[test]
fn seams_lie_on_the_tubes_circle_and_the_plates_rim() {
    let (mut lines, mut leaning) = (0, 0);
    let setups: [(Value, &[f64]); 4] = [
        (json!({"load": {"weld": {"leg": 2.5}}, "fork": {"axle_offset": 7}}), &[56.0]),
        (json!({"fork": {"tube_gap": 107, "axle_offset": -11}, "dropout": {"neck_width": 40}}), &[56.0]),
        (
            json!({"fork": {"tube_gap": 96.4, "tube_diameter": 45}, "dropout": {"neck_width": 70, "weld_length": 95}}),
            &[56.0, 50.0],
        ),
        (
            json!({"fork": {"tube_gap": 98, "tube_end": 31}, "dropout": {"neck_width": 44, "thickness": 3}}),
            &[53.0, 50.0],
        ),
    ];
    for (changes, faces) in setups {
        let setup = setup_with(&changes);
        let (fork, dropout) = (&setup.fork, &setup.dropout);
        let (radius, axis) = (fork.tube_diameter / 2.0, (fork.tube_gap + fork.tube_diameter) / 2.0);
        let is_lap = 50.0 + dropout.thickness <= fork.tube_gap / 2.0;
        let group = tube_seams(&setup).unwrap();
        assert_eq!(group.lines.len(), 2 * faces.len(), "{changes}");
        for (line, index) in group.lines.iter().zip(0..) {
            let out = faces[index / 2];
            assert_near(line.from.z, out, 1e-9, "the face");
            let meets = if is_lap { fork.tube_gap / 2.0 + setup.load.weld.leg } else { out };
            let half = (radius * radius - (axis - meets) * (axis - meets)).sqrt().min(dropout.neck_width / 2.0 - 0.01);
            let side = if index % 2 == 0 { -1.0 } else { 1.0 };
            assert_near(line.from.x, fork.axle_offset + side * half, 1e-9, "beside the tube's middle");
            assert_eq!((line.to.x, line.to.z), (line.from.x, line.from.z), "straight up the tube");
            // A neck that leans leaves the tube's end bare on one side: its edge is the tangent of its two round ends.
            let (round, lean) = (dropout.neck_width / 2.0, fork.axle_offset);
            let high = fork.tube_end + dropout.weld_length - round;
            let edge = (high * line.from.x * lean.signum() - round * high.hypot(lean)) / lean.abs();
            assert_near(line.from.y, fork.tube_end.max(edge), 1e-9, "from the tube's end or the plate's edge");
            assert_near(line.to.y, high + (round * round - half * half).sqrt(), 1e-9, "to the round end");
            leaning += usize::from(edge > fork.tube_end);
            assert_near(line.throat, THROAT * setup.load.weld.leg, 1e-12, "throat");
            lines += 1;
        }
    }
    assert_eq!((lines, leaning), (12, 1));
}

/// The worst point is that with the largest share of its own limit, whichever limit that is.
#[test]
fn the_worst_point_has_the_largest_share_of_its_limit() {
    let mut source = Seeded(21);
    let mut squares = 0;
    for _ in 0..60 {
        let mut any = |size: f64| {
            Vector::new(source.between(-size, size), source.between(-size, size), source.between(-size, size))
        };
        let lines = (0..4).map(|_| {
            let (from, to) = (any(40.0), any(40.0));
            WeldLine { from, to, throat: 3.0, face: (to - from).cross(any(1.0)).normalize() }
        });
        let group = WeldGroup { lines: lines.collect() };
        let load = Push { point: any(50.0), force: any(9000.0), moment: any(50_000.0) };
        let at_middle = Push::sum(&[load], group.centroid());
        for rule in [WeldRule::Directional([400.0, 150.0]), WeldRule::Allowable(145.0)] {
            let [stress, limit] = rule.worst(&group, load).unwrap();
            let judged = group.stresses(at_middle.force, at_middle.moment).unwrap();
            let shares = judged.iter().map(|stress| rule.judge(stress)).map(|[stress, limit]| stress / limit);
            assert_near(stress / limit, shares.fold(0.0, f64::max), 1e-12, "share");
            squares += usize::from(limit == 150.0);
        }
    }
    assert!(squares > 10, "{squares} by the stress square to the throat");
}
