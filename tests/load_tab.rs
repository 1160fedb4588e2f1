//! The plate under load: sections, weakest cuts and deflection against closed forms and finite elements.

use serde_json::{Value, json};
use tabwright_core::load::{
    Carried, Chord, Line, Outline, Plate, Push, Region, Section, Statics, Strength, bolt_loads, brake_case, loads,
    rectangle_torsion, rectangle_twist_stress, strength, travel, weakest,
};
use tabwright_core::solid::{Disc, Vector};
use tabwright_core::{Setup, fit};
use tabwright_tests::{fixture_text, setup_with};

fn assert_same(got: f64, expected: f64, share: f64, what: &str) {
    println!("{what}: {got:.5} for {expected:.5} ({:+.2} %)", 100.0 * (got / expected - 1.0));
    assert!((got - expected).abs() <= share * expected.abs(), "{what}: got {got}, expected {expected}");
}

/// A closed outline through corners.
fn polygon(corners: &[[f64; 2]]) -> Vec<Outline> {
    let next = |index: usize| corners[(index + 1) % corners.len()];
    corners.iter().enumerate().map(|(index, corner)| Outline::Straight([*corner, next(index)])).collect()
}

/// A cantilever along `back` from its fixed end at 0, its width going from the first to the last, under a load on its free
/// end.
fn cantilever(length: f64, [first, last]: [f64; 2], thickness: f64, push: Push) -> Plate {
    // A little of it is inside the wall.
    let (inside, wall) = (5.0, first + (first - last) * 5.0 / length);
    let outline =
        polygon(&[[-inside, -wall / 2.0], [length, -last / 2.0], [length, last / 2.0], [-inside, wall / 2.0]]);
    Plate {
        region: Region { outlines: vec![outline], ..Region::default() },
        thickness,
        dropout_out: 0.0,
        tab_out: 0.0,
        loads: vec![Carried { push, way: vec![[length, 0.0], [0.0, 0.0]], spread: last, from_caliper: true }],
        held: vec![[[0.0, -first], [0.0, first]]],
        web: None,
    }
}

fn end_load(length: f64, force: [f64; 3], moment: [f64; 3]) -> Push {
    Push { point: Vector::new(length, 0.0, 0.0), force: force.into(), moment: moment.into() }
}

/// The cut square to the cantilever at a distance from its fixed end.
fn square_cut(plate: &Plate, at: f64) -> (Chord, Section) {
    let chord = plate.chord_about(&Line::new([at, 0.0], std::f64::consts::FRAC_PI_2), [at, 0.0]);
    let chord = chord.unwrap_or_else(|| unreachable!("the cantilever has a cut everywhere"));
    let parted = plate.parted_by(&chord);
    let section = plate.section(&chord, &parted);
    (chord, section)
}

/// Timoshenko and Goodier, Theory of Elasticity, torsion of rectangular bars, from memory: b/t, J / b t³, and T / τ b t².
#[test]
fn torsion_of_rectangles_is_that_of_the_table() {
    let table = [
        (1.0, 0.1406, 0.208),
        (1.2, 0.166, 0.219),
        (1.5, 0.196, 0.231),
        (2.0, 0.229, 0.246),
        (2.5, 0.249, 0.258),
        (3.0, 0.263, 0.267),
        (4.0, 0.281, 0.282),
        (5.0, 0.291, 0.291),
        (10.0, 0.312, 0.312),
    ];
    for (ratio, constant, modulus) in table {
        let (b, t) = (6.0 * ratio, 6.0);
        assert_same(rectangle_torsion(b, t), constant * b * t * t * t, 0.006, &format!("J at {ratio} to 1"));
        assert_same(1.0 / rectangle_twist_stress(b, t), modulus * b * t * t, 0.006, &format!("T / τ at {ratio} to 1"));
        assert_eq!(rectangle_torsion(b, t), rectangle_torsion(t, b));
    }
}

/// Closed forms of a rectangle b × t: N / b t, 6 M / t b², 6 M / b t², 1.5 V / b t.
#[test]
fn stresses_of_a_rectangle_are_the_closed_forms() {
    let (b, t, length) = (22.0, 6.0, 50.0);
    let only = |force, moment| {
        let plate = cantilever(length, [b, b], t, end_load(length, force, moment));
        square_cut(&plate, 10.0).1.stress(&[plate.loads[0].push])
    };
    let pull = only([1000.0, 0.0, 0.0], [0.0; 3]);
    assert_same(pull.von_mises, 1000.0 / (b * t), 1e-12, "pull");
    let plane = only([0.0, 1000.0, 0.0], [0.0; 3]);
    assert_same(plane.in_plane, 6.0 * 40_000.0 / (t * b * b), 1e-12, "bending in the plane");
    assert_same(plane.shear, 1.5 * 1000.0 / (b * t), 1e-12, "shear");
    assert_same(plane.von_mises, plane.in_plane, 1e-12, "the corner decides");
    let plate = only([0.0, 0.0, 100.0], [0.0; 3]);
    assert_same(plate.of_plate, 6.0 * 4000.0 / (b * t * t), 1e-12, "bending of the plate");
    let twist = only([0.0; 3], [10_000.0, 0.0, 0.0]);
    assert_same(twist.twist, 10_000.0 * rectangle_twist_stress(b, t), 1e-12, "torsion");
    assert_same(twist.von_mises, 3.0_f64.sqrt() * twist.twist, 1e-12, "torsion alone, von Mises");
    // All moments at once add up at a corner: signs must not let them cancel.
    let all = only([5000.0, 1000.0, -100.0], [0.0; 3]);
    let sum = 5000.0 / (b * t) + 6.0 * 40_000.0 / (t * b * b) + 6.0 * 4000.0 / (b * t * t);
    assert_same(all.von_mises, sum, 1e-12, "a corner bears all three");
}

/// Net section of a strip with a hole in its middle, by hand: P / (b − d) t.
#[test]
fn a_hole_takes_its_width() {
    let mut plate = cantilever(60.0, [20.0, 20.0], 5.0, end_load(60.0, [4000.0, 0.0, 0.0], [0.0; 3]));
    plate.region.holes.push(Disc::new(30.0, 0.0, 4.0));
    let (chord, section) = square_cut(&plate, 30.0);
    assert_eq!(chord.pieces.len(), 2);
    assert_same(section.stress(&[plate.loads[0].push]).von_mises, 4000.0 / (12.0 * 5.0), 1e-9, "net section, MPa");
    // A cut that is not square to the strip leaves the hole off its middle, which bends it besides.
    let stress = weakest(&plate)[0].as_ref().map_or(f64::NAN, |found| found.stress.von_mises);
    assert!((66.6..1.3 * 66.6).contains(&stress), "{stress}");
}

/// On a straight strip the weakest cut is at the fixed end: 6 P L / t b². On one that widens as b₀ + k x from its free end
/// it is where 6 P x / t (b₀ + k x)² is largest: at x = b₀ / k, by setting the derivative to nought.
#[test]
fn the_weakest_cut_is_found_where_calculus_puts_it() {
    let straight = cantilever(60.0, [20.0, 20.0], 6.0, end_load(60.0, [0.0, 1000.0, 0.0], [0.0; 3]));
    let [found, axle] = weakest(&straight);
    assert!(axle.is_none());
    let stress = found.map_or(f64::NAN, |found| found.stress.von_mises);
    assert_same(stress, 6.0 * 1000.0 * 60.0 / (6.0 * 400.0), 0.005, "straight, MPa");

    let (free, slope, length) = (10.0, 0.5, 80.0);
    let flared = cantilever(length, [free + slope * length, free], 6.0, end_load(length, [0.0, 1000.0, 0.0], [0.0; 3]));
    let found = weakest(&flared)[0].clone().unwrap_or_else(|| unreachable!("a cantilever has a cut"));
    let at = free / slope;
    assert_same(found.stress.von_mises, 6.0 * 1000.0 * at / (6.0 * (free + slope * at).powi(2)), 0.01, "flared, MPa");
    let middle = found.chord.line.at((found.chord.ends[0] + found.chord.ends[1]) / 2.0);
    assert_same(length - middle[0], at, 0.15, "flared, mm from the free end");
}

/// Every cut 1° and 0.5 mm apart through whole plates: none is worse than the one found, and the one found is hardly worse
/// than the worst of them.
#[test]
fn no_cut_of_a_dense_look_is_worse() {
    let changes = [
        json!({}),
        json!({"tab": {"clock": 60}, "wheel": {"rotor_diameter": 160}}),
        json!({"tab": {"clock": 100, "edge": 14}, "dropout": {"thickness": 8}}),
        json!({"tab": {"clock": -70}, "fork": {"axle_offset": 30}}),
        json!({"tab": {"clock": 170}, "dropout": {"closed": true}}),
    ];
    for change in changes {
        let setup = setup_with(&change);
        let plate = Plate::of(&setup, &Statics::of(&setup, &brake_case(&setup)));
        let found = weakest(&plate).map(|cut| cut.map_or(0.0, |cut| cut.stress.von_mises));
        let mut dense = [0.0_f64; 2];
        for degree in 0..180 {
            for step in -300..=300 {
                let angle = f64::from(degree).to_radians();
                let aside = f64::from(step) * 0.5;
                let line = Line::new([-aside * angle.sin(), 50.0 + aside * angle.cos()], angle);
                for chord in plate.region.chords(&line) {
                    let parted = plate.parted_by(&chord);
                    if !parted.is_empty() {
                        let stress = plate.section(&chord, &parted).stress(&plate.pushes(&parted)).von_mises;
                        let kind = usize::from(!plate.from_caliper(&parted));
                        dense[kind] = dense[kind].max(stress);
                    }
                }
            }
        }
        for (kind, what) in ["tab", "neck"].into_iter().enumerate() {
            println!("{change}, {what}: {:.1} found, {:.1} by the dense look", found[kind], dense[kind]);
            assert!(found[kind] >= 0.99 * dense[kind] && found[kind] <= 1.05 * dense[kind], "{change} {what}");
        }
    }
}

/// A cut's free side has all of its loads on it: the web's cut of the default plate bears what the caliper brings, by hand
/// from the pad force and its levers.
#[test]
fn a_cut_through_the_web_bears_the_whole_caliper() {
    let setup = Setup::default();
    let statics = Statics::of(&setup, &brake_case(&setup));
    let plate = Plate::of(&setup, &statics);
    let [land, root] = plate.web.unwrap_or_else(|| unreachable!("side lugs have a web"));
    let (back, up) = (land.back - root.back, land.up - root.up);
    let point = [root.back + 0.6 * back, root.up + 0.6 * up];
    let chord = plate.chord_about(&Line::new(point, back.atan2(-up)), point).unwrap_or_else(|| unreachable!("a web"));
    let parted = plate.parted_by(&chord);
    assert_eq!(parted, [1, 2], "both bolts and not the axle");
    let section = plate.section(&chord, &parted);
    let whole = Push::sum(&plate.pushes(&parted), section.centroid);
    let by_hand = Push::sum(&[statics.pads_on_wheel.reversed()], section.centroid);
    assert!((whole.force - by_hand.force).length() < 1e-6 && (whole.moment - by_hand.moment).length() < 1e-4);
    // Rotor at 35, tab's middle at 53: the lever of the plate's bending and torsion is 18 mm.
    let lever = by_hand.moment.x.hypot(by_hand.moment.y) / by_hand.force.length();
    assert_same(lever, 18.0, 1e-9, "lever out of the plane, mm");
}

fn steel() -> Strength {
    strength(&Setup::default())
}

/// How the free end moves along a unit load.
fn moved(plate: &Plate, unit: Push) -> f64 {
    let mut units = plate.clone();
    units.loads[0].push = unit;
    travel(plate, &units, &steel())
}

/// Closed forms: P L³ / 3 E I + 6/5 P L / G A, T L / G J, P L / E A, M L / E I.
#[test]
fn a_straight_cantilever_moves_as_the_closed_forms_say() {
    let (b, t, length) = (20.0, 6.0, 60.0);
    let Strength { young, shear, .. } = steel();
    let [plane, flat, twist] = [t * b * b * b / 12.0, b * t * t * t / 12.0, rectangle_torsion(b, t)];
    let of = |force: [f64; 3], moment: [f64; 3]| cantilever(length, [b, b], t, end_load(length, force, moment));
    let unit = |force: [f64; 3], moment: [f64; 3]| end_load(length, force, moment);
    let bent = |p: f64, i: f64| p * length.powi(3) / (3.0 * young * i) + 1.2 * p * length / (shear * b * t);
    let (zero, y, z, x) = ([0.0; 3], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0], [1.0, 0.0, 0.0]);
    assert_same(moved(&of([0.0, 500.0, 0.0], zero), unit(y, zero)), bent(500.0, plane), 0.002, "in the plane, mm");
    assert_same(moved(&of([0.0, 0.0, 50.0], zero), unit(z, zero)), bent(50.0, flat), 0.002, "of the plate, mm");
    assert_same(
        moved(&of([9000.0, 0.0, 0.0], zero), unit(x, zero)),
        9000.0 * length / (young * b * t),
        1e-9,
        "pull, mm",
    );
    let turned = moved(&of(zero, [8000.0, 0.0, 0.0]), unit(zero, x));
    assert_same(turned, 8000.0 * length / (shear * twist), 1e-9, "torsion, rad");
    let tilted = moved(&of(zero, [0.0, 0.0, 8000.0]), unit(zero, z));
    assert_same(tilted, 8000.0 * length / (young * plane), 1e-9, "moment at the end, rad");
}

/// Maxwell's reciprocity: a load on the way of another does the work that the other does on the way of the first.
#[test]
fn two_loads_do_each_others_work() {
    let setup = setup_with(&json!({"tab": {"clock": 60}}));
    let statics = Statics::of(&setup, &brake_case(&setup));
    let plate = Plate::of(&setup, &statics);
    let mut other = plate.clone();
    let push = Push {
        moment: Vector::new(900.0, -400.0, 300.0),
        ..Push::at(Vector::new(50.0, 90.0, 20.0), Vector::new(3.0, 5.0, -2.0))
    };
    for (load, push) in other.loads.iter_mut().skip(1).zip(bolt_loads(&setup, push)) {
        load.push = push;
    }
    other.loads[0].push.force = Vector::ZERO;
    let mut bolts_only = plate.clone();
    bolts_only.loads[0].push.force = Vector::ZERO;
    let steel = steel();
    assert_same(travel(&bolts_only, &other, &steel), travel(&other, &bolts_only, &steel), 1e-9, "work, N·mm");
    assert!(travel(&bolts_only, &bolts_only, &steel) > 0.0);
}

/// Three-dimensional finite elements (scikit-fem, triquadratic bricks; `tests/reference/beam.py`): stresses halfway along,
/// away from both ends, and the free end's motion, of straight, wide and tapered cantilevers under loads of every kind.
#[test]
fn stresses_and_motion_are_those_of_finite_elements() {
    let fixture: Value = serde_json::from_str(&fixture_text("reference/beam.json")).unwrap_or_default();
    let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
    let three = |value: &Value| [0, 1, 2].map(|axis| number(&value[axis]));
    let steel = steel();
    assert_eq!((number(&fixture["young"]), number(&fixture["shear"])), (steel.young, steel.shear));
    let mut compared = 0;
    for plate in fixture["plates"].as_array().unwrap_or(&Vec::new()) {
        let (length, thickness) = (number(&plate["length"]), number(&plate["thickness"]));
        let widths = [number(&plate["widths"][0]), number(&plate["widths"][1])];
        for answer in plate["answers"].as_array().unwrap_or(&Vec::new()) {
            let what = format!("{} {}", plate["name"], answer["load"]["name"]);
            let force = three(&answer["load"]["force"]);
            let twist = number(&answer["load"]["twist"]);
            let ours = cantilever(length, widths, thickness, end_load(length, force, [twist, 0.0, 0.0]));
            let stress = square_cut(&ours, length / 2.0).1.stress(&[ours.loads[0].push]);
            assert_same(stress.von_mises, number(&answer["von_mises"]), 0.05, &format!("{what}, von Mises, MPa"));
            if twist != 0.0 {
                assert_same(
                    stress.twist + if force[1] != 0.0 { stress.shear } else { 0.0 },
                    number(&answer["face_shear"]),
                    0.05,
                    &format!("{what}, shear on the face, MPa"),
                );
                // The wall keeps the fixed end from warping, which the formula does not know of: it turns a little more.
                let whole = moved(&ours, end_load(length, [0.0; 3], [1.0, 0.0, 0.0]));
                assert_same(whole, number(&answer["twist"]), 0.06, &format!("{what}, twist of the end, rad"));
                assert!(whole >= number(&answer["twist"]), "{what}: the safe side");
            }
            for axis in (0..3).filter(|axis| force[*axis] != 0.0) {
                let mut unit = [0.0; 3];
                unit[axis] = 1.0;
                let there = moved(&ours, end_load(length, unit, [0.0; 3]));
                assert_same(
                    there,
                    number(&answer["displacement"][axis]),
                    0.05,
                    &format!("{what}, motion of the end, mm"),
                );
            }
            compared += 1;
        }
    }
    assert_eq!(compared, 15);
}

/// The caliper's drag acts inboard of the tab, so that the pads swing sideways and twist; stiffer plates move less, by about
/// the cube of their thickness where the plate's bending decides.
#[test]
fn a_thicker_tab_moves_less() {
    let motion = |thickness: f64| {
        let setup = setup_with(&json!({"dropout": {"thickness": thickness}}));
        let loads = loads(&setup).unwrap_or_else(|problems| unreachable!("{problems:?}"));
        let results = loads.groups.into_iter().flat_map(|group| group.results);
        let found: Vec<f64> = results
            .filter(|result| result.id == "pad_shift" || result.id == "pad_tilt")
            .map(|result| result.value)
            .collect();
        println!("{thickness} mm thick: {found:?}");
        found
    };
    let (thin, thick) = (motion(5.0), motion(10.0));
    assert_eq!(thin.len(), 2);
    for (thin, thick) in thin.iter().zip(&thick) {
        let ratio = thin / thick;
        assert!(ratio > 4.0 && ratio < 9.0, "{ratio}");
    }
}

/// Joint of a butt-welded tab: there where the web leaves the neck, on its rim; three lines with the thickness shared as
/// Simpson's rule has it bear bending as the plate's own section does, which is what the one routine gives for both.
#[test]
fn the_joint_lies_where_the_web_leaves_the_dropout() {
    let one_piece = loads(&Setup::default()).unwrap_or_else(|problems| unreachable!("{problems:?}"));
    assert!(one_piece.groups.iter().flat_map(|group| &group.results).all(|result| !result.id.contains("joint")));
    for kind in ["butt", "fillet"] {
        let setup =
            setup_with(&json!({"tab": {"build": "butt_welded", "clock": 60}, "load": {"weld": {"kind": kind}}}));
        let loads = loads(&setup).unwrap_or_else(|problems| unreachable!("{problems:?}"));
        let joint = loads.groups.iter().flat_map(|group| &group.results).find(|result| result.id == "joint_static");
        println!("{kind}: {}", joint.map_or("none", |joint| joint.sentence.as_str()));
        assert!(joint.is_some_and(|joint| joint.utilisation > Some(0.5)));
        let ends: Vec<_> = loads.seams.iter().filter(|seam| seam.id == "joint").map(|seam| seam.ends).collect();
        assert_eq!(ends.len(), 2);
        let top = fit::neck_top(&setup);
        let middle = [0, 1].map(|axis| (ends[0][0][axis] + ends[0][1][axis]) / 2.0);
        let distance = (middle[0] - top.back).hypot(middle[1] - top.up);
        assert!((distance - top.radius).abs() < 3.0, "{distance} from the neck's upper end");
    }
}

/// Posts have no flat tab: nothing is claimed of them, and the rest is there.
#[test]
fn posts_are_left_to_their_own_strength() {
    let setup = setup_with(&json!({"caliper": {"mount": "post", "bolt_direction": [0, -1, 0], "mount_depth": 0}}));
    let loads = loads(&setup).unwrap_or_else(|problems| unreachable!("{problems:?}"));
    let tab = &loads.groups[3];
    assert!(tab.note.contains("not computed") && tab.results.iter().all(|result| result.id == "neck_stress"));
    assert!(loads.groups[2].results.iter().any(|result| result.id == "bolt_shear"));
}
