use crate::any::prepared::PreparedAny;
use crate::any::warmth::usual_reach;
use crate::job::{Every, HeldAs, HoldWord, LoadKind};
use crate::kind::report::{left_out, point_mm};
use crate::numeric::{greater, lesser};
use crate::part::{AnyPart, PartKind};
use crate::report::{
    AnyLoadReport, AnyReport, BoreReport, HoldReport, PartReport, PlaceReport, PlaceShapeWord, SeatReport, WarmReport,
};
use crate::units::{MM, ZERO_C};

/// The part as it was read.
pub(super) fn part(part: &AnyPart) -> PartReport {
    PartReport {
        kind: PartKind::Any,
        bores: bores(part),
        center_distance_mm: None,
        path: None,
        left_out: left_out(&part.left_out),
    }
}

/// Its bores, the widest first.
pub(crate) fn bores(part: &AnyPart) -> Vec<BoreReport> {
    let numbered = part.bores.iter().enumerate();
    let of = |(number, bore): (usize, &crate::part::Bore)| {
        let main = bore.main();
        BoreReport {
            role: format!("bore-{}", number + 1),
            diameter_mm: bore.diameter() * MM,
            center_mm: point_mm(&bore.center),
            axis: bore.axis.into(),
            depth_mm: main.depth() * MM,
            arc_deg: main.arc.to_degrees(),
            sagitta_mm: main.sagitta * MM,
            seats: bore
                .seats
                .iter()
                .map(|seat| SeatReport { diameter_mm: 2.0 * seat.radius * MM, depth_mm: seat.depth() * MM })
                .collect(),
        }
    };
    numbered.map(of).collect()
}

/// Its places, holds and loads; `pin_forces` are the greatest of its pins, N.
pub(super) fn places(prepared: &PreparedAny, pin_forces: &[f64]) -> AnyReport {
    AnyReport {
        places: prepared.found.iter().map(place).collect(),
        holds: holds(prepared, pin_forces),
        loads: loads(prepared),
        history: history(prepared),
        warm: warm(prepared),
    }
}

fn place(found: &crate::any::found::FoundPlace) -> PlaceReport {
    PlaceReport {
        name: found.name.to_string(),
        shape: if found.bores.is_empty() { PlaceShapeWord::Face } else { PlaceShapeWord::Bore },
        facets: found.patch.facets.len(),
        area_mm2: found.area * 1e6,
        center_mm: point_mm(&found.center),
        direction: found.axis.into(),
        diameter_mm: found.bores.first().map(|bore| 2.0 * bore.seat.radius * MM),
        bores: found.bores.len(),
    }
}

fn holds(prepared: &PreparedAny, pin_forces: &[f64]) -> Vec<HoldReport> {
    let given = &prepared.given;
    let name = |at: usize| Some(prepared.found[at].name.to_string());
    let mut list: Vec<HoldReport> = given
        .holds
        .iter()
        .map(|hold| {
            let (held_as, clearance_mm) = match hold.held {
                HeldAs::Glued => (HoldWord::Glued, None),
                HeldAs::Flat => (HoldWord::Flat, None),
                HeldAs::Pin { clearance } => (HoldWord::Pin, Some(clearance * MM)),
            };
            let pin = prepared.pins.iter().position(|pin| pin.holds && pin.place == hold.at);
            let greatest_n = pin.and_then(|pin| pin_forces.get(pin).copied());
            HoldReport { at: name(hold.at), held_as, clearance_mm, greatest_n }
        })
        .collect();
    if given.free {
        list.push(HoldReport { at: None, held_as: HoldWord::Free, clearance_mm: None, greatest_n: None });
    }
    list
}

fn loads(prepared: &PreparedAny) -> Vec<AnyLoadReport> {
    let given = &prepared.given;
    let name = |at: usize| prepared.found[at].name.to_string();
    let vector = |of: &nalgebra::Vector3<f64>| format!("[{}, {}, {}]", of.x, of.y, of.z);
    let told = given.loads.iter().zip(&given.history.factors).map(|(load, factors)| {
        let (at, what) = match load.kind {
            LoadKind::Force { at, force, .. } => (Some(name(at)), format!("force {} N", vector(&force))),
            LoadKind::Pressure { at, pressure } => (Some(name(at)), format!("pressure {} bar", pressure / 1e5)),
            LoadKind::Moment { at, moment } => (Some(name(at)), format!("moment {} N m", vector(&moment))),
            LoadKind::Acceleration(along) => (None, format!("acceleration {} m/s²", vector(&along))),
            LoadKind::Spin { about, speed } => {
                (None, format!("spin {:.1} rpm about {}", speed * 30.0 / core::f64::consts::PI, name(about)))
            }
        };
        AnyLoadReport {
            name: load.name.clone(),
            at,
            what,
            least: factors.iter().copied().fold(f64::INFINITY, lesser),
            greatest: factors.iter().copied().fold(f64::NEG_INFINITY, greater),
            follows_speed: load.follows_speed,
        }
    });
    told.collect()
}

fn history(prepared: &PreparedAny) -> String {
    let history = &prepared.given.history;
    let moments = history.moments.len();
    match history.every {
        Every::Steady => "steady".into(),
        Every::Turns(1.0) => format!("{moments} moments every turn of the crank"),
        Every::Turns(_) => format!("{moments} moments every second turn of the crank"),
        Every::Seconds(seconds) => format!("{moments} moments every {seconds} s"),
    }
}

fn warm(prepared: &PreparedAny) -> Vec<WarmReport> {
    let usual = usual_reach(prepared);
    let of = |warm: &crate::job::WarmScenario| WarmReport {
        at: prepared.found[warm.at].name.to_string(),
        temperature_c: warm.kelvin - ZERO_C,
        reach_mm: warm.reach.unwrap_or(usual) * MM,
    };
    prepared.given.warm.iter().map(of).collect()
}
