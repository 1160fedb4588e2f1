//! Any setup over the hard ranges: everything that the core says of it is finite, and said in time.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tabwright_fuzz::answers::{QUESTIONS, assert_sound};
use tabwright_fuzz::draw::{Bytes, Source, setup};
use tabwright_fuzz::within_time;

fuzz_target!(|data: &[u8]| {
    let mut source = Bytes(data);
    let question = &QUESTIONS[source.below(QUESTIONS.len())];
    let share = [1.0, 0.5, 0.2][source.below(3)];
    let Some(setup) = setup(&mut source, share) else { return };
    if question.is_search {
        assert_sound(&setup, question);
    } else {
        within_time(question.name, || assert_sound(&setup, question));
    }
});
