use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::error::JobError;
use crate::life::RollingElement;
use crate::stress::{BearingSize, RingMaterial, ToleranceClass, bearing_designations, interference};

/// A bearing or bush pressed into an eye.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct RingTable {
    /// Designation of a ball bearing by ISO 15, such as `6204`, instead of the three sizes.
    pub bearing: Option<String>,
    /// Bore of a bush, mm.
    pub bore_mm: Option<f64>,
    /// Outside diameter of a bush, mm.
    pub outside_mm: Option<f64>,
    /// Width of a bush along the pin, mm.
    pub width_mm: Option<f64>,
    /// What a bush is made of; bearings are of steel.
    pub metal: Option<RingMetal>,
    /// Outside of the ring less bore of the eye at assembly, both as diameters, mm.
    pub interference_mm: Option<f64>,
    /// Tolerance class of the ring's outside by ISO 286 in an H7 bore, instead of the interference.
    pub tolerance: Option<ToleranceClass>,
    /// What rolls in a bearing given by its sizes: `ball` or `roller`; a bush when left out.
    pub rolling: Option<RollingElement>,
    /// Dynamic load rating C of the bearing, N; gives its rating life.
    pub dynamic_rating_n: Option<f64>,
}

/// What a pressed ring is made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum RingMetal {
    /// Steel.
    #[default]
    Steel,
    /// Bronze.
    Bronze,
}

/// A bearing or bush pressed into an eye, in SI units.
#[derive(Debug, Clone, PartialEq)]
pub struct Ring {
    /// Name in words.
    pub name: String,
    /// Inner radius as a plain ring, m.
    pub inner_radius: f64,
    /// Outside diameter, m.
    pub outside: f64,
    /// Width along the pin, m.
    pub width: f64,
    /// What it is made of.
    pub material: RingMaterial,
    /// Moment by which the pin drags it round, over the pin's force, m.
    pub drag_arm: f64,
    /// Least and greatest interference of the diameters, m; without it the mesh decides.
    pub interference: Option<(f64, f64)>,
    /// What a rolling bearing carries, if it is one and that is given.
    pub rating: Option<Rating>,
    /// Whether it is a rolling bearing.
    pub rolls: bool,
}

/// What a rolling bearing carries.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rating {
    /// What rolls in it.
    pub element: RollingElement,
    /// Dynamic load rating C, N.
    pub dynamic_load: f64,
}

/// Friction of a ball bearing over load and half its bore (common practice for deep-groove ball bearings).
const ROLLING: f64 = 0.0015;

/// Friction of an oiled bush over load and radius (memory).
const SLIDING: f64 = 0.10;

impl Ring {
    /// `key` is that of its table in a job file.
    pub(super) fn resolve(table: &RingTable, key: &str) -> Result<Self, JobError> {
        let mut ring = Self::sized(table, key)?;
        ring.interference = match (table.interference_mm, table.tolerance) {
            (Some(_), Some(_)) => {
                return Err(JobError::Both { first: "ring.interference_mm", second: "ring.tolerance" });
            }
            (Some(given), None) => {
                let given = given * 1e-3;
                Some((given, given))
            }
            (None, Some(class)) => {
                let hole = ToleranceClass::H7.limits(ring.outside)?;
                Some(interference(hole, class.limits(ring.outside)?))
            }
            (None, None) => None,
        };
        if let Some(newtons) = table.dynamic_rating_n {
            let element = rolling(table).ok_or_else(|| JobError::Missing {
                what: "what rolls in the bearing whose rating is given, ball or roller,",
                key: format!("{key}.rolling"),
            })?;
            ring.rating = Some(Rating { element, dynamic_load: newtons });
        }
        Ok(ring)
    }

    fn sized(table: &RingTable, key: &str) -> Result<Self, JobError> {
        match &table.bearing {
            Some(designation) => Self::of_list(table, designation),
            None => Self::bush(table, key),
        }
    }

    /// A bearing by its designation.
    fn of_list(table: &RingTable, designation: &str) -> Result<Self, JobError> {
        if table.bore_mm.or(table.outside_mm).or(table.width_mm).is_some() {
            return Err(JobError::Both { first: "ring.bearing", second: "sizes of a bush" });
        }
        if table.rolling == Some(RollingElement::Roller) {
            return Err(JobError::Both { first: "ring.bearing, which has balls,", second: "ring.rolling = roller" });
        }
        let Some(size) = BearingSize::of(designation) else {
            let known = bearing_designations().collect::<Vec<_>>().join(", ");
            return Err(JobError::UnknownBearing { designation: designation.into(), known });
        };
        Ok(Self {
            name: format!("ball bearing {designation}"),
            inner_radius: size.outer_ring_inner_radius(),
            outside: size.outside,
            width: size.width,
            material: RingMaterial::steel(),
            drag_arm: ROLLING * 0.5 * size.bore,
            interference: None,
            rating: None,
            rolls: true,
        })
    }

    /// A ring by its sizes.
    fn bush(table: &RingTable, key: &str) -> Result<Self, JobError> {
        let metal = table.metal.unwrap_or_default();
        let material = if metal == RingMetal::Steel { RingMaterial::steel() } else { RingMaterial::bronze() };
        let (Some(bore), Some(outside), Some(width)) = (table.bore_mm, table.outside_mm, table.width_mm) else {
            return Err(JobError::Missing {
                what: "size of the ring, as a ball bearing or as bore, outside and width,",
                key: format!("{key}.bearing"),
            });
        };
        let [bore, outside, width] = [bore, outside, width].map(|mm| mm * 1e-3);
        if bore >= outside {
            return Err(JobError::OutOfRange {
                what: "bore of the bush",
                value: bore * 1e3,
                unit: "mm",
                low: 0.5,
                high: outside * 1e3,
                key: format!("{key}.bore_mm"),
                usual: None,
            });
        }
        let metal_word = if metal == RingMetal::Steel { "steel" } else { "bronze" };
        let (word, drag) = match table.rolling {
            None => (format!("{metal_word} bush"), SLIDING),
            Some(RollingElement::Ball) => ("ball bearing".into(), ROLLING),
            Some(RollingElement::Roller) => ("roller bearing".into(), ROLLING),
        };
        Ok(Self {
            name: format!("{word} {:.1} x {:.1} x {:.1} mm", bore * 1e3, outside * 1e3, width * 1e3),
            // Of a bearing only the outer ring stiffens the eye.
            inner_radius: match table.rolling {
                None => 0.5 * bore,
                Some(_) => BearingSize { bore, outside, width }.outer_ring_inner_radius(),
            },
            outside,
            width,
            material,
            drag_arm: drag * 0.5 * bore,
            interference: None,
            rating: None,
            rolls: table.rolling.is_some(),
        })
    }
}

/// What rolls in a ring; nothing in a bush. The designations of the list are ball bearings.
fn rolling(table: &RingTable) -> Option<RollingElement> {
    table.rolling.or(table.bearing.as_ref().map(|_| RollingElement::Ball))
}
