//! Every pair that must keep apart, and the verdict on each.

use super::frame::{CaliperFrame, radial, rotor_plane};
use super::lateral::recess;
use super::parts::{Parts, Piece};
use super::removal::bridge_radius;
use crate::plain::plain;
use crate::setup::{Mount, Setup};
use crate::solid::{Method, NotConverged, Vector, gap};
use crate::tolerance::AT_THE_LIMIT;

/// The verdict on a gap, from best to worst.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// The gap is at least what is wanted.
    Clears,
    /// Nothing touches by more than a hair, but the gap is smaller than wanted.
    Tight,
    /// The two overlap.
    Hits,
}

plain!(Verdict: Clears = "clears", Tight = "tight", Hits = "hits");

impl Verdict {
    /// The verdict on a gap where `required` is wanted, mm.
    pub fn of(gap: f64, required: f64) -> Self {
        if gap < -AT_THE_LIMIT {
            Verdict::Hits
        } else if gap < required - AT_THE_LIMIT {
            Verdict::Tight
        } else {
            Verdict::Clears
        }
    }
}

/// The pairs that are checked, in the order they are reported.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PairName {
    /// Hole lands to tube, where the tab reaches into the tube's width.
    TabTube,
    /// Any caliper body to the tube.
    CaliperTube,
    /// Caliper bodies that are not bolted flat, to dropout and tab.
    CaliperPlate,
    /// Any caliper body to the spokes.
    CaliperSpokes,
    /// Any caliper body to nut or skewer.
    CaliperNut,
    /// The rotor's edge to the inside of the bridge.
    RotorThroat,
    /// Rotor to tube.
    RotorTube,
    /// Rotor to dropout and tab.
    RotorPlate,
    /// Nut or skewer to tube.
    NutTube,
    /// Key or socket to tube.
    ToolTube,
    /// Line to tube.
    LineTube,
    /// Line to rotor.
    LineRotor,
    /// Line to spokes.
    LineSpokes,
}

impl PairName {
    /// Stable key, such as `caliper/tube`.
    pub const fn key(self) -> &'static str {
        match self {
            PairName::TabTube => "tab/tube",
            PairName::CaliperTube => "caliper/tube",
            PairName::CaliperPlate => "caliper/plate",
            PairName::CaliperSpokes => "caliper/spokes",
            PairName::CaliperNut => "caliper/nut",
            PairName::RotorThroat => "rotor/throat",
            PairName::RotorTube => "rotor/tube",
            PairName::RotorPlate => "rotor/plate",
            PairName::NutTube => "nut/tube",
            PairName::ToolTube => "tool/tube",
            PairName::LineTube => "line/tube",
            PairName::LineRotor => "line/rotor",
            PairName::LineSpokes => "line/spokes",
        }
    }

    /// In words, such as `caliper to tube`.
    pub fn label(self) -> String {
        match self {
            PairName::RotorThroat => "rotor to caliper bridge".to_owned(),
            other => other.key().replace('/', " to "),
        }
    }

    /// The smallest gap the builder accepts for this pair, mm.
    pub fn required(self, setup: &Setup) -> f64 {
        let required = &setup.required;
        match self {
            PairName::TabTube | PairName::CaliperTube => required.tube,
            PairName::CaliperPlate => required.plate,
            PairName::CaliperSpokes => required.spokes,
            PairName::CaliperNut | PairName::NutTube => required.nut,
            PairName::RotorThroat | PairName::RotorTube | PairName::RotorPlate => required.rotor,
            PairName::ToolTube => required.tool,
            PairName::LineTube | PairName::LineRotor | PairName::LineSpokes => required.line,
        }
    }
}

/// One pair with its gap.
#[derive(Clone, Debug, PartialEq)]
pub struct Pair {
    /// Which pair.
    pub name: PairName,
    /// The pieces that are nearest to each other.
    pub parts: [String; 2],
    /// Signed gap, mm.
    pub gap: f64,
    /// The gap wanted, mm.
    pub required: f64,
    /// The two nearest points, in the leg frame.
    pub points: [Vector; 2],
    /// How the gap was found.
    pub method: Method,
}

impl Pair {
    /// Gap beyond what is wanted, mm.
    pub fn margin(&self) -> f64 {
        self.gap - self.required
    }

    /// The verdict on this pair.
    pub fn verdict(&self) -> Verdict {
        Verdict::of(self.gap, self.required)
    }
}

/// Two pieces that must keep apart, and the pair they count towards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Check {
    pub(crate) name: PairName,
    pub(crate) pieces: [Piece; 2],
}

/// Everything that must keep apart, in the order of [`PairName`]; the throat, which is no pair of solids, not included.
///
/// A lap joint touches by design, so tab and tube are a pair only where the tab's outer face reaches beyond the tube's
/// inner side; posts have no flat tab.
pub(crate) fn checks(setup: &Setup) -> Vec<Check> {
    let has_tab = setup.caliper.mount == Mount::SideLug;
    let bodies = || setup.caliper.bodies.iter().enumerate();
    let all: Vec<Piece> = bodies().map(|(index, _)| Piece::Body(index)).collect();
    let unbolted: Vec<Piece> = bodies().filter(|(_, body)| !body.bolted).map(|(index, _)| Piece::Body(index)).collect();
    let plate: &[Piece] =
        if has_tab { &[Piece::Eye, Piece::Neck, Piece::Lands, Piece::Web] } else { &[Piece::Eye, Piece::Neck] };
    let beside_tube = has_tab && recess(setup).value + setup.tab.offset > AT_THE_LIMIT;
    let groups: [(PairName, &[Piece], &[Piece]); 12] = [
        (PairName::TabTube, if beside_tube { &[Piece::Lands] } else { &[] }, &[Piece::Tube]),
        (PairName::CaliperTube, &all, &[Piece::Tube]),
        (PairName::CaliperPlate, &unbolted, plate),
        (PairName::CaliperSpokes, &all, &[Piece::Spokes]),
        (PairName::CaliperNut, &all, &[Piece::Nut]),
        (PairName::RotorTube, &[Piece::Rotor], &[Piece::Tube]),
        (PairName::RotorPlate, &[Piece::Rotor], plate),
        (PairName::NutTube, &[Piece::Nut], &[Piece::Tube]),
        (PairName::ToolTube, &[Piece::Tool(0), Piece::Tool(1)], &[Piece::Tube]),
        (PairName::LineTube, &[Piece::Line], &[Piece::Tube]),
        (PairName::LineRotor, &[Piece::Line], &[Piece::Rotor]),
        (PairName::LineSpokes, &[Piece::Line], &[Piece::Spokes]),
    ];
    let mut checks = Vec::with_capacity(all.len() * 7 + 16);
    for (name, group, others) in groups {
        for &first in group {
            checks.extend(others.iter().map(|&second| Check { name, pieces: [first, second] }));
        }
    }
    checks
}

/// The gaps of every pair that a setup has, in the order of [`PairName`].
///
/// # Errors
/// [`NotConverged`] where a gap could not be found; see [`gap`].
pub fn clearances(setup: &Setup, parts: &Parts) -> Result<Vec<Pair>, NotConverged> {
    clearances_of(setup, parts, checks(setup))
}

/// As [`clearances`], of some of a setup's checks only, and of the caliper's throat.
pub(crate) fn clearances_of(
    setup: &Setup,
    parts: &Parts,
    checks: impl IntoIterator<Item = Check>,
) -> Result<Vec<Pair>, NotConverged> {
    let mut pairs = vec![throat(setup)];
    for Check { name, pieces } in checks {
        let [Some(first), Some(second)] = pieces.map(|piece| parts.get(piece)) else {
            continue;
        };
        let gap = gap(&first.solid, &second.solid)?;
        let at = pairs.partition_point(|pair| pair.name < name);
        let found = pairs.get_mut(at).filter(|pair| pair.name == name);
        if found.as_ref().is_some_and(|pair| pair.gap <= gap.distance) {
            continue;
        }
        let pair = Pair {
            name,
            parts: [first.name.clone(), second.name.clone()],
            gap: gap.distance,
            required: name.required(setup),
            points: gap.points,
            method: gap.method,
        };
        match found {
            Some(found) => *found = pair,
            None => pairs.insert(at, pair),
        }
    }
    Ok(pairs)
}

/// The rotor's edge against the inside of the bridge, on the radius through the pads' middle.
pub(crate) fn throat(setup: &Setup) -> Pair {
    let (edge, bridge) = (setup.wheel.rotor_diameter / 2.0, bridge_radius(setup));
    let at = |radius: f64| radial(setup.tab.clock) * radius + Vector::Z * rotor_plane(setup);
    Pair {
        name: PairName::RotorThroat,
        parts: ["rotor".to_owned(), "bridge of the caliper".to_owned()],
        gap: bridge - edge,
        required: PairName::RotorThroat.required(setup),
        points: [at(edge), at(bridge)],
        method: Method::Exact,
    }
}

/// The pair that decides: the worst verdict, and among equals the smallest margin.
pub fn binding(pairs: &[Pair]) -> Option<&Pair> {
    pairs.iter().min_by(|a, b| b.verdict().cmp(&a.verdict()).then(a.margin().total_cmp(&b.margin())))
}

/// Centres of the two caliper holes in the leg frame, `[back, up]` each, mm.
pub fn hole_centres(setup: &Setup) -> [[f64; 2]; 2] {
    let frame = CaliperFrame::of(setup);
    setup.caliper.holes.map(|hole| {
        let disc = frame.disc(hole, 0.0);
        [disc.back, disc.up]
    })
}
