//! Where the holes go, from datums a builder can scribe from, and what to check while tacking.

use super::outline::in_one_plane;
use super::path::apart;
use super::pieces::{Joining, Piece, PieceKey, Pieces};
use super::tables::{clearance_hole, coarse_pitch, general_tolerance, nominal_diameter, tap_drill};
use crate::fit::{dropout_plane, hole_centres, lateral, neck_top, posts};
use crate::plain::plain;
use crate::setup::{HoleFit, Material, MatingFace, Setup};
use crate::words::length;

/// A length with its tolerance.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// What it is, in words.
    pub label: String,
    /// mm.
    pub value: f64,
    /// ± mm after ISO 2768-1; none where the class has none.
    pub plus_minus: Option<f64>,
}

plain!(Dimension { label, value, plus_minus });

impl Dimension {
    fn of(setup: &Setup, label: &str, value: f64) -> Self {
        Self { label: label.to_owned(), value, plus_minus: general_tolerance(value, setup.cut.tolerance_class) }
    }
}

/// One round hole of a piece, or the axle's slot.
#[derive(Clone, Debug, PartialEq)]
pub struct HoleEntry {
    /// `A`, `B` or `axle`.
    pub name: &'static str,
    /// The piece it is in; none with posts, whose holes are not in the plate.
    pub piece: Option<PieceKey>,
    /// `clearance`, `threaded`, `axle` or `slot`.
    pub kind: &'static str,
    /// Behind the axle, square to the leg, mm.
    pub back: f64,
    /// Above the axle, along the leg, mm.
    pub up: f64,
    /// Straight from the axle's centre, mm.
    pub distance: f64,
    /// From the dropout's lowest point, along the leg, mm.
    pub from_lower_edge: f64,
    /// From the straight edge of the neck on its own side, square to that edge, mm; negative inside the neck.
    pub from_neck_edge: f64,
    /// Along that edge, from square of the axle, mm.
    pub along_neck: f64,
    /// From the old plate's edge, square to it, mm; none unless the tab is welded to one.
    pub from_old_edge: Option<f64>,
    /// Drill, mm; width of a slot.
    pub diameter: f64,
    /// Thread, empty where there is none.
    pub thread: &'static str,
    /// Tolerance class of the diameter, empty where it is left to the general tolerances.
    pub fit: &'static str,
    /// Material from the rim to the nearest edge, mm; none for a slot and for posts.
    pub edge: Option<f64>,
    /// ± of `back`, mm.
    pub back_plus_minus: Option<f64>,
    /// ± of `up`, mm.
    pub up_plus_minus: Option<f64>,
    /// ± of `distance`, mm.
    pub distance_plus_minus: Option<f64>,
}

plain!(HoleEntry {
    name,
    piece,
    kind,
    back,
    up,
    distance,
    from_lower_edge,
    from_neck_edge,
    along_neck,
    from_old_edge,
    diameter,
    thread,
    fit,
    edge,
    back_plus_minus,
    up_plus_minus,
    distance_plus_minus,
});

/// The hole table of a setup.
pub(super) fn hole_table(setup: &Setup, cut: &Pieces) -> Vec<HoleEntry> {
    let mut entries = Vec::new();
    for (name, centre) in ["A", "B"].into_iter().zip(hole_centres(setup)) {
        let piece = cut.pieces.iter().find(|piece| piece.holes.iter().any(|hole| hole.name == name));
        entries.push(match piece {
            Some(piece) => HoleEntry {
                piece: Some(piece.key),
                kind: "clearance",
                diameter: clearance_hole(setup.caliper.bolt.size, setup.cut.hole_fit),
                thread: setup.caliper.bolt.size.word(),
                fit: fit_class(setup.cut.hole_fit),
                edge: Some(edge(piece, name)),
                ..entry(setup, cut, name, centre)
            },
            None => HoleEntry {
                kind: "threaded",
                diameter: tap_drill(setup.caliper.bolt.size),
                thread: setup.caliper.bolt.size.word(),
                ..entry(setup, cut, name, centre)
            },
        });
    }
    if let Some(piece) = cut.pieces.iter().find(|piece| piece.key != PieceKey::Tab) {
        let closed = setup.dropout.closed;
        entries.push(HoleEntry {
            piece: Some(piece.key),
            kind: if closed { "axle" } else { "slot" },
            diameter: setup.dropout.slot_width,
            edge: closed.then(|| edge(piece, "axle")),
            ..entry(setup, cut, "axle", [0.0, 0.0])
        });
    }
    entries
}

fn edge(piece: &Piece, name: &str) -> f64 {
    piece
        .holes
        .iter()
        .find(|hole| hole.name == name)
        .map_or(0.0, |hole| apart(piece.region.nearest_edge(hole.centre), hole.centre) - hole.diameter / 2.0)
}

/// Everything about a hole that its centre tells.
fn entry(setup: &Setup, cut: &Pieces, name: &'static str, centre: [f64; 2]) -> HoleEntry {
    let [back, up] = centre;
    let top = neck_top(setup);
    let long = top.back.hypot(top.up);
    // The neck's sides are parallel: its two ends are of one width. One without length has none; the leg's direction serves.
    let along = if long > 0.0 { [top.back / long, top.up / long] } else { [0.0, 1.0] };
    let lowest = lowest(setup, cut);
    let class = setup.cut.tolerance_class;
    HoleEntry {
        name,
        piece: None,
        kind: "",
        back,
        up,
        distance: back.hypot(up),
        from_lower_edge: up - lowest,
        from_neck_edge: (back * along[1] - up * along[0]).abs() - setup.dropout.neck_width / 2.0,
        along_neck: back * along[0] + up * along[1],
        from_old_edge: (cut.joining == Joining::OnExisting).then(|| from_old_edge(setup, centre)),
        diameter: 0.0,
        thread: "",
        fit: "",
        edge: None,
        back_plus_minus: general_tolerance(back, class),
        up_plus_minus: general_tolerance(up, class),
        distance_plus_minus: general_tolerance(back.hypot(up), class),
    }
}

/// How far below the axle the dropout ends, negative.
fn lowest(setup: &Setup, cut: &Pieces) -> f64 {
    let dropout = cut.pieces.iter().find(|piece| piece.key != PieceKey::Tab);
    dropout.map_or(-setup.dropout.eye_radius, |piece| piece.whole.outer.bounds()[0][1])
}

fn from_old_edge(setup: &Setup, [back, up]: [f64; 2]) -> f64 {
    let [from, to] = setup.tab.old_edge;
    let long = apart(from, to);
    ((back - from[0]) * (to[1] - from[1]) - (up - from[1]) * (to[0] - from[0])).abs() / long
}

/// Class of the hole's diameter, ISO 273.
pub(super) fn fit_class(fit: HoleFit) -> &'static str {
    match fit {
        HoleFit::Fine => "H12",
        HoleFit::Medium => "H13",
        HoleFit::Coarse => "H14",
    }
}

/// What to hold rule and straightedge to while tacking, in order.
pub(super) fn checks(setup: &Setup, cut: &Pieces) -> Vec<Dimension> {
    let [a, b] = hole_centres(setup);
    let axle = [0.0, 0.0];
    let of = |label: &str, value: f64| Dimension::of(setup, label, value);
    let mut checks = vec![
        of("Axle's centre to hole A", apart(axle, a)),
        of("Axle's centre to hole B", apart(axle, b)),
        of("Hole A to hole B", apart(a, b)),
    ];
    if cut.joining == Joining::OnExisting {
        checks.push(of("Hole A square to the old plate's edge", from_old_edge(setup, a)));
        checks.push(of("Hole B square to the old plate's edge", from_old_edge(setup, b)));
    }
    if cut.joining != Joining::Posts {
        let label = if in_one_plane(setup) {
            "Straightedge across the dropout's outer face and the tab: daylight"
        } else if setup.tab.offset > 0.0 {
            "Straightedge on the dropout's outer face: the tab stands out by"
        } else {
            "Straightedge on the dropout's outer face: the tab lies back by"
        };
        checks.push(of(label, setup.tab.offset.abs()));
    }
    let place = lateral(setup);
    let face = match setup.caliper.mating_face {
        _ if cut.joining == Joining::Posts => "Middle of the rotor's thickness out to the plane of the two bolts",
        MatingFace::Inner => "Middle of the rotor's thickness out to the tab's inner face",
        MatingFace::Outer => "Middle of the rotor's thickness out to the tab's outer face",
    };
    let value = if cut.joining == Joining::Posts {
        setup.caliper.mount_depth
    } else {
        setup.caliper.mount_depth + place.misalignment
    };
    checks.push(of(face, value));
    checks
}

/// How long a thread is cut, times its diameter, in steel and in aluminium. Common practice, no source.
const THREAD_IN_STEEL: f64 = 1.5;
const THREAD_IN_ALUMINIUM: f64 = 2.0;
/// The drill goes this many pitches deeper than the thread. Common practice, no source.
const RUN_OUT: f64 = 4.0;

/// The two posts of a post mount, as they are made.
#[derive(Clone, Debug, PartialEq)]
pub struct PostLayout {
    /// From the axle's centre to the posts' face, square to it, mm.
    pub face_distance: f64,
    /// Each bolt along the face, mm from square of the axle, towards B.
    pub along: [f64; 2],
    /// Bolt to bolt, mm.
    pub spacing: f64,
    /// The way the bolts go in, as a unit vector (back, up, out).
    pub axis: [f64; 3],
    /// From the dropout's inner face out to the plane of the two bolts, mm.
    pub from_inner_face: f64,
    /// Thread.
    pub thread: &'static str,
    /// Tap drill, mm.
    pub tap_drill: f64,
    /// Depth of the thread, mm.
    pub thread_depth: f64,
    /// Depth of the drill, mm.
    pub drill_depth: f64,
    /// Diameter of a boss, mm: twice the hole's distance to the edge.
    pub boss_diameter: f64,
    /// Length of each boss from its face to the dropout's edge along the bolt, mm; none where that way meets no plate.
    pub boss_length: [Option<f64>; 2],
    /// The same in words.
    pub sentence: String,
}

plain!(PostLayout {
    face_distance,
    along,
    spacing,
    axis,
    from_inner_face,
    thread,
    tap_drill,
    thread_depth,
    drill_depth,
    boss_diameter,
    boss_length,
    sentence,
});

/// The layout of the posts; none with a side lug.
pub(super) fn post_layout(setup: &Setup, cut: &Pieces) -> Option<PostLayout> {
    let place = posts(setup)?;
    let size = setup.caliper.bolt.size;
    let diameter = nominal_diameter(size);
    let share = match setup.load.material {
        Material::Aluminium6061 => THREAD_IN_ALUMINIUM,
        _ => THREAD_IN_STEEL,
    };
    let in_plane = place.axis[0].hypot(place.axis[1]);
    let way = [place.axis[0] / in_plane, place.axis[1] / in_plane];
    let dropout = cut.pieces.first();
    let boss_length = hole_centres(setup).map(|centre| {
        let reaches = dropout.map(|piece| piece.whole.outer.crossings(centre, way));
        reaches.and_then(|reaches| reaches.first().copied())
    });
    let from_inner_face = crate::fit::rotor_plane(setup) + setup.caliper.mount_depth - dropout_plane(setup);
    let sentence = format!(
        "Two bosses {} across, faces {} from the axle's centre, bolts {} apart; drill {}, tap {} {} deep.",
        length(2.0 * setup.tab.edge),
        length(place.face_distance),
        length((place.along[1] - place.along[0]).abs()),
        length(tap_drill(size)),
        size.word(),
        length(diameter * share)
    );
    Some(PostLayout {
        face_distance: place.face_distance,
        along: place.along,
        spacing: (place.along[1] - place.along[0]).abs(),
        axis: place.axis,
        from_inner_face,
        thread: size.word(),
        tap_drill: tap_drill(size),
        thread_depth: diameter * share,
        drill_depth: diameter * share + RUN_OUT * coarse_pitch(size),
        boss_diameter: 2.0 * setup.tab.edge,
        boss_length,
        sentence,
    })
}

/// Sizes of the pieces that a builder lays out from.
pub(super) fn sizes(setup: &Setup, cut: &Pieces) -> Vec<Dimension> {
    let of = |label: &str, value: f64| Dimension::of(setup, label, value);
    let dropout = &setup.dropout;
    let mut sizes = Vec::new();
    if cut.joining != Joining::OnExisting {
        sizes.extend([
            of("Eye radius", dropout.eye_radius),
            of("Neck width", dropout.neck_width),
            of("Axle to the neck's upper end", setup.fork.tube_end + dropout.weld_length),
            of(if dropout.closed { "Axle hole" } else { "Slot width" }, dropout.slot_width),
        ]);
        if !dropout.closed {
            sizes.push(of("Slot depth, axle to mouth", cut.slot_depth));
            sizes.push(of("Slot lead-in", dropout.slot_chamfer));
        }
    }
    let fillet = cut.pieces.iter().fold(setup.tab.fillet_radius, |least, piece| least.min(piece.fillet_radius));
    sizes.push(of("Inner corners, radius", fillet));
    if cut.joining != Joining::Posts {
        sizes.push(of("Hole centre to the tab's edge", setup.tab.edge));
    }
    sizes.push(of("Plate thickness", dropout.thickness));
    if matches!(cut.joining, Joining::Butted | Joining::Stepped | Joining::OnExisting) {
        sizes.push(of("Gap for the weld", setup.tab.weld_gap));
    }
    sizes
}
