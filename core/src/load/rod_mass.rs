use crate::section::VolumeMoments;

/// Mass of a rod along its load path, between and beyond the planes of its stations.
///
/// Frame of the rod: origin at the small-end centre, `x` toward the big end.
#[derive(Debug, Clone, PartialEq)]
pub struct RodMass {
    /// Mass integrals (kg, kg m, kg m²) of everything below plane `i`, and of the whole rod last.
    below: Vec<VolumeMoments>,
    /// Plane positions, m.
    planes: Vec<f64>,
    /// Point on each plane about which moments are taken: the section's centroid (y, z), m.
    centers: Vec<[f64; 2]>,
    /// Centre distance, m.
    length: f64,
    /// Offset of the big-end centre along the pin axis, m.
    big_end_z: f64,
}

impl RodMass {
    /// Builds it from the volume integrals of the slabs and their mean densities (kg/m³).
    ///
    /// `slabs` and `densities` have one entry more than `planes` and `centers`.
    pub fn new(
        slabs: &[VolumeMoments],
        densities: &[f64],
        planes: Vec<f64>,
        centers: Vec<[f64; 2]>,
        length: f64,
        big_end_z: f64,
    ) -> Self {
        let mut sum = VolumeMoments::default();
        let below = slabs
            .iter()
            .zip(densities)
            .map(|(slab, &density)| {
                sum = sum.plus(slab, density);
                sum
            })
            .collect();
        Self { below, planes, centers, length, big_end_z }
    }

    /// The same with a ring of material round a pin-parallel axis: its centre, m, its radii, m, and its mass, kg.
    #[must_use]
    pub fn with_ring(&self, center: [f64; 3], radii: [f64; 2], mass: f64) -> Self {
        let [x, y, z] = center;
        let [inner, outer] = radii;
        let ring = VolumeMoments {
            volume: mass,
            first: [mass * x, mass * y, mass * z],
            polar: mass * (x * x + y * y + 0.5 * (inner * inner + outer * outer)),
            xz: mass * x * z,
            yz: mass * y * z,
        };
        let mut heavier = self.clone();
        for (plane, below) in heavier.below.iter_mut().enumerate() {
            // The whole rod is last.
            if self.planes.get(plane).is_none_or(|&at| at >= x) {
                *below = below.plus(&ring, 1.0);
            }
        }
        heavier
    }

    /// Mass, kg.
    pub fn mass(&self) -> f64 {
        self.whole().volume
    }

    /// Distance of the centre of mass from the small-end centre along the rod, m.
    pub fn center_of_mass(&self) -> f64 {
        self.whole().first[0] / self.mass()
    }

    /// Moment of inertia about the pin-parallel axis through the centre of mass, kg m².
    pub fn inertia(&self) -> f64 {
        let whole = self.whole();
        let (x, y) = (whole.first[0], whole.first[1]);
        whole.polar - (x * x + y * y) / whole.volume
    }

    /// Centre distance, m.
    pub fn length(&self) -> f64 {
        self.length
    }

    /// Plane positions, m.
    pub fn planes(&self) -> &[f64] {
        &self.planes
    }

    pub(super) fn centers(&self) -> &[[f64; 2]] {
        &self.centers
    }

    pub(super) fn big_end_z(&self) -> f64 {
        self.big_end_z
    }

    pub(super) fn below(&self, plane: usize) -> &VolumeMoments {
        &self.below[plane]
    }

    pub(super) fn whole(&self) -> &VolumeMoments {
        &self.below[self.planes.len()]
    }
}
