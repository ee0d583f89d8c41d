use std::collections::BTreeMap;

use layload_core::material::{Card, Value};

use super::numbers::significant;
use super::wrap::paragraph;

/// The evidence base as it stands beside the cards.
const EVIDENCE: [&str; 7] = [
    include_str!("../../../core/src/material/evidence/static.csv"),
    include_str!("../../../core/src/material/evidence/fatigue.csv"),
    include_str!("../../../core/src/material/evidence/creep_rupture.csv"),
    include_str!("../../../core/src/material/evidence/temperature_moisture.csv"),
    include_str!("../../../core/src/material/evidence/data_sheets.csv"),
    include_str!("../../../core/src/material/evidence/holes_notches.csv"),
    include_str!("../../../core/src/material/evidence/weld.csv"),
];

/// Every value of a card with the rows of the evidence base behind it.
pub(crate) fn grounds(card: &Card) -> String {
    let rows = rows();
    let mut text = format!("{}: {}\n", card.name, card.family);
    card.clone().visit_values(|input, value| {
        let unit = if input.unit == "1" { String::new() } else { format!(" {}", input.unit) };
        text.push('\n');
        let title = format!("{}: {}{unit}, {}", input.name, significant(value.value), founded(value));
        paragraph(&mut text, "", "  ", &title);
        if let Some(behind) = &value.behind {
            paragraph(&mut text, "  ", "  ", &format!("{}.", behind.told()));
            for id in behind.rows.iter().chain(&behind.sheets) {
                paragraph(
                    &mut text,
                    &format!("  {id}  "),
                    "         ",
                    rows.get(id.as_str()).map_or("not found", |row| row),
                );
            }
        }
        if let Some(note) = &value.note {
            paragraph(&mut text, "  ", "  ", note);
        }
    });
    text
}

/// Source, spread and what of it rests on memory.
fn founded(value: &Value) -> String {
    format!(
        "{}, spread {:.0} %, of that {:.0} % by memory",
        value.source.word(),
        100.0 * value.relative_spread(),
        100.0 * value.memory_share()
    )
}

/// What each row says, in words, by its name.
fn rows() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for text in EVIDENCE {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let Ok(headers) = reader.headers().cloned() else { continue };
        for record in reader.records().flatten() {
            let cell = |name: &str| {
                let place = headers.iter().position(|known| known == name);
                place.and_then(|place| record.get(place)).unwrap_or_default()
            };
            found.insert(cell("id").to_string(), told(&cell));
        }
    }
    found
}

/// One row: the number, what was tested, where it stands and how it was read.
fn told<'a>(cell: &impl Fn(&str) -> &'a str) -> String {
    let unit = if cell("unit") == "1" { "" } else { cell("unit") };
    let number = format!("{} {} {unit}", cell("property").replace('_', " "), cell("value"));
    let tests = match cell("n") {
        "" => String::new(),
        count => format!("n = {count}"),
    };
    let warm = match cell("temp_c") {
        "" | "23" => String::new(),
        celsius => format!("{celsius} °C"),
    };
    let doi = cell("doi");
    let cited = match doi.strip_prefix("cite:") {
        Some(words) => words.to_string(),
        None if doi.starts_with("10.") => format!("doi:{doi}"),
        None => doi.to_string(),
    };
    let parts = [number, cell("direction").into(), warm, tests, cited, cell("place").into(), cell("how_read").into()];
    let said: Vec<&str> = parts.iter().map(|part| part.trim()).filter(|part| !part.is_empty()).collect();
    format!("{}.", said.join("; "))
}
