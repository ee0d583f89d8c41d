use super::scale::{ColorScale, NOT_MEASURED, Rgb};
use super::{PaintError, Quantity};

/// A triangle mesh with one number, or none, per facet: everything a writer needs, checked.
#[derive(Debug, Clone)]
pub struct PaintedMesh<'a> {
    quantity: &'a Quantity,
    points: Vec<[f32; 3]>,
    facets: &'a [[u32; 3]],
    values: &'a [Option<f64>],
    scale: ColorScale,
}

impl<'a> PaintedMesh<'a> {
    /// Joins points in millimetres, facets and their values; `None` is a facet that was not measured.
    pub fn new(
        points: &[[f64; 3]],
        facets: &'a [[u32; 3]],
        values: &'a [Option<f64>],
        quantity: &'a Quantity,
    ) -> Result<Self, PaintError> {
        if facets.is_empty() {
            return Err(PaintError::Empty);
        }
        if values.len() != facets.len() {
            return Err(PaintError::ValueCount { values: values.len(), facets: facets.len() });
        }
        for (facet, &[a, b, c]) in facets.iter().enumerate() {
            if let Some(point) = [a, b, c].into_iter().find(|&point| point as usize >= points.len()) {
                return Err(PaintError::NoSuchPoint { facet, point, points: points.len() });
            }
            if a == b || b == c || c == a {
                return Err(PaintError::RepeatedPoint { facet });
            }
        }
        let points: Vec<[f32; 3]> = points.iter().map(|point| point.map(single)).collect();
        if let Some(point) = points.iter().position(|point| point.iter().any(|x| !x.is_finite())) {
            return Err(PaintError::BadCoordinate { point });
        }
        if let Some(facet) = values.iter().position(|value| value.is_some_and(|value| !single(value).is_finite())) {
            return Err(PaintError::BadValue { facet });
        }
        Ok(Self { quantity, points, facets, values, scale: ColorScale::new(quantity.bad_end()) })
    }

    /// What is painted.
    pub fn quantity(&self) -> &Quantity {
        self.quantity
    }

    /// Points, mm, in single precision as mesh files hold them.
    pub fn points(&self) -> &[[f32; 3]] {
        &self.points
    }

    /// The colour scale.
    pub(crate) fn scale(&self) -> &ColorScale {
        &self.scale
    }

    /// Corners, value and colour step of every facet; `None` where nothing was measured.
    pub fn painted(&self) -> impl Iterator<Item = ([u32; 3], Option<(f32, u8)>)> {
        self.facets.iter().zip(self.values).map(|(&corners, value)| {
            (corners, value.map(|value| (single(value), ColorScale::step(self.quantity.share(value)))))
        })
    }

    /// Colour of a step, or of a facet that was not measured.
    pub(crate) fn color(&self, step: Option<u8>) -> Rgb {
        step.map_or(NOT_MEASURED, |step| self.scale.colors()[usize::from(step)])
    }
}

/// Nearest single-precision number, with one zero only.
fn single(number: f64) -> f32 {
    number as f32 + 0.0
}
