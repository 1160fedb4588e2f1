//! Which mutant is on. Only in copies made for mutation testing.

use std::sync::atomic::{AtomicU32, AtomicU64, Ordering::Relaxed};

/// The environment names the mutant that is on, or a file to write to which mutants were come by.
const NOT_ASKED: u32 = u32::MAX;
const RECORDING: u32 = u32::MAX - 1;

static ON: AtomicU32 = AtomicU32::new(NOT_ASKED);
static REACHED: [AtomicU64; 512] = [const { AtomicU64::new(0) }; 512];

unsafe extern "C" {
    fn atexit(call: extern "C" fn()) -> i32;
}

/// Whether a mutant is on.
#[inline]
pub fn is(mutant: u32) -> bool {
    let on = ON.load(Relaxed);
    if on >= RECORDING { seldom(mutant) } else { on == mutant }
}

#[cold]
fn seldom(mutant: u32) -> bool {
    if ON.load(Relaxed) == NOT_ASKED {
        static ONCE: std::sync::Once = std::sync::Once::new();
        ONCE.call_once(|| {
            let on = if std::env::var_os("MUTANTS_REACHED").is_some() {
                // SAFETY: the function registered touches nothing but statics, the environment and a file.
                unsafe { atexit(write) };
                RECORDING
            } else {
                std::env::var("MUTANT").ok().and_then(|text| text.parse().ok()).unwrap_or(0)
            };
            ON.store(on, Relaxed);
        });
    }
    if ON.load(Relaxed) == RECORDING {
        REACHED[mutant as usize / 64].fetch_or(1 << (mutant % 64), Relaxed);
        return false;
    }
    ON.load(Relaxed) == mutant
}

extern "C" fn write() {
    let Some(file) = std::env::var_os("MUTANTS_REACHED") else {
        return;
    };
    let is_set = |mutant: &u32| REACHED[*mutant as usize / 64].load(Relaxed) & (1 << (mutant % 64)) != 0;
    let text: String = (0..REACHED.len() as u32 * 64).filter(is_set).map(|mutant| format!("{mutant}\n")).collect();
    let _ = std::fs::write(file, text);
}
