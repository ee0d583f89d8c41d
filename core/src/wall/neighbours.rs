use nalgebra::Point3;

/// Points sorted into cubes, so that those near one another are found.
pub(super) struct Neighbours<'a> {
    points: &'a [Point3<f64>],
    distance: f64,
    /// Cube and number of every point, sorted.
    cubes: Vec<([i64; 3], u32)>,
}

impl<'a> Neighbours<'a> {
    /// Prepares for pairs up to `distance` apart.
    pub(super) fn new(points: &'a [Point3<f64>], distance: f64) -> Self {
        let cube = |point: &Point3<f64>| [point.x, point.y, point.z].map(|c| (c / distance).floor() as i64);
        let mut cubes: Vec<([i64; 3], u32)> = points.iter().enumerate().map(|(k, p)| (cube(p), k as u32)).collect();
        cubes.sort_unstable();
        Self { points, distance, cubes }
    }

    /// Calls `pair` with every two points that near, each pair once.
    pub(super) fn each(&self, mut pair: impl FnMut(usize, usize)) {
        // Columns of cubes along the last axis, of which half the neighbours are gone through from either side.
        const COLUMNS: [[i64; 2]; 4] = [[0, 1], [1, -1], [1, 0], [1, 1]];
        for (place, &([x, y, z], number)) in self.cubes.iter().enumerate() {
            let near = |&&(_, other): &&([i64; 3], u32)| {
                (self.points[other as usize] - self.points[number as usize]).norm() <= self.distance
            };
            let own = self.cubes[place + 1..].iter().take_while(|(cube, _)| *cube <= [x, y, z + 1]);
            own.filter(near).for_each(|&(_, other)| pair(number as usize, other as usize));
            for [right, up] in COLUMNS {
                let (first, last) = ([x + right, y + up, z - 1], [x + right, y + up, z + 1]);
                let start = self.cubes.partition_point(|(cube, _)| *cube < first);
                let column = self.cubes[start..].iter().take_while(|(cube, _)| *cube <= last);
                column.filter(near).for_each(|&(_, other)| pair(number as usize, other as usize));
            }
        }
    }
}
