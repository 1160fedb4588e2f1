//! Every tolerance and iteration cap, with its unit and reason.

/// A gap is accepted when its upper and lower bounds agree to this, mm: a hundredth of what the page shows at its
/// finest, ten times finer than the accuracy promised.
pub const CERTIFIED_GAP: f64 = 1e-3;

/// Gaps this close to a limit count as having reached it, mm: far below anything that can be cut, far above rounding.
pub const AT_THE_LIMIT: f64 = 1e-6;

/// Directions tried at the start of a search for the one that parts two solids furthest: neighbours are about 4° apart.
pub(crate) const PARTING_DIRECTIONS: u32 = 2562;

/// That search goes on from so many of the best of them: an overlap can have several ways out.
pub(crate) const PARTING_STARTS: usize = 8;

/// Cosine of the angle within which two of them belong to one way out: 10°.
pub(crate) const PARTING_NEIGHBOUR: f64 = 0.985;

/// It looks this far to each side, rad: somewhat further than the directions tried are apart.
pub(crate) const PARTING_WINDOW: f64 = 0.1;

/// It ends after so many windows; what it has by then is a lower bound of the gap.
pub(crate) const PARTING_MOST_WINDOWS: u32 = 10;

/// Golden sections of a window, each way, to 1e-9 rad: over parts of 300 mm that moves a gap by less than 1e-6 mm.
pub(crate) const PARTING_SECTIONS: u32 = 38;

/// A part of a direction shorter than this has none of its own: dividing by it could overflow, and what it stands for
/// moves no point by more than rounding does.
pub(crate) const NO_DIRECTION: f64 = 1e-100;

/// Edges of stretches of clock angles are found to this, degrees: a seventieth of a millimetre at the caliper.
pub const CLOCK_EDGE: f64 = 0.01;

/// Width of the intervals a search over clock angles starts from, degrees.
pub(crate) const CLOCK_FIRST_LOOK: f64 = 15.0;

/// Clock angles are sampled this closely to tell which pair binds and where there is most room, degrees.
pub(crate) const CLOCK_SAMPLE: f64 = 3.0;

/// A tube end is found to this, mm: a tenth of what is asked of the shortest dropout.
pub(crate) const TUBE_END_BRACKET: f64 = 1e-3;

/// Where neck and web stand in the way, tube ends are tried this closely at least, mm; a place that opens and closes
/// again over a shorter slide can be missed.
pub(crate) const TUBE_END_STEP: f64 = 0.5;

/// Where two rotors share a tab, their margins are compared this closely, degrees.
pub(crate) const CLOCK_LOOK: f64 = 0.5;

/// Cosine of the angle within which an edge's own normal is tried for one found by iteration.
pub(crate) const NEARLY_ALONG: f64 = 0.999;

/// A direction whose part square to an axis is a smaller share of it than this runs along the axis: half the digits of a
/// number, so that neither the part left out nor the rounding in the part kept moves a point by more than 1e-8 of a radius.
pub(crate) const SQUARE_TO_AXIS: f64 = 1e-8;

/// Corners of an outline closer than this are one corner, mm: a thousandth of what the finest machine cuts to.
pub(crate) const OUTLINE_POINT: f64 = 1e-6;

/// A loop with less area than this is rounding between two edges that touch, mm².
pub(crate) const OUTLINE_SPECK: f64 = 1e-3;

/// A fillet counts as having its radius when it is this near, mm: a hundredth of what files are checked to.
pub(crate) const FILLET_RADIUS: f64 = 1e-5;

/// Two edges that turn by less than this at a corner run on without one, rad: over an edge of 100 mm it is a hundredth of
/// a millimetre.
pub(crate) const NO_CORNER: f64 = 1e-4;

/// Outlines are sampled this closely before a search narrows down, mm.
pub(crate) const OUTLINE_STEP: f64 = 1.0;
