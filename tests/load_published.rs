//! Loads against published figures, each with its source. TBIS: the Taiwanese bicycle standards, national texts of
//! ISO 4210 and EN 15194 that are open to read.

use serde_json::json;
use tabwright_core::load::{
    FATIGUE_FORCE, GRAVITY, Limit, LoadResult, RETENTION, SECOND_STAGE_FORCE, STATIC_FORCE, State, bolt_strength,
    brake_case, clamp_force, fatigue_stages, loads, pad_clamp, rider_braking, strength, stress_area, test_arm,
    wheel_size,
};
use tabwright_core::{Bicycle, BoltClass, BoltSize, LoadCase, Material, Scheme, Setup, TestWheel, fit, load};
use tabwright_tests::setup_with;

fn assert_same(got: f64, expected: f64, share: f64, what: &str) {
    println!("{what}: {got:.4} for {expected:.4}");
    assert!((got - expected).abs() <= share * expected.abs(), "{what}: got {got}, expected {expected}");
}

fn result(setup: &Setup, id: &str) -> LoadResult {
    let loads = loads(setup).unwrap_or_else(|problems| unreachable!("{problems:?}"));
    let mut results = loads.groups.into_iter().flat_map(|group| group.results);
    results.find(|result| result.id == id).unwrap_or_else(|| unreachable!("no result {id}"))
}

/// The fatigue group is the standard's own test, whatever the case.
fn only_the_fatigue_test_is_over(setup: &Setup) {
    let loads = loads(setup).unwrap_or_else(|problems| unreachable!("{problems:?}"));
    for group in loads.groups.iter().filter(|group| group.id != "fatigue") {
        assert!(group.results.iter().all(|result| result.state != State::Over), "{}", group.id);
    }
}

/// TBIS 15194:2019 4.3.8.7.2 (1000 N) and table 21 (arms): 305, 330, 349, 368 N·m; other sizes half the wheel's diameter.
#[test]
fn the_static_test_has_its_torque() {
    for (word, torque) in [("24", 305.0), ("26", 330.0), ("650b", 349.0), ("700c", 368.0), ("by_radius", 340.0)] {
        let setup = setup_with(&json!({"load": {"case": "iso_static", "wheel": word}}));
        assert_same(result(&setup, "torque").value, torque, 1e-12, &format!("N·m, wheel {word}"));
        let case = brake_case(&setup);
        assert_eq!(case.brake, 1000.0);
        // Backward, square to the leg, in the wheel's plane.
        assert_eq!([case.force.x, case.force.y, case.force.z], [1000.0, 0.0, 0.0]);
    }
    assert_eq!(STATIC_FORCE, 1000.0);
    assert_eq!(test_arm(TestWheel::ByRadius), None);
}

/// TBIS 15194:2019 4.3.8.7.5 and table 22; the one-stage text of ISO 4210-6 from memory: 12 000, racing 20 000.
#[test]
fn the_fatigue_test_has_its_stages() {
    assert_eq!((FATIGUE_FORCE, SECOND_STAGE_FORCE), (600.0, 700.0));
    let of = |bicycle, scheme| -> Vec<[f64; 2]> {
        fatigue_stages(bicycle, scheme).iter().map(|stage| [stage.force, stage.cycles]).collect()
    };
    for bicycle in [Bicycle::City, Bicycle::YoungAdult, Bicycle::Mountain] {
        assert_eq!(of(bicycle, Scheme::TwoStage), [[600.0, 14_400.0], [700.0, 12_000.0]]);
        assert_eq!(of(bicycle, Scheme::Iso), [[600.0, 12_000.0]]);
    }
    assert_eq!(of(Bicycle::Racing, Scheme::TwoStage), [[600.0, 24_000.0], [700.0, 20_000.0]]);
    assert_eq!(of(Bicycle::Racing, Scheme::Iso), [[600.0, 20_000.0]]);
}

/// Nominal diameters by the summary of ISO 5775-1 (en-academic.com/dic.nsf/enwiki/884038): bead seat + 2 H, H = W, and
/// W + 2.5 below 28 mm. Bead seats from memory.
#[test]
fn wheel_sizes_have_their_nominal_radius() {
    let rows = [
        ("37-622", 696.0, 348.0, TestWheel::Inch29),
        ("50-622", 722.0, 361.0, TestWheel::Inch29),
        ("25-622", 677.0, 338.5, TestWheel::Inch29),
        ("47-584", 678.0, 339.0, TestWheel::Inch27),
        ("50-559", 659.0, 329.5, TestWheel::Inch26),
        ("47-507", 601.0, 300.5, TestWheel::Inch24),
        ("47-406", 500.0, 250.0, TestWheel::ByRadius),
        // The designation's own example, en.wikipedia.org/wiki/ISO_5775.
        (" 32 – 597 ", 661.0, 330.5, TestWheel::ByRadius),
    ];
    for (text, diameter, radius, wheel) in rows {
        let size = wheel_size(text).unwrap_or_else(|problems| unreachable!("{problems:?}"));
        println!("{text}: {} across, radius {}", size.diameter, size.radius);
        assert_eq!((size.diameter, size.radius, size.wheel), (diameter, radius, wheel), "{text}");
        // The page puts it into the setup.
        let setup = setup_with(&json!({"wheel": {"tyre_radius": size.radius}, "load": {"wheel": wheel.word()}}));
        assert!(loads(&setup).is_ok());
    }
    for text in [
        "", "-", "47", "47-", "-559", "26 x 2.1", "47-55", "0-622", "47-9999", "4e1-622", "+47-622", "47-622-1",
        "∞-622", "NaN-622",
    ] {
        let problems = wheel_size(text).err().unwrap_or_default();
        assert_eq!(problems.len(), 1, "{text}");
        assert!(problems[0].message.contains("47-559"), "{text}");
    }
}

/// TBIS 15194:2019 4.3.9.4.2 and EN 14766:2005 4.10.4.3: 2300 N, split equally on both ends of the axle.
#[test]
fn retention_is_judged_by_half_of_2300_n() {
    assert_eq!(RETENTION, 2300.0);
    assert_eq!(result(&Setup::default(), "axle_retention").allowable, Some(1150.0));
}

/// J. Riel, Maximal Braking on a Standard Bicycle, 2005: a = g l / h, about + g times the slope: 0.7 g becomes 0.6 g on a
/// descent of 10 per cent; 0.63 g seated and 0.83 g hanging off the back.
#[test]
fn pitch_over_is_that_of_the_published_analysis() {
    let at = |share: f64, slope: f64| {
        let change =
            json!({"load": {"case": "rider", "cog_height": 1000, "cog_to_front": 1000.0 * share, "slope": slope}});
        rider_braking(&setup_with(&change))
    };
    for share in [0.63, 0.83] {
        assert_same(at(share, 0.0).deceleration / GRAVITY, share, 1e-9, "level, g");
        assert_eq!(at(share, 0.0).limit, Limit::PitchOver);
    }
    // "About": the published rule leaves out the cosine, which is half a per cent here.
    assert_same(at(0.7, -10.0).deceleration / GRAVITY, 0.6, 0.01, "10 per cent down, g");
    assert_same(at(0.7, 10.0).deceleration / GRAVITY, 0.8, 0.01, "10 per cent up, g");
}

/// Newton and moments about both contacts, solved anew: along the road F + m g sin θ = m a, square to it N₁ + N₂ =
/// m g cos θ, about the front contact N₂ w = m g cos θ l − (m a − m g sin θ) h.
#[test]
fn a_rider_at_the_limit_is_in_balance() {
    let cases = [
        (600.0, 1100.0, 1050.0, 0.9, 0.0),
        (600.0, 1100.0, 1050.0, 0.4, 0.0),
        (1300.0, 800.0, 2400.0, 0.9, -12.0),
        (900.0, 500.0, 1500.0, 0.8, 6.0),
        (700.0, 450.0, 1100.0, 1.2, -20.0),
    ];
    for (to_front, height, wheelbase, friction, slope) in cases {
        let setup = setup_with(&json!({"load": {
            "case": "rider", "mass": 180, "cog_to_front": to_front, "cog_height": height,
            "wheelbase": wheelbase, "friction": friction, "slope": slope,
        }}));
        let found = rider_braking(&setup);
        let angle = (slope / 100.0_f64).atan();
        let (along, square) = (180.0 * GRAVITY * angle.sin(), 180.0 * GRAVITY * angle.cos());
        let inertia = 180.0 * found.deceleration;
        let rear = (square * to_front - (inertia - along) * height) / wheelbase;
        println!("{to_front} {height}: F {:.1} N {:.1} rear {rear:.2} {:?}", found.force, found.normal, found.limit);
        assert!((found.force + along - inertia).abs() < 1e-9 * square, "along the road");
        match found.limit {
            Limit::PitchOver => {
                assert!(rear.abs() < 1e-9 * square && (found.normal - square).abs() < 1e-9 * square);
                assert!(found.force <= friction * square);
            }
            Limit::Grip => {
                assert!(rear > 0.0 && (found.normal + rear - square).abs() < 1e-9 * square);
                assert!((found.force - friction * found.normal).abs() < 1e-9 * square);
            }
        }
    }
}

/// A long, low cargo bicycle slides before it tips; a short, high load tips before it slides; ahead of the contact nothing
/// brakes at all, and that is said.
#[test]
fn cargo_slides_and_high_loads_tip() {
    let with = |to_front: f64, height: f64| {
        setup_with(
            &json!({"load": {"case": "rider", "cog_to_front": to_front, "cog_height": height, "wheelbase": 2200}}),
        )
    };
    assert_eq!(rider_braking(&with(1200.0, 800.0)).limit, Limit::Grip);
    assert_eq!(rider_braking(&with(400.0, 1300.0)).limit, Limit::PitchOver);
    let none = with(-100.0, 900.0);
    assert_eq!(rider_braking(&none).force, 0.0);
    let answer = loads(&none).unwrap_or_else(|problems| unreachable!("{problems:?}"));
    assert!(answer.case.contains("cannot brake"), "{}", answer.case);
    only_the_fatigue_test_is_over(&none);
}

/// T = 2 μ F r: engineeringtoolbox.org/disk-brakes-d_1808. Ugural question 13.6 (holooly.com/?p=823737): 1309 lb at 0.2
/// between 2.5 and 5 in give 982 lb·in on each face, 1963.5 on both. Shigley example 16-3 (from memory, recomputed):
/// 13 000 lbf·in at 0.37 and 4.6875 in need 3748 lbf.
#[test]
fn pads_press_as_in_the_worked_examples() {
    assert_same(pad_clamp(2.0 * 982.0, 0.2, 3.75), 1309.0, 0.005, "Ugural 13.6, lb");
    assert_same(pad_clamp(13_000.0, 0.37, 4.6875), 3748.0, 0.005, "Shigley 16-3, lbf");
    let setup = setup_with(&json!({"load": {"wheel": "26"}}));
    let by_hand = 330.0 / (2.0 * 0.4 * 0.093);
    assert_same(result(&setup, "pad_clamp").value, by_hand, 1e-9, "clamp of each pad by hand, N");
    assert_same(result(&setup, "pad_force").value, 330.0 / 0.093, 1e-9, "pad force by hand, N");
}

/// Effective radius: (r_o + r_i) / 2 for even wear (holooly.com/?p=823737), (2/3)(r_o³ − r_i³) / (r_o² − r_i²) for even
/// pressure (from memory): the pads' middle is the first and within half a per cent of the second.
#[test]
fn the_pads_middle_is_their_effective_radius() {
    let setup = Setup::default();
    let (outer, inner) = (101.5 - 0.5, 101.5 - 0.5 - 16.0);
    assert_same(fit::pad_radius(&setup), (outer + inner) / 2.0, 1e-12, "even wear, mm");
    let pressure = 2.0 / 3.0 * (outer * outer * outer - inner * inner * inner) / (outer * outer - inner * inner);
    assert_same(fit::pad_radius(&setup), pressure, 0.005, "even pressure, mm");
}

/// The hand force of the same stop goes with the inverse of the pads' lever: T = 2 μ F r again.
#[test]
fn other_rotors_ask_the_hand_by_their_lever() {
    let loads = loads(&Setup::default()).unwrap_or_else(|problems| unreachable!("{problems:?}"));
    for rotor in &loads.rotors {
        // By hand: pads 8.5 mm inside the edge.
        let radius = rotor.rotor / 2.0 - 8.5;
        assert_same(rotor.hand, 93.0 / radius, 1e-9, &format!("hand with rotor {}", rotor.rotor));
        assert_same(rotor.pad_force * radius, 340_000.0, 1e-9, "the same torque");
    }
    assert_eq!(loads.rotors.iter().map(|rotor| rotor.rotor).collect::<Vec<_>>(), [140.0, 160.0, 180.0, 203.0, 220.0]);
}

/// ISO 898-1 (optimas, slsbearings, usefastener.com 404): stress areas, proof and breaking loads; ISO 273 medium holes
/// (engineeringhardware.com/?p=50).
#[test]
fn bolts_are_those_of_iso_898() {
    for (size, pitch, table, computed) in
        [(5.0, 0.8, 14.2, 14.18), (6.0, 1.0, 20.1, 20.12), (8.0, 1.25, 36.6, 36.61), (10.0, 1.5, 58.0, 57.99)]
    {
        assert_same(stress_area(size, pitch), table, 0.002, &format!("M{size}, mm²"));
        assert_same(stress_area(size, pitch), computed, 0.0004, &format!("M{size}, by the formula"));
    }
    let rows = [
        (BoltSize::M5, [8230.0, 11_800.0, 13_800.0], [11_350.0, 14_800.0, 17_300.0], 5.5),
        (BoltSize::M6, [11_600.0, 16_700.0, 19_500.0], [16_100.0, 20_900.0, 24_500.0], 6.6),
    ];
    for (size, proofs, ultimates, hole) in rows {
        for (index, class) in [BoltClass::C88, BoltClass::C109, BoltClass::C129].into_iter().enumerate() {
            let bolt = bolt_strength(size, class);
            assert_eq!((bolt.proof, bolt.ultimate, bolt.hole), (proofs[index], ultimates[index], hole));
            // Proof stress 580, 830, 970 MPa on the stress area, as the tables round it.
            let stress = [580.0, 830.0, 970.0][index];
            assert_same(bolt.proof / bolt.area, stress, 0.007, &format!("{size:?} {class:?}, proof stress"));
        }
    }
}

/// T = K d F: engitoolbox.org/calculators/bolt-torque, aionlinecalculator.com bolt-torque: M10, 50 N·m, K 0.2: 25 000 N;
/// M12 of 8.8 at 0.7 of 580 MPa on 84.3 mm²: 34.2 kN, 82 N·m. At 0.75 of the proof load: 6.18, 8.84, 10.5, 15.0 N·m.
#[test]
fn torques_are_those_of_the_published_tables() {
    assert_same(clamp_force(50.0, 0.2, 10.0), 25_000.0, 1e-9, "M10 at 50 N·m, N");
    assert_same(clamp_force(82.0, 0.2, 12.0), 34_200.0, 0.005, "M12 at 82 N·m, N");
    assert_same(clamp_force(50.0, 0.2, 10.0) / stress_area(10.0, 1.5), 431.0, 0.005, "M10 at 50 N·m, MPa");
    for (size, class, torque, force) in [
        ("M5", "8.8", 6.18, 6177.0),
        ("M5", "10.9", 8.84, 8840.0),
        ("M6", "8.8", 10.5, 8744.0),
        ("M6", "10.9", 15.0, 12_512.0),
    ] {
        let setup =
            setup_with(&json!({"caliper": {"bolt": {"size": size}}, "load": {"bolt_class": class, "nut_factor": 0.2}}));
        let advised = result(&setup, "bolt_preload").allowable.unwrap_or(f64::NAN);
        // ISO 898-1's proof loads are rounded by up to 0.6 per cent.
        assert_same(advised, torque, 0.006, &format!("{size} {class}, N·m"));
        let diameter = if size == "M5" { 5.0 } else { 6.0 };
        assert_same(clamp_force(advised, 0.2, diameter), force, 0.006, &format!("{size} {class}, N"));
    }
    // The default axle: 30 N·m on 9 mm at 0.2, by hand; two faces at 0.15.
    assert_same(result(&Setup::default(), "axle_clamp").value, 30_000.0 / 1.8, 1e-9, "axle clamp, N");
    assert_same(result(&Setup::default(), "axle_friction").allowable.unwrap_or(0.0), 5000.0, 1e-9, "axle friction, N");
}

/// S235JR: EN 10025-2 table 7 (readle.co.uk). A36: ASTM A36 (36 and 58 ksi). 1018: iforgeiron.com topic 59790,
/// capitalsteel.net. 4130: asm.matweb.com bassnum=m4130r, bar normalised at 870 °C.
#[test]
fn materials_have_their_published_strength() {
    let of = |material: Material, thickness: f64| {
        let mut setup = Setup::default();
        (setup.load.material, setup.dropout.thickness) = (material, thickness);
        let found = strength(&setup);
        println!("{}: {} and {} MPa", found.name, found.yield_strength, found.tensile_strength);
        [found.yield_strength, found.tensile_strength]
    };
    assert_eq!(of(Material::MildSteel, 6.0), [235.0, 360.0]);
    assert_eq!(of(Material::MildSteel, 16.0), [235.0, 360.0]);
    assert_eq!(of(Material::MildSteel, 18.0), [225.0, 360.0]);
    assert_eq!(of(Material::A36, 6.0), [250.0, 400.0]);
    assert_eq!(of(Material::ColdDrawn1018, 6.0), [370.0, 440.0]);
    assert_eq!(of(Material::HotRolled1018, 6.0), [221.0, 400.0]);
    assert_eq!(of(Material::CrMo4130, 6.0), [435.0, 670.0]);
    let ksi = 6.894_757;
    for (ksis, mpa) in [(53.7, 370.0), (63.8, 440.0), (32.0, 221.0), (58.0, 400.0), (36.0, 250.0)] {
        assert_same(ksis * ksi, mpa, 0.01, "ksi and MPa of the same table");
    }
    let mut steel = Setup::default();
    steel.load.material = Material::CrMo4130;
    let found = strength(&steel);
    assert_eq!((found.young, found.shear), (205_000.0, 80_000.0));
    assert_same(found.young / (2.0 * found.shear) - 1.0, 0.29, 0.04, "Poisson's ratio of the same row");
}

/// Unknown material: what was entered, and never more than breaks it.
#[test]
fn own_material_counts_as_entered() {
    let mut setup = Setup::default();
    (setup.load.material, setup.load.yield_strength, setup.load.tensile_strength) = (Material::Own, 300.0, 420.0);
    assert_eq!(result(&setup, "root_stress").allowable, Some(300.0));
    setup.load.yield_strength = 900.0;
    assert_eq!(result(&setup, "root_stress").allowable, Some(420.0));
}

/// A force of one's own acts at the ground, and everything follows it in proportion.
#[test]
fn an_own_force_scales_everything() {
    let at = |force: f64| {
        let mut setup = Setup::default();
        (setup.load.case, setup.load.own_force) = (LoadCase::Own, force);
        setup
    };
    for id in [
        "torque",
        "pad_force",
        "axle_retention",
        "bolt_shear",
        "root_stress",
        "neck_stress",
        "pad_shift",
        "weld_static",
    ] {
        let (one, two) = (result(&at(400.0), id).value, result(&at(800.0), id).value);
        assert_same(two, 2.0 * one, 1e-3, id);
    }
    only_the_fatigue_test_is_over(&at(0.0));
    assert_eq!(load::brake_case(&at(400.0)).torque, 400.0 * 340.0);
}
