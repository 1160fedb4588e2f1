//! Least squares, ellipses and chance by themselves: certified fits, published streams and the laws of distributions.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on should stop")]

use serde_json::json;
use tabwright_core::build::{
    Chance, HoleDesign, Mean, Observed, Reading, Shape, ellipse, least_squares, means, normal_below, normal_between,
};
use tabwright_tests::tacked::{Part, SIGMAS};
use tabwright_tests::{assert_near, setup_with};

/// Radiated energy y = b₁ · x^b₂ of carbon filament lamps, with its certified fit: NIST, Statistical Reference Datasets,
/// DanWood; data of C. Daniel and F. S. Wood, Fitting Equations to Data, 1980, p. 428.
#[test]
fn a_certified_fit_is_found_from_both_certified_starts() {
    let x = [1.309, 1.471, 1.490, 1.565, 1.611, 1.680_f64];
    let y = [2.138, 3.421, 3.597, 4.340, 4.882, 5.660];
    // The certified standard deviation of the residuals makes the covariance that of the certified fit.
    let sigma = 3.285_311_403_9e-2;
    let observed = y.map(|value| Observed { value, sigma });
    for start in [[1.0, 5.0], [0.7, 4.0]] {
        let power = |at: &[f64; 2]| Some(x.iter().map(|x| at[0] * x.powf(at[1])).collect());
        let fitted = least_squares(start, &observed, power).unwrap();
        assert_near(fitted.at[0], 7.688_622_617_6e-1, 1e-7, "b₁");
        assert_near(fitted.at[1], 3.860_405_587_1, 1e-6, "b₂");
        assert_near(fitted.covariance[0][0].sqrt(), 1.828_197_386_0e-2, 1e-7, "standard deviation of b₁");
        assert_near(fitted.covariance[1][1].sqrt(), 5.172_661_091_3e-2, 1e-7, "standard deviation of b₂");
        let squares: f64 = fitted.residuals.iter().map(|residual| residual * residual).sum();
        assert_near(squares, 4.317_308_408_3e-3, 1e-9, "sum of squared residuals");
    }
}

/// H. H. Rosenbrock's valley, 1960: from (−1.2, 1) full steps overshoot; the least is at (1, 1).
#[test]
fn a_bent_valley_is_followed_to_its_end() {
    let observed = [Observed { value: 0.0, sigma: 1.0 }, Observed { value: 1.0, sigma: 1.0 }];
    let valley = |at: &[f64; 2]| Some(vec![10.0 * (at[1] - at[0] * at[0]), at[0]]);
    let fitted = least_squares([-1.2, 1.0], &observed, valley).unwrap();
    assert_near(fitted.at[0], 1.0, 1e-9, "x");
    assert_near(fitted.at[1], 1.0, 1e-9, "y");
    // Two unknowns and two observations: nothing checks either.
    assert_eq!(fitted.normalised, [None, None]);
}

/// Closed forms: the weights of a mean are 1/σ²; a residual's own variance is σ² less that of the mean.
#[test]
fn a_weighted_mean_and_its_residuals() {
    let given = [(3.0, 0.5), (4.0, 0.25), (3.2, 2.0)];
    let observed = given.map(|(value, sigma)| Observed { value, sigma });
    let fitted = least_squares([10.0], &observed, |at| Some(vec![at[0]; 3])).unwrap();
    let weight: f64 = given.iter().map(|(_, sigma)| sigma.powi(-2)).sum();
    let mean = given.iter().map(|(value, sigma)| value / (sigma * sigma)).sum::<f64>() / weight;
    assert_near(fitted.at[0], mean, 1e-9, "mean");
    assert_near(fitted.covariance[0][0], 1.0 / weight, 1e-9, "variance");
    for (place, (value, sigma)) in given.into_iter().enumerate() {
        assert_near(fitted.residuals[place], value - mean, 1e-9, "residual");
        let own = (sigma * sigma - 1.0 / weight).sqrt();
        assert_near(fitted.normalised[place].unwrap(), (value - mean) / own, 1e-7, "against its own deviation");
    }
}

/// e⁻ˣ falls for ever: each step is another 1, and no place is the least.
#[test]
fn what_never_settles_has_no_fit() {
    let observed = [Observed { value: 0.0, sigma: 1.0 }];
    assert_eq!(least_squares([0.0], &observed, |at| Some(vec![(-at[0]).exp()])), None);
    assert_eq!(least_squares([0.0], &observed, |at| (at[0] == 0.0).then(|| vec![1.0])), None);
}

/// A slope is seen a ten-thousandth to both sides, where derivatives are taken, but every step along it only loses.
#[test]
fn what_no_step_betters_has_no_fit() {
    let observed = [Observed { value: 1.0, sigma: 1.0 }];
    let trap = |at: &[f64; 1]| Some(vec![if at[0].abs() == 1e-4 { 1e-6 * at[0] } else { -1e3 * at[0].abs() }]);
    assert_eq!(least_squares([0.0], &observed, trap), None);
}

/// Five readings by hand: mean 8, squared deviations 9 + 4 + 0 + 4 + 9 = 26 over four of five, so s² = 6.5 and s²/5 = 1.3;
/// of two alike, the ± of a single one counts, over √2.
#[test]
fn a_mean_is_as_sure_as_its_readings_agree() {
    let wide = Mean::of(Reading::Neck1, &[5.0, 10.0, 8.0, 6.0, 11.0], 0.1);
    assert_near(wide.mean, 8.0, 1e-12, "mean");
    assert_near(wide.spread, 6.0, 1e-12, "spread");
    assert_near(wide.sigma, 1.3_f64.sqrt(), 1e-12, "standard deviation of the mean");
    let alike = Mean::of(Reading::Step1, &[-0.3, -0.3], 0.1);
    assert_near(alike.sigma, 0.1 / SIGMAS / 2.0_f64.sqrt(), 1e-12, "of two alike");
    assert_eq!((alike.spread, alike.given.len()), (0.0, 2));
    let lists: [&[f64]; 9] = [&[], &[1.0], &[], &[], &[2.0, 4.0], &[], &[], &[], &[9.0]];
    let read: Vec<(Reading, f64)> = means(lists, 0.1).iter().map(|mean| (mean.reading, mean.mean)).collect();
    assert_eq!(read, [(Reading::Hole2, 1.0), (Reading::Neck2, 3.0), (Reading::Tube, 9.0)]);
}

/// Both holes turned by an angle lie that arc about the axle at their root-mean-square distance, however large they are.
#[test]
fn holes_turned_about_the_axle_lie_an_arc_from_their_design() {
    for changes in
        [json!({"tab": {"clock": 75}}), json!({"side": "right", "caliper": {"holes": [[-31, 17], [22, 33]]}})]
    {
        let setup = setup_with(&changes);
        let (design, part) = (HoleDesign::of(&setup), Part::designed(&setup));
        let [one, other] = part.holes.map(|[back, up]| back * back + up * up);
        let radius = ((one + other) / 2.0).sqrt();
        for degrees in [-150.0, -3.0, 0.5, 20.0, 100.0_f64] {
            for scale in [0.7, 1.0, 1.3] {
                let [[b1, u1], [b2, u2]] = part.turned(degrees).holes.map(|hole| hole.map(|at| scale * at));
                assert_near(design.about(&[b1, u1, b2, u2]), degrees.to_radians() * radius, 1e-9, "arc");
            }
        }
        let [[b1, u1], [b2, u2]] = part.holes;
        assert_eq!(design.read(Reading::Step1, &[b1, u1, b2, u2]), 0.0, "no reading of the wheel plane");
        for (reading, value) in part.readings(&setup).into_iter().take(5) {
            assert_near(design.read(reading, &design.holes), value, 1e-9, "as designed");
        }
    }
}

/// An ellipse of constant chance is dᵀ·C⁻¹·d = −2 ln 0.05; its axes are C's own directions.
#[test]
fn an_ellipse_is_where_the_covariance_says() {
    let at = [31.0, -84.0];
    let limit = -2.0 * 0.05_f64.ln();
    for [bb, bu, uu] in [[0.04, 0.013, 0.011], [0.007, -0.011, 0.05], [0.02, 0.0, 0.03], [0.03, -0.002, 0.029]] {
        let found = ellipse(at, [[bb, bu], [bu, uu]]);
        let determinant = bb * uu - bu * bu;
        // Sum and product of the squared axes are trace and determinant.
        assert!(found.major > found.minor);
        assert_near(found.major.powi(2) + found.minor.powi(2), limit * (bb + uu), 1e-12, "trace");
        assert_near(found.major * found.minor, limit * determinant.sqrt(), 1e-12, "determinant");
        let (sin, cos) = found.angle.to_radians().sin_cos();
        let own = found.major.powi(2) / limit;
        assert_near(bb * cos + bu * sin, own * cos, 1e-12, "the longer axis, back");
        assert_near(bu * cos + uu * sin, own * sin, 1e-12, "the longer axis, up");
        for [back, up] in &found.outline {
            let (b, u) = (back - at[0], up - at[1]);
            assert_near((uu * b * b - 2.0 * bu * b * u + bb * u * u) / determinant, limit, 1e-9, "on the outline");
        }
        // Corners at equal steps of a circle, stretched: so many triangles from the middle.
        let next = found.outline.iter().cycle().skip(1);
        let twice: f64 = found.outline.iter().zip(next).map(|(a, b)| a[0] * b[1] - b[0] * a[1]).sum();
        let count = found.outline.len() as f64;
        let expected = count * (std::f64::consts::TAU / count).sin() * found.major * found.minor;
        assert_near(twice, expected, 1e-9, "twice the area");
    }
}

/// The first numbers of SplitMix64 from the seed 1234567, as its author's own code gives them (prng.di.unimi.it), of which
/// a share is the upper 53 bits.
#[test]
fn the_stream_is_the_published_one() {
    let published = [6_457_827_717_110_365_317_u64, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423];
    let mut chance = Chance::new(1_234_567);
    for number in published {
        assert_eq!(chance.share(), (number >> 11) as f64 / 9_007_199_254_740_992.0);
    }
}

/// A. Kolmogorov's distance between the shares drawn and those of the distribution passes 1.95/√n once in a thousand.
#[test]
fn draws_are_spread_as_their_shapes_say() {
    const DRAWS: usize = 50_000;
    let triangular = |x: f64| if x < 0.0 { (1.0 + x).powi(2) / 2.0 } else { 1.0 - (1.0 - x).powi(2) / 2.0 };
    for (shape, below) in [
        (Shape::Normal, &(|x: f64| normal_below(3.0 * x)) as &dyn Fn(f64) -> f64),
        (Shape::Uniform, &|x| (1.0 + x) / 2.0),
        (Shape::Triangular, &triangular),
    ] {
        let mut chance = Chance::new(17);
        let mut drawn: Vec<f64> = (0..DRAWS).map(|_| chance.draw(shape)).collect();
        drawn.sort_by(f64::total_cmp);
        let off = |(index, x): (usize, &f64)| ((index as f64 + 0.5) / DRAWS as f64 - below(*x)).abs();
        let farthest = drawn.iter().enumerate().map(off).fold(0.0, f64::max);
        assert!(farthest < 1.95 / (DRAWS as f64).sqrt(), "{shape:?}: {farthest}");
    }
}

/// Far out on either side alike, a share is a small number and not a difference of two near 1: 1 − Φ(8) = 6.220 961e-16.
#[test]
fn a_share_in_the_tail_keeps_its_digits() {
    for share in [normal_between(0.0, 1.0, 8.0, 30.0), normal_between(0.0, 1.0, -30.0, -8.0)] {
        assert_near(share / 6.220_961e-16, 1.0, 1e-6, "beyond eight standard deviations");
    }
    assert_near(normal_between(5.0, 2.0, 3.0, 9.0), 0.818_594_6, 1e-7, "one below to two above");
    // Nothing spread: the limits belong to the range.
    let inside = [2.0, 3.0, 1.9, 3.1].map(|mean| normal_between(mean, 0.0, 2.0, 3.0));
    assert_eq!(inside, [1.0, 1.0, 0.0, 0.0]);
}
