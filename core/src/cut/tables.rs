//! Published tables that the cut sheet reads from: holes for bolts, tap drills, general tolerances, densities.

use crate::plain::plain;
use crate::setup::{BoltSize, HoleFit, Material, ToleranceClass};

/// Clearance holes for one bolt size, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HoleRow {
    /// The thread.
    pub size: BoltSize,
    /// Close fit, H12.
    pub fine: f64,
    /// Medium fit, H13.
    pub medium: f64,
    /// Free fit, H14.
    pub coarse: f64,
}

plain!(HoleRow { size, fine, medium, coarse });

/// Clearance holes for bolts, ISO 273.
pub const CLEARANCE_HOLES: [HoleRow; 2] = [
    HoleRow { size: BoltSize::M5, fine: 5.3, medium: 5.5, coarse: 5.8 },
    HoleRow { size: BoltSize::M6, fine: 6.4, medium: 6.6, coarse: 7.0 },
];

/// Diameter of the clearance hole for a bolt, mm: ISO 273.
///
/// ```
/// use tabwright_core::{BoltSize, HoleFit, cut::clearance_hole};
/// assert_eq!(clearance_hole(BoltSize::M6, HoleFit::Medium), 6.6);
/// ```
pub fn clearance_hole(size: BoltSize, fit: HoleFit) -> f64 {
    let [m5, m6] = CLEARANCE_HOLES;
    let row = match size {
        BoltSize::M5 => m5,
        BoltSize::M6 => m6,
    };
    match fit {
        HoleFit::Fine => row.fine,
        HoleFit::Medium => row.medium,
        HoleFit::Coarse => row.coarse,
    }
}

/// Coarse pitch of a thread, mm: ISO 261, from memory.
pub fn coarse_pitch(size: BoltSize) -> f64 {
    match size {
        BoltSize::M5 => 0.8,
        BoltSize::M6 => 1.0,
    }
}

/// Nominal diameter of a thread, mm.
pub fn nominal_diameter(size: BoltSize) -> f64 {
    match size {
        BoltSize::M5 => 5.0,
        BoltSize::M6 => 6.0,
    }
}

/// Tap drill of a coarse thread, mm: nominal diameter less pitch, ISO 2306, from memory.
pub fn tap_drill(size: BoltSize) -> f64 {
    // In tenths, so that 5 − 0.8 is 4.2.
    ((nominal_diameter(size) - coarse_pitch(size)) * 10.0).round() / 10.0
}

/// One range of lengths with its tolerance.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ToleranceRow {
    /// From this length, mm; the first range includes it, the others start beyond it.
    pub from: f64,
    /// Up to and including this, mm.
    pub to: f64,
    /// ±, mm; none where the class has none for this range.
    pub plus_minus: Option<f64>,
}

plain!(ToleranceRow { from, to, plus_minus });

/// Lengths between which the tolerances change, mm: ISO 2768-1, table 1.
const LENGTHS: [f64; 7] = [0.5, 3.0, 6.0, 30.0, 120.0, 400.0, 1000.0];

/// Tolerances of linear sizes by class, ± mm; 0 stands for none given: ISO 2768-1, table 1.
fn linear(class: ToleranceClass) -> [f64; 6] {
    match class {
        ToleranceClass::Fine => [0.05, 0.05, 0.1, 0.15, 0.2, 0.3],
        ToleranceClass::Medium => [0.1, 0.1, 0.2, 0.3, 0.5, 0.8],
        ToleranceClass::Coarse => [0.2, 0.3, 0.5, 0.8, 1.2, 2.0],
        ToleranceClass::VeryCoarse => [0.0, 0.5, 1.0, 1.5, 2.5, 4.0],
    }
}

/// The general tolerances of a class, ISO 2768-1.
pub fn tolerance_rows(class: ToleranceClass) -> [ToleranceRow; 6] {
    let values = linear(class);
    std::array::from_fn(|index| ToleranceRow {
        from: LENGTHS[index],
        to: LENGTHS[index + 1],
        plus_minus: (values[index] > 0.0).then_some(values[index]),
    })
}

/// The general tolerance of a length, ± mm: ISO 2768-1; none below half a millimetre and where the class has none.
///
/// ```
/// use tabwright_core::{ToleranceClass, cut::general_tolerance};
/// assert_eq!(general_tolerance(51.0, ToleranceClass::Medium), Some(0.3));
/// ```
pub fn general_tolerance(length: f64, class: ToleranceClass) -> Option<f64> {
    let length = length.abs();
    let row = tolerance_rows(class).into_iter().find(|row| length <= row.to);
    row.filter(|_| length >= LENGTHS[0]).and_then(|row| row.plus_minus)
}

/// Density of a metal, g/cm³: common handbook values, from memory.
pub fn density(material: Material) -> f64 {
    match material {
        // Own values are taken for a steel's.
        Material::MildSteel
        | Material::CrMo4130
        | Material::A36
        | Material::ColdDrawn1018
        | Material::HotRolled1018
        | Material::Own => 7.85,
        Material::Stainless304 => 8.0,
        Material::Aluminium6061 => 2.70,
    }
}
