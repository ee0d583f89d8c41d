use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::overlay::{FloatOverlay, OverlayOptions};
use nalgebra::{Vector2, Vector3};

use super::settings::PrintSettings;
use crate::section::{AreaProperties, Loop, Section, ending, within};

/// A section as printed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Makeup {
    /// Area integrals with the inside weighted by its stiffness over that of the solid.
    pub stiffness: AreaProperties,
    /// Area of solid material, m².
    pub solid_area: f64,
    /// Area of the lighter inside, m².
    pub infill_area: f64,
    /// Whether the outline was too jagged to tell the bands from the inside, so that all counts as inside.
    pub untold: bool,
}

impl Makeup {
    /// Mass per volume over that of the solid, averaged over the section.
    pub fn relative_density(&self, print: &PrintSettings) -> f64 {
        let whole = self.solid_area + self.infill_area;
        if whole > 0.0 { (self.solid_area + print.infill * self.infill_area) / whole } else { 1.0 }
    }
}

/// Divides a section square to the load path into solid bands and inside.
///
/// The part is taken as prismatic near the plane: the depth of a band follows from the outline's own normal. An outline of
/// very many corners ([`Makeup::untold`]) is taken as inside throughout.
pub fn makeup(section: &Section, print: &PrintSettings) -> Makeup {
    let whole = section.properties;
    if print.infill >= 1.0 || section.loops.is_empty() {
        return Makeup { stiffness: whole, solid_area: whole.area, infill_area: 0.0, untold: false };
    }
    let told = inside(&section.loops, print);
    // What cannot be told is taken as the weaker.
    let inside = told.as_ref().map_or(whole, |loops| AreaProperties::of(loops));
    Makeup {
        stiffness: whole.with(&inside, print.infill_stiffness() - 1.0),
        solid_area: whole.area - inside.area,
        infill_area: inside.area,
        untold: told.is_none(),
    }
}

/// Distances from the outline that the bands may depart from, over the bead width; from what no printer holds to what
/// no print shows.
const CHORDS: [f64; 3] = [1e-3, 1e-2, 1e-1];

/// Most corners of a section's outline; bands of neighbouring sides overlap, so the effort rises with their square.
const CORNERS: usize = 2_000;

/// Outlines without corners that no print would show; `None` where too many are left.
fn plain(loops: &[Loop], bead_width: f64) -> Option<Vec<Loop>> {
    CHORDS.iter().find_map(|chord| {
        let mut left = CORNERS;
        loops
            .iter()
            .map(|ring| {
                let plain = within(ring, chord * bead_width, left)?;
                left -= plain.len();
                Some(plain)
            })
            .collect()
    })
}

/// The region deeper than the solid bands; `None` where that cannot be told.
fn inside(outline: &[Loop], print: &PrintSettings) -> Option<Vec<Loop>> {
    let loops = plain(outline, print.bead_width)?;
    let mut bands: Vec<Vec<[f64; 2]>> = Vec::new();
    for ring in &loops {
        let count = ring.len();
        for (k, &from) in ring.iter().enumerate() {
            let to = ring[(k + 1) % count];
            let Some(tangent) = (to - from).try_normalize(0.0) else { continue };
            let inward = Vector2::new(-tangent.y, tangent.x);
            let depth = print.solid_depth(&Vector3::new(0.0, inward.x, inward.y));
            if depth <= 0.0 {
                continue;
            }
            // Round a hollow corner the bands of both sides are mitred, so that they meet.
            let before = mitre(from - ring[(k + count - 1) % count], tangent);
            let after = mitre(tangent, ring[(k + 2) % count] - to);
            let (a, b) = (from - tangent * (depth * before), to + tangent * (depth * after));
            let corners = [a, b, b + inward * depth, a + inward * depth];
            bands.push(corners.iter().map(|p| [p.x, p.y]).collect());
        }
    }
    if bands.is_empty() {
        return Some(outline.to_vec());
    }
    let paths: Vec<Vec<[f64; 2]>> = loops.iter().map(|ring| ring.iter().map(|p| [p.x, p.y]).collect()).collect();
    let inside = FloatOverlay::<_, i64>::from_subj_and_clip_custom(&paths, &bands, OverlayOptions::default(), ending())
        .overlay(OverlayRule::Difference, FillRule::NonZero)
        .into_iter()
        .flatten()
        .map(|ring| ring.into_iter().map(|[y, z]| Vector2::new(y, z)).collect())
        .collect();
    Some(inside)
}

/// Tangent of half the turn at a hollow corner, 0 at a bulging one.
fn mitre(before: Vector2<f64>, after: Vector2<f64>) -> f64 {
    const SHARPEST: f64 = 2.0;
    let turn = libm::atan2(before.perp(&after), before.dot(&after));
    if turn < 0.0 { libm::tan(-turn / 2.0).min(SHARPEST) } else { 0.0 }
}
