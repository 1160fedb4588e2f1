//! The ring against plain reports at clock angles all round: verdicts and their edges, what binds, windows, rules.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::fit::{Parts, Piece, Run, line_run, recess, wheel_removal};
use tabwright_core::search::{Arc, Arcs, Ring, Stretch, positions, ring};
use tabwright_core::solid::{Solid, gap};
use tabwright_core::tolerance::CLOCK_EDGE;
use tabwright_core::{Setup, Side, Verdict};
use tabwright_tests::brute::{at_clock, changed, clocks, deciding, uneven};
use tabwright_tests::{assert_near, setup_with};

/// Clock angles are looked at this closely to tell what binds, degrees; where nothing fits, half as closely.
const SAMPLE: f64 = 3.0;

/// No point of these calipers is further from the axle, mm.
const FURTHEST: f64 = 160.0;

/// The pairs that change with the clock angle; of the plate, the neck and the web alone do.
fn room(setup: &Setup) -> f64 {
    let parts = Parts::of(setup);
    let (tube, neck) = (&parts.tube.solid, &parts.neck.solid);
    let required = &setup.required;
    let mut least = f64::MAX;
    let mut look = |piece: Piece, other: &Solid, wanted: f64| {
        if let Some(part) = parts.get(piece) {
            least = least.min(gap(&part.solid, other).unwrap().distance - wanted);
        }
    };
    for (index, body) in setup.caliper.bodies.iter().enumerate() {
        look(Piece::Body(index), tube, required.tube);
        if !body.bolted {
            look(Piece::Body(index), neck, required.plate);
            if let Some(web) = &parts.web {
                look(Piece::Body(index), &web.solid, required.plate);
            }
        }
    }
    if let Some(web) = &parts.web {
        look(Piece::Rotor, &web.solid, required.rotor);
    }
    for tool in 0..2 {
        look(Piece::Tool(tool), tube, required.tool);
    }
    look(Piece::Line, tube, required.line);
    let beside_tube = recess(setup).value + setup.tab.offset > 1e-6;
    if beside_tube {
        look(Piece::Lands, tube, required.tube);
    }
    least
}

/// Setups whose ring has hits, tight stretches and windows.
fn setups() -> Vec<(&'static str, Setup)> {
    let mut setups = uneven();
    let (_, left) = setups[0].clone();
    setups.push(("two windows", changed(&left, &json!({"required": {"tube": 2}, "fork": {"tube_end": 48}}))));
    setups.push((
        "recessed",
        setup_with(&json!({"wheel": {"hub_width": 115, "nut_diameter": 14}, "fork": {"tube_end": 60}})),
    ));
    // Too near to the tube at any clock angle.
    setups.push(("a large nut", setup_with(&json!({"wheel": {"nut_diameter": 40}, "required": {"nut": 20}}))));
    setups
}

fn stretch_at(ring: &Ring, clock: f64) -> &Stretch {
    let mut stretches = ring.stretches.iter();
    stretches
        .find(|stretch| (stretch.from..=stretch.to).contains(&clock))
        .unwrap_or_else(|| panic!("no stretch at {clock}°"))
}

#[test]
fn stretches_follow_each_other_round_and_their_verdicts_change_at_their_edges() {
    let mut edges = 0;
    for (name, setup) in setups() {
        let ring = ring(&setup).unwrap();
        let stretches = &ring.stretches;
        assert_eq!((stretches[0].from, stretches[stretches.len() - 1].to), (-180.0, 180.0));
        for pair in stretches.windows(2) {
            let [one, next] = pair else { continue };
            assert_eq!(one.to, next.from, "{name}");
            assert!(one.from < one.to && (one.verdict, one.binding) != (next.verdict, next.binding), "{name}: {one:?}");
            if one.verdict == next.verdict {
                continue;
            }
            edges += 1;
            for (stretch, clock) in [(one, one.to - CLOCK_EDGE), (next, one.to + CLOCK_EDGE)] {
                // A stretch may be narrower than what edges are right to.
                if (stretch.from..=stretch.to).contains(&clock) {
                    let verdict = deciding(&at_clock(&setup, clock)).verdict();
                    assert_eq!(verdict, stretch.verdict, "{name} at {clock}°, {stretch:?}");
                }
            }
        }
        for clock in clocks(0.5) {
            let (stretch, verdict) = (stretch_at(&ring, clock), deciding(&at_clock(&setup, clock)).verdict());
            let to_edge = (clock - stretch.from).min(stretch.to - clock);
            assert!(
                verdict == stretch.verdict || to_edge <= CLOCK_EDGE,
                "{name} at {clock}°: {verdict:?}, {stretch:?}"
            );
        }
    }
    assert!(edges > 15, "{edges}");
}

#[test]
fn what_binds_in_a_stretch_binds_along_it_by_the_margin_told() {
    for (name, setup) in setups() {
        let ring = ring(&setup).unwrap();
        for (index, stretch) in ring.stretches.iter().enumerate() {
            let spacing = if stretch.verdict == Verdict::Hits { 2.0 * SAMPLE } else { SAMPLE };
            let steps = ((stretch.to - stretch.from) / 0.25).ceil().max(2.0);
            let width = stretch.to - stretch.from;
            let inset = CLOCK_EDGE / 2.0;
            let places = (1..steps as u32).map(|step| stretch.from + width * f64::from(step) / steps);
            let places = places.chain([stretch.from + inset, stretch.to - inset]);
            let (mut least, mut strange) = (f64::MAX, 0);
            for clock in places {
                let there = deciding(&at_clock(&setup, clock));
                least = least.min(there.margin());
                // The edge between two pairs is right to a sixteenth of the spacing.
                let to_edge = (clock - stretch.from).min(stretch.to - clock);
                strange += u32::from(there.name.key() != stretch.binding && to_edge > spacing / 16.0);
            }
            let what = format!("{name}: {stretch:?}, {least} mm at the least");
            assert!(f64::from(strange) * 0.25 < spacing, "{what}; another binds at {strange}");
            // Between two looks no point of a caliper comes nearer than half the way that it goes.
            let missed = FURTHEST * (spacing / 2.0).to_radians();
            if stretch.to - stretch.from > spacing && strange == 0 {
                assert!(stretch.margin >= least - 0.1 && stretch.margin <= least + missed, "{what}");
            }
            let wanted = match stretch.verdict {
                Verdict::Hits => f64::MIN..=0.0,
                Verdict::Tight => f64::MIN..=1e-5,
                Verdict::Clears => -1e-5..=f64::MAX,
            };
            assert!(wanted.contains(&stretch.margin), "{what}");
            // Where the verdict changes, the margin is looked at just inside.
            let [before, after] = [index.wrapping_sub(1), index + 1].map(|beside| ring.stretches.get(beside));
            let ends = [(before, stretch.from + inset), (after, stretch.to - inset)];
            for (beside, clock) in ends {
                let end = deciding(&at_clock(&setup, clock));
                if beside.is_some_and(|beside| beside.verdict != stretch.verdict) && end.verdict() == stretch.verdict {
                    assert_eq!(end.name.key(), stretch.binding, "{what}");
                    assert!(stretch.margin <= end.margin() + 1e-3, "{what}, {} at {clock}°", end.margin());
                }
            }
        }
    }
}

#[test]
fn windows_are_where_all_clears_and_their_best_place_has_most_room() {
    let mut windows = 0;
    for (name, setup) in setups() {
        let ring = ring(&setup).unwrap();
        let clear = clocks(0.5).filter(|clock| stretch_at(&ring, *clock).verdict == Verdict::Clears);
        for clock in clear {
            assert_eq!(
                ring.windows.iter().filter(|window| window.arc.contains(clock)).count(),
                1,
                "{name} at {clock}°"
            );
        }
        for window in &ring.windows {
            windows += 1;
            let Arc { from, width } = window.arc;
            let what = format!("{name}: {window:?}");
            assert!(window.best > -180.0 && window.best <= 180.0 && window.arc.contains(window.best), "{what}");
            if width < 360.0 {
                for beyond in [from - CLOCK_EDGE, from + width + CLOCK_EDGE] {
                    assert_ne!(deciding(&at_clock(&setup, beyond)).verdict(), Verdict::Clears, "{what} at {beyond}°");
                }
            }
            let there = deciding(&at_clock(&setup, window.best));
            assert_eq!(there.name.key(), window.binding, "{what}");
            assert_near(there.margin(), window.margin, 1e-4, &what);
            let here = room(&at_clock(&setup, window.best));
            let steps = (width / 0.25).ceil().max(1.0);
            for step in 0..=steps as u32 {
                let clock = from + width * f64::from(step) / steps;
                let elsewhere = room(&at_clock(&setup, clock));
                assert!(here >= elsewhere - 2e-3, "{what}: {here} mm of room, {elsewhere} at {clock}°");
            }
        }
    }
    assert!(windows > 5, "{windows}");
}

/// Setups whose rules have edges, all round, and nowhere.
fn ruled() -> Vec<Setup> {
    let mut setups: Vec<Setup> = uneven().into_iter().map(|(_, setup)| setup).collect();
    for (index, changes) in [
        json!({"caliper": {"line": {"direction": [0.9, 0.2, 0.4]}}}),
        json!({"caliper": {"line": {"direction": [-0.5, -0.6, -0.3]}, "throat": 11}}),
        json!({"caliper": {"line": {"direction": [0.2, 0.1, 0.9]}, "throat": 17}}),
        json!({"caliper": {"line": {"direction": [0.1, 0.9, 0.1]}}, "dropout": {"closed": true}}),
        json!({"caliper": {"throat": 0.5}, "dropout": {"slot_direction": 35}}),
        // A rotor so small under a bridge so far out leaves any way.
        json!({"wheel": {"rotor_diameter": 90}, "caliper": {"throat": 40, "pad": {"edge_inset": -10}}}),
    ]
    .into_iter()
    .enumerate()
    {
        setups.push(changed(&setups[index % 4], &changes));
    }
    setups
}

#[test]
fn a_hair_beyond_their_arcs_rules_break() {
    type Holds<'a> = &'a dyn Fn(f64) -> bool;
    const HAIR: f64 = 1e-4;
    let (mut edges, mut whole, mut none) = (0, 0, 0);
    for (index, setup) in ruled().into_iter().enumerate() {
        let ring = ring(&setup).unwrap();
        let line = |clock: f64| line_run(&at_clock(&setup, clock)).run == Run::Up;
        let wheel = |clock: f64| wheel_removal(&at_clock(&setup, clock)).comes_out();
        for (arcs, holds) in [(&ring.line_up, &line as Holds), (&ring.wheel_out, &wheel as Holds)] {
            let set = Arcs::of(arcs);
            for clock in clocks(1.0) {
                assert_eq!(set.contains(clock), holds(clock), "setup {index} at {clock}°");
            }
            whole += usize::from(set == Arcs::all());
            none += usize::from(set.is_empty());
            for &Arc { from, width } in arcs.iter().filter(|arc| arc.width < 360.0) {
                edges += 2;
                let to = from + width;
                assert!(holds(from + HAIR) && !holds(from - HAIR), "setup {index}: from {from}°");
                assert!(holds(to - HAIR) && !holds(to + HAIR), "setup {index}: to {to}°");
            }
        }
    }
    assert!(edges > 15 && whole > 0 && none > 1);
}

/// By every degree of each quarter; a caliper keeps its hand on the other side.
#[test]
fn the_eight_places_have_most_room_in_their_quarters() {
    for (name, setup) in uneven() {
        let places = positions(&setup).unwrap();
        let at: Vec<_> = places.iter().map(|place| (place.side, place.behind, place.above)).collect();
        let quarters = [(true, true), (true, false), (false, true), (false, false)];
        let sides = [Side::Left, Side::Right];
        assert_eq!(at, sides.map(|side| quarters.map(|(behind, above)| (side, behind, above))).concat());
        for place in places {
            let mut sided = setup.clone();
            sided.side = place.side;
            let from = match (place.behind, place.above) {
                (true, true) => 0.0,
                (true, false) => 90.0,
                (false, true) => -90.0,
                (false, false) => -180.0,
            };
            let what = format!("{name}: {place:?}");
            let along = (place.clock - from + 360.0) % 360.0;
            assert!(along <= 90.0, "{what}");
            let there = at_clock(&sided, place.clock);
            let here = room(&there);
            for step in 0..=90 {
                let elsewhere = room(&at_clock(&sided, from + f64::from(step)));
                assert!(here >= elsewhere - 2e-3, "{what}: {here} mm, {elsewhere} {step}° on");
            }
            let binding = deciding(&there);
            assert_eq!((binding.name.key(), binding.verdict()), (place.binding, place.verdict), "{what}");
            assert_near(binding.margin(), place.margin, 1e-4, &what);
            assert_eq!(line_run(&there).run, place.line);
            assert_eq!(wheel_removal(&there).comes_out(), place.wheel_out, "{what}");
        }
    }
}
