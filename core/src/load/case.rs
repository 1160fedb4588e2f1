//! The braking that is judged: how hard, on what arm, how often.

use crate::setup::{Bicycle, LoadCase, Scheme, Setup, TestWheel};
use crate::solid::Vector;
use crate::turn::sin_cos;
use crate::words::{given_length, number, rounded};

/// Standard gravity, m/s²; exact by definition.
pub const GRAVITY: f64 = 9.80665;
/// Force of the static brake-mount test, N: TBIS 15194:2019 4.3.8.7.2, the national adaptation of EN 15194 and ISO 4210-6.
pub const STATIC_FORCE: f64 = 1000.0;
/// Force of the fatigue test's first stage, N: TBIS 15194:2019 4.3.8.7.5.
pub const FATIGUE_FORCE: f64 = 600.0;
/// Force of its second stage in the two-stage text, N: TBIS 15194:2019 table 22.
pub const SECOND_STAGE_FORCE: f64 = 700.0;

/// One stage of a fatigue test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stage {
    /// Force, N, from nothing to this and back.
    pub force: f64,
    /// How often.
    pub cycles: f64,
}

/// The stages of the standard's fatigue test.
///
/// Two stages: 600 N 14 400 times (racing 24 000), then 700 N 12 000 times (racing 20 000): TBIS 15194:2019 table 22. One
/// stage: 600 N 12 000 times, racing 20 000: ISO 4210-6 base text, from memory.
///
/// ```
/// use tabwright_core::{Bicycle, Scheme, load::fatigue_stages};
/// let stages = fatigue_stages(Bicycle::Mountain, Scheme::TwoStage);
/// assert_eq!((stages[0].force, stages[0].cycles), (600.0, 14_400.0));
/// assert_eq!((stages[1].force, stages[1].cycles), (700.0, 12_000.0));
/// ```
pub fn fatigue_stages(bicycle: Bicycle, scheme: Scheme) -> Vec<Stage> {
    let racing = bicycle == Bicycle::Racing;
    let stage = |force: f64, usual: f64, racers: f64| Stage { force, cycles: if racing { racers } else { usual } };
    match scheme {
        Scheme::Iso => vec![stage(FATIGUE_FORCE, 12_000.0, 20_000.0)],
        Scheme::TwoStage => {
            vec![stage(FATIGUE_FORCE, 14_400.0, 24_000.0), stage(SECOND_STAGE_FORCE, 12_000.0, 20_000.0)]
        }
    }
}

/// The arm of the brake-mount test for a wheel size, mm: TBIS 15194:2019 table 21; none where the tyre's radius stands
/// for it, as the standard has it for sizes that are not listed.
pub fn test_arm(wheel: TestWheel) -> Option<f64> {
    match wheel {
        TestWheel::ByRadius => None,
        TestWheel::Inch24 => Some(305.0),
        TestWheel::Inch26 => Some(330.0),
        TestWheel::Inch27 => Some(349.0),
        TestWheel::Inch29 => Some(368.0),
    }
}

/// What limits a rider's braking.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// The tyre slides.
    Grip,
    /// The rear wheel lifts.
    PitchOver,
}

/// How hard a rider can brake with the braked wheel alone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RiderBraking {
    /// Brake force along the road at the contact, N.
    pub force: f64,
    /// Force of the road square to it, N.
    pub normal: f64,
    /// Deceleration, m/s²; below 0 where the brake cannot hold the slope.
    pub deceleration: f64,
    /// What limits it.
    pub limit: Limit,
}

/// The braking of a front wheel alone at its limit, on a road that rises by `slope` per cent.
///
/// With the road's angle θ: pitch-over at F = m g cos θ · l/h, all the weight on the wheel; grip at F = μ N, where by
/// moments about the rear contact N = m g cos θ (w − l) / (w − μ h), for centre of gravity l behind the front contact
/// and h above the road, wheelbase w. The deceleration is F/m + g sin θ. On the level this is g l/h: J. Riel, Maximal
/// Braking on a Standard Bicycle, 2005.
pub fn rider_braking(setup: &Setup) -> RiderBraking {
    let load = &setup.load;
    let angle = (load.slope / 100.0).atan();
    let weight = load.mass * GRAVITY * angle.cos();
    // Ahead of the contact the bicycle goes over at any braking at all.
    let tipping = (load.cog_to_front / load.cog_height).max(0.0);
    let (force, normal, limit) = if tipping <= load.friction {
        (weight * tipping, weight, Limit::PitchOver)
    } else {
        // Friction is below l/h here, so the divisor is above w − l; beyond the rear contact nothing rests on the front.
        let divisor = load.wheelbase - load.friction * load.cog_height;
        let share = if divisor > 0.0 { ((load.wheelbase - load.cog_to_front) / divisor).clamp(0.0, 1.0) } else { 1.0 };
        (load.friction * weight * share, weight * share, Limit::Grip)
    };
    RiderBraking { force, normal, deceleration: force / load.mass + GRAVITY * angle.sin(), limit }
}

/// A braking: what pushes on the wheel from outside, and the torque it brings.
#[derive(Clone, Debug)]
pub struct BrakeCase {
    /// Force on the wheel, leg frame, N.
    pub force: Vector,
    /// Where it acts, leg frame, mm.
    pub point: Vector,
    /// Its lever about the axle, mm.
    pub arm: f64,
    /// Its part that brakes, N.
    pub brake: f64,
    /// Torque about the axle, N·mm.
    pub torque: f64,
    /// The case in a sentence.
    pub sentence: String,
}

/// A force rearward square to the leg at the end of an arm along the leg, as the standard's fixture has it.
pub fn at_arm(force: f64, arm: f64, sentence: String) -> BrakeCase {
    BrakeCase { force: Vector::X * force, point: Vector::Y * -arm, arm, brake: force, torque: force * arm, sentence }
}

/// The arm of the standard's test for a setup, mm.
pub fn arm_of(setup: &Setup) -> f64 {
    test_arm(setup.load.wheel).unwrap_or(setup.wheel.tyre_radius)
}

/// The braking that a setup asks to be judged by.
pub fn brake_case(setup: &Setup) -> BrakeCase {
    let (arm, load) = (arm_of(setup), &setup.load);
    let torque = |force: f64, arm: f64| rounded(force * arm / 1000.0, 0);
    let tested = |force: f64, often: &str| {
        let arm_words = given_length(arm);
        let words = format!(
            "{} N backward, square to the leg, on an arm of {arm_words}{often}: {} N·m.",
            number(force),
            torque(force, arm)
        );
        at_arm(force, arm, words)
    };
    match load.case {
        LoadCase::IsoStatic => tested(STATIC_FORCE, ""),
        LoadCase::IsoFatigue => {
            let stages = fatigue_stages(load.bicycle, load.scheme);
            let often: String = stages
                .iter()
                .map(|stage| format!(", {} N {} times", number(stage.force), number(stage.cycles)))
                .collect();
            let most = stages.iter().map(|stage| stage.force).fold(0.0, f64::max);
            tested(most, &often)
        }
        LoadCase::Own => {
            let arm = setup.wheel.tyre_radius;
            let words = format!(
                "Your own {} N at the ground, backward and square to the leg, {} from the axle: {} N·m.",
                number(load.own_force),
                given_length(arm),
                torque(load.own_force, arm)
            );
            at_arm(load.own_force, arm, words)
        }
        LoadCase::Rider => rider_case(setup),
    }
}

/// Forward and upward in the ground frame, as directions of the leg frame.
pub(super) fn ground_axes(setup: &Setup) -> [Vector; 2] {
    let (sin, cos) = sin_cos(setup.fork.leg_angle.to_radians());
    [Vector::new(-sin, -cos, 0.0), Vector::new(-cos, sin, 0.0)]
}

fn rider_case(setup: &Setup) -> BrakeCase {
    let braking = rider_braking(setup);
    let [forward, upward] = ground_axes(setup);
    let radius = setup.wheel.tyre_radius;
    let limit = match braking.limit {
        Limit::PitchOver => "the rear wheel lifts",
        Limit::Grip => "the tyre slides",
    };
    let sentence = if braking.force > 0.0 {
        format!(
            "A rider brakes with this wheel alone until {limit}: {} N at the ground, {} g, {} N·m.",
            rounded(braking.force, 0),
            rounded(braking.deceleration / GRAVITY, 2),
            rounded(braking.force * radius / 1000.0, 0),
        )
    } else {
        "With its centre of gravity there this wheel cannot brake at all: check the two lengths.".to_owned()
    };
    BrakeCase {
        force: upward * braking.normal - forward * braking.force,
        point: upward * -radius,
        arm: radius,
        brake: braking.force,
        torque: braking.force * radius,
        sentence,
    }
}
