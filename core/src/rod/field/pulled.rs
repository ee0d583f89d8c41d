use super::cases::RodField;
use crate::field::tensor;
use crate::numeric::map_in_order;
use crate::verdict::field::{BANDS, combined};

/// How a pin sits in its bore and what it does to the bore's wall.
#[derive(Debug, Clone, PartialEq)]
pub struct PinnedEye {
    /// Pressure by angle from the rod's end, degrees and Pa; linear between.
    pub pressures: Vec<(f64, f64)>,
    /// Angle from the direction of the push to where the pin stops touching, degrees.
    pub half_angle: f64,
    /// Greatest stress of the bore's wall, Pa.
    pub peak: f64,
}

impl RodField {
    /// Both eyes when their rigid pins pull the rod apart with a force (N), each with a radial clearance (m); `None` where
    /// nothing of a bore can take the force.
    pub fn pulled(&self, force: f64, clearances: [f64; 2]) -> Option<[PinnedEye; 2]> {
        let mut state = vec![0.0_f32; self.solved.count()];
        let mut found = Vec::with_capacity(2);
        for (solved, clearance) in self.bores.iter().zip(clearances) {
            let pressures = solved.compliance.press(force, clearance)?;
            pressures.iter().enumerate().for_each(|(k, p)| state[solved.first + k] = *p as f32);
            let table: Vec<(f64, f64)> = solved.bands.iter().map(|&band| BANDS[band]).zip(pressures).collect();
            found.push((half_angle(&table), table));
        }
        let stresses = map_in_order(self.solved.points.points.len(), |point| {
            let (at, normal) = &self.solved.points.points[point];
            let bore = self.bores.iter().position(|solved| solved.bore.touches(at, normal));
            let bore = bore.filter(|_| self.solved.known(point))?;
            let stress = combined(self.solved.at(point), &state);
            Some((bore, tensor(&stress).symmetric_eigenvalues().max()))
        });
        let peak = |of: usize| {
            let there = stresses.iter().flatten().filter(|(bore, _)| *bore == of);
            there.map(|(_, stress)| *stress).fold(0.0, f64::max)
        };
        let mut eyes = found.into_iter().enumerate();
        let mut next = || {
            let (number, (half_angle, pressures)) = eyes.next()?;
            Some(PinnedEye { pressures, half_angle, peak: peak(number) })
        };
        Some([next()?, next()?])
    }
}

/// Where the pin stops touching: between the last band that touches and the next. Near its end the pressure of a contact
/// falls as a square root (Hertz): the square of the pressure, straight in the square of the angle through the last two
/// bands that touch, leads there.
fn half_angle(table: &[(f64, f64)]) -> f64 {
    let Some(last) = table.iter().rposition(|&(_, pressure)| pressure > 0.0) else { return 0.0 };
    let (here, pressure) = table[last];
    let Some(&(foot, _)) = table.get(last + 1) else { return 180.0 };
    let Some((inside, greater)) = last.checked_sub(1).map(|k| table[k]) else { return f64::midpoint(here, foot) };
    let fall = greater * greater - pressure * pressure;
    if fall <= 0.0 {
        return foot;
    }
    let square = here * here + pressure * pressure * (here * here - inside * inside) / fall;
    square.sqrt().clamp(here, foot)
}
