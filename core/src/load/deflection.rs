//! How far the caliper moves under load: the unit-load method along the tab.

use super::bolts::bolt_loads;
use super::material::Strength;
use super::plate::Plate;
use super::region::Line;
use super::statics::Push;
use crate::fit::CaliperFrame;
use crate::setup::Setup;
use crate::solid::Vector;

/// Distance between the sections that the tab is cut into, mm.
const STATION: f64 = 2.0;

/// How the pads' middle moves under load, and how the caliper turns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PadMotion {
    /// Sideways, mm, outboard positive.
    pub sideways: f64,
    /// Along the rotor, in the way of growing clock angles, mm.
    pub along: f64,
    /// Turn about the way from axle to pads, degrees: one end of the pads comes nearer to the rotor.
    pub yaw: f64,
    /// Turn about the way along the rotor, degrees: the pads' outer edge comes nearer to the rotor.
    pub roll: f64,
}

/// The motion of a setup's caliper under a braking; none with posts.
///
/// The tab is a beam from its bolts to the welds, of the sections that lie square to its way: bending in its plane and
/// out of it, torsion, shear and direct force. Caliper and tube are stiff.
pub fn pad_motion(setup: &Setup, plate: &Plate, strength: &Strength) -> Option<PadMotion> {
    plate.web?;
    let frame = CaliperFrame::of(setup);
    let along = crate::fit::tangential(setup.tab.clock);
    let unit = |force: Vector, moment: Vector| Push { point: frame.origin, force, moment };
    let tries = [
        unit(Vector::Z, Vector::ZERO),
        unit(along, Vector::ZERO),
        unit(Vector::ZERO, frame.rad),
        unit(Vector::ZERO, along),
    ];
    let moved = tries.map(|unit| {
        let units = bolt_loads(setup, unit);
        let mut with_units = plate.clone();
        // The axle comes first and has no share in a unit load on the caliper.
        for (index, load) in with_units.loads.iter_mut().enumerate() {
            load.push = match index.checked_sub(1).and_then(|bolt| units.get(bolt)) {
                Some(push) => *push,
                None => Push::at(load.push.point, Vector::ZERO),
            };
        }
        travel(plate, &with_units, strength)
    });
    Some(PadMotion { sideways: moved[0], along: moved[1], yaw: moved[2].to_degrees(), roll: moved[3].to_degrees() })
}

/// The work of a plate's loads on the way of other loads, along the ways of the latter.
pub fn travel(plate: &Plate, units: &Plate, strength: &Strength) -> f64 {
    let mut stretches: Vec<[[f64; 2]; 2]> = Vec::new();
    for load in plate.loads.iter().filter(|load| load.from_caliper) {
        for ends in load.way.windows(2) {
            let stretch = [ends[0], ends[1]];
            if !stretches.contains(&stretch) {
                stretches.push(stretch);
            }
        }
    }
    stretches.iter().map(|stretch| along(plate, units, *stretch, strength)).sum()
}

fn along(plate: &Plate, units: &Plate, [from, to]: [[f64; 2]; 2], strength: &Strength) -> f64 {
    let (back, up) = (to[0] - from[0], to[1] - from[1]);
    let stations = (back.hypot(up) / STATION).ceil();
    let step = back.hypot(up) / stations;
    let across = back.atan2(-up);
    let mut sum = 0.0;
    for station in 0..stations as u32 {
        let share = (f64::from(station) + 0.5) / stations;
        let point = [from[0] + back * share, from[1] + up * share];
        let Some(chord) = plate.chord_about(&Line::new(point, across), point) else {
            continue;
        };
        let parted = plate.beyond(&chord);
        if parted.is_empty() {
            continue;
        }
        let section = plate.section(&chord, &parted);
        let (loads, ways) = (plate.pushes(&parted), units.pushes(&parted));
        sum += section.flexibility(&loads, &ways, strength.young, strength.shear) * step;
    }
    sum
}
