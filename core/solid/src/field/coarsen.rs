use super::element::CellMatrix;
use super::level::{Cell, CellMakeup, CellRow, Level};
use super::lines::Lines;
use super::number::Number;
use crate::numeric::map_in_order;

/// For each of the eight cells in a coarse one, how its corners follow those of the coarse one.
type Follow = [[[f64; 8]; 8]; 8];

fn follow() -> Follow {
    std::array::from_fn(|child| {
        std::array::from_fn(|fine| {
            std::array::from_fn(|coarse| {
                (0..3)
                    .map(|axis| {
                        let at = f64::from((child >> axis & 1) as u8 + (fine >> axis & 1) as u8) / 2.0;
                        if coarse >> axis & 1 == 1 { at } else { 1.0 - at }
                    })
                    .product()
            })
        })
    })
}

/// Stiffness of a fine cell as the corners of the coarse cell feel it.
fn carried(matrix: &CellMatrix, follow: &[[f64; 8]; 8]) -> CellMatrix {
    let mut half = CellMatrix::zeros();
    for (fine, weights) in follow.iter().enumerate() {
        for (coarse, &weight) in weights.iter().enumerate().filter(|(_, weight)| **weight != 0.0) {
            for component in 0..3 {
                let column = matrix.column(3 * fine + component);
                half.column_mut(3 * coarse + component).axpy(weight, &column, 1.0);
            }
        }
    }
    let half = half.transpose();
    let mut whole = CellMatrix::zeros();
    for (fine, weights) in follow.iter().enumerate() {
        for (coarse, &weight) in weights.iter().enumerate().filter(|(_, weight)| **weight != 0.0) {
            for component in 0..3 {
                let column = half.column(3 * fine + component);
                whole.column_mut(3 * coarse + component).axpy(weight, &column, 1.0);
            }
        }
    }
    whole
}

/// The next coarser grid with the stiffness that the fine one has under its displacements (Galerkin), built cell by cell:
/// trilinear displacements of a coarse cell are trilinear in each of its eight cells, so that nothing is lost.
pub(super) fn coarser(fine: &Level) -> Level {
    let follow = follow();
    let counts = fine.counts.map(|count| count.div_ceil(2));
    let by_child: Vec<CellMatrix> = follow.iter().map(|weights| carried(&fine.whole, weights)).collect();
    let whole: CellMatrix = by_child.iter().sum();
    let rows = map_in_order(counts[1] * counts[2], |number| {
        let (j, k) = (number % counts[1], number / counts[1]);
        CellRow::new(counts[0], |i| {
            let children: [Cell<'_>; 8] = std::array::from_fn(|child| {
                let at = [2 * i + (child & 1), 2 * j + (child >> 1 & 1), 2 * k + (child >> 2)];
                let inside = (0..3).all(|axis| at[axis] < fine.counts[axis]);
                if inside { fine.row(at[1], at[2]).cell(at[0]) } else { Cell::Empty }
            });
            gathered(&children, &follow, &by_child)
        })
    });
    Level::new(counts, rows, &whole, fine.lines.folds())
}

fn gathered(children: &[Cell<'_>; 8], follow: &Follow, by_child: &[CellMatrix]) -> CellMakeup {
    if children.iter().all(|child| matches!(child, Cell::Empty)) {
        return CellMakeup::Empty;
    }
    if let Cell::Share(first) = children[0]
        && children.iter().all(|child| matches!(child, Cell::Share(share) if *share == first))
    {
        return CellMakeup::Share(first);
    }
    let mut sum = CellMatrix::zeros();
    for (number, child) in children.iter().enumerate() {
        match child {
            Cell::Empty => {}
            Cell::Share(share) => sum += by_child[number] * f64::from(*share),
            Cell::Own(matrix) => {
                let matrix = CellMatrix::from_fn(|row, column| matrix.entry(row, column));
                sum += carried(&matrix, &follow[number]);
            }
        }
    }
    CellMakeup::Own(Box::new(sum))
}

/// Adds to the fine nodes what trilinear interpolation between the coarse ones gives.
pub(super) fn interpolate<T: Number<Factor = f32>>(coarse: &Lines, from: &[T], fine: &Lines, to: &mut [T]) {
    fine.for_each_with(to, Vec::new, |line, out, sum: &mut Vec<T>| {
        let (first, length) = fine.stretch(line);
        if length == 0 {
            return;
        }
        let (j, k) = (line % fine.counts[1], line / fine.counts[1]);
        let start = first / 2;
        let count = usize::midpoint(first, length) + 1 - start;
        for component in 0..3 {
            sum.clear();
            sum.resize(count, T::default());
            for (b, u) in halves(j) {
                for (c, v) in halves(k) {
                    let (at, values) =
                        coarse.within(coarse.line(b as i64, c as i64), from, component, start as i64, count);
                    sum[at..].iter_mut().zip(values).for_each(|(s, o)| *s += *o * (u * v));
                }
            }
            let out = &mut out[component * length..][..length];
            // Nodes on coarse ones, then those between two.
            let even = first % 2;
            out.iter_mut().skip(even).step_by(2).zip(&sum[even..]).for_each(|(value, s)| *value += *s);
            let between = sum.iter().zip(&sum[1..]);
            out.iter_mut().skip(1 - even).step_by(2).zip(between).for_each(|(value, (s, t))| *value += (*s + *t) * 0.5);
        }
    });
}

/// The coarse numbers a fine number lies between, with their weights.
fn halves(number: usize) -> impl Iterator<Item = (usize, f32)> {
    let odd = number % 2;
    let weight = if odd == 1 { 0.5 } else { 1.0 };
    (number / 2..=number / 2 + odd).map(move |at| (at, weight))
}

/// The other way round: sets each coarse node to what the fine nodes it moves hold, by the same weights.
pub(super) fn gather<T: Number<Factor = f32>>(fine: &Lines, from: &[T], coarse: &Lines, to: &mut [T]) {
    const WEIGHTS: [f32; 3] = [0.5, 1.0, 0.5];
    coarse.for_each_with(to, Vec::new, |line, out, sum: &mut Vec<T>| {
        let (first, length) = coarse.stretch(line);
        if length == 0 {
            return;
        }
        let (j, k) = ((line % coarse.counts[1]) as i64, (line / coarse.counts[1]) as i64);
        let start = 2 * first as i64 - 1;
        for component in 0..3 {
            sum.clear();
            sum.resize(2 * length + 1, T::default());
            for (b, u) in WEIGHTS.iter().enumerate() {
                for (c, v) in WEIGHTS.iter().enumerate() {
                    let near = fine.line(2 * j + b as i64 - 1, 2 * k + c as i64 - 1);
                    let (at, values) = fine.within(near, from, component, start, 2 * length + 1);
                    sum[at..].iter_mut().zip(values).for_each(|(s, o)| *s += *o * (u * v));
                }
            }
            for (t, value) in out[component * length..(component + 1) * length].iter_mut().enumerate() {
                *value = sum[2 * t] * 0.5 + sum[2 * t + 1] + sum[2 * t + 2] * 0.5;
            }
        }
        coarse.hold(line, out);
    });
}
