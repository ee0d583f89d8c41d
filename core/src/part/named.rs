use nalgebra::{Point3, Vector3};

use super::bore::Bore;
use super::error::PartError;
use super::rod::GivenBore;
use super::search::{BoreSearch, Sight};
use super::through::{is_clear, is_open};
use crate::mesh::{Mesh, Place};

/// A bore given by hand may miss its wall by this share of the radius.
const BY_HAND: f64 = 0.05;

/// Cosine of the angle by which an axis given by hand may miss that of its bore.
pub(super) const NEARLY_PARALLEL: f64 = 0.99;

/// The bores of a mesh, to find those that are named by hand: measured as those that are found without a word.
pub(super) struct NamedBores<'mesh> {
    mesh: &'mesh Mesh,
    searches: Vec<BoreSearch<'mesh>>,
}

impl<'mesh> NamedBores<'mesh> {
    pub(super) fn new(mesh: &'mesh Mesh) -> Self {
        Self { mesh, searches: vec![BoreSearch::new(mesh)] }
    }

    /// The bore whose axis passes the point given and whose wall has about the diameter given.
    ///
    /// What the search finds by itself is taken as it finds it; coarser bores only because they are named.
    pub(super) fn bore(&mut self, given: &GivenBore, axis: Option<Vector3<f64>>) -> Result<Bore, PartError> {
        if !(given.diameter > 0.0 && given.diameter.is_finite()) {
            return Err(fault("a diameter is not above zero".into()));
        }
        let found = match self.found(given, axis) {
            Some(found) => Some(found),
            None => axis.and_then(|axis| self.along(given, axis)),
        };
        let Some(bore) = found else {
            return Err(match axis {
                Some(_) => fault(format!(
                    "there is no wall of {:.2} mm diameter round an axis through {}",
                    given.diameter * 1e3,
                    Place::from(&given.center)
                )),
                None => PartError::NoPinAxis,
            });
        };
        if !is_open(self.mesh, &bore, Some(bore.main())) || !is_clear(self.mesh, &bore) {
            return Err(fault(format!(
                "material fills the bore of {:.2} mm diameter at {}",
                bore.diameter() * 1e3,
                Place::from(&bore.center)
            )));
        }
        Ok(bore)
    }

    fn found(&mut self, given: &GivenBore, axis: Option<Vector3<f64>>) -> Option<Bore> {
        for sight in [Sight::Round, Sight::Coarse] {
            if self.searches.len() <= sight as usize {
                self.searches.push(BoreSearch::with(self.mesh, sight));
            }
            let search = &mut self.searches[sight as usize];
            loop {
                if let Some(bore) = search.found().iter().find_map(|bore| named(bore, given, axis)) {
                    return Some(bore);
                }
                if !search.advance() {
                    break;
                }
            }
        }
        None
    }

    /// Looks along the axis given, round the point given.
    fn along(&self, given: &GivenBore, axis: Vector3<f64>) -> Option<Bore> {
        let mut searches = self.searches.iter().rev();
        searches.find_map(|search| {
            let bore = search.round_axis(&given.center, axis, given.diameter / 2.0)?;
            named(&bore, given, Some(axis))
        })
    }

    /// Every bore that is found without a word.
    pub(super) fn others(&mut self) -> Vec<Bore> {
        let search = &mut self.searches[Sight::Round as usize];
        while search.advance() {}
        search.found().to_vec()
    }
}

fn fault(reason: String) -> PartError {
    PartError::GivenDoesNotFit { reason }
}

/// A bore, led by the seat that is meant, if it is the one given.
fn named(bore: &Bore, given: &GivenBore, axis: Option<Vector3<f64>>) -> Option<Bore> {
    let reach = BY_HAND * given.diameter / 2.0;
    let off = |radius: f64| (radius - given.diameter / 2.0).abs();
    let parallel = axis.is_none_or(|axis| axis.dot(&bore.axis).abs() > NEARLY_PARALLEL);
    // Written so that what is no number is far away.
    if !(parallel && beside(bore, &given.center) <= reach) {
        return None;
    }
    let mut seats = bore.seats.iter().enumerate().filter(|(_, seat)| off(seat.radius) <= reach);
    let first = seats.next()?;
    let (seat, _) = seats.fold(first, |best, seat| if off(seat.1.radius) < off(best.1.radius) { seat } else { best });
    Some(bore.clone().led_by(seat))
}

/// Distance of a point from the axis of a bore, m.
pub(super) fn beside(bore: &Bore, point: &Point3<f64>) -> f64 {
    (point - bore.center).cross(&bore.axis).norm()
}
