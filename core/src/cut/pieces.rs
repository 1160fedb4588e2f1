//! What is cut: one plate, or dropout and tab, and the plain dropout of the other leg.

use super::library::{offset, shared, without};
use super::outline::{Filleted, dropout, is_one_piece, plate_region, tab};
use super::path::{Outline, apart};
use super::region::Region;
use super::slot::{slot_problem, slotted, warning};
use super::tables::clearance_hole;
use crate::fit::hole_centres;
use crate::plain::plain;
use crate::setup::{Build, Mount, Problem, Setup, Warning};
use crate::words::length;

/// Which piece it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceKey {
    /// Dropout and tab in one.
    Plate,
    /// The dropout alone.
    Dropout,
    /// The tab alone.
    Tab,
    /// The dropout of the other leg.
    OtherSide,
}

plain!(PieceKey: Plate = "plate", Dropout = "dropout", Tab = "tab", OtherSide = "other_side");

/// A round hole.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoundHole {
    /// What it is called on the sheet: `A`, `B` or `axle`.
    pub name: &'static str,
    /// Its middle, `[back, up]`.
    pub centre: [f64; 2],
    /// As drilled, mm.
    pub diameter: f64,
}

plain!(RoundHole { name, centre, diameter });

/// One piece to cut, in the leg frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// Which it is.
    pub key: PieceKey,
    /// The material with the slot, without the round holes.
    pub region: Region,
    /// The material without the slot.
    pub whole: Region,
    /// The round holes.
    pub holes: Vec<RoundHole>,
    /// Radius of its inner corners, mm.
    pub fillet_radius: f64,
}

impl Piece {
    /// The area of material, holes taken off, mm².
    pub fn area(&self) -> f64 {
        let holes: f64 = self.holes.iter().map(|hole| std::f64::consts::PI * hole.diameter * hole.diameter / 4.0).sum();
        self.region.area() - holes
    }
}

/// How plate and tab come together, as it is to be cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Joining {
    /// Cut from one plate.
    OnePiece,
    /// Two pieces in one plane, butted with a gap for the weld.
    Butted,
    /// A tab for a dropout that is there.
    OnExisting,
    /// Two pieces in planes that are less than a plate's thickness apart: butted with a step.
    Stepped,
    /// Two pieces in planes a plate's thickness apart or more: the tab lies on the dropout.
    Lapped,
    /// Posts stand on the dropout.
    Posts,
}

plain!(Joining: OnePiece = "one_piece", Butted = "butt_welded", OnExisting = "on_existing", Stepped = "stepped", Lapped = "lapped", Posts = "posts");

/// How a setup's plate and tab come together.
pub fn joining(setup: &Setup) -> Joining {
    if setup.caliper.mount == Mount::Post {
        return Joining::Posts;
    }
    let apart = setup.tab.offset.abs();
    match setup.tab.build {
        Build::OnExisting => Joining::OnExisting,
        _ if is_one_piece(setup) => Joining::OnePiece,
        _ if apart >= setup.dropout.thickness => Joining::Lapped,
        _ if super::outline::in_one_plane(setup) => Joining::Butted,
        _ => Joining::Stepped,
    }
}

/// All that is cut for a setup.
#[derive(Clone, Debug, PartialEq)]
pub struct Pieces {
    /// How they come together.
    pub joining: Joining,
    /// The pieces, the one with the caliper's holes first.
    pub pieces: Vec<Piece>,
    /// From the axle to the middle of the slot's mouth, mm; half its width where it is closed.
    pub slot_depth: f64,
    /// Where tab and dropout lie on each other, mm²; 0 unless [`Joining::Lapped`].
    pub lap_area: f64,
    /// What is unusual.
    pub warnings: Vec<Warning>,
}

/// Works out every piece to cut.
///
/// # Errors
/// The reason where a piece cannot be made, with the field to change and the remedy.
///
/// ```
/// use tabwright_core::{Setup, cut::pieces};
/// let cut = pieces(&Setup::default()).unwrap();
/// assert_eq!(cut.pieces[0].holes.len(), 2);
/// ```
pub fn pieces(setup: &Setup) -> Result<Pieces, Vec<Problem>> {
    let joining = joining(setup);
    let plain = dropout(setup)?;
    let mut cut = Pieces { joining, pieces: Vec::new(), slot_depth: 0.0, lap_area: 0.0, warnings: Vec::new() };
    let add = |cut: &mut Pieces, key: PieceKey, outline: Filleted, mut holes: Vec<RoundHole>| {
        let slotted = slotted(setup, &outline.region)?;
        if setup.dropout.closed {
            holes.push(RoundHole { name: "axle", centre: [0.0, 0.0], diameter: setup.dropout.slot_width });
        }
        cut.slot_depth = slotted.depth;
        for warning in slotted.warnings {
            if !cut.warnings.contains(&warning) {
                cut.warnings.push(warning);
            }
        }
        cut.pieces.push(Piece {
            key,
            region: slotted.region,
            whole: outline.region,
            holes,
            fillet_radius: outline.radius,
        });
        Ok::<(), Vec<Problem>>(())
    };
    match joining {
        Joining::OnePiece => add(&mut cut, PieceKey::Plate, plate_region(setup)?, bolt_holes(setup))?,
        Joining::Posts => add(&mut cut, PieceKey::Dropout, plain.clone(), Vec::new())?,
        Joining::OnExisting => cut.pieces.push(tab_piece(setup, on_old_edge(setup)?)),
        Joining::Butted | Joining::Stepped => {
            cut.pieces.push(tab_piece(setup, butted(setup, &plain.region)?));
            add(&mut cut, PieceKey::Dropout, plain.clone(), Vec::new())?;
        }
        Joining::Lapped => {
            let lapped = whole_tab(setup)?;
            cut.lap_area = shared(&lapped.region.outer, &plain.region.outer).iter().map(Region::area).sum();
            cut.pieces.push(tab_piece(setup, lapped));
            add(&mut cut, PieceKey::Dropout, plain.clone(), Vec::new())?;
        }
    }
    if joining != Joining::OnExisting {
        add(&mut cut, PieceKey::OtherSide, plain, Vec::new())?;
    }
    fillets_as_asked(setup, &mut cut);
    holes_inside(&cut, setup)?;
    Ok(cut)
}

/// The caliper's holes, as they are drilled.
pub(super) fn bolt_holes(setup: &Setup) -> Vec<RoundHole> {
    let diameter = clearance_hole(setup.caliper.bolt.size, setup.cut.hole_fit);
    let named = ["A", "B"].into_iter().zip(hole_centres(setup));
    named.map(|(name, centre)| RoundHole { name, centre, diameter }).collect()
}

fn tab_piece(setup: &Setup, outline: Filleted) -> Piece {
    Piece {
        key: PieceKey::Tab,
        region: outline.region.clone(),
        whole: outline.region,
        holes: bolt_holes(setup),
        fillet_radius: outline.radius,
    }
}

fn whole_tab(setup: &Setup) -> Result<Filleted, Vec<Problem>> {
    tab(setup).unwrap_or_else(|| {
        let message = "Posts have no flat tab. Choose the side lug for one.".to_owned();
        Err(vec![Problem { field: "caliper.mount".to_owned(), value: setup.caliper.mount.word().to_owned(), message }])
    })
}

/// The tab cut back from the dropout by the weld's gap.
fn butted(setup: &Setup, dropout: &Region) -> Result<Filleted, Vec<Problem>> {
    let Filleted { region, radius } = whole_tab(setup)?;
    let mut taken = offset(std::slice::from_ref(dropout), setup.tab.weld_gap);
    if taken.is_empty() {
        taken.push(dropout.clone());
    }
    let solid = Region { outer: taken.swap_remove(0).outer, windows: Vec::new() };
    let left = without(&region, &solid);
    let region = with_both_holes(setup, left).map_err(|many| {
        let message = if many == 0 {
            "Nothing of the tab is left beside the dropout. Cut it in one piece, or move the caliper away from the leg.".to_owned()
        } else {
            "The dropout and the gap for the weld part the tab between its two holes. Cut it in one piece, or move the caliper away from the leg.".to_owned()
        };
        vec![Problem { field: "tab.build".to_owned(), value: setup.tab.build.word().to_owned(), message }]
    })?;
    Ok(Filleted { region, radius })
}

/// The piece that has both holes; how many pieces there are where none has.
fn with_both_holes(setup: &Setup, pieces: Vec<Region>) -> Result<Region, usize> {
    let holes = bolt_holes(setup);
    let many = pieces.len();
    let has_both = |piece: &Region| holes.iter().all(|hole| piece.outer.contains(hole.centre));
    pieces.into_iter().find(has_both).ok_or(many)
}

/// Half the plane on one side of a line counts as this wide, mm: further than any tab reaches.
const FAR: f64 = 2000.0;

/// The tab cut off at the old plate's edge, less the weld's gap.
fn on_old_edge(setup: &Setup) -> Result<Filleted, Vec<Problem>> {
    let Filleted { region, radius } = whole_tab(setup)?;
    let problem = |message: String| {
        let value = crate::plain::Plain::datum(&setup.tab.old_edge).into();
        let value: crate::setup::Given = value;
        vec![Problem { field: "tab.old_edge".to_owned(), value: value.to_string(), message }]
    };
    let [from, to] = setup.tab.old_edge;
    let long = apart(from, to);
    let along = [(to[0] - from[0]) / long, (to[1] - from[1]) / long];
    // To the left of the edge.
    let mut square = [-along[1], along[0]];
    let beyond =
        |point: [f64; 2], square: [f64; 2]| (point[0] - from[0]) * square[0] + (point[1] - from[1]) * square[1];
    let holes = bolt_holes(setup);
    let sides: Vec<f64> = holes.iter().map(|hole| beyond(hole.centre, square)).collect();
    if sides.iter().any(|side| side.signum() != sides[0].signum()) {
        return Err(problem(
            "The old plate's edge runs between the two caliper holes. Give the edge that lies between both of them and the axle's leg.".to_owned(),
        ));
    }
    if sides[0] < 0.0 {
        square = [-square[0], -square[1]];
    }
    let nearest = sides.iter().fold(f64::INFINITY, |least, side| least.min(side.abs()));
    let gap = setup.tab.weld_gap;
    if nearest - holes[0].diameter / 2.0 <= gap {
        return Err(problem(format!(
            "A caliper hole lies {} from the old plate's edge: nothing is left between hole and weld. Move the edge back or the caliper out.",
            length(nearest)
        )));
    }
    let at = |along_by: f64, square_by: f64| {
        [from[0] + along[0] * along_by + square[0] * square_by, from[1] + along[1] * along_by + square[1] * square_by]
    };
    let taken = Outline::polygon(&[at(-FAR, gap), at(FAR, gap), at(FAR, -FAR), at(-FAR, -FAR)]);
    let left = without(&region, &Region { outer: taken, windows: Vec::new() });
    let kept = with_both_holes(setup, left).map_err(|_| {
        problem(
            "The old plate's edge parts the tab between its two holes. Give the edge nearer to the axle.".to_owned(),
        )
    })?;
    // How near the tab comes to the edge: it must reach it.
    let reach =
        kept.outer.sampled(0.5).iter().fold(f64::INFINITY, |least, (_, _, point)| least.min(beyond(*point, square)));
    if reach > gap + 0.01 {
        return Err(problem(format!(
            "The tab ends {} short of the old plate's edge. Move the edge nearer, or give the edge that the tab runs to.",
            length(reach - gap)
        )));
    }
    Ok(Filleted { region: kept, radius })
}

/// Says where a fillet came out smaller than asked for.
fn fillets_as_asked(setup: &Setup, cut: &mut Pieces) {
    let wanted = setup.tab.fillet_radius;
    for piece in &cut.pieces {
        if piece.fillet_radius < wanted {
            let message = format!(
                "A fillet of {} does not go into the inner corners; they have {}. Ask for less.",
                length(wanted),
                length(piece.fillet_radius)
            );
            cut.warnings.push(warning("tab.fillet_radius", wanted, message));
            return;
        }
    }
}

/// Every hole must lie in its piece whole.
fn holes_inside(cut: &Pieces, setup: &Setup) -> Result<(), Vec<Problem>> {
    let mut problems = Vec::new();
    for piece in &cut.pieces {
        for hole in &piece.holes {
            let edge = apart(piece.region.nearest_edge(hole.centre), hole.centre) - hole.diameter / 2.0;
            if edge > 0.0 && piece.region.contains(hole.centre) {
                continue;
            }
            problems.extend(if hole.name == "axle" {
                slot_problem(
                    "dropout.slot_width",
                    setup.dropout.slot_width,
                    "The axle's hole breaks through the plate's edge. Make the eye larger or the hole smaller."
                        .to_owned(),
                )
            } else {
                let slot = !setup.dropout.closed && piece.whole.contains(hole.centre) && {
                    let whole = apart(piece.whole.nearest_edge(hole.centre), hole.centre) - hole.diameter / 2.0;
                    whole > 0.0
                };
                if slot {
                    slot_problem(
                        "dropout.slot_direction",
                        setup.dropout.slot_direction,
                        format!("The slot runs into hole {}. Turn the slot, or move the caliper.", hole.name),
                    )
                } else {
                    slot_problem(
                        "tab.edge",
                        setup.tab.edge,
                        format!(
                            "Hole {}, {} wide, breaks through the plate's edge. Give more from hole to edge.",
                            hole.name,
                            length(hole.diameter)
                        ),
                    )
                }
            });
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(problems) }
}
