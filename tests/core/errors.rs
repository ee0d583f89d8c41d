//! What errors tell programs and users: a code, a key of the job, and help that is not worded for one kind of user.

use layload_core::bench::BenchError;
use layload_core::coupon::CouponError;
use layload_core::diagnosis::DiagnosisError;
use layload_core::engine::{CrankError, CylinderError, DutyError, GasError, PressureError};
use layload_core::field::FieldError;
use layload_core::heat::HeatError;
use layload_core::job::{Job, JobError, PlaceError};
use layload_core::life::LifeError;
use layload_core::material::MaterialError;
use layload_core::mesh::MeshError;
use layload_core::part::PartError;
use layload_core::print::PrintError;
use layload_core::stress::StressError;
use layload_core::study::StudyError;
use layload_core::{CheckRequest, Error, Help, PartSource, Question, check_with};
use strum::VariantNames;

use super::mesh::files;
use super::sources::{repository, sources};

type Tested = Result<(), Box<dyn std::error::Error>>;

/// Sources that serve more than the command line.
const SOURCES: [&str; 6] = [
    "core/solid/src",
    "core/src",
    "wasm-plugin/src",
    "wasm-plugin/native/src",
    "wasm-plugin/hosts/ask/src",
    "wasm-plugin/hosts/c/src",
];

/// Commands of the command line whose names are no everyday words of a sentence after the program's.
const COMMANDS: [&str; 16] = [
    "check",
    "compare",
    "diagnose",
    "directions",
    "explain",
    "fit",
    "host",
    "learn",
    "man",
    "materials",
    "new-job",
    "plan",
    "schema",
    "size",
    "study",
    "sweep",
];

#[test]
fn no_option_or_command_is_named_outside_the_command_line() {
    let files: Vec<_> = SOURCES.into_iter().flat_map(|folder| sources(&repository(folder))).collect();
    assert!(files.len() > 150, "{} files", files.len());
    let mut found = Vec::new();
    for (path, text) in files {
        for (number, line) in text.lines().enumerate() {
            if names_an_option(code_of(line)) || names_a_command(code_of(line)) {
                found.push(format!("{}:{}: {}", path.display(), number + 1, line.trim()));
            }
        }
    }
    assert!(found.is_empty(), "words of a command line:\n{}", found.join("\n"));
    // The search finds what it is for.
    assert!(names_an_option("give another --count") && !names_an_option("a -- b") && !names_an_option("x - -y"));
    assert!(names_a_command("see layload learn LOG") && !names_a_command("layload plugin 2"));
    assert_eq!(code_of("    let a = b; // as --count"), "    let a = b;");
}

/// A line without its comment.
fn code_of(line: &str) -> &str {
    if line.trim_start().starts_with("//") { "" } else { line.split(" // ").next().unwrap_or(line) }
}

fn names_an_option(code: &str) -> bool {
    code.match_indices("--").any(|(at, _)| code[at + 2..].starts_with(|letter: char| letter.is_ascii_lowercase()))
}

fn names_a_command(code: &str) -> bool {
    code.match_indices("layload ").any(|(at, said)| {
        let word = code[at + said.len()..].split(|letter: char| !letter.is_ascii_alphabetic() && letter != '-').next();
        word.is_some_and(|word| COMMANDS.contains(&word))
    })
}

/// Codes are what programs rely on: none may change or mean two things. A new one is added to the file.
#[test]
fn codes_stay_as_they_are() {
    let all = [
        Error::VARIANTS,
        BenchError::VARIANTS,
        CouponError::VARIANTS,
        CrankError::VARIANTS,
        CylinderError::VARIANTS,
        DiagnosisError::VARIANTS,
        DutyError::VARIANTS,
        FieldError::VARIANTS,
        GasError::VARIANTS,
        HeatError::VARIANTS,
        JobError::VARIANTS,
        LifeError::VARIANTS,
        MaterialError::VARIANTS,
        MeshError::VARIANTS,
        PartError::VARIANTS,
        PlaceError::VARIANTS,
        PressureError::VARIANTS,
        PrintError::VARIANTS,
        StressError::VARIANTS,
        StudyError::VARIANTS,
    ];
    let mut codes: Vec<&str> = all.concat();
    codes.sort_unstable();
    let is_plain = |code: &str| code.chars().all(|letter| letter.is_ascii_lowercase() || letter == '-');
    assert!(codes.iter().all(|code| is_plain(code)), "{codes:?}");
    assert!(codes.windows(2).all(|pair| pair[0] != pair[1]), "one code for two errors: {codes:?}");
    let known = include_str!("error_codes.txt");
    assert_eq!(codes.join("\n"), known.trim_end(), "a code that programs rely on changed, or a new one is not listed");
}

/// A job that answers, with its first `from` written as `to`.
fn refused(from: &str, to: &str) -> Result<Error, Box<dyn std::error::Error>> {
    let text = String::from_utf8(files::bytes("samples/bench_single.toml")?)?;
    let changed = text.replacen(from, to, 1);
    assert_ne!(text, changed, "{from} is not in the job");
    let job = Job::from_toml(&changed)?;
    let mesh = files::bytes("samples/plain_rod.stl")?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let answer = check_with(PartSource::Stl(&mesh), &question, &CheckRequest::QUICK, &mut ());
    Ok(answer.err().ok_or_else(|| format!("{to:?} in place of {from:?} is answered"))?)
}

#[test]
fn an_error_of_the_job_names_its_code_and_its_key() -> Tested {
    for (from, to, code, key) in [
        ("stroke_mm = ", "# ", "job-missing", "engine.stroke_mm"),
        ("bore_mm = ", "# ", "job-missing", "engine.bore_mm"),
        ("reciprocating_mass_g = ", "# ", "job-missing", "engine.reciprocating_mass_g"),
        ("stroke_mm = ", "stroke_mm = 1e9 # ", "job-out-of-range", "engine.stroke_mm"),
        ("name = \"", "name = \"no such ", "material-unknown", "material.name"),
    ] {
        let error = refused(from, to)?;
        assert_eq!((error.code(), error.key()), (code, Some(key)), "{error}");
        if code == "job-missing" {
            assert_eq!(error.help(), Help::Give { key: key.into() });
        }
    }
    Ok(())
}

/// A centre without its diameter, and the other way round, names the one that is missing.
#[test]
fn half_a_bore_by_hand_names_the_other_half() -> Tested {
    let half = [
        ("part.small_end.center_mm", "[5, -4, 7]", "part.small_end.diameter_mm"),
        ("part.big_end.diameter_mm", "24", "part.big_end.center_mm"),
        ("part.piston.center_mm", "[0, 0, 5]", "part.piston.diameter_mm"),
        ("part.piston.pin_diameter_mm", "10", "part.piston.pin_center_mm"),
    ];
    for (given, value, missing) in half {
        let mut job = Job::from_toml(&String::from_utf8(files::bytes("samples/bench_single.toml")?)?)?;
        job.set_key(given, Some(value))?;
        let mesh = files::bytes("samples/plain_rod.stl")?;
        let error = layload_core::load(&mesh, &job, &mut ()).err().ok_or("answered")?;
        assert_eq!((error.code(), error.key()), ("job-missing", Some(missing)), "{error}");
    }
    Ok(())
}
