//! What helps a part that is outside a limit: shims, a hole filed long, or another place of the tab.

use super::advice::{Advice, AdviceKind, FileAdvice, Judged, MoveAdvice, ShimAdvice};
use super::as_built::built_misalignment;
use super::figures::{State, holes_of, level_of, slope_of};
use super::limits::{Limit, bolt_play, hole_diameter, own_spacing};
use crate::fit::{radial, tangential};
use crate::setup::{MatingFace, Mount};
use crate::solid::{NotConverged, Vector};
use crate::tolerance::AT_THE_LIMIT;
use crate::words::{fine_length, hundredths, row};

/// Common shims and washers, mm: common practice, no source.
pub const SHIMS: [f64; 7] = [0.1, 0.2, 0.25, 0.5, 1.0, 1.5, 2.0];
/// At most so many under one bolt: common practice, no source.
const MOST_PIECES: usize = 2;
/// Shims under the two bolts may differ by this, mm, before the bolts bend: common practice, no source.
const MOST_TAPER: f64 = 0.5;
/// The longest slot that is filed instead of moving the tab, mm, and what must be left from its end to the tab's edge:
/// common practice, no source.
const MOST_FILED: f64 = 1.5;
const LEAST_EDGE: f64 = 2.0;
/// Moves smaller than this are not spoken of, mm or degrees.
const WORTH_SAYING: f64 = 0.05;

impl Judged<'_> {
    /// Shims on the face that the caliper sits on; nothing where they do not help or there are posts.
    pub(super) fn shim(&self, outside: &[&Limit]) -> Result<Option<Advice>, NotConverged> {
        let keys: Vec<&str> = outside.iter().map(|limit| limit.key).collect();
        if self.setup.caliper.mount == Mount::Post || !(keys.contains(&"sideways") || keys.contains(&"tilt")) {
            return Ok(None);
        }
        // Away from the face: inboard of an inner one, outboard of an outer one.
        let way = match self.setup.caliper.mating_face {
            MatingFace::Inner => -1.0,
            MatingFace::Outer => 1.0,
        };
        let shimmed = |[first, second]: [f64; 2]| {
            let mut state = *self.state;
            state[4] += way * first;
            state[5] += way * second;
            state
        };
        let misalignment = |state: &State| built_misalignment(self.setup, level_of(state));
        let spacing = own_spacing(self.setup);
        let packs = packs();
        let mut choices: Vec<(f64, usize, usize, usize)> = Vec::new();
        for (one, first) in packs.iter().enumerate() {
            for (other, second) in packs.iter().enumerate() {
                // A tab that is only tacked is set straight instead.
                let is_straight = one == other;
                if one + other == 0 || !(is_straight || self.welded && (first.0 - second.0).abs() <= MOST_TAPER) {
                    continue;
                }
                let state = shimmed([first.0, second.0]);
                let off = misalignment(&state).hypot(slope_of(&state) * spacing);
                choices.push((off, first.1.len() + second.1.len(), one, other));
            }
        }
        // Nearest first; of what is equally near, the fewest pieces; straight before tapered.
        choices.sort_by(|one, other| {
            let straight = |choice: &(f64, usize, usize, usize)| choice.2 != choice.3;
            straight(one).cmp(&straight(other)).then(one.0.total_cmp(&other.0)).then(one.1.cmp(&other.1))
        });
        let straight = choices.iter().find(|choice| choice.2 == choice.3);
        let tapered = choices.iter().find(|choice| choice.2 != choice.3);
        for &(_, _, one, other) in [straight, tapered].into_iter().flatten() {
            let thickness = [packs[one].0, packs[other].0];
            let state = shimmed(thickness);
            if !self.keeps(&state)? {
                continue;
            }
            let shim = ShimAdvice {
                thickness,
                pieces: [packs[one].1.clone(), packs[other].1.clone()],
                misalignment: misalignment(&state),
                tilt: slope_of(&state).atan().to_degrees(),
            };
            let under = |hole: usize| {
                let pieces = row(shim.pieces[hole].iter().map(|piece| fine_length(*piece)), " + ");
                format!("{} ({pieces})", fine_length(thickness[hole]))
            };
            let (title, put) = if one == other {
                (format!("Shim by {}", fine_length(thickness[0])), format!("{} under both bolts", under(0)))
            } else if thickness[0] == 0.0 {
                (
                    format!("Shim hole 2 by {}", fine_length(thickness[1])),
                    format!("{} under the bolt of hole 2", under(1)),
                )
            } else if thickness[1] == 0.0 {
                (
                    format!("Shim hole 1 by {}", fine_length(thickness[0])),
                    format!("{} under the bolt of hole 1", under(0)),
                )
            } else {
                (
                    format!("Shim by {} and {}", fine_length(thickness[0]), fine_length(thickness[1])),
                    format!("{} under hole 1 and {} under hole 2", under(0), under(1)),
                )
            };
            let rest = format!(
                "Between tab and caliper put {put}; the slot then lies {} from the rotor. Bolts must still reach through.{}",
                fine_length(shim.misalignment.abs()),
                if self.welded { "" } else { " With that it can be welded." },
            );
            return Ok(Some(Advice { shim: Some(shim), ..Advice::plain(AdviceKind::Shim, &title, rest) }));
        }
        Ok(None)
    }

    /// One hole made long, towards its designed place or along the line of the holes to the caliper's own spacing.
    pub(super) fn file(&self) -> Result<Option<Advice>, NotConverged> {
        let setup = self.setup;
        if setup.caliper.mount == Mount::Post {
            return Ok(None);
        }
        let [b1, u1, b2, u2] = holes_of(self.state);
        let spacing = (b2 - b1).hypot(u2 - u1);
        let along = [(b2 - b1) / spacing, (u2 - u1) / spacing];
        let own = own_spacing(setup);
        let line = [[b2 - along[0] * own, u2 - along[1] * own], [b1 + along[0] * own, u1 + along[1] * own]];
        let places = [[b1, u1], [b2, u2]];
        let mut best: Option<FileAdvice> = None;
        for hole in 0..2 {
            let designed = [self.designed_state[2 * hole], self.designed_state[2 * hole + 1]];
            for target in [line[hole], designed] {
                let by = [target[0] - places[hole][0], target[1] - places[hole][1]];
                let amount = by[0].hypot(by[1]);
                let room = setup.tab.edge - hole_diameter(setup.caliper.bolt.size) / 2.0 - LEAST_EDGE;
                let is_shorter = best.as_ref().is_none_or(|best| amount < best.amount);
                if amount < AT_THE_LIMIT || amount > MOST_FILED.min(room) || !is_shorter {
                    continue;
                }
                let mut state = *self.state;
                (state[2 * hole], state[2 * hole + 1]) = (target[0], target[1]);
                if self.keeps(&state)? {
                    let direction = [by[0] / amount, by[1] / amount];
                    let towards = self.towards(hole, along, direction);
                    best = Some(FileAdvice { hole: hole as f64 + 1.0, amount, direction, towards });
                }
            }
        }
        Ok(best.map(|file| {
            let (hole, amount) = (if file.hole == 1.0 { "1" } else { "2" }, fine_length(file.amount));
            let text = format!(
                "File hole {hole} long by {amount}, {}. The bolts' play is {}. Put a hardened washer over the slot.{}",
                file.towards,
                fine_length(bolt_play(setup.caliper.bolt.size)),
                if self.welded { "" } else { " With that it can be welded." },
            );
            let title = format!("File hole {hole} by {amount}");
            Advice { file: Some(file), ..Advice::plain(AdviceKind::File, &title, text) }
        }))
    }

    /// A direction in words: along the holes, away from or towards the axle, or backwards and upwards.
    fn towards(&self, hole: usize, along: [f64; 2], [back, up]: [f64; 2]) -> String {
        const NEARLY: f64 = 0.9;
        let at = [self.state[2 * hole], self.state[2 * hole + 1]];
        let outward = (back * at[0] + up * at[1]) / at[0].hypot(at[1]);
        let to_other = (back * along[0] + up * along[1]) * if hole == 0 { 1.0 } else { -1.0 };
        let other = if hole == 0 { "2" } else { "1" };
        if to_other > NEARLY {
            format!("towards hole {other}")
        } else if to_other < -NEARLY {
            format!("away from hole {other}")
        } else if outward > NEARLY {
            "away from the axle".to_owned()
        } else if outward < -NEARLY {
            "towards the axle".to_owned()
        } else {
            let parts = [(back, ["backwards", "forwards"]), (up, ["up the leg", "down the leg"])];
            let part = |(size, [more, less]): (f64, [&str; 2])| {
                (size.abs() > 0.3).then(|| (if size > 0.0 { more } else { less }).to_owned())
            };
            row(parts.into_iter().filter_map(part), " and ")
        }
    }

    pub(super) fn move_tab(&self, outside: &[&Limit]) -> Advice {
        let (built, wanted) = (self.state, self.designed_state);
        let middle = |state: &State| [(state[0] + state[2]) / 2.0, (state[1] + state[3]) / 2.0];
        let (from, to) = (middle(built), middle(wanted));
        let (back, up) = (to[0] - from[0], to[1] - from[1]);
        let along = |state: &State| [state[2] - state[0], state[3] - state[1]];
        let (now, then) = (along(built), along(wanted));
        // Growing clock angles turn from up towards back.
        let turn = (then[0] * now[1] - then[1] * now[0]).atan2(then[0] * now[0] + then[1] * now[1]).to_degrees();
        let clock = to[0].atan2(to[1]).to_degrees();
        let (outward, around) = (radial(clock), tangential(clock));
        let by = Vector::new(back, up, 0.0);
        let slope = slope_of(built);
        let misalignment = built_misalignment(self.setup, level_of(built));
        let r#move = MoveAdvice {
            back,
            up,
            radial: by.dot(outward),
            tangential: by.dot(around),
            out: -misalignment,
            tilt: -slope.atan().to_degrees(),
            turn,
        };
        let either = |size: f64, more: &str, less: &str| {
            (size.abs() >= WORTH_SAYING).then(|| fine_length(size.abs()) + if size > 0.0 { more } else { less })
        };
        let angle = |size: f64, more: &str, less: &str| {
            (size.abs() >= WORTH_SAYING).then(|| hundredths(size.abs()) + "°" + if size > 0.0 { more } else { less })
        };
        let parts = [
            either(back, " backwards", " forwards"),
            either(up, " up the leg", " down the leg"),
            either(r#move.out, " outboard", " inboard"),
            angle(r#move.tilt, " so that hole 2 goes outboard", " so that hole 2 goes inboard"),
            angle(turn, " turned towards growing clock angles", " turned towards falling clock angles"),
        ];
        let parts = row(parts.into_iter().flatten(), ", ");
        let why = row(outside.iter().map(|limit| limit.sentence.clone()), " ");
        let spacing = if outside.iter().any(|limit| limit.key == "spacing") {
            " The holes' spacing stays as it is: drill the tab anew if it is too far off."
        } else {
            ""
        };
        let (title, first) = if self.welded {
            ("Cut it off and weld it anew", "Not good as welded.")
        } else {
            ("Break the tack and move the tab", "Do not weld it so.")
        };
        let text = format!("{first} {why} Move the tab at the middle between its holes: {parts}.{spacing}");
        Advice { r#move: Some(r#move), ..Advice::plain(AdviceKind::Break, title, text) }
    }
}

/// Every thickness that common shims give, nothing included, with its pieces, the thinnest first.
fn packs() -> Vec<(f64, Vec<f64>)> {
    let mut all: Vec<(f64, Vec<f64>)> = vec![(0.0, Vec::new())];
    for _ in 0..MOST_PIECES {
        for (sum, pieces) in all.clone() {
            for piece in SHIMS {
                let sum = sum + piece;
                if !all.iter().any(|(other, _)| (other - sum).abs() < AT_THE_LIMIT) {
                    all.push((sum, pieces.iter().copied().chain([piece]).collect()));
                }
            }
        }
    }
    all.sort_by(|one, other| one.0.total_cmp(&other.0));
    all
}
