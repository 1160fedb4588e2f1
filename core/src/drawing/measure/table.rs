//! What a picture shows: the items of each view, and for each measurement its view and its dimension.

use super::lengths::*;

/// What an item of a view is; the places of its lengths follow.
#[derive(Clone, Copy)]
pub(super) enum Kind {
    /// Least and greatest of the first coordinate, then of the second.
    Rectangle,
    /// Centre and radius.
    Disc,
    /// Inner and outer radius about the origin.
    Ring,
    /// From point to point.
    Line,
    /// The caliper's bodies, holes and line on its outboard face.
    Face,
    /// The caliper's bodies along the rotor's edge.
    Bodies,
    /// The dropout with its slot.
    Plate,
}

/// One item: what it is, its class in the drawing, and its lengths.
pub(super) struct Item(pub(super) Kind, pub(super) &'static str, pub(super) [i8; 4]);

/// From where a part is seen.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Seen {
    /// So that the first coordinate runs to the right.
    Plainly,
    /// From the braked side of the bicycle.
    FromTheSide,
    /// From its left side, turned by the leg's lean.
    Leaning,
}

/// A view: the rectangle it needs, least and greatest of both coordinates, from where it is seen, and what is in it, from
/// back to front.
pub(super) struct View {
    pub(super) bounds: [i8; 4],
    pub(super) seen: Seen,
    pub(super) items: &'static [Item],
}

use Kind::{Bodies, Disc, Face, Line, Plate, Rectangle, Ring};

const NONE: [i8; 4] = [0; 4];

/// At the caliper's outboard face, the axle below.
const FACE: View = View {
    bounds: [CW_LOW, CW_HIGH, RAD_LOW, RAD_HIGH],
    seen: Seen::Plainly,
    items: &[
        Item(Disc, "rotor", [ZERO, ROTOR_CENTRE, RADIUS, ZERO]),
        Item(Face, "", NONE),
        Item(Rectangle, "pad", [-PAD, PAD, -PAD_OUT, PAD_OUT]),
        Item(Line, "axis", [-CROSS, ZERO, CROSS, ZERO]),
        Item(Line, "axis", [ZERO, -CROSS, ZERO, CROSS]),
    ],
};
/// Along the rotor's edge, outboard to the right.
const EDGE: View = View {
    bounds: [OUT_LOW, OUT_HIGH, RAD_LOW, RAD_HIGH],
    seen: Seen::Plainly,
    items: &[
        Item(Bodies, "", NONE),
        Item(Rectangle, "hole", [-BACKING, BACKING, FACE_LINE, THROAT]),
        Item(Rectangle, "pad", [-BACKING, -THICK, -PAD_OUT, PAD_OUT]),
        Item(Rectangle, "pad", [THICK, BACKING, -PAD_OUT, PAD_OUT]),
        Item(Rectangle, "band", [-THICK, THICK, FACE_LINE, INSET]),
        Item(Rectangle, "tab", [TAB_IN, TAB_OUT, TAB_LOW, TAB_HIGH]),
        Item(Line, "axis", [ZERO, FACE_LINE, ZERO, UPPER_LINE]),
    ],
};
const HUB_ITEMS: &[Item] = &[
    Item(Rectangle, "hub", [-PLANE, PLANE, -BARREL, BARREL]),
    Item(Rectangle, "hub", [-FLANGE_OUT, ROTOR, -SHELL, SHELL]),
    Item(Rectangle, "hub", [FLANGE_IN, FLANGE_OUT, -FLANGE, FLANGE]),
    Item(Rectangle, "hub", [-FLANGE_OUT, -FLANGE_IN, -FLANGE, FLANGE]),
    Item(Rectangle, "plate", [PLANE, PLATE_OUT, -EYE, EYE]),
    Item(Rectangle, "plate", [-PLATE_OUT, -PLANE, -EYE, EYE]),
    Item(Rectangle, "nut", [PLATE_OUT, AXLE_END, -NUT, NUT]),
    Item(Rectangle, "nut", [-AXLE_END, -PLATE_OUT, -NUT, NUT]),
    Item(Rectangle, "hub", [PLANE, AXLE_TIP, -AXLE, AXLE]),
    Item(Rectangle, "hub", [-AXLE_TIP, -PLANE, -AXLE, AXLE]),
    Item(Rectangle, "band", [ROTOR_IN, ROTOR_OUT, -RADIUS, RADIUS]),
    Item(Line, "axis", [-AXLE_BESIDE, ZERO, AXLE_BESIDE, ZERO]),
    Item(Line, "axis", [ZERO, -BEYOND, ZERO, BEYOND]),
];
/// The hub cut along the axle, outboard to the right; the rotor runs off the picture.
const HUB: View = View { bounds: [-AXLE_TIP, AXLE_TIP, -HIGH, HIGH], seen: Seen::Plainly, items: HUB_ITEMS };
/// Its braked end alone.
const HUB_END: View = View { bounds: [FLANGE_BESIDE, AXLE_TIP, -HIGH, HIGH], seen: Seen::Plainly, items: HUB_ITEMS };
/// At the rotor.
const ROTOR_SIDE: View = View {
    bounds: [-RADIUS, RADIUS, -RADIUS, RADIUS],
    seen: Seen::FromTheSide,
    items: &[
        Item(Disc, "rotor", [ZERO, ZERO, RADIUS, ZERO]),
        Item(Ring, "band", [TRACK, RADIUS, ZERO, ZERO]),
        Item(Disc, "hub", [ZERO, ZERO, FLANGE, ZERO]),
        Item(Disc, "hole", [ZERO, ZERO, AXLE, ZERO]),
    ],
};
/// At the whole wheel, standing on the ground.
const WHEEL_SIDE: View = View {
    bounds: [-WHEEL, WHEEL, -WHEEL, WHEEL],
    seen: Seen::FromTheSide,
    items: &[
        Item(Ring, "tube", [RIM, TYRE, ZERO, ZERO]),
        Item(Disc, "rotor", [ZERO, ZERO, RADIUS, ZERO]),
        Item(Disc, "hub", [ZERO, ZERO, FLANGE, ZERO]),
        Item(Disc, "hole", [ZERO, ZERO, AXLE, ZERO]),
        Item(Line, "axis", [-WHEEL, -TYRE, WHEEL, -TYRE]),
    ],
};
const TUBE_ITEM: Item = Item(Rectangle, "tube", [TUBE_AHEAD, TUBE_BACK, TUBE_END, TUBE_FAR]);
const TUBE_AXIS: Item = Item(Line, "axis", [OFFSET, TUBE_END, OFFSET, TUBE_FAR]);
const PLATE_ITEM: Item = Item(Plate, "", NONE);
const LEG_ITEMS: &[Item] = &[PLATE_ITEM, TUBE_ITEM, TUBE_AXIS];
const DROPOUT_ITEMS: &[Item] = &[TUBE_ITEM, TUBE_AXIS, PLATE_ITEM];
/// At the lower end of the leg on the braked side.
const LEG: View = View { bounds: [LEG_AHEAD, LEG_BACK, LEG_LOW, SHORT], seen: Seen::FromTheSide, items: LEG_ITEMS };
/// At the dropout, the tube behind it.
const DROPOUT: View =
    View { bounds: [LEG_AHEAD, LEG_BACK, LEG_LOW, TOP], seen: Seen::FromTheSide, items: DROPOUT_ITEMS };
/// At its eye alone.
const EYE_SIDE: View = View { bounds: [-EYE, EYE, LEG_LOW, EYE_TOP], seen: Seen::FromTheSide, items: DROPOUT_ITEMS };
/// At the leg as the bicycle stands, turned by its lean.
const LEAN_SIDE: View = View { bounds: [ZERO, LEAN_WIDE, LEG_LOW, TOP], seen: Seen::Leaning, items: LEG_ITEMS };
const FRONT_ITEMS: &[Item] = &[
    Item(Rectangle, "hub", [-FRONT, FRONT, -AXLE, AXLE]),
    Item(Rectangle, "tube", [GAP, TUBE_OUT, TUBE_END, TUBE_FAR]),
    Item(Rectangle, "tube", [-TUBE_OUT, -GAP, TUBE_END, TUBE_FAR]),
    Item(Rectangle, "plate", [PLANE, PLATE_OUT, -EYE, LAP_TOP]),
    Item(Rectangle, "plate", [-PLATE_OUT, -PLANE, -EYE, LAP_TOP]),
    Item(Line, "axis", [ZERO, -EYE, ZERO, TUBE_FAR]),
];
/// At both legs from ahead or behind, the braked one to the right.
const FRONT_SIDE: View = View { bounds: [-FRONT, FRONT, -EYE, TOP], seen: Seen::Plainly, items: FRONT_ITEMS };
/// The lower end of the braked leg alone.
const FRONT_END: View = View { bounds: [END_IN, FRONT, -EYE, END_TOP], seen: Seen::Plainly, items: FRONT_ITEMS };
/// The tube cut across.
const TUBE_CUT: View = View {
    bounds: [-TUBE_WIDE, TUBE_WIDE, -TUBE, TUBE],
    seen: Seen::Plainly,
    items: &[Item(Disc, "tube", [ZERO, ZERO, TUBE, ZERO]), Item(Disc, "hole", [ZERO, ZERO, BORE, ZERO])],
};

/// Which way a dimension runs.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Run {
    /// From point to point.
    Straight,
    /// Along the first coordinate between two points, drawn at a place of the second.
    Across,
    /// Along the second coordinate between two points, drawn at a place of the first.
    Along,
    /// An angle about the origin: radius, and the two clock angles.
    Angle,
}
use Run::{Across, Along, Angle, Straight};

/// A measurement: its path, its view, and its dimension: which way, two points, and the place it is drawn at.
pub(super) struct Entry(pub(super) &'static str, pub(super) &'static View, pub(super) Run, pub(super) [i8; 5]);

/// The caliper's face without a dimension.
pub(super) const BARE: (&str, &View) = ("caliper", &FACE);

pub(super) const ENTRIES: [Entry; 45] = [
    Entry("wheel.hub_width", &HUB, Across, [-PLANE, EYE, PLANE, EYE, HUB_LINE]),
    Entry("wheel.rotor_inset", &HUB_END, Across, [ROTOR, HUB_LINE, PLANE, EYE, HUB_LINE]),
    Entry("wheel.flange_inset", &HUB_END, Across, [FLANGE_OUT, FLANGE, PLANE, EYE, HUB_LINE]),
    Entry("wheel.rotor_thickness", &HUB_END, Across, [ROTOR_IN, HUB_LINE, ROTOR_OUT, HUB_LINE, HUB_LINE]),
    Entry("wheel.flange_diameter", &HUB_END, Along, [FLANGE_IN, -FLANGE, FLANGE_IN, FLANGE, FLANGE_BESIDE]),
    Entry("wheel.axle_diameter", &HUB_END, Along, [AXLE_END, -AXLE, AXLE_END, AXLE, AXLE_BESIDE]),
    Entry("wheel.nut_diameter", &HUB_END, Along, [AXLE_END, -NUT, AXLE_END, NUT, AXLE_BESIDE]),
    Entry("wheel.nut_height", &HUB_END, Across, [PLATE_OUT, NUT, AXLE_END, NUT, HUB_LINE]),
    Entry("wheel.rotor_diameter", &ROTOR_SIDE, Straight, [-RADIUS, ZERO, RADIUS, ZERO, ZERO]),
    Entry("wheel.track_width", &ROTOR_SIDE, Straight, [ZERO, TRACK, ZERO, RADIUS, ZERO]),
    Entry("wheel.rim_diameter", &WHEEL_SIDE, Straight, [-RIM, ZERO, RIM, ZERO, ZERO]),
    Entry("wheel.tyre_radius", &WHEEL_SIDE, Straight, [ZERO, ZERO, ZERO, -TYRE, ZERO]),
    Entry("fork.tube_diameter", &TUBE_CUT, Along, [ZERO, -TUBE, ZERO, TUBE, TUBE_BESIDE]),
    Entry("fork.tube_wall", &TUBE_CUT, Straight, [BORE, ZERO, TUBE, ZERO, ZERO]),
    Entry("fork.tube_gap", &FRONT_SIDE, Straight, [-GAP, TOP_LINE, GAP, TOP_LINE, ZERO]),
    Entry("fork.leg_angle", &LEAN_SIDE, Angle, [LEAN_ARC, LEAN, LEVEL, ZERO, ZERO]),
    Entry("fork.axle_offset", &LEG, Across, [ZERO, ZERO, OFFSET, SHORT_LINE, SHORT_LINE]),
    Entry("fork.tube_end", &LEG, Along, [ZERO, ZERO, OFFSET, TUBE_END, LEG_LINE]),
    Entry("dropout.thickness", &FRONT_END, Across, [PLANE, -EYE, PLATE_OUT, -EYE, EYE_LINE]),
    Entry("dropout.eye_radius", &EYE_SIDE, Straight, [ZERO, ZERO, ROUND_X, ROUND_Y, ZERO]),
    Entry("dropout.neck_width", &DROPOUT, Straight, [NECK_X1, NECK_Y1, NECK_X2, NECK_Y2, ZERO]),
    Entry("dropout.weld_length", &DROPOUT, Along, [TUBE_BACK, TUBE_END, OFFSET, LAP_TOP, LAP_LINE]),
    Entry("dropout.slot_direction", &EYE_SIDE, Angle, [SLOT_ARC, ZERO, SLOT_ANGLE, ZERO, ZERO]),
    Entry("dropout.slot_width", &EYE_SIDE, Straight, [SLOT_X1, SLOT_Y1, SLOT_X2, SLOT_Y2, ZERO]),
    Entry("caliper.pad.length", &FACE, Across, [-PAD, -PAD_OUT, PAD, -PAD_OUT, FACE_LINE]),
    Entry("caliper.pad.height", &FACE, Along, [PAD, -PAD_OUT, PAD, PAD_OUT, PAD_LINE]),
    Entry("caliper.pad.edge_inset", &EDGE, Along, [ZERO, PAD_OUT, ZERO, INSET, INNER_LINE]),
    Entry("caliper.throat", &EDGE, Along, [ZERO, PAD_OUT, ZERO, THROAT, INNER_LINE]),
    Entry("caliper.mount_depth", &EDGE, Across, [ZERO, PAD_OUT, MOUNT, TAB_HIGH, UPPER_LINE]),
    Entry("caliper.lateral_adjust", &EDGE, Across, [ZERO, FACE_LINE, ADJUST, FACE_LINE, FACE_LINE]),
    Entry("measured.hole_spacing", &FACE, Straight, [ONE_X, ONE_Y, TWO_X, TWO_Y, ZERO]),
    Entry("measured.hole_1_left", &FACE, Straight, [-PAD, -PAD_OUT, ONE_X, ONE_Y, ZERO]),
    Entry("measured.hole_1_right", &FACE, Straight, [PAD, -PAD_OUT, ONE_X, ONE_Y, ZERO]),
    Entry("measured.hole_2_left", &FACE, Straight, [-PAD, -PAD_OUT, TWO_X, TWO_Y, ZERO]),
    Entry("measured.hole_2_right", &FACE, Straight, [PAD, -PAD_OUT, TWO_X, TWO_Y, ZERO]),
    Entry("measured.lug_edge", &FACE, Straight, [ONE_X, ONE_Y, LUG_X, LUG_Y, ZERO]),
    Entry("measured.lug_thickness", &EDGE, Across, [LUG_IN, ONE_Y, LUG_OUT, ONE_Y, UPPER_LINE]),
    Entry("measured.body_left", &FACE, Across, [BODY_LEFT, PAD_OUT, -PAD, -PAD_OUT, FACE_LINE]),
    Entry("measured.body_right", &FACE, Across, [PAD, -PAD_OUT, BODY_RIGHT, PAD_OUT, FACE_LINE]),
    Entry("measured.body_top", &FACE, Along, [PAD, PAD_OUT, PAD, BODY_TOP, BODY_LINE]),
    Entry("measured.halves_length", &FACE, Across, [-HALVES, -PAD_OUT, HALVES, -PAD_OUT, FACE_LINE]),
    Entry("measured.halves_top", &FACE, Along, [PAD, PAD_OUT, HALVES, HALVES_TOP, BODY_LINE]),
    Entry("measured.halves_drop", &FACE, Along, [PAD, -PAD_OUT, HALVES, HALVES_LOW, BODY_LINE]),
    Entry("measured.inboard", &EDGE, Across, [-INBOARD, -PAD_OUT, ZERO, FACE_LINE, FACE_LINE]),
    Entry("measured.outboard", &EDGE, Across, [ZERO, FACE_LINE, OUTBOARD, -PAD_OUT, FACE_LINE]),
];
