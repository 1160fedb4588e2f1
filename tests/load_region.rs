//! The plate as a region: chords against a dense look at which points lie in it, loads' ways, and what a cut parts.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::f64::consts::{FRAC_PI_2, PI};

use serde_json::json;
use tabwright_core::cut::plate_region;
use tabwright_core::fit::{Parts, hole_centres, radial};
use tabwright_core::load::{Carried, Chord, Line, Plate, Push, Region, bolt_strength, hull_outline, loads};
use tabwright_core::solid::{Disc, Solid, Vector};
use tabwright_core::{Mount, Setup};
use tabwright_tests::draw::{Seeded, Source};
use tabwright_tests::loaded::plate_of;
use tabwright_tests::{assert_near, setup_with};

/// Points nearer to a rim than this belong to neither side, mm.
const RIM: f64 = 0.005;

/// The hull of some discs as half planes: directions, and how far it reaches along each. Those square to the straight
/// edges are among them, so that only arcs are met by a thousandth of a millimetre too far out.
struct Hull(Vec<[f64; 3]>);

impl Hull {
    fn of(discs: &[Disc]) -> Self {
        let mut angles: Vec<f64> = (0..720).map(|step| f64::from(step).to_radians() / 2.0).collect();
        for a in discs {
            for b in discs {
                let (back, up) = (b.back - a.back, b.up - a.up);
                let aside = ((a.radius - b.radius) / back.hypot(up)).acos();
                let normals = [-1.0, 1.0].map(|way| up.atan2(back) + way * aside);
                angles.extend(normals.into_iter().filter(|angle| angle.is_finite()));
            }
        }
        let look = |angle: f64| {
            let (sin, cos) = angle.sin_cos();
            let reach = discs.iter().map(|disc| disc.back * cos + disc.up * sin + disc.radius).fold(f64::MIN, f64::max);
            [cos, sin, reach]
        };
        Self(angles.into_iter().map(look).collect())
    }

    /// How deep a point lies inside: below nought outside.
    fn depth(&self, [back, up]: [f64; 2]) -> f64 {
        self.0.iter().map(|[cos, sin, reach]| reach - (back * cos + up * sin)).fold(f64::MAX, f64::min)
    }
}

/// Hulls that are material, hulls that part it, and holes that weaken it.
struct Shape {
    solid: Vec<Hull>,
    slots: Vec<Hull>,
    holes: Vec<Disc>,
}

impl Shape {
    /// How deep a point lies in what the slots leave, and in what the holes leave of that.
    fn depths(&self, point: [f64; 2]) -> [f64; 2] {
        let solid = self.solid.iter().map(|hull| hull.depth(point)).fold(f64::MIN, f64::max);
        let whole = self.slots.iter().map(|hull| -hull.depth(point)).fold(solid, f64::min);
        let hole = |hole: &Disc| (hole.back - point[0]).hypot(hole.up - point[1]) - hole.radius;
        [whole, self.holes.iter().map(hole).fold(whole, f64::min)]
    }

    /// Fails unless the chords of a line are where its points lie in the shape.
    fn assert_chords(&self, region: &Region, line: &Line, what: &str) -> usize {
        let chords = region.chords(line);
        for chord in &chords {
            assert_eq!(chord.line, *line);
            for end in chord.ends {
                assert_near(self.depths(line.at(end))[0], 0.0, RIM, &format!("{what}: an end on the rim"));
            }
            let pieces = chord.pieces.iter().flatten();
            pieces.for_each(|end| assert_near(self.depths(line.at(*end))[1], 0.0, RIM, &format!("{what}: a piece")));
            assert!(chord.pieces.windows(2).all(|pair| pair[0][1] < pair[1][0]), "{what}: pieces in order");
        }
        assert!(chords.windows(2).all(|pair| pair[0].ends[1] < pair[1].ends[0]), "{what}: chords in order");
        let within = |at: f64| move |[from, to]: &[f64; 2]| *from <= at && at <= *to;
        for step in -130..=130 {
            let at = f64::from(step) * 1.47;
            let [whole, rest] = self.depths(line.at(at));
            let found = chords.iter().flat_map(|chord| &chord.pieces).any(within(at));
            assert!(rest.abs() < RIM || found == (rest > 0.0), "{what}: {at} along {line:?}, {rest} deep");
            let spanned = chords.iter().map(|chord| chord.ends).any(|ends| within(at)(&ends));
            assert!(!spanned || whole > -RIM, "{what}: a chord over what a slot takes, {at} along {line:?}");
        }
        chords.iter().map(|chord| chord.pieces.len()).sum()
    }
}

/// Hulls of one to four discs, some of them points, two slots and two holes, drawn anew for each shape.
#[test]
fn chords_are_where_the_points_of_a_line_lie_inside() {
    let mut source = Seeded(5);
    let mut pieces = 0;
    for drawn in 0..18 {
        let mut discs = |count: usize, radii: [f64; 2]| -> Vec<Disc> {
            let mut disc = || {
                let [back, up] = [source.between(-50.0, 50.0), source.between(-50.0, 50.0)];
                let radius = if source.below(4) == 0 { 0.0 } else { source.between(radii[0], radii[1]) };
                Disc::new(back, up, radius)
            };
            (0..count).map(|_| disc()).collect()
        };
        let solid: Vec<_> = (0..1 + drawn % 3).map(|index| discs(3 + (drawn + index) % 2, [3.0, 30.0])).collect();
        let slots = [discs(2, [1.0, 4.0]), discs(1, [1.0, 4.0])];
        let holes = discs(2, [2.0, 9.0]);
        let outlines = |hulls: &[Vec<Disc>]| hulls.iter().map(|discs| hull_outline(discs)).collect();
        let region = Region { outlines: outlines(&solid), slots: outlines(&slots), holes: holes.clone() };
        let hulls = |all: &[Vec<Disc>]| all.iter().map(|discs| Hull::of(discs)).collect();
        let shape = Shape { solid: hulls(&solid), slots: hulls(&slots), holes };
        for turn in 0..12 {
            let point = [source.between(-40.0, 40.0), source.between(-40.0, 40.0)];
            let line = Line::new(point, f64::from(turn) * 0.53 - PI);
            pieces += shape.assert_chords(&region, &line, &format!("shape {drawn}"));
        }
    }
    assert!(pieces > 250, "{pieces} pieces");
}

fn plates() -> Vec<Setup> {
    [
        json!({"tab": {"offset": 2.5}}),
        json!({"tab": {"offset": -4, "clock": 75, "edge": 12}, "dropout": {"closed": true}, "caliper": {"bolt": {"size": "M5"}}}),
        json!({"tab": {"fillet_radius": 0, "clock": 62}, "side": "right", "fork": {"axle_offset": 14}}),
        json!({"tab": {"fillet_radius": 0, "clock": 150}, "dropout": {"slot_direction": -70, "slot_width": 12}}),
        json!({"tab": {"offset": 3, "clock": -95}, "dropout": {"eye_radius": 31, "slot_direction": 140}}),
        json!({"caliper": {"mount": "post", "bolt_direction": [0, -1, 0], "mount_depth": 0}, "tab": {"fillet_radius": 0}}),
    ]
    .iter()
    .map(setup_with)
    .collect()
}

/// Eye, neck, lands and web, less the slot out to any eye's rim or the axle's hole, less the bolts' clearance holes.
#[test]
fn a_plate_with_sharp_corners_is_its_parts() {
    for setup in plates() {
        let parts = Parts::of(&setup);
        let hulls = [Some(parts.eye), Some(parts.neck), parts.lands, parts.web].into_iter().flatten();
        let solid = hulls.map(|part| match part.solid {
            Solid::Slab(slab) => Hull::of(&slab.discs),
            Solid::Spool(_) => panic!("{} is flat", part.name),
        });
        let half = setup.dropout.slot_width / 2.0;
        let far = radial(setup.dropout.slot_direction) * 500.0;
        let axle = Disc::new(0.0, 0.0, half);
        let hole = bolt_strength(setup.caliper.bolt.size, setup.load.bolt_class).hole / 2.0;
        let mut holes = match setup.caliper.mount {
            Mount::SideLug => hole_centres(&setup).map(|[back, up]| Disc::new(back, up, hole)).to_vec(),
            Mount::Post => Vec::new(),
        };
        let mut slots = Vec::new();
        if setup.dropout.closed {
            holes.push(axle);
        } else {
            slots.push(Hull::of(&[axle, Disc::new(far.x, far.y, half)]));
        }
        let shape = Shape { solid: solid.collect(), slots, holes };
        let region = plate_of(&setup).region;
        for turn in 0..10 {
            for aside in [-41.3, 0.4, 22.7] {
                let angle = f64::from(turn) * 0.63 + 0.05;
                let point = [11.0 - aside * angle.sin(), 47.0 + aside * angle.cos()];
                shape.assert_chords(&region, &Line::new(point, angle), &format!("{:?}", setup.tab));
            }
        }
    }
}

/// With its inner corners filleted it is the plate as it is cut, whose own way tells where its points are; a window between
/// neck and web is no material either.
#[test]
fn a_plate_with_filleted_corners_is_the_plate_as_cut() {
    let mut windows = 0;
    for changes in [
        json!({"tab": {"fillet_radius": 9}, "dropout": {"closed": true}}),
        json!({"tab": {"clock": 62, "fillet_radius": 4}, "side": "right", "fork": {"axle_offset": 21}, "dropout": {"closed": true}}),
        json!({"tab": {"clock": -110, "fillet_radius": 14}, "dropout": {"closed": true, "eye_radius": 30}}),
        json!({"tab": {"clock": 35, "fillet_radius": 2}, "dropout": {"closed": true, "weld_length": 150, "eye_radius": 32}}),
    ] {
        let setup = setup_with(&changes);
        let cut = plate_region(&setup).unwrap().region;
        let region = plate_of(&setup).region;
        windows += cut.windows.len();
        let off = |[back, up]: [f64; 2]| {
            let [x, y] = cut.nearest_edge([back, up]);
            (x - back).hypot(y - up)
        };
        for turn in 0..9 {
            for aside in [-33.0, 1.7, 19.0, 48.0] {
                let angle = f64::from(turn) * 0.37 + 0.02;
                let line = Line::new([5.0 - aside * angle.sin(), 44.0 + aside * angle.cos()], angle);
                let chords = region.chords(&line);
                let ends = chords.iter().flat_map(|chord| chord.ends);
                ends.for_each(|end| assert_near(off(line.at(end)), 0.0, 1e-5, "an end on the edge"));
                for step in -150..=150 {
                    let at = f64::from(step) * 1.3;
                    let found = chords.iter().any(|chord| chord.ends[0] <= at && at <= chord.ends[1]);
                    let in_a_hole = region.holes.iter().any(|hole| {
                        let [back, up] = line.at(at);
                        (hole.back - back).hypot(hole.up - up) < hole.radius
                    });
                    let is_told = in_a_hole || off(line.at(at)) < RIM || found == cut.contains(line.at(at));
                    assert!(is_told, "{changes}: {at} along {line:?}");
                }
            }
        }
    }
    println!("{windows} windows");
}

/// A web that springs from the eye brings its loads round the axle halfway between hole and rim, never across the slot,
/// in equal turns of no more than 15°.
#[test]
fn ways_go_round_the_axle_clear_of_the_slot() {
    let mut rounds = 0;
    for (clock, slot, eye, width) in
        [(150.0, 180.0, 24.0, 9.5), (-120.0, 170.0, 20.0, 10.0), (170.0, 100.0, 31.0, 9.0), (140.0, -100.0, 27.0, 14.0)]
    {
        let setup = setup_with(&json!({
            "tab": {"clock": clock},
            "dropout": {"slot_direction": slot, "eye_radius": eye, "slot_width": width},
            "fork": {"axle_offset": 6},
        }));
        let plate = plate_of(&setup);
        let [land, root] = plate.web.unwrap();
        assert_eq!([root.back, root.up], [0.0, 0.0], "the web springs from the eye");
        let angle = |[back, up]: [f64; 2]| (back.atan2(up).to_degrees() - slot).rem_euclid(360.0);
        for load in plate.loads.iter().filter(|load| load.from_caliper) {
            let near = load.way.iter().position(|at| *at == [land.back, land.up]).unwrap();
            let (hold, round) = load.way[near + 1..].split_last().unwrap();
            round.iter().for_each(|at| assert_near(at[0].hypot(at[1]), (width / 2.0 + eye) / 2.0, 1e-9, "halfway"));
            let (start, end) = (angle([land.back, land.up]), angle(*hold));
            assert_near(angle(round[0]), start, 1e-9, "beside the land");
            assert_near(angle(round[round.len() - 1]), end, 1e-9, "below the welds");
            let turns: Vec<f64> = round.windows(2).map(|pair| angle(pair[1]) - angle(pair[0])).collect();
            turns.iter().for_each(|turn| assert_near(*turn, turns[0], 1e-9, "equal turns, none past the slot"));
            let fewest = (end - start).abs() / 15.0;
            assert!(turns[0].abs() <= 15.0 && (turns.len() as f64) < fewest + 1.0, "{} of {}", turns.len(), turns[0]);
            rounds += 1;
        }
    }
    assert_eq!(rounds, 8);
}

/// A strip along `back`, held at 0 and loaded at its end and halfway.
fn strip() -> Plate {
    let edge = |up: f64| [Disc::new(-10.0, up, 0.0), Disc::new(80.0, up, 0.0)];
    let load = |at: f64, from_caliper: bool| Carried {
        push: Push::at(Vector::new(at, 0.0, 2.0), Vector::new(3.0, 50.0, -20.0)),
        way: vec![[at, 0.0], [20.0, 0.0], [0.0, 0.0]],
        spread: 7.0,
        from_caliper,
    };
    Plate {
        region: Region { outlines: vec![hull_outline(&[edge(-8.0), edge(8.0)].concat())], ..Region::default() },
        thickness: 4.0,
        dropout_out: 1.5,
        tab_out: -2.5,
        loads: vec![load(40.0, false), load(70.0, true)],
        held: vec![[[0.0, -6.0], [0.0, 6.0]]],
        web: None,
    }
}

fn across(plate: &Plate, at: f64) -> Chord {
    plate.chord_about(&Line::new([at, 0.0], FRAC_PI_2), [at, 0.0]).unwrap()
}

/// What lies beyond a cut is what it parts, but for loads whose clamp it cuts through; a weld is not parted.
#[test]
fn a_cut_parts_what_lies_beyond_it_clear_of_its_clamp() {
    let plate = strip();
    let cuts: [(f64, &[usize], &[usize]); 9] = [
        (10.0, &[0, 1], &[0, 1]),
        // A corner of the way on the cut is passed once.
        (20.0, &[0, 1], &[0, 1]),
        (33.0, &[0, 1], &[0, 1]),
        (33.5, &[0, 1], &[1]),
        (46.0, &[1], &[1]),
        (63.0, &[1], &[1]),
        (64.0, &[1], &[]),
        (75.0, &[], &[]),
        (-4.0, &[], &[]),
    ];
    for (at, beyond, parted) in cuts {
        let chord = across(&plate, at);
        assert_eq!(plate.beyond(&chord), beyond, "beyond {at}");
        assert_eq!(plate.parted_by(&chord), parted, "parted at {at}");
        let back = Chord { line: Line::new([at, 0.0], -FRAC_PI_2), ..chord };
        assert_eq!(plate.beyond(&back), beyond, "the same cut the other way, {at}");
    }
    // At a slant it crosses the weld's line at −7.7, beyond the weld, or at −3.8.
    let slant = |angle: f64| plate.chord_about(&Line::new([3.0, 0.0], angle), [3.0, 0.0]).unwrap();
    assert_eq!(plate.parted_by(&slant(1.2)), [0, 1]);
    assert!(plate.parted_by(&slant(0.9)).is_empty(), "a cut across a weld parts nothing");
    assert!(plate.from_caliper(&[1]) && plate.from_caliper(&[0, 1]) && !plate.from_caliper(&[0]));
    assert_eq!(plate.section(&across(&plate, 50.0), &[1]).centroid.z, -2.5, "the tab's plane");
    assert_eq!(plate.section(&across(&plate, 30.0), &[0, 1]).centroid.z, 1.5, "the dropout's plane");
}

/// How near a chord comes to a point: square to it beside it, to its end beyond it.
#[test]
fn a_chord_is_as_near_as_its_nearest_point() {
    let line = Line::new([3.0, -2.0], 0.6);
    let chord = Chord { line, ends: [-4.0, 9.0], pieces: vec![[-4.0, 9.0]] };
    let beside = |along: f64, aside: f64| {
        let [back, up] = line.at(along);
        [back - aside * 0.6_f64.sin(), up + aside * 0.6_f64.cos()]
    };
    for (along, aside, near) in
        [(2.0, 5.0, 5.0), (2.0, -5.0, 5.0), (12.0, 4.0, 5.0), (-7.0, -4.0, 5.0), (9.0, 1.5, 1.5), (-16.0, 5.0, 13.0)]
    {
        assert_near(chord.distance(beside(along, aside)), near, 1e-9, &format!("{along} along, {aside} aside"));
        let [far, side] = line.coordinates(beside(along, aside));
        assert_near(far, along, 1e-9, "along");
        assert_near(side, aside, 1e-9, "aside");
    }
    assert!(chord.is_crossed_by([beside(8.9, 1.0), beside(8.9, -3.0)]));
    assert!(chord.is_crossed_by([beside(-6.0, -1.0), beside(0.0, 1.0)]), "at 3 before the middle");
    for away in [[beside(9.1, 1.0), beside(9.1, -3.0)], [beside(-4.1, 1.0), beside(-4.1, -3.0)]] {
        assert!(!chord.is_crossed_by(away));
    }
    assert!(!chord.is_crossed_by([beside(2.0, 1.0), beside(4.0, 0.5)]), "beside it");
}

/// The drawn cut's ends are the ends of a chord of the plate.
#[test]
fn cuts_are_drawn_from_rim_to_rim() {
    for setup in plates() {
        let region = plate_of(&setup).region;
        for cut in loads(&setup).unwrap().cuts {
            let [from, to] = cut.ends;
            let (long, angle) = ((to[0] - from[0]).hypot(to[1] - from[1]), (to[1] - from[1]).atan2(to[0] - from[0]));
            let chords = region.chords(&Line::new(from, angle));
            let fits = |chord: &Chord| chord.ends[0].abs() < 1e-6 && (chord.ends[1] - long).abs() < 1e-6;
            assert!(chords.iter().any(fits), "{}: {long} from {from:?}", cut.id);
        }
    }
}
