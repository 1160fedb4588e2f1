//! From numbers to steel: the outline that is cut, the holes, and the files that a shop or a machine reads.
//!
//! Outlines are lines and true arcs throughout. Union and offset are the kept library's; areas, gaps, narrow places and
//! everything written are worked out here.

#[cfg(test)]
mod brute_force;
mod cutting_svg;
mod draw;
mod dxf;
mod gaps;
mod hole_table;
mod layout;
mod library;
mod notes;
mod options;
mod outline;
mod path;
mod pieces;
mod region;
mod sections;
mod sheet;
mod slot;
mod svg_text;
mod tables;
mod template;
mod title_block;

pub use gaps::{CutGap, gaps_as_cut};
pub use hole_table::{Dimension, HoleEntry, PostLayout};
pub use notes::WeldNotes;
pub use options::{CutOptions, Paper};
pub(crate) use outline::in_one_plane;
pub use outline::{Filleted, fillets, inner_corners, plate_region};
pub use path::{Corner, Outline, Segment};
pub use pieces::{Joining, Piece, PieceKey, Pieces, RoundHole, joining, pieces};
pub use region::Region;
pub use sections::Section;
pub use sheet::{
    CutFile, CutSheet, FILE_KINDS, HoleFitReport, MetalReport, PieceReport, TolerancesReport, cut_file, cut_sheet,
    cut_template,
};
pub use tables::{
    CLEARANCE_HOLES, HoleRow, ToleranceRow, clearance_hole, coarse_pitch, density, general_tolerance, nominal_diameter,
    tap_drill, tolerance_rows,
};
pub use template::{Place, Template, TemplatePage};
