use super::number::Number;

// Written here: the sparse factors of the registry reorder by rules that change with their version, and with them the bytes.
/// Triangular factor of a symmetric positive matrix whose entries lie near its diagonal, row by row.
#[derive(Debug, Clone)]
pub(super) struct BandFactor {
    width: usize,
    /// Row `n` holds its entries from column `n - width` to the diagonal.
    rows: Vec<f64>,
}

impl BandFactor {
    /// Factors the matrix whose row `n` has its entries from column `n - width` to the diagonal at `n (width + 1)`
    /// (Cholesky); `None` if it is not positive.
    pub(super) fn new(width: usize, mut rows: Vec<f64>) -> Option<Self> {
        let stride = width + 1;
        let count = rows.len() / stride;
        for n in 0..count {
            let (above, here) = rows.split_at_mut(n * stride);
            let here = &mut here[..stride];
            let first = n.saturating_sub(width);
            for m in first..n {
                // Columns both rows have, before column m.
                let from = first.max(m.saturating_sub(width));
                let other = &above[m * stride..][..stride];
                let (a, b) = (&here[from + width - n..m + width - n], &other[from + width - m..width]);
                let at = m + width - n;
                here[at] = (here[at] - product(a, b)) / other[width];
            }
            let rest = here[width] - product(&here[..width], &here[..width]);
            if rest.is_nan() || rest <= 0.0 {
                return None;
            }
            here[width] = rest.sqrt();
        }
        Some(Self { width, rows })
    }

    /// Solves in place.
    pub(super) fn solve<T: Number<Factor = f64>>(&self, x: &mut [T]) {
        let (width, stride) = (self.width, self.width + 1);
        for n in 0..x.len() {
            let first = n.saturating_sub(width);
            let row = &self.rows[n * stride..][..stride];
            let sum = product(&row[first + width - n..width], &x[first..n]);
            x[n] = (x[n] - sum) / row[width];
        }
        for n in (0..x.len()).rev() {
            let first = n.saturating_sub(width);
            let row = &self.rows[n * stride..][..stride];
            x[n] = x[n] / row[width];
            let value = x[n];
            for (entry, factor) in x[first..n].iter_mut().zip(&row[first + width - n..width]) {
                *entry -= value * *factor;
            }
        }
    }
}

fn product<T: Number<Factor = f64>>(a: &[f64], b: &[T]) -> T {
    // Eight sums at once, so that they need not wait for each other; always the same order.
    let mut sums = [T::default(); 8];
    let (left, right) = (a.chunks_exact(8), b.chunks_exact(8));
    let rest = left.remainder().iter().zip(right.remainder()).fold(T::default(), |sum, (x, y)| sum + *y * *x);
    for (x, y) in left.zip(right) {
        for lane in 0..8 {
            sums[lane] += y[lane] * x[lane];
        }
    }
    sums.into_iter().fold(T::default(), |sum, lane| sum + lane) + rest
}
