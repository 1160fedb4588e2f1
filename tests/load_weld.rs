//! Welds: handbook tables and worked examples, all through the one weld-line routine, from straight segments.

use tabwright_core::load::{
    Push, THROAT, WeldGroup, WeldLine, WeldRule, cycles_at, damage, directional_strengths, electrode_allowable,
    simplified_strength,
};
use tabwright_core::solid::Vector;
use tabwright_core::{Electrode, Setup, load};

/// Half a per cent, as the examples' own rounding.
const SAME: f64 = 0.005;

fn assert_same(got: f64, expected: f64, what: &str) {
    println!("{what}: {got:.5} for {expected:.5}");
    assert!((got - expected).abs() <= SAME * expected.abs(), "{what}: got {got}, expected {expected}");
}

/// Lines through points in the plane of the welds, each with the throat given.
fn group(throat: f64, segments: &[[[f64; 2]; 2]]) -> WeldGroup {
    let point = |[x, y]: [f64; 2]| Vector::new(x, y, 0.0);
    let line = |&[from, to]: &[[f64; 2]; 2]| WeldLine { from: point(from), to: point(to), throat, face: Vector::Z };
    WeldGroup { lines: segments.iter().map(line).collect() }
}

fn vertical(x: f64, d: f64) -> [[f64; 2]; 2] {
    [[x, 0.0], [x, d]]
}

fn horizontal(y: f64, b: f64) -> [[f64; 2]; 2] {
    [[0.0, y], [b, y]]
}

/// The patterns of the tables, of width b and height d.
struct Patterns {
    single: WeldGroup,
    verticals: WeldGroup,
    horizontals: WeldGroup,
    corner: WeldGroup,
    channel: WeldGroup,
    trough: WeldGroup,
    rectangle: WeldGroup,
}

fn patterns(b: f64, d: f64) -> Patterns {
    let (left, right, low, high) = (vertical(0.0, d), vertical(b, d), horizontal(0.0, b), horizontal(d, b));
    Patterns {
        single: group(1.0, &[left]),
        verticals: group(1.0, &[left, right]),
        horizontals: group(1.0, &[low, high]),
        corner: group(1.0, &[left, low]),
        channel: group(1.0, &[left, low, high]),
        trough: group(1.0, &[left, right, high]),
        rectangle: group(1.0, &[left, right, low, high]),
    }
}

const SIZES: [[f64; 2]; 4] = [[50.0, 50.0], [100.0, 120.0], [56.0, 190.0], [30.0, 7.0]];

/// Shigley, Mechanical Engineering Design, 9th edition, table 9-2, p. 488: length and unit second moment I_u in bending
/// about the horizontal, with the throat area 0.707 h times the length.
#[test]
fn bending_of_the_patterns_is_that_of_table_9_2() {
    for [b, d] in SIZES {
        let p = patterns(b, d);
        let y = d * d / (b + 2.0 * d);
        let trough = 2.0 * d.powi(3) / 3.0 - 2.0 * d * d * y + (b + 2.0 * d) * y * y;
        let rows = [
            (&p.single, d, d.powi(3) / 12.0, "one vertical"),
            (&p.verticals, 2.0 * d, d.powi(3) / 6.0, "two verticals"),
            (&p.horizontals, 2.0 * b, b * d * d / 2.0, "two horizontals"),
            (&p.channel, 2.0 * b + d, d * d * (6.0 * b + d) / 12.0, "channel"),
            (&p.trough, b + 2.0 * d, trough, "trough"),
            (&p.rectangle, 2.0 * (b + d), d * d * (3.0 * b + d) / 6.0, "rectangle"),
        ];
        for (group, long, unit, what) in rows {
            assert_same(group.area(), long, &format!("length of {what}, {b} by {d}"));
            assert_same(group.inertia_about(Vector::X), unit, &format!("I_u of {what}, {b} by {d}"));
        }
        // Centroids: the channel's from its back, the trough's from its closed end.
        assert_same(p.channel.centroid().x, b * b / (2.0 * b + d), "x of the channel");
        assert_same(d - p.trough.centroid().y, y, "y of the trough");
    }
    let leg = 6.0;
    let throats = group(THROAT * leg, &[vertical(0.0, 40.0), vertical(30.0, 40.0)]);
    assert_same(throats.area(), 1.414 * leg * 40.0, "throat area of two verticals");
}

/// Design of Modern Steel Railway Bridges, table 9.1 "Properties of Weld Lines"; circle: Shigley, solution 9-8; last term
/// of the channel from memory.
#[test]
fn torsion_of_the_patterns_is_that_of_table_9_1() {
    for [b, d] in SIZES {
        let p = patterns(b, d);
        let rows = [
            (&p.single, d.powi(3) / 12.0, "one vertical"),
            (&p.verticals, d * (3.0 * b * b + d * d) / 6.0, "two verticals"),
            (&p.horizontals, b * (3.0 * d * d + b * b) / 6.0, "two horizontals"),
            (&p.corner, ((b + d).powi(4) - 6.0 * b * b * d * d) / (12.0 * (b + d)), "corner"),
            (&p.channel, (8.0 * b.powi(3) + 6.0 * b * d * d + d.powi(3)) / 12.0 - b.powi(4) / (2.0 * b + d), "channel"),
            (&p.rectangle, (b + d).powi(3) / 6.0, "rectangle"),
        ];
        for (group, unit, what) in rows {
            assert_same(group.inertia_about(Vector::Z), unit, &format!("J_u of {what}, {b} by {d}"));
        }
        assert_same(p.corner.centroid().x, b * b / (2.0 * (b + d)), "x of the corner");
        assert_same(p.corner.centroid().y, d * d / (2.0 * (b + d)), "y of the corner");
    }
    let radius = 20.0;
    let corner = |step: i32| {
        let (sin, cos) = (f64::from(step) * std::f64::consts::TAU / 90.0).sin_cos();
        [radius * cos, radius * sin]
    };
    let circle: Vec<_> = (0..90).map(|step| [corner(step), corner(step + 1)]).collect();
    assert_same(
        group(1.0, &circle).inertia_about(Vector::Z),
        std::f64::consts::TAU * radius.powi(3),
        "J_u of a circle of 90 straight pieces",
    );
}

/// A page (welding.ezvirtualtools.com polar-moment-weld) takes b² d² / (2 (b + d)) off the closed rectangle's (b + d)³ / 6.
/// That is wrong: J is the sum of the two I, and example B below needs the whole.
#[test]
fn the_wrong_formula_for_a_rectangle_does_not_pass() {
    for [b, d] in SIZES {
        let rectangle = patterns(b, d).rectangle;
        let j = rectangle.inertia_about(Vector::Z);
        let wrong = (b + d).powi(3) / 6.0 - b * b * d * d / (2.0 * (b + d));
        println!("rectangle {b} by {d}: {j:.0}, wrong {wrong:.0}");
        assert!((j - wrong).abs() > SAME * wrong);
        assert_same(j, rectangle.inertia_about(Vector::X) + rectangle.inertia_about(Vector::Y), "J = I_x + I_y");
    }
}

/// The largest stress and the direct one, under a force at a point.
fn peak(group: &WeldGroup, point: [f64; 3], force: [f64; 3]) -> (f64, f64) {
    let load = Push::at(point.into(), force.into());
    let at_middle = Push::sum(&[load], group.centroid());
    let peak = group.peak(at_middle.force, at_middle.moment).unwrap_or(f64::NAN);
    (peak, at_middle.force.length() / group.area())
}

/// Shigley 9th edition, problem 9-17, p. 508: two horizontal fillets of 50 mm, 50 mm apart, leg 5 mm, bar reaching 150 mm
/// beyond them; allowable 140 MPa gives 6.06 kN (answer from memory, recomputed).
#[test]
fn example_a_torsion_on_two_horizontals() {
    let group = group(THROAT * 5.0, &[horizontal(0.0, 50.0), horizontal(50.0, 50.0)]);
    assert_same(group.inertia_about(Vector::Z), 294_583.0, "J");
    let (most, direct) = peak(&group, [200.0, 25.0, 0.0], [0.0, -1000.0, 0.0]);
    assert_same(direct, 2.829, "direct, MPa per kN");
    assert_same(most, 23.09, "largest, MPa per kN");
    assert_same(140.0 / most, 6.06, "F at 140 MPa, kN");
}

/// machinecalcs.com/weld-group-calculator: closed rectangle 100 by 120 mm, 10 kN at 100 mm from its middle, along the
/// height: 61.11 N/mm, 14.41 MPa at a leg of 6 mm, 0.0995 of E70.
#[test]
fn example_b_torsion_on_a_rectangle() {
    let lines = patterns(100.0, 120.0).rectangle;
    let (most, direct) = peak(&lines, [150.0, 60.0, 0.0], [0.0, -10_000.0, 0.0]);
    assert_same(direct, 22.73, "direct, N/mm");
    assert_same(most, 61.11, "largest, N/mm");
    let stress = most / (THROAT * 6.0);
    assert_same(stress, 14.41, "MPa");
    assert_same(stress / electrode_allowable(Electrode::E70), 0.0995, "of E70");
}

/// reuven.tools/tools/weld-group: two verticals of 200 mm, 100 mm apart, 50 kN at 150 mm: 430.06 N/mm at the corner, a leg
/// of 3.04 mm at 200 MPa.
#[test]
fn example_c_torsion_on_two_verticals() {
    let lines = patterns(100.0, 200.0).verticals;
    assert_same(lines.inertia_about(Vector::Z), 2.333e6, "J_u");
    let (most, direct) = peak(&lines, [200.0, 100.0, 0.0], [0.0, -50_000.0, 0.0]);
    assert_same(direct, 125.0, "direct, N/mm");
    assert_same(most, 430.06, "largest, N/mm");
    assert_same(most / (THROAT * 200.0), 3.04, "leg at 200 MPa, mm");
}

/// Shigley example 9-1 (from memory, recomputed): channel of b = 56, d = 190, leg 6 mm, 25 kN on a line 100 mm beyond the
/// back weld.
#[test]
fn example_d_torsion_on_a_channel() {
    let group = {
        let (b, d) = (56.0, 190.0);
        group(THROAT * 6.0, &[vertical(0.0, d), horizontal(0.0, b), horizontal(d, b)])
    };
    let centroid = group.centroid();
    assert_same(group.area(), 1281.0, "A");
    assert_same(centroid.x, 10.4, "x");
    assert_same(group.inertia_about(Vector::Z), 7.07e6, "J");
    let load = Push::sum(&[Push::at(Vector::new(-100.0, 95.0, 0.0), Vector::Y * -25_000.0)], centroid);
    assert_same(load.moment.z, 2.760e6, "M, N·mm");
    let stresses = group.stresses(load.force, load.moment).unwrap_or_default();
    let at = |line: usize, end: usize| stresses[2 * line + end].whole.length();
    assert_same(25_000.0 / group.area(), 19.5, "direct, MPa");
    assert_same(at(1, 1), 37.1, "open end, MPa");
    assert_same(at(0, 0), 43.9, "back corner, MPa");
    assert_same(at(1, 0), 43.9, "back corner by the other line, MPa");
}

/// Shigley example 9-4 (from memory, recomputed), in inches and pounds: two verticals of 2, leg 3/8, 500 lbf at 6 in;
/// E6010 with a yield of 50 kpsi has a safety of 3.39 in shear.
#[test]
fn example_f_bending_on_two_verticals() {
    let group = group(THROAT * 0.375, &[vertical(0.0, 2.0), vertical(3.0, 2.0)]);
    assert_same(group.area(), 1.06, "A, in²");
    assert_same(group.inertia_about(Vector::X), 0.3535, "I, in⁴");
    let (most, direct) = peak(&group, [1.5, 1.0, 6.0], [0.0, -500.0, 0.0]);
    assert_same(direct, 471.0, "direct, psi");
    assert_same(most, 8500.0, "largest, psi");
    assert_same(0.577 * 50_000.0 / most, 3.39, "safety");
}

/// Shigley 10th edition, solutions 9-1, 9-2 and 9-5: direct shear alone on two fillets; 0.512 kN/mm of E70.
#[test]
fn direct_shear_alone() {
    let stress = |b: f64, leg: f64| {
        let group = group(THROAT * leg, &[horizontal(0.0, b), horizontal(b, b)]);
        peak(&group, [b / 2.0, b / 2.0, 0.0], [1.0, 0.0, 0.0]).0
    };
    assert_same(140.0 / stress(50.0, 5.0), 49_500.0, "N on two of 50 mm, leg 5 mm");
    assert_same(25.0 / stress(2.0, 0.3125), 22.1, "kip on two of 2 in, leg 5/16 in");
    assert_same(electrode_allowable(Electrode::E70) / stress(50.0, 5.0), 51_200.0, "N of E70 on two of 50 mm");
}

/// Shigley table 9-6 (holooly.com/?p=506706; Blodgett D412): 21.0 ksi of E70 and 18.0 of E60 on the throat, 14.85 h and
/// 12.73 h kip/in. AISC 360 J2: 0.60 F_EXX over Ω = 2 is the same 0.30 (from memory).
#[test]
fn allowables_of_fillets_are_those_of_table_9_6() {
    let ksi = 6.894_757;
    assert_same(electrode_allowable(Electrode::E70) / ksi, 21.0, "E70, ksi");
    assert_same(electrode_allowable(Electrode::E60) / ksi, 18.0, "E60, ksi");
    assert_same(electrode_allowable(Electrode::E70), 144.8, "E70, MPa");
    assert_same(0.6 * 70.0 * ksi / 2.0, electrode_allowable(Electrode::E70), "AISC 360");
    let per_inch = |leg: f64, electrode| electrode_allowable(electrode) / ksi * THROAT * leg;
    let table = [(0.125, 1.86), (0.1875, 2.78), (0.25, 3.71), (0.3125, 4.64), (0.375, 5.57), (0.5, 7.42)];
    for (leg, kips) in table {
        assert_same(per_inch(leg, Electrode::E70), kips, &format!("E70, leg {leg} in, kip/in"));
    }
    assert_same(per_inch(1.0, Electrode::E60), 12.73, "E60, h, kip/in");
    // Shigley example 9-2 (digilib page 518): 4 in of 3/8 bear 22.28 kip, more than the 16.5 asked.
    let bears = 4.0 * per_inch(0.375, Electrode::E70);
    assert_same(bears, 22.28, "example 9-2, kip");
    assert!(bears > 16.5);
}

/// EN 1993-1-8 4.5.3 (strokeforge.tech eng-006, steelcalculator.app, frameai-engineering.com weld-sizing).
#[test]
fn resistances_are_those_of_en_1993() {
    let rows = [
        ("S235", 360.0, 0.8, [207.85, 360.0, 259.2]),
        ("S275", 430.0, 0.85, [233.66, 404.7, 309.6]),
        ("S355", 510.0, 0.9, [261.73, 453.3, 367.2]),
    ];
    for (name, tensile, correlation, [simple, whole, square]) in rows {
        assert_same(simplified_strength(tensile, correlation), simple, &format!("{name}, f_vw,d"));
        let [a, b] = directional_strengths(tensile, correlation);
        assert_same(a, whole, &format!("{name}, f_u / β γ"));
        assert_same(b, square, &format!("{name}, 0.9 f_u / γ"));
    }
    assert_same(3.0 * simplified_strength(510.0, 0.9), 785.2, "throat 3 mm in S355, N/mm");
}

/// frameai-engineering.com weld-sizing: 200 kN on two welds of 298 mm in S355: 335.6 N/mm, a throat of 1.28 mm is enough,
/// one of 3 mm is used to 42.8 per cent.
#[test]
fn the_worked_example_of_en_1993_comes_out() {
    let lines = [vertical(-20.0, 298.0), vertical(20.0, 298.0)];
    let load = Push::at(Vector::new(0.0, 149.0, 0.0), Vector::Y * 200_000.0);
    let rules = [
        WeldRule::Simplified(simplified_strength(510.0, 0.9)),
        WeldRule::Directional(directional_strengths(510.0, 0.9)),
    ];
    for rule in rules {
        let at =
            |throat: f64| rule.worst(&group(throat, &lines), load).map_or(f64::NAN, |[stress, limit]| stress / limit);
        assert_same(at(1.0), 1.28, &format!("throat that is enough, {rule:?}"));
        assert_same(at(3.0), 0.428, &format!("use of 3 mm, {rule:?}"));
    }
    assert_same(peak(&group(1.0, &lines), [0.0, 149.0, 0.0], [0.0, 200_000.0, 0.0]).0, 335.6, "N/mm");
}

/// Closed form: square to a fillet's line, σ⊥ = τ⊥ = q / √2 a, so that the directional method counts √2 q / a where the
/// simplified one counts √3 q / a along the line: 1.2247 times stronger (EN 1993-1-8 4.5.3.2).
#[test]
fn across_the_line_the_directional_method_gives_more() {
    let rule = WeldRule::Directional(directional_strengths(360.0, 0.8));
    let lines = group(1.0, &[vertical(0.0, 100.0), vertical(40.0, 100.0)]);
    let use_of = |force: [f64; 3]| {
        let load = Push::at(lines.centroid(), force.into());
        rule.worst(&lines, load).map_or(f64::NAN, |[stress, limit]| stress / limit)
    };
    let along = use_of([0.0, 10_000.0, 0.0]);
    for across in [[10_000.0, 0.0, 0.0], [0.0, 0.0, 10_000.0]] {
        assert_same(along / use_of(across), 1.2247, "along over across");
    }
}

/// A straight line of weld cannot be twisted about itself; any other load it can bear.
#[test]
fn one_line_bears_no_twist_about_itself() {
    let line = group(3.0, &[vertical(0.0, 50.0)]);
    assert!(line.peak(Vector::X, Vector::Y).is_none());
    assert!(line.peak(Vector::X, Vector::Y * 1e-3 + Vector::Z).is_none());
    let bending = line.peak(Vector::ZERO, Vector::Z * 1000.0).unwrap_or(f64::NAN);
    // M c / I with I = t d³ / 12.
    assert_same(bending, 1000.0 * 25.0 / (3.0 * 50.0_f64.powi(3) / 12.0), "M c / I");
    assert!(WeldGroup { lines: Vec::new() }.peak(Vector::X, Vector::ZERO).is_none());
}

/// EN 1993-1-9 7.1: a category is the range borne two million times, slope 3; Palmgren and Miner: shares add up.
#[test]
fn lives_follow_the_slope_of_three() {
    assert_same(cycles_at(36.0, 36.0), 2e6, "at the category");
    assert_same(cycles_at(80.0 / 10.0_f64.cbrt(), 80.0), 2e7, "ten times as often at 1 / ∛10");
    let stages = load::fatigue_stages(tabwright_core::Bicycle::City, tabwright_core::Scheme::TwoStage);
    let by_hand = 14_400.0 / (2e6 * (36.0_f64 / 60.0).powi(3)) + 12_000.0 / (2e6 * (36.0_f64 / 70.0).powi(3));
    assert_same(damage(&stages, 0.1, 36.0), by_hand, "two stages, 60 and 70 MPa");
}

/// By hand: a plate 6 mm thick on a tube of 31.75 mm: with a leg of 4 mm the flare is as deep as the leg at
/// √(4 · (31.75 − 4)) = 10.536 mm from the tube's middle; the lines run from the tube's end, 20, to the plate's round end,
/// 87 + √(13² − 10.536²) = 94.616.
#[test]
fn the_seams_lie_where_flare_and_plate_put_them() {
    let setup = Setup::default();
    let seams = load::tube_seams(&setup).map_or(Vec::new(), |group| group.lines);
    assert_eq!(seams.len(), 2);
    for (line, back) in seams.iter().zip([-10.536, 10.536]) {
        assert_same(line.from.x, back, "back");
        assert_same(line.from.y, 20.0, "from");
        assert_same(line.to.y, 94.616, "to");
        assert_same(line.to.z, 56.0, "out");
        assert_same(line.throat, 2.828, "throat");
    }
    // Let in by 20 mm, past its own 6 mm: four lines, where the tube's wall comes through both faces.
    let mut let_in = setup;
    let_in.fork.tube_gap = 72.0;
    let seams = load::tube_seams(&let_in).map_or(Vec::new(), |group| group.lines);
    assert_eq!(seams.len(), 4);
    // √(20 · 11.75) = 15.33 and √(14 · 17.75) = 15.76 are past the plate's edge at 13.
    seams.iter().for_each(|line| assert_same(line.from.x.abs(), 12.99, "at the edge"));
}
