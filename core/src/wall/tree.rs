use nalgebra::{Point3, Vector3};

use super::surface::Facet;
use crate::numeric::{map_blocks, map_in_order};

/// A tree of boxes over the facets that also knows which way the facets in each box look.
///
/// General trees of boxes hold no normals; in a search for facing walls most of what is near looks the wrong way, and is
/// passed over here whole boxes at a time.
#[derive(Debug)]
pub(super) struct Tree {
    /// Each node is followed by all below its left half, then all below its right half.
    nodes: Vec<Node>,
    /// Leaf after leaf.
    plates: Vec<Plate>,
}

/// A box with the directions in which its facets look.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    pub(super) low: Point3<f64>,
    pub(super) high: Point3<f64>,
    axis: Vector3<f64>,
    /// Of the greatest angle between the axis and a normal.
    cosine: f64,
    sine: f64,
    /// Greatest lean of its facets.
    pub(super) lean: f64,
}

/// What of a facet decides whether to look at it at all, close together in memory.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plate {
    pub(super) normal: Vector3<f64>,
    pub(super) center: Point3<f64>,
    /// Distance from the center to the farthest corner; of a long facet from its arms.
    pub(super) reach: f64,
    pub(super) lean: f64,
    /// Whether the facet has arms.
    pub(super) long: bool,
    pub(super) facet: u32,
}

/// Facets in a leaf, at most.
const LEAF: usize = 4;

/// The tree is halved this often before its parts are shared between threads.
const SHARED: usize = 4;

/// Facets prepared in one go by one thread.
const BLOCK: usize = 4096;

/// Depth of the tree at most: facet numbers have 32 bits.
const DEEPEST: usize = 40;

impl Tree {
    /// Builds the tree over the facets marked in `kept`.
    pub(super) fn new(facets: &[Facet], kept: &[bool]) -> Self {
        let members: Vec<u32> = (0..facets.len() as u32).filter(|&f| kept[f as usize]).collect();
        let order = arranged(facets, &members);
        let plates = map_blocks(order.len(), BLOCK, |range| {
            order[range].iter().map(|&facet| Plate::of(facets, facet)).collect::<Vec<_>>()
        })
        .concat();
        let mut tree = Self { nodes: Vec::new(), plates };
        let leaves = tree.plates.len().div_ceil(LEAF);
        if leaves > 0 {
            tree.nodes.reserve(2 * leaves);
            tree.grow(facets, 0, leaves);
        }
        tree
    }

    /// Adds the node over a range of leaves and all below it, and returns its number.
    fn grow(&mut self, facets: &[Facet], from: usize, to: usize) -> usize {
        let number = self.nodes.len();
        if to - from == 1 {
            let leaf = Node::over(facets, self.leaf(from));
            self.nodes.push(leaf);
        } else {
            self.nodes.push(Node::EMPTY);
            let middle = from.midpoint(to);
            let left = self.grow(facets, from, middle);
            let right = self.grow(facets, middle, to);
            self.nodes[number] = self.nodes[left].with(&self.nodes[right]);
        }
        number
    }

    fn leaf(&self, number: usize) -> &[Plate] {
        let start = number * LEAF;
        &self.plates[start..(start + LEAF).min(self.plates.len())]
    }

    /// All facets, leaf after leaf.
    pub(super) fn plates(&self) -> &[Plate] {
        &self.plates
    }

    /// The least value below `start` that `value` finds in a leaf, with what comes with it.
    ///
    /// `bound` is at or below every value under a node, or the largest number where there is none below its second
    /// argument, the least so far. `value` gets the same argument.
    pub(super) fn least<T>(
        &self,
        start: f64,
        bound: impl Fn(&Node, f64) -> f64,
        value: impl Fn(&[Plate], f64) -> Option<(f64, T)>,
    ) -> Option<(f64, T)> {
        let mut found: Option<(f64, T)> = None;
        let mut least = start;
        let leaves = self.plates.len().div_ceil(LEAF);
        let mut waiting = [(0, 0, 0, 0.0); DEEPEST];
        let mut count = 0;
        if leaves > 0 {
            waiting[0] = (0, 0, leaves, bound(&self.nodes[0], least));
            count = 1;
        }
        while count > 0 {
            count -= 1;
            let (mut node, mut from, mut to, mut lowest) = waiting[count];
            while lowest < least {
                if to - from == 1 {
                    if let Some(better) = value(self.leaf(from), least).filter(|better| better.0 < least) {
                        least = better.0;
                        found = Some(better);
                    }
                    break;
                }
                let middle = from.midpoint(to);
                let (left, right) = (node + 1, node + 2 * (middle - from));
                let (at_left, at_right) = (bound(&self.nodes[left], least), bound(&self.nodes[right], least));
                let (near, far) = if at_left <= at_right {
                    ((left, from, middle, at_left), (right, middle, to, at_right))
                } else {
                    ((right, middle, to, at_right), (left, from, middle, at_left))
                };
                if far.3 < least && count < DEEPEST {
                    waiting[count] = far;
                    count += 1;
                }
                (node, from, to, lowest) = near;
            }
        }
        found
    }

    /// All facets in leaves that `enters`, together with all nodes above them.
    pub(super) fn within(&self, enters: impl Fn(&Node) -> bool) -> Vec<&Plate> {
        let mut found = Vec::new();
        let leaves = self.plates.len().div_ceil(LEAF);
        let mut waiting = if leaves > 0 { vec![(0, 0, leaves)] } else { Vec::new() };
        while let Some((node, from, to)) = waiting.pop() {
            if !enters(&self.nodes[node]) {
                continue;
            }
            if to - from == 1 {
                found.extend(self.leaf(from));
            } else {
                let middle = from.midpoint(to);
                waiting.extend([(node + 2 * (middle - from), middle, to), (node + 1, from, middle)]);
            }
        }
        found
    }
}

impl Plate {
    fn of(facets: &[Facet], number: u32) -> Self {
        let facet = &facets[number as usize];
        let (normal, lean) = (facet.normal, facet.lean);
        if let Some((center, arm)) = facet.long_side() {
            return Self { normal, center, reach: facet.area / arm.norm(), lean, long: true, facet: number };
        }
        let center = facet.centroid();
        let reach = facet.corners.iter().map(|corner| (corner - center).norm()).fold(0.0, f64::max);
        Self { normal, center, reach, lean, long: false, facet: number }
    }
}

impl Node {
    const EMPTY: Self = Self {
        low: Point3::new(f64::INFINITY, f64::INFINITY, f64::INFINITY),
        high: Point3::new(f64::NEG_INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY),
        axis: Vector3::new(1.0, 0.0, 0.0),
        cosine: 1.0,
        sine: 0.0,
        lean: 0.0,
    };

    fn over(facets: &[Facet], plates: &[Plate]) -> Self {
        let sum: Vector3<f64> = plates.iter().map(|plate| plate.normal).sum();
        let axis = sum.try_normalize(0.0).unwrap_or_else(Vector3::x);
        let cosine = plates.iter().map(|plate| plate.normal.dot(&axis)).fold(1.0, f64::min);
        let mut node = Self { axis, cosine, sine: sine_of(cosine), ..Self::EMPTY };
        for plate in plates {
            node.lean = node.lean.max(plate.lean);
            for corner in &facets[plate.facet as usize].corners {
                node.low = node.low.inf(corner);
                node.high = node.high.sup(corner);
            }
        }
        node
    }

    /// The node over two.
    fn with(&self, other: &Self) -> Self {
        let axis = (self.axis + other.axis).try_normalize(1e-6).unwrap_or(self.axis);
        // The farthest direction of either from the new axis: the angles of axis and spread added.
        let reach = |part: &Self| {
            let turn = part.axis.dot(&axis).min(1.0);
            if part.cosine <= -turn { -1.0 } else { turn * part.cosine - sine_of(turn) * part.sine }
        };
        let cosine = reach(self).min(reach(other)).max(-1.0);
        Self {
            low: self.low.inf(&other.low),
            high: self.high.sup(&other.high),
            axis,
            cosine,
            sine: sine_of(cosine),
            lean: self.lean.max(other.lean),
        }
    }

    /// Cosine between a unit vector and the direction in the node's cone most against it.
    pub(super) fn most_against(&self, direction: &Vector3<f64>) -> f64 {
        let cosine = self.axis.dot(direction);
        // Where the opposite direction lies within the cone.
        if -cosine >= self.cosine { -1.0 } else { cosine * self.cosine - sine_of(cosine) * self.sine }
    }
}

/// Sine of an angle of 0 to 180 degrees from its cosine.
fn sine_of(cosine: f64) -> f64 {
    let square = 1.0 - cosine * cosine;
    if square > 0.0 { square.sqrt() } else { 0.0 }
}

/// Facets in the order of their leaves: halved again and again across the greatest extent of their centroids.
fn arranged(all: &[Facet], members: &[u32]) -> Vec<u32> {
    let mut keys: Vec<Key> = map_blocks(members.len(), BLOCK, |range| {
        members[range].iter().map(|&facet| (all[facet as usize].centroid(), facet)).collect::<Vec<_>>()
    })
    .concat();
    let mut parts: Vec<&mut [Key]> = vec![&mut keys];
    for _ in 0..SHARED {
        parts = parts.into_iter().flat_map(halve).collect();
    }
    let sorted = map_in_order(parts.len(), |k| {
        let mut part = parts[k].to_vec();
        halve_to_leaves(&mut part);
        part.into_iter().map(|(_, facet)| facet).collect::<Vec<_>>()
    });
    sorted.concat()
}

/// Where a facet lies.
type Key = (Point3<f64>, u32);

fn halve_to_leaves(keys: &mut [Key]) {
    if keys.len() > LEAF {
        halve(keys).into_iter().for_each(halve_to_leaves);
    }
}

/// Parts with equal numbers of leaves, or one more in the second.
fn halve(keys: &mut [Key]) -> [&mut [Key]; 2] {
    let middle = keys.len().div_ceil(LEAF) / 2 * LEAF;
    if middle == 0 {
        return [keys, &mut []];
    }
    let (low, high) = extent(keys.iter().map(|(center, _)| center));
    let widest = (high - low).imax();
    // Equal places are told apart by their number, so that the order is the same everywhere.
    keys.select_nth_unstable_by(middle, |a, b| a.0[widest].total_cmp(&b.0[widest]).then(a.1.cmp(&b.1)));
    let (left, right) = keys.split_at_mut(middle);
    [left, right]
}

fn extent<'a>(points: impl Iterator<Item = &'a Point3<f64>>) -> (Point3<f64>, Point3<f64>) {
    points.fold((Node::EMPTY.low, Node::EMPTY.high), |(low, high), point| (low.inf(point), high.sup(point)))
}
