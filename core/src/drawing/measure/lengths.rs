//! The lengths that pictures are made of, by name, worked out once for a setup.
//!
//! Tables name a length by its place in the list, as one byte; a minus before it means the length with the other sign.
//! So a picture is a few dozen bytes and not code of its own.

use crate::fit::{dropout_plane, neck_top, pad_radius, radial, rotor_plane, tangential};
use crate::setup::{CaliperMeasured, MatingFace, Setup, hold, lug_share};

/// Room between a part and a dimension beside it, mm.
const ROOM: f64 = 8.0;
/// Thickness of a spoke flange, and of a pad with its backing, for the picture alone, mm.
const FLANGE_THICKNESS: f64 = 3.0;
const PAD_THICKNESS: f64 = 4.0;
/// How much of the tube is shown above the plate, and above its own end where the plate is of no concern, mm.
const TUBE_ABOVE: f64 = 20.0;
const TUBE_SHORT: f64 = 45.0;

macro_rules! lengths {
    (|$setup:ident| { $($work:tt)* } $( $name:ident = $value:expr; )*) => {
        #[allow(non_camel_case_types, clippy::upper_case_acronyms)]
        enum Place { $( $name, )* }
        $( pub(super) const $name: i8 = Place::$name as i8; )*

        /// All of them, in the order of their places.
        pub(super) fn lengths($setup: &Setup) -> Vec<f64> {
            $($work)*
            vec![ $( $value, )* ]
        }
    };
}

lengths! {
    |setup| {
        let (wheel, fork, dropout, caliper, pad) =
            (&setup.wheel, &setup.fork, &setup.dropout, &setup.caliper, &setup.caliper.pad);
        let (plane, rotor, flange_out) = (dropout_plane(setup), rotor_plane(setup), dropout_plane(setup) - wheel.flange_inset);
        let (flange, eye, nut, axle) =
            (wheel.flange_diameter / 2.0, dropout.eye_radius, wheel.nut_diameter / 2.0, wheel.axle_diameter / 2.0);
        let plate_out = plane + dropout.thickness;
        let axle_end = plate_out + wheel.nut_height;
        let high = flange.max(eye).max(nut) + 6.0;
        let (radius, rim, thick) = (wheel.rotor_diameter / 2.0, wheel.rim_diameter / 2.0, wheel.rotor_thickness / 2.0);

        let (tube, offset, gap) = (fork.tube_diameter / 2.0, fork.axle_offset, fork.tube_gap / 2.0);
        let top = fork.tube_end + dropout.weld_length + TUBE_ABOVE;
        let short = fork.tube_end + TUBE_SHORT;
        let neck = neck_top(setup);
        let neck_length = neck.back.hypot(neck.up).max(1e-9);
        let neck_side = [neck.up / neck_length * neck.radius, -neck.back / neck_length * neck.radius];
        let (slot, square) = (radial(dropout.slot_direction) * (0.75 * eye), tangential(dropout.slot_direction));
        let slot_side = square * (dropout.slot_width / 2.0);
        let wide = eye.max(tube + 6.0) + 6.0;
        let front = (gap + fork.tube_diameter).max(plate_out) + 4.0;

        let (half, outer, edge) = (pad.length / 2.0, pad.height / 2.0, setup.tab.edge);
        let [one, two] = caliper.holes;
        let found = CaliperMeasured::of(setup);
        let [mut cw, mut rad, mut out] = [[0.0_f64; 2]; 3];
        for body in &caliper.bodies {
            for corner in &body.outline {
                hold(&mut cw, corner[0]);
                hold(&mut rad, corner[1]);
            }
            hold(&mut out, -body.inboard);
            hold(&mut out, body.outboard);
        }
        for hole in &caliper.holes {
            for side in [-edge, edge] {
                hold(&mut cw, hole[0] + side);
                hold(&mut rad, hole[1] + side);
            }
        }
        let tab = caliper.mount_depth
            - match caliper.mating_face {
                MatingFace::Inner => 0.0,
                MatingFace::Outer => dropout.thickness,
            };
        let lug = caliper.mount_depth - lug_share(caliper) * found.lug_thickness;
        let (low, upper) = (rad[0] - ROOM, one[1].max(two[1]) + edge + ROOM);
        let spacing = found.hole_spacing.max(1e-9) / found.lug_edge;
    }
    ZERO = 0.0;

    PLANE = plane;
    PLATE_OUT = plate_out;
    ROTOR = rotor;
    ROTOR_IN = rotor - thick;
    ROTOR_OUT = rotor + thick;
    AXLE_END = axle_end;
    AXLE_TIP = axle_end + FLANGE_THICKNESS;
    AXLE_BESIDE = axle_end + 1.5 * ROOM;
    FLANGE = flange;
    FLANGE_OUT = flange_out;
    FLANGE_IN = flange_out - FLANGE_THICKNESS;
    FLANGE_BESIDE = flange_out - 1.5 * ROOM;
    SHELL = 0.55 * flange;
    AXLE = axle;
    BARREL = 2.0 * axle;
    NUT = nut;
    EYE = eye;
    HIGH = high;
    HUB_LINE = high + 4.0;
    BEYOND = 2.0 * high;
    RADIUS = radius;
    TRACK = radius - wheel.track_width;
    RIM = rim;
    TYRE = wheel.tyre_radius;
    WHEEL = rim.max(wheel.tyre_radius);

    TUBE = tube;
    BORE = tube - fork.tube_wall;
    TUBE_BESIDE = 1.3 * tube;
    TUBE_WIDE = 1.6 * tube;
    GAP = gap;
    TUBE_OUT = gap + fork.tube_diameter;
    TUBE_BACK = offset + tube;
    TUBE_AHEAD = offset - tube;
    OFFSET = offset;
    TUBE_END = fork.tube_end;
    TUBE_FAR = 2.0 * top;
    TOP = top;
    TOP_LINE = top - ROOM;
    SHORT = short;
    SHORT_LINE = short - ROOM;
    LEG_AHEAD = (offset - tube).min(-wide);
    LEG_BACK = (offset + tube).max(wide);
    LEG_LOW = -eye - 4.0;
    LEG_LINE = (offset + tube).max(eye) + ROOM;
    LAP_LINE = offset + tube + ROOM;
    LAP_TOP = neck.up + neck.radius;
    NECK_X1 = 0.6 * neck.back - neck_side[0];
    NECK_Y1 = 0.6 * neck.up - neck_side[1];
    NECK_X2 = 0.6 * neck.back + neck_side[0];
    NECK_Y2 = 0.6 * neck.up + neck_side[1];
    ROUND_X = square.x * eye;
    ROUND_Y = square.y * eye;
    SLOT_X1 = slot.x - slot_side.x;
    SLOT_Y1 = slot.y - slot_side.y;
    SLOT_X2 = slot.x + slot_side.x;
    SLOT_Y2 = slot.y + slot_side.y;
    SLOT_ANGLE = dropout.slot_direction;
    SLOT_ARC = 1.25 * eye;
    EYE_TOP = 1.2 * eye;
    EYE_LINE = -eye - ROOM;
    FRONT = front;
    END_IN = gap.min(plane) - 3.0 * ROOM;
    END_TOP = 0.6 * top;
    LEAN = 90.0 - fork.leg_angle;
    LEVEL = 90.0;
    LEAN_ARC = 0.55 * top;
    LEAN_WIDE = 1.2 * top;

    PAD = half;
    PAD_OUT = outer;
    PAD_LINE = half + ROOM;
    ROTOR_CENTRE = -pad_radius(setup);
    CW_LOW = cw[0];
    CW_HIGH = cw[1];
    RAD_LOW = rad[0];
    RAD_HIGH = rad[1];
    OUT_LOW = out[0];
    OUT_HIGH = out[1].max(tab + dropout.thickness);
    FACE_LINE = low;
    INNER_LINE = out[0] - ROOM;
    UPPER_LINE = upper;
    CROSS = 4.0;
    THICK = thick;
    BACKING = thick + PAD_THICKNESS;
    INSET = outer + pad.edge_inset;
    THROAT = outer + caliper.throat;
    MOUNT = caliper.mount_depth;
    ADJUST = caliper.lateral_adjust;
    TAB_IN = tab;
    TAB_OUT = tab + dropout.thickness;
    TAB_LOW = one[1].min(two[1]) - edge;
    TAB_HIGH = upper - ROOM;
    ONE_X = one[0];
    ONE_Y = one[1];
    TWO_X = two[0];
    TWO_Y = two[1];
    LUG_X = one[0] + (one[0] - two[0]) / spacing;
    LUG_Y = one[1] + (one[1] - two[1]) / spacing;
    LUG_IN = lug;
    LUG_OUT = lug + found.lug_thickness;
    BODY_LEFT = -half - found.body_left;
    BODY_RIGHT = half + found.body_right;
    BODY_TOP = outer + found.body_top;
    BODY_LINE = half + found.body_right + ROOM;
    HALVES = found.halves_length / 2.0;
    HALVES_TOP = outer + found.halves_top;
    HALVES_LOW = -outer - found.halves_drop;
    INBOARD = found.inboard;
    OUTBOARD = found.outboard;
}
