use layload_core::CaseResult;
use layload_core::study::{InputName, InputValue, Responses};

/// Columns after those of the inputs.
const ANSWERS: [&str; 9] = [
    "margin",
    "life_b10_s",
    "life_b50_s",
    "mass_g",
    "peak_temperature_c",
    "solved_margin",
    "governing_mode",
    "governing_place",
    "error",
];

/// One finished case, as its line of the table.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Row {
    pub(crate) case: usize,
    pub(crate) fields: Vec<String>,
}

/// Names of the columns.
pub(crate) fn header(inputs: impl Iterator<Item = InputName>) -> Vec<String> {
    let inputs = inputs.map(|input| input.word().to_string());
    core::iter::once("case".into()).chain(inputs).chain(ANSWERS.map(String::from)).collect()
}

/// The line of a case. Numbers are written with the fewest digits that read back as the same number, so that a line is the
/// same bytes wherever and whenever it is written.
pub(crate) fn row_of(result: &CaseResult) -> Row {
    let mut fields = vec![result.case.to_string()];
    fields.extend(input_fields(&result.inputs));
    match &result.outcome {
        Ok(found) => {
            let numbers = [found.margin, found.life_b10_s, found.life_b50_s, found.mass_g, found.peak_temperature_c];
            fields.extend(numbers.map(|number| number.to_string()));
            fields.push(found.solved_margin.map_or_else(String::new, |margin| margin.to_string()));
            fields.extend([found.governing_mode.clone(), found.governing_place.clone(), String::new()]);
        }
        Err(reason) => {
            fields.extend((0..8).map(|_| String::new()));
            fields.push(reason.replace('\n', " "));
        }
    }
    Row { case: result.case, fields }
}

/// Inputs of a case, as they stand in its line.
pub(crate) fn input_fields(inputs: &[InputValue]) -> Vec<String> {
    let field = |value: &InputValue| match value {
        InputValue::Number(number) => number.to_string(),
        InputValue::Word(word) => word.clone(),
    };
    inputs.iter().map(field).collect()
}

impl Row {
    /// What effects are worked out from; `None` of a case without an answer.
    pub(crate) fn responses(&self) -> Option<Responses> {
        let from = self.fields.len().checked_sub(ANSWERS.len())?;
        let number = |k: usize| self.fields.get(from + k)?.parse().ok();
        Some(Responses { margin: number(0)?, life_b10_s: number(1)?, mass_g: number(3)?, solved_margin: number(5) })
    }

    /// The bytes of its line.
    pub(crate) fn line(&self) -> Vec<u8> {
        lines(core::iter::once(&self.fields))
    }
}

/// Lines of a table.
pub(crate) fn lines<'a>(rows: impl Iterator<Item = &'a Vec<String>>) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for row in rows {
        // Writing into memory does not fail.
        let _ = writer.write_record(row);
    }
    writer.into_inner().unwrap_or_default()
}

/// Finished cases in the text of a journal; a last line without an end was being written when the power went, and is none.
pub(crate) fn rows_in(text: &[u8], columns: usize) -> Vec<Row> {
    let finished = text.iter().rposition(|&byte| byte == b'\n').map_or(0, |last| last + 1);
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(&text[..finished]);
    let records = reader.records().filter_map(Result::ok).filter(|record| record.len() == columns);
    records
        .filter_map(|record| {
            let case = record.get(0)?.parse().ok()?;
            Some(Row { case, fields: record.iter().map(String::from).collect() })
        })
        .collect()
}
