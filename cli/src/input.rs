//! Files of a job, and options laid over them.

use std::fs::File;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use layload_core::Question;
use layload_core::engine::DutyStep;
use layload_core::job::Job;

use crate::args::JobArguments;
use crate::failure::Failure;

/// A job with the texts of the files it names.
#[derive(Debug)]
pub(crate) struct ReadJob {
    pub(crate) job: Job,
    /// Text of its card file.
    pub(crate) card: Option<String>,
    /// Text of its pressure table.
    pub(crate) pressure: Option<String>,
}

impl ReadJob {
    /// Reads the job file and what it names, and lays the options over it.
    pub(crate) fn read(arguments: &JobArguments) -> Result<Self, Failure> {
        Self::read_from(arguments.job.as_deref(), arguments)
    }

    /// The same with another job file.
    pub(crate) fn read_from(file: Option<&Path>, arguments: &JobArguments) -> Result<Self, Failure> {
        let mut job = match file {
            Some(path) => Job::from_toml(&text(path)?)?,
            None => Job::default(),
        };
        overlay(&mut job, arguments);
        let folder = file.and_then(Path::parent).map(PathBuf::from).unwrap_or_default();
        let beside = |name: &Option<String>| name.as_ref().map(|name| text(&folder.join(name))).transpose();
        let card = match &arguments.card {
            Some(path) => Some(text(path)?),
            None => beside(&job.material.card_file)?,
        };
        let pressure = beside(&job.engine.gas.pressure_table)?;
        Ok(Self { job, card, pressure })
    }

    /// A job file by itself, without options.
    pub(crate) fn of_file(path: &Path) -> Result<Self, Failure> {
        let job = Job::from_toml(&text(path)?)?;
        let folder = path.parent().map(PathBuf::from).unwrap_or_default();
        let beside = |name: &Option<String>| name.as_ref().map(|name| text(&folder.join(name))).transpose();
        let card = beside(&job.material.card_file)?;
        let pressure = beside(&job.engine.gas.pressure_table)?;
        Ok(Self { job, card, pressure })
    }

    /// The question for the core.
    pub(crate) fn question(&self) -> Question<'_> {
        Question { job: &self.job, card_text: self.card.as_deref(), pressure_text: self.pressure.as_deref() }
    }
}

/// Largest mesh file that is read: some forty million facets, which take 6 GB to check.
const LARGEST_MESH_MIB: u64 = 2048;

/// Largest file of words and numbers that is read: a hundred thousand lines, where jobs and tables have hundreds.
const LARGEST_TEXT_MIB: u64 = 16;

/// Bytes of a mesh file.
pub(crate) fn bytes(path: &Path) -> Result<Vec<u8>, Failure> {
    within(path, LARGEST_MESH_MIB)
}

/// Text of a file.
pub(crate) fn text(path: &Path) -> Result<String, Failure> {
    let bytes = within(path, LARGEST_TEXT_MIB)?;
    String::from_utf8(bytes)
        .map_err(|_| Failure::Unreadable { path: path.into(), reason: "it is not text in UTF-8".into() })
}

/// A whole file, which is not read when it is too large.
fn within(path: &Path, limit_mib: u64) -> Result<Vec<u8>, Failure> {
    let unreadable = |error: &std::io::Error| Failure::unreadable(path, error);
    let limit = limit_mib << 20;
    let file = File::open(path).map_err(|error| unreadable(&error))?;
    // What is no file on disk, such as a pipe, has no length yet.
    let length = file.metadata().map_err(|error| unreadable(&error))?.len();
    let too_large = || Failure::TooLarge { path: path.into(), limit_mib };
    if length > limit {
        return Err(too_large());
    }
    let mut bytes = Vec::with_capacity(length as usize + 1);
    file.take(limit + 1).read_to_end(&mut bytes).map_err(|error| unreadable(&error))?;
    if bytes.len() as u64 > limit { Err(too_large()) } else { Ok(bytes) }
}

fn overlay(job: &mut Job, options: &JobArguments) {
    fn set<T>(slot: &mut Option<T>, option: Option<T>) {
        if option.is_some() {
            *slot = option;
        }
    }
    set(&mut job.engine.bore_mm, options.bore_mm);
    set(&mut job.engine.stroke_mm, options.stroke_mm);
    set(&mut job.engine.reciprocating_mass_g, options.reciprocating_mass_g);
    set(&mut job.engine.compression_ratio, options.compression_ratio);
    set(&mut job.engine.strokes, options.strokes.map(Into::into));
    if options.peak_pressure_bar.is_some() {
        job.engine.gas.peak_pressure_bar = options.peak_pressure_bar;
        job.engine.gas.pressure_table = None;
    }
    set(&mut job.print.build_direction, options.build_direction);
    set(&mut job.print.walls, options.walls);
    set(&mut job.print.bead_width_mm, options.bead_width_mm);
    set(&mut job.print.layer_height_mm, options.layer_height_mm);
    set(&mut job.print.infill_percent, options.infill_percent);
    if options.material.is_some() {
        job.material.name.clone_from(&options.material);
        job.material.card_file = None;
    }
    if let Some(path) = &options.card {
        job.material.name = None;
        job.material.card_file = Some(path.display().to_string());
    }
    set(&mut job.material.temperature_c, options.temperature_c);
    set(&mut job.material.moisture, options.moisture.map(Into::into));
    set(&mut job.duty.wanted_life_h, options.wanted_life_h);
    if let Some(rpm) = options.rpm {
        job.duty.steps = Some(vec![DutyStep { rpm, throttle: 1.0, seconds: 60.0 }]);
    }
    set(&mut job.part.mesh_unit, options.mesh_unit.map(Into::into));
    set(&mut job.part.body, options.body);
    set(&mut job.part.pin_axis, options.pin_axis);
    set(&mut job.part.kind, options.part.map(Into::into));
    let piston = &mut job.part.piston;
    set(&mut piston.crown_direction, options.crown_direction);
    let places = [
        (&mut piston.center_mm, &mut piston.diameter_mm, options.piston_body),
        (&mut piston.pin_center_mm, &mut piston.pin_diameter_mm, options.pin_bore),
    ];
    for (center, diameter, given) in places {
        if let Some([x, y, z, d]) = given {
            *center = Some([x, y, z]);
            *diameter = Some(d);
        }
    }
    for (eye, given) in [(&mut job.part.small_end, options.small_end), (&mut job.part.big_end, options.big_end)] {
        if let Some([x, y, z, diameter]) = given {
            eye.center_mm = Some([x, y, z]);
            eye.diameter_mm = Some(diameter);
        }
    }
}
