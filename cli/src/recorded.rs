//! The record of a check as files: page, drawings, tables.

use std::io;
use std::path::{Path, PathBuf};

use layload_core::Record;
use serde::Serialize;

use crate::args::RecordArguments;
use crate::failure::Failure;
use crate::figure;
use crate::html::{Inputs, page};
use crate::input::ReadJob;
use crate::output::{Form, Outputs, Plan};
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

    /// Adds its files to those that will be written.
    pub(crate) fn planned(&self, mut plan: Plan) -> Result<Plan, Failure> {
        if let Some(path) = &self.report {
            plan = plan.file(path, Form::Page)?;
        }
        if let Some(folder) = &self.svg {
            plan = plan.folder(folder, &DRAWINGS, "--svg")?;
        }
        match &self.csv {
            Some(folder) => plan.folder(folder, &TABLES, "--csv"),
            None => Ok(plan),
        }
    }
}

/// Writes what was asked for, all of it or nothing.
pub(crate) fn write(
    arguments: &RecordArguments,
    record: &Record,
    inputs: &Inputs,
    outputs: &Outputs,
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
    outputs.write(&files)
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
