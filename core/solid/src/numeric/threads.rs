//! Work shared between threads where the host has them, with results in a fixed order either way.

/// Calls `work` for `0..count` and collects the results in that order.
pub fn map_in_order<T: Send>(count: usize, work: impl Fn(usize) -> T + Sync + Send) -> Vec<T> {
    #[cfg(feature = "threads")]
    {
        use rayon::prelude::*;
        (0..count).into_par_iter().map(work).collect()
    }
    #[cfg(not(feature = "threads"))]
    {
        (0..count).map(work).collect()
    }
}

/// Splits `0..count` into blocks of `block`, calls `work` for each and collects the results in that order.
///
/// The blocks do not depend on the number of threads, so that sums over them come out the same on every machine.
pub fn map_blocks<T: Send>(
    count: usize,
    block: usize,
    work: impl Fn(core::ops::Range<usize>) -> T + Sync + Send,
) -> Vec<T> {
    map_in_order(count.div_ceil(block), |b| work(b * block..((b + 1) * block).min(count)))
}

/// Does two things, at once where the host has threads.
pub fn both<A: Send, B: Send>(first: impl FnOnce() -> A + Send, second: impl FnOnce() -> B + Send) -> (A, B) {
    #[cfg(feature = "threads")]
    {
        rayon::join(first, second)
    }
    #[cfg(not(feature = "threads"))]
    {
        (first(), second())
    }
}

/// Threads that share such work; it never decides what comes out, only how work is dealt.
pub fn workers() -> usize {
    #[cfg(feature = "threads")]
    {
        rayon::current_num_threads()
    }
    #[cfg(not(feature = "threads"))]
    {
        1
    }
}

/// Cuts `data` at `bounds` (rising, from 0 to its length), calls `work` for every piece with its number and collects
/// the results in that order.
pub fn map_pieces<T: Send, R: Send>(
    data: &mut [T],
    bounds: &[usize],
    work: impl Fn(usize, &mut [T]) -> R + Sync + Send,
) -> Vec<R> {
    map_each(pieces(data, bounds), work)
}

/// The pieces of `data` cut at `bounds` (rising, from 0 to its length).
pub fn pieces<'a, T>(data: &'a mut [T], bounds: &[usize]) -> Vec<&'a mut [T]> {
    let mut pieces = Vec::with_capacity(bounds.len());
    let mut rest = data;
    for pair in bounds.windows(2) {
        let (piece, after) = rest.split_at_mut(pair[1] - pair[0]);
        pieces.push(piece);
        rest = after;
    }
    pieces
}

/// Calls `work` for every item with its number and collects the results in that order.
pub fn map_each<T: Send, R: Send>(items: Vec<T>, work: impl Fn(usize, T) -> R + Sync + Send) -> Vec<R> {
    #[cfg(feature = "threads")]
    {
        use rayon::prelude::*;
        items.into_par_iter().enumerate().map(|(number, item)| work(number, item)).collect()
    }
    #[cfg(not(feature = "threads"))]
    {
        items.into_iter().enumerate().map(|(number, item)| work(number, item)).collect()
    }
}
