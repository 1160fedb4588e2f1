//! Wheel sizes by their ISO 5775 designation.

use crate::plain::plain;
use crate::setup::{Problem, TestWheel};

/// Bead seats of the sizes that the brake test lists, mm: ISO 5775, from memory.
const LISTED: [(f64, TestWheel); 4] =
    [(507.0, TestWheel::Inch24), (559.0, TestWheel::Inch26), (584.0, TestWheel::Inch27), (622.0, TestWheel::Inch29)];
/// Tyres narrower than this stand higher than they are wide, mm: summary of ISO 5775-1.
const NARROW: f64 = 28.0;
/// By this much, mm: summary of ISO 5775-1.
const NARROW_RISE: f64 = 2.5;
/// Section widths that a designation can have, mm.
const WIDTHS: [f64; 2] = [15.0, 130.0];
/// Bead seat diameters that a designation can have, mm.
const BEAD_SEATS: [f64; 2] = [150.0, 700.0];

/// What a designation tells.
#[derive(Clone, Debug, PartialEq)]
pub struct WheelSize {
    /// Section width, mm.
    pub width: f64,
    /// Bead seat diameter, mm.
    pub bead_seat: f64,
    /// Nominal outside diameter of the tyre, mm.
    pub diameter: f64,
    /// Half of it, mm. Under a rider a tyre stands some millimetres lower.
    pub radius: f64,
    /// The size in the brake test's list, `by_radius` where it is not listed.
    pub wheel: TestWheel,
}

plain!(WheelSize { width, bead_seat, diameter, radius, wheel });

/// Reads a designation such as `47-559`: width and bead seat diameter in mm.
///
/// Nominal diameter = bead seat + 2 · height, where the height is the width, and 2.5 mm more below 28 mm: summary of
/// ISO 5775-1.
///
/// # Errors
/// Text that is no such designation, or one whose numbers no tyre has.
///
/// ```
/// use tabwright_core::load::wheel_size;
/// assert_eq!(wheel_size("37-622").unwrap().radius, 348.0);
/// assert_eq!(wheel_size("25-622").unwrap().diameter, 677.0);
/// assert!(wheel_size("26 x 2.1").is_err());
/// ```
pub fn wheel_size(text: &str) -> Result<WheelSize, Vec<Problem>> {
    let problem = || {
        let value: String = text.chars().take(40).collect();
        let message = "Give the size as it stands on the tyre's side: width and bead seat in mm, from 15-150 to 130-700, such as 47-559.";
        vec![Problem { field: "wheel_size".to_owned(), value, message: message.to_owned() }]
    };
    let (width, bead_seat) = text.split_once(['-', '–', '‑', '−']).ok_or_else(problem)?;
    let number = |text: &str, [low, high]: [f64; 2]| {
        let text = text.trim();
        let digits = (1..=3).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit());
        let value = f64::from(text.parse::<u16>().ok().filter(|_| digits)?);
        (low <= value && value <= high).then_some(value)
    };
    let width = number(width, WIDTHS).ok_or_else(problem)?;
    let bead_seat = number(bead_seat, BEAD_SEATS).ok_or_else(problem)?;
    let height = if width < NARROW { width + NARROW_RISE } else { width };
    let diameter = bead_seat + 2.0 * height;
    let listed = LISTED.iter().find(|(seat, _)| *seat == bead_seat);
    Ok(WheelSize {
        width,
        bead_seat,
        diameter,
        radius: diameter / 2.0,
        wheel: listed.map_or(TestWheel::ByRadius, |(_, wheel)| *wheel),
    })
}
