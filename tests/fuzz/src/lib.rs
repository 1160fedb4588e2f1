//! What the targets share: setups out of bytes, everything the core says of one, and its time.

#![allow(clippy::panic, reason = "what should not be ends a target")]

#[path = "../../src/answers.rs"]
pub mod answers;
#[path = "../../src/clock.rs"]
pub mod clock;
#[path = "../../src/draw.rs"]
pub mod draw;

use clock::processor_ms;

/// What concerns one setup takes no longer than this, in time of the processor, ms: 50, and three times as much with the
/// counters of the fuzzer built in.
pub const MOST_MS: f64 = 150.0;

/// Fails where `work` takes longer than [`MOST_MS`] each of ten times: on a machine with much to do, some of them are slow.
pub fn within_time(what: &str, work: impl Fn()) {
    let mut least = f64::MAX;
    for _ in 0..10 {
        let before = processor_ms();
        work();
        least = least.min(processor_ms() - before);
        if least <= MOST_MS {
            return;
        }
    }
    panic!("{what} takes {least:.0} ms");
}
