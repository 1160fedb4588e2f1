//! How the welds and the tab bear the standard's fatigue test.

use super::answer::{Basis, LoadGroup, LoadResult};
use super::case::{FATIGUE_FORCE, Stage, arm_of, at_arm, fatigue_stages};
use super::material::Strength;
use super::plate::Plate;
use super::root::{Weakest, weakest, weakest_from};
use super::seam::tube_seams;
use super::statics::{Push, Statics};
use super::weld::{WeldRule, joint, joint_stress};
use crate::setup::{Build, LoadCase, Material, Setup, WeldKind};
use crate::words::{number, rounded, row};

/// Cycles that a detail category is quoted for: EN 1993-1-9 7.1.
const CATEGORY_CYCLES: f64 = 2e6;
/// Partial factor for a safe life where a failure hurts people: EN 1993-1-9 table 3.1, from memory.
const PARTIAL: f64 = 1.35;
/// Category of a machine-cut plate edge with fine drag lines, MPa: EN 1993-1-9 table 8.1, from memory.
const CUT_EDGE: f64 = 125.0;
/// What aluminium bears of a steel category: about the ratio of stiffness; IIW recommendations, from memory.
const ALUMINIUM_SHARE: f64 = 1.0 / 3.0;
/// Lives longer than this are told as this: no test goes on for so long.
const LONGEST_LIFE: f64 = 1e8;

/// Cycles that a detail bears at a stress range: N = 2·10⁶ (Δσ_C / Δσ)³, EN 1993-1-9 7.1 and IIW, slope 3.
///
/// The fatigue limit is left out, which is on the safe side.
///
/// ```
/// use tabwright_core::load::cycles_at;
/// // By definition of the category; and an eighth of it at twice the range.
/// assert_eq!(cycles_at(36.0, 36.0), 2e6);
/// assert_eq!(cycles_at(72.0, 36.0), 2.5e5);
/// ```
pub fn cycles_at(range: f64, category: f64) -> f64 {
    CATEGORY_CYCLES * (category / range).powi(3)
}

/// Damage of stages whose ranges are `per_newton` times their forces: the sum of n / N, Palmgren and Miner.
pub fn damage(stages: &[Stage], per_newton: f64, category: f64) -> f64 {
    stages.iter().map(|stage| stage.cycles / cycles_at(stage.force * per_newton, category)).sum()
}

const WELD: Basis = Basis {
    id: "fatigue_weld",
    label: "Weld to the tube, test's cycles",
    unit: "MPa",
    formula: "nominal range on the throat, N = 2·10⁶ (Δσ_C / Δσ)³, category over 1.35",
    source: "EN 1993-1-9 section 7 and IIW, slope 3; category: your own number, 36 for the root of a fillet",
    caution: "The toe on a thin tube can crack before the throat: its wall is not in this number.",
};
const JOINT: Basis = Basis {
    id: "fatigue_joint",
    label: "Weld of the tab, test's cycles",
    caution: "A butt not welded through is a crack from the first day: it counts as a fillet's root.",
    ..WELD
};
const ROOT: Basis = Basis {
    id: "fatigue_root",
    label: "Tab at its weakest cut, test's cycles",
    unit: "MPa",
    formula: "nominal range, N = 2·10⁶ (Δσ_C / Δσ)³, category 125 over 1.35",
    source: "EN 1993-1-9 table 8.1, machine-cut edge with fine drag lines, from memory",
    caution: "A sharp inner corner, a grinder's notch or a tack multiplies it: round it well and finish the edge along the force.",
};

/// The results on fatigue.
pub(super) fn fatigue(setup: &Setup, strength: &Strength, root: Option<&Weakest>) -> LoadGroup {
    let load = &setup.load;
    let stages = fatigue_stages(load.bicycle, load.scheme);
    let case = at_arm(FATIGUE_FORCE, arm_of(setup), String::new());
    let statics = Statics::of(setup, &case);
    let plate = Plate::of(setup, &statics);
    let share = if load.material == Material::Aluminium6061 { ALUMINIUM_SHARE } else { 1.0 };
    let judge = |basis: Basis, stress: f64, category: f64| judged(basis, stress, category, &stages);
    let mut results: Vec<LoadResult> = Vec::new();
    // The whole stress on the throat, whatever the rule for static loads.
    let rule = WeldRule::Allowable(1.0);
    if let Some(group) = tube_seams(setup)
        && let Some([stress, _]) = rule.worst(&group, Push::sum(&[statics.plate_on_tube], group.centroid()))
    {
        results.push(judge(WELD, stress, load.weld.category * share));
    }
    if let Some(joint) = joint(setup, &plate)
        && let Some([stress, _]) = joint_stress(setup, &plate, &rule, strength, &joint)
    {
        results.push(judge(JOINT, stress, load.weld.category * share));
    }
    // A root that bears nothing in its own case tells nothing of another.
    let cut = match root {
        Some(root) if root.stress.von_mises > 0.0 && load.case != LoadCase::Rider => weakest_from(&plate, root),
        Some(_) => weakest(&plate).into_iter().next().flatten(),
        None => None,
    };
    if let Some(cut) = cut {
        results.push(judge(ROOT, cut.stress.von_mises, CUT_EDGE * share));
    }
    let told =
        row(stages.iter().map(|stage| format!("{} N {} times", number(stage.force), number(stage.cycles))), ", then ");
    let mut note = format!("Always the standard's own test, whatever the case above: {told}, from nothing and back.");
    if share < 1.0 {
        note += " Aluminium counts with a third of the categories of steel.";
    }
    if setup.tab.build == Build::ButtWelded && load.weld.kind == WeldKind::Butt && load.weld.category < 71.0 {
        note += " A butt welded through from both sides may count with category 71 or 80.";
    }
    LoadGroup { id: "fatigue", label: "Fatigue test", note, results }
}

/// A range at 600 N against what the stages allow.
fn judged(basis: Basis, stress: f64, category: f64, stages: &[Stage]) -> LoadResult {
    let (per_newton, category) = (stress / FATIGUE_FORCE, category / PARTIAL);
    let most = stages.iter().map(|stage| stage.force).fold(0.0, f64::max);
    let range = per_newton * most;
    let cycles: f64 = stages.iter().map(|stage| stage.cycles).sum();
    if range <= 0.0 {
        return basis.told(0.0, "No stress, no fatigue.");
    }
    let damage = damage(stages, per_newton, category);
    let life = (cycles / damage).min(LONGEST_LIFE);
    let sentence = format!(
        "A range of {} MPa lasts about {} times; the test asks {}.",
        rounded(range, 0),
        rounded_life(life),
        number(cycles)
    );
    basis.against(range, range / damage.cbrt(), sentence)
}

/// A life to two digits: more would feign a knowledge nobody has.
fn rounded_life(life: f64) -> String {
    let step = 10.0_f64.powf(life.max(10.0).log10().floor() - 1.0);
    rounded((life / step).round() * step, 0)
}
