//! Sorting of short lists in little code.
//!
//! Every list that the standard library sorts brings six kilobytes of its own into the plugin, whatever its length. Here
//! only the comparison is the list's own.

use std::cmp::Ordering;

/// Sorts; equal ones keep their order.
pub fn sort_few<T>(list: &mut [T], compare: impl Fn(&T, &T) -> Ordering) {
    let mut order = order(list.len(), &|a, b| compare(&list[a], &list[b]));
    // Whatever stands at `at` changes places with what belongs there, which then is done, round each closed ring of places.
    for start in 0..order.len() {
        let mut at = start;
        loop {
            let next = std::mem::replace(&mut order[at], at);
            if next == start {
                break;
            }
            list.swap(at, next);
            at = next;
        }
    }
}

/// Sorts by a key.
pub fn sort_few_by_key<T, K: Ord>(list: &mut [T], key: impl Fn(&T) -> K) {
    sort_few(list, |a, b| key(a).cmp(&key(b)));
}

/// Numbers of the sorted list's entries.
#[inline(never)]
fn order(length: usize, compare: &dyn Fn(usize, usize) -> Ordering) -> Vec<usize> {
    let mut order: Vec<usize> = (0..length).collect();
    order.sort_by(|&a, &b| compare(a, b));
    order
}

#[cfg(test)]
mod tests {
    use super::sort_few;

    #[test]
    fn as_the_standard_library_does() {
        // Multiples of a number prime to the length, by their tens: out of order, with ten of each.
        for length in [0, 1, 2, 3, 10, 100, 997] {
            let list: Vec<usize> = (0..length).map(|n| n * 389 % 997).collect();
            let (mut few, mut known) = (list.clone(), list);
            sort_few(&mut few, |a, b| (a / 10).cmp(&(b / 10)));
            known.sort_by_key(|n| n / 10);
            assert_eq!(few, known);
        }
    }
}
