//! The part painted with one number per facet, as files.

use std::path::Path;

use layload_core::Walls;
use layload_core::report::FacetValues;

use crate::failure::Failure;
use crate::paint::{BadEnd, PaintError, PaintedMesh, Quantity, legend_svg, ply, three_mf};

/// What is painted and how its scale runs.
pub(super) struct Painting<'a> {
    values: &'a FacetValues,
    title: &'static str,
    unit: &'static str,
    range: [f64; 2],
    limit: Option<f64>,
    bad_end: BadEnd,
}

impl<'a> Painting<'a> {
    /// Wall thickness, marked at a limit, mm. The scale ends at four limits: thicker is thick enough.
    pub(super) fn thickness(walls: &'a Walls) -> Self {
        let limit_mm = walls.limit_mm;
        Self {
            values: &walls.thickness_mm,
            title: "wall thickness",
            unit: "mm",
            range: [0.0, 4.0 * limit_mm],
            limit: Some(limit_mm),
            bad_end: BadEnd::Low,
        }
    }

    /// Stress over what is borne for the wanted life, marked where it is used up.
    pub(super) fn utilisation(values: &'a FacetValues) -> Self {
        let highest = values.values.iter().flatten().copied().fold(0.0, f64::max);
        // A round end a little above the highest value, at least the limit.
        let end = [1.0, 1.5, 2.0, 3.0, 5.0, 10.0, 100.0].into_iter().find(|end| *end >= highest).unwrap_or(1000.0);
        Self {
            values,
            title: "stress over what lasts",
            unit: "",
            range: [0.0, end],
            limit: Some(1.0),
            bad_end: BadEnd::High,
        }
    }

    fn quantity(&self) -> Result<Quantity, PaintError> {
        Quantity::new(self.title, self.unit, self.range, self.limit, self.bad_end)
    }
}

/// The painted mesh; its ending says in which form, PLY or else 3MF.
pub(super) fn mesh(painting: &Painting<'_>, path: &Path) -> Result<Vec<u8>, Failure> {
    let quantity = painting.quantity()?;
    let FacetValues { points_mm, facets, values } = painting.values;
    let mesh = PaintedMesh::new(points_mm, facets, values, &quantity)?;
    let is_ply = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("ply"));
    Ok(if is_ply { ply(&mesh)? } else { three_mf(&mesh)? })
}

/// The scale of its colours.
pub(super) fn scale(painting: &Painting<'_>) -> Result<Vec<u8>, Failure> {
    Ok(legend_svg(&painting.quantity()?)?)
}
