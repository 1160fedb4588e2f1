//! What the targets share: setups out of bytes, everything the core says of one, and its time.

#![allow(clippy::panic, reason = "what should not be ends a target")]

#[path = "../../src/answers.rs"]
pub mod answers;
#[path = "../../src/draw.rs"]
pub mod draw;

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

/// Time that this thread has had of a processor, ms; 0 where the system does not tell.
fn processor_ms() -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap_or_default();
    told.split(' ').next().and_then(|nanoseconds| nanoseconds.parse::<f64>().ok()).unwrap_or_default() / 1e6
}
