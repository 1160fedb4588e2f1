//! A caliper as a builder measures it at the bench, and the fields that follow from it.
//!
//! All distances are taken square to the wheel plane's view: as on a sheet of paper onto which holes, pads and outline
//! have been brought down. `left` and `right` are as seen on the caliper's outboard face with the axle below, so right is
//! clockwise. The pads' two corners nearest the axle are where holes are measured from.

use super::Setup;
use super::bodies::plain;
use super::choices::{MatingFace, Mount};
use super::field::{Field, FieldDescription, Kind, Unit, range};
use super::given::Given;
use super::group::{self, Group, Slot, group};
use super::parts::{Body, Caliper};
use super::reader::{Findings, Problem, Warning, read_group};
use crate::words::length;

const MM: Unit = Unit::Mm;

const fn distance(default: f64, low: f64, high: f64) -> Kind {
    Kind::number(default, MM, range(low, high), range(low, high)).steps(0.1, &[])
}

group! {
    /// A caliper in the numbers that a builder can reach with ruler, caliper gauge and straightedge, mm.
    CaliperMeasured at "measured" {
        hole_spacing: f64 = "Hole to hole", "Between the centres of the two holes.", distance(51.0, 2.0, 300.0);
        hole_1_left: f64 = "Hole 1 to the left corner", "From the left hole's centre to the pads' left corner.", distance(35.6, 0.0, 300.0);
        hole_1_right: f64 = "Hole 1 to the right corner", "From the left hole's centre to the pads' right corner.", distance(52.9, 0.0, 300.0);
        hole_2_left: f64 = "Hole 2 to the left corner", "From the right hole's centre to the pads' left corner.", distance(52.9, 0.0, 300.0);
        hole_2_right: f64 = "Hole 2 to the right corner", "From the right hole's centre to the pads' right corner.", distance(35.6, 0.0, 300.0);
        lug_edge: f64 = "Hole to the lug's edge", "From a hole's centre out to the lug's edge.", distance(9.0, 1.0, 60.0);
        lug_thickness: f64 = "Lug thickness", "Of the lug that is bolted on.", distance(10.0, 1.0, 80.0);
        body_left: f64 = "Body past the pads, left", "From the pads' left end to the body's left end.", distance(23.0, -150.0, 150.0);
        body_right: f64 = "Body past the pads, right", "From the pads' right end to the body's right end.", distance(23.0, -150.0, 150.0);
        body_top: f64 = "Body above the pads", "From the pads' outer edge to the top of the body.", distance(28.0, 1.0, 150.0);
        halves_length: f64 = "Length beside the rotor", "Of the two halves beside the rotor, along its edge.", distance(34.0, 1.0, 250.0);
        halves_top: f64 = "Halves above the pads", "From the pads' outer edge to the top of the halves beside the rotor.", distance(6.0, -150.0, 150.0);
        halves_drop: f64 = "Halves below the pads", "From the pads' inner edge to the lowest point, towards the axle.", distance(10.0, -150.0, 150.0);
        inboard: f64 = "Inboard depth", "From the slot's middle to the side that faces the spokes.", distance(12.0, -120.0, 120.0);
        outboard: f64 = "Outboard depth", "From the slot's middle to the outermost point.", distance(34.0, 1.0, 150.0);
    }
}

/// Hole to hole, measured and from the corners, may differ by this much before one of the five is in doubt, mm.
const HOLES_AGREE: f64 = 1.0;
/// Names of the pieces that are made here.
const NAMES: [&str; 3] = ["lug", "bridge", "halves"];

/// The least and greatest cw, rad and out of the piece of that name, else of all that are bolted on or all that are not.
fn piece(caliper: &Caliper, name: &str, bolted: bool) -> [[f64; 2]; 3] {
    let is_named = caliper.bodies.iter().any(|body| body.name == name);
    let mut found = [[f64::MAX, f64::MIN]; 3];
    for body in &caliper.bodies {
        if if is_named { body.name == name } else { body.bolted == bolted } {
            for corner in &body.outline {
                hold(&mut found[0], corner[0]);
                hold(&mut found[1], corner[1]);
            }
            hold(&mut found[2], -body.inboard);
            hold(&mut found[2], body.outboard);
        }
    }
    // Without such a piece it is as large as the pads.
    if found[0][0] > found[0][1] { [[0.0; 2]; 3] } else { found }
}

/// Widens an extent to hold a value.
pub(crate) fn hold(extent: &mut [f64; 2], value: f64) {
    *extent = [extent[0].min(value), extent[1].max(value)];
}

/// The pads' corners nearest the axle, left and right.
fn corners(setup: &Setup) -> [[f64; 2]; 2] {
    let pad = &setup.caliper.pad;
    [[-pad.length / 2.0, -pad.height / 2.0], [pad.length / 2.0, -pad.height / 2.0]]
}

fn between(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

fn problem(key: &str, value: f64, message: String) -> Vec<Problem> {
    let mut findings = Findings::default();
    findings.problem(key, Some(&value.into()), message);
    findings.problems
}

impl CaliperMeasured {
    /// What measuring a setup's caliper would give. Pieces drawn in another way than [`CaliperMeasured::bodies`] draws
    /// them count with their extent.
    pub fn of(setup: &Setup) -> Self {
        let (caliper, pad) = (&setup.caliper, &setup.caliper.pad);
        let [left, right] = corners(setup);
        let [one, two] = caliper.holes;
        let (bridge, halves) = (piece(caliper, NAMES[1], true), piece(caliper, NAMES[2], false));
        let lug = piece(caliper, NAMES[0], true);
        let spacing = between(one, two);
        // Along the line of holes the lug ends this far outside the first.
        let edge = caliper.bodies.iter().find(|body| body.name == NAMES[0]).map(|body| {
            let along =
                |p: &[f64; 2]| ((one[0] - p[0]) * (two[0] - one[0]) + (one[1] - p[1]) * (two[1] - one[1])) / spacing;
            body.outline.iter().map(along).fold(f64::MIN, f64::max)
        });
        let mut found = Self {
            hole_spacing: spacing,
            hole_1_left: between(one, left),
            hole_1_right: between(one, right),
            hole_2_left: between(two, left),
            hole_2_right: between(two, right),
            lug_edge: edge.unwrap_or(setup.tab.edge),
            lug_thickness: lug[2][1] - lug[2][0],
            body_left: -pad.length / 2.0 - bridge[0][0],
            body_right: bridge[0][1] - pad.length / 2.0,
            body_top: bridge[1][1] - pad.height / 2.0,
            halves_length: 2.0 * halves[0][1].max(-halves[0][0]),
            halves_top: halves[1][1] - pad.height / 2.0,
            halves_drop: -pad.height / 2.0 - halves[1][0],
            inboard: -halves[2][0].min(bridge[2][0]),
            outboard: halves[2][1],
        };
        // A difference that is nought may have come out just below it.
        for slot in found.slots() {
            if let Slot::Number(number) = slot {
                *number = plain(*number);
            }
        }
        found
    }

    /// Reads the numbers from plain data, strictly.
    ///
    /// # Errors
    /// Every unknown, missing, mistyped or out-of-range number, all at once, by paths such as `measured.hole_spacing`.
    pub fn read(given: &Given) -> Result<Self, Vec<Problem>> {
        let (mut measured, mut findings) = (Self::BLANK, Findings::default());
        group::fill(&mut measured);
        read_group(&mut measured, given, &mut findings);
        if findings.problems.is_empty() { Ok(measured) } else { Err(findings.problems) }
    }

    /// The place of a number by its dotted path; none where there is no such number.
    pub fn number_at(&mut self, path: &str) -> Option<&mut f64> {
        group::number(self, path)
    }

    /// The table of these numbers.
    pub fn fields() -> Vec<FieldDescription> {
        Self::TABLE.iter().map(Field::describe).collect()
    }

    /// The holes, `[cw, rad]` each: where circles about the pads' corners meet, then moved evenly along their line until
    /// they are as far apart as measured from hole to hole.
    ///
    /// # Errors
    /// Two distances that cannot be together, with the pads as long as the setup has them.
    pub fn holes(&self, setup: &Setup) -> Result<[[f64; 2]; 2], Vec<Problem>> {
        let [one, two] = self.corner_holes(setup)?;
        let (half, apart) = ([(two[0] - one[0]) / 2.0, (two[1] - one[1]) / 2.0], between(one, two));
        if apart < 1e-6 {
            let message =
                "Hole 1 and hole 2 come out on one spot. Measure both from the pads' corners again.".to_owned();
            return Err(problem("measured.hole_2_left", self.hole_2_left, message));
        }
        let share = self.hole_spacing / apart;
        let at = |sign: f64, axis: usize| (one[axis] + two[axis]) / 2.0 + sign * share * half[axis];
        Ok([[at(-1.0, 0), at(-1.0, 1)], [at(1.0, 0), at(1.0, 1)]])
    }

    /// What deserves a second look: hole to hole against the four distances from the corners.
    pub fn doubt(&self, setup: &Setup) -> Option<Warning> {
        let [one, two] = self.corner_holes(setup).ok()?;
        let apart = between(one, two);
        let differs = (apart - self.hole_spacing).abs() > HOLES_AGREE;
        differs.then(|| Warning {
            field: "measured.hole_spacing".to_owned(),
            value: self.hole_spacing,
            message: format!(
                "Hole to hole is {}, but from the pads' corners the holes come out {} apart. One of the five distances is wrong: measure them again.",
                length(self.hole_spacing),
                length(apart),
            ),
        })
    }

    fn corner_holes(&self, setup: &Setup) -> Result<[[f64; 2]; 2], Vec<Problem>> {
        let [first, second] = setup.caliper.holes;
        let keys = ["measured.hole_1_left", "measured.hole_2_left"];
        Ok([
            met(setup, keys[0], [self.hole_1_left, self.hole_1_right], first)?,
            met(setup, keys[1], [self.hole_2_left, self.hole_2_right], second)?,
        ])
    }

    /// The caliper as three convex pieces that hold all of it: the lug about the holes, the bridge beyond the pads' outer
    /// edge, and the halves beside the rotor.
    ///
    /// # Errors
    /// A piece without thickness.
    pub fn bodies(&self, setup: &Setup, holes: [[f64; 2]; 2]) -> Result<Vec<Body>, Vec<Problem>> {
        let (caliper, pad) = (&setup.caliper, &setup.caliper.pad);
        let (half, outer) = (pad.length / 2.0, pad.height / 2.0);
        let lug_inner = caliper.mount_depth - self.lug_thickness * lug_share(caliper);
        let lug_outer = lug_inner + self.lug_thickness;
        if lug_outer <= -self.inboard {
            let message = format!(
                "With an inboard depth of {} the body would end before the face that meets the tab, at {} from the slot. Measure both again.",
                length(self.inboard),
                length(caliper.mount_depth),
            );
            return Err(problem("measured.inboard", self.inboard, message));
        }
        let beside = self.halves_length / 2.0;
        for (key, value, size) in [
            ("measured.body_right", self.body_right, pad.length + self.body_left + self.body_right),
            ("measured.halves_drop", self.halves_drop, pad.height + self.halves_top + self.halves_drop),
            ("measured.outboard", self.outboard, self.inboard + self.outboard),
        ] {
            if size <= 0.0 {
                let message =
                    "Nothing of the body would be left. Measure it again from the pads and the slot.".to_owned();
                return Err(problem(key, value, message));
            }
        }
        let body = |name: usize, mut outline: Vec<[f64; 2]>, inboard: f64, outboard: f64, bolted| {
            outline.iter_mut().flatten().for_each(|value| *value = plain(*value));
            Body { name: NAMES[name].to_owned(), outline, inboard: plain(inboard), outboard: plain(outboard), bolted }
        };
        Ok(vec![
            body(0, lug(holes, self.lug_edge), -lug_inner, lug_outer, true),
            body(
                1,
                rectangle([-half - self.body_left, half + self.body_right], [outer, outer + self.body_top]),
                self.inboard,
                lug_outer,
                true,
            ),
            body(
                2,
                rectangle([-beside, beside], [-outer - self.halves_drop, outer + self.halves_top]),
                self.inboard,
                self.outboard,
                false,
            ),
        ])
    }

    /// Makes a setup's caliper have its holes, its bodies or both as measured.
    ///
    /// # Errors
    /// As [`CaliperMeasured::holes`] and [`CaliperMeasured::bodies`].
    pub fn put_into(&self, setup: &mut Setup, holes: bool, bodies: bool) -> Result<(), Vec<Problem>> {
        if holes {
            setup.caliper.holes = self.holes(setup)?;
        }
        if bodies {
            setup.caliper.bodies = self.bodies(setup, setup.caliper.holes)?;
        }
        Ok(())
    }

    /// Whether the setup's caliper is drawn in just the three plain pieces that these numbers can tell.
    pub fn tells_all_of(setup: &Setup) -> bool {
        setup.caliper.bodies.len() == NAMES.len()
            && NAMES.iter().zip(&setup.caliper.bodies).all(|(name, body)| body.name == *name)
    }
}

impl From<&CaliperMeasured> for Given {
    fn from(measured: &CaliperMeasured) -> Self {
        group::given(&mut measured.clone())
    }
}

/// How much of the lug's thickness lies inboard of the plane that the mount depth is measured to.
pub(crate) fn lug_share(caliper: &Caliper) -> f64 {
    match (caliper.mount, caliper.mating_face) {
        (Mount::Post, _) => 0.5,
        (Mount::SideLug, MatingFace::Inner) => 1.0,
        (Mount::SideLug, MatingFace::Outer) => 0.0,
    }
}

/// Where two circles about the pads' corners meet, on the side of the corners that `near` lies on.
fn met(setup: &Setup, key: &str, [left, right]: [f64; 2], near: [f64; 2]) -> Result<[f64; 2], Vec<Problem>> {
    let [corner, _] = corners(setup);
    let base = setup.caliper.pad.length;
    let cw = (left * left - right * right) / (2.0 * base);
    let square = left * left - (cw - corner[0]) * (cw - corner[0]);
    // Rounding may miss a point on the line of corners itself.
    if square < -1e-6 {
        let why = if left + right < base { "together they are less than" } else { "they differ by more than" };
        let message = format!(
            "{} from the left corner and {} from the right do not meet: {why} the pads' length, {}. Measure both again.",
            length(left),
            length(right),
            length(base),
        );
        return Err(problem(key, left, message));
    }
    let height = square.max(0.0).sqrt();
    Ok([cw, if near[1] < corner[1] { corner[1] - height } else { corner[1] + height }])
}

/// A strip about the line of holes with cut corners that holds a circle of that radius about each.
fn lug([one, two]: [[f64; 2]; 2], edge: f64) -> Vec<[f64; 2]> {
    let length = between(one, two);
    let along = [(two[0] - one[0]) / length, (two[1] - one[1]) / length];
    let cut = edge * (std::f64::consts::SQRT_2 - 1.0);
    [
        (-edge, -cut),
        (-cut, -edge),
        (length + cut, -edge),
        (length + edge, -cut),
        (length + edge, cut),
        (length + cut, edge),
        (-cut, edge),
        (-edge, cut),
    ]
    .map(|(s, n)| [one[0] + s * along[0] - n * along[1], one[1] + s * along[1] + n * along[0]])
    .to_vec()
}

fn rectangle([left, right]: [f64; 2], [low, high]: [f64; 2]) -> Vec<[f64; 2]> {
    vec![[left, low], [right, low], [right, high], [left, high]]
}

impl Caliper {
    /// Makes it the caliper of the other hand: its mirror image across the line from the axle through the pads' middle.
    /// The left hole stays the first.
    pub fn mirror(&mut self) {
        let flip = |cw: &mut f64| *cw = 0.0 - *cw;
        self.holes.swap(0, 1);
        self.holes.iter_mut().for_each(|hole| flip(&mut hole[0]));
        for body in &mut self.bodies {
            body.outline.iter_mut().for_each(|corner| flip(&mut corner[0]));
        }
        flip(&mut self.line.exit[0]);
        flip(&mut self.line.direction[0]);
        if let Some(direction) = &mut self.bolt_direction {
            flip(&mut direction[0]);
        }
    }
}

#[cfg(test)]
mod tests;
