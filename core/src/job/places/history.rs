use std::collections::BTreeMap;

use super::error::PlaceError;
use super::table::HistoryTable;

/// How loads run over time.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct History {
    /// How often it repeats.
    pub(crate) every: Every,
    /// Crank angles, rad, or times, s; one moment where loads are steady.
    pub(crate) moments: Vec<f64>,
    /// Of each load, in the order of the job, its factor at every moment.
    pub(crate) factors: Vec<Vec<f64>>,
}

/// How often a history repeats.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Every {
    /// Never: loads are steady.
    Steady,
    /// Every so many turns of the crank.
    Turns(f64),
    /// Every so many seconds.
    Seconds(f64),
}

/// Most moments of a history.
const MOST_MOMENTS: usize = 1441;

/// Factors beyond this are a slip of the pen.
const GREATEST: f64 = 1e9;

/// Longest history, s.
const LONGEST: f64 = 1e6;

impl HistoryTable {
    /// Takes the columns of a CSV text in, as if the job had them.
    ///
    /// # Errors
    ///
    /// Where the text is no table with a column of `angle_deg` or `seconds`.
    pub fn take(&mut self, text: &str) -> Result<(), PlaceError> {
        let refused = |reason: String| PlaceError::History { reason };
        let mut rows = text.lines().map(str::trim).filter(|row| !row.is_empty() && !row.starts_with('#'));
        let heading = rows.next().ok_or_else(|| refused("it has no rows".into()))?;
        let names: Vec<&str> = heading.split(',').map(str::trim).collect();
        let mut columns: Vec<Vec<f64>> = vec![Vec::new(); names.len()];
        for (number, row) in rows.enumerate() {
            let cells: Vec<&str> = row.split(',').map(str::trim).collect();
            if cells.len() != names.len() {
                let (has, wanted) = (cells.len(), names.len());
                return Err(refused(format!("row {} has {has} columns where the heading has {wanted}", number + 1)));
            }
            for (column, cell) in columns.iter_mut().zip(cells) {
                let value = cell.parse().map_err(|_| refused(format!("row {} has `{cell}`, no number", number + 1)))?;
                column.push(value);
            }
        }
        for (name, column) in names.into_iter().zip(columns) {
            match name {
                "angle_deg" => self.angle_deg = column,
                "seconds" => self.seconds = column,
                load => {
                    if self.loads.insert(load.into(), column).is_some() {
                        return Err(refused(format!("it has the column `{load}` twice")));
                    }
                }
            }
        }
        self.table = None;
        Ok(())
    }
}

impl History {
    /// Of a job's table for its loads by name.
    pub(super) fn new(table: &HistoryTable, loads: &[String]) -> Result<Self, PlaceError> {
        let refused = |reason: &str| Err(PlaceError::History { reason: reason.into() });
        if table.table.is_some() {
            return refused("the file of history.table was not read");
        }
        let (every, moments) = match (table.angle_deg.as_slice(), table.seconds.as_slice()) {
            ([], []) if table.loads.is_empty() => {
                return Ok(Self { every: Every::Steady, moments: vec![0.0], factors: vec![vec![1.0]; loads.len()] });
            }
            ([], []) => return refused("it has neither angle_deg nor seconds"),
            (angles, []) => (Every::Turns(turns(angles)?), angles.iter().map(|deg| deg.to_radians()).collect()),
            ([], seconds) => (Every::Seconds(period(seconds)?), seconds.to_vec()),
            _ => return refused("it has both angle_deg and seconds"),
        };
        let moments: Vec<f64> = moments;
        let factors = loads.iter().map(|load| column(&table.loads, load, moments.len())).collect::<Result<_, _>>()?;
        if let Some(column) = table.loads.keys().find(|column| !loads.contains(column)) {
            return Err(PlaceError::NoSuchLoad { column: column.clone(), known: loads.to_vec() });
        }
        Ok(Self { every, moments, factors })
    }
}

fn column(columns: &BTreeMap<String, Vec<f64>>, load: &String, moments: usize) -> Result<Vec<f64>, PlaceError> {
    let Some(column) = columns.get(load) else {
        return Err(PlaceError::NoColumn { load: load.clone(), known: columns.keys().cloned().collect() });
    };
    let refused = |reason: String| Err(PlaceError::History { reason });
    if column.len() != moments {
        return refused(format!("the column `{load}` has {} rows, the moments are {moments}", column.len()));
    }
    match column.iter().find(|factor| factor.is_nan() || factor.abs() > GREATEST) {
        Some(factor) => refused(format!("the column `{load}` has {factor}")),
        None => Ok(column.clone()),
    }
}

/// Rising numbers, at least two and not too many.
fn rising(list: &[f64], what: &str, most: f64) -> Result<(), PlaceError> {
    let refused = |reason: String| Err(PlaceError::History { reason });
    if !(2..=MOST_MOMENTS).contains(&list.len()) {
        return refused(format!("{what} has {} rows, not 2 to {MOST_MOMENTS}", list.len()));
    }
    if !list.iter().all(|value| (0.0..=most).contains(value)) {
        return refused(format!("{what} goes beyond 0 to {most}"));
    }
    if list.windows(2).any(|pair| pair[1] <= pair[0]) {
        return refused(format!("{what} does not rise from row to row"));
    }
    Ok(())
}

fn turns(angles: &[f64]) -> Result<f64, PlaceError> {
    rising(angles, "angle_deg", 720.0)?;
    Ok(if angles.last().is_some_and(|&last| last > 360.0) { 2.0 } else { 1.0 })
}

fn period(seconds: &[f64]) -> Result<f64, PlaceError> {
    rising(seconds, "seconds", LONGEST)?;
    let ends = seconds.first().zip(seconds.last());
    Ok(ends.map_or(0.0, |(first, last)| last - first))
}
