//! How long one report, one drawing and one reading of a file take: `cargo bench -p tabwright-core`.

use divan::{Bencher, black_box};
use tabwright_core::drawing::{View, draw};
use tabwright_core::load::loads;
use tabwright_core::search::{Fork, Rules, ring, what_if};
use tabwright_core::{Setup, report};

fn main() {
    divan::main();
}

#[divan::bench]
fn one_report(bencher: Bencher<'_, '_>) {
    let setup = Setup::default();
    bencher.bench(|| report(black_box(&setup)));
}

#[divan::bench(args = ["side", "section"])]
fn one_drawing(bencher: Bencher<'_, '_>, view: &str) {
    let setup = Setup::default();
    let view = if view == "side" { View::Side } else { View::Section };
    bencher.bench(|| draw(black_box(&setup), view));
}

#[divan::bench]
fn one_setup_from_json_text(bencher: Bencher<'_, '_>) {
    let text = serde_json::to_string(&Setup::default()).unwrap_or_default();
    bencher.bench(|| Setup::from_json(black_box(&text)));
}

#[divan::bench(args = [160.0, 180.0, 203.0])]
fn one_ring(bencher: Bencher<'_, '_>, rotor: f64) {
    let mut setup = Setup::default();
    setup.wheel.rotor_diameter = rotor;
    bencher.bench(|| ring(black_box(&setup)));
}

#[divan::bench]
fn one_what_if_cell(bencher: Bencher<'_, '_>) {
    let setup = Setup::default();
    bencher.bench(|| what_if(black_box(&setup), 180.0, 115.0, Fork::Kept, Rules::ALL));
}

#[divan::bench]
fn one_answer_on_loads(bencher: Bencher<'_, '_>) {
    let setup = Setup::default();
    bencher.bench(|| loads(black_box(&setup)));
}
