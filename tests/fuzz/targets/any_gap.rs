//! Any two solids, tiny and huge, apart, touching and deep in each other: the gap is certified, the same both ways round.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tabwright_core::solid::{Disc, Gap, Method, Slab, Solid, Spool, Vector, gap};
use tabwright_core::tolerance::CERTIFIED_GAP;
use tabwright_fuzz::draw::{Bytes, Source};
use tabwright_fuzz::within_time;

/// Whole numbers, which make faces touch, and others.
fn length(source: &mut Bytes<'_>, most: f64) -> f64 {
    let scale = [most, most, 10.0, 1e-6][source.below(4)];
    let value = source.between(-scale, scale);
    if source.below(2) == 0 { value.round() } else { value }
}

fn solid(source: &mut Bytes<'_>) -> Solid {
    let at = |source: &mut Bytes<'_>| Vector::new(length(source, 400.0), length(source, 400.0), length(source, 400.0));
    if source.below(2) == 0 {
        let count = 1 + source.below(6);
        let discs =
            (0..count).map(|_| Disc::new(length(source, 400.0), length(source, 400.0), length(source, 200.0).abs()));
        let discs = discs.collect();
        let low = length(source, 400.0);
        return Slab { discs, low, high: low + length(source, 300.0).abs() }.into();
    }
    let start = at(source);
    let axis = [Vector::X, Vector::Y, Vector::Z, at(source).try_normalize().unwrap_or(Vector::Z)][source.below(4)];
    let radii = [length(source, 400.0).abs(), length(source, 400.0).abs()];
    Spool { ends: [start, start + axis * length(source, 400.0).abs()], axis, radii }.into()
}

/// The last resort, which is uncertified, agrees with itself to this, mm.
const SEARCHED: f64 = 0.01;

fuzz_target!(|data: &[u8]| {
    let mut source = Bytes(data);
    let [one, other] = [solid(&mut source), solid(&mut source)];
    within_time("a gap", || {
        let (Ok(here), Ok(there)) = (gap(&one, &other), gap(&other, &one)) else {
            panic!("no gap of {one:?} and {other:?}")
        };
        for Gap { distance, points, normal, .. } in [here, there] {
            assert!(distance.is_finite() && normal.is_finite() && points.iter().all(|point| point.is_finite()));
        }
        let allowed = if here.method == Method::Search { SEARCHED } else { 2.0 * CERTIFIED_GAP };
        assert!(
            (here.distance - there.distance).abs() <= allowed,
            "{here:?} and {there:?} of {one:?} and {other:?}"
        );
    });
});
