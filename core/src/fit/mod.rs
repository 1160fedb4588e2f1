//! One setup: where everything lies, what touches what, and the verdict.

mod clearance;
mod coverage;
mod frame;
mod holes;
mod judgement;
mod lateral;
mod line;
mod parts;
mod removal;
mod report;
mod sentences;

pub(crate) use clearance::{Check, checks, throat};
pub use clearance::{Pair, PairName, Verdict, binding, clearances, hole_centres};
pub(crate) use coverage::turned_cover;
pub use coverage::{PadCover, pad_cover};
pub use frame::{CaliperFrame, dropout_plane, pad_radius, radial, rotor_plane, tab_plane, tangential};
pub use holes::{Hole, Holes, Posts, holes, posts};
pub(crate) use judgement::{Judgement, is_buildable, judge, judge_from};
pub use lateral::{Joint, Lateral, Recess, lateral, recess};
pub(crate) use line::UP_THE_LEG;
pub use line::{LineRun, Run, line_run};
pub use parts::{BOOT_LENGTH, Part, Parts, Piece, TUBE_LENGTH, neck_top};
pub(crate) use parts::{real_web, web_choices, web_roots};
pub use removal::{WheelRemoval, bridge_radius, wheel_removal};
pub(crate) use removal::{bridge_span, passage};
pub use report::{
    LateralReport, LineReport, Outcome, PadReport, PairReport, RecessReport, RemovalReport, Report, report,
};
pub(crate) use report::{no_gap, report_on};
