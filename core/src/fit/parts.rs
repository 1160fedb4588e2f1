//! The solids of a setup, placed in the leg frame.

use super::frame::{CaliperFrame, dropout_plane, rotor_plane, tab_plane};
use crate::setup::{MatingFace, Mount, Setup};
use crate::solid::{Disc, Slab, Solid, Spool, Vector};
use crate::tolerance::AT_THE_LIMIT;

/// Length of tube that is looked at, mm from its lower end.
pub const TUBE_LENGTH: f64 = 300.0;
/// Length of line that is looked at, mm from its exit.
pub const BOOT_LENGTH: f64 = 30.0;
/// The tab's web takes its lower hold on the plate's eye at this share of the eye's radius.
const WEB_ROOT_SHARE: f64 = 0.8;

/// A named solid.
#[derive(Clone, Debug)]
pub struct Part {
    /// What a builder calls it.
    pub name: String,
    /// Its shape.
    pub solid: Solid,
}

impl Part {
    fn new(name: &str, solid: impl Into<Solid>) -> Self {
        Self { name: name.to_owned(), solid: solid.into() }
    }
}

/// One solid of a setup, by its place in [`Parts`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Piece {
    /// The rotor.
    Rotor,
    /// The fork tube.
    Tube,
    /// Axle nut or skewer end.
    Nut,
    /// The spokes.
    Spokes,
    /// The dropout's eye.
    Eye,
    /// The dropout's neck.
    Neck,
    /// The hull of the tab's hole lands.
    Lands,
    /// What joins the lands to the dropout.
    Web,
    /// A body of the caliper, by its index.
    Body(usize),
    /// Room for the key on a bolt, by its index.
    Tool(usize),
    /// The first stretch of the line.
    Line,
}

/// Every solid of a setup.
///
/// A group holds the pieces that stand for one thing; a gap to the group is the gap to its nearest piece.
#[derive(Clone, Debug)]
pub struct Parts {
    /// The rotor.
    pub rotor: Part,
    /// The fork tube.
    pub tube: Part,
    /// Axle nut or skewer end.
    pub nut: Part,
    /// The spokes, as one cone.
    pub spokes: Part,
    /// The dropout's eye.
    pub eye: Part,
    /// The dropout's neck.
    pub neck: Part,
    /// The hull of the two hole lands; none with posts.
    pub lands: Option<Part>,
    /// What joins the lands to the dropout; none with posts.
    pub web: Option<Part>,
    /// Every caliper body.
    pub caliper: Vec<Part>,
    /// Room for the key on each caliper bolt.
    pub tools: Vec<Part>,
    /// The first stretch of the line.
    pub line: Part,
}

impl Parts {
    /// Builds every solid of a setup.
    pub fn of(setup: &Setup) -> Self {
        let frame = CaliperFrame::of(setup);
        let lands = lands(setup, &frame);
        let web = lands.as_ref().map(|_| web(setup, &frame));
        Self {
            rotor: rotor(setup),
            tube: tube(setup),
            nut: nut(setup),
            spokes: spokes(setup),
            eye: eye(setup),
            neck: neck(setup),
            lands,
            web,
            caliper: setup.caliper.bodies.iter().map(|body| caliper_body(setup, &frame, body)).collect(),
            tools: tools(setup, &frame),
            line: line(setup, &frame),
        }
    }

    /// One of the solids; none where the setup has no such piece.
    pub fn get(&self, piece: Piece) -> Option<&Part> {
        match piece {
            Piece::Rotor => Some(&self.rotor),
            Piece::Tube => Some(&self.tube),
            Piece::Nut => Some(&self.nut),
            Piece::Spokes => Some(&self.spokes),
            Piece::Eye => Some(&self.eye),
            Piece::Neck => Some(&self.neck),
            Piece::Lands => self.lands.as_ref(),
            Piece::Web => self.web.as_ref(),
            Piece::Body(index) => self.caliper.get(index),
            Piece::Tool(index) => self.tools.get(index),
            Piece::Line => Some(&self.line),
        }
    }
}

fn slab(discs: Vec<Disc>, low: f64, thickness: f64) -> Slab {
    Slab { discs, low, high: low + thickness }
}

fn rotor(setup: &Setup) -> Part {
    let wheel = &setup.wheel;
    let disc = Disc::new(0.0, 0.0, wheel.rotor_diameter / 2.0);
    Part::new("rotor", slab(vec![disc], rotor_plane(setup) - wheel.rotor_thickness / 2.0, wheel.rotor_thickness))
}

fn tube(setup: &Setup) -> Part {
    let fork = &setup.fork;
    let radius = fork.tube_diameter / 2.0;
    let start = Vector::new(fork.axle_offset, fork.tube_end, fork.tube_gap / 2.0 + radius);
    Part::new("tube", Spool::cylinder(start, Vector::Y, TUBE_LENGTH, radius))
}

fn nut(setup: &Setup) -> Part {
    let disc = Disc::new(0.0, 0.0, setup.wheel.nut_diameter / 2.0);
    Part::new("nut", slab(vec![disc], dropout_plane(setup) + setup.dropout.thickness, setup.wheel.nut_height))
}

fn spokes(setup: &Setup) -> Part {
    let wheel = &setup.wheel;
    let flange = Vector::new(0.0, 0.0, wheel.hub_width / 2.0 - wheel.flange_inset);
    let radii = [wheel.flange_diameter / 2.0, wheel.rim_diameter / 2.0];
    Part::new("spokes", Spool { ends: [flange, Vector::ZERO], axis: Vector::Z, radii })
}

fn eye(setup: &Setup) -> Part {
    let disc = Disc::new(0.0, 0.0, setup.dropout.eye_radius);
    Part::new("dropout eye", slab(vec![disc], dropout_plane(setup), setup.dropout.thickness))
}

/// The disc that rounds off the upper end of the neck, on the tube's centre line.
pub fn neck_top(setup: &Setup) -> Disc {
    let radius = setup.dropout.neck_width / 2.0;
    Disc::new(setup.fork.axle_offset, setup.fork.tube_end + setup.dropout.weld_length - radius, radius)
}

fn neck(setup: &Setup) -> Part {
    let discs = vec![Disc::new(0.0, 0.0, setup.dropout.neck_width / 2.0), neck_top(setup)];
    Part::new("dropout neck", slab(discs, dropout_plane(setup), setup.dropout.thickness))
}

fn land_discs(setup: &Setup, frame: &CaliperFrame) -> [Disc; 2] {
    setup.caliper.holes.map(|hole| frame.disc(hole, setup.tab.edge))
}

fn lands(setup: &Setup, frame: &CaliperFrame) -> Option<Part> {
    let discs = land_discs(setup, frame).to_vec();
    let part = || Part::new("tab", slab(discs, tab_plane(setup), setup.dropout.thickness));
    (setup.caliper.mount == Mount::SideLug).then(part)
}

/// The two discs of the dropout that the tab's web may run to.
pub(crate) fn web_roots(setup: &Setup) -> [Disc; 2] {
    [neck_top(setup), Disc::new(0.0, 0.0, WEB_ROOT_SHARE * setup.dropout.eye_radius)]
}

/// Every web there could be, as land and root; [`real_web`] tells which is there.
pub(crate) fn web_choices([first, second]: [Disc; 2], [neck, eye]: [Disc; 2]) -> [[Disc; 2]; 4] {
    [[first, neck], [first, eye], [second, neck], [second, eye]]
}

/// Which of the webs there could be is the real one: that whose centres are nearest; of equals the one whose land is nearer
/// to the neck, then the one further ahead.
///
/// Lands that lie alike to the axle, as most do, are as far from its eye: neither rounding nor the order in which the holes
/// are listed may choose between them.
pub(crate) fn real_web(choices: &[[Disc; 2]; 4]) -> usize {
    let neck = choices[0][1];
    let mut left = [true; 4];
    let mut keep_least = |values: [f64; 4]| {
        let least = values.iter().zip(left).filter(|(_, left)| *left).map(|(value, _)| *value).fold(f64::MAX, f64::min);
        left.iter_mut().zip(values).for_each(|(left, value)| *left &= value <= least + AT_THE_LIMIT);
    };
    keep_least(choices.map(|[land, root]| land.centre_distance(&root)));
    keep_least(choices.map(|[land, _]| land.centre_distance(&neck)));
    keep_least(choices.map(|[land, _]| land.back));
    left.iter().position(|left| *left).unwrap_or_default()
}

/// The hull of one land and one disc of the dropout.
fn web(setup: &Setup, frame: &CaliperFrame) -> Part {
    let choices = web_choices(land_discs(setup, frame), web_roots(setup));
    Part::new("tab web", slab(choices[real_web(&choices)].to_vec(), tab_plane(setup), setup.dropout.thickness))
}

fn caliper_body(setup: &Setup, frame: &CaliperFrame, body: &crate::setup::Body) -> Part {
    let discs = body.outline.iter().map(|&corner| frame.disc(corner, 0.0)).collect();
    let slot = rotor_plane(setup);
    Part::new(&body.name, Slab { discs, low: slot - body.inboard, high: slot + body.outboard })
}

/// Room for the key on each bolt, from the face the bolt's head sits on and away from the caliper.
///
/// A side lug's bolts come through the tab from the face that the caliper is not on. A post's bolts come through the
/// caliper, so the room starts at the post's face.
fn tools(setup: &Setup, frame: &CaliperFrame) -> Vec<Part> {
    let (caliper, thickness) = (&setup.caliper, setup.dropout.thickness);
    let bolt = &caliper.bolt;
    let place = |hole: [f64; 2]| match (caliper.mount, caliper.bolt_direction) {
        (Mount::Post, Some(direction)) => {
            let start = frame.point([hole[0], hole[1], caliper.mount_depth]);
            (start, -frame.direction(direction).normalize())
        }
        _ => {
            let disc = frame.disc(hole, 0.0);
            let (out, axis) = match caliper.mating_face {
                MatingFace::Inner => (tab_plane(setup) + thickness, Vector::Z),
                MatingFace::Outer => (tab_plane(setup), -Vector::Z),
            };
            (Vector::new(disc.back, disc.up, out), axis)
        }
    };
    let tool = |hole| {
        let (start, axis) = place(hole);
        Part::new("tool", Spool::cylinder(start, axis, bolt.tool_length, bolt.tool_diameter / 2.0))
    };
    caliper.holes.iter().map(|&hole| tool(hole)).collect()
}

fn line(setup: &Setup, frame: &CaliperFrame) -> Part {
    let line = &setup.caliper.line;
    let axis = frame.direction(line.direction).normalize();
    Part::new("line", Spool::cylinder(frame.point(line.exit), axis, BOOT_LENGTH, line.diameter / 2.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// By hand, on the default setup: the hole at the tube's side is nearest to the neck's upper end (0, 87); on a short
    /// lap it would be nearest to the eye.
    #[test]
    fn the_web_runs_from_the_nearer_land_to_the_nearer_end_of_the_dropout() {
        let discs = |setup: &Setup| match web(setup, &CaliperFrame::of(setup)).solid {
            Solid::Slab(slab) => slab.discs,
            Solid::Spool(_) => Vec::new(),
        };
        let mut setup = Setup::default();
        let [land, root] = discs(&setup)[..] else { unreachable!("a web is the hull of two discs") };
        assert_eq!(root, Disc::new(0.0, 87.0, 13.0));
        assert!((land.back - 33.351952).abs() < 1e-6 && (land.up - 117.042288).abs() < 1e-6 && land.radius == 9.0);
        setup.tab.clock = 170.0;
        let [_, root] = discs(&setup)[..] else { unreachable!("a web is the hull of two discs") };
        assert_eq!(root, Disc::new(0.0, 0.0, 16.0));
    }
}
