use nalgebra::Point3;

use super::prepared::PreparedAny;
use crate::part::AnyPart;

/// Temperatures of a part by its warm places.
///
/// Away from a warm place the rise over the rest of the part falls as along a long fin: `exp(-d / L)`, `L = sqrt(k A / (h P))`
/// (Incropera and others, Fundamentals of Heat and Mass Transfer, extended surfaces), with the volume over the surface of the
/// part for A / P and the straight distance for d, which errs on the warm side. Where several places reach, the greatest
/// difference counts.
#[derive(Debug, Clone)]
pub(crate) struct Warmth {
    /// Of the part where nothing warms it, K.
    base: f64,
    /// Number of each warm place, its rise, K, and its reach, m.
    places: Vec<(usize, f64, f64)>,
}

/// Film round a part in moving air, W/(m² K) (common practice, no source).
pub(crate) const FILM: f64 = 50.0;

impl Warmth {
    pub(crate) fn new(prepared: &PreparedAny) -> Self {
        let base = prepared.scenario.temperature;
        let usual = usual_reach(prepared);
        let places = prepared.given.warm.iter();
        let places = places.map(|warm| (warm.at, warm.kelvin - base, warm.reach.unwrap_or(usual)));
        Self { base, places: places.collect() }
    }

    /// At a point by its distances from all places, K.
    pub(crate) fn at(&self, distance: impl Fn(usize) -> f64) -> f64 {
        let mut rise = 0.0_f64;
        for &(place, whole, reach) in &self.places {
            let here = whole * libm::exp(-distance(place) / reach);
            if here.abs() > rise.abs() {
                rise = here;
            }
        }
        self.base + rise
    }

    /// Highest anywhere, with the number of its place, K.
    pub(crate) fn hottest(&self) -> (f64, Option<usize>) {
        let hotter = |best: (f64, Option<usize>), &(place, rise, _): &(usize, f64, f64)| {
            if self.base + rise > best.0 { (self.base + rise, Some(place)) } else { best }
        };
        self.places.iter().fold((self.base, None), hotter)
    }

    /// Whether any place has a temperature of its own.
    pub(crate) fn uneven(&self) -> bool {
        !self.places.is_empty()
    }
}

/// Length over which the warmth of a place falls by the factor e, m.
pub(crate) fn usual_reach(prepared: &PreparedAny) -> f64 {
    let AnyPart { mesh, .. } = &*prepared.part;
    let surface: f64 = (0..mesh.facets().len()).map(|facet| mesh.area_vector(facet).norm() / 2.0).sum();
    let depth = mesh.mass_properties().volume / surface.max(f64::MIN_POSITIVE);
    let conductivity = prepared.scenario.material().bead_conductivity;
    (conductivity * depth / FILM).max(0.0).sqrt().max(1e-4)
}

/// Straight distance of a point from a place, m.
pub(crate) fn distance(prepared: &PreparedAny, place: usize, point: &Point3<f64>) -> f64 {
    prepared.found[place].patch.distance(point)
}
