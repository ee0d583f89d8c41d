use layload_core::report::Report;

use super::numbers::{duration, significant, whole};
use super::wrap::{paragraph, width};

/// One part in the table of several.
pub(crate) struct Row {
    /// Its file.
    pub(crate) name: String,
    /// Answer, life, margin, highest speed, what fails first; the answer alone where it was not checked.
    cells: [String; 5],
}

/// Titles of the cells.
const TITLES: [&str; 5] = ["answer", "life", "margin", "top rpm", "fails first by"];

impl Row {
    /// Of a part that was checked.
    pub(crate) fn of(name: &str, report: &Report) -> Self {
        let verdict = &report.verdict;
        let top = verdict.max_rpm.map_or_else(|| "none".into(), whole);
        let cells = [
            report.verdict.state.word().into(),
            duration(verdict.life_s),
            significant(verdict.margin),
            top,
            verdict.governing_mode.words().into(),
        ];
        Self { name: name.into(), cells }
    }

    /// Of a part that could not be checked.
    pub(crate) fn without_answer(name: &str) -> Self {
        let cells = ["NO ANSWER", "-", "-", "-", "-"].map(String::from);
        Self { name: name.into(), cells }
    }
}

/// A table with one line a part. Columns that do not fit are left out, the last but the name first; where none fit each part
/// is a paragraph.
pub(crate) fn totals(rows: &[Row]) -> String {
    let longest = |column: usize| {
        let cells = rows.iter().map(|row| row.cells[column].chars().count());
        cells.chain([TITLES[column].len()]).max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..TITLES.len()).map(longest).collect();
    let name = rows.iter().map(|row| row.name.chars().count()).max().unwrap_or(0).max("part".len());
    // The highest speed goes first, then what fails first.
    let choices: [&[usize]; 4] = [&[0, 1, 2, 3, 4], &[0, 1, 2, 4], &[0, 1, 2], &[0, 2]];
    let fits = |columns: &&&[usize]| columns.iter().map(|&column| widths[column] + 2).sum::<usize>() + name <= width();
    let mut text = String::new();
    let Some(columns) = choices.iter().find(fits) else {
        for row in rows {
            let cells: Vec<String> =
                TITLES.iter().zip(&row.cells).map(|(title, cell)| format!("{title} {cell}")).collect();
            paragraph(&mut text, "", "  ", &format!("{}: {}", row.name, cells.join(", ")));
        }
        return text;
    };
    let mut line = |cells: &dyn Fn(usize) -> String, name: &str| {
        let padded = columns.iter().map(|&column| {
            let (cell, width) = (cells(column), widths[column]);
            // Numbers end under each other.
            if (1..=3).contains(&column) { format!("{cell:>width$}  ") } else { format!("{cell:<width$}  ") }
        });
        text += &(padded.collect::<String>() + name);
        text.push('\n');
    };
    line(&|column| TITLES[column].into(), "part");
    for row in rows {
        line(&|column| row.cells[column].clone(), &row.name);
    }
    text
}
