//! The record of a check as drawings and tables, and what its page says of the inputs.

use std::io;
use std::path::Path;

use layload_core::Record;
use serde::Serialize;

use super::Written;
use crate::failure::Failure;
use crate::figure;
use crate::html::Inputs;
use crate::input::ReadJob;
use crate::plot::{Chart, Picture, Sheet, chart_picture};

/// Drawings that a record may have.
pub(super) const DRAWINGS: [&str; 9] = [
    "part.svg",
    "life.svg",
    "along.svg",
    "crank.svg",
    "speed.svg",
    "crown.svg",
    "bond.svg",
    "changes.svg",
    "directions.svg",
];

/// Tables that a record has.
pub(super) const TABLES: [&str; 2] = ["stations.csv", "crank.csv"];

/// Every drawing there is of a record, as a file in a folder.
pub(super) fn drawings(record: &Record, folder: &Path) -> Result<Vec<Written>, Failure> {
    pictures(record)?.into_iter().map(|(name, picture)| Ok((folder.join(name), picture.file()?))).collect()
}

/// Cuts along the part and, of a rod, moments of the crank, as files in a folder.
pub(super) fn tables(record: &Record, folder: &Path) -> Result<Vec<Written>, Failure> {
    let mut files = vec![(folder.join("stations.csv"), table(&record.report.stations)?)];
    if let Some(crank) = &record.report.crank {
        files.push((folder.join("crank.csv"), table(&crank.moments)?));
    }
    Ok(files)
}

/// What the mesh and the job were, for the page.
pub(crate) fn inputs(mesh: &Path, bytes: &[u8], read: &ReadJob) -> Result<Inputs, Failure> {
    let job = &read.job;
    let name = |path: &Option<String>| path.clone().unwrap_or_default();
    let files = [
        read.card.clone().map(|text| (name(&job.material.card_file), text)),
        read.pressure.clone().map(|text| (name(&job.engine.gas.pressure_table), text)),
    ];
    Ok(Inputs {
        mesh_name: mesh.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned()),
        mesh_bytes: bytes.len(),
        mesh_sum: crc32fast::hash(bytes),
        material: job.material.name.clone().or_else(|| job.material.card_file.clone()).unwrap_or_default(),
        job: job.to_toml()?,
        files: files.into_iter().flatten().collect(),
    })
}

/// Every picture there is of a record, by the name of its file.
fn pictures(record: &Record) -> io::Result<Vec<(&'static str, Picture)>> {
    let report = &record.report;
    let chart = |chart: &Chart| chart_picture(chart, Sheet::FILE);
    let mut list = vec![
        ("part.svg", figure::part(report, &record.drawing, &figure::places(report), None)?),
        ("life.svg", figure::life(report).picture(true)?),
        ("speed.svg", chart(&figure::sweep(&record.sweep))?),
    ];
    // A part of any kind has no cuts.
    if !report.stations.is_empty() {
        list.insert(2, ("along.svg", chart(&figure::along(report))?));
    }
    if let Some(crank) = &report.crank {
        list.push(("crank.svg", chart(&figure::crank(crank))?));
    }
    if let Some(piston) = &report.piston {
        list.push(("crown.svg", chart(&figure::crown(&piston.crown_heat))?));
    }
    if let Some(bond) = &report.print.bond {
        list.push(("bond.svg", chart(&figure::bond(bond))?));
    }
    if !report.sensitivities.is_empty() {
        list.push(("changes.svg", figure::changes(report).picture(true)?));
    }
    if !record.directions.is_empty() {
        let built = figure::built(record);
        list.push(("directions.svg", figure::directions(&record.directions, built, true)?));
    }
    Ok(list)
}

/// A table with the names of the JSON at the head of its columns.
fn table(rows: &[impl Serialize]) -> Result<Vec<u8>, Failure> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for row in rows {
        writer.serialize(row).map_err(io::Error::other)?;
    }
    Ok(writer.into_inner().map_err(|error| io::Error::other(error.to_string()))?)
}
