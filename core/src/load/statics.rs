//! Every force on wheel, caliper, plate and fork, in balance.

use super::answer::ForceVector;
use super::case::BrakeCase;
use super::seam::tube_seams;
use crate::fit::{CaliperFrame, dropout_plane, pad_radius, rotor_plane, tab_plane, tangential};
use crate::setup::{MatingFace, Mount, Setup};
use crate::solid::Vector;

/// Height of the crown above the axle that the fork's own reaction is told about, mm. Nothing judged hangs on it.
const CROWN: f64 = 400.0;

/// A force with the moment that comes with it, leg frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Push {
    /// Where it acts, mm.
    pub point: Vector,
    /// N.
    pub force: Vector,
    /// About `point`, N·mm.
    pub moment: Vector,
}

impl Push {
    /// A force alone.
    pub fn at(point: Vector, force: Vector) -> Self {
        Self { point, force, moment: Vector::ZERO }
    }

    /// The same, the other way: what one body does to another for what is done to it.
    pub fn reversed(self) -> Self {
        Self { force: -self.force, moment: -self.moment, ..self }
    }

    /// Its moment about another point, N·mm.
    pub fn moment_about(&self, point: Vector) -> Vector {
        self.moment + (self.point - point).cross(self.force)
    }

    /// Several as one, at a point.
    pub fn sum(pushes: &[Push], point: Vector) -> Self {
        pushes.iter().fold(Self::at(point, Vector::ZERO), |sum, push| Self {
            point,
            force: sum.force + push.force,
            moment: sum.moment + push.moment_about(point),
        })
    }
}

/// The forces of a braking, each on the body that it is named for.
///
/// The wheel is held by two dropouts that take forces in the wheel plane and no moments, the fork's own weight and the
/// wheel's are left out, and pads press alike from both sides.
#[derive(Clone, Debug)]
pub struct Statics {
    /// Pad force along the rotor, N.
    pub pad_force: f64,
    /// Force of the road on the wheel.
    pub road_on_wheel: Push,
    /// Force of the pads on the wheel, at the pads' middle.
    pub pads_on_wheel: Push,
    /// Force of the axle on the braked dropout, at the middle of the plate's thickness.
    pub axle_on_plate: Push,
    /// Force of the axle on the other dropout.
    pub axle_on_far: Push,
    /// Force and moment of the caliper on the tab, at the middle of the bolts on the mating face.
    pub caliper_on_plate: Push,
    /// Force and moment of the plate on the tube, at the middle of the weld.
    pub plate_on_tube: Push,
    /// Force and moment of the crown on the fork.
    pub crown_on_fork: Push,
}

/// Where the caliper's bolts meet what they hold on to, leg frame, mm.
pub fn bolt_points(setup: &Setup) -> [Vector; 2] {
    let frame = CaliperFrame::of(setup);
    let caliper = &setup.caliper;
    caliper.holes.map(|[cw, rad]| match (caliper.mount, caliper.mating_face) {
        (Mount::Post, _) => frame.point([cw, rad, caliper.mount_depth]),
        (Mount::SideLug, face) => {
            let mut point = frame.point([cw, rad, 0.0]);
            point.z = tab_plane(setup) + if face == MatingFace::Outer { setup.dropout.thickness } else { 0.0 };
            point
        }
    })
}

/// `out` of the middle of the dropout's thickness, mm.
pub fn dropout_middle(setup: &Setup) -> f64 {
    dropout_plane(setup) + setup.dropout.thickness / 2.0
}

impl Statics {
    /// The forces of a braking on a setup.
    pub fn of(setup: &Setup, case: &BrakeCase) -> Self {
        let pad_radius = pad_radius(setup);
        let pad_force = case.torque / pad_radius;
        let pads = CaliperFrame::of(setup).origin;
        let pads_on_wheel = Push::at(pads, tangential(setup.tab.clock) * pad_force);
        let road_on_wheel = Push::at(case.point, case.force);
        let (near, far) = (dropout_middle(setup), -dropout_middle(setup));
        // Moments about the far dropout give the near one's share, and the other way round.
        let share =
            |lever: f64| (case.force * lever + pads_on_wheel.force * (rotor_plane(setup) + lever)) / (2.0 * near);
        let on_near = share(near);
        let axle_on_plate = Push::at(Vector::Z * near, on_near);
        let axle_on_far = Push::at(Vector::Z * far, case.force + pads_on_wheel.force - on_near);

        let [first, second] = bolt_points(setup);
        let caliper_on_plate = Push::sum(&[pads_on_wheel.reversed()], (first + second) * 0.5);
        let weld = tube_seams(setup)
            .map_or(Vector::new(setup.fork.axle_offset, setup.fork.tube_end, near), |seams| seams.centroid());
        let plate_on_tube = Push::sum(&[caliper_on_plate, axle_on_plate], weld);
        let crown = Vector::new(setup.fork.axle_offset, CROWN, 0.0);
        let crown_on_fork = Push::sum(&[plate_on_tube, axle_on_far], crown).reversed();
        Self {
            pad_force,
            road_on_wheel,
            pads_on_wheel,
            axle_on_plate,
            axle_on_far,
            caliper_on_plate,
            plate_on_tube,
            crown_on_fork,
        }
    }

    /// Every force on every body, for the drawing; those on one body are in balance.
    pub fn vectors(&self) -> Vec<ForceVector> {
        let vector = |id, label, on, push: Push| ForceVector {
            id,
            label,
            on,
            point: push.point.into(),
            force: push.force.into(),
            moment: push.moment.into(),
            size: push.force.length(),
        };
        vec![
            vector("road_on_wheel", "Road on the wheel", "wheel", self.road_on_wheel),
            vector("pads_on_wheel", "Pads on the rotor", "wheel", self.pads_on_wheel),
            vector("plate_on_wheel", "Braked dropout on the axle", "wheel", self.axle_on_plate.reversed()),
            vector("far_on_wheel", "Other dropout on the axle", "wheel", self.axle_on_far.reversed()),
            vector("pads_on_caliper", "Rotor on the pads", "caliper", self.pads_on_wheel.reversed()),
            vector("plate_on_caliper", "Tab on the caliper", "caliper", self.caliper_on_plate.reversed()),
            vector("caliper_on_plate", "Caliper on the tab", "plate", self.caliper_on_plate),
            vector("axle_on_plate", "Axle on the braked dropout", "plate", self.axle_on_plate),
            vector("tube_on_plate", "Tube on the plate", "plate", self.plate_on_tube.reversed()),
            vector("plate_on_tube", "Plate on the tube", "fork", self.plate_on_tube),
            vector("axle_on_far", "Axle on the other dropout", "fork", self.axle_on_far),
            vector("crown_on_fork", "Crown on the fork", "fork", self.crown_on_fork),
        ]
    }
}
