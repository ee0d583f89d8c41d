use nalgebra::Point3;

use super::build::Parts;
use crate::rod::model::Region;
use crate::rod::place::{End, RodPlace};

/// A place on a rod, mm, coordinates of the file; none for the whole part.
pub(crate) fn on_rod(parts: &Parts<'_>, place: &RodPlace) -> Option<[f64; 3]> {
    let (rod, model) = (&parts.prepared.rod, parts.model);
    // What the stress field found has a point of its own.
    if let Some(spot) = parts.field.and_then(|field| field.spots.iter().find(|spot| spot.place == *place)) {
        return Some(rod.frame.to_file_mm(&spot.position));
    }
    let section = |position: f64| {
        let away = |x: f64| (x - position).abs();
        let near = |a: &&crate::rod::Station, b: &&crate::rod::Station| {
            away(a.section.position).total_cmp(&away(b.section.position))
        };
        let centroid = model.stations.iter().min_by(near)?.makeup.stiffness.centroid;
        Some(Point3::new(position, centroid.x, centroid.y))
    };
    let eye = |end: End| if end == End::Small { rod.small_end.center } else { rod.big_end.center };
    let point = match *place {
        RodPlace::Whole => return None,
        RodPlace::Shank => {
            let shank: Vec<f64> = model
                .stations
                .iter()
                .filter(|station| station.region == Region::Shank)
                .map(|station| station.section.position)
                .collect();
            section(f64::midpoint(*shank.first()?, *shank.last()?))?
        }
        RodPlace::ShankAt { position } => section(position)?,
        RodPlace::Bore { end } | RodPlace::Joint { end } => eye(end),
        RodPlace::Eye { end, .. } => model.eye_points[end as usize]
            .iter()
            .find(|known| known.place == *place)
            .map_or(eye(end), |known| known.point),
    };
    Some(rod.frame.to_file_mm(&point))
}
