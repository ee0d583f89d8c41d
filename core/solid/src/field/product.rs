//! The product of a grid's stiffness with displacements, line by line.

// What a product calls has to be inlined to be compiled for its vector registers.
#![allow(clippy::inline_always)]

use super::level::{CellRow, ENTRIES, Level};
use super::near::Near;
use super::number::Number;
use super::stencil::{Coupling, Whole};
use super::vectors::widest;
use crate::numeric::map_pieces;

/// Nodes worked on together where there is one load: as many as fill the vector registers. Where there are several they fill
/// them, and two nodes read each factor once.
const LANES: usize = 8;

/// Room for the product of one line: asked of the allocator line by line it takes as long as the product of a short one.
#[derive(Debug, Default)]
struct Room<T> {
    shares: Vec<f32>,
    sums: Vec<T>,
    copied: Vec<T>,
}

/// The first `length` numbers of a vector that may have to grow; what they are is left from last time.
fn part_of<T: Copy + Default>(vector: &mut Vec<T>, length: usize) -> &mut [T] {
    if vector.len() < length {
        vector.resize(length, T::default());
    }
    &mut vector[..length]
}

impl Level {
    /// Hands the forces under the displacements `x` to `take`, line by line: the line's number, its forces, its part of `y`
    /// and what its piece gathers. Returns what the pieces gathered, in their order.
    pub(super) fn each_line<T: Number, R: Send>(
        &self,
        whole: &Whole<T::Factor>,
        x: &[T],
        y: &mut [T],
        gathered: impl Fn() -> R + Sync + Send,
        take: impl Fn(usize, &mut [T], &mut [T], &mut R) + Sync + Send,
    ) -> Vec<R> {
        let lines = &self.lines;
        map_pieces(y, lines.bounds(), |piece, part| {
            let start = lines.bounds()[piece];
            let mut gathered = gathered();
            let mut room = Room::default();
            for line in lines.piece(piece) {
                let range = lines.range(line);
                let sums = self.line_sums(whole, line, x, &mut room);
                lines.hold(line, sums);
                let out = &mut part[range.start - start..range.end - start];
                widest(
                    #[inline(always)]
                    || take(line, sums, out, &mut gathered),
                );
            }
            gathered
        })
    }

    /// Sets `y` to the stiffness times `x`.
    pub(super) fn product<T: Number<Factor = f32>>(&self, x: &[T], y: &mut [T]) {
        self.each_line(&self.single, x, y, || (), |_, sums, out, ()| out.copy_from_slice(sums));
    }

    /// Takes the forces under the displacements `x` from `rest`, in double precision.
    pub(super) fn take_from<T: Number<Factor = f64>>(&self, x: &[T], rest: &mut [T]) {
        self.each_line(
            &self.double,
            x,
            rest,
            || (),
            #[inline(always)]
            |_, sums, out, ()| out.iter_mut().zip(sums).for_each(|(value, sum)| *value -= *sum),
        );
    }

    /// Sets `rest` to what of `load` the stiffness times `x` leaves.
    pub(super) fn rest<T: Number<Factor = f32>>(&self, load: &[T], x: &[T], rest: &mut [T]) {
        let lines = &self.lines;
        self.each_line(
            &self.single,
            x,
            rest,
            || (),
            #[inline(always)]
            |line, sums, out, ()| {
                for ((out, &load), sum) in out.iter_mut().zip(&load[lines.range(line)]).zip(sums) {
                    *out = load - *sum;
                }
            },
        );
    }

    /// Forces on the nodes of one line. A call, so that the product is compiled once for each kind of number and not once for
    /// each use of it.
    #[inline(never)]
    fn line_sums<'r, T: Number>(
        &self,
        whole: &Whole<T::Factor>,
        line: usize,
        x: &[T],
        room: &'r mut Room<T>,
    ) -> &'r mut [T] {
        widest(
            #[inline(always)]
            || {
                if T::LOADS == 1 {
                    self.line_product::<T, LANES>(whole, line, x, room)
                } else {
                    self.line_product::<T, 2>(whole, line, x, room)
                }
            },
        )
    }

    /// Forces on the nodes of one line, `N` of them together.
    #[inline(always)]
    fn line_product<'r, T: Number, const N: usize>(
        &self,
        whole: &Whole<T::Factor>,
        line: usize,
        x: &[T],
        room: &'r mut Room<T>,
    ) -> &'r mut [T] {
        let (first, length) = self.lines.stretch(line);
        if length == 0 {
            return &mut [];
        }
        let (j, k) = ((line % self.lines.counts[1]) as i64, (line / self.lines.counts[1]) as i64);
        let near = Near::new(&self.lines, [j, k], first, x);
        // Shares of the cells of the four rows round it, from the one before the first node.
        let span = length + 1 + N;
        let shares = part_of(&mut room.shares, 4 * span);
        for (number, part) in shares.chunks_exact_mut(span).enumerate() {
            part.fill(0.0);
            let Some(row) = self.row_at(j - (number & 1) as i64, k - (number >> 1) as i64) else { continue };
            let skipped = usize::from(first == 0);
            let known = &row.share[(first + skipped - 1).min(row.share.len())..];
            let count = known.len().min(length + 1 - skipped);
            part[skipped..skipped + count].copy_from_slice(&known[..count]);
        }
        let sums = part_of(&mut room.sums, 3 * length);
        for start in (0..length).step_by(N) {
            let [a, b, c, d] = [start, span + start, 2 * span + start, 3 * span + start];
            let here = [&shares[a..=a + N], &shares[b..=b + N], &shares[c..=c + N], &shares[d..=d + N]];
            let copied;
            let (around, at) = if near.holds::<N>(start) {
                (&near, start)
            } else {
                copied = near.copied::<N>(start, &mut room.copied);
                (&copied, 0)
            };
            let sum = chunk::<T, N>(whole, around, here, at);
            for (sums, lanes) in sums.chunks_exact_mut(length).zip(&sum) {
                if let Some(sums) = sums[start..].first_chunk_mut::<N>() {
                    *sums = *lanes;
                } else {
                    sums[start..].iter_mut().zip(lanes).for_each(|(sum, lane)| *sum = *lane);
                }
            }
        }
        for number in 0..4 {
            let (b, c) = (number & 1, number >> 1);
            if let Some(row) = self.row_at(j - b as i64, k - c as i64) {
                own_products(row, [b, c], &near, first, sums, length);
            }
        }
        sums
    }
}

/// Forces from whole cells on `N` nodes from `start`, with the shares of the cells of the four rows round them, from the one
/// before the first node.
#[inline(always)]
fn chunk<T: Number, const N: usize>(
    whole: &Whole<T::Factor>,
    near: &Near<'_, T>,
    shares: [&[f32]; 4],
    start: usize,
) -> [[T; N]; 3] {
    let mut sum = [[T::default(); N]; 3];
    let one = shares[0][0];
    let mut even = true;
    for row in shares {
        for &share in row {
            even &= share == one;
        }
    }
    if even {
        if one != 0.0 {
            amid::<T, N, 0>(whole, near, start, &mut sum);
            amid::<T, N, 1>(whole, near, start, &mut sum);
            amid::<T, N, 2>(whole, near, start, &mut sum);
            let one = T::Factor::from(one);
            sum.iter_mut().flatten().for_each(|value| *value = *value * one);
        }
        return sum;
    }
    for (c, columns) in whole.corner.iter().enumerate() {
        let Some(share) = shares[c >> 1][1 - (c & 1)..].first_chunk::<N>() else { continue };
        let mut empty = true;
        for &share in share {
            empty &= share == 0.0;
        }
        if empty {
            continue;
        }
        let mut part = [[T::default(); N]; 3];
        for edge in 0..4 {
            let line = (1 + (edge & 1) - (c >> 1 & 1)) + 3 * (1 + (edge >> 1) - (c >> 2));
            for component in 0..3 {
                let place = near.place(line, component, start + 1 - (c & 1));
                add(&mut part, &columns[6 * edge + component], near.read(place));
                add(&mut part, &columns[6 * edge + 3 + component], near.read(place + 1));
            }
        }
        for (lanes, added) in sum.iter_mut().zip(&part) {
            for lane in 0..N {
                lanes[lane] += added[lane] * T::Factor::from(share[lane]);
            }
        }
    }
    sum
}

/// Adds the forces on `N` nodes amid whole cells that displacements along one component make.
///
/// The 27 displacements round a node are mixed to 14 sums of like effect first, see [`Coupling`]: one axis after the other,
/// the two neighbours along it become their sum and their difference.
#[inline(always)]
fn amid<T: Number, const N: usize, const COMPONENT: usize>(
    whole: &Whole<T::Factor>,
    near: &Near<'_, T>,
    start: usize,
    sum: &mut [[T; N]; 3],
) {
    let zero = [T::default(); N];
    // By what was done along x and along y, in each of the three planes of nodes: left as it is, both added, one less the
    // other.
    let (mut hh, mut hb, mut ha) = ([zero; 3], [zero; 3], [zero; 3]);
    let (mut bh, mut bb, mut ba) = ([zero; 3], [zero; 3], [zero; 3]);
    let (mut ah, mut ab, mut aa) = ([zero; 3], [zero; 3], [zero; 3]);
    for k in 0..3 {
        // One by one: what `map` of an array calls is not inlined, and then not compiled for the same registers.
        let (h0, b0, a0) = along_x(near, near.place(3 * k, COMPONENT, start));
        let (h1, b1, a1) = along_x(near, near.place(3 * k + 1, COMPONENT, start));
        let (h2, b2, a2) = along_x(near, near.place(3 * k + 2, COMPONENT, start));
        (hh[k], hb[k], ha[k]) = (h1, plus(&h0, &h2), minus(&h2, &h0));
        (bh[k], bb[k], ba[k]) = (b1, plus(&b0, &b2), minus(&b2, &b0));
        (ah[k], ab[k], aa[k]) = (a1, plus(&a0, &a2), minus(&a2, &a0));
    }
    let outer = |of: &[[T; N]; 3]| plus(&of[0], &of[2]);
    let across = |of: &[[T; N]; 3]| minus(&of[2], &of[0]);
    let own = [hh[1], bh[1], hb[1], bb[1], outer(&hh), outer(&bh), outer(&hb), outer(&bb)];
    let xy = [aa[1], outer(&aa)];
    let zx = [across(&ah), across(&ab)];
    let yz = [across(&ha), across(&ba)];
    let Coupling { own: of_own, xy: of_xy, zx: of_zx, yz: of_yz } = &whole.amid[COMPONENT];
    if whole.aligned {
        into(&mut sum[COMPONENT], COMPONENT, of_own, &own);
        match COMPONENT {
            0 => {
                into(&mut sum[1], 1, of_xy, &xy);
                into(&mut sum[2], 2, of_zx, &zx);
            }
            1 => {
                into(&mut sum[0], 0, of_xy, &xy);
                into(&mut sum[2], 2, of_yz, &yz);
            }
            _ => {
                into(&mut sum[0], 0, of_zx, &zx);
                into(&mut sum[1], 1, of_yz, &yz);
            }
        }
    } else {
        of_own.iter().zip(&own).for_each(|(factors, mixed)| add(sum, factors, mixed));
        of_xy.iter().zip(&xy).for_each(|(factors, mixed)| add(sum, factors, mixed));
        of_zx.iter().zip(&zx).for_each(|(factors, mixed)| add(sum, factors, mixed));
        of_yz.iter().zip(&yz).for_each(|(factors, mixed)| add(sum, factors, mixed));
    }
}

/// `N` nodes from one after a place on, the sums of their neighbours along x and what those differ by.
#[inline(always)]
fn along_x<T: Number, const N: usize>(near: &Near<'_, T>, place: usize) -> ([T; N], [T; N], [T; N]) {
    let (before, after) = (near.read::<N>(place), near.read::<N>(place + 2));
    (*near.read::<N>(place + 1), plus(before, after), minus(after, before))
}

/// Adds to one component of the forces alone.
#[inline(always)]
fn into<T: Number, const N: usize, const M: usize>(
    lanes: &mut [T; N],
    r: usize,
    factors: &[[T::Factor; 3]; M],
    mixed: &[[T; N]; M],
) {
    for (factors, mixed) in factors.iter().zip(mixed) {
        for lane in 0..N {
            lanes[lane] += mixed[lane] * factors[r];
        }
    }
}

#[inline(always)]
fn plus<T: Number, const N: usize>(a: &[T; N], b: &[T; N]) -> [T; N] {
    let mut sum = *a;
    for lane in 0..N {
        sum[lane] += b[lane];
    }
    sum
}

#[inline(always)]
fn minus<T: Number, const N: usize>(a: &[T; N], b: &[T; N]) -> [T; N] {
    let mut difference = *a;
    for lane in 0..N {
        difference[lane] -= b[lane];
    }
    difference
}

#[inline(always)]
fn add<T: Number, const N: usize>(sum: &mut [[T; N]; 3], factors: &[T::Factor; 3], u: &[T; N]) {
    for (lanes, factor) in sum.iter_mut().zip(factors) {
        for lane in 0..N {
            lanes[lane] += u[lane] * *factor;
        }
    }
}

/// Adds the forces of a row's own matrices on the line that is at `[b, c]` of the row's cells and begins at node `first`.
#[inline(always)]
fn own_products<T: Number>(
    row: &CellRow,
    [b, c]: [usize; 2],
    near: &Near<'_, T>,
    first: usize,
    sums: &mut [T],
    length: usize,
) {
    for (number, &i) in row.at.iter().enumerate() {
        // Node `i` stands at `i - first` of the line; the first of its two nodes may be no other's than this cell's.
        let t = i as usize - first;
        let mut u = [T::default(); 24];
        for edge in 0..4 {
            let line = (1 + (edge & 1) - b) + 3 * (1 + (edge >> 1) - c);
            for component in 0..3 {
                let place = near.place(line, component, t + 1);
                [u[6 * edge + component], u[6 * edge + 3 + component]] = *near.read(place);
            }
        }
        let columns = &row.own[b + 2 * c][number * ENTRIES..][..ENTRIES];
        // Six forces at once: each number of `u` is read once for them, and no sum waits for the one before. Even and odd
        // columns apart, so that a sum waits half as long for its own last one.
        let mut sums_of = [[T::default(); 6]; 2];
        for (two, columns) in u.chunks_exact(2).zip(columns.chunks_exact(12)) {
            for half in 0..2 {
                for r in 0..6 {
                    sums_of[half][r] += two[half] * T::Factor::from(columns[6 * half + r]);
                }
            }
        }
        for r in 0..6 {
            sums[(r % 3) * length + t + r / 3] += sums_of[0][r] + sums_of[1][r];
        }
    }
}
