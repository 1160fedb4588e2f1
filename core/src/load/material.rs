//! What the plate's material bears.

use crate::setup::{Material, Setup};

/// Strength and stiffness of a plate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strength {
    /// Yield strength, MPa.
    pub yield_strength: f64,
    /// Tensile strength, MPa.
    pub tensile_strength: f64,
    /// Young's modulus, MPa.
    pub young: f64,
    /// Shear modulus, MPa.
    pub shear: f64,
    /// Correlation factor of fillet welds, EN 1993-1-8 table 4.1.
    pub correlation: f64,
    /// What it is, in words.
    pub name: &'static str,
    /// Where the strength comes from.
    pub source: &'static str,
}

/// Moduli of steel, MPa: 4130 normalised, asm.matweb.com bassnum=m4130r; other steels differ by less than 3 per cent.
const STEEL: [f64; 2] = [205_000.0, 80_000.0];
/// Moduli of stainless 304, MPa: from memory.
const STAINLESS: [f64; 2] = [193_000.0, 77_000.0];
/// Moduli of aluminium, MPa: EN 1999-1-1, from memory.
const ALUMINIUM: [f64; 2] = [70_000.0, 27_000.0];
/// S235JR loses 10 MPa of yield above this thickness, mm: EN 10025-2 table 7.
const S235_THIN: f64 = 16.0;

/// The strength of a setup's plate.
///
/// Aluminium counts with what the weld's heat leaves of it, everywhere: no part of so small a plate is far from a weld.
pub fn strength(setup: &Setup) -> Strength {
    let load = &setup.load;
    let row = |name, strengths: [f64; 2], moduli: [f64; 2], correlation, source| Strength {
        yield_strength: strengths[0],
        tensile_strength: strengths[1],
        young: moduli[0],
        shear: moduli[1],
        correlation,
        name,
        source,
    };
    match load.material {
        Material::MildSteel => {
            let yield_strength = if setup.dropout.thickness <= S235_THIN { 235.0 } else { 225.0 };
            row("mild steel S235", [yield_strength, 360.0], STEEL, 0.8, "EN 10025-2 table 7")
        }
        Material::A36 => row("A36", [250.0, 400.0], STEEL, 0.85, "ASTM A36, least values"),
        Material::ColdDrawn1018 => row(
            "1018 cold drawn",
            [370.0, 440.0],
            STEEL,
            0.9,
            "iforgeiron.com topic 59790; beside a weld it falls to 1018 hot rolled",
        ),
        Material::HotRolled1018 => row("1018 hot rolled", [221.0, 400.0], STEEL, 0.85, "capitalsteel.net 1018-vs-1020"),
        Material::CrMo4130 => row(
            "4130 normalised",
            [435.0, 670.0],
            STEEL,
            1.0,
            "asm.matweb.com bassnum=m4130r, bar normalised at 870 °C",
        ),
        Material::Stainless304 => {
            row("stainless 304", [205.0, 515.0], STAINLESS, 1.0, "ASTM A240, from memory; correlation by EN 1993-1-4")
        }
        Material::Aluminium6061 => row(
            "6061-T6 beside a weld",
            [115.0, 175.0],
            ALUMINIUM,
            1.0,
            "EN 1999-1-1 table 3.2, heat-affected values, from memory: 240 and 290 MPa away from welds",
        ),
        Material::Own => {
            let correlation = match load.tensile_strength {
                low if low <= 360.0 => 0.8,
                middle if middle <= 430.0 => 0.85,
                high if high <= 510.0 => 0.9,
                _ => 1.0,
            };
            // A material breaks no sooner than it yields.
            let least = load.yield_strength.min(load.tensile_strength);
            row(
                "your material",
                [least, load.tensile_strength],
                STEEL,
                correlation,
                "your own numbers; stiffness of steel",
            )
        }
    }
}
