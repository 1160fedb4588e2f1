//! What is read on the tacked part, and again on the welded one.

use super::field::{Kind, Unit, range};
use super::group::group;

/// A distance that cannot be negative, read up to [`super::field::MOST_READINGS`] times.
const APART: Kind = Kind::Readings { hard: range(0.0, 500.0) };
/// A length that may run either way.
const EITHER_WAY: Kind = Kind::Readings { hard: range(-200.0, 500.0) };

/// The same readings under two paths.
macro_rules! readings {
    ($(#[$doc:meta])* $struct:ident at $path:literal) => {
        group! {
            $(#[$doc])*
            $struct at $path {
                hole_1: Vec<f64> = "Axle to hole 1", "Axle centre to the centre of the caliper's first hole.", APART;
                hole_2: Vec<f64> = "Axle to hole 2", "Axle centre to the centre of the caliper's second hole.", APART;
                spacing: Vec<f64> = "Hole to hole", "Centre to centre.", APART;
                neck_1: Vec<f64> = "Neck to hole 1", "Square to the leg, from the neck's edge on the hole's side, or its line carried on, to the hole's centre; inside the neck negative.", EITHER_WAY;
                neck_2: Vec<f64> = "Neck to hole 2", "The same at the second hole.", EITHER_WAY;
                step_1: Vec<f64> = "Step at hole 1", "Straightedge on the plate: plate face to the tab's face on the same side, at the hole; outboard positive.", EITHER_WAY;
                step_2: Vec<f64> = "Step at hole 2", "The same at the second hole.", EITHER_WAY;
                rotor: Vec<f64> = "Rotor to tab", "Rotor's outer face to the tab's inner face, halfway between the holes.", EITHER_WAY;
                tube: Vec<f64> = "Tube to caliper", "Smallest gap with the caliper mocked up and its slot on the rotor.", APART;
            }
        }

        impl $struct {
            /// All readings, in form order.
            pub fn lists(&self) -> [&[f64]; 9] {
                let Self { hole_1, hole_2, spacing, neck_1, neck_2, step_1, step_2, rotor, tube } = self;
                [hole_1, hole_2, spacing, neck_1, neck_2, step_1, step_2, rotor, tube]
            }
        }
    };
}
readings! {
    /// Readings on the tacked part.
    TackBefore at "tack.before"
}
readings! {
    /// The same readings after welding.
    TackAfter at "tack.after"
}

group! {
    /// Checking the tacked part.
    Tack at "tack" {
        accuracy: f64 = "One reading ±", "How far off a single reading may be, 19 times in 20.",
            Kind::number(0.1, Unit::Mm, range(0.001, 5.0), range(0.02, 0.5)).steps(0.01, &[]).decimals(3);
        running: f64 = "Running clearance", "Pad to rotor on each side with the brake released.",
            Kind::number(0.2, Unit::Mm, range(0.01, 3.0), range(0.1, 0.5)).steps(0.05, &[]).decimals(3);
    } with {
        before: TackBefore, "Readings on the tacked part.";
        after: TackAfter, "Readings after welding.";
    }
}
