//! The direction that parts two solids furthest, searched for over all directions: the last resort for a gap.
//!
//! In a plane that touches the sphere of directions, the separation by a direction of any length is concave, whatever the
//! solids: a sum of two support functions, turned over. So in a window of such a plane its top is found by sections in one
//! coordinate of sections in the other, along ridges as narrow as a part is thin; dividing by the direction's length
//! changes little in a window that is small.

use super::gap::separation;
use super::{Solid, Vector};
use crate::tolerance::{
    PARTING_DIRECTIONS, PARTING_MOST_WINDOWS, PARTING_NEIGHBOUR, PARTING_SECTIONS, PARTING_STARTS, PARTING_WINDOW,
};
use crate::turn::sin_cos;

/// A unit vector, and the separation along it.
type Parted = (Vector, f64);

/// The direction that parts the solids furthest: from `hints` and from the best of evenly spread directions.
///
/// What it stops short of errs to the safe side: no separation exceeds the gap.
pub(super) fn furthest(first: &Solid, second: &Solid, hints: &[Vector]) -> Vector {
    let value = |normal: Vector| separation(first, second, normal);
    let valued = |normal: Vector| (normal, value(normal));
    let all: Vec<Parted> = spread(PARTING_DIRECTIONS).map(valued).collect();
    let mut starts: Vec<Parted> = hints.iter().copied().map(valued).collect();
    for _ in 0..PARTING_STARTS {
        let is_new = |found: &Parted| starts.iter().all(|start| start.0.dot(found.0) < PARTING_NEIGHBOUR);
        starts.extend(all.iter().copied().filter(is_new).reduce(further));
    }
    starts.into_iter().map(|start| climbed(start, &value)).fold((Vector::X, f64::NEG_INFINITY), further).0
}

fn further(one: Parted, other: Parted) -> Parted {
    if other.1 > one.1 { other } else { one }
}

/// The top of the hill that `start` is on: of windows that follow it until it lies well inside one.
fn climbed(start: Parted, value: &dyn Fn(Vector) -> f64) -> Parted {
    let mut best = start;
    for _ in 0..PARTING_MOST_WINDOWS {
        let (normal, (side, other)) = (best.0, square_to(best.0));
        let at = |a: f64, b: f64| (normal + side * a + other * b).normalize();
        let along = |a: f64| highest(PARTING_WINDOW, &|b| value(at(a, b)));
        let (a, _) = highest(PARTING_WINDOW, &|a| along(a).1);
        let (b, found) = along(a);
        if found > best.1 {
            best = (at(a, b), found);
        }
        // A top near the edge may lie beyond it.
        if a.abs().max(b.abs()) < PARTING_WINDOW / 2.0 {
            break;
        }
    }
    best
}

/// Where between −`window` and `window` a function with one top has it, and how high, by golden sections.
fn highest(window: f64, value: &dyn Fn(f64) -> f64) -> (f64, f64) {
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (-window, window);
    let mut marks = [high - golden * (high - low), low + golden * (high - low)];
    let mut values = marks.map(value);
    for _ in 0..PARTING_SECTIONS {
        if values[0] < values[1] {
            low = marks[0];
            marks = [marks[1], low + golden * (high - low)];
            values = [values[1], value(marks[1])];
        } else {
            high = marks[1];
            marks = [high - golden * (high - low), marks[0]];
            values = [value(marks[0]), values[0]];
        }
    }
    if values[0] < values[1] { (marks[1], values[1]) } else { (marks[0], values[0]) }
}

/// `count` unit vectors spread evenly over the sphere, on a golden-angle spiral.
fn spread(count: u32) -> impl Iterator<Item = Vector> {
    let golden = std::f64::consts::PI * (3.0 - 5.0_f64.sqrt());
    (0..count).map(move |index| {
        let z = 1.0 - (2.0 * f64::from(index) + 1.0) / f64::from(count);
        let radius = (1.0 - z * z).sqrt();
        let (sin, cos) = sin_cos(golden * f64::from(index));
        Vector::new(radius * cos, radius * sin, z)
    })
}

/// Two unit vectors square to `normal` and to each other.
pub(super) fn square_to(normal: Vector) -> (Vector, Vector) {
    let away = if normal.x.abs() < 0.6 { Vector::X } else { Vector::Y };
    let side = normal.cross(away).normalize();
    (side, normal.cross(side))
}

#[cfg(test)]
pub(super) mod tests;
