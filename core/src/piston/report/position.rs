use nalgebra::Point3;

use super::build::PistonParts;
use crate::piston::place::PistonPlace;

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
