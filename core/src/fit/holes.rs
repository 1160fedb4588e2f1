//! Where the two caliper holes go, in the numbers a builder scribes from.

use super::clearance::hole_centres;
use super::frame::CaliperFrame;
use crate::plain::plain;
use crate::setup::{Mount, Setup};

/// One caliper hole, from the axle and from the plate's edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hole {
    /// Behind the axle, square to the leg, mm.
    pub back: f64,
    /// Above the axle, along the leg, mm.
    pub up: f64,
    /// Straight from the axle's centre, mm.
    pub distance: f64,
    /// From the plate's lowest point, along the leg, mm.
    pub from_lower_edge: f64,
    /// From the neck's edge on the hole's own side, square to the leg, mm; negative inside the neck.
    pub from_neck_edge: f64,
}

plain!(Hole { back, up, distance, from_lower_edge, from_neck_edge });

/// The two holes and their spacing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holes {
    /// In the order of the caliper's own holes.
    pub holes: [Hole; 2],
    /// Centre to centre, mm.
    pub spacing: f64,
}

/// The holes of a setup. With posts these are the bolt points on the posts' faces.
pub fn holes(setup: &Setup) -> Holes {
    let centres = hole_centres(setup);
    let [first, second] = centres;
    let neck = setup.fork.axle_offset;
    let place = |[back, up]: [f64; 2]| Hole {
        back,
        up,
        distance: back.hypot(up),
        from_lower_edge: up + setup.dropout.eye_radius,
        from_neck_edge: (back - neck).abs() - setup.dropout.neck_width / 2.0,
    };
    Holes { holes: centres.map(place), spacing: (first[0] - second[0]).hypot(first[1] - second[1]) }
}

/// Where the posts of a post mount stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Posts {
    /// From the axle's centre to the posts' face, square to it, mm.
    pub face_distance: f64,
    /// The way the bolts go in, as a unit vector (back, up, out).
    pub axis: [f64; 3],
    /// Each bolt along the posts' face, mm from the foot of the axle's perpendicular, towards the second bolt.
    pub along: [f64; 2],
}

plain!(Posts { face_distance, axis, along });

/// The posts of a setup; `None` with a side lug.
pub fn posts(setup: &Setup) -> Option<Posts> {
    let direction = match setup.caliper.mount {
        Mount::SideLug => return None,
        Mount::Post => setup.caliper.bolt_direction?,
    };
    let axis = CaliperFrame::of(setup).direction(direction).normalize();
    let [first, second] = hole_centres(setup);
    let in_plane = axis.x.hypot(axis.y);
    let square = [axis.x / in_plane, axis.y / in_plane];
    let along_face = [-square[1], square[0]];
    let dot = |point: [f64; 2], direction: [f64; 2]| point[0] * direction[0] + point[1] * direction[1];
    // Towards the second bolt.
    let sign = (dot(second, along_face) - dot(first, along_face)).signum();
    Some(Posts {
        face_distance: -(dot(first, square) + dot(second, square)) / 2.0,
        axis: [axis.x, axis.y, axis.z],
        along: [sign * dot(first, along_face), sign * dot(second, along_face)],
    })
}
