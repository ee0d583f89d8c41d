use nalgebra::Point3;

use super::ball::{WallThickness, thickness_all};
use super::piece::{WallPiece, count, cut};
use super::sample::Sample;
use super::surface::Surface;

/// The thickness all over a part: its surface in small pieces, each measured at one point.
#[derive(Debug, Clone)]
pub struct WallMap {
    pub(super) pieces: Vec<MeasuredPiece>,
    /// Pieces are shorter than this, m, unless their facet is narrow.
    pub(super) spacing: f64,
    facets: usize,
}

/// A piece of a facet with what was found there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct MeasuredPiece {
    pub(super) piece: WallPiece,
    pub(super) thickness: Option<WallThickness>,
}

/// The least thickness found on a facet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FacetThickness {
    /// Where on the facet, m.
    pub point: Point3<f64>,
    /// The thickness there.
    pub thickness: WallThickness,
}

/// Facets are divided until their pieces are shorter than the side of a square of this share of the whole area.
const AREA_SHARE: f64 = 1.0 / 20_000.0;

/// Pieces of all facets together, beyond which facets are divided less.
const MOST_PIECES: f64 = 2e6;

impl WallMap {
    /// Measures a part. Pieces that lie inside another shell are left out.
    pub fn of(surface: &Surface<'_>) -> Self {
        let facets = &surface.facets;
        let total: f64 = facets.iter().map(|facet| facet.area).sum();
        let mut spacing = 2.0 * (total * AREA_SHARE).sqrt();
        let number = |spacing: f64| -> f64 { facets.iter().map(|facet| count(facet, spacing)).sum() };
        while number(spacing) > MOST_PIECES.max(4.0 * facets.len() as f64) {
            spacing *= 2.0;
        }
        let mut pieces = Vec::new();
        for (index, facet) in facets.iter().enumerate().filter(|&(index, _)| surface.is_wall(index)) {
            cut(index, facet, spacing, &mut pieces);
        }
        pieces.retain(|piece| surface.is_open(piece.facet, &piece.point));
        let samples: Vec<Sample> = pieces.iter().map(|p| Sample { facet: p.facet, point: p.point }).collect();
        let thickness = thickness_all(surface, &samples);
        let pieces = pieces.into_iter().zip(thickness);
        Self {
            pieces: pieces.map(|(piece, thickness)| MeasuredPiece { piece, thickness }).collect(),
            spacing,
            facets: facets.len(),
        }
    }

    /// The least thickness of every facet; `None` for those that bound nothing, without area or inside another shell, and
    /// those that no wall faces.
    pub fn of_facets(&self) -> Vec<Option<FacetThickness>> {
        let mut least: Vec<Option<FacetThickness>> = vec![None; self.facets];
        for MeasuredPiece { piece, thickness } in &self.pieces {
            let Some(thickness) = *thickness else { continue };
            let kept = &mut least[piece.facet];
            if kept.is_none_or(|kept| thickness.sphere < kept.thickness.sphere) {
                *kept = Some(FacetThickness { point: piece.point, thickness });
            }
        }
        least
    }

    /// Thickness, m, and area, m², of every piece that a wall faces.
    pub fn by_area(&self) -> impl Iterator<Item = (f64, f64)> + '_ {
        self.pieces.iter().filter_map(|m| m.thickness.map(|found| (found.sphere, m.piece.area)))
    }
}
