//! Pressure while the cylinder is closed.

use libm::{expm1, pow};

use super::cylinder::Cylinder;
use super::gas::GasCycle;

/// Pieces that the whole combustion is cut into at least, for quadrature.
const BURN_PIECES: f64 = 16.0;

/// Pressure at one angle, linear in the heat.
#[derive(Clone, Copy)]
pub(super) struct Point {
    /// Without combustion.
    pub(super) motored_pa: f64,
    /// More for every joule of heat.
    pub(super) per_heat: f64,
}

/// Carries the pressure forward through the closed period.
///
/// With constant n the law integrates to p V^n = const + (n - 1) integral of V^(n-1) dQ, so motored stretches are
/// exact and only combustion needs quadrature.
pub(super) struct March<'model> {
    cycle: &'model GasCycle,
    cylinder: &'model Cylinder,
    /// Angles where the integrand has a kink, rising.
    kinks: [f64; 3],
    angle_rad: f64,
    volume_m3: f64,
    point: Point,
}

impl<'model> March<'model> {
    /// Starts when the cylinder closes.
    pub(super) fn new(cycle: &'model GasCycle, cylinder: &'model Cylinder, closing_pa: f64) -> Self {
        let mut kinks =
            [cycle.burn_start_rad, cycle.burn_start_rad + cycle.burn_duration_rad, cylinder.crank().top_angle_rad()];
        kinks.sort_by(f64::total_cmp);
        let angle_rad = cycle.exchange.closed_from_rad();
        Self {
            cycle,
            cylinder,
            kinks,
            angle_rad,
            volume_m3: cylinder.volume_m3(angle_rad),
            point: Point { motored_pa: closing_pa, per_heat: 0.0 },
        }
    }

    /// Goes on to a later angle and gives the pressure there.
    pub(super) fn to(&mut self, angle_rad: f64) -> Point {
        for kink in self.kinks {
            if kink > self.angle_rad && kink < angle_rad {
                self.smooth_stretch(kink);
            }
        }
        if angle_rad > self.angle_rad {
            self.smooth_stretch(angle_rad);
        }
        self.point
    }

    /// Goes on over a stretch without kinks.
    fn smooth_stretch(&mut self, to_rad: f64) {
        let middle = 0.5 * (self.angle_rad + to_rad);
        let exponent = if middle < self.cylinder.crank().top_angle_rad() {
            self.cycle.compression_exponent
        } else {
            self.cycle.expansion_exponent
        };
        let burn_end = self.cycle.burn_start_rad + self.cycle.burn_duration_rad;
        let burns = middle > self.cycle.burn_start_rad && middle < burn_end;
        let pieces = if burns {
            ((to_rad - self.angle_rad) / self.cycle.burn_duration_rad * BURN_PIECES).ceil().max(1.0)
        } else {
            1.0
        };
        let from_rad = self.angle_rad;
        let mut piece = 1.0;
        while piece <= pieces {
            let next = if piece < pieces { from_rad + (to_rad - from_rad) * piece / pieces } else { to_rad };
            self.piece(next, exponent, burns);
            piece += 1.0;
        }
    }

    fn piece(&mut self, to_rad: f64, exponent: f64, burns: bool) {
        let volume = self.cylinder.volume_m3(to_rad);
        let ratio = pow(self.volume_m3 / volume, exponent);
        self.point.motored_pa *= ratio;
        self.point.per_heat *= ratio;
        if burns {
            self.point.per_heat += (exponent - 1.0) / volume * self.heat_integral(to_rad, volume, exponent);
        }
        self.angle_rad = to_rad;
        self.volume_m3 = volume;
    }

    /// Integral of (V / V_end)^(n-1) dx over the piece, x the share of heat.
    ///
    /// By parts, so that the heat balances exactly and the integrand is smooth where the Wiebe rate is not; then
    /// Gauss-Legendre with three points (Abramowitz & Stegun, table 25.4).
    fn heat_integral(&self, to_rad: f64, volume_end: f64, exponent: f64) -> f64 {
        let burnt_before = self.burnt(self.angle_rad);
        let (middle, half) = (0.5 * (to_rad + self.angle_rad), 0.5 * (to_rad - self.angle_rad));
        let node = 0.6_f64.sqrt();
        let mut moved = 0.0;
        for (place, weight) in [(-node, 5.0 / 9.0), (0.0, 8.0 / 9.0), (node, 5.0 / 9.0)] {
            let angle = middle + half * place;
            let volume = self.cylinder.volume_m3(angle);
            let slope = (exponent - 1.0) * pow(volume / volume_end, exponent - 1.0) / volume
                * self.cylinder.volume_rate_m3(angle);
            moved += weight * (self.burnt(angle) - burnt_before) * slope;
        }
        self.burnt(to_rad) - burnt_before - half * moved
    }

    /// Share of the heat released up to a crank angle: Wiebe's function.
    fn burnt(&self, angle_rad: f64) -> f64 {
        let gone = ((angle_rad - self.cycle.burn_start_rad) / self.cycle.burn_duration_rad).clamp(0.0, 1.0);
        expm1(-self.cycle.wiebe_efficiency * pow(gone, self.cycle.wiebe_form + 1.0))
            / expm1(-self.cycle.wiebe_efficiency)
    }
}
