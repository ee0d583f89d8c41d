//! The record of a check as files: page, drawings, tables.

use std::path::{Path, PathBuf};
use std::{fs, io};

use layload_core::Record;
use serde::Serialize;

use crate::args::RecordArguments;
use crate::failure::Failure;
use crate::figure;
use crate::html::{Inputs, page};
use crate::input::ReadJob;
use crate::output::{check_free, write_files};
use crate::plot::{Chart, Picture, Sheet, chart_picture};

/// Drawings that a record may have.
const DRAWINGS: [&str; 8] =
    ["part.svg", "life.svg", "along.svg", "crank.svg", "speed.svg", "crown.svg", "changes.svg", "directions.svg"];

/// Tables that a record has.
const TABLES: [&str; 2] = ["stations.csv", "crank.csv"];

impl RecordArguments {
    /// Whether anything beside the answer is to be written.
    pub(crate) fn wanted(&self) -> bool {
        self.report.is_some() || self.svg.is_some() || self.csv.is_some()
    }

    /// Refuses names that are taken before any work is done.
    pub(crate) fn checked(&self, overwrite: bool) -> Result<(), Failure> {
        let drawings = self.svg.iter().flat_map(|folder| DRAWINGS.map(|name| folder.join(name)));
        let tables = self.csv.iter().flat_map(|folder| TABLES.map(|name| folder.join(name)));
        for path in self.report.iter().cloned().chain(drawings).chain(tables) {
            check_free(&path, overwrite)?;
        }
        let folders = [("--svg", &self.svg), ("--csv", &self.csv)];
        for (option, folder) in folders.into_iter().filter_map(|(option, folder)| Some((option, folder.as_ref()?))) {
            if folder.exists() && !folder.is_dir() {
                return Err(Failure::Refused {
                    message: format!("{} is not a folder", folder.display()),
                    help: format!("{option} takes a folder, which is made where it is missing"),
                });
            }
        }
        Ok(())
    }
}

/// Writes what was asked for, all of it or nothing.
pub(crate) fn write(
    arguments: &RecordArguments,
    record: &Record,
    inputs: &Inputs,
    overwrite: bool,
) -> Result<(), Failure> {
    let mut files: Vec<(PathBuf, Vec<u8>)> = Vec::new();
    if let Some(path) = &arguments.report {
        files.push((path.clone(), page(record, inputs)?.into_bytes()));
    }
    if let Some(folder) = &arguments.svg {
        for (name, picture) in drawings(record)? {
            files.push((folder.join(name), picture.file()?));
        }
    }
    if let Some(folder) = &arguments.csv {
        files.push((folder.join("stations.csv"), table(&record.report.stations)?));
        if let Some(crank) = &record.report.crank {
            files.push((folder.join("crank.csv"), table(&crank.moments)?));
        }
    }
    for folder in [&arguments.svg, &arguments.csv].into_iter().flatten() {
        let failed = |error: io::Error| Failure::Unwritable { path: folder.clone(), reason: error.to_string() };
        fs::create_dir_all(folder).map_err(failed)?;
    }
    write_files(&files, overwrite)
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

/// Every drawing there is of a record, by the name of its file.
fn drawings(record: &Record) -> io::Result<Vec<(&'static str, Picture)>> {
    let report = &record.report;
    let chart = |chart: &Chart| chart_picture(chart, Sheet::FILE);
    let mut list = vec![
        ("part.svg", figure::part(report, &record.drawing, &figure::places(report), None)?),
        ("life.svg", figure::life(report).picture(true)?),
        ("along.svg", chart(&figure::along(report))?),
        ("speed.svg", chart(&figure::sweep(&record.sweep))?),
    ];
    if let Some(crank) = &report.crank {
        list.push(("crank.svg", chart(&figure::crank(crank))?));
    }
    if let Some(piston) = &report.piston {
        list.push(("crown.svg", chart(&figure::crown(&piston.crown_heat))?));
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
