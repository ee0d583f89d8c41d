//! Sums of rows of numbers, each row times a number: what forces of a mechanism at every crank angle are.

/// Two rows, and what their sum counts in each of `SUMS` sums.
#[derive(Debug, Clone, Copy)]
pub struct Row<'a, const SUMS: usize> {
    /// Its factor in each sum.
    pub factors: [f64; SUMS],
    /// The first row.
    pub first: &'a [f64],
    /// The second one, which counts `share` times.
    pub second: &'a [f64],
}

/// Four sums over `length` places.
pub fn four_sums(rows: &[Row<'_, 4>], share: f64, length: usize) -> [Vec<f64>; 4] {
    sums(rows, share, length)
}

/// One sum over `length` places.
pub fn one_sum(rows: &[Row<'_, 1>], share: f64, length: usize) -> Vec<f64> {
    let [sum] = sums(rows, share, length);
    sum
}

/// A few places at a time stay at hand while the rows are added up, for all sums at once.
fn sums<const SUMS: usize>(rows: &[Row<'_, SUMS>], share: f64, length: usize) -> [Vec<f64>; SUMS] {
    const TOGETHER: usize = 8;
    let mut sums = [(); SUMS].map(|()| Vec::with_capacity(length));
    let whole = length - length % TOGETHER;
    for from in (0..whole).step_by(TOGETHER) {
        let mut together = [[0.0; TOGETHER]; SUMS];
        for Row { factors, first, second } in rows {
            let (Some(first), Some(second)) = (chunk::<TOGETHER>(first, from), chunk::<TOGETHER>(second, from)) else {
                continue;
            };
            let values: [f64; TOGETHER] = core::array::from_fn(|k| first[k] + share * second[k]);
            for (together, factor) in together.iter_mut().zip(factors) {
                for k in 0..TOGETHER {
                    together[k] += factor * values[k];
                }
            }
        }
        for (sum, together) in sums.iter_mut().zip(&together) {
            sum.extend_from_slice(together);
        }
    }
    for at in whole..length {
        for (number, sum) in sums.iter_mut().enumerate() {
            let of = |row: &Row<'_, SUMS>| row.factors[number] * (row.first[at] + share * row.second[at]);
            sum.push(rows.iter().map(of).sum());
        }
    }
    sums
}

fn chunk<const LONG: usize>(row: &[f64], from: usize) -> Option<&[f64; LONG]> {
    row.get(from..from + LONG)?.try_into().ok()
}

#[cfg(test)]
mod tests {
    use super::{Row, four_sums, one_sum};

    #[test]
    fn as_added_up_place_by_place() {
        // Lengths with and without a rest beyond the places taken together; numbers whose sums are exact.
        for length in [0, 1, 7, 8, 21, 64] {
            let row = |step: usize| (0..length).map(|at| (at * step % 13) as f64).collect::<Vec<f64>>();
            let (a, b, c) = (row(3), row(5), row(7));
            let rows = [([1.0, 2.0, 0.0, -1.0], &a, &b), ([0.5, 0.0, 4.0, 3.0], &c, &a)];
            let taken = rows.map(|(factors, first, second)| Row { factors, first, second });
            let found = four_sums(&taken, 0.25, length);
            for (sum, found) in found.iter().enumerate() {
                let at =
                    |at: usize| rows.iter().map(|(f, first, second)| f[sum] * (first[at] + 0.25 * second[at])).sum();
                assert_eq!(*found, (0..length).map(at).collect::<Vec<f64>>());
            }
            let alone = taken.map(|row| Row { factors: [row.factors[2]], first: row.first, second: row.second });
            assert_eq!(one_sum(&alone, 0.25, length), found[2]);
        }
    }
}
