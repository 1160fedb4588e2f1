//! General tolerances of drawings and of welded constructions.

use crate::plain::plain;

/// One class of a standard and what it gives for the size at hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ClassRow {
    /// The standard.
    pub standard: &'static str,
    /// Its class.
    pub class: &'static str,
    /// ±, mm or degrees.
    pub tolerance: f64,
}

plain!(ClassRow { standard, class, tolerance });

/// A class: its name and one tolerance for each range of sizes; none where the standard leaves it open.
type Class<const N: usize> = (&'static str, [Option<f64>; N]);

const ISO_2768: &str = "ISO 2768-1";
/// Ranges end at these sizes, mm; they begin above [`LEAST_2768`].
const ENDS_2768: [f64; 6] = [3.0, 6.0, 30.0, 120.0, 400.0, 1000.0];
const LEAST_2768: f64 = 0.5;
/// ISO 2768-1:1989, table 1, from a copy of DIN ISO 2768-1; c of the two smallest ranges from memory.
const CLASSES_2768: [Class<6>; 4] = [
    ("f", [Some(0.05), Some(0.05), Some(0.1), Some(0.15), Some(0.2), Some(0.3)]),
    ("m", [Some(0.1), Some(0.1), Some(0.2), Some(0.3), Some(0.5), Some(0.8)]),
    ("c", [Some(0.2), Some(0.3), Some(0.5), Some(0.8), Some(1.2), Some(2.0)]),
    ("v", [None, Some(0.5), Some(1.0), Some(1.5), Some(2.5), Some(4.0)]),
];

const ISO_13920: &str = "ISO 13920";
const ENDS_13920: [f64; 5] = [30.0, 120.0, 400.0, 1000.0, 2000.0];
const LEAST_13920: f64 = 2.0;
/// ISO 13920, table 1, linear dimensions of welded constructions: modulusmetal.com's ISO 13920 page; that ±1 up to 30 mm
/// is one cell for all classes is from memory.
const CLASSES_13920: [Class<5>; 4] = [
    ("A", [Some(1.0), Some(1.0), Some(1.0), Some(2.0), Some(3.0)]),
    ("B", [Some(1.0), Some(2.0), Some(2.0), Some(3.0), Some(4.0)]),
    ("C", [Some(1.0), Some(3.0), Some(4.0), Some(6.0), Some(8.0)]),
    ("D", [Some(1.0), Some(4.0), Some(7.0), Some(9.0), Some(12.0)]),
];

/// The shorter leg of the angle ends the range at these lengths, mm.
const ENDS_ANGULAR: [f64; 3] = [400.0, 1000.0, f64::INFINITY];
/// ISO 13920, table 2, in minutes of arc: modulusmetal.com's ISO 13920 page.
const CLASSES_ANGULAR: [Class<3>; 4] = [
    ("A", [Some(20.0), Some(15.0), Some(10.0)]),
    ("B", [Some(45.0), Some(30.0), Some(20.0)]),
    ("C", [Some(60.0), Some(45.0), Some(30.0)]),
    ("D", [Some(90.0), Some(75.0), Some(60.0)]),
];

const ENDS_FLATNESS: [f64; 3] = [120.0, 400.0, 1000.0];
const LEAST_FLATNESS: f64 = 30.0;
/// ISO 13920, table 3, straightness, flatness and parallelism: modulusmetal.com's ISO 13920 page.
const CLASSES_FLATNESS: [Class<3>; 2] =
    [("E", [Some(0.5), Some(1.0), Some(1.5)]), ("F", [Some(1.0), Some(1.5), Some(3.0)])];

/// A size that ends a range belongs to it.
fn rows<const N: usize>(
    standard: &'static str,
    classes: &'static [Class<N>],
    least: f64,
    ends: [f64; N],
    size: f64,
) -> Vec<ClassRow> {
    let Some(range) = ends.iter().position(|end| size <= *end).filter(|_| size >= least) else { return Vec::new() };
    let row = |(class, tolerances): &(&'static str, [Option<f64>; N])| {
        tolerances[range].map(|tolerance| ClassRow { standard, class, tolerance })
    };
    classes.iter().filter_map(row).collect()
}

/// ISO 2768-1, linear dimensions: ± mm for a size in mm; empty below 0.5 and above 1000 mm.
///
/// ```
/// use tabwright_core::build::iso_2768;
/// let medium = iso_2768(100.0)[1];
/// assert_eq!((medium.class, medium.tolerance), ("m", 0.3));
/// ```
pub fn iso_2768(size: f64) -> Vec<ClassRow> {
    rows(ISO_2768, &CLASSES_2768, LEAST_2768, ENDS_2768, size)
}

/// ISO 13920, linear dimensions of welded constructions: ± mm for a size in mm; empty below 2 and above 2000 mm.
pub fn iso_13920(size: f64) -> Vec<ClassRow> {
    rows(ISO_13920, &CLASSES_13920, LEAST_13920, ENDS_13920, size)
}

/// ISO 13920, angles of welded constructions: ± degrees for the angle's shorter leg in mm.
pub fn iso_13920_angle(shorter_leg: f64) -> Vec<ClassRow> {
    let mut rows = rows(ISO_13920, &CLASSES_ANGULAR, 0.0, ENDS_ANGULAR, shorter_leg);
    rows.iter_mut().for_each(|row| row.tolerance /= 60.0);
    rows
}

/// ISO 13920, flatness of welded constructions: mm over a length in mm; empty below 30 and above 1000 mm.
pub fn iso_13920_flatness(length: f64) -> Vec<ClassRow> {
    rows(ISO_13920, &CLASSES_FLATNESS, LEAST_FLATNESS, ENDS_FLATNESS, length)
}
