//! Tables and weights of the cut sheet against published values.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test that cannot go on should stop")]

use std::f64::consts::PI;

use tabwright_core::cut::{CutOptions, clearance_hole, cut_sheet, density, general_tolerance, tap_drill};
use tabwright_core::{BoltSize, HoleFit, Material, Mount, Setup, ToleranceClass};
use tabwright_tests::assert_near;

/// ISO 273, fine H12, medium H13, coarse H14: M5 5.3/5.5/5.8, M6 6.4/6.6/7.0. Read in engineeringhardware.com/?p=50 and
/// nbk1560.com technical-20.
#[test]
fn clearance_holes_are_those_of_iso_273() {
    let fits = [HoleFit::Fine, HoleFit::Medium, HoleFit::Coarse];
    assert_eq!(fits.map(|fit| clearance_hole(BoltSize::M5, fit)), [5.3, 5.5, 5.8]);
    assert_eq!(fits.map(|fit| clearance_hole(BoltSize::M6, fit)), [6.4, 6.6, 7.0]);
}

/// ISO 2768-1, ± mm over 0.5-3, 3-6, 6-30, 30-120, 120-400, 400-1000: f .05/.05/.1/.15/.2/.3; m .1/.1/.2/.3/.5/.8;
/// c .2/.3/.5/.8/1.2/2.0; v -/.5/1/1.5/2.5/4. Read in a copy of DIN ISO 2768-1; c of the two smallest ranges from memory.
#[test]
fn tolerances_are_those_of_iso_2768_1() {
    let lengths = [2.0, 5.0, 20.0, 51.0, 203.0, 700.0];
    let table = [
        (ToleranceClass::Fine, [Some(0.05), Some(0.05), Some(0.1), Some(0.15), Some(0.2), Some(0.3)]),
        (ToleranceClass::Medium, [Some(0.1), Some(0.1), Some(0.2), Some(0.3), Some(0.5), Some(0.8)]),
        (ToleranceClass::Coarse, [Some(0.2), Some(0.3), Some(0.5), Some(0.8), Some(1.2), Some(2.0)]),
        (ToleranceClass::VeryCoarse, [None, Some(0.5), Some(1.0), Some(1.5), Some(2.5), Some(4.0)]),
    ];
    for (class, expected) in table {
        assert_eq!(lengths.map(|length| general_tolerance(length, class)), expected, "{class:?}");
    }
    // A range includes its upper end: "over 30 up to 120".
    let medium = |length| general_tolerance(length, ToleranceClass::Medium);
    assert_eq!([3.0, 6.0, 30.0, 120.0, 400.0].map(medium), [Some(0.1), Some(0.1), Some(0.2), Some(0.3), Some(0.5)]);
    assert_eq!([0.4, 1000.1].map(medium), [None, None]);
}

/// Coarse pitch 0.8 and 1.0 mm (ISO 261), drill = diameter less pitch (ISO 2306): 4.2 and 5.0 mm. From memory.
#[test]
fn tap_drills_leave_the_pitch() {
    assert_eq!((tap_drill(BoltSize::M5), tap_drill(BoltSize::M6)), (4.2, 5.0));
}

/// The bare strap by hand: a stadium 26 wide and 87 long between its middles, an eye of radius 20 about the lower, slot
/// closed. Area of stadium and eye less what they share; the shared part by the circle's two segments beside the strap.
#[test]
fn mass_is_area_thickness_and_density() {
    let mut setup = Setup::default();
    setup.dropout.closed = true;
    setup.tab.fillet_radius = 0.0;
    let options = CutOptions { metal: Some(Material::Stainless304), ..CutOptions::default() };
    let sheet = cut_sheet(&setup, &options).unwrap();
    let plain = sheet.pieces.iter().find(|piece| piece.title == "Dropout of the other leg").unwrap();
    let (eye, half) = (20.0_f64, 13.0_f64);
    // Of the eye, what lies beside the strap: two segments at 13 from the middle, above the axle, and below it all of the
    // eye's lower half outside the strap's round end.
    let segment = eye * eye * (half / eye).acos() - half * (eye * eye - half * half).sqrt();
    let strap = 2.0 * half * 87.0 + PI * half * half;
    let lower = PI * (eye * eye - half * half) / 2.0;
    let area = strap + segment + lower - PI * 9.5 * 9.5 / 4.0;
    assert_near(plain.area, area, 1e-6, "area");
    // 8.0 g/cm³ is a common handbook value for stainless 304, from memory.
    assert_near(plain.mass, area * 6.0 * 8.0e-6, 1e-9, "mass");
    assert_eq!([Material::MildSteel, Material::CrMo4130, Material::Aluminium6061].map(density), [7.85, 7.85, 2.70]);
    assert_near(plain.width, 40.0, 1e-9, "width");
    assert_near(plain.height, 120.0, 1e-9, "height");
}

/// Edge 9 and hole 6.6: 5.7 of material. The straight neck's side is 13 from the axle.
#[test]
fn the_hole_table_gives_holes_from_edges_that_can_be_scribed_from() {
    let sheet = cut_sheet(&Setup::default(), &CutOptions::default()).unwrap();
    let [a, _, axle] = sheet.holes.as_slice() else { panic!("two holes and the axle") };
    assert_near(a.distance, 33.351952_f64.hypot(117.042288), 1e-5, "distance");
    assert_near(a.from_lower_edge, 137.042288, 1e-5, "from the lower edge");
    assert_near(a.from_neck_edge, 20.351952, 1e-5, "from the neck's edge");
    assert_near(a.edge.unwrap(), 5.7, 1e-6, "edge");
    assert_eq!(
        (a.diameter, a.fit, a.thread, a.back_plus_minus, a.distance_plus_minus),
        (6.6, "H13", "M6", Some(0.3), Some(0.5))
    );
    assert_eq!((axle.kind, axle.diameter), ("slot", 9.5));
}

#[test]
fn posts_come_with_tap_drill_face_and_bolts() {
    let mut setup = Setup::default();
    setup.caliper.mount = Mount::Post;
    setup.caliper.bolt_direction = Some([0.0, -1.0, 0.0]);
    let sheet = cut_sheet(&setup, &CutOptions::default()).unwrap();
    let posts = sheet.posts.expect("there are posts");
    // Holes at rad 26 from pads at radius 93 and bolts along −rad: the face is square to the radius, 119 from the axle.
    assert_near(posts.face_distance, 119.0, 1e-9, "face");
    assert_near(posts.spacing, 51.0, 1e-9, "spacing");
    assert_eq!((posts.thread, posts.tap_drill), ("M6", 5.0));
    assert!(
        sheet.holes.iter().take(2).all(|hole| hole.kind == "threaded" && hole.piece.is_none() && hole.diameter == 5.0)
    );
    assert!(sheet.pieces.iter().all(|piece| piece.hole_count == 0.0));
}
