//! Where the weld lines of a setup lie.

use super::region::{Line, Region, hull_outline};
use super::weld_line::{WeldGroup, WeldLine};
use crate::fit::{dropout_plane, neck_top, recess};
use crate::setup::Setup;
use crate::solid::{Disc, Vector};

/// Throat of a fillet with equal legs, as a share of the leg: cos 45°, as the handbooks round it.
pub const THROAT: f64 = 0.707;
/// Lines of weld nearer to the tube's middle than this are one, and shorter ones none, mm.
const LEAST_SPREAD: f64 = 0.5;
/// A line along the plate's edge is taken this far inside it, mm, so that it lies on the plate.
const EDGE: f64 = 0.01;

/// The fillets between plate and tube; none where plate and tube do not meet.
///
/// On a lap the fillet fills the flare between the flat plate and the round tube: its line lies where the flare is as
/// deep as the leg is long, or at the plate's edge if that is nearer. A plate that is let in is welded where the tube's
/// wall comes through its faces. The lines run from the tube's end up to the plate's round end, where there is plate under
/// them; welds across either end are not counted.
pub fn tube_seams(setup: &Setup) -> Option<WeldGroup> {
    let (fork, dropout, leg) = (&setup.fork, &setup.dropout, setup.load.weld.leg);
    let radius = fork.tube_diameter / 2.0;
    let let_in = recess(setup).value.max(0.0);
    let outer = dropout_plane(setup) + dropout.thickness;
    // How deep inside the tube's inner side each welded face lies, and its `out`.
    let mut faces = vec![(if let_in > 0.0 { let_in } else { leg }, outer)];
    if let_in > dropout.thickness {
        faces.push((let_in - dropout.thickness, outer - dropout.thickness));
    }
    let eye = Disc::new(0.0, 0.0, dropout.eye_radius);
    let neck = [Disc::new(0.0, 0.0, dropout.neck_width / 2.0), neck_top(setup)];
    let dropout_region = Region { outlines: vec![hull_outline(&[eye]), hull_outline(&neck)], ..Region::default() };
    let mut lines = Vec::new();
    for (depth, out) in faces {
        // Half the tube's width at that depth, no further out than the plate's own edge.
        let half = (depth * (2.0 * radius - depth)).max(0.0).sqrt().min(dropout.neck_width / 2.0 - EDGE);
        if half < LEAST_SPREAD {
            continue;
        }
        for side in [-half, half] {
            let back = fork.axle_offset + side;
            let up_the_tube = Line::new([back, 0.0], std::f64::consts::FRAC_PI_2);
            for chord in dropout_region.chords(&up_the_tube) {
                let [low, high] = chord.ends.map(|end| end.max(fork.tube_end));
                if high - low > LEAST_SPREAD {
                    lines.push(WeldLine {
                        from: Vector::new(back, low, out),
                        to: Vector::new(back, high, out),
                        throat: THROAT * leg,
                        face: Vector::Z,
                    });
                }
            }
        }
    }
    (!lines.is_empty()).then_some(WeldGroup { lines })
}
