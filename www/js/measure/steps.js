/**
 * What to measure on each part, in which order, and how.
 *
 * @typedef {"wheel"|"caliper"|"fork"|"dropout"} PartKind  A group of a setup.
 * @typedef {Object} Step
 * @property {string} path  A number or choice of the setup, "measured.…" for one that the caliper follows from, "hand" or "line".
 * @property {string} how
 */

/** @type {{kind: PartKind, name: string, noun: string, steps: [path: string, how: string][]}[]} */
export const PARTS = [
  {
    kind: "wheel",
    name: "Hub",
    noun: "hub and wheel",
    steps: [
      ["wheel.hub_width", "Caliper gauge over both locknuts, where the dropouts clamp."],
      ["wheel.rotor_inset", "Bolt the rotor on. Straightedge across the locknut's face, square down to the rotor's near face, then add half the rotor's thickness."],
      ["wheel.rotor_diameter", "Caliper gauge or ruler across the outer edge, through the axle's middle."],
      ["wheel.rotor_thickness", "Caliper gauge on the band the pads rub on, at three places; take the thickest."],
      ["wheel.track_width", "Ruler from the outer edge inwards to where the smooth band ends, at its narrowest place."],
      ["wheel.flange_diameter", "Caliper gauge across the spoke flange on the rotor's side."],
      ["wheel.flange_inset", "Straightedge across the locknut's face, square down to the flange's outer face. Spoke heads that stand out count."],
      ["wheel.axle_diameter", "Caliper gauge on the axle where it sits in the dropout."],
      ["wheel.nut_diameter", "Across the widest of nut, washer, lever or skewer head; over the corners of a hexagon."],
      ["wheel.nut_height", "From the dropout's outer face to the end of nut, axle or lever, whichever stands out further."],
      ["wheel.rim_diameter", "Ruler across the rim between two opposite spoke nipples."],
      ["wheel.tyre_radius", "Wheel on the ground, tyre pumped up and loaded: tape from the floor up to the axle's middle."],
    ],
  },
  {
    kind: "caliper",
    name: "Caliper",
    noun: "caliper",
    steps: [
      ["caliper.mount", "Bolts along the axle through a flat lug, or into posts square to the axle."],
      ["caliper.mating_face", "Which side of the tab the lug is bolted to. Inner is towards the spokes."],
      ["caliper.pad.length", "Look at the outboard face with the slot's mouth down, to the axle. Ruler along the pads, from end to end. Measure the pads first: what follows starts at their corners."],
      ["caliper.pad.height", "Ruler on the friction face, from the edge at the mouth to the edge at the bridge."],
      ["hand", "Hold the outboard face towards you, the slot's mouth down to the axle. Tap the picture that looks like yours: calipers are handed, and the wrong hand puts the holes in the wrong place."],
      ["measured.hole_spacing", "Caliper gauge between the holes' near edges, then add one hole's diameter."],
      ["measured.hole_1_left", "Set the lug on paper and prick through the holes; with a small square bring down the pads' two corners at the slot's mouth. Measure on the paper: the left hole's centre to the left corner. Left and right are as in the picture, so turn the sheet over if you set down the outboard face."],
      ["measured.hole_1_right", "On the same sheet: the left hole's centre to the pads' right corner."],
      ["measured.hole_2_left", "On the same sheet: the right hole's centre to the pads' left corner."],
      ["measured.hole_2_right", "On the same sheet: the right hole's centre to the pads' right corner."],
      ["caliper.mount_depth", "Clamp a rotor in the slot. Straightedge on the face that meets the tab, square down to the rotor's near face, then add half the rotor's thickness. Posts: from the bolts' middle. Positive where the face lies outboard of the slot."],
      ["measured.lug_thickness", "Caliper gauge on the lug at a bolt hole; posts: across a post."],
      ["measured.lug_edge", "From the hole's edge out to the lug's edge at its widest, then add half the hole's diameter."],
      ["caliper.throat", "Depth gauge in the slot: from the pads' outer edge up to the inside of the bridge."],
      ["caliper.pad.edge_inset", "With the caliper sitting as its maker meant: how far the rotor stands out past the pads. Half a millimetre is usual."],
      ["measured.body_left", "Straightedge upright at the pads' left end; from it to the body's left end, levers and stops included."],
      ["measured.body_right", "The same on the right: from the pads' right end to the body's right end."],
      ["measured.body_top", "From the pads' outer edge straight up to the highest point of the body."],
      ["measured.halves_length", "The longer of the two halves beside the rotor, along the rotor's edge; cable arm, bleed screw and stops included. Off the middle: twice the longer side."],
      ["measured.halves_top", "From the pads' outer edge up to the top of what stands out sideways beside the lug: piston housing, arm."],
      ["measured.halves_drop", "From the pads' edge at the mouth down to the lowest point, towards the axle."],
      ["measured.inboard", "Rotor in the slot. From its face to the side that looks at the spokes, then add half its thickness."],
      ["measured.outboard", "From the rotor's face out to the outermost point, arm or adjuster included, then add half its thickness."],
      ["caliper.lateral_adjust", "Bolts loose: how far the caliper slides sideways from the middle of its slots."],
      ["line", "Tap where the line leaves, seen on the outboard face, and the way it points there."],
      ["caliper.line.diameter", "Caliper gauge on housing, hose or boot, where it is thickest."],
      ["caliper.line.min_bend_radius", "Ask its maker; no gauge tells."],
    ],
  },
  {
    kind: "fork",
    name: "Fork",
    noun: "fork",
    steps: [
      ["fork.tube_gap", "Inside caliper gauge or telescoping stick between the two legs, at the axle's height, square across."],
      ["fork.tube_diameter", "Caliper gauge on the leg where the dropout meets it, twice, square to each other; take the larger."],
      ["fork.tube_wall", "Caliper gauge on a cut end, or the tube's data sheet."],
      ["fork.leg_angle", "Angle gauge or phone on the leg with the bicycle on level ground, at its real ride height."],
      ["fork.axle_offset", "Straightedge along the leg's middle; square to it to the axle's middle. Ahead is positive."],
      ["fork.tube_end", "Along the leg, from the axle's middle up to the tube's lower end."],
    ],
  },
  {
    kind: "dropout",
    name: "Dropout",
    noun: "dropout",
    steps: [
      ["dropout.thickness", "Caliper gauge on the plate, off any paint and weld."],
      ["dropout.eye_radius", "From the axle slot's edge to the outside of the plate, square to the slot, then add half the slot's width."],
      ["dropout.neck_width", "Caliper gauge across the strap that runs up the tube, at its widest."],
      ["dropout.weld_length", "Ruler along the tube, from its lower end to the top of the plate."],
      ["dropout.slot_width", "Caliper gauge in the slot, where the axle sits."],
      ["dropout.slot_direction", "The way the axle leaves, against the leg: 0 up the leg, 90 straight back, 180 down, −90 straight ahead."],
      ["dropout.closed", "A hole instead of a slot: the wheel goes in sideways."],
    ],
  },
];
