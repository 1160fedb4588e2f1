//! Hub and wheel: cut along the axle, and from the side.

use super::super::canvas::Canvas;
use super::Drawn;
use crate::fit::{dropout_plane, rotor_plane};
use crate::setup::Setup;
use crate::solid::Disc;

/// Thickness of a spoke flange, for the picture alone, mm.
const FLANGE: f64 = 3.0;

/// Half the height of the section: what stands highest about the axle but for the rotor.
pub(super) fn height(setup: &Setup) -> f64 {
    (setup.wheel.flange_diameter / 2.0).max(setup.dropout.eye_radius).max(setup.wheel.nut_diameter / 2.0) + 6.0
}

/// The outer end of axle and nut, mm from the wheel's middle.
pub(super) fn axle_end(setup: &Setup) -> f64 {
    dropout_plane(setup) + setup.dropout.thickness + setup.wheel.nut_height
}

/// Cut along the axle, outboard to the right; the rotor runs off the picture.
pub(super) fn section(setup: &Setup, canvas: Canvas, is_end: bool) -> Drawn {
    let (wheel, thickness) = (&setup.wheel, setup.dropout.thickness);
    let (plane, rotor, end, high) = (dropout_plane(setup), rotor_plane(setup), axle_end(setup), height(setup));
    let (flange, flange_out) = (wheel.flange_diameter / 2.0, plane - wheel.flange_inset);
    let shell = 0.55 * flange;
    let mut canvas = canvas
        .rectangle("hub", "", [-plane, plane], [-wheel.axle_diameter, wheel.axle_diameter])
        .rectangle("hub", "", [-flange_out, rotor], [-shell, shell]);
    for side in [-1.0, 1.0] {
        let span = |from: f64, to: f64| [side * from, side * to];
        let (half_axle, eye, nut) = (wheel.axle_diameter / 2.0, setup.dropout.eye_radius, wheel.nut_diameter / 2.0);
        canvas = canvas
            .rectangle("hub", "", span(flange_out - FLANGE, flange_out), [-flange, flange])
            .rectangle("plate", "", span(plane, plane + thickness), [-eye, eye])
            .rectangle("nut", "", span(plane + thickness, end), [-nut, nut])
            .rectangle("hub", "", span(plane, end + 3.0), [-half_axle, half_axle]);
    }
    let (half, radius) = (wheel.rotor_thickness / 2.0, wheel.rotor_diameter / 2.0);
    canvas = canvas
        .rectangle("band", "", [rotor - half, rotor + half], [-radius, radius])
        .line("axis", "", [-end - 8.0, 0.0], [end + 8.0, 0.0])
        .line("axis", "", [0.0, -2.0 * high], [0.0, 2.0 * high]);
    (canvas, [[if is_end { flange_out - 14.0 } else { -end - 3.0 }, end + 3.0], [-high, high]])
}

/// At the rotor: its band, and the hub behind.
pub(super) fn rotor(setup: &Setup, canvas: Canvas) -> Drawn {
    let wheel = &setup.wheel;
    let radius = wheel.rotor_diameter / 2.0;
    let disc = |radius: f64| [Disc::new(0.0, 0.0, radius)];
    let canvas = canvas
        .hull("rotor", "", &disc(radius))
        .ring("band", "", [0.0, 0.0], [radius - wheel.track_width, radius])
        .hull("hub", "", &disc(wheel.flange_diameter / 2.0))
        .hull("hole", "", &disc(wheel.axle_diameter / 2.0));
    (canvas, [[-radius, radius]; 2])
}

/// At the whole wheel, standing on the ground.
pub(super) fn wheel(setup: &Setup, canvas: Canvas) -> Drawn {
    let wheel = &setup.wheel;
    let (tyre, rim) = (wheel.tyre_radius, wheel.rim_diameter / 2.0);
    let disc = |radius: f64| [Disc::new(0.0, 0.0, radius)];
    let canvas = canvas
        .ring("tube", "", [0.0, 0.0], [rim.min(tyre), rim.max(tyre)])
        .hull("rotor", "", &disc(wheel.rotor_diameter / 2.0))
        .hull("hub", "", &disc(wheel.flange_diameter / 2.0))
        .hull("hole", "", &disc(wheel.axle_diameter / 2.0))
        .line("axis", "", [-1.1 * tyre, -tyre], [1.1 * tyre, -tyre]);
    (canvas, [[-tyre.max(rim), tyre.max(rim)]; 2])
}
