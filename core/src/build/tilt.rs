//! A tab out of square: how far the pads stand askew, and from when they rub.

use crate::plain::plain;
use crate::setup::Setup;
use crate::words::{fine_length as length, hundredths};

/// One direction of a tilted tab. Lengths mm, angles degrees.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TiltWay {
    /// The pad's size that way.
    pub pad: f64,
    /// How far one end of the pad lies beyond the other.
    pub taper: f64,
    /// Tilt at which the pad's edges touch a true rotor.
    pub rub: f64,
    /// Tilt at which they touch a rotor that swings by its runout; 0 where that touches by itself.
    pub clear: f64,
    /// Whether the tolerance is beyond `rub`.
    pub rubs: bool,
    /// Whether the tolerance is beyond `clear`.
    pub drags: bool,
}

plain!(TiltWay { pad, taper, rub, clear, rubs, drags });

/// The tab's tilt within its tolerance.
#[derive(Clone, Debug, PartialEq)]
pub struct TiltStack {
    /// ± of the tab's tilt.
    pub tolerance: f64,
    /// Pad to rotor on each side.
    pub running: f64,
    /// The rotor's swing either way.
    pub runout: f64,
    /// Along the rotor's edge.
    pub length: TiltWay,
    /// Towards the axle.
    pub height: TiltWay,
    /// The same in words.
    pub sentence: String,
}

plain!(TiltStack { tolerance, running, runout, length, height, sentence });

/// The tilt at which a pad of that size, turned about its middle, uses up a clearance on each side, degrees.
///
/// The pad's ends move by half its size times the tangent, one towards the rotor on each side.
///
/// ```
/// use tabwright_core::build::rub_tilt;
/// assert!((rub_tilt(30.0, 0.2) - 0.7639).abs() < 1e-4);
/// assert_eq!(rub_tilt(30.0, -0.1), 0.0);
/// ```
pub fn rub_tilt(pad: f64, clearance: f64) -> f64 {
    (2.0 * clearance.max(0.0) / pad).atan().to_degrees()
}

/// How far one end of a pad of that size lies beyond the other, mm.
pub(crate) fn taper(pad: f64, tilt: f64) -> f64 {
    pad * tilt.to_radians().tan()
}

pub(super) fn tilt_stack(setup: &Setup) -> TiltStack {
    let (tolerance, runout, running) = (setup.tolerance.tab_tilt, setup.tolerance.runout, setup.tack.running);
    let way = |pad: f64| {
        let (rub, clear) = (rub_tilt(pad, running), rub_tilt(pad, running - runout));
        TiltWay { pad, taper: taper(pad, tolerance), rub, clear, rubs: tolerance > rub, drags: tolerance > clear }
    };
    let (along, towards) = (way(setup.caliper.pad.length), way(setup.caliper.pad.height));
    let tightest = if along.rub < towards.rub { along } else { towards };
    let degrees = |angle: f64| hundredths(angle) + "°";
    let start = format!(
        "A tab {} out of square sets the pads {} askew over their length and {} over their height.",
        degrees(tolerance),
        length(along.taper),
        length(towards.taper),
    );
    let end = if tightest.rubs {
        format!("They rub: {} is the most that {} of running clearance allow.", degrees(tightest.rub), length(running))
    } else if tightest.drags {
        format!(
            "They clear a true rotor up to {}, and touch one that swings by {} from {} on.",
            degrees(tightest.rub),
            length(runout),
            degrees(tightest.clear),
        )
    } else {
        format!("They clear, up to {} with this runout.", degrees(tightest.clear))
    };
    TiltStack { tolerance, running, runout, length: along, height: towards, sentence: format!("{start} {end}") }
}
