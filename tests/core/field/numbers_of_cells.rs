//! An answer is not a matter of the number of cells.

use layload_core::job::Job;
use layload_core::report::Report;
use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, Question, check_with};

use crate::mesh::files;

type Tested = Result<(), Box<dyn std::error::Error>>;

fn asked(mesh: &str, job: &str, cells: usize) -> Result<Report, Box<dyn std::error::Error>> {
    let job = Job::from_toml(std::str::from_utf8(&files::bytes(&format!("samples/{job}.toml"))?)?)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    let request = CheckRequest { facets: false, field: Some(FieldRequest { cells }) };
    Ok(check_with(&files::bytes(&format!("samples/{mesh}.stl"))?, &question, &request, &mut ())?.report)
}

/// Cells three times as many move a margin by less than a tenth: a peak seen with finer cells is held against the same place
/// of the coarse ones, not against one a sixth of a turn away under another history of load.
#[test]
fn three_times_as_many_cells_give_the_same_margin() -> Tested {
    for (mesh, job) in [
        ("plain_rod", "bench_single"),
        ("stout_rod", "bench_single"),
        ("bushed_rod", "bench_bushed"),
        ("flat_crown_piston", "bench_piston"),
    ] {
        let margins: Vec<f64> = [10_000, 17_000, 30_000]
            .into_iter()
            .map(|cells| Ok(asked(mesh, job, cells)?.verdict.margin))
            .collect::<Result<_, Box<dyn std::error::Error>>>()?;
        let (low, high) = margins.iter().fold((f64::INFINITY, 0.0_f64), |(l, h), &m| (l.min(m), h.max(m)));
        println!("{mesh}: {margins:.3?}");
        assert!(high <= 1.1 * low, "{mesh}: {margins:?}");
    }
    Ok(())
}

#[test]
fn few_cells_are_a_doubt() -> Tested {
    let told = |cells: usize| -> Result<bool, Box<dyn std::error::Error>> {
        let report = asked("plain_rod", "bench_single", cells)?;
        Ok(report.verdict.unchecked.iter().any(|doubt| doubt.contains("cells, which may be far off")))
    };
    assert!(told(2_000)? && !told(10_000)?);
    Ok(())
}
