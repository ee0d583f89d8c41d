// Longer than other files: its steps share the walls of one view, and each is short.
use nalgebra::{Point3, Vector2, Vector3};

use super::axes::{LEAST_BEND, upward};
use super::bore::{Bore, Seat};
use super::chords::{NONE, wide_chords};
use super::circle::Circle;
use super::search::Sight;
use super::votes::{Votes, picked};
use crate::mesh::Mesh;
use crate::numeric::{map_blocks, sort_few};
use crate::part::circle;

/// Corners that a circle is fitted to, at least.
const LEAST_CORNERS: usize = 8;

/// Smallest arc that counts as a bore, radians: a split big end shows 180 degrees.
const LEAST_ARC: f64 = 150.0 / 180.0 * core::f64::consts::PI;

/// Facets whose normal leans more than this (sine) out of the plane square to the axis are not part of its bores.
const LEAN: f64 = 0.03;

/// Walls, at most, whose circle decides which walls belong to it; the circle itself is fitted to all of those.
const SORTED_BY: usize = 4_000;

/// Bores looked for along one direction.
const BORES: usize = 8;

/// A facet that stands square to the viewing direction, seen as a short line in the plane.
#[derive(Clone, Copy)]
pub(super) struct Strip {
    pub(super) facet: u32,
    pub(super) middle: Vector2<f64>,
    /// Outward normal, which for a bore points to its axis.
    pub(super) normal: Vector2<f64>,
    pub(super) area: f64,
    /// The wide chord that it is a piece of, if it is.
    pub(super) chord: u32,
}

/// The walls of a mesh seen along one direction.
pub(super) struct AxisView<'mesh> {
    mesh: &'mesh Mesh,
    axis: Vector3<f64>,
    right: Vector3<f64>,
    up: Vector3<f64>,
    walls: Vec<Strip>,
    /// Ends of the wide chords that some walls are pieces of.
    chords: Vec<[Vector2<f64>; 2]>,
    sight: Sight,
    /// Walls picked in proportion to their area, for what needs no more than a picture of the part.
    picked: Vec<usize>,
}

impl<'mesh> AxisView<'mesh> {
    pub(super) fn along(mesh: &'mesh Mesh, normals: &[Vector3<f64>], axis: Vector3<f64>, sight: Sight) -> Self {
        let mut least = Vector3::zeros();
        least[axis.iamin()] = 1.0;
        let right = axis.cross(&least).normalize();
        let up = axis.cross(&right);
        let mut walls: Vec<Strip> = map_blocks(normals.len(), 65_536, |range| {
            range
                .filter(|&f| normals[f].dot(&axis).abs() < LEAN && normals[f] != Vector3::zeros())
                .map(|f| {
                    let corners = mesh.corners(f).map(|p| Vector2::new(right.dot(&p.coords), up.dot(&p.coords)));
                    Strip {
                        facet: f as u32,
                        middle: middle(&corners),
                        normal: Vector2::new(right.dot(&normals[f]), up.dot(&normals[f])).normalize(),
                        area: mesh.area_vector(f).norm() / 2.0,
                        chord: NONE,
                    }
                })
                .collect::<Vec<_>>()
        })
        .concat();
        let chords = wide_chords(mesh, &mut walls, |id| {
            let point = &mesh.points()[id as usize].coords;
            Vector2::new(right.dot(point), up.dot(point))
        });
        let picked = picked(&walls);
        Self { mesh, axis, right, up, walls, chords, sight, picked }
    }

    pub(super) fn bores(&self) -> Vec<Bore> {
        let mut bores = Vec::new();
        let mut free = vec![true; self.walls.len()];
        let mut seen = SeenCorners::new(self.mesh.points().len() + self.chords.len());
        let Some(mut votes) = Votes::of(&self.walls, &self.picked) else { return bores };
        for _ in 0..BORES {
            let Some(center) = self.meeting_point(&votes, &free) else { break };
            let facing = self.facing(center, &free);
            let groups = self.by_radius(center, &facing);
            let seats: Vec<FittedSeat> =
                groups.iter().filter_map(|group| self.fitted(center, group.clone(), &mut seen)).collect();
            // What meets here without being a bore (a fillet, a boss) must not be found again either.
            let area = |group: &Vec<usize>| group.iter().map(|&w| self.walls[w].area).sum::<f64>();
            let spent = groups.iter().max_by(|a, b| area(a).total_cmp(&area(b))).into_iter().flatten();
            for &wall in spent.chain(seats.iter().flat_map(|seat| &seat.walls)) {
                if core::mem::take(&mut free[wall]) {
                    votes.withdraw(wall, &self.walls[wall]);
                }
            }
            if let Some(bore) = self.assembled(seats) {
                bores.push(bore);
            }
        }
        bores
    }

    /// The bore round a point near its axis.
    pub(super) fn bore_round(&self, point: &Point3<f64>, radius: f64) -> Option<Bore> {
        let free = vec![true; self.walls.len()];
        let mut seen = SeenCorners::new(self.mesh.points().len() + self.chords.len());
        let start = Vector2::new(self.right.dot(&point.coords), self.up.dot(&point.coords));
        // The normals that pass near the point tell the axis better than a point read off a drawing.
        let center = self.sharpened(start, 0.1 * radius, &free);
        let groups = self.by_radius(center, &self.facing(center, &free));
        let seats = groups.into_iter().filter_map(|group| self.fitted(center, group, &mut seen)).collect();
        self.assembled(seats)
    }

    /// Point in which the most wall normals meet.
    fn meeting_point(&self, votes: &Votes, free: &[bool]) -> Option<Vector2<f64>> {
        let (count, point) = votes.most();
        // A bore this small would carry no load of interest: its wall is under 0.5 % of all walls seen.
        (f64::from(count) > 0.005 * self.picked.len() as f64).then(|| self.sharpened(point, 2.0 * votes.cell, free))
    }

    /// The point nearest to all normals that pass within `reach` of the start.
    fn sharpened(&self, start: Vector2<f64>, reach: f64, free: &[bool]) -> Vector2<f64> {
        let mut center = start;
        for tighter in [1.0, 0.5, 0.25, 0.1] {
            let mut normal = nalgebra::Matrix2::zeros();
            let mut right = Vector2::zeros();
            for wall in self.picked.iter().filter(|&&w| free[w]).map(|&w| &self.walls[w]) {
                let arm = center - wall.middle;
                let tangent = Vector2::new(-wall.normal.y, wall.normal.x);
                if arm.dot(&wall.normal) > 0.0 && arm.dot(&tangent).abs() < reach * tighter {
                    normal += tangent * tangent.transpose();
                    right += tangent * tangent.dot(&wall.middle);
                }
            }
            let Some(inverse) = normal.try_inverse() else { break };
            let moved = inverse * right;
            if (moved - center).norm() > reach {
                break;
            }
            center = moved;
        }
        center
    }

    /// Walls that look at `center`.
    fn facing(&self, center: Vector2<f64>, free: &[bool]) -> Vec<usize> {
        map_blocks(self.walls.len(), 65_536, |range| {
            range
                .filter(|&w| {
                    let arm = center - self.walls[w].middle;
                    let toward = arm.dot(&self.walls[w].normal);
                    free[w] && toward > 0.0 && toward * toward > 0.985 * 0.985 * arm.norm_squared()
                })
                .collect::<Vec<_>>()
        })
        .concat()
    }

    /// Splits the walls round a centre by their distance from it.
    fn by_radius(&self, center: Vector2<f64>, facing: &[usize]) -> Vec<Vec<usize>> {
        let mut sorted: Vec<(f64, usize)> =
            facing.iter().map(|&w| ((self.walls[w].middle - center).norm(), w)).collect();
        sorted.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        sorted.chunk_by(|a, b| b.0 - a.0 < 0.02 * a.0).map(|group| group.iter().map(|&(_, w)| w).collect()).collect()
    }

    fn fitted(&self, start: Vector2<f64>, mut members: Vec<usize>, seen: &mut SeenCorners) -> Option<FittedSeat> {
        let mut circle = Circle { center: start, radius: 0.0, residual: 0.0 };
        // Flats and blends beside the bore slip into the first fit; those far from the circle leave, and it is fitted anew.
        for tolerance in [0.02, 0.006, 0.003] {
            // Some of many corners tell as well who has to leave.
            let stride = members.len().div_ceil(SORTED_BY).max(1);
            let corners = self.corners_of(members.iter().step_by(stride), seen);
            circle = circle::fit(&corners, circle.center)?;
            let near = |w: usize| {
                let off = |p: &Vector2<f64>| ((p - circle.center).norm() - circle.radius).abs();
                self.flat_corners(w).iter().all(|p| off(p) < tolerance * circle.radius)
            };
            members = map_blocks(members.len(), 4096, |range| {
                members[range].iter().copied().filter(|&w| near(w)).collect::<Vec<_>>()
            })
            .concat();
        }
        let corners = self.rounding_corners(&members, seen);
        let points: Vec<Vector2<f64>> = corners.iter().map(|&id| self.flat(id)).collect();
        let circle = circle::fit(&points, circle.center)?;
        let (arc, widest) = self.arc(&circle, &members);
        let (from, to, gap) = self.length(&members);
        (arc >= LEAST_ARC && widest <= self.sight.widest_wall()).then_some(FittedSeat {
            circle,
            from,
            to,
            gap,
            arc,
            sagitta: circle.radius * (1.0 - libm::cos(widest / 2.0)),
            walls: members,
            corners,
        })
    }

    /// Corners of a wall seen in the plane; of a piece of a wide chord the chord's ends.
    fn flat_corners(&self, wall: usize) -> [Vector2<f64>; 3] {
        if let Some(&[from, to]) = self.chords.get(self.walls[wall].chord as usize) {
            return [from, to, to];
        }
        self.mesh
            .corners(self.walls[wall].facet as usize)
            .map(|p| Vector2::new(self.right.dot(&p.coords), self.up.dot(&p.coords)))
    }

    /// Corner points of the walls, each once, seen in the plane.
    fn corners_of<'w>(&self, walls: impl IntoIterator<Item = &'w usize>, seen: &mut SeenCorners) -> Vec<Vector2<f64>> {
        seen.forget();
        let mut corners = Vec::new();
        for wall in walls.into_iter().map(|&w| &self.walls[w]) {
            if let Some(ends) = self.chords.get(wall.chord as usize) {
                if seen.is_new(self.mesh.points().len() as u32 + wall.chord) {
                    corners.extend(ends);
                }
                continue;
            }
            let ids = self.mesh.facets()[wall.facet as usize].into_iter().filter(|&id| seen.is_new(id));
            let points = ids.map(|id| &self.mesh.points()[id as usize].coords);
            corners.extend(points.map(|p| Vector2::new(self.right.dot(p), self.up.dot(p))));
        }
        corners
    }

    /// Where walls begin and end along the axis, and the length between that has none: from counterbore to counterbore, or
    /// between the cheeks of a fork.
    fn length(&self, walls: &[usize]) -> (f64, f64, f64) {
        let mut spans: Vec<(f64, f64)> = map_blocks(walls.len(), 4096, |range| {
            let span = |k: usize| {
                let heights = self.mesh.corners(self.walls[walls[k]].facet as usize).map(|p| self.axis.dot(&p.coords));
                (heights[0].min(heights[1]).min(heights[2]), heights[0].max(heights[1]).max(heights[2]))
            };
            range.map(span).collect::<Vec<_>>()
        })
        .concat();
        spans.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let from = spans.first().map_or(0.0, |span| span.0);
        let (mut reached, mut gap) = (from, 0.0);
        for (start, end) in spans {
            gap += (start - reached).max(0.0);
            reached = reached.max(end);
        }
        (from, reached, gap)
    }

    /// A corner point seen in the plane.
    fn flat(&self, corner: u32) -> Vector2<f64> {
        let point = &self.mesh.points()[corner as usize].coords;
        Vector2::new(self.right.dot(point), self.up.dot(point))
    }

    /// Corners at which walls bend. Those in the middle of a flat wall, where its facet was divided, lie inside the circle
    /// that was drawn. All corners where too few bend, as on a very fine mesh.
    fn rounding_corners(&self, walls: &[usize], seen: &mut SeenCorners) -> Vec<u32> {
        seen.forget();
        let mut all = Vec::new();
        let mut bent = Vec::new();
        for &wall in walls {
            let Strip { facet, normal, .. } = self.walls[wall];
            for id in self.mesh.facets()[facet as usize] {
                if seen.is_new(id) {
                    seen.normals[id as usize] = Some(normal);
                    all.push(id);
                } else if seen.normals[id as usize].is_some_and(|first| first.perp(&normal).abs() > LEAST_BEND) {
                    seen.normals[id as usize] = None;
                    bent.push(id);
                }
            }
        }
        if bent.len() < LEAST_CORNERS { all } else { bent }
    }

    /// Angle covered by the walls, and the widest single wall, radians.
    fn arc(&self, circle: &Circle, walls: &[usize]) -> (f64, f64) {
        use core::f64::consts::{PI, TAU};
        let span = |w: usize| {
            let middle = self.walls[w].middle - circle.center;
            let toward = libm::atan2(middle.y, middle.x);
            let mut half = 0.0_f64;
            for corner in self.flat_corners(w) {
                let arm = corner - circle.center;
                let turn = libm::atan2(middle.perp(&arm), middle.dot(&arm));
                half = half.max(turn.abs());
            }
            (toward - half, toward + half)
        };
        let mut spans: Vec<(f64, f64)> =
            map_blocks(walls.len(), 4096, |range| range.map(|k| span(walls[k])).collect::<Vec<_>>()).concat();
        let widest = spans.iter().map(|s| s.1 - s.0).fold(0.0, f64::max);
        spans.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut covered = 0.0;
        let mut reached = f64::NEG_INFINITY;
        for (from, to) in spans {
            covered += (to - from.max(reached)).max(0.0);
            reached = reached.max(to);
        }
        debug_assert!(reached <= 2.0 * PI + widest);
        (covered.min(TAU), widest)
    }

    fn assembled(&self, mut seats: Vec<FittedSeat>) -> Option<Bore> {
        sort_few(&mut seats, |a, b| (b.to - b.from - b.gap).total_cmp(&(a.to - a.from - a.gap)));
        let main = seats.first()?;
        let origin = main.circle.center;
        let middle = f64::midpoint(main.from, main.to);
        let center = Point3::from(self.right * origin.x + self.up * origin.y + self.axis * middle);
        let (axis, center) = self.leaned(main, center);
        let reach = 0.02 * main.circle.radius;
        Some(Bore {
            center,
            axis,
            seats: seats
                .iter()
                .filter(|s| (s.circle.center - origin).norm() < reach)
                .map(|s| Seat {
                    radius: s.circle.radius,
                    from: s.from - middle,
                    to: s.to - middle,
                    gap: s.gap,
                    arc: s.arc,
                    sagitta: s.sagitta,
                    residual: s.circle.residual,
                })
                .collect(),
        })
    }

    /// Corrects the axis by the slope of the corner distances along it (one Gauss-Newton step of the cylinder fit).
    fn leaned(&self, seat: &FittedSeat, center: Point3<f64>) -> (Vector3<f64>, Point3<f64>) {
        let mut normal = nalgebra::Matrix4::zeros();
        let mut right = nalgebra::Vector4::zeros();
        let middle = self.axis.dot(&center.coords);
        let mut ids = seat.corners.clone();
        ids.sort_unstable();
        for id in ids {
            let point = &self.mesh.points()[id as usize].coords;
            let arm = self.flat(id) - seat.circle.center;
            let height = self.axis.dot(point) - middle;
            let toward = arm / arm.norm();
            let row = nalgebra::Vector4::new(toward.x, toward.y, toward.x * height, toward.y * height);
            normal += row * row.transpose();
            right += row * (arm.norm() - seat.circle.radius);
        }
        let Some(step) = normal.cholesky().map(|c| c.solve(&right)) else { return (self.axis, center) };
        let lean = self.right * step.z + self.up * step.w;
        if lean.norm() > 0.02 {
            return (self.axis, center);
        }
        let shift = self.right * step.x + self.up * step.y;
        (upward((self.axis + lean).normalize()), center + shift)
    }
}

/// Middle of the widest side of a triangle seen edge on: the middle of the chord it stands for.
fn middle(corners: &[Vector2<f64>; 3]) -> Vector2<f64> {
    let [a, b, c] = corners;
    let sides = [(a, b), (b, c), (c, a)];
    let mut widest = sides[0];
    for side in sides {
        if (side.1 - side.0).norm_squared() > (widest.1 - widest.0).norm_squared() {
            widest = side;
        }
    }
    (widest.0 + widest.1) / 2.0
}

/// Corners met since it last forgot.
struct SeenCorners {
    round: Vec<u32>,
    now: u32,
    /// Of each corner the first wall it was met at, until one bends away from that.
    normals: Vec<Option<Vector2<f64>>>,
}

impl SeenCorners {
    fn new(count: usize) -> Self {
        Self { round: vec![0; count], now: 0, normals: vec![None; count] }
    }

    fn forget(&mut self) {
        self.now += 1;
    }

    /// Whether a corner was not met yet; now it is.
    fn is_new(&mut self, id: u32) -> bool {
        core::mem::replace(&mut self.round[id as usize], self.now) != self.now
    }
}

struct FittedSeat {
    circle: Circle,
    from: f64,
    to: f64,
    gap: f64,
    arc: f64,
    sagitta: f64,
    walls: Vec<usize>,
    /// Corners the circle was fitted to.
    corners: Vec<u32>,
}
