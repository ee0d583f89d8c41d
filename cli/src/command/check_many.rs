use super::check::checked;
use crate::answer::Checked;
use crate::args::CheckArguments;
use crate::color::ColorChoice;
use crate::failure::Failure;
use crate::outcome::Outcome;
use crate::output::{print_json_line, print_text};
use crate::text;
use crate::visible::shown;

/// Checks several parts by one job: a table, or a report a line as JSON. A part that gives no answer keeps back none of the
/// others.
pub(crate) fn run(arguments: &CheckArguments, color: ColorChoice) -> Result<Outcome, Failure> {
    if arguments.record.wanted() || arguments.paint.wanted() {
        return Err(Failure::Refused {
            message: "files are written of one mesh at a time".into(),
            help: "give one mesh, or leave out --report, --svg, --csv, --mesh-out and --legend-out".into(),
        });
    }
    let mut rows = Vec::new();
    let mut worst = Outcome::Good;
    for mesh in &arguments.meshes {
        let name = shown(mesh);
        let outcome = match checked(arguments, mesh, color) {
            Ok((answer, _)) => {
                told(arguments, &name, &answer)?;
                rows.push(text::Row::of(&name, &answer.report));
                Outcome::from(answer.report.verdict.state)
            }
            Err(failure) => {
                failure.tell();
                if arguments.json {
                    print_json_line(&serde_json::json!({ "mesh": name, "error": failure.to_string() }))?;
                }
                rows.push(text::Row::without_answer(&name));
                Outcome::NoAnswer
            }
        };
        worst = worst.max(outcome);
    }
    if !arguments.json {
        let mut table = text::totals(&rows);
        text::safety(&mut table);
        print_text(&table)?;
    }
    Ok(worst)
}

/// The answer of one of several: a line of JSON, or the sections that are asked for under its name.
fn told(arguments: &CheckArguments, name: &str, answer: &Checked) -> Result<(), Failure> {
    if arguments.json {
        return print_json_line(&answer.report);
    }
    if arguments.show.more() {
        print_text(&format!("{name}\n{}\n", text::report(&answer.report, arguments.show)))?;
    }
    Ok(())
}
