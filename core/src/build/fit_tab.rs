//! A tab that is there already: which rotors and clock angles its two holes serve.

use super::as_built::{built_setup, seat};
use super::limits::{bolt_play, own_spacing, usable_cover};
use super::locate::Holes4;
use crate::fit::{Outcome, Verdict, hole_centres, judge, lateral, no_gap, throat, turned_cover};
use crate::plain::plain;
use crate::search::{Standing, Window, ring};
use crate::setup::{Given, Kind, Problem, Setup};
use crate::solid::NotConverged;
use crate::tolerance::AT_THE_LIMIT;
use crate::turn::sin_cos;
use crate::words::{fine_length, number, percent};

/// The farthest that a hole may lie from the axle, and the nearest two holes to each other, mm.
const FARTHEST: f64 = 500.0;
const NEAREST: f64 = 1.0;

/// The two holes of a tab.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TabHoles {
    /// Axle to hole 1, axle to hole 2, hole to hole; mm. The clock angle is open.
    Distances([f64; 3]),
    /// Both places, `[back, up]`, mm.
    Points([[f64; 2]; 2]),
}

impl TabHoles {
    /// Reads `{hole_1, hole_2, spacing}` or `{points: [[back, up], [back, up]]}`.
    ///
    /// # Errors
    /// What is missing or no number; distances that make no triangle; holes on one spot.
    pub fn read(given: &Given) -> Result<TabHoles, Vec<Problem>> {
        let members = given.members().unwrap_or_default();
        let member = |name: &str| members.iter().find(|(key, _)| key == name).map(|(_, value)| value);
        if let Some(points) = member("points") {
            let coordinate = |value: &Given| value.number().filter(|number| number.abs() <= FARTHEST);
            let point = |value: &Given| match value.list()? {
                [back, up] => Some([coordinate(back)?, coordinate(up)?]),
                _ => None,
            };
            let read = points.list().and_then(|list| match list {
                [first, second] => Some([point(first)?, point(second)?]),
                _ => None,
            });
            let message = "The holes must be two points [back, up], each a number from −500 to 500 mm.";
            return TabHoles::Points(read.ok_or_else(|| vec![problem("points", Some(points), message.to_owned())])?)
                .checked();
        }
        let mut problems = Vec::new();
        let distances = [("hole_1", "Axle to hole 1"), ("hole_2", "Axle to hole 2"), ("spacing", "Hole to hole")].map(
            |(key, label)| {
                let value = member(key);
                let read = value.and_then(Given::number).filter(|number| (NEAREST..=FARTHEST).contains(number));
                read.unwrap_or_else(|| {
                    problems.push(problem(
                        key,
                        value,
                        format!("{label} must be a number from 1 to 500 mm, such as 51."),
                    ));
                    0.0
                })
            },
        );
        if problems.is_empty() { TabHoles::Distances(distances).checked() } else { Err(problems) }
    }

    fn checked(self) -> Result<TabHoles, Vec<Problem>> {
        match self {
            TabHoles::Distances(sides @ [first, second, spacing]) => {
                let longest = sides.into_iter().fold(0.0, f64::max);
                if 2.0 * longest > first + second + spacing {
                    let message = format!(
                        "{}, {} and {} make no triangle: two of them together are shorter than the third. Measure again.",
                        fine_length(first),
                        fine_length(second),
                        fine_length(spacing)
                    );
                    return Err(vec![problem("spacing", Some(&spacing.into()), message)]);
                }
            }
            TabHoles::Points([first, second]) => {
                if (first[0] - second[0]).hypot(first[1] - second[1]) < NEAREST {
                    let message = "The two holes lie on one spot. Give the centres of two holes.".to_owned();
                    return Err(vec![problem("points", None, message)]);
                }
            }
        }
        Ok(self)
    }

    /// The holes in the leg frame; where only distances are known, with the pads at the setup's clock angle and the holes
    /// in the order of the caliper's.
    fn placed(self, setup: &Setup) -> Holes4 {
        match self {
            TabHoles::Points([first, second]) => [first[0], first[1], second[0], second[1]],
            TabHoles::Distances([first, second, spacing]) => {
                let [one, other] = hole_centres(setup);
                let cosine = (first * first + second * second - spacing * spacing) / (2.0 * first * second);
                let turn = cosine.clamp(-1.0, 1.0).acos() * (one[1] * other[0] - one[0] * other[1]).signum();
                let at = |start: f64| {
                    let ((s1, c1), (s2, c2)) = (sin_cos(start), sin_cos(start + turn));
                    [first * s1, first * c1, second * s2, second * c2]
                };
                at(setup.tab.clock.to_radians() - seat(setup, &at(0.0)).clock().to_radians())
            }
        }
    }
}

fn problem(field: &str, value: Option<&Given>, message: String) -> Problem {
    Problem { field: field.to_owned(), value: value.map(Given::to_string).unwrap_or_default(), message }
}

/// One rotor on the tab. Lengths mm.
#[derive(Clone, Debug)]
pub struct RotorOnTab {
    /// Across its outer edge.
    pub rotor_diameter: f64,
    /// How far the pads lie beyond full cover, outward positive.
    pub reach: f64,
    /// Share of the pad on the braking band.
    pub coverage: f64,
    /// Past the rotor's edge.
    pub overhang: f64,
    /// Below the band.
    pub below_band: f64,
    /// Whether it can be used with the tab.
    pub serves: bool,
    /// Clock angles at which everything clears.
    pub windows: Vec<Window>,
    /// At the tab's clock angle, or the setup's; none where it does not serve.
    pub here: Option<Standing>,
    /// The same in words.
    pub sentence: String,
}

plain!(RotorOnTab { rotor_diameter, reach, coverage, overhang, below_band, serves, windows, here, sentence });

/// What a tab serves. Lengths mm, angles degrees.
#[derive(Clone, Debug)]
pub struct FitTab {
    /// Axle to hole 1.
    pub hole_1: f64,
    /// Axle to hole 2.
    pub hole_2: f64,
    /// Hole to hole.
    pub spacing: f64,
    /// Spacing less the caliper's own.
    pub misfit: f64,
    /// What the bolts' play takes up.
    pub play: f64,
    /// Whether the bolts go in.
    pub bolts_fit: bool,
    /// Of the pads' middle.
    pub pad_radius: f64,
    /// Caliper against the radius.
    pub skew: f64,
    /// Slot minus rotor, as the setup has it.
    pub misalignment: f64,
    /// Whether the caliper can be set on the rotor.
    pub sideways: bool,
    /// Of the pads, where the holes' places were given.
    pub clock: Option<f64>,
    /// The usual sizes and the setup's own, smallest first.
    pub rotors: Vec<RotorOnTab>,
    /// The whole in words.
    pub sentence: String,
}

plain!(FitTab {
    hole_1,
    hole_2,
    spacing,
    misfit,
    play,
    bolts_fit,
    pad_radius,
    skew,
    misalignment,
    sideways,
    clock,
    rotors,
    sentence,
});

/// Which rotors and clock angles a tab's two holes serve with a setup's caliper.
///
/// A rotor serves where the bolts go in, the slot reaches it, enough pad is on the band and the rotor stays clear of the
/// bridge; where about the axle the whole then clears is a ring of its own.
///
/// # Errors
/// A problem without a field where a gap could not be found.
///
/// ```
/// use tabwright_core::{Setup, build::{TabHoles, fit_tab}};
/// let tab = fit_tab(&Setup::default(), TabHoles::Distances([121.7, 121.7, 51.0])).unwrap();
/// let serving: Vec<f64> = tab.rotors.iter().filter(|rotor| rotor.serves).map(|rotor| rotor.rotor_diameter).collect();
/// assert_eq!(serving, [203.0]);
/// ```
pub fn fit_tab(setup: &Setup, holes: TabHoles) -> Result<FitTab, Vec<Problem>> {
    let at = holes.placed(setup);
    let seat = seat(setup, &at);
    let [b1, u1, b2, u2] = at;
    let spacing = (b1 - b2).hypot(u1 - u2);
    let (misfit, play, lateral) = (spacing - own_spacing(setup), bolt_play(setup.caliper.bolt.size), lateral(setup));
    let bolts_fit = misfit.abs() <= play + AT_THE_LIMIT;
    let rotors = sizes(setup).into_iter().map(|rotor| on_tab(setup, &at, rotor, bolts_fit && lateral.usable));
    let mut tab = FitTab {
        hole_1: b1.hypot(u1),
        hole_2: b2.hypot(u2),
        spacing,
        misfit,
        play,
        bolts_fit,
        pad_radius: seat.radius(),
        skew: seat.skew(),
        misalignment: lateral.misalignment,
        sideways: lateral.usable,
        clock: matches!(holes, TabHoles::Points(_)).then(|| seat.clock()),
        rotors: rotors.collect::<Result<Vec<_>, _>>()?,
        sentence: String::new(),
    };
    tab.sentence = sentence(&tab);
    Ok(tab)
}

fn sizes(setup: &Setup) -> Vec<f64> {
    let own = setup.wheel.rotor_diameter;
    let mut sizes = match Setup::field("wheel.rotor_diameter").map(|field| field.kind) {
        Some(Kind::Number { stops, .. }) => stops.to_vec(),
        _ => Vec::new(),
    };
    if !sizes.contains(&own) {
        sizes.push(own);
    }
    sizes.sort_by(f64::total_cmp);
    sizes
}

fn on_tab(setup: &Setup, holes: &Holes4, rotor_diameter: f64, goes_on: bool) -> Result<RotorOnTab, Vec<Problem>> {
    let mut other = setup.clone();
    other.wheel.rotor_diameter = rotor_diameter;
    other.tab.reach = 0.0;
    let built = built_setup(&other, holes);
    let cover = turned_cover(&built, seat(&other, holes).skew());
    let bridge = throat(&built);
    let serves = goes_on && cover.coverage >= usable_cover() - AT_THE_LIMIT && bridge.gap >= -AT_THE_LIMIT;
    let mut found = RotorOnTab {
        rotor_diameter,
        reach: built.tab.reach,
        coverage: cover.coverage,
        overhang: cover.overhang,
        below_band: cover.below_band,
        serves,
        windows: Vec::new(),
        here: None,
        sentence: String::new(),
    };
    let name = number(rotor_diameter);
    let pads = format!("{} of the pad on the band", percent(cover.coverage));
    if serves {
        found.windows = ring(&built)?.windows;
        let judged = judge(&built).map_err(|NotConverged| vec![no_gap()])?;
        let (margin, binding) = (judged.binding.margin(), judged.binding.name.key());
        found.here = Some(Standing { clock: built.tab.clock, verdict: judged.outcome, margin, binding });
        found.sentence = match (found.windows.len(), judged.outcome) {
            (0, _) => format!("{name}: {pads}, but at no clock angle does everything clear."),
            (_, Outcome::Clears) => format!("{name}: {pads}; everything clears at this clock angle."),
            _ => format!("{name}: {pads}; everything clears at other clock angles."),
        };
    } else if bridge.verdict() == Verdict::Hits {
        found.sentence = format!("{name}: too large, it would run {} into the bridge.", fine_length(-bridge.gap));
    } else {
        let way = if found.reach > 0.0 { "too far out" } else { "too far in" };
        found.sentence = format!("{name}: {pads}; the pads lie {} {way}.", fine_length(found.reach.abs()));
    }
    Ok(found)
}

fn sentence(tab: &FitTab) -> String {
    if !tab.bolts_fit {
        return format!(
            "The caliper's bolts do not go in: the holes are {} apart, {} off, and the bolts' play is {}.",
            fine_length(tab.spacing),
            fine_length(tab.misfit.abs()),
            fine_length(tab.play)
        );
    }
    if !tab.sideways {
        return format!(
            "The caliper cannot be set on the rotor: its slot lies {} from it.",
            fine_length(tab.misalignment.abs())
        );
    }
    let served: Vec<String> =
        tab.rotors.iter().filter(|rotor| rotor.serves).map(|rotor| number(rotor.rotor_diameter)).collect();
    let pads = format!("The pads' middle lies {} from the axle", fine_length(tab.pad_radius));
    match served.len() {
        0 => format!("{pads}: no usual rotor fits that."),
        1 => format!("{pads}: it serves a rotor of {}.", served[0]),
        _ => format!("{pads}: it serves rotors of {}.", crate::words::row(served, ", ")),
    }
}
