//! The elastic weld-line method, on any lines in space.

use crate::solid::Vector;

/// A group whose lines all lie on one straight line cannot be twisted about it; lines this near to one, as a share of the
/// cube of the group's inertia, are on one.
const ONE_LINE: f64 = 1e-12;
/// A moment about that line is none if it is a smaller share of the whole than this: rounding.
const NO_TWIST: f64 = 1e-9;

/// A straight line of weld with its throat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WeldLine {
    /// One end, mm.
    pub from: Vector,
    /// The other end, mm.
    pub to: Vector,
    /// Throat, mm; 1 gives forces per length.
    pub throat: f64,
    /// Unit vector square to one of the two faces the weld joins; square to the line.
    pub face: Vector,
}

impl WeldLine {
    /// Length, mm.
    pub fn length(&self) -> f64 {
        (self.to - self.from).length()
    }

    fn middle(&self) -> Vector {
        (self.from + self.to) * 0.5
    }

    fn area(&self) -> f64 {
        self.throat * self.length()
    }
}

/// Lines of weld that carry a load together.
#[derive(Clone, Debug, PartialEq)]
pub struct WeldGroup {
    /// The lines.
    pub lines: Vec<WeldLine>,
}

/// Stress on the throat at one end of a line, in three parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ThroatStress {
    /// The whole, MPa, as a vector on the throat.
    pub whole: Vector,
    /// Along the weld, MPa.
    pub along: f64,
    /// Square to the face, MPa.
    pub face: f64,
    /// Along the face and square to the weld, MPa.
    pub across: f64,
}

type Matrix = [Vector; 3];

impl WeldGroup {
    /// Throat area, mm².
    pub fn area(&self) -> f64 {
        self.lines.iter().map(WeldLine::area).sum()
    }

    /// Length of all lines, mm.
    pub fn length(&self) -> f64 {
        self.lines.iter().map(WeldLine::length).sum()
    }

    /// The middle of the throat area.
    pub fn centroid(&self) -> Vector {
        let moment = self.lines.iter().fold(Vector::ZERO, |sum, line| sum + line.middle() * line.area());
        let area = self.area();
        if area > 0.0 { moment * (1.0 / area) } else { Vector::ZERO }
    }

    /// Second moment of the throat area about an axis through the centroid, mm⁴; with throats of 1 the unit values
    /// I_u and J_u of the handbooks, mm³.
    pub fn inertia_about(&self, axis: Vector) -> f64 {
        let axis = axis.normalize();
        self.times(&self.inertia(), axis).dot(axis)
    }

    /// ∫ (r·r) 1 − r rᵀ over the throat area about the centroid.
    fn inertia(&self) -> Matrix {
        let centroid = self.centroid();
        let mut columns = [Vector::ZERO; 3];
        for line in &self.lines {
            let (middle, along) = (line.middle() - centroid, line.to - line.from);
            for (axis, column) in [Vector::X, Vector::Y, Vector::Z].into_iter().zip(&mut columns) {
                // The same with the line's middle, and a twelfth of it with the line itself.
                let of = |r: Vector| axis * r.dot(r) - r * r.dot(axis);
                *column += (of(middle) + of(along) * (1.0 / 12.0)) * line.area();
            }
        }
        columns
    }

    fn times(&self, matrix: &Matrix, vector: Vector) -> Vector {
        matrix[0] * vector.x + matrix[1] * vector.y + matrix[2] * vector.z
    }

    /// Stress on the throats at both ends of every line, under a force through the centroid and a moment about it.
    ///
    /// The weld is taken as evenly elastic lines between stiff parts: direct stress F/A, and r × with the turn that the
    /// moment gives, which is torsion T r/J for a moment square to the lines' plane and bending M c/I for one within it.
    /// Between a line's ends nothing is greater. Method: O. Blodgett, Design of Welded Structures, 1966; Shigley,
    /// Mechanical Engineering Design, chapter 9.
    ///
    /// None where the lines cannot carry the load: there are none, or they lie on one straight line and the load twists
    /// about it.
    pub fn stresses(&self, force: Vector, moment: Vector) -> Option<Vec<ThroatStress>> {
        let area = self.area();
        if area <= 0.0 {
            return None;
        }
        let turn = self.turn(moment)?;
        let centroid = self.centroid();
        let at = |line: &WeldLine, point: Vector| {
            let whole = force * (1.0 / area) + turn.cross(point - centroid);
            let along = (line.to - line.from) * (1.0 / line.length());
            ThroatStress {
                whole,
                along: whole.dot(along),
                face: whole.dot(line.face),
                across: whole.dot(along.cross(line.face)),
            }
        };
        let lines = self.lines.iter().filter(|line| line.length() > 0.0);
        Some(lines.flat_map(|line| [at(line, line.from), at(line, line.to)]).collect())
    }

    /// The largest stress on any throat, MPa.
    pub fn peak(&self, force: Vector, moment: Vector) -> Option<f64> {
        Some(self.stresses(force, moment)?.iter().map(|stress| stress.whole.length()).fold(0.0, f64::max))
    }

    /// The moment over the inertia.
    fn turn(&self, moment: Vector) -> Option<Vector> {
        let mut inertia = self.inertia();
        let size = inertia[0].x + inertia[1].y + inertia[2].z;
        if determinant(&inertia) <= ONE_LINE * size * size * size {
            let longest = self.lines.iter().max_by(|a, b| a.length().total_cmp(&b.length()))?;
            let along = (longest.to - longest.from) * (1.0 / longest.length());
            if moment.dot(along).abs() > NO_TWIST * moment.length() {
                return None;
            }
            // Stiff about the line, about which nothing turns.
            for (axis, column) in [along.x, along.y, along.z].into_iter().zip(&mut inertia) {
                *column += along * (axis * size);
            }
        }
        let whole = determinant(&inertia);
        let with = |index: usize| {
            let mut replaced = inertia;
            replaced[index] = moment;
            determinant(&replaced) / whole
        };
        Some(Vector::new(with(0), with(1), with(2)))
    }
}

fn determinant(matrix: &Matrix) -> f64 {
    matrix[0].dot(matrix[1].cross(matrix[2]))
}
