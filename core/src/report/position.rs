//! Where the places of a report are, as points.

use nalgebra::Point3;

use crate::piston::PistonPlace;
use crate::piston::report::PistonParts;
use crate::rod::report::Parts;
use crate::rod::{End, Region, RodPlace};

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

/// A place on a piston.
pub(crate) fn on_piston(parts: &PistonParts<'_>, place: &PistonPlace) -> Option<[f64; 3]> {
    let (piston, model) = (&parts.prepared.piston, parts.case.model);
    if let Some(spot) = parts.field.and_then(|field| field.spots.iter().find(|spot| spot.place == *place)) {
        return Some(piston.frame.to_file_mm(&spot.position));
    }
    let top = piston.compression_height;
    let radius = piston.pin.radius;
    let boss = piston.pin.bosses.first();
    let along_pin = boss.map_or(0.0, |boss| f64::midpoint(boss.from, boss.to));
    let point = match *place {
        PistonPlace::Whole => return None,
        PistonPlace::Crown => Point3::new(top, 0.0, 0.0),
        PistonPlace::CrownMiddle { depth } => Point3::new(top - depth, 0.0, 0.0),
        PistonPlace::CrownEdge { depth } => Point3::new(top - depth, 0.0, model.plate_radius),
        PistonPlace::CrownEdgeShear => Point3::new(top - 0.5 * model.crown_thickness, 0.0, model.plate_radius),
        PistonPlace::Land { number, .. } => {
            // The first land between two grooves is the second from the crown.
            let land = model.lands.get(number.checked_sub(2)?)?;
            Point3::new(land.top - 0.5 * land.height, 0.0, land.root)
        }
        PistonPlace::CrownAt { radius, depth } => Point3::new(top - depth, 0.0, radius),
        PistonPlace::Section { height } => Point3::new(height, 0.0, piston.skirt.radius),
        PistonPlace::BeltAt { height, azimuth } | PistonPlace::WallAt { height, azimuth } => {
            let (sine, cosine) = libm::sincos(azimuth);
            Point3::new(height, piston.skirt.radius * sine, piston.skirt.radius * cosine)
        }
        PistonPlace::Boss { angle, outside } => {
            let wall = if outside { model.boss.map_or(0.0, |eye| eye.ligament) } else { 0.0 };
            let (sine, cosine) = libm::sincos(angle);
            Point3::new(-(radius + wall) * cosine, (radius + wall) * sine, along_pin)
        }
        PistonPlace::BossShear => Point3::new(-radius, 0.0, along_pin),
        PistonPlace::PinBore => Point3::new(0.0, 0.0, along_pin),
        PistonPlace::Skirt => Point3::new(f64::midpoint(piston.skirt.from, piston.skirt.to), piston.skirt.radius, 0.0),
        PistonPlace::Lip { height } => {
            Point3::new(height, piston.lip.map_or(piston.skirt.radius, |lip| lip.radius), 0.0)
        }
        PistonPlace::TopLand => {
            let lower = piston.grooves.first().map_or(piston.skirt.to, |groove| groove.to);
            Point3::new(f64::midpoint(lower, top), 0.0, piston.land_radius())
        }
    };
    Some(piston.frame.to_file_mm(&point))
}
