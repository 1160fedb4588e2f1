//! Whether the welds hold: on the tube, and across the joint of a tab that is butt-welded on.

use super::answer::{Basis, LoadGroup, LoadResult};
use super::material::Strength;
use super::plate::Plate;
use super::region::{Chord, Line, Region, hull_outline};
use super::seam::{THROAT, tube_seams};
use super::section::Section;
use super::statics::{Push, Statics};
use super::weld_line::{ThroatStress, WeldGroup, WeldLine};
use crate::fit::{Joint, recess};
use crate::setup::{Build, Electrode, Material, Setup, WeldKind, WeldMethod};
use crate::solid::Vector;
use crate::words::{given_length, length, rounded};

/// Partial factor of welds, EN 1993-1-8 table 2.1.
const PARTIAL: f64 = 1.25;
/// Allowable shear on the throat as a share of the filler's strength: Shigley table 9-4 and AISC.
const ALLOWABLE_SHARE: f64 = 0.3;
/// Allowable shear in the metal beside a fillet as a share of its yield: Shigley table 9-4.
const METAL_SHEAR_SHARE: f64 = 0.4;
/// Allowable stress of a full-penetration butt as a share of the plate's yield: Shigley table 9-4.
const BUTT_SHARE: f64 = 0.6;
/// Megapascals in a ksi.
const KSI: f64 = 6.894757;
/// Strength of the weld metal in 6061, MPa: EN 1999-1-1 table 8.8 with filler 4043A, from memory.
const ALUMINIUM_FILLER: f64 = 170.0;
/// The thinnest throat that EN 1993-1-8 4.5.2 counts, mm.
const LEAST_THROAT: f64 = 3.0;

/// The rule that welds are judged by, with its strengths, MPa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WeldRule {
    /// The whole stress on the throat against one allowable.
    Allowable(f64),
    /// EN 1993-1-8 4.5.3.3: the same against f_vw,d.
    Simplified(f64),
    /// EN 1993-1-8 4.5.3.2: √(σ⊥² + 3 (τ⊥² + τ∥²)) against the first, σ⊥ against the second.
    Directional([f64; 2]),
}

/// Allowable shear on the throat of a fillet by its filler, MPa: 0.30 of 60 or 70 ksi.
///
/// ```
/// use tabwright_core::{Electrode, load::electrode_allowable};
/// // Shigley table 9-6: 21.0 ksi for E70.
/// assert!((electrode_allowable(Electrode::E70) - 144.8).abs() < 0.05);
/// ```
pub fn electrode_allowable(electrode: Electrode) -> f64 {
    let strength = match electrode {
        Electrode::E60 => 60.0,
        Electrode::E70 => 70.0,
    };
    ALLOWABLE_SHARE * strength * KSI
}

/// Design shear strength of a fillet, MPa: f_u / (√3 β_w γ_M2), EN 1993-1-8 4.5.3.3.
pub fn simplified_strength(tensile: f64, correlation: f64) -> f64 {
    tensile / (3.0_f64.sqrt() * correlation * PARTIAL)
}

/// The two limits of the directional method, MPa: f_u / (β_w γ_M2) and 0.9 f_u / γ_M2, EN 1993-1-8 4.5.3.2.
pub fn directional_strengths(tensile: f64, correlation: f64) -> [f64; 2] {
    [tensile / (correlation * PARTIAL), 0.9 * tensile / PARTIAL]
}

impl WeldRule {
    /// The rule of a setup.
    pub fn of(setup: &Setup, strength: &Strength) -> Self {
        let weld = &setup.load.weld;
        if setup.load.material == Material::Aluminium6061 {
            return WeldRule::Simplified(simplified_strength(ALUMINIUM_FILLER.min(strength.tensile_strength), 1.0));
        }
        match weld.method {
            WeldMethod::Asd => WeldRule::Allowable(electrode_allowable(weld.electrode)),
            WeldMethod::Ec3Simplified => {
                WeldRule::Simplified(simplified_strength(strength.tensile_strength, strength.correlation))
            }
            WeldMethod::Ec3Directional => {
                WeldRule::Directional(directional_strengths(strength.tensile_strength, strength.correlation))
            }
        }
    }

    /// The stress that counts at a point of a fillet with equal legs, and its limit, MPa.
    ///
    /// The throat lies at 45° between the two faces, whichever way: the worse of both ways counts.
    pub fn judge(&self, stress: &ThroatStress) -> [f64; 2] {
        match *self {
            WeldRule::Allowable(limit) | WeldRule::Simplified(limit) => [stress.whole.length(), limit],
            WeldRule::Directional([limit, square_limit]) => {
                let root = 2.0_f64.sqrt();
                let (sum, difference) = ((stress.face + stress.across) / root, (stress.face - stress.across) / root);
                let equivalent = |square: f64, shear: f64| {
                    (square * square + 3.0 * (shear * shear + stress.along * stress.along)).sqrt()
                };
                let whole = equivalent(sum, difference).max(equivalent(difference, sum));
                let square = sum.abs().max(difference.abs());
                if whole / limit >= square / square_limit { [whole, limit] } else { [square, square_limit] }
            }
        }
    }

    /// The worst point of a group under a load: the stress that counts and its limit, MPa; none where the lines cannot
    /// carry it.
    pub fn worst(&self, group: &WeldGroup, load: Push) -> Option<[f64; 2]> {
        let at_middle = Push::sum(&[load], group.centroid());
        let stresses = group.stresses(at_middle.force, at_middle.moment)?;
        let judged = stresses.iter().map(|stress| self.judge(stress));
        judged.max_by(|a, b| (a[0] / a[1]).total_cmp(&(b[0] / b[1])))
    }

    /// Whether it is a rule of EN 1993-1-8, by which the ends of a weld do not count.
    fn is_european(&self) -> bool {
        !matches!(self, WeldRule::Allowable(_))
    }
}

/// The welds on the tube as a rule counts them: by EN 1993-1-8 each a throat shorter at either end.
pub(super) fn counted(setup: &Setup, rule: &WeldRule) -> Option<WeldGroup> {
    let mut group = tube_seams(setup)?;
    if rule.is_european() {
        for line in &mut group.lines {
            let (long, middle) = (line.length(), (line.from + line.to) * 0.5);
            let share = ((long - 2.0 * line.throat) / long).max(0.0);
            (line.from, line.to) = (middle + (line.from - middle) * share, middle + (line.to - middle) * share);
        }
        group.lines.retain(|line| line.length() > 0.0);
    }
    (!group.lines.is_empty()).then_some(group)
}

/// The joint of a butt-welded tab, straight across the web where it leaves the dropout, square to it; and what it parts.
pub(super) fn joint(setup: &Setup, plate: &Plate) -> Option<(Chord, Vec<usize>)> {
    if setup.tab.build != Build::ButtWelded {
        return None;
    }
    let [land, root] = plate.web?;
    let (back, up) = (land.back - root.back, land.up - root.up);
    // The web takes hold inside the eye; the joint is at its rim.
    let radius = if root.back == 0.0 && root.up == 0.0 { setup.dropout.eye_radius } else { root.radius };
    let share = (radius / back.hypot(up)).min(1.0);
    let point = [root.back + back * share, root.up + up * share];
    let line = Line::new(point, back.atan2(-up));
    let web = Region { outlines: vec![hull_outline(&[land, root])], ..Region::default() };
    let chord = web.chords(&line).into_iter().next()?;
    Some((chord, (0..plate.loads.len()).filter(|index| plate.from_caliper(&[*index])).collect()))
}

/// The two fillets of that joint, one on each face of the plate.
pub(super) fn joint_fillets(setup: &Setup, plate: &Plate, chord: &Chord) -> WeldGroup {
    let [from, to] = chord.end_points();
    let half = plate.thickness / 2.0;
    let line = |out: f64| WeldLine {
        from: Vector::new(from[0], from[1], plate.tab_out + out),
        to: Vector::new(to[0], to[1], plate.tab_out + out),
        // Two throats bear no more than the plate between them.
        throat: (THROAT * setup.load.weld.leg).min(half),
        face: Vector::Z,
    };
    WeldGroup { lines: vec![line(-half), line(half)] }
}

/// The stress that counts in the joint and its limit, MPa.
pub(super) fn joint_stress(
    setup: &Setup,
    plate: &Plate,
    rule: &WeldRule,
    strength: &Strength,
    (chord, parted): &(Chord, Vec<usize>),
) -> Option<[f64; 2]> {
    let loads = plate.pushes(parted);
    match setup.load.weld.kind {
        WeldKind::Butt => {
            let section = Section::of(chord, plate.thickness, plate.tab_out);
            let share = if rule.is_european() { 1.0 } else { BUTT_SHARE };
            Some([section.stress(&loads).von_mises, share * strength.yield_strength])
        }
        WeldKind::Fillet => {
            let group = joint_fillets(setup, plate, chord);
            rule.worst(&group, Push::sum(&loads, group.centroid()))
        }
    }
}

const STATIC: Basis = Basis {
    id: "weld_static",
    label: "Weld to the tube",
    unit: "MPa",
    formula: "elastic weld line: direct, torsion and bending on the throat",
    source: "",
    caution: "Holds for sound welds alone: undercut, cold starts and craters are where they crack.",
};
const METAL: Basis = Basis {
    id: "weld_metal",
    label: "Metal beside the weld",
    unit: "MPa",
    formula: "force per length over the thinnest of leg, plate and tube wall, against 0.40 of the yield",
    source: "Shigley table 9-4, from memory; the tube taken as of the plate's material",
    caution: "A thin tube is what gives first; heat takes strength from drawn and hardened tube.",
};
const THROAT_ENOUGH: Basis = Basis {
    id: "weld_throat",
    label: "Throat that would be enough",
    unit: "mm",
    formula: "stress falls as the throat grows",
    source: "elastic weld line",
    caution: "A leg thicker than the tube's wall burns it through: rather weld longer.",
};
const LENGTH_ENOUGH: Basis = Basis {
    id: "weld_length",
    label: "Lap that would be enough",
    unit: "mm",
    formula: "elastic weld line with a longer lap",
    source: "elastic weld line",
    caution: "A longer lap also stiffens the tube where its wall would bend.",
};
const JOINT: Basis = Basis {
    id: "joint_static",
    label: "Weld of the tab to the dropout",
    unit: "MPa",
    formula: "",
    source: "",
    caution: "A butt counts whole only where it is welded right through and looked at from both sides.",
};

fn rule_source(setup: &Setup, rule: &WeldRule) -> &'static str {
    match rule {
        _ if setup.load.material == Material::Aluminium6061 => {
            "Blodgett 1966; EN 1999-1-1 table 8.8 for filler 4043A, from memory, whatever the rule chosen"
        }
        WeldRule::Allowable(_) => {
            "Blodgett 1966, Shigley chapter 9; allowable 0.30 of the filler's strength, table 9-6"
        }
        WeldRule::Simplified(_) => "Blodgett 1966, Shigley chapter 9; EN 1993-1-8 4.5.3.3",
        WeldRule::Directional(_) => "Blodgett 1966, Shigley chapter 9; EN 1993-1-8 4.5.3.2",
    }
}

/// The welds' results.
pub(super) fn welds(setup: &Setup, statics: &Statics, plate: &Plate, strength: &Strength) -> LoadGroup {
    let rule = WeldRule::of(setup, strength);
    let source = rule_source(setup, &rule);
    let load = statics.plate_on_tube;
    let mut results: Vec<LoadResult> = Vec::new();
    let group = counted(setup, &rule);
    let worst = group.as_ref().and_then(|group| rule.worst(group, load));
    let mut note = match (&group, worst) {
        (Some(group), Some([stress, limit])) => {
            results.extend(on_tube(setup, &rule, source, group, load, [stress, limit], strength));
            format!(
                "Counted are {} lines along the lap, {} in all; welds across its ends come on top.",
                group.lines.len(),
                length(group.length())
            )
        }
        _ => "The plate does not lie along the tube in a way that could be welded: nothing to count.".to_owned(),
    };
    if recess(setup).joint == Joint::Short {
        note += " The plate does not reach the tube: packing would have to carry all of this.";
    }
    if let Some(joint) = joint(setup, plate)
        && let Some([stress, limit]) = joint_stress(setup, plate, &rule, strength, &joint)
    {
        let (formula, source) = match setup.load.weld.kind {
            WeldKind::Butt => (
                "section of the plate where the web leaves the dropout, von Mises",
                "beam theory; full penetration: plate's yield, 0.60 of it by allowable stress (Shigley table 9-4, from memory)",
            ),
            WeldKind::Fillet => ("elastic weld line of two fillets, one on each face", source),
        };
        let basis = Basis { formula, source, ..JOINT };
        let [from, to] = joint.0.ends;
        let sentence =
            format!("{} MPa on a joint {} long; {} MPa allowed.", mpa(stress), length(to - from), mpa(limit));
        results.push(basis.against(stress, limit, sentence));
    }
    if rule.is_european() && setup.load.weld.leg * THROAT < LEAST_THROAT {
        note += " EN 1993-1-8 counts no throat below 3 mm, a leg of 4.3 mm.";
    }
    LoadGroup { id: "weld", label: "Welds", note, results }
}

fn on_tube(
    setup: &Setup,
    rule: &WeldRule,
    source: &'static str,
    group: &WeldGroup,
    load: Push,
    [stress, limit]: [f64; 2],
    strength: &Strength,
) -> Vec<LoadResult> {
    let throat = THROAT * setup.load.weld.leg;
    let at_middle = Push::sum(&[load], group.centroid());
    let peak = group.peak(at_middle.force, at_middle.moment).unwrap_or(0.0);
    let thinnest = setup.load.weld.leg.min(setup.dropout.thickness).min(setup.fork.tube_wall);
    let metal = peak * throat / thinnest;
    let metal_limit = METAL_SHEAR_SHARE * strength.yield_strength;
    let enough = throat * stress / limit;
    let lap = lap_enough(setup, rule, load);
    let leg = given_length(setup.load.weld.leg);
    let lap_words = match lap {
        Some(lap) => format!("By the throat alone a lap of {} would do at a leg of {leg}.", length(lap)),
        None => "No lap up to 300 mm would do: more throat, a gusset, or less force.".to_owned(),
    };
    vec![
        Basis { source, ..STATIC }.against(
            stress,
            limit,
            format!("{} MPa on a throat of {}; {} MPa allowed.", mpa(stress), length(throat), mpa(limit)),
        ),
        METAL.against(
            metal,
            metal_limit,
            format!("{} MPa of shear in {} of metal; {} MPa allowed.", mpa(metal), length(thinnest), mpa(metal_limit)),
        ),
        THROAT_ENOUGH.told(enough, format!("A throat of {}, a leg of {}.", length(enough), length(enough / THROAT))),
        LENGTH_ENOUGH.told(lap.unwrap_or(LONGEST_LAP), lap_words),
    ]
}

fn mpa(stress: f64) -> String {
    rounded(stress, 0)
}

/// The longest lap that is thought about, mm: the field's own limit.
const LONGEST_LAP: f64 = 300.0;
/// Halvings of the search for the lap: to a hundredth of a millimetre.
const HALVINGS: u32 = 15;

/// The shortest lap that a rule is content with; none up to [`LONGEST_LAP`]. The force stays, the welds' middle moves.
fn lap_enough(setup: &Setup, rule: &WeldRule, load: Push) -> Option<f64> {
    let mut other = setup.clone();
    let mut holds = |lap: f64| {
        other.dropout.weld_length = lap;
        let worst = counted(&other, rule).and_then(|group| rule.worst(&group, load));
        worst.is_some_and(|[stress, limit]| stress <= limit)
    };
    if !holds(LONGEST_LAP) {
        return None;
    }
    let (mut low, mut high) = (setup.dropout.neck_width / 2.0, LONGEST_LAP);
    if holds(low) {
        return Some(low);
    }
    for _ in 0..HALVINGS {
        let middle = (low + high) / 2.0;
        if holds(middle) { high = middle } else { low = middle }
    }
    Some(high)
}
