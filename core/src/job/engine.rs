//! The engine of a job in SI units.

use super::assumption::{Assumption, Origin};
use super::error::JobError;
use super::file::{EngineTable, GasTable};
use super::pressures::{BURN_DURATION, BURN_START};
use super::resolve::{PRESSURE_TABLE, STROKES, Taken};
use super::scenario::EngineScenario;
use crate::engine::{DEFAULT_SAMPLES, GasCycle, Knock, Peaks, PressureTrace, Strokes};
use crate::job::plausible::engine as engine_limits;

pub(super) fn engine(
    table: &EngineTable,
    pressure_text: Option<&str>,
    taken: &mut Taken,
) -> Result<EngineScenario, JobError> {
    let stroke = taken.needed(&engine_limits::STROKE, table.stroke_mm, "engine.stroke_mm")?;
    let bore = taken.needed(&engine_limits::BORE, table.bore_mm, "engine.bore_mm")?;
    let mass =
        taken.needed(&engine_limits::RECIPROCATING_MASS, table.reciprocating_mass_g, "engine.reciprocating_mass_g")?;
    let compression_ratio = taken.number(&engine_limits::COMPRESSION_RATIO, table.compression_ratio, 9.0);
    let pin_offset = taken.number(&engine_limits::PIN_OFFSET, table.pin_offset_mm, 0.0);
    let piston_to_head = taken.given(&engine_limits::PISTON_TO_HEAD, table.piston_to_head_mm).map(|gap| gap * 1e-3);
    let crankcase = taken.number(&engine_limits::CRANKCASE_PRESSURE, table.gas.crankcase_pressure_bar, 1.0);
    let strokes = table.strokes.unwrap_or(Strokes::Four);
    let origin = if table.strokes.is_some() { Origin::Given } else { Origin::Memory };
    let word = if strokes == Strokes::Four { "four-stroke" } else { "two-stroke" };
    taken.list.push(Assumption::word("working cycle", word, origin).keyed(STROKES));
    let cycle = match strokes {
        Strokes::Four => GasCycle::four_stroke(),
        Strokes::Two => GasCycle::two_stroke(),
    };
    let measured = match (&table.gas.pressure_table, pressure_text) {
        (Some(name), Some(text)) => {
            taken.list.push(Assumption::word("cylinder pressure", name, Origin::Given).keyed(PRESSURE_TABLE));
            Some(PressureTrace::from_csv(text, strokes, DEFAULT_SAMPLES)?)
        }
        (Some(_), None) => {
            return Err(JobError::Missing {
                what: "the text of the pressure table",
                key: "engine.gas.pressure_table".into(),
            });
        }
        (None, _) => None,
    };
    if measured.is_some() && table.gas.peak_pressure_bar.is_some() {
        return Err(JobError::Both { first: "engine.gas.pressure_table", second: "engine.gas.peak_pressure_bar" });
    }
    let peak_pressure = taken.given(&engine_limits::PEAK_PRESSURE, table.gas.peak_pressure_bar).map(|bar| bar * 1e5);
    if measured.is_none() {
        cycle_assumptions(&cycle, taken);
    }
    let peaks = peaks(&table.gas, taken)?;
    Ok(EngineScenario {
        bore: bore * 1e-3,
        throw: stroke * 0.5e-3,
        reciprocating_mass: mass * 1e-3,
        compression_ratio,
        pin_offset: pin_offset * 1e-3,
        piston_to_head,
        crankcase_pressure: crankcase * 1e5,
        cycle,
        peak_pressure,
        measured,
        peaks,
    })
}

/// How peaks differ from cycle to cycle, as far as the job says.
fn peaks(gas: &GasTable, taken: &mut Taken) -> Result<Peaks, JobError> {
    let spread = taken.given(&engine_limits::PEAK_SPREAD, gas.peak_spread_percent).unwrap_or(0.0) / 100.0;
    let every = taken.given(&engine_limits::KNOCK_EVERY, gas.knock_every);
    let times = taken.given(&engine_limits::KNOCK_TIMES, gas.knock_times);
    let knock = match (every, times) {
        (Some(every), Some(times)) => Some(Knock { every, times }),
        (None, None) => None,
        (Some(_), None) => return Err(missing_knock("engine.gas.knock_times")),
        (None, Some(_)) => return Err(missing_knock("engine.gas.knock_every")),
    };
    Ok(Peaks { spread, knock })
}

fn missing_knock(key: &str) -> JobError {
    JobError::Missing { what: "the other half of knock", key: key.into() }
}

fn cycle_assumptions(cycle: &GasCycle, taken: &mut Taken) {
    let mut add = |name: &str, value: f64, unit: &str| {
        taken
            .list
            .push(Assumption::number(name, value, unit, Origin::Memory).citing("cycle model; Heywood, typical values"));
    };
    add("compression exponent", cycle.compression_exponent, "1");
    add("expansion exponent", cycle.expansion_exponent, "1");
    add(BURN_START, -cycle.burn_start_rad.to_degrees(), "°");
    add(BURN_DURATION, cycle.burn_duration_rad.to_degrees(), "°");
    add("manifold pressure, open throttle", cycle.open_manifold_pa / 1e5, "bar");
    add("air to fuel by mass", cycle.air_fuel_ratio, "1");
    add("lower heating value of the fuel", cycle.lower_heating_value_j_kg / 1e6, "MJ/kg");
    add("share of the heat lost to the walls", cycle.wall_loss_share, "1");
}
