//! What the drawings show is where it is: every shape read back and laid over the solids.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that cannot go on should stop")]

use tabwright_core::drawing::{View, draw};
use tabwright_core::fit::{BOOT_LENGTH, CaliperFrame, Part, Parts, TUBE_LENGTH, radial};
use tabwright_core::solid::{Disc, Solid, Vector};
use tabwright_core::{BoltSize, Setup, Side};
use tabwright_tests::svg::{Element, Point, area, convex, reach, read};
use tabwright_tests::views::{DRAWN, page, setups};
use tabwright_tests::{assert_near, report_of};

/// Points of discs' rims on the page.
fn rims(discs: &[Disc], page: impl Fn(Point) -> Point) -> Vec<Point> {
    let rim = |disc: &Disc| -> Vec<Point> {
        let at = |step: u32| {
            let (sin, cos) = f64::from(step).to_radians().sin_cos();
            page([disc.back + disc.radius * cos, disc.up + disc.radius * sin])
        };
        (0..360).map(at).collect()
    };
    discs.iter().flat_map(rim).collect()
}

/// Fails unless a shape's outline is that of the hull of `expected`.
fn assert_outline(drawn: &[Point], expected: &[Point], what: &str) {
    for direction in 0..72 {
        let turns = f64::from(direction) / 72.0;
        assert_near(reach(drawn, turns), reach(expected, turns), DRAWN, &format!("{what}, reach at {turns}"));
    }
    let around: f64 = [0.0, 0.25, 0.5, 0.75].map(|turns| reach(expected, turns)).iter().sum();
    let (drawn, expected) = (area(drawn), area(&convex(expected)));
    assert_near(drawn, expected, 0.1 + 0.012 * around + expected * 1e-3, &format!("{what}, area"));
}

fn discs_of(part: &Part) -> Vec<Disc> {
    match &part.solid {
        Solid::Slab(slab) => slab.discs.clone(),
        Solid::Spool(spool) => panic!("{spool:?} is not drawn as discs"),
    }
}

fn corners(corners: &[Point]) -> Vec<Disc> {
    corners.iter().map(|&[x, y]| Disc::new(x, y, 0.0)).collect()
}

fn box_of([left, right]: [f64; 2], [low, high]: [f64; 2], grown: f64) -> Vec<Disc> {
    [[left, low], [right, low], [right, high], [left, high]].map(|[x, y]| Disc::new(x, y, grown)).to_vec()
}

/// A slab along the leg: its width by its thickness.
fn section_of(part: &Part, grown: f64) -> Vec<Disc> {
    let Solid::Slab(slab) = &part.solid else { panic!("{} is no slab", part.name) };
    let left = slab.discs.iter().map(|disc| disc.back - disc.radius).fold(f64::MAX, f64::min);
    let right = slab.discs.iter().map(|disc| disc.back + disc.radius).fold(f64::MIN, f64::max);
    box_of([left, right], [slab.low, slab.high], grown)
}

fn clearance_hole(setup: &Setup) -> f64 {
    match setup.caliper.bolt.size {
        BoltSize::M5 => 5.5,
        BoltSize::M6 => 6.6,
    }
}

/// The closed shapes that the side view must have, by the start of their title, in the order of that title's shapes.
fn beside(setup: &Setup, above: f64) -> Vec<(String, Vec<Disc>)> {
    let (parts, frame) = (Parts::of(setup), CaliperFrame::of(setup));
    let (wheel, fork, pad) = (&setup.wheel, &setup.fork, &setup.caliper.pad);
    let middle = |radius: f64| vec![Disc::new(0.0, 0.0, radius)];
    let mut slot = middle(setup.dropout.slot_width / 2.0);
    if !setup.dropout.closed {
        let mouth = radial(setup.dropout.slot_direction) * (setup.dropout.eye_radius + setup.dropout.slot_width / 2.0);
        slot.push(Disc::new(mouth.x, mouth.y, setup.dropout.slot_width / 2.0));
    }
    let half = fork.tube_diameter / 2.0;
    let across = [fork.axle_offset - half, fork.axle_offset + half];
    let end = |beyond: f64| (fork.tube_end + TUBE_LENGTH).min(above + beyond).max(fork.tube_end);
    let pads = [[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]]
        .map(|[cw, rad]| frame.disc([cw * pad.length / 2.0, rad * pad.height / 2.0], 0.0));
    let hole = |index: usize| vec![frame.disc(setup.caliper.holes[index], clearance_hole(setup) / 2.0)];
    let mut shapes = vec![
        ("Rotor".to_owned(), middle(wheel.rotor_diameter / 2.0)),
        ("Spoke flange".to_owned(), middle(wheel.flange_diameter / 2.0)),
        ("Dropout".to_owned(), discs_of(&parts.eye)),
        ("Dropout".to_owned(), discs_of(&parts.neck)),
        ("Axle slot".to_owned(), slot),
        ("Axle nut".to_owned(), middle(wheel.nut_diameter / 2.0)),
        ("Brake pad".to_owned(), pads.to_vec()),
        ("Fork tube".to_owned(), box_of(across, [fork.tube_end, end(1.0)], 0.0)),
        ("Caliper hole 1".to_owned(), hole(0)),
        ("Caliper hole 2".to_owned(), hole(1)),
        ("Line exit".to_owned(), {
            let [cw, rad, _] = setup.caliper.line.exit;
            vec![frame.disc([cw, rad], setup.caliper.line.diameter / 2.0)]
        }),
        ("Room wanted round the tube".to_owned(), box_of(across, [fork.tube_end, end(20.0)], setup.required.tube)),
        ("Room wanted round the nut".to_owned(), middle(wheel.nut_diameter / 2.0 + setup.required.nut)),
    ];
    shapes.extend(parts.web.iter().chain(&parts.lands).map(|part| ("Tab".to_owned(), discs_of(part))));
    shapes.extend(parts.caliper.iter().map(|part| (format!("Caliper: {}", part.name), discs_of(part))));
    shapes
}

/// The same of the section.
fn along(setup: &Setup) -> Vec<(String, Vec<Disc>)> {
    let parts = Parts::of(setup);
    let (wheel, fork) = (&setup.wheel, &setup.fork);
    let flange = wheel.hub_width / 2.0 - wheel.flange_inset;
    let (half_flange, half_rim) = (wheel.flange_diameter / 2.0, wheel.rim_diameter / 2.0);
    let tube = |radius: f64| vec![Disc::new(fork.axle_offset, (fork.tube_gap + fork.tube_diameter) / 2.0, radius)];
    let Solid::Slab(rotor) = &parts.rotor.solid else { panic!("a rotor is a slab") };
    let band = |sign: f64| {
        let edge = wheel.rotor_diameter / 2.0;
        box_of([sign * edge, sign * (edge - wheel.track_width)], [rotor.low, rotor.high], 0.0)
    };
    let mut shapes = vec![
        (
            "Spokes".to_owned(),
            corners(&[[-half_rim, 0.0], [-half_flange, flange], [half_flange, flange], [half_rim, 0.0]]),
        ),
        ("Hub".to_owned(), box_of([-wheel.axle_diameter, wheel.axle_diameter], [0.0, wheel.hub_width / 2.0], 0.0)),
        ("Rotor".to_owned(), section_of(&parts.rotor, 0.0)),
        ("Braking band".to_owned(), band(-1.0)),
        ("Braking band".to_owned(), band(1.0)),
        ("Fork tube".to_owned(), tube(fork.tube_diameter / 2.0)),
        ("Inside of the tube".to_owned(), tube(fork.tube_diameter / 2.0 - fork.tube_wall)),
        ("Dropout".to_owned(), section_of(&parts.eye, 0.0)),
        ("Dropout".to_owned(), section_of(&parts.neck, 0.0)),
        ("Axle nut".to_owned(), section_of(&parts.nut, 0.0)),
        ("Room wanted round the tube".to_owned(), tube(fork.tube_diameter / 2.0 + setup.required.tube)),
        ("Room wanted round the nut".to_owned(), section_of(&parts.nut, setup.required.nut)),
        ("Room wanted round the rotor".to_owned(), section_of(&parts.rotor, setup.required.rotor)),
    ];
    shapes.extend(parts.web.iter().chain(&parts.lands).map(|part| ("Tab".to_owned(), section_of(part, 0.0))));
    shapes.extend(parts.caliper.iter().map(|part| (format!("Caliper: {}", part.name), section_of(part, 0.0))));
    shapes
}

#[test]
fn every_part_is_drawn_where_it_is() {
    for setup in setups() {
        for view in [View::Side, View::Section] {
            let drawing = read(&draw(&setup, view).unwrap());
            let page = page(&setup, view);
            let [_, top, ..] = drawing[0].view_box();
            let expected = if view == View::Side { beside(&setup, -top) } else { along(&setup) };
            let is_shape = |element: &&Element| ["path", "circle"].contains(&element.kind.as_str());
            let mut shapes: Vec<&Element> =
                drawing.iter().filter(is_shape).filter(|one| !one.title.is_empty()).collect();
            for (title, discs) in expected {
                let at = shapes.iter().position(|one| one.title.starts_with(&title));
                let Some(at) = at else { panic!("{view:?} has no {title}") };
                let shape = shapes.remove(at);
                let is_alone = shape.kind == "circle";
                assert_eq!(is_alone, discs.len() == 1, "{view:?}, {title}: {}", shape.kind);
                let has_bends = shape.attributes.get("d").is_some_and(|path| path.contains('A'));
                let is_round = discs.iter().any(|disc| disc.radius > 0.0);
                assert_eq!(is_alone || has_bends, is_round, "{view:?}, {title}: corners are joined straight");
                assert_outline(&shape.points(), &rims(&discs, &page), &format!("{view:?}, {title}"));
            }
            // What is left is the band from the side, a ring between two circles.
            for shape in shapes {
                assert_eq!((view, shape.title.as_str()), (View::Side, "Braking band"));
                let [edge, band] = &shape.lines()[..] else { panic!("a ring has two circles") };
                let radius = setup.wheel.rotor_diameter / 2.0;
                for (circle, radius) in [(edge, radius), (band, radius - setup.wheel.track_width)] {
                    assert_outline(circle, &rims(&[Disc::new(0.0, 0.0, radius)], &page), "braking band");
                }
            }
        }
    }
}

/// The line's first stretch, the axle's cross, the wheel's middle and the slot.
#[test]
fn lines_run_from_where_they_start_to_where_they_end() {
    let ends = |drawing: &[Element], title: &str| -> Vec<Vec<Point>> {
        let lines = drawing.iter().filter(|one| one.kind == "line" && one.title.starts_with(title));
        lines.map(Element::points).collect()
    };
    let assert_ends = |found: &[Point], expected: [Point; 2], what: &str| {
        for (found, expected) in found.iter().zip(expected) {
            assert_near(found[0], expected[0], DRAWN, what);
            assert_near(found[1], expected[1], DRAWN, what);
        }
    };
    for setup in setups() {
        let frame = CaliperFrame::of(&setup);
        let exit = frame.point(setup.caliper.line.exit);
        let tip = exit + frame.direction(setup.caliper.line.direction).normalize() * BOOT_LENGTH;
        for view in [View::Side, View::Section] {
            let drawing = read(&draw(&setup, view).unwrap());
            let page = page(&setup, view);
            let seen = |point: Vector| page([point.x, if view == View::Side { point.y } else { point.z }]);
            assert_ends(&ends(&drawing, "Line, leaving")[0], [seen(exit), seen(tip)], "the line");
        }
        let cross = ends(&read(&draw(&setup, View::Side).unwrap()), "Axle");
        let way = if setup.side == Side::Left { 1.0 } else { -1.0 };
        assert_eq!(cross, [[[-7.0 * way, 0.0], [7.0 * way, 0.0]], [[0.0, 7.0], [0.0, -7.0]]].map(|line| line.to_vec()));
        let section = read(&draw(&setup, View::Section).unwrap());
        let [left, _, width, _] = section[0].view_box();
        let middle = &ends(&section, "Middle of the wheel")[0];
        assert_near((middle[0][0] - middle[1][0]).abs(), width, 1e-9, "the wheel's middle goes all across");
        assert!(middle.iter().all(|[x, y]| (*x - left).min(left + width - *x).abs() < 1e-9 && *y == 0.0));
        let slot = &ends(&section, "Middle of the caliper's slot")[0];
        let lateral = report_of(&setup).lateral;
        let bodies: Vec<Point> = section.iter().filter(|one| one.is("caliper")).flat_map(Element::points).collect();
        for (end, turns) in slot.iter().zip(if setup.side == Side::Left { [0.5, 0.0] } else { [0.0, 0.5] }) {
            assert_near(end[1], lateral.slot_centre, DRAWN, "the slot's middle");
            let beyond = (end[0].abs() - reach(&bodies, turns) * end[0].signum()).abs();
            let beyond =
                if turns == 0.0 { end[0] - reach(&bodies, 0.0) } else { -end[0] - reach(&bodies, 0.5) + 0.0 * beyond };
            assert_near(beyond, 6.0, DRAWN, "the slot's middle shows on either side of the caliper");
        }
    }
}
