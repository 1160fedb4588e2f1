//! Where the weld lines of a setup lie.

use super::weld_line::{WeldGroup, WeldLine};
use crate::fit::{dropout_plane, neck_top, recess};
use crate::setup::Setup;
use crate::solid::Vector;

/// Throat of a fillet with equal legs, as a share of the leg: cos 45°, as the handbooks round it.
pub const THROAT: f64 = 0.707;
/// Lines of weld nearer to each other than this are one, mm.
const LEAST_SPREAD: f64 = 0.5;

/// The fillets between plate and tube; none where plate and tube do not meet.
///
/// On a lap the fillet fills the flare between the flat plate and the round tube: its line lies where the flare is as
/// deep as the leg is long, or at the plate's edge if that is nearer. A plate that is let in is welded where the tube's
/// wall comes through its faces. The lines run from the tube's end up to the plate's round end; welds across either end
/// are not counted.
pub fn tube_seams(setup: &Setup) -> Option<WeldGroup> {
    let (fork, dropout, leg) = (&setup.fork, &setup.dropout, setup.load.weld.leg);
    let (radius, end) = (fork.tube_diameter / 2.0, neck_top(setup));
    let let_in = recess(setup).value.max(0.0);
    let outer = dropout_plane(setup) + dropout.thickness;
    // How deep inside the tube's inner side each welded face lies, and its `out`.
    let mut faces = vec![(if let_in > 0.0 { let_in } else { leg }, outer)];
    if let_in > dropout.thickness {
        faces.push((let_in - dropout.thickness, outer - dropout.thickness));
    }
    let mut lines = Vec::new();
    for (depth, out) in faces {
        // Half the tube's width at that depth.
        let half = (depth * (2.0 * radius - depth)).max(0.0).sqrt().min(dropout.neck_width / 2.0);
        let top = end.up + (end.radius * end.radius - half * half).max(0.0).sqrt();
        if half < LEAST_SPREAD || top <= fork.tube_end {
            continue;
        }
        for side in [-half, half] {
            let back = fork.axle_offset + side;
            lines.push(WeldLine {
                from: Vector::new(back, fork.tube_end, out),
                to: Vector::new(back, top, out),
                throat: THROAT * leg,
                face: Vector::Z,
            });
        }
    }
    (!lines.is_empty()).then_some(WeldGroup { lines })
}
