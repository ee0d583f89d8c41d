use nalgebra::Point3;

use super::ball::{Thickness, thickness_all};
use super::sample::{Sample, subdivided};
use super::surface::{Facet, Surface};

/// The least thickness found on a facet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FacetThickness {
    /// Where on the facet, m.
    pub point: Point3<f64>,
    /// The thickness there.
    pub thickness: Thickness,
}

/// Facets are divided until their pieces are shorter than the side of a square of this share of the whole area.
const AREA_SHARE: f64 = 1.0 / 20_000.0;

/// A facet is divided into at most this many pieces along each side.
const MOST_PARTS: f64 = 64.0;

/// Pieces of all facets together, beyond which facets are divided less.
const MOST_SAMPLES: f64 = 2e6;

/// Thickness of every facet, measured in its middle and, on large facets, in the middles of equal pieces.
///
/// `None` for facets that bound nothing: without area, or inside another shell. The values do not depend on the order of
/// the facets.
pub fn facet_thickness(surface: &Surface<'_>) -> Vec<Option<FacetThickness>> {
    let facets = &surface.facets;
    let total: f64 = facets.iter().map(|facet| facet.area).sum();
    let mut spacing = 2.0 * (total * AREA_SHARE).sqrt();
    let pieces = |spacing: f64| -> f64 { facets.iter().map(|f| f64::from(parts(f, spacing).pow(2))).sum() };
    while pieces(spacing) > MOST_SAMPLES.max(4.0 * facets.len() as f64) {
        spacing *= 2.0;
    }
    let samples: Vec<Sample> = (0..facets.len())
        .filter(|&facet| surface.is_wall(facet))
        .flat_map(|facet| {
            subdivided(&facets[facet], parts(&facets[facet], spacing)).map(move |point| Sample { facet, point })
        })
        .collect();
    let mut least: Vec<Option<FacetThickness>> = vec![None; facets.len()];
    for (sample, thickness) in samples.iter().zip(thickness_all(surface, &samples)) {
        let Some(thickness) = thickness else { continue };
        let kept = &mut least[sample.facet];
        if kept.is_none_or(|kept| thickness.sphere < kept.thickness.sphere) {
            *kept = Some(FacetThickness { point: sample.point, thickness });
        }
    }
    least
}

/// Pieces along each side of a facet.
fn parts(facet: &Facet, spacing: f64) -> u32 {
    let [a, b, c] = facet.corners;
    let longest = (b - a).norm().max((c - b).norm()).max((a - c).norm());
    // A little less than the quotient, so that rounding does not decide on regular meshes.
    (longest / spacing - 1e-6).ceil().clamp(1.0, MOST_PARTS) as u32
}
