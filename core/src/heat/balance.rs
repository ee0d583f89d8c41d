/// Where heat came from and went to over some time, J. Whatever flows out of the part counts positive.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct HeatBalance {
    /// Made inside the part.
    pub generated: f64,
    /// Out through the sides.
    pub through_sides: f64,
    /// Out through the first end and the last end.
    pub through_ends: [f64; 2],
    /// Kept: capacity times rise of temperature.
    pub stored: f64,
}

impl HeatBalance {
    /// Heat that came in or was made.
    pub fn received(&self) -> f64 {
        self.generated
            + [self.through_sides, self.through_ends[0], self.through_ends[1]]
                .iter()
                .map(|q| (-q).max(0.0))
                .sum::<f64>()
    }

    /// Heat in less heat stored less heat out, as a share of the heat in (of the heat stored when none came in): zero
    /// up to rounding and the tolerance of the solver.
    pub fn imbalance(&self) -> f64 {
        let out = self.through_sides + self.through_ends[0] + self.through_ends[1];
        let scale = self.received().max(self.stored.abs()).max(f64::MIN_POSITIVE);
        (self.generated - self.stored - out) / scale
    }

    pub(super) fn add(&mut self, other: &Self) {
        self.generated += other.generated;
        self.through_sides += other.through_sides;
        self.through_ends[0] += other.through_ends[0];
        self.through_ends[1] += other.through_ends[1];
        self.stored += other.stored;
    }
}
