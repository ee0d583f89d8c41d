use libm::{asin, cos, sin};

use super::error::CrankError;

/// A crank, a rod and a piston pin that slides on a straight line beside or through the crank's axis.
///
/// Coordinates are those of the [module](super): *u* toward the head, *w* to the side, crank pin at
/// (r cos t, r sin t), piston pin at (u, e).
#[derive(Debug, Clone, Copy, PartialEq)]
#[expect(clippy::struct_field_names, reason = "the common ending is the unit")]
pub struct SliderCrank {
    throw_m: f64,
    rod_length_m: f64,
    pin_offset_m: f64,
}

/// Motion of crank, rod and piston at one crank angle and one steady speed.
///
/// Velocities and accelerations along the cylinder are positive toward the head, so the acceleration at top dead
/// centre is negative.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrankState {
    /// Crank angle t.
    pub crank_angle_rad: f64,
    /// Steady angular speed of the crank.
    pub angular_speed_rad_s: f64,
    /// Place of the piston pin along u, from the crank's axis.
    pub piston_position_m: f64,
    /// How far the piston stands below its top position; never negative beyond rounding.
    pub piston_drop_m: f64,
    /// Rate of the piston's position.
    pub piston_velocity_m_s: f64,
    /// Rate of the piston's velocity.
    pub piston_acceleration_m_s2: f64,
    /// Rod angle b from the cylinder axis, sin b = (r sin t - e) / L: positive when the crank pin lies further
    /// along w than the piston pin. The rod as a body turns in the sense u to w by *minus* this angle.
    pub rod_angle_rad: f64,
    /// Rate of the rod angle.
    pub rod_angular_velocity_rad_s: f64,
    /// Rate of the rod's angular velocity.
    pub rod_angular_acceleration_rad_s2: f64,
    /// Crank pin, (u, w).
    pub crank_pin_position_m: [f64; 2],
    /// Acceleration of the crank pin, (u, w): r times the angular speed squared, toward the crank's axis.
    pub crank_pin_acceleration_m_s2: [f64; 2],
}

impl SliderCrank {
    /// A crank of the given throw (half the stroke when there is no offset), rod centre distance and pin offset.
    ///
    /// The crank can turn only if r + |e| < L; anything else is refused.
    pub fn new(throw_m: f64, rod_length_m: f64, pin_offset_m: f64) -> Result<Self, CrankError> {
        for (quantity, value) in [("crank throw", throw_m), ("rod length", rod_length_m)] {
            if !(value.is_finite() && value > 0.0) {
                return Err(CrankError::NotPositive { quantity, value });
            }
        }
        if !pin_offset_m.is_finite() {
            return Err(CrankError::OffsetNotFinite);
        }
        if throw_m + pin_offset_m.abs() >= rod_length_m {
            return Err(CrankError::CannotTurn { throw_m, rod_length_m, pin_offset_m });
        }
        Ok(Self { throw_m, rod_length_m, pin_offset_m })
    }

    /// Throw r: crank axis to crank pin.
    pub fn throw_m(&self) -> f64 {
        self.throw_m
    }

    /// Centre distance L of the rod.
    pub fn rod_length_m(&self) -> f64 {
        self.rod_length_m
    }

    /// Place e of the piston pin along w.
    pub fn pin_offset_m(&self) -> f64 {
        self.pin_offset_m
    }

    /// Crank angle of the piston's top position, sin t = e / (L + r).
    pub fn top_angle_rad(&self) -> f64 {
        asin(self.pin_offset_m / (self.rod_length_m + self.throw_m))
    }

    /// Crank angle of the piston's bottom position, pi + asin(e / (L - r)).
    pub fn bottom_angle_rad(&self) -> f64 {
        std::f64::consts::PI + asin(self.pin_offset_m / (self.rod_length_m - self.throw_m))
    }

    /// Highest place of the piston pin along u: throw and rod in one line.
    pub fn top_position_m(&self) -> f64 {
        leg(self.rod_length_m + self.throw_m, self.pin_offset_m)
    }

    /// Lowest place of the piston pin along u.
    pub fn bottom_position_m(&self) -> f64 {
        leg(self.rod_length_m - self.throw_m, self.pin_offset_m)
    }

    /// Travel of the piston between its top and bottom position: 2 r without offset, slightly more with it.
    pub fn stroke_m(&self) -> f64 {
        self.top_position_m() - self.bottom_position_m()
    }

    /// Place of the piston pin along u, r cos t + sqrt(L^2 - (r sin t - e)^2).
    pub fn piston_position_m(&self, crank_angle_rad: f64) -> f64 {
        let side = self.throw_m * sin(crank_angle_rad) - self.pin_offset_m;
        self.throw_m * cos(crank_angle_rad) + leg(self.rod_length_m, side)
    }

    /// Motion of everything at a crank angle, the crank turning at a steady angular speed.
    ///
    /// The exact derivatives of the position, not the two-term series. Source: Heywood, *Internal Combustion
    /// Engine Fundamentals*, ch. 2, and Taylor, *The Internal-Combustion Engine in Theory and Practice*, vol. 2,
    /// extended to the offset pin by differentiating r sin t - e = L sin b twice.
    pub fn at(&self, crank_angle_rad: f64, angular_speed_rad_s: f64) -> CrankState {
        let (r, l, e, omega) = (self.throw_m, self.rod_length_m, self.pin_offset_m, angular_speed_rad_s);
        let (sin_t, cos_t) = (sin(crank_angle_rad), cos(crank_angle_rad));
        let sin_b = (r * sin_t - e) / l;
        let cos_b = leg(1.0, sin_b);
        let b_rate = omega * r * cos_t / (l * cos_b);
        let b_acceleration = (b_rate * b_rate * sin_b - omega * omega * r * sin_t / l) / cos_b;
        let position = r * cos_t + l * cos_b;
        CrankState {
            crank_angle_rad,
            angular_speed_rad_s,
            piston_position_m: position,
            piston_drop_m: self.top_position_m() - position,
            piston_velocity_m_s: -r * omega * sin_t - l * sin_b * b_rate,
            piston_acceleration_m_s2: -r * omega * omega * cos_t
                - l * (cos_b * b_rate * b_rate + sin_b * b_acceleration),
            rod_angle_rad: asin(sin_b),
            rod_angular_velocity_rad_s: b_rate,
            rod_angular_acceleration_rad_s2: b_acceleration,
            crank_pin_position_m: [r * cos_t, r * sin_t],
            crank_pin_acceleration_m_s2: [-r * omega * omega * cos_t, -r * omega * omega * sin_t],
        }
    }

    /// Change of the piston's position per radian of crank, du/dt.
    pub fn piston_travel_rate_m(&self, crank_angle_rad: f64) -> f64 {
        self.at(crank_angle_rad, 1.0).piston_velocity_m_s
    }
}

impl CrankState {
    /// Unit vector from small end to big end, (u, w).
    pub fn rod_direction(&self) -> [f64; 2] {
        [-cos(self.rod_angle_rad), sin(self.rod_angle_rad)]
    }

    /// Unit vector across the rod: [`Self::rod_direction`] turned a quarter in the sense u to w.
    pub fn rod_side_direction(&self) -> [f64; 2] {
        [-sin(self.rod_angle_rad), -cos(self.rod_angle_rad)]
    }

    /// Acceleration, (u, w), of the rod's point that lies `along_m` from the small end toward the big end and
    /// `side_m` across the rod, as in the two unit vectors above.
    ///
    /// Plane motion of a rigid body: that of the small end, plus angular acceleration times distance across it,
    /// minus angular velocity squared times distance along it.
    pub fn rod_point_acceleration_m_s2(&self, along_m: f64, side_m: f64) -> [f64; 2] {
        let (along, side) = (self.rod_direction(), self.rod_side_direction());
        // The body turns opposite to the rod angle.
        let spin_rate = -self.rod_angular_acceleration_rad_s2;
        let spin_squared = self.rod_angular_velocity_rad_s * self.rod_angular_velocity_rad_s;
        let in_along = -spin_rate * side_m - spin_squared * along_m;
        let in_side = spin_rate * along_m - spin_squared * side_m;
        [
            self.piston_acceleration_m_s2 + in_along * along[0] + in_side * side[0],
            in_along * along[1] + in_side * side[1],
        ]
    }
}

/// The other leg of a right triangle, in the form that loses no digits when the legs differ little.
fn leg(hypotenuse: f64, side: f64) -> f64 {
    ((hypotenuse - side) * (hypotenuse + side)).sqrt()
}
