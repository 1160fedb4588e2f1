//! Weighted least squares with a few unknowns.

/// Steps of the search at most; a search that has not settled by then has none.
const MOST_STEPS: u32 = 200;
/// Derivatives are taken over this much either way, mm: small against any bend of the model, large against rounding.
const DIFFERENCE: f64 = 1e-4;
/// A step shorter than this ends the search, mm.
const SETTLED: f64 = 1e-11;
/// The search gives up where even such damping gains nothing.
const MOST_DAMPING: f64 = 1e12;
/// A pivot below this share of its row's own weight is none: the unknown hangs on another.
const LEAST_PIVOT: f64 = 1e-12;

/// One number that was observed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observed {
    /// What it was.
    pub value: f64,
    /// Its standard deviation, above 0.
    pub sigma: f64,
}

/// The unknowns that fit a set of observations best.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted<const N: usize> {
    /// The unknowns.
    pub at: [f64; N],
    /// Their covariance: the inverse of the weighted normal matrix.
    pub covariance: [[f64; N]; N],
    /// Observed less fitted, in the order of the observations.
    pub residuals: Vec<f64>,
    /// Each residual against its own standard deviation; none where nothing checks the observation.
    pub normalised: Vec<Option<f64>>,
}

/// An observation with less than this share of itself left over is checked by nothing.
const UNCHECKED: f64 = 1e-6;

/// Least sum of squared residuals, each against its standard deviation, from a start near enough (Levenberg, Marquardt).
///
/// `model` gives what would be observed at the unknowns, in the order of `observed`, and nothing where it cannot say.
/// None where the search does not settle or the observations do not fix every unknown.
///
/// Normalised residuals are W. Baarda's w (A testing procedure for use in geodetic networks, 1968, from memory).
pub fn least_squares<const N: usize>(
    start: [f64; N],
    observed: &[Observed],
    model: impl Fn(&[f64; N]) -> Option<Vec<f64>>,
) -> Option<Fitted<N>> {
    let residuals = |at: &[f64; N]| -> Option<Vec<f64>> {
        let weighted: Vec<f64> =
            observed.iter().zip(model(at)?).map(|(one, fitted)| (one.value - fitted) / one.sigma).collect();
        weighted.iter().all(|residual| residual.is_finite()).then_some(weighted)
    };
    let cost = |residuals: &[f64]| residuals.iter().map(|residual| residual * residual).sum::<f64>();
    let mut at = start;
    let mut left = residuals(&at)?;
    let mut damping = 1e-6;
    let mut is_settled = false;
    for _ in 0..MOST_STEPS {
        let rows = rows(&at, observed, &model)?;
        let (normal, gradient) = normal_equations(&rows, &left);
        loop {
            let mut damped = normal;
            for (index, row) in damped.iter_mut().enumerate() {
                row[index] *= 1.0 + damping;
            }
            let step = solve(&damped, gradient);
            let next = step.map(|step| std::array::from_fn(|index| at[index] + step[index]));
            let tried = next.and_then(|next| residuals(&next).map(|residuals| (next, residuals)));
            let longest = step.map_or(f64::INFINITY, |step| step.iter().fold(0.0, |most: f64, by| most.max(by.abs())));
            match tried {
                Some((next, found)) if cost(&found) <= cost(&left) => {
                    (at, left) = (next, found);
                    damping = (damping / 10.0).max(1e-15);
                    is_settled = longest < SETTLED;
                    break;
                }
                // Nothing left to gain but rounding.
                _ if longest < SETTLED.sqrt() / 100.0 => {
                    is_settled = true;
                    break;
                }
                _ if damping > MOST_DAMPING => return None,
                _ => damping = (damping * 10.0).max(1e-9),
            }
        }
        if is_settled {
            break;
        }
    }
    if !is_settled {
        return None;
    }
    let rows = rows(&at, observed, &model)?;
    let covariance = inverse(&normal_equations(&rows, &left).0)?;
    let normalised = rows.iter().zip(&left).map(|(row, residual)| {
        // What the other observations leave of this one's own say.
        let rest = 1.0 - quadratic(&covariance, row);
        (rest > UNCHECKED).then(|| residual / rest.sqrt())
    });
    Some(Fitted {
        at,
        covariance,
        normalised: normalised.collect(),
        residuals: left.iter().zip(observed).map(|(residual, one)| residual * one.sigma).collect(),
    })
}

/// The covariance that observations with these standard deviations would give at a place; none where they do not fix it.
pub(super) fn covariance_at<const N: usize>(
    at: &[f64; N],
    observed: &[Observed],
    model: impl Fn(&[f64; N]) -> Option<Vec<f64>>,
) -> Option<[[f64; N]; N]> {
    let rows = rows(at, observed, &model)?;
    inverse(&normal_equations(&rows, &vec![0.0; rows.len()]).0)
}

/// Derivatives of every observation by every unknown, each against its standard deviation.
fn rows<const N: usize>(
    at: &[f64; N],
    observed: &[Observed],
    model: &impl Fn(&[f64; N]) -> Option<Vec<f64>>,
) -> Option<Vec<[f64; N]>> {
    let mut rows = vec![[0.0; N]; observed.len()];
    for unknown in 0..N {
        let beside = |by: f64| {
            let mut other = *at;
            other[unknown] += by;
            model(&other)
        };
        let (more, less) = (beside(DIFFERENCE)?, beside(-DIFFERENCE)?);
        for ((row, one), (more, less)) in rows.iter_mut().zip(observed).zip(more.iter().zip(&less)) {
            row[unknown] = (more - less) / (2.0 * DIFFERENCE) / one.sigma;
        }
    }
    Some(rows)
}

fn normal_equations<const N: usize>(rows: &[[f64; N]], residuals: &[f64]) -> ([[f64; N]; N], [f64; N]) {
    let (mut normal, mut gradient) = ([[0.0; N]; N], [0.0; N]);
    for (row, residual) in rows.iter().zip(residuals) {
        for i in 0..N {
            gradient[i] += row[i] * residual;
            for j in 0..N {
                normal[i][j] += row[i] * row[j];
            }
        }
    }
    (normal, gradient)
}

/// vᵀ · M · v.
pub(super) fn quadratic<const N: usize>(matrix: &[[f64; N]; N], vector: &[f64; N]) -> f64 {
    let line = |row: &[f64; N]| row.iter().zip(vector).map(|(one, other)| one * other).sum::<f64>();
    matrix.iter().zip(vector).map(|(row, factor)| line(row) * factor).sum()
}

/// The lower triangle L of a symmetric positive matrix, M = L · Lᵀ; none where it is not positive (Cholesky).
fn triangle<const N: usize>(matrix: &[[f64; N]; N]) -> Option<[[f64; N]; N]> {
    let mut lower = [[0.0; N]; N];
    for i in 0..N {
        for j in 0..=i {
            let sum: f64 = (0..j).map(|k| lower[i][k] * lower[j][k]).sum();
            let rest = matrix[i][j] - sum;
            if i == j {
                let is_pivot = rest > matrix[i][i] * LEAST_PIVOT && rest.is_finite();
                lower[i][i] = is_pivot.then(|| rest.sqrt())?;
            } else {
                lower[i][j] = rest / lower[j][j];
            }
        }
    }
    Some(lower)
}

fn solve<const N: usize>(matrix: &[[f64; N]; N], mut right: [f64; N]) -> Option<[f64; N]> {
    let lower = triangle(matrix)?;
    for i in 0..N {
        let sum: f64 = (0..i).map(|k| lower[i][k] * right[k]).sum();
        right[i] = (right[i] - sum) / lower[i][i];
    }
    for i in (0..N).rev() {
        let sum: f64 = (i + 1..N).map(|k| lower[k][i] * right[k]).sum();
        right[i] = (right[i] - sum) / lower[i][i];
    }
    Some(right)
}

fn inverse<const N: usize>(matrix: &[[f64; N]; N]) -> Option<[[f64; N]; N]> {
    let mut columns = [[0.0; N]; N];
    for (index, column) in columns.iter_mut().enumerate() {
        let mut unit = [0.0; N];
        unit[index] = 1.0;
        *column = solve(matrix, unit)?;
    }
    // Symmetric, so columns are rows.
    Some(columns)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A straight line through points: the textbook normal equations, worked by hand for x = 0, 1, 2, 3.
    #[test]
    fn a_straight_line_through_four_points() {
        let observed = [1.0, 3.0, 2.0, 6.0].map(|value| Observed { value, sigma: 0.5 });
        let line = |at: &[f64; 2]| Some((0..4).map(|x| at[0] + at[1] * f64::from(x)).collect());
        let fitted = least_squares([0.0, 0.0], &observed, line);
        // Slope = (4·(0+3+4+18) − 6·12) / (4·14 − 36) = 1.4, start = (12 − 1.4·6) / 4 = 0.9; (AᵀA)⁻¹ = [14, −6; −6, 4] / 20.
        let Some(fitted) = fitted else { unreachable!("a line has a fit") };
        assert!((fitted.at[1] - 1.4).abs() < 1e-9 && (fitted.at[0] - 0.9).abs() < 1e-9, "{fitted:?}");
        for (row, by_hand) in fitted.covariance.iter().zip([[0.7, -0.3], [-0.3, 0.2]]) {
            for (got, by_hand) in row.iter().zip(by_hand) {
                assert!((got - by_hand * 0.25).abs() < 1e-9, "{fitted:?}");
            }
        }
    }

    #[test]
    fn what_is_not_fixed_has_no_fit() {
        let observed = [Observed { value: 1.0, sigma: 1.0 }; 2];
        assert_eq!(least_squares([0.0, 0.0], &observed, |at| Some(vec![at[0] + at[1]; 2])), None);
        assert_eq!(least_squares([0.0], &[Observed { value: f64::NAN, sigma: 1.0 }], |at| Some(vec![at[0]])), None);
    }
}
