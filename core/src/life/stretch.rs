use super::error::LifeError;

/// One cut of a rod on the way to its change of length.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StretchStation {
    /// Distance along the rod, m.
    pub position: f64,
    /// Axial force at the moment of interest, N; tension positive. For the gap to the head that is the top of the
    /// exchange stroke, where inertia pulls and no gas pushes.
    pub force: f64,
    /// Axial stiffness E A at the temperature there, N.
    pub stiffness: f64,
    /// Creep strain so far.
    pub creep_strain: f64,
    /// Expansion by heat along the rod, 1/K.
    pub expansion: f64,
    /// Temperature above that of assembly, K.
    pub warming: f64,
}

/// How much longer a rod is than when it was fitted, m.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct RodStretch {
    /// By the force of the moment; comes and goes with it.
    pub elastic: f64,
    /// By creep; stays.
    pub creep: f64,
    /// By heat.
    pub thermal: f64,
}

impl RodStretch {
    /// Everything together, m.
    pub fn total(&self) -> f64 {
        self.elastic + self.creep + self.thermal
    }

    /// The most that it is longer at any time up to then, m: creep that shortens a rod has not begun when it is new.
    pub fn greatest(&self) -> f64 {
        self.elastic + self.creep.max(0.0) + self.thermal
    }

    /// Gap left between piston and head, m: the cold one, plus what the cylinder grows by heat, less the greatest
    /// stretch. Negative when they strike. Play in the bearings is not in it; it counts against the gap as well.
    pub fn remaining_clearance(&self, cold_clearance: f64, cylinder_growth: f64) -> f64 {
        cold_clearance + cylinder_growth - self.greatest()
    }
}

/// Change of length between the first and the last station: `integral of N/(E A) + e_creep + alpha dT` over the length,
/// by trapezoids. Stations in order.
pub fn rod_stretch(stations: &[StretchStation]) -> Result<RodStretch, LifeError> {
    if stations.len() < 2 {
        return Err(LifeError::TooShort { count: stations.len(), least: 2 });
    }
    for (index, station) in stations.iter().enumerate() {
        LifeError::positive("axial stiffness", station.stiffness)?;
        let numbers = [station.position, station.force, station.creep_strain, station.expansion, station.warming];
        if numbers.iter().any(|number| !number.is_finite()) {
            return Err(LifeError::NotFinite { index });
        }
    }
    let mut stretch = RodStretch::default();
    for pair in stations.windows(2) {
        let reach = LifeError::not_negative("distance between stations", pair[1].position - pair[0].position)?;
        let mean = |value: fn(&StretchStation) -> f64| f64::midpoint(value(&pair[0]), value(&pair[1])) * reach;
        stretch.elastic += mean(|s| s.force / s.stiffness);
        stretch.creep += mean(|s| s.creep_strain);
        stretch.thermal += mean(|s| s.expansion * s.warming);
    }
    Ok(stretch)
}
