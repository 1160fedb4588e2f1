//! Any text as a setup's file: refused in words, or a setup that is told as it was read.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tabwright_core::{CaliperMeasured, Given, Setup};
use tabwright_fuzz::within_time;

/// No message repeats more than a line of what was given.
const MOST_MESSAGE_CHARS: usize = 1000;

fuzz_target!(|data: &[u8]| {
    let Ok(text) = std::str::from_utf8(data) else { return };
    within_time("reading", || match Setup::from_json(text) {
        Ok((setup, _)) => {
            let told = Given::from(&setup);
            let again = Setup::from_json(&told.to_string()).map(|(setup, _)| setup);
            assert_eq!(again.as_ref().ok(), Some(&setup), "{told}");
        }
        Err(problems) => {
            assert!(!problems.is_empty());
            for problem in problems {
                assert!(problem.message.chars().count() <= MOST_MESSAGE_CHARS, "{problem:?}");
            }
        }
    });
    if let Ok(given) = serde_json::from_str::<Given>(text)
        && let Ok(measured) = CaliperMeasured::read(&given)
    {
        let mut setup = Setup::default();
        if measured.put_into(&mut setup, true, true).is_ok() {
            assert!(setup.checked().is_ok(), "{text}");
        }
    }
});
