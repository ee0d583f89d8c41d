use super::settled::settled_sections;
use crate::mesh::Mesh;

/// Half a plane within this is half a plane: areas are known to a few millionths in a file of 32-bit coordinates.
const HALF: f64 = 1e-5;

/// Chooses `count` planes strictly between `low` and `high`, denser where the area changes fast.
///
/// Half of them lie at equal distances; the others are added where the area differs most from plane to plane.
pub fn planes(mesh: &Mesh, low: f64, high: f64, count: usize, unite: bool) -> Vec<f64> {
    let coarse = (count / 2).max(2);
    let step = (high - low) / coarse as f64;
    let mut planes: Vec<f64> = (0..coarse).map(|k| low + (k as f64 + 0.5) * step).collect();
    let areas: Vec<f64> = settled_sections(mesh, &planes, unite).iter().map(|s| s.properties.area).collect();
    let greatest = areas.iter().copied().fold(0.0, f64::max);
    if greatest <= 0.0 {
        return planes;
    }
    // Planes are dealt out in proportion to the change of area over each gap, with a floor so that no gap starves.
    let need: Vec<f64> = areas.windows(2).map(|pair| 0.01 + (pair[1] - pair[0]).abs() / greatest).collect();
    let total: f64 = need.iter().sum();
    let spare = count.saturating_sub(coarse) as f64;
    let mut owed = 0.0;
    let mut extra = Vec::new();
    for (gap, share) in need.iter().enumerate() {
        owed += spare * share / total;
        // Shares that come to a half are rounded up, whatever the last digits of the areas say.
        let whole = (owed + 0.5 + HALF).floor().max(0.0);
        owed -= whole;
        let (from, to) = (planes[gap], planes[gap + 1]);
        extra.extend((1..=whole as usize).map(|k| from + (to - from) * k as f64 / (whole + 1.0)));
    }
    planes.extend(extra);
    planes.sort_by(f64::total_cmp);
    planes
}
