use nalgebra::Matrix3;

use super::band::BandFactor;
use super::level::{Cell, Level};
use super::lines::Lines;
use super::number::Number;
use crate::numeric::{map_blocks, map_in_order, sort_few};

/// Nodes that hang together by slivers of material, in clusters of a few.
///
/// A cell of which a corner is filled resists one combination of its far nodes' motions; the others are as soft as the
/// corner is small, seen from each node's own stiffness, and a smoother that treats nodes one by one never stills them.
/// Solved together they are no softer than any (de Prenter, Verhoosel & van Brummelen 2019, Preconditioning immersed
/// isogeometric finite element methods with application to flow problems). No node is in two clusters, so that the
/// smoother's largest eigenvalue stays that of single nodes.
#[derive(Debug, Clone)]
pub(super) struct Slivers {
    clusters: Vec<Cluster>,
    /// All their nodes, rising, and the places of their unknowns in a vector.
    nodes: Vec<u32>,
    places: Vec<usize>,
}

#[derive(Debug, Clone)]
struct Cluster {
    /// Places of the unknowns in a vector, and among those of all clusters.
    places: Vec<usize>,
    among: Vec<usize>,
    /// Inverse of their stiffness, column by column.
    inverse: Vec<f32>,
}

/// Stiffness between two nodes that each have little of it.
#[derive(Debug, Clone)]
struct SliverLink {
    nodes: [u32; 2],
    stiffness: Matrix3<f64>,
}

/// Stiffness of a node over that of one amid whole cells, below which it may hang by a sliver: an even half of the cells
/// round a node leaves it 0.5.
const WEAK: f64 = 0.4;

/// Share of two nodes' stiffness that is between them (1 is all of it) from which on they hang together: nodes amid whole
/// cells share some 0.1. A lower share joins nodes that gain nothing by it.
const STRONG: f64 = 0.3;

/// Most nodes in a cluster: matrices grow with the square, and half as many leave a third more iterations on thin walls.
const MOST: usize = 16;

/// Added to the scaled stiffness of a cluster: single precision tells nothing softer.
const SOFTEST: f64 = 1e-5;

/// Clusters that one thread works on at a time.
const BLOCK: usize = 32;

impl Slivers {
    /// The clusters of a grid whose nodes have `blocks` as their own stiffness.
    pub(super) fn new(level: &Level, blocks: &[Matrix3<f64>]) -> Self {
        let most = WEAK * level.whole.trace();
        let weak: Vec<bool> = blocks.iter().map(|block| block[(0, 0)] > 0.0 && block.trace() < most).collect();
        let links = links(level, &weak);
        let groups = groups(&links, blocks);
        let mut nodes: Vec<u32> = groups.iter().flatten().copied().collect();
        nodes.sort_unstable();
        let places = nodes.iter().flat_map(|&node| level.lines.places(node as usize)).collect();
        let clusters =
            map_in_order(groups.len(), |group| Cluster::new(&groups[group], &links, blocks, (&level.lines, &nodes)));
        Self { clusters, nodes, places }
    }

    /// Numbers of the nodes that are in a cluster, rising.
    pub(super) fn nodes(&self) -> impl Iterator<Item = usize> {
        self.nodes.iter().map(|&node| node as usize)
    }

    /// Those of them within a line's.
    pub(super) fn in_line(&self, line: std::ops::Range<usize>) -> &[u32] {
        let place = |end: usize| self.nodes.partition_point(|&node| (node as usize) < end);
        &self.nodes[place(line.start)..place(line.end)]
    }

    /// What a vector holds at their unknowns, in their order.
    pub(super) fn rests_of<T: Copy>(&self, vector: &[T]) -> Vec<T> {
        self.places.iter().map(|&place| vector[place]).collect()
    }

    /// Multiplies the inverses by `factor`.
    pub(super) fn scale(&mut self, factor: f32) {
        self.clusters.iter_mut().flat_map(|cluster| &mut cluster.inverse).for_each(|entry| *entry *= factor);
    }

    /// Adds `factor` times the inverses times what `rests` holds for their unknowns.
    pub(super) fn add<T: Number<Factor = f32>>(&self, rests: &[T], factor: f32, to: &mut [T]) {
        let sums = map_blocks(self.clusters.len(), BLOCK, |range| {
            let mut sums = Vec::new();
            let mut values = Vec::new();
            for cluster in &self.clusters[range] {
                values.clear();
                values.extend(cluster.among.iter().map(|&at| rests[at]));
                for row in cluster.inverse.chunks_exact(values.len()) {
                    let sum = row.iter().zip(&values).fold(T::default(), |sum, (entry, value)| sum + *value * *entry);
                    sums.push(sum * factor);
                }
            }
            sums
        });
        let places = self.clusters.iter().flat_map(|cluster| &cluster.places);
        for (&place, sum) in places.zip(sums.into_iter().flatten()) {
            to[place] += sum;
        }
    }
}

impl Cluster {
    fn new(group: &[u32], links: &[SliverLink], blocks: &[Matrix3<f64>], (lines, all): (&Lines, &[u32])) -> Self {
        let size = 3 * group.len();
        let mut matrix = vec![0.0; size * size];
        let mut put = |a: usize, b: usize, block: &Matrix3<f64>| {
            for (row, column) in (0..9).map(|n| (n / 3, n % 3)) {
                matrix[(3 * a + row) * size + 3 * b + column] = block[(row, column)];
            }
        };
        for (a, &p) in group.iter().enumerate() {
            put(a, a, &blocks[p as usize]);
            for (b, &q) in group.iter().enumerate().skip(a + 1) {
                // Below the diagonal stand rows of the later node; a link has rows of the lower number.
                if let Ok(found) = links.binary_search_by_key(&[p.min(q), p.max(q)], |link| link.nodes) {
                    let stiffness = &links[found].stiffness;
                    put(b, a, &if p < q { stiffness.transpose() } else { *stiffness });
                }
            }
        }
        let over: Vec<f64> = (0..size).map(|n| 1.0 / matrix[n * size + n].max(f64::MIN_POSITIVE).sqrt()).collect();
        // Row by row up to the diagonal, the diagonals below each other.
        let width = size - 1;
        let mut rows = vec![0.0; size * size];
        for row in 0..size {
            for column in 0..row {
                rows[row * size + column + width - row] = matrix[row * size + column] * over[row] * over[column];
            }
            rows[row * size + width] = 1.0 + SOFTEST;
        }
        let factor = BandFactor::new(width, rows);
        let columns = (0..size).flat_map(|n| {
            let mut column = vec![0.0; size];
            column[n] = over[n];
            // Where rounding leaves a cluster less than no stiffness its unknowns are treated one by one.
            if let Some(factor) = &factor {
                factor.solve(&mut column);
            }
            column.into_iter().zip(&over).map(|(value, over)| (value * over) as f32).collect::<Vec<_>>()
        });
        Self {
            among: group
                .iter()
                .flat_map(|node| {
                    let at = all.partition_point(|other| other < node);
                    [3 * at, 3 * at + 1, 3 * at + 2]
                })
                .collect(),
            places: group.iter().flat_map(|&node| lines.places(node as usize)).collect(),
            inverse: columns.collect(),
        }
    }
}

/// What lies between weak nodes, in the order of their numbers.
fn links(level: &Level, weak: &[bool]) -> Vec<SliverLink> {
    let rows = map_in_order(level.counts[1] * level.counts[2], |row| {
        let (j, k) = (row % level.counts[1], row / level.counts[1]);
        let mut found = Vec::new();
        for i in 0..level.counts[0] {
            let cell = level.row(j, k).cell(i);
            if matches!(cell, Cell::Empty) {
                continue;
            }
            let corner = |c: usize| [i + (c & 1), j + (c >> 1 & 1), k + (c >> 2)];
            let held: [[bool; 3]; 8] = std::array::from_fn(|c| level.lines.held(corner(c)));
            let nodes: [usize; 8] = std::array::from_fn(|c| level.lines.number(corner(c)));
            for p in (0..8).filter(|&p| weak[nodes[p]]) {
                for q in (0..8).filter(|&q| weak[nodes[q]] && nodes[p] < nodes[q]) {
                    let stiffness = level
                        .block(cell, p, q)
                        .map_with_location(|r, s, entry| if held[p][r] || held[q][s] { 0.0 } else { entry });
                    found.push(SliverLink { nodes: [nodes[p] as u32, nodes[q] as u32], stiffness });
                }
            }
        }
        found
    });
    let mut parts = rows.concat();
    // Parts of one link keep their order, and with it their sum.
    parts.sort_by_key(|link| link.nodes);
    let mut links: Vec<SliverLink> = Vec::new();
    for part in parts {
        match links.last_mut() {
            Some(link) if link.nodes == part.nodes => link.stiffness += part.stiffness,
            _ => links.push(part),
        }
    }
    links
}

/// Nodes that hang together, the strongest links joined first.
fn groups(links: &[SliverLink], blocks: &[Matrix3<f64>]) -> Vec<Vec<u32>> {
    let shares = map_in_order(links.len(), |k| share(&links[k], blocks));
    let mut strong: Vec<usize> = (0..links.len()).filter(|&k| shares[k] > STRONG).collect();
    sort_few(&mut strong, |&a, &b| shares[b].total_cmp(&shares[a]).then(a.cmp(&b)));
    let mut group_of = vec![usize::MAX; blocks.len()];
    let mut groups: Vec<Vec<u32>> = Vec::new();
    for k in strong {
        let [a, b] = links[k].nodes.map(|node| {
            let group = &mut group_of[node as usize];
            if *group == usize::MAX {
                *group = groups.len();
                groups.push(vec![node]);
            }
            *group
        });
        if a != b && groups[a].len() + groups[b].len() <= MOST {
            let joining = std::mem::take(&mut groups[b]);
            for &node in &joining {
                group_of[node as usize] = a;
            }
            groups[a].extend(joining);
        }
    }
    groups.retain(|group| group.len() > 1);
    groups
}

/// How much of two nodes' stiffness is between them: the root of the mean square of what each of three motions of one
/// does to the other, all scaled by the nodes' own.
fn share(link: &SliverLink, blocks: &[Matrix3<f64>]) -> f64 {
    let root = |node: u32| blocks[node as usize].cholesky().and_then(|factor| factor.l().try_inverse());
    match link.nodes.map(root) {
        [Some(a), Some(b)] => ((a * link.stiffness * b.transpose()).norm_squared() / 3.0).sqrt(),
        _ => 0.0,
    }
}
