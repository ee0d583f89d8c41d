//! Single entries of a job, by their names in a job file.

use layload_core::job::{Job, JobError};

type Tested = Result<(), Box<dyn std::error::Error>>;

#[test]
fn entries_are_read_in_the_words_of_a_job_file() -> Tested {
    let job = Job::from_toml("title = \"Rod\"\n[engine]\nbore_mm = 34\n[part.big_end.ring]\nbearing = \"6204\"\n")?;
    assert_eq!(job.key("title")?.as_deref(), Some("\"Rod\""));
    assert_eq!(job.key("engine.bore_mm")?.as_deref(), Some("34.0"));
    assert_eq!(job.key("part.big_end.ring.bearing")?.as_deref(), Some("\"6204\""));
    let grooves = "[{ below_crown_mm = 3.0, depth_mm = 1.7, width_mm = 1.5 }]";
    let piston = Job::from_toml(&format!("[part.piston]\ncrown_direction = [0, 0, 1]\ngrooves = {grooves}\n"))?;
    assert_eq!(piston.key("part.piston.grooves")?.as_deref(), Some(grooves));
    assert_eq!(piston.key("part.piston.crown_direction")?.as_deref(), Some("[0.0, 0.0, 1.0]"));
    assert_eq!(piston.key("piston.layers")?, None);
    for silent in ["engine.stroke_mm", "part.small_end.ring.bearing", "engine.bore_mm.inside", "nothing"] {
        assert_eq!(job.key(silent)?, None, "{silent}");
    }
    Ok(())
}

#[test]
fn what_is_set_is_what_a_file_would_say() -> Tested {
    let mut job = Job::default();
    job.set_key("part.big_end.cap.studs", Some("2"))?;
    job.set_key("part.big_end.cap.torque_n_m", Some("1.5"))?;
    job.set_key("part.small_end.ring.rolling", Some("\"roller\""))?;
    job.set_key("duty.steps", Some("[{ rpm = 5000.0, throttle = 1.0, seconds = 60.0 }]"))?;
    let text = "[part.big_end.cap]\nstuds = 2\ntorque_n_m = 1.5\n[part.small_end.ring]\nrolling = \"roller\"\n\
                [[duty.steps]]\nrpm = 5000\nthrottle = 1\nseconds = 60\n";
    assert_eq!(job, Job::from_toml(text)?);
    Ok(())
}

#[test]
fn taking_out_the_last_entry_takes_out_its_table() -> Tested {
    let mut job = Job::from_toml("[part.big_end.cap]\ntorque_n_m = 1.5\n")?;
    job.set_key("part.big_end.cap.torque_n_m", None)?;
    assert_eq!(job, Job::default());
    job.set_key("part.big_end.cap.torque_n_m", None)?;
    job.set_key("never.heard.of", None)?;
    assert_eq!(job, Job::default());
    Ok(())
}

#[test]
fn what_jobs_cannot_hold_is_refused_and_changes_nothing() -> Tested {
    let mut job = Job::from_toml("[engine]\nbore_mm = 34\n")?;
    let before = job.clone();
    for (name, value, told) in [
        ("engine.bore", "34", "did you mean `bore_mm`?"),
        ("engine.bore_mm", "\"wide\"", "a number is wanted here, not the text \"wide\""),
        ("engine.bore_mm", "", "expected"),
        ("engine.bore_mm", "34\nengine.stroke_mm = 46", "one line"),
        ("engine.bore_mm.inside", "34", "a number is wanted here, not a table"),
        ("part.big_end.cap.studs", "2.5", "a whole number is wanted here, not the number 2.5"),
        ("engine.", "34", "key"),
        ("", "34", "key"),
    ] {
        let Err(error) = job.set_key(name, Some(value)) else { panic!("{name} = {value} was taken") };
        assert!(matches!(&error, JobError::Key { name: told, .. } if told == name), "{error:?}");
        assert!(error.to_string().contains(told), "{error} does not say {told}");
        assert_eq!(job, before);
    }
    Ok(())
}
