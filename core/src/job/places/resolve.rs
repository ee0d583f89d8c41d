use nalgebra::{Point3, Vector3};

use super::error::PlaceError;
use super::history::{Every, History};
use super::name::PlaceName;
use super::table::{FaceTable, HoldTable, HoldWord, LoadTable, PlaceTable};
use crate::job::assumption::{Assumption, Origin};
use crate::job::error::JobError;
use crate::job::file::Job;
use crate::job::plausible::places as limits;
use crate::job::resolve::Taken;
use crate::numeric::unit;
use crate::units::ZERO_C;

/// A job's places, holds, loads and warmth in SI units, coordinates of the file.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct PlacesScenario {
    /// Places by number.
    pub(crate) places: Vec<PlaceWanted>,
    /// What holds it.
    pub(crate) holds: Vec<HoldScenario>,
    /// Whether its own inertia balances what no hold resists.
    pub(crate) free: bool,
    /// What loads it.
    pub(crate) loads: Vec<LoadScenario>,
    /// How the loads run.
    pub(crate) history: History,
    /// What is warm.
    pub(crate) warm: Vec<WarmScenario>,
}

/// A place to be found on the part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PlaceWanted {
    /// Its name.
    pub(crate) name: PlaceName,
    /// What it is.
    pub(crate) shape: PlaceShape,
}

/// A bore or a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum PlaceShape {
    /// A bore.
    Bore {
        /// A point near it, m.
        near: Option<Point3<f64>>,
        /// Its diameter, m.
        diameter: Option<f64>,
    },
    /// The surface round a point.
    FaceNear {
        /// The point, m.
        near: Point3<f64>,
        /// Angle by which it may turn away, rad.
        within: f64,
    },
    /// All of the surface that faces in a direction.
    FaceToward {
        /// Unit vector.
        toward: Vector3<f64>,
        /// Angle by which it may turn away, rad.
        within: f64,
    },
}

/// A hold at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct HoldScenario {
    /// Number of the place.
    pub(crate) at: usize,
    /// How.
    pub(crate) held: HeldAs,
}

/// How a place is held.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum HeldAs {
    /// By a pin.
    Pin {
        /// Radial clearance, m.
        clearance: f64,
    },
    /// In every direction.
    Glued,
    /// Square to its surface.
    Flat,
}

/// A load.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct LoadScenario {
    /// Its name.
    pub(crate) name: String,
    /// What it is; the history scales it.
    pub(crate) kind: LoadKind,
    /// Whether it grows as the square of the speed.
    pub(crate) follows_speed: bool,
}

/// What a load does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum LoadKind {
    /// A force at a place, N; in a bore with the radial clearance of its pin, m.
    Force {
        /// Number of the place.
        at: usize,
        /// N.
        force: Vector3<f64>,
        /// m.
        clearance: f64,
    },
    /// A pressure on a place, Pa.
    Pressure {
        /// Number of the place.
        at: usize,
        /// Pa.
        pressure: f64,
    },
    /// A moment at a place, N m.
    Moment {
        /// Number of the place.
        at: usize,
        /// N m.
        moment: Vector3<f64>,
    },
    /// Acceleration of the whole part, m/s².
    Acceleration(Vector3<f64>),
    /// Turning of the whole part.
    Spin {
        /// Number of the place whose axis it turns about.
        about: usize,
        /// rad/s.
        speed: f64,
    },
}

/// A warm place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct WarmScenario {
    /// Number of the place.
    pub(crate) at: usize,
    /// K.
    pub(crate) kelvin: f64,
    /// Distance over which the warmth falls by the factor e, m, where it is given.
    pub(crate) reach: Option<f64>,
}

/// Most places, and most loads.
const MOST: usize = 40;

/// Angle by which a face may turn away unless said otherwise, degrees.
const USUAL_WITHIN: f64 = 15.0;

/// Radial clearance of a pin unless said otherwise, mm (common practice, no source).
const USUAL_CLEARANCE: f64 = 0.02;

/// What a job says of places, holds, loads and warmth, with the list of what it rests on.
///
/// # Errors
///
/// Where a name is not known, a place has no shape, a load no size, or the history does not belong to the loads.
pub(crate) fn resolve_places(job: &Job) -> Result<(PlacesScenario, Vec<Assumption>), JobError> {
    let mut taken = Taken::default();
    let counted = [
        ("places", job.place.len()),
        ("holds", job.hold.len()),
        ("loads", job.load.len()),
        ("warm places", job.warm.len()),
    ];
    if let Some((what, count)) = counted.into_iter().find(|(_, count)| *count > MOST) {
        return Err(PlaceError::TooMany { what, count, most: MOST }.into());
    }
    let places = job.place.iter().map(|table| place(table, &mut taken)).collect::<Result<Vec<_>, _>>()?;
    let named = Named(&places);
    named.each_once()?;
    let free = job.hold.iter().any(|hold| hold.held_as == Some(HoldWord::Free));
    let holds = job.hold.iter().filter(|hold| hold.held_as != Some(HoldWord::Free));
    let holds = holds.map(|table| named.hold(table, &mut taken)).collect::<Result<Vec<_>, _>>()?;
    let loads = job.load.iter().map(|table| named.load(table, &mut taken)).collect::<Result<Vec<_>, _>>()?;
    let names: Vec<String> = loads.iter().map(|load| load.name.clone()).collect();
    if let Some(twice) = (1..names.len()).find(|&k| names[..k].contains(&names[k])) {
        return Err(PlaceError::Twice { what: "loads", name: names[twice].clone() }.into());
    }
    let history = History::new(&job.history, &names)?;
    let told = match history.every {
        Every::Steady => "steady".into(),
        Every::Turns(turns) => format!("{} moments, every {turns} turns", history.moments.len()),
        Every::Seconds(seconds) => format!("{} moments, every {seconds} s", history.moments.len()),
    };
    let given = history.every != Every::Steady;
    let origin = if given { Origin::Given } else { Origin::CommonPractice };
    taken.list.push(Assumption::word("loads run", &told, origin).keyed("history"));
    let warm = job.warm.iter().map(|table| {
        let reach = taken.given(&limits::REACH, table.reach_mm).map(|mm| mm * 1e-3);
        let kelvin = taken.number(&limits::WARM, Some(table.temperature_c), table.temperature_c) + ZERO_C;
        Ok(WarmScenario { at: named.at("a warm place", &table.at)?, kelvin, reach })
    });
    let warm = warm.collect::<Result<Vec<_>, PlaceError>>()?;
    if loads.is_empty() {
        return Err(PlaceError::NoLoad.into());
    }
    if holds.is_empty() && !free {
        return Err(PlaceError::NoHold.into());
    }
    Ok((PlacesScenario { places, holds, free, loads, history, warm }, taken.list))
}

fn place(table: &PlaceTable, taken: &mut Taken) -> Result<PlaceWanted, PlaceError> {
    let name = PlaceName::new(&table.name)?;
    let refused = |said| Err(PlaceError::Shape { name: table.name.clone(), said });
    let shape = match (&table.bore, &table.face) {
        (Some(_), Some(_)) => return refused("both a bore and a face"),
        (None, None) => return refused("neither a bore nor a face"),
        (Some(bore), None) => match (bore.near_mm, bore.diameter_mm) {
            (None, None) => return refused("a bore without near_mm and diameter_mm"),
            (near, diameter) => PlaceShape::Bore {
                near: near.map(point),
                diameter: taken.given(&limits::BORE, diameter).map(|mm| mm * 1e-3),
            },
        },
        (None, Some(face)) => match self::face(face, taken) {
            Ok(shape) => shape,
            Err(said) => return refused(said),
        },
    };
    Ok(PlaceWanted { name, shape })
}

fn face(table: &FaceTable, taken: &mut Taken) -> Result<PlaceShape, &'static str> {
    let within = taken.number(&limits::WITHIN, table.within_deg, USUAL_WITHIN).to_radians();
    match (table.near_mm, table.toward) {
        (Some(near), None) => Ok(PlaceShape::FaceNear { near: point(near), within }),
        (None, Some(toward)) => {
            let toward = unit(&toward.into()).ok_or("a face toward a direction without length")?;
            Ok(PlaceShape::FaceToward { toward, within })
        }
        (Some(_), Some(_)) => Err("a face with both near_mm and toward"),
        (None, None) => Err("a face without near_mm and toward"),
    }
}

fn point(mm: [f64; 3]) -> Point3<f64> {
    mm.map(|c| c * 1e-3).into()
}

/// Places by name.
struct Named<'a>(&'a [PlaceWanted]);

impl Named<'_> {
    fn each_once(&self) -> Result<(), PlaceError> {
        let twice = (1..self.0.len()).find(|&k| self.0[..k].iter().any(|place| place.name == self.0[k].name));
        twice.map_or(Ok(()), |k| Err(PlaceError::Twice { what: "places", name: self.0[k].name.to_string() }))
    }

    fn at(&self, who: &str, name: &str) -> Result<usize, PlaceError> {
        let found = self.0.iter().position(|place| place.name.text() == name);
        let known = || self.0.iter().map(|place| place.name.to_string()).collect();
        found.ok_or_else(|| PlaceError::Unknown { who: who.into(), name: name.into(), known: known() })
    }

    fn hold(&self, table: &HoldTable, taken: &mut Taken) -> Result<HoldScenario, JobError> {
        let missing = |what, key: &str| JobError::Missing { what, key: key.into() };
        let name = table.at.as_deref().ok_or_else(|| missing("the place of a hold", "hold.at"))?;
        let word = table.held_as.ok_or_else(|| missing("how a place is held", "hold.as"))?;
        let at = self.at("a hold", name)?;
        let held = match word {
            HoldWord::Glued => HeldAs::Glued,
            HoldWord::Flat => HeldAs::Flat,
            HoldWord::Pin | HoldWord::Free => {
                let clearance = taken.number(&limits::HOLD_CLEARANCE, table.clearance_mm, USUAL_CLEARANCE) * 1e-3;
                HeldAs::Pin { clearance }
            }
        };
        Ok(HoldScenario { at, held })
    }

    fn load(&self, table: &LoadTable, taken: &mut Taken) -> Result<LoadScenario, JobError> {
        let name = PlaceName::new(&table.name)?.to_string();
        let who = format!("the load `{name}`");
        let refused = |said| JobError::from(PlaceError::Load { load: name.clone(), said });
        let at = table.at.as_deref().map(|at| self.at(&who, at)).transpose()?;
        let placed = || at.ok_or_else(|| refused("has no place: at is missing"));
        let mut kinds = Vec::new();
        if let Some(force) = table.force_n {
            let clearance = taken.number(&limits::LOAD_CLEARANCE, table.clearance_mm, USUAL_CLEARANCE) * 1e-3;
            kinds.push(LoadKind::Force { at: placed()?, force: force.into(), clearance });
        }
        if let Some(bar) = table.pressure_bar {
            let pressure = taken.number(&limits::PRESSURE, Some(bar), bar) * 1e5;
            kinds.push(LoadKind::Pressure { at: placed()?, pressure });
        }
        if let Some(moment) = table.moment_n_m {
            kinds.push(LoadKind::Moment { at: placed()?, moment: moment.into() });
        }
        kinds.extend(table.acceleration_m_s2.map(|along| LoadKind::Acceleration(along.into())));
        if let Some(spin) = &table.spin {
            let rpm = taken.number(&limits::SPIN, Some(spin.rpm), spin.rpm);
            let speed = rpm * core::f64::consts::PI / 30.0;
            kinds.push(LoadKind::Spin { about: self.at(&who, &spin.about)?, speed });
        }
        let kind = match kinds.as_slice() {
            [kind] => *kind,
            [] => return Err(refused("has no size")),
            _ => return Err(refused("has more than one size")),
        };
        let whole = matches!(kind, LoadKind::Acceleration(_) | LoadKind::Spin { .. });
        if whole && at.is_some() {
            return Err(refused("acts on the whole part, so that it has no place in at"));
        }
        if !kind.amounts() {
            return Err(refused("amounts to nothing"));
        }
        Ok(LoadScenario { name, kind, follows_speed: table.follows_speed.unwrap_or(false) })
    }
}

impl LoadKind {
    /// Whether it is a number above nothing.
    fn amounts(&self) -> bool {
        let size = match self {
            Self::Force { force: vector, .. } | Self::Moment { moment: vector, .. } | Self::Acceleration(vector) => {
                vector.norm()
            }
            Self::Pressure { pressure, .. } => pressure.abs(),
            Self::Spin { speed, .. } => speed.abs(),
        };
        size.is_finite() && size > 0.0 && size < 1e12
    }
}
