//! Facets that were written the wrong way round.

use super::edges::{NONE, Pairing, ends};

/// How a facet runs beside the first of its shell.
#[derive(Clone, Copy, PartialEq)]
enum Sense {
    Unseen,
    With,
    Against,
}

/// Turns facets until neighbours run the edge between them opposite ways, in each shell the fewer; how many. `None`, and
/// nothing turned, where no turning does it: the surface has one side only.
pub(super) fn agree(facets: &mut [[u32; 3]], pairing: &Pairing) -> Option<usize> {
    let mut across = pairing.opposite.clone();
    for &(first, second) in &pairing.alike {
        across[first as usize] = second;
        across[second as usize] = first;
    }
    let mut senses = vec![Sense::Unseen; facets.len()];
    let mut turned: Vec<u32> = Vec::new();
    let mut shell: Vec<u32> = Vec::new();
    for seed in 0..facets.len() {
        if senses[seed] != Sense::Unseen {
            continue;
        }
        senses[seed] = Sense::With;
        shell.clear();
        shell.push(seed as u32);
        let mut next = 0;
        while let Some(&facet) = shell.get(next) {
            next += 1;
            for half_edge in 3 * facet..3 * facet + 3 {
                let partner = across[half_edge as usize];
                if partner == NONE {
                    continue;
                }
                let alike = ends(facets, half_edge).0 == ends(facets, partner).0;
                let wanted = match (senses[facet as usize], alike) {
                    (Sense::With, true) | (Sense::Against, false) => Sense::Against,
                    _ => Sense::With,
                };
                let sense = &mut senses[partner as usize / 3];
                match *sense {
                    Sense::Unseen => {
                        *sense = wanted;
                        shell.push(partner / 3);
                    }
                    known if known != wanted => return None,
                    _ => {}
                }
            }
        }
        let against = shell.iter().filter(|&&facet| senses[facet as usize] == Sense::Against).count();
        let fewer = if 2 * against > shell.len() { Sense::With } else { Sense::Against };
        turned.extend(shell.iter().filter(|&&facet| senses[facet as usize] == fewer));
    }
    for &facet in &turned {
        facets[facet as usize].swap(1, 2);
    }
    Some(turned.len())
}
