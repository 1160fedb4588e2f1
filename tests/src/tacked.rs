//! Parts as they come off the jig, and what would be read on them: by plane geometry.

use tabwright_core::build::{HoleDesign, Reading, TackCheck, Tacked, tack_check};
use tabwright_core::{Setup, TackAfter, TackBefore};

/// A single reading's standard deviation for a ± of one: 19 times in 20.
pub const SIGMAS: f64 = 1.959_963_984_540_054;

/// Where both holes are, `[back, up]` each, how far outboard the tab's face is at each, and the rotor's inset; mm.
#[derive(Clone, Copy, Debug)]
pub struct Part {
    /// Hole 1 and hole 2.
    pub holes: [[f64; 2]; 2],
    /// At hole 1 and at hole 2.
    pub steps: [f64; 2],
    /// Of the rotor.
    pub inset: f64,
}

impl Part {
    /// Exactly as designed.
    pub fn designed(setup: &Setup) -> Self {
        let [b1, u1, b2, u2] = HoleDesign::of(setup).holes;
        Self { holes: [[b1, u1], [b2, u2]], steps: [setup.tab.offset; 2], inset: setup.wheel.rotor_inset }
    }

    /// The same with each hole moved, and each step.
    pub fn moved(self, holes: [[f64; 2]; 2], steps: [f64; 2]) -> Self {
        let mut moved = self;
        moved.holes.iter_mut().flatten().zip(holes.iter().flatten()).for_each(|(at, by)| *at += by);
        moved.steps.iter_mut().zip(steps).for_each(|(at, by)| *at += by);
        moved
    }

    /// The same turned about the axle, degrees, growing clock angles positive.
    pub fn turned(self, degrees: f64) -> Self {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let holes = self.holes.map(|[back, up]| [back * cos + up * sin, up * cos - back * sin]);
        Self { holes, ..self }
    }

    /// Hole to hole.
    pub fn spacing(&self) -> f64 {
        let [one, other] = self.holes;
        (other[0] - one[0]).hypot(other[1] - one[1])
    }

    /// From hole 1 to hole 2, of length 1.
    pub fn along(&self) -> [f64; 2] {
        [0, 1].map(|axis: usize| (self.holes[1][axis] - self.holes[0][axis]) / self.spacing())
    }

    /// Halfway between the holes.
    pub fn middle(&self) -> [f64; 2] {
        [0, 1].map(|axis: usize| (self.holes[0][axis] + self.holes[1][axis]) / 2.0)
    }

    /// Everything that can be read on it but the gap to the tube, in form order.
    pub fn readings(&self, setup: &Setup) -> Vec<(Reading, f64)> {
        let [one, other] = self.holes;
        let (line, half) = (setup.fork.axle_offset, setup.dropout.neck_width / 2.0);
        // From the edge on the side where the hole was designed.
        let designed = Part::designed(setup).holes;
        let neck = |hole: usize| {
            let behind = self.holes[hole][0] - line;
            if designed[hole][0] < line { -behind - half } else { behind - half }
        };
        vec![
            (Reading::Hole1, one[0].hypot(one[1])),
            (Reading::Hole2, other[0].hypot(other[1])),
            (Reading::Spacing, self.spacing()),
            (Reading::Neck1, neck(0)),
            (Reading::Neck2, neck(1)),
            (Reading::Step1, self.steps[0]),
            (Reading::Step2, self.steps[1]),
            (Reading::Rotor, (self.steps[0] + self.steps[1]) / 2.0 + self.inset - setup.wheel.rotor_thickness / 2.0),
        ]
    }

    /// Those of the readings that are asked for.
    pub fn some(&self, setup: &Setup, wanted: &[Reading]) -> Vec<(Reading, f64)> {
        self.readings(setup).into_iter().filter(|(reading, _)| wanted.contains(reading)).collect()
    }
}

/// Adds readings of the tacked part.
pub fn read_before(setup: &mut Setup, readings: &[(Reading, f64)]) {
    let TackBefore { hole_1, hole_2, spacing, neck_1, neck_2, step_1, step_2, rotor, tube } = &mut setup.tack.before;
    read([hole_1, hole_2, spacing, neck_1, neck_2, step_1, step_2, rotor, tube], readings);
}

/// Adds readings of the welded part.
pub fn read_after(setup: &mut Setup, readings: &[(Reading, f64)]) {
    let TackAfter { hole_1, hole_2, spacing, neck_1, neck_2, step_1, step_2, rotor, tube } = &mut setup.tack.after;
    read([hole_1, hole_2, spacing, neck_1, neck_2, step_1, step_2, rotor, tube], readings);
}

fn read(lists: [&mut Vec<f64>; 9], readings: &[(Reading, f64)]) {
    for (place, list) in lists.into_iter().enumerate() {
        list.extend(readings.iter().filter(|(reading, _)| reading.place() == place).map(|(_, value)| value));
    }
}

/// The check of a setup that must have one.
pub fn check(setup: &Setup) -> TackCheck {
    tack_check(setup).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// What is said of the tacked part on which this was read.
pub fn tacked(setup: &Setup, readings: &[(Reading, f64)]) -> Tacked {
    let mut read = setup.clone();
    read_before(&mut read, readings);
    check(&read).before
}

/// What is said of the welded part on which this was read.
pub fn welded(setup: &Setup, readings: &[(Reading, f64)]) -> Tacked {
    let mut read = setup.clone();
    read_after(&mut read, readings);
    check(&read).after.unwrap_or_else(|| panic!("nothing was read on the welded part"))
}
