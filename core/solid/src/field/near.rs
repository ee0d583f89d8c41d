// What a product calls has to be inlined to be compiled for its vector registers.
#![allow(clippy::inline_always)]

use super::lines::Lines;
use super::number::Number;

/// Where the nine lines round one stand in a vector: node `t` of the middle one has its neighbour of the same `x` at
/// `start + component * stride + t`.
///
/// ```text
///     k + 1 |  6  7  8        A line keeps the stretch between its first and last filled cell only: a neighbour may lie
///     k     |  3  4  5        outside it. Then the place is another node's, or none. No cell joins the two, and what is
///     k - 1 |  0  1  2        read there is multiplied by a share of 0.
///           +----------
///           j-1  j  j+1
/// ```
#[derive(Debug, Clone, Copy)]
pub(super) struct Near<'a, T> {
    values: &'a [T],
    starts: [isize; 9],
    strides: [isize; 9],
    /// Least start, and the greatest of a last component.
    ends: [isize; 2],
}

impl<'a, T: Number> Near<'a, T> {
    pub(super) fn new(lines: &Lines, [j, k]: [i64; 2], first: usize, values: &'a [T]) -> Self {
        let mut near = Self { values, starts: [0; 9], strides: [0; 9], ends: [isize::MAX, isize::MIN] };
        // Where there is no line the middle one stands for it.
        for number in [4, 0, 1, 2, 3, 5, 6, 7, 8] {
            let at = [j + (number % 3) as i64 - 1, k + (number / 3) as i64 - 1];
            (near.starts[number], near.strides[number]) = match lines.line(at[0], at[1]) {
                Some(line) => {
                    let (begin, length) = lines.stretch(line);
                    (lines.range(line).start as isize + first as isize - begin as isize, length as isize)
                }
                None => (near.starts[4], near.strides[4]),
            };
            let last = near.starts[number] + 2 * near.strides[number];
            near.ends = [near.ends[0].min(near.starts[number]), near.ends[1].max(last)];
        }
        near
    }

    /// Whether all that `N` nodes from `t` on read stands in the vector.
    #[inline(always)]
    pub(super) fn holds<const N: usize>(&self, t: usize) -> bool {
        let last = self.values.len() as isize - (N as isize + 1);
        self.ends[0] + t as isize > 0 && self.ends[1] + t as isize <= last
    }

    /// A copy of what `N` nodes from `t` on read, with zeros for what is not in the vector; they are the nodes from 0 on then.
    #[cold]
    #[inline(never)]
    pub(super) fn copied<'b, const N: usize>(&self, t: usize, room: &'b mut Vec<T>) -> Near<'b, T> {
        let stride = N + 2;
        room.clear();
        let mut starts = [0; 9];
        for (line, start) in starts.iter_mut().enumerate() {
            *start = room.len() as isize + 1;
            for component in 0..3 {
                let place = self.starts[line] + component * self.strides[line] + t as isize - 1;
                let at = |lane: isize| usize::try_from(place + lane).ok().and_then(|at| self.values.get(at));
                room.extend((0..stride as isize).map(|lane| at(lane).copied().unwrap_or_default()));
            }
        }
        Near { values: room, starts, strides: [stride as isize; 9], ends: self.ends }
    }

    /// Where node `t - 1` has its component of a line.
    #[inline(always)]
    pub(super) fn place(&self, line: usize, component: usize, t: usize) -> usize {
        (self.starts[line] + component as isize * self.strides[line] + t as isize - 1) as usize
    }

    /// `N` neighbouring numbers from a place on.
    #[inline(always)]
    pub(super) fn read<const N: usize>(&self, place: usize) -> &[T; N] {
        const { assert!(N > 0) };
        // `holds` was asked first.
        let Some(numbers) = self.values[place..].first_chunk::<N>() else { unreachable!("a chunk beyond the vector") };
        numbers
    }
}
