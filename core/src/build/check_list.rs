//! The order of the work, from the first tack to the cold weld.

use super::reading::Reading;
use crate::plain::plain;

/// One step of the work.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckStep {
    /// Stable name.
    pub key: &'static str,
    /// A few words.
    pub title: &'static str,
    /// What to do.
    pub text: &'static str,
    /// What to read at this step.
    pub readings: Vec<Reading>,
}

plain!(CheckStep { key, title, text, readings });

/// The check list, in the order of the work: common practice, no source.
pub(super) fn check_list() -> Vec<CheckStep> {
    let step = |key, title, text, readings: &[Reading]| CheckStep { key, title, text, readings: readings.to_vec() };
    vec![
        step(
            "clean",
            "Clean and dress",
            "Bright metal at every joint and on both faces of the tab; no burrs at holes and slot. Brake pads and rotor out of the way of spatter and grinding dust.",
            &[],
        ),
        step(
            "jig",
            "Set up on an axle",
            "Clamp the plate on a true axle or a dummy of the hub's width. Bolt the tab to a bar or a spare caliper, never to one that has to brake afterwards.",
            &[],
        ),
        step(
            "tack_1",
            "First tack, middle",
            "One small tack in the middle of the joint, then check that the tab can still be moved by hand pressure.",
            &[],
        ),
        step(
            "tack_2",
            "Second tack, opposite face",
            "One on the other face straight opposite, so that the two pull against each other.",
            &[],
        ),
        step(
            "tack_ends",
            "Tack both ends",
            "The end nearer to the holes first, then the other, each on alternate faces. Let it cool until it can be touched.",
            &[],
        ),
        step(
            "holes",
            "Measure the holes",
            "Pins or bolts in both holes, a plug on the axle: from pin to pin, less half of both diameters. Take each twice.",
            &[Reading::Hole1, Reading::Hole2, Reading::Spacing],
        ),
        step(
            "neck",
            "Measure from the neck",
            "A square on the neck's straight edge to each hole's centre. It tells where the tab lies round the axle.",
            &[Reading::Neck1, Reading::Neck2],
        ),
        step(
            "steps",
            "Measure the steps",
            "A straightedge flat on the plate, feelers or a depth gauge to the tab's face at each hole. Outboard counts as positive.",
            &[Reading::Step1, Reading::Step2],
        ),
        step(
            "wheel",
            "Wheel in, caliper mocked up",
            "Axle tight. Rotor's outer face to the tab's inner face halfway between the holes; then the caliper on by hand, its slot on the rotor, and the gap to the tube.",
            &[Reading::Rotor, Reading::Tube],
        ),
        step("decide", "Decide", "Follow the one advice. After any move, tack and measure anew from the start.", &[]),
        step(
            "weld",
            "Weld",
            "Wheel, caliper and anything with a bearing out. Short runs, faces in turn, from the ends towards the middle, with time to cool between.",
            &[],
        ),
        step(
            "again",
            "Measure again when cold",
            "All of it again into the second column: welds pull as they shrink.",
            &Reading::ALL,
        ),
        step(
            "proof",
            "Look and proof-test",
            "Look for cracks and undercut at the toes of the weld, dye if in doubt. Load it in a jig before anybody rides it.",
            &[],
        ),
    ]
}
