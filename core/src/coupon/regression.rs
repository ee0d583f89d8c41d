use libm::{erfc, exp, log};
use nalgebra::{DMatrix, DVector};

use super::student::{chi_squared_quantile, student_quantile};

/// A linear model `y = X b + s e` with normal e, fitted to tests of which some only say "at least y".
#[derive(Debug, Clone, PartialEq)]
pub struct Regression {
    /// Coefficients, one a column of X.
    pub coefficients: Vec<f64>,
    /// Standard deviation of y about the line. Without run-outs the unbiased one (ASTM E739); with run-outs the maximum of
    /// the likelihood, corrected for the coefficients in the same way.
    pub deviation: f64,
    /// The maximum of the likelihood itself.
    pub likeliest_deviation: f64,
    /// Covariance of the coefficients.
    pub covariance: DMatrix<f64>,
    /// Tests that failed.
    pub failures: usize,
    /// Run-outs.
    pub run_outs: usize,
}

impl Regression {
    /// Fits by least squares, or by maximum likelihood where there are run-outs (Nelson, Accelerated Testing).
    ///
    /// Row k of `rows` belongs to `y[k]`; where `run_out[k]` the true value is known to be greater. `None` where the rows
    /// do not determine the coefficients or fewer tests failed than there are coefficients and one more.
    pub fn new(rows: &[Vec<f64>], y: &[f64], run_out: &[bool]) -> Option<Self> {
        let count = rows.len();
        let columns = rows.first()?.len();
        let failures = run_out.iter().filter(|out| !**out).count();
        if columns == 0 || y.len() != count || run_out.len() != count || failures <= columns {
            return None;
        }
        let matrix = DMatrix::from_fn(count, columns, |r, c| rows[r][c]);
        // Columns of one size, so that the normal equations keep their digits.
        let sizes: Vec<f64> = (0..columns).map(|c| matrix.column(c).norm()).collect();
        if sizes.iter().any(|size| !size.is_finite() || *size <= 0.0) {
            return None;
        }
        let scaled = DMatrix::from_fn(count, columns, |r, c| matrix[(r, c)] / sizes[c]);
        let whole = least_squares(&scaled, y)?;
        let fit = if failures == count { whole } else { likeliest(&scaled, y, run_out, &whole)? };
        let freedom = (failures - columns) as f64;
        let corrected = if failures == count {
            (fit.squares / freedom).sqrt()
        } else {
            fit.deviation * (failures as f64 / freedom).sqrt()
        };
        let inflate = corrected / fit.deviation;
        let covariance = DMatrix::from_fn(columns, columns, |r, c| {
            fit.covariance[(r, c)] * inflate * inflate / (sizes[r] * sizes[c])
        });
        Some(Self {
            coefficients: (0..columns).map(|c| fit.coefficients[c] / sizes[c]).collect(),
            deviation: corrected,
            likeliest_deviation: fit.deviation,
            covariance,
            failures,
            run_outs: count - failures,
        })
    }

    /// Degrees of freedom: tests that failed less coefficients.
    pub fn freedom(&self) -> usize {
        self.failures - self.coefficients.len()
    }

    /// Standard error of a coefficient.
    pub fn standard_error(&self, coefficient: usize) -> f64 {
        self.covariance[(coefficient, coefficient)].max(0.0).sqrt()
    }

    /// Range of a coefficient with a confidence from 0 to 1, by Student's t.
    pub fn range(&self, coefficient: usize, confidence: f64) -> (f64, f64) {
        let reach = self.t(confidence) * self.standard_error(coefficient);
        (self.coefficients[coefficient] - reach, self.coefficients[coefficient] + reach)
    }

    /// Student's t either side of nought for a confidence.
    pub fn t(&self, confidence: f64) -> f64 {
        student_quantile(f64::midpoint(1.0, confidence), self.freedom()).unwrap_or(f64::INFINITY)
    }

    /// Range of the deviation with a confidence, by chi-squared.
    pub fn deviation_range(&self, confidence: f64) -> (f64, f64) {
        let freedom = self.freedom();
        let of = |probability: f64| {
            let quantile = chi_squared_quantile(probability, freedom).unwrap_or(freedom as f64);
            self.deviation * (freedom as f64 / quantile).sqrt()
        };
        (of(f64::midpoint(1.0, confidence)), of((1.0 - confidence) / 2.0))
    }

    /// The line at a row of X.
    pub fn at(&self, row: &[f64]) -> f64 {
        row.iter().zip(&self.coefficients).map(|(x, b)| x * b).sum()
    }

    /// Half the width of the band that holds the whole line with a confidence, at a row of X: `sqrt(p F)` standard errors
    /// (ASTM E739 for two coefficients). F with two upper degrees has a closed form; for another number of coefficients the
    /// range at one row is given, by Student's t.
    pub fn band(&self, row: &[f64], confidence: f64) -> f64 {
        let x = DVector::from_column_slice(row);
        let error = x.dot(&(&self.covariance * &x)).max(0.0).sqrt();
        let factor = if self.coefficients.len() == 2 {
            let freedom = self.freedom() as f64;
            // P(F > f) = (1 + 2 f / n)^(-n/2).
            let f = freedom / 2.0 * (libm::pow(1.0 - confidence, -2.0 / freedom) - 1.0);
            (2.0 * f).sqrt()
        } else {
            self.t(confidence)
        };
        factor * error
    }
}

struct Raw {
    coefficients: DVector<f64>,
    deviation: f64,
    squares: f64,
    covariance: DMatrix<f64>,
}

fn least_squares(x: &DMatrix<f64>, y: &[f64]) -> Option<Raw> {
    let y = DVector::from_column_slice(y);
    let svd = x.clone().svd(true, true);
    let largest = svd.singular_values.max();
    if svd.singular_values.min() <= 1e-9 * largest {
        return None;
    }
    let coefficients = svd.solve(&y, 0.0).ok()?;
    let squares = (x * &coefficients - &y).norm_squared();
    let deviation = (squares / y.len() as f64).sqrt().max(1e-12);
    let inverse = (x.transpose() * x).cholesky()?.inverse();
    Some(Raw { coefficients, deviation, squares, covariance: inverse * (deviation * deviation) })
}

/// Newton on Olsen's parameters `b/s` and `1/s`, in which the logarithm of the likelihood is concave (Olsen 1978,
/// Econometrica 46, 1211): from any start it cannot miss.
fn likeliest(x: &DMatrix<f64>, y: &[f64], run_out: &[bool], start: &Raw) -> Option<Raw> {
    let (count, columns) = (x.nrows(), x.ncols());
    let mut at = DVector::zeros(columns + 1);
    for c in 0..columns {
        at[c] = start.coefficients[c] / start.deviation;
    }
    at[columns] = 1.0 / start.deviation;
    let residual =
        |at: &DVector<f64>, k: usize| at[columns] * y[k] - (0..columns).map(|c| at[c] * x[(k, c)]).sum::<f64>();
    let likelihood = |at: &DVector<f64>| -> f64 {
        if at[columns] <= 0.0 {
            return f64::NEG_INFINITY;
        }
        (0..count)
            .map(|k| {
                let z = residual(at, k);
                if run_out[k] { ln_above(z) } else { log(at[columns]) - 0.5 * z * z }
            })
            .sum()
    };
    let mut value = likelihood(&at);
    let mut hessian = DMatrix::zeros(columns + 1, columns + 1);
    for _ in 0..100 {
        let gradient = derivatives(&mut hessian, (x, y, run_out), &at, &residual);
        let step = (-&hessian).cholesky()?.solve(&gradient);
        let mut size = 1.0;
        let mut next = &at + &step;
        let mut better = likelihood(&next);
        while better < value && size > 1e-10 {
            size /= 2.0;
            next = &at + &step * size;
            better = likelihood(&next);
        }
        let moved = (&step * size).norm() / at.norm();
        (at, value) = (next, better.max(value));
        if moved < 1e-13 {
            break;
        }
    }
    let deviation = 1.0 / at[columns];
    // From Olsen's parameters to coefficients: b = g / h, so db = (dg - b dh) / h.
    let inverse = (-&hessian).cholesky()?.inverse();
    let coefficients = DVector::from_fn(columns, |c, _| at[c] * deviation);
    let turn = DMatrix::from_fn(columns, columns + 1, |r, c| {
        if c == columns { -coefficients[r] * deviation } else { f64::from(u8::from(r == c)) * deviation }
    });
    let covariance = &turn * inverse * turn.transpose();
    Some(Raw { coefficients, deviation, squares: f64::NAN, covariance })
}

/// Gradient of the logarithm of the likelihood at some parameters; its second derivatives go into `hessian`.
fn derivatives(
    hessian: &mut DMatrix<f64>,
    (x, y, run_out): (&DMatrix<f64>, &[f64], &[bool]),
    at: &DVector<f64>,
    residual: &impl Fn(&DVector<f64>, usize) -> f64,
) -> DVector<f64> {
    let (count, columns) = (x.nrows(), x.ncols());
    let mut gradient = DVector::zeros(columns + 1);
    hessian.fill(0.0);
    for k in 0..count {
        let z = residual(at, k);
        // Derivatives of each test's logarithm of likelihood by z.
        let (slope, bend) = if run_out[k] {
            let hazard = hazard(z);
            (-hazard, -hazard * (hazard - z))
        } else {
            (-z, -1.0)
        };
        let by = DVector::from_fn(columns + 1, |c, _| if c == columns { y[k] } else { -x[(k, c)] });
        gradient += &by * slope;
        *hessian += &by * by.transpose() * bend;
        if !run_out[k] {
            gradient[columns] += 1.0 / at[columns];
            hessian[(columns, columns)] -= 1.0 / (at[columns] * at[columns]);
        }
    }
    gradient
}

/// Logarithm of the probability that a standard normal variable lies above z.
fn ln_above(z: f64) -> f64 {
    if z < 30.0 {
        log(0.5 * erfc(z * core::f64::consts::FRAC_1_SQRT_2))
    } else {
        // The first term of Mills' ratio; run-outs so far above the line do not decide a fit.
        -0.5 * z * z - log(z) - 0.5 * log(core::f64::consts::TAU)
    }
}

/// Density over probability above z.
fn hazard(z: f64) -> f64 {
    exp(-0.5 * z * z - 0.5 * log(core::f64::consts::TAU) - ln_above(z))
}
