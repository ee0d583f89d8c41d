use std::collections::BTreeMap;
use std::sync::Arc;

use layload_core::study::{InputKind, StudyPlan};
use parquet::data_type::{ByteArray, ByteArrayType, DoubleType, Int64Type};
use parquet::errors::ParquetError;
use parquet::file::properties::WriterProperties;
use parquet::file::writer::SerializedFileWriter;
use parquet::schema::parser::parse_message_type;

use super::table::{Row, header};
use crate::failure::Failure;

/// Columns after the inputs that hold words.
const WORDS: [&str; 3] = ["governing_mode", "governing_place", "error"];

/// The table of all cases as a Parquet file: numbers as doubles, words as text, what a case does not have absent.
pub(crate) fn parquet(plan: &StudyPlan, rows: &BTreeMap<usize, Row>) -> Result<Vec<u8>, Failure> {
    written(plan, rows).map_err(|error| Failure::Refused {
        message: format!("the Parquet table cannot be written: {error}"),
        help: "use the .csv table, which has the same numbers".into(),
    })
}

fn written(plan: &StudyPlan, rows: &BTreeMap<usize, Row>) -> Result<Vec<u8>, ParquetError> {
    let columns = header(plan.inputs.iter().map(|input| input.name));
    let is_word = |k: usize| {
        let input = k.checked_sub(1).and_then(|k| plan.inputs.get(k));
        input.map_or(WORDS.contains(&columns[k].as_str()), |input| input.name.kind() == InputKind::Word)
    };
    let of = |k: usize| match k {
        0 => "REQUIRED INT64",
        k if is_word(k) => "OPTIONAL BYTE_ARRAY",
        _ => "OPTIONAL DOUBLE",
    };
    let fields: Vec<String> = columns
        .iter()
        .enumerate()
        .map(|(k, name)| format!("{} {name}{};", of(k), if k > 0 && is_word(k) { " (UTF8)" } else { "" }))
        .collect();
    let schema = Arc::new(parse_message_type(&format!("message study {{ {} }}", fields.concat()))?);
    // The writer's own name and version would change the bytes with every upgrade of the crate.
    let properties = WriterProperties::builder().set_created_by("layload".into()).build();
    let mut writer = SerializedFileWriter::new(Vec::new(), schema, Arc::new(properties))?;
    let mut group = writer.next_row_group()?;
    let mut k = 0;
    while let Some(mut column) = group.next_column()? {
        let texts = || rows.values().map(|row| row.fields.get(k).map_or("", String::as_str));
        let present: Vec<i16> = texts().map(|text| i16::from(!text.is_empty())).collect();
        if k == 0 {
            let cases: Vec<i64> = rows.keys().map(|case| i64::try_from(*case).unwrap_or(i64::MAX)).collect();
            column.typed::<Int64Type>().write_batch(&cases, None, None)?;
        } else if is_word(k) {
            let words: Vec<ByteArray> = texts().filter(|text| !text.is_empty()).map(ByteArray::from).collect();
            column.typed::<ByteArrayType>().write_batch(&words, Some(&present), None)?;
        } else {
            let numbers: Vec<f64> =
                texts().filter(|text| !text.is_empty()).map(|text| text.parse().unwrap_or(f64::NAN)).collect();
            column.typed::<DoubleType>().write_batch(&numbers, Some(&present), None)?;
        }
        column.close()?;
        k += 1;
    }
    group.close()?;
    writer.into_inner()
}
