//! A cut through the plate: what it bears under a force and a moment.

use super::region::{Chord, Line};
use super::statics::Push;
use crate::solid::Vector;

/// A cut square through a plate: rectangles of one thickness in a row.
#[derive(Clone, Debug)]
pub struct Section {
    /// Middle of its area, leg frame, mm.
    pub centroid: Vector,
    /// Unit vector along the row.
    along: Vector,
    /// Unit vector square to the cut, in the plate's plane.
    normal: Vector,
    /// Each rectangle's middle from the centroid along the row, and its length, mm.
    pieces: Vec<[f64; 2]>,
    thickness: f64,
    /// Area, mm².
    pub area: f64,
    /// Second moment for bending in the plate's plane, mm⁴.
    pub in_plane: f64,
    /// Second moment for bending of the plate, mm⁴.
    pub of_plate: f64,
    /// Torsion constant, mm⁴.
    pub torsion: f64,
}

/// Force and moment on a section, in its own directions, N and N·mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Resultant {
    /// Square to the cut, pulling positive.
    pub direct: f64,
    /// Along the cut, in the plate's plane.
    pub shear: f64,
    /// Square to the plate.
    pub lateral: f64,
    /// Moment that bends in the plate's plane.
    pub in_plane: f64,
    /// Moment that bends the plate.
    pub of_plate: f64,
    /// Moment that twists.
    pub twist: f64,
}

/// Stresses on a section, MPa, each the largest of its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SectionStress {
    /// Direct stress.
    pub direct: f64,
    /// Bending in the plate's plane, at the cut's ends.
    pub in_plane: f64,
    /// Bending of the plate, on its faces.
    pub of_plate: f64,
    /// Torsion, in the middle of the faces.
    pub twist: f64,
    /// Shear along the cut and square to the plate.
    pub shear: f64,
    /// The largest equivalent stress by von Mises.
    pub von_mises: f64,
}

/// Torsion constant of a rectangle, mm⁴: Roark's Formulas for Stress and Strain, torsion of a solid rectangle, from
/// memory.
///
/// ```
/// // A square of 10 mm: 0.1406 a⁴ (Timoshenko and Goodier, Theory of Elasticity, from memory).
/// assert!((tabwright_core::load::rectangle_torsion(10.0, 10.0) - 1406.0).abs() < 5.0);
/// ```
pub fn rectangle_torsion(width: f64, thickness: f64) -> f64 {
    let (a, b) = (width.max(thickness) / 2.0, width.min(thickness) / 2.0);
    if a <= 0.0 {
        return 0.0;
    }
    let ratio = b / a;
    a * b * b * b * (16.0 / 3.0 - 3.36 * ratio * (1.0 - ratio.powi(4) / 12.0))
}

/// Shear stress of a rectangle under a unit twisting moment, in the middle of its longer side, 1/mm³: the same table.
pub fn rectangle_twist_stress(width: f64, thickness: f64) -> f64 {
    let (a, b) = (width.max(thickness) / 2.0, width.min(thickness) / 2.0);
    if b <= 0.0 {
        return 0.0;
    }
    let r = b / a;
    3.0 / (8.0 * a * b * b) * (1.0 + 0.6095 * r + 0.8865 * r * r - 1.8023 * r.powi(3) + 0.91 * r.powi(4))
}

/// That stress in the middle of the shorter side, as a share of the longer's: fitted to the table of Timoshenko and
/// Goodier, Theory of Elasticity, from memory: 1 for a square, 0.796 at 2 to 1, 0.745 at 4 to 1.
fn shorter_side(width: f64, thickness: f64) -> f64 {
    let ratio = width.min(thickness) / width.max(thickness);
    0.742 + 0.258 * ratio.powf(2.2)
}

/// Shear of a rectangle is half as high again in its middle as on average.
const SHEAR_PEAK: f64 = 1.5;

impl Section {
    /// The cut through a plate along a chord, at `out` of the plate's middle.
    pub fn of(chord: &Chord, thickness: f64, out: f64) -> Self {
        let Line { along, .. } = chord.line;
        let length = |[from, to]: &[f64; 2]| to - from;
        let whole: f64 = chord.pieces.iter().map(length).sum();
        let middle = chord.pieces.iter().map(|piece| length(piece) * (piece[0] + piece[1]) / 2.0).sum::<f64>() / whole;
        let pieces: Vec<[f64; 2]> =
            chord.pieces.iter().map(|piece| [(piece[0] + piece[1]) / 2.0 - middle, length(piece)]).collect();
        let sum = |of: &dyn Fn(f64, f64) -> f64| pieces.iter().map(|&[at, length]| of(at, length)).sum::<f64>();
        let [back, up] = chord.line.at(middle);
        let along = Vector::new(along[0], along[1], 0.0);
        Self {
            centroid: Vector::new(back, up, out),
            along,
            normal: Vector::Z.cross(along),
            area: whole * thickness,
            in_plane: sum(&|at, length| thickness * length * (length * length / 12.0 + at * at)),
            of_plate: whole * thickness.powi(3) / 12.0,
            torsion: sum(&|_, length| rectangle_torsion(length, thickness)),
            pieces,
            thickness,
        }
    }

    /// A load in the section's own directions.
    pub fn resultant(&self, load: &[Push]) -> Resultant {
        let Push { force, moment, .. } = Push::sum(load, self.centroid);
        Resultant {
            direct: force.dot(self.normal),
            shear: force.dot(self.along),
            lateral: force.z,
            in_plane: moment.z,
            of_plate: moment.dot(self.along),
            twist: moment.dot(self.normal),
        }
    }

    /// The stresses under a load: beam theory, von Mises at the corners, the edges' and the faces' middle.
    ///
    /// Plane sections, free to warp; no notch effect. Shear is taken as that of a rectangle.
    pub fn stress(&self, load: &[Push]) -> SectionStress {
        let resultant = self.resultant(load);
        let direct = resultant.direct / self.area;
        let of_plate = (resultant.of_plate * self.thickness / 2.0 / self.of_plate).abs();
        let along = SHEAR_PEAK * resultant.shear.abs() / self.area;
        let across = SHEAR_PEAK * resultant.lateral.abs() / self.area;
        let mut found = SectionStress {
            direct: direct.abs(),
            in_plane: 0.0,
            of_plate,
            twist: 0.0,
            shear: along.hypot(across),
            von_mises: 0.0,
        };
        let equivalent = |normal: f64, shear: f64| (normal * normal + 3.0 * shear * shear).sqrt();
        for &[at, length] in &self.pieces {
            let share = rectangle_torsion(length, self.thickness) / self.torsion;
            let longer = (resultant.twist * share).abs() * rectangle_twist_stress(length, self.thickness);
            let shorter = longer * shorter_side(length, self.thickness);
            // A stub narrower than thick has its longer sides at the ends.
            let (face, edge) = if length >= self.thickness { (longer, shorter) } else { (shorter, longer) };
            let bending = |at: f64| resultant.in_plane * at / self.in_plane;
            for end in [at - length / 2.0, at + length / 2.0] {
                let normal = (direct + bending(end)).abs();
                found.in_plane = found.in_plane.max(bending(end).abs());
                found.von_mises = found.von_mises.max(equivalent(normal + of_plate, 0.0));
                found.von_mises = found.von_mises.max(equivalent(normal, edge + across));
            }
            let normal = (direct + bending(at)).abs() + of_plate;
            found.von_mises = found.von_mises.max(equivalent(normal, face + along));
            found.twist = found.twist.max(longer);
        }
        found
    }

    /// What a unit of path length along the section's normal gives under a load, on the way of another load, N·mm/mm.
    ///
    /// The integral along a beam is the displacement where that other load is a unit one: the unit-load method.
    /// `young` and `shear` are the material's moduli, MPa.
    pub fn flexibility(&self, load: &[Push], unit: &[Push], young: f64, shear: f64) -> f64 {
        /// Shear flexibility of a rectangle: 6/5 of the average's.
        const SHEAR_SHAPE: f64 = 1.2;
        let (real, virtual_) = (self.resultant(load), self.resultant(unit));
        real.direct * virtual_.direct / (young * self.area)
            + SHEAR_SHAPE * (real.shear * virtual_.shear + real.lateral * virtual_.lateral) / (shear * self.area)
            + real.in_plane * virtual_.in_plane / (young * self.in_plane)
            + real.of_plate * virtual_.of_plate / (young * self.of_plate)
            + real.twist * virtual_.twist / (shear * self.torsion)
    }
}
