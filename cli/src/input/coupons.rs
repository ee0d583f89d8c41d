use std::path::Path;

use layload_core::coupon::CouponRow;
use layload_core::meant;

use super::file::text;
use super::wanted::Wanted;
use crate::failure::Failure;
use crate::visible::{shown, visible_line};

/// Columns that a table of tests may have.
const COLUMNS: [&str; 14] = [
    "specimen",
    "test",
    "direction",
    "temperature_c",
    "strength_mpa",
    "modulus_mpa",
    "stress_mpa",
    "stress_ratio",
    "cycles",
    "time_s",
    "creep_strain",
    "outcome",
    "date",
    "note",
];

/// Rows of a table of tests; lines that begin with `#` are remarks.
pub(crate) fn coupon_rows(path: &Path) -> Result<Vec<CouponRow>, Failure> {
    let text = text(path, Wanted::Coupons)?;
    let heading = text.lines().map(str::trim).find(|line| !line.is_empty() && !line.starts_with('#')).unwrap_or("");
    let refused = |what: String, help: String| Failure::Refused {
        message: format!("{} is no table of tests: {what}", shown(path)),
        help,
    };
    for (sign, name) in [(';', "semicolons"), ('\t', "tabs")] {
        if heading.contains(sign) {
            let help = "save it with commas between the columns and a point in every number, as samples/coupons.csv";
            return Err(refused(format!("its columns are parted by {name}, not by commas"), help.into()));
        }
    }
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).trim(csv::Trim::All).from_reader(text.as_bytes());
    if let Ok(names) = reader.headers()
        && let Some(unknown) = names.iter().find(|name| !COLUMNS.contains(name))
    {
        let help = match meant(unknown, COLUMNS) {
            Some(name) => format!("did you mean {name}? samples/coupons.csv shows the columns"),
            None => format!("columns are {}", COLUMNS.join(", ")),
        };
        return Err(refused(format!("it has no column `{}`", visible_line(unknown)), help));
    }
    let read: Result<Vec<CouponRow>, csv::Error> = reader.deserialize().collect();
    read.map_err(|error| match error.kind() {
        csv::ErrorKind::UnequalLengths { pos, expected_len, len } => {
            let line = pos.as_ref().map_or(0, csv::Position::line);
            let comma = if len > expected_len { "; a decimal comma makes two columns of one number" } else { "" };
            refused(
                format!("line {line} has {len} columns where the heading has {expected_len}"),
                format!("write numbers with a point and leave empty columns empty{comma}"),
            )
        }
        _ => refused(
            visible_line(&error.to_string()).into_owned(),
            "see samples/coupons.csv for the columns; numbers have a point, empty columns are allowed".into(),
        ),
    })
}
