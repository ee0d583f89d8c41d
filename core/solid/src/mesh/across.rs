use std::collections::BTreeMap;

use nalgebra::Point3;

use super::error::MeshError;
use super::solid::Mesh;

impl Mesh {
    /// The same surface with its facets cut where they cross planes square to x, at `positions` (m).
    pub fn cut_across(&self, positions: &[f64]) -> Result<Self, MeshError> {
        let mut points = self.points().to_vec();
        let mut facets = self.facets().to_vec();
        for &position in positions {
            let mut cut = Cut { position, points: &mut points, of_edge: BTreeMap::new() };
            let mut now = Vec::with_capacity(facets.len());
            for facet in facets {
                cut.apart(facet, &mut now);
            }
            facets = now;
        }
        Self::from_facets(points, facets)
    }
}

/// One plane square to x.
struct Cut<'a> {
    position: f64,
    points: &'a mut Vec<Point3<f64>>,
    /// The point where the plane cuts an edge: both of its facets get the same.
    of_edge: BTreeMap<(u32, u32), u32>,
}

impl Cut<'_> {
    fn side(&self, point: u32) -> f64 {
        self.points[point as usize].x - self.position
    }

    /// Puts a facet's parts on either side of the plane into `into`.
    fn apart(&mut self, facet: [u32; 3], into: &mut Vec<[u32; 3]>) {
        let sides = facet.map(|point| self.side(point));
        if sides.iter().all(|&side| side >= 0.0) || sides.iter().all(|&side| side <= 0.0) {
            into.push(facet);
            return;
        }
        // The corner that is alone on its side of the plane, or with the one across it on the plane, comes first.
        let alone = (0..3).find(|&k| sides[k] * sides[(k + 1) % 3] < 0.0 && sides[k] * sides[(k + 2) % 3] <= 0.0);
        let k = alone.unwrap_or(0);
        let [a, b, c] = [facet[k], facet[(k + 1) % 3], facet[(k + 2) % 3]];
        let on_ab = self.crossing(a, b);
        if sides[(k + 2) % 3] == 0.0 {
            into.extend([[a, on_ab, c], [on_ab, b, c]]);
        } else {
            let on_ac = self.crossing(a, c);
            into.extend([[a, on_ab, on_ac], [on_ab, b, c], [on_ab, c, on_ac]]);
        }
    }

    fn crossing(&mut self, a: u32, b: u32) -> u32 {
        let (from, to) = (a.min(b), a.max(b));
        if let Some(&known) = self.of_edge.get(&(from, to)) {
            return known;
        }
        let (start, end) = (self.points[from as usize], self.points[to as usize]);
        let share = (self.position - start.x) / (end.x - start.x);
        let mut point = start + (end - start) * share;
        point.x = self.position;
        let number = self.points.len() as u32;
        self.points.push(point);
        self.of_edge.insert((from, to), number);
        number
    }
}
