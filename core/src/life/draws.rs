use rand_pcg::Pcg64;
use rand_pcg::rand_core::Rng;

use super::normal::normal_quantile;
use super::weakest_link::WeakestLink;
use crate::numeric::map_blocks;

/// Lives of prints drawn by chance (Monte Carlo), s, in rising order.
///
/// Each print has its own strength and each of its links its own life. `unknown` is the standard deviation of the natural
/// logarithm of a factor on all stress that stands for what is not known of the material; 0 leaves scatter alone. The
/// same seed gives the same lives on every machine and with any number of threads.
pub fn drawn_lives(part: &WeakestLink, count: usize, seed: u64, unknown: f64) -> Vec<f64> {
    const BLOCK: usize = 500;
    let mut lives = map_blocks(count, BLOCK, |range| {
        // A stream of its own for every block.
        let mut random = Pcg64::new(u128::from(seed), (range.start / BLOCK) as u128);
        let mut of_links = vec![0.0; part.links().len()];
        range
            .map(|_| {
                let strength = normal(&mut random);
                let factor = libm::exp(unknown * normal(&mut random));
                for life in &mut of_links {
                    *life = normal(&mut random);
                }
                part.life_of(strength, &of_links, factor)
            })
            .collect::<Vec<f64>>()
    })
    .concat();
    lives.sort_unstable_by(f64::total_cmp);
    lives
}

/// The life that a share of drawn prints, in rising order, does not reach; `None` of none.
pub fn drawn_life_at(lives: &[f64], share: f64) -> Option<f64> {
    let index = (share * lives.len() as f64) as usize;
    lives.get(index.min(lives.len().checked_sub(1)?)).copied()
}

/// A standard normal number, by the inverse of its distribution: no table or rejection, so that every machine agrees.
fn normal(random: &mut Pcg64) -> f64 {
    // 53 bits, at the middles of their steps: never 0 or 1.
    let uniform = ((random.next_u64() >> 11) as f64 + 0.5) / (1u64 << 53) as f64;
    normal_quantile(uniform).unwrap_or(0.0)
}
