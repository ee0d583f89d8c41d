//! The program as a user or a script meets it: what it prints, where, and how it ends.

mod absurd;
mod any;
mod bad_command;
mod bad_job;
mod bad_mesh;
mod broken_pipe;
mod color;
mod compare;
mod diagnose;
mod directions;
mod duty;
mod exit_code;
mod field;
mod first_run;
mod fit;
mod flags;
mod help;
mod hosts;
mod html;
mod huge_claim;
mod job_file;
mod json_names;
mod json_schema;
mod judgement;
mod learn;
mod materials;
mod mixed_up;
mod outputs;
mod paint;
mod piston;
mod plan;
mod record;
mod refusal;
mod repeat;
mod run;
mod samples;
mod screen;
mod several;
mod size;
mod stations;
#[cfg(unix)]
mod strangers;
mod study;
mod sweep;
#[cfg(unix)]
mod targets;
mod text;
mod together;
mod units;
mod walls;
mod wording;

use std::error::Error;

type Tested = Result<(), Box<dyn Error>>;
