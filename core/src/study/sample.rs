use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;

/// Share from 0 to 1 of a row of Sobol's sequence, scrambled by a seed.
pub(super) fn sobol(row: usize, dimension: usize, seed: u32) -> f64 {
    f64::from(sobol_burley::sample(row as u32, dimension as u32, seed))
}

// Written here: the samplers of the registry make a whole plan at once, while shards ask for any case by itself.
/// Share from 0 to 1 of a case of a Latin hypercube: its stratum is its place in a permutation, its place in the stratum
/// is drawn by chance.
///
/// The permutation is worked out place by place, so that any case can be asked for by itself.
pub(super) fn latin(number: usize, count: usize, input: usize, seed: u32) -> f64 {
    let stratum = permuted(number as u64, count as u64, mixed(u64::from(seed), input as u64));
    let mut random = Pcg64::new(u128::from(seed), (input as u128) << 64 | number as u128);
    let within = ((random.next_u64() >> 11) as f64 + 0.5) / (1u64 << 53) as f64;
    (stratum as f64 + within) / count as f64
}

/// A permutation of `0..count` by key: a four-round Feistel network on the next even number of bits, walked until it lands
/// inside (Black & Rogaway 2002).
fn permuted(number: u64, count: u64, key: u64) -> u64 {
    let bits = (64 - count.saturating_sub(1).leading_zeros()).max(2).div_ceil(2);
    let mask = (1u64 << bits) - 1;
    let mut at = number;
    loop {
        let (mut left, mut right) = (at >> bits, at & mask);
        for round in 0..4 {
            (left, right) = (right, left ^ (mixed(right, key.wrapping_add(round)) & mask));
        }
        at = left << bits | right;
        if at < count {
            return at;
        }
    }
}

/// Two numbers stirred into one (the finaliser of Steele, Lea & Flood 2014).
fn mixed(a: u64, b: u64) -> u64 {
    let mut z = a.wrapping_add(b.wrapping_mul(0x9e37_79b9_7f4a_7c15)).wrapping_add(0x9e37_79b9_7f4a_7c15);
    z = (z ^ z >> 30).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    z = (z ^ z >> 27).wrapping_mul(0x94d0_49bb_1331_11eb);
    z ^ z >> 31
}
