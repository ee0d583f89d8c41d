use std::f64::consts::PI;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::GasError;

/// Strokes of the piston in one working cycle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Strokes {
    /// One turn of the crank a cycle.
    Two,
    /// Two turns of the crank a cycle.
    Four,
}

impl Strokes {
    /// Turns of the crank in one cycle: 1 or 2.
    pub fn revolutions(self) -> f64 {
        match self {
            Self::Two => 1.0,
            Self::Four => 2.0,
        }
    }

    /// Crank angle of one cycle in rad.
    pub fn cycle_rad(self) -> f64 {
        2.0 * PI * self.revolutions()
    }

    /// Crank angle of one cycle in degrees: 360 or 720.
    pub fn cycle_deg(self) -> f64 {
        360.0 * self.revolutions()
    }
}

/// When the cylinder is open, as angles of the cycle counted from the firing top dead centre.
///
/// Each list rises; the cylinder is closed from the last angle over the top dead centre to the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GasExchange {
    /// Poppet valves of a four-stroke, within 0..4 pi.
    Valves {
        /// Exhaust valve opens; blow-down begins.
        exhaust_open_rad: f64,
        /// The pressure has fallen to the back pressure.
        blow_down_end_rad: f64,
        /// Intake valve opens; the overlap begins.
        intake_open_rad: f64,
        /// Exhaust valve closes; the pressure has become that of the manifold.
        exhaust_close_rad: f64,
        /// Intake valve closes; compression begins.
        intake_close_rad: f64,
    },
    /// Ports of a two-stroke, within 0..2 pi.
    Ports {
        /// Exhaust port opens; blow-down begins.
        exhaust_open_rad: f64,
        /// Transfer port opens; the pressure has fallen to the back pressure.
        transfer_open_rad: f64,
        /// Exhaust port closes; compression begins.
        exhaust_close_rad: f64,
    },
}

impl GasExchange {
    /// Valve timing of an everyday four-stroke: exhaust opens 50 degrees before bottom, overlap 30 degrees, intake
    /// closes 50 degrees after bottom (textbook typical, memory).
    pub fn typical_valves() -> Self {
        Self::Valves {
            exhaust_open_rad: 130_f64.to_radians(),
            blow_down_end_rad: 190_f64.to_radians(),
            intake_open_rad: 345_f64.to_radians(),
            exhaust_close_rad: 375_f64.to_radians(),
            intake_close_rad: 590_f64.to_radians(),
        }
    }

    /// Port timing of an everyday two-stroke: exhaust open for 150 degrees, transfer for 120 degrees, both about the
    /// bottom (textbook typical, memory).
    pub fn typical_ports() -> Self {
        Self::Ports {
            exhaust_open_rad: 105_f64.to_radians(),
            transfer_open_rad: 120_f64.to_radians(),
            exhaust_close_rad: 255_f64.to_radians(),
        }
    }

    /// Valves make a four-stroke, ports a two-stroke.
    pub fn strokes(&self) -> Strokes {
        match self {
            Self::Valves { .. } => Strokes::Four,
            Self::Ports { .. } => Strokes::Two,
        }
    }

    /// Where the closed period begins, as a negative angle before the firing top dead centre.
    pub fn closed_from_rad(&self) -> f64 {
        let closes = match *self {
            Self::Valves { intake_close_rad, .. } => intake_close_rad,
            Self::Ports { exhaust_close_rad, .. } => exhaust_close_rad,
        };
        closes - self.strokes().cycle_rad()
    }

    /// Where the closed period ends, after the firing top dead centre.
    pub fn closed_to_rad(&self) -> f64 {
        match *self {
            Self::Valves { exhaust_open_rad, .. } | Self::Ports { exhaust_open_rad, .. } => exhaust_open_rad,
        }
    }

    /// Refuses angles that are not finite, do not rise or leave the cycle.
    pub(super) fn check(&self) -> Result<(), GasError> {
        let named = match *self {
            Self::Valves {
                exhaust_open_rad,
                blow_down_end_rad,
                intake_open_rad,
                exhaust_close_rad,
                intake_close_rad,
            } => vec![
                ("start of the cycle", 0.0),
                ("exhaust valve opens", exhaust_open_rad),
                ("blow-down ends", blow_down_end_rad),
                ("intake valve opens", intake_open_rad),
                ("exhaust valve closes", exhaust_close_rad),
                ("intake valve closes", intake_close_rad),
                ("end of the cycle", 4.0 * PI),
            ],
            Self::Ports { exhaust_open_rad, transfer_open_rad, exhaust_close_rad } => vec![
                ("start of the cycle", 0.0),
                ("exhaust port opens", exhaust_open_rad),
                ("transfer port opens", transfer_open_rad),
                ("exhaust port closes", exhaust_close_rad),
                ("end of the cycle", 2.0 * PI),
            ],
        };
        for pair in named.windows(2) {
            let ((first, earlier), (second, later)) = (pair[0], pair[1]);
            // `partial_cmp` is what refuses an angle that is not a number.
            if earlier.partial_cmp(&later) != Some(std::cmp::Ordering::Less) {
                return Err(GasError::AngleOrder {
                    first,
                    second,
                    first_deg: earlier.to_degrees(),
                    second_deg: later.to_degrees(),
                });
            }
        }
        Ok(())
    }

    /// How much of the pressure at exhaust opening is still there, and how much is the manifold's, at an angle of
    /// the open period. The rest is back pressure.
    pub(super) fn open_shares(&self, cycle_angle_rad: f64) -> OpenShares {
        match *self {
            Self::Valves { exhaust_open_rad, blow_down_end_rad, intake_open_rad, exhaust_close_rad, .. } => {
                OpenShares {
                    cylinder: 1.0 - eased(cycle_angle_rad, exhaust_open_rad, blow_down_end_rad),
                    manifold: eased(cycle_angle_rad, intake_open_rad, exhaust_close_rad),
                }
            }
            Self::Ports { exhaust_open_rad, transfer_open_rad, .. } => OpenShares {
                cylinder: 1.0 - eased(cycle_angle_rad, exhaust_open_rad, transfer_open_rad),
                manifold: 0.0,
            },
        }
    }

    /// How far the fresh charge has replaced the burnt gas, 0 to 1, at an angle of the open period.
    pub(super) fn renewal(&self, cycle_angle_rad: f64) -> f64 {
        match *self {
            Self::Valves { intake_open_rad, exhaust_close_rad, .. } => {
                eased(cycle_angle_rad, intake_open_rad, exhaust_close_rad)
            }
            Self::Ports { transfer_open_rad, exhaust_close_rad, .. } => {
                eased(cycle_angle_rad, transfer_open_rad, exhaust_close_rad)
            }
        }
    }
}

/// Weights of the two pressures that are not the back pressure.
pub(super) struct OpenShares {
    pub(super) cylinder: f64,
    pub(super) manifold: f64,
}

/// 0 before `from`, 1 after `to`, half a cosine wave between.
fn eased(angle: f64, from: f64, to: f64) -> f64 {
    let along = ((angle - from) / (to - from)).clamp(0.0, 1.0);
    0.5 * (1.0 - libm::cos(PI * along))
}
