//! How much hangs on one measurement: what if it were a millimetre or a degree off?

use super::no_gap;
use crate::fit::{Outcome, judge, lateral};
use crate::plain::plain;
use crate::setup::{CaliperMeasured, Given, Problem, Setup};
use crate::solid::NotConverged;

/// The verdict with one value as it is, and with one unit more and less.
#[derive(Clone, Debug)]
pub struct Sensitivity {
    /// With the value as it is.
    pub now: Footing,
    /// With a millimetre, degree or kilogram more; none where that cannot be worked out.
    pub more: Option<Footing>,
    /// With one less; none where that cannot be worked out.
    pub less: Option<Footing>,
}

plain!(Sensitivity { now, more, less });

/// Where a setup stands.
#[derive(Clone, Debug)]
pub struct Footing {
    /// The verdict on the whole.
    pub verdict: Outcome,
    /// Gap beyond what is wanted, of the pair that binds, mm.
    pub margin: f64,
    /// Key of that pair.
    pub binding: &'static str,
    /// Sideways adjustment that is left on the side with less of it, mm; negative where it does not reach.
    pub sideways: f64,
}

plain!(Footing { verdict, margin, binding, sideways });

/// What one unit more or less of a number would change, each by a verdict of its own: nothing is taken as straight.
///
/// `path` names a number of a setup, such as `wheel.rotor_inset`, or one of [`CaliperMeasured`], such as
/// `measured.body_top`. The latter are compared with the caliper that the measured numbers tell.
///
/// # Errors
/// There is no such number; or a gap could not be found.
pub fn sensitivity(setup: &Setup, path: &str) -> Result<Sensitivity, Vec<Problem>> {
    let mut found = Sensitivity { now: footing(&varied(setup, path, 0.0)?).map_err(no_gap)?, more: None, less: None };
    for (step, by) in [(&mut found.more, 1.0), (&mut found.less, -1.0)] {
        if let Ok(other) = varied(setup, path, by)
            && other.checked().is_ok()
        {
            *step = Some(footing(&other).map_err(no_gap)?);
        }
    }
    Ok(found)
}

fn footing(setup: &Setup) -> Result<Footing, NotConverged> {
    let (judged, lateral) = (judge(setup)?, lateral(setup));
    Ok(Footing {
        verdict: judged.outcome,
        margin: judged.binding.margin(),
        binding: judged.binding.name.key(),
        sideways: lateral.adjust - lateral.misalignment.abs(),
    })
}

/// The setup with that number changed.
fn varied(setup: &Setup, path: &str, by: f64) -> Result<Setup, Vec<Problem>> {
    let unknown = || {
        let message = format!("There is no number \"{path}\". Name one such as \"wheel.rotor_inset\".");
        vec![Problem { field: path.to_owned(), value: String::new(), message }]
    };
    let mut other = setup.clone();
    if let Some(key) = path.strip_prefix("measured.") {
        let mut measured = CaliperMeasured::of(setup);
        *measured.number_at(path).ok_or_else(unknown)? += by;
        let measured = CaliperMeasured::read(&Given::from(&measured))?;
        let is_hole = key.starts_with("hole_");
        measured.put_into(&mut other, is_hole, !is_hole)?;
    } else {
        *other.number_at(path).ok_or_else(unknown)? += by;
    }
    Ok(other)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

    use super::*;
    use crate::report;

    fn differences(setup: &Setup, path: &str) -> [f64; 2] {
        let found = sensitivity(setup, path).unwrap();
        [found.more, found.less].map(|step| step.unwrap().margin - found.now.margin)
    }

    /// A setup whose rotor decides, with all the room there is at the bridge.
    fn by_the_rotor() -> Setup {
        let mut setup = Setup::default();
        setup.required.rotor = 50.0;
        setup
    }

    /// The bridge's inside lies at rotor radius − inset + throat: a millimetre of throat is one of gap.
    #[test]
    fn a_millimetre_of_throat_is_one_of_gap() {
        let setup = by_the_rotor();
        assert_eq!(sensitivity(&setup, "caliper.throat").unwrap().now.binding, "rotor/throat");
        let [more, less] = differences(&setup, "caliper.throat");
        assert!((more - 1.0).abs() < 1e-9 && (less + 1.0).abs() < 1e-9, "{more} {less}");
    }

    /// Rotor face to plate, by hand: rotor inset − half the rotor's thickness.
    #[test]
    fn between_flat_faces_a_millimetre_of_inset_is_one_and_of_thickness_a_half() {
        let mut setup = by_the_rotor();
        setup.caliper.throat = 40.0;
        setup.wheel.rotor_thickness = 2.0;
        let found = sensitivity(&setup, "wheel.rotor_inset").unwrap();
        assert_eq!(found.now.binding, "rotor/plate");
        assert!((found.now.margin - (14.0 - 50.0)).abs() < 1e-9);
        let [more, less] = differences(&setup, "wheel.rotor_inset");
        assert!((more - 1.0).abs() < 1e-9 && (less + 1.0).abs() < 1e-9, "{more} {less}");
        let [more, less] = differences(&setup, "wheel.rotor_thickness");
        assert!((more + 0.5).abs() < 1e-9 && (less - 0.5).abs() < 1e-9, "{more} {less}");
    }

    /// Slot and rotor start in line with 2 mm either way, on the default caliper by hand: mount depth = rotor inset.
    #[test]
    fn mount_depth_takes_its_millimetre_from_the_sideways_adjustment() {
        let found = sensitivity(&Setup::default(), "caliper.mount_depth").unwrap();
        assert_eq!(found.now.sideways, 2.0);
        assert_eq!([found.more, found.less].map(|step| step.unwrap().sideways), [1.0, 1.0]);
    }

    #[test]
    fn each_step_is_a_report_of_its_own() {
        let setup = Setup::default();
        for path in ["fork.tube_gap", "tab.clock", "wheel.rotor_diameter", "dropout.thickness"] {
            let found = sensitivity(&setup, path).unwrap();
            for (by, step) in [(1.0, found.more), (-1.0, found.less)] {
                let mut other = setup.clone();
                *other.number_at(path).unwrap() += by;
                let (report, step) = (report(&other).unwrap(), step.unwrap());
                let binding = report.pairs.iter().find(|pair| pair.name == report.binding).unwrap();
                assert_eq!((step.margin, step.binding), (binding.margin, report.binding), "{path}");
                assert_eq!(step.verdict, report.verdict);
            }
        }
    }

    #[test]
    fn a_measured_number_changes_the_caliper_it_tells() {
        let mut setup = Setup::default();
        CaliperMeasured::of(&setup).put_into(&mut setup, true, true).unwrap();
        for path in ["measured.body_top", "measured.hole_2_right"] {
            let found = sensitivity(&setup, path).unwrap();
            assert!((found.now.margin - judge(&setup).unwrap().binding.margin()).abs() < 1e-5);
            let mut measured = CaliperMeasured::of(&setup);
            *measured.number_at(path).unwrap() += 1.0;
            let mut other = setup.clone();
            measured.put_into(&mut other, true, true).unwrap();
            let step = found.more.unwrap();
            // Holes move without the bodies drawn about them.
            if path == "measured.body_top" {
                assert!((step.margin - judge(&other).unwrap().binding.margin()).abs() < 1e-5);
            }
        }
    }

    #[test]
    fn a_step_out_of_range_has_no_answer_and_an_unknown_number_is_named() {
        let mut setup = Setup::default();
        setup.caliper.throat = 0.5;
        let found = sensitivity(&setup, "caliper.throat").unwrap();
        assert!(found.less.is_none() && found.more.is_some());
        for path in ["wheel.hub", "name", "measured.hub", "caliper.holes", ""] {
            let problems = sensitivity(&setup, path).unwrap_err();
            assert!(problems[0].message.contains(&format!("\"{path}\"")), "{path}");
        }
    }
}
