//! The evidence base holds to its own rules: words from closed lists, values in sane ranges, a citation on every row, and
//! the counts its page states.

use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

const HEADER: &str = "id,doi,source,place,how_read,licence,polymer,fibre,fibre_share_pct,process,nozzle_c,chamber_c,bed_c,\
layer_time_s,layer_mm,speed_mm_s,direction,walls,infill_pct,porosity_pct,anneal,moisture,test,R,freq_hz,temp_c,kind,n,\
property,value,sd,unit,cycles_or_hours,remark";

const FILES: [(&str, &str); 10] = [
    ("static", "st"),
    ("fatigue", "fa"),
    ("holes_notches", "hn"),
    ("creep_rupture", "cr"),
    ("temperature_moisture", "tm"),
    ("weld", "we"),
    ("thermal", "th"),
    ("sliding", "sl"),
    ("data_sheets", "ds"),
    ("engine_spread", "en"),
];

/// Column and its words; a cell is one of them.
const WORDS: [(&str, &str); 8] = [
    ("how_read", "table abstract text second-hand"),
    ("licence", "cc-by-4.0 cc-by-nc-nd-4.0 bsd-3-clause public-domain publisher unknown"),
    ("kind", "mean specimen line run-out bound"),
    ("process", "extruded laser-sintered moulded filament pellet engine"),
    ("fibre", " none carbon glass"),
    ("polymer", " PLA PETG ABS ASA PC PC-ABS PA PA6 PA6-66 PA66 PA12 PAHT PPA PPS PEI PEI-blend PEEK PET unknown"),
    (
        "direction",
        " bead across lines lines30 lines45 lines60 lines0-90 off-axis45 quasi-isotropic layer edge wall bulk",
    ),
    (
        "test",
        "tension compression flexure shear section dma dsc density dilatometer hot-plate soaking sliding cylinder-pressure \
         fatigue-axial fatigue-bending fatigue-notched creep-tension creep-bending creep-shift relaxation \
         fracture-1 fracture-2 fracture-3 tear-3 open-hole notched pin-bearing",
    ),
];

/// Property, unit, least and greatest sane value. Bounds are an order beyond what solid plastics show, to catch a slipped unit.
const PROPERTIES: [(&str, &str, f64, f64); 40] = [
    ("strength", "MPa", 1.0, 300.0),
    ("yield", "MPa", 5.0, 200.0),
    ("shear_strength", "MPa", 2.0, 100.0),
    ("modulus", "MPa", 300.0, 30_000.0),
    ("shear_modulus", "MPa", 100.0, 5000.0),
    ("poisson_ratio", "1", 0.1, 0.5),
    ("strength_ratio", "1", 0.05, 3.0),
    ("modulus_ratio", "1", 0.05, 3.0),
    ("rate_ratio", "1", 0.8, 3.0),
    ("kept_share", "1", 0.05, 1.2),
    ("energy_ratio", "1", 0.1, 20.0),
    ("contact_share", "1", 0.1, 1.0),
    ("porosity", "pct", 0.0, 60.0),
    ("stress_max", "MPa", 0.3, 150.0),
    ("stress_range", "MPa", 0.3, 150.0),
    ("stress_max_share", "1", 0.01, 1.0),
    ("sn_slope", "1", 1.5, 40.0),
    ("self_heating", "K", 0.0, 150.0),
    ("creep_share", "1", 0.0, 5.0),
    ("relaxed_share", "1", 0.0, 1.0),
    ("creep_modulus", "MPa", 50.0, 20_000.0),
    ("rupture_stress", "MPa", 1.0, 150.0),
    ("fracture_energy", "J/m2", 10.0, 50_000.0),
    ("tear_energy", "J/m2", 10.0, 100_000.0),
    ("fracture_toughness", "MPa m^0.5", 0.1, 20.0),
    ("water_uptake", "pct", 0.0, 12.0),
    ("glass_transition", "degC", -20.0, 250.0),
    ("density", "kg/m3", 850.0, 2000.0),
    ("conductivity", "W/(m K)", 0.03, 10.0),
    ("specific_heat", "J/(kg K)", 500.0, 3000.0),
    ("expansion", "1/K", 1e-6, 5e-4),
    ("activation_energy", "kJ/mol", 20.0, 500.0),
    ("friction", "1", 0.02, 1.5),
    ("wear_depth_rate", "um/km", 0.0, 1e4),
    ("wear_rate", "mm3/(N m)", 1e-9, 1.0),
    ("pressure_velocity", "MPa m/s", 0.001, 50.0),
    ("cov_imep", "pct", 0.1, 60.0),
    ("cylinder_imbalance", "pct", 0.1, 60.0),
    ("misfire_share", "1", 0.0, 1.0),
    ("cycles_between_misfires", "cycles", 0.0, 1e6),
];

/// Column, least and greatest value where a number stands.
const NUMBERS: [(&str, f64, f64); 14] = [
    ("fibre_share_pct", 1.0, 60.0),
    ("nozzle_c", 170.0, 450.0),
    ("chamber_c", 15.0, 250.0),
    ("bed_c", 20.0, 250.0),
    ("layer_time_s", 0.5, 3600.0),
    ("layer_mm", 0.04, 3.0),
    ("speed_mm_s", 0.5, 1000.0),
    ("walls", 0.0, 50.0),
    ("infill_pct", 1.0, 100.0),
    ("porosity_pct", 0.0, 60.0),
    ("R", -5.0, 0.95),
    ("freq_hz", 0.01, 1000.0),
    ("temp_c", -60.0, 300.0),
    ("cycles_or_hours", 1e-3, 1e9),
];

type Row = BTreeMap<String, String>;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src/material/evidence")
}

fn read(file: &str) -> (String, Vec<Row>) {
    let path = folder().join(format!("{file}.csv"));
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let header = reader.headers().expect("header").clone();
    let rows = reader.records().map(|record| {
        let record = record.unwrap_or_else(|error| panic!("{file}: {error}"));
        header.iter().zip(record.iter()).map(|(name, cell)| (name.to_owned(), cell.to_owned())).collect()
    });
    let rows = rows.collect();
    (header.iter().collect::<Vec<_>>().join(","), rows)
}

fn all() -> Vec<(&'static str, Vec<Row>)> {
    FILES.iter().map(|(file, _)| (*file, read(file).1)).collect()
}

fn number(row: &Row, column: &str) -> Option<f64> {
    let cell = &row[column];
    let value = || cell.parse::<f64>().unwrap_or_else(|_| panic!("{}: {column} is no number: {cell}", row["id"]));
    (!cell.is_empty()).then(value)
}

/// A DOI, an arXiv or PMC number, or a citation in words long enough to find the work.
fn is_citation(text: &str) -> bool {
    let digits = |part: &str, least| part.len() >= least && part.bytes().all(|byte| byte.is_ascii_digit());
    if let Some(words) = text.strip_prefix("cite:") {
        return words.len() >= 20 && words.trim() == words;
    }
    if let Some(paper) = text.strip_prefix("arXiv:") {
        return paper.split_once('.').is_some_and(|(month, count)| digits(month, 4) && digits(count, 4));
    }
    if let Some(count) = text.strip_prefix("PMC") {
        return digits(count, 6);
    }
    is_doi(text)
}

fn is_doi(text: &str) -> bool {
    let Some((prefix, suffix)) = text.strip_prefix("10.").and_then(|rest| rest.split_once('/')) else { return false };
    (4..=9).contains(&prefix.len())
        && prefix.bytes().all(|byte| byte.is_ascii_digit())
        && suffix.len() >= 3
        && !suffix.bytes().any(|byte| byte.is_ascii_whitespace() || byte == b',')
}

#[test]
fn every_file_has_the_header_and_no_other_file_lies_beside_them() {
    for (file, _) in FILES {
        assert_eq!(read(file).0, HEADER, "{file}");
    }
    let found: BTreeSet<String> = std::fs::read_dir(folder())
        .expect("folder")
        .map(|entry| entry.expect("entry").file_name().into_string().expect("plain name"))
        .collect();
    let mut wanted: BTreeSet<String> = FILES.iter().map(|(file, _)| format!("{file}.csv")).collect();
    wanted.extend(["README.md".to_owned(), "unopened.csv".to_owned()]);
    assert_eq!(found, wanted);
}

#[test]
fn identifiers_are_unique_and_name_their_file() {
    let mut seen = BTreeSet::new();
    for (file, prefix) in FILES {
        for row in read(file).1 {
            let id = row["id"].clone();
            let count = id.strip_prefix(prefix).unwrap_or_else(|| panic!("{file}: {id}"));
            assert!(count.len() >= 3 && count.bytes().all(|byte| byte.is_ascii_digit()), "{id}");
            assert!(seen.insert(id.clone()), "twice: {id}");
        }
    }
}

#[test]
fn words_come_from_closed_lists() {
    for (_, rows) in all() {
        for row in rows {
            for (column, words) in WORDS {
                let cell = row[column].as_str();
                let empty_is_fine = words.starts_with(' ') && cell.is_empty();
                let known = !cell.is_empty() && words.split_whitespace().any(|word| word == cell);
                assert!(empty_is_fine || known, "{}: {column} {cell}", row["id"]);
            }
            let engine = row["process"] == "engine";
            assert_eq!(row["polymer"].is_empty(), engine, "{}: a polymer unless it is an engine", row["id"]);
            assert!(row["fibre_share_pct"].is_empty() || row["fibre"] != "none", "{}: a share of no fibre", row["id"]);
        }
    }
}

#[test]
fn values_carry_the_unit_of_their_property_and_lie_in_sane_ranges() {
    for (_, rows) in all() {
        for row in rows {
            let id = &row["id"];
            let property = PROPERTIES.iter().find(|(name, ..)| *name == row["property"]);
            let (_, unit, least, most) = property.unwrap_or_else(|| panic!("{id}: property {}", row["property"]));
            assert_eq!(row["unit"], *unit, "{id}");
            let value = number(&row, "value").unwrap_or_else(|| panic!("{id}: no value"));
            assert!((*least..=*most).contains(&value), "{id}: {value} {unit}");
            if let Some(spread) = number(&row, "sd") {
                assert!(spread >= 0.0 && spread < value.abs(), "{id}: spread {spread} of {value}");
            }
            if let Some(count) = number(&row, "n") {
                assert!(count >= 1.0 && count.fract() == 0.0, "{id}: {count} specimens");
            }
            for (column, least, most) in NUMBERS {
                let cell = number(&row, column);
                assert!(cell.is_none_or(|cell| (least..=most).contains(&cell)), "{id}: {column} {cell:?}");
            }
        }
    }
}

#[test]
fn a_row_says_what_its_use_needs() {
    for (file, rows) in all() {
        for row in rows {
            let id = &row["id"];
            let property = row["property"].as_str();
            if ["strength", "modulus", "shear_strength", "fracture_energy"].contains(&property) {
                assert!(!row["direction"].is_empty() && !row["temp_c"].is_empty(), "{id}: direction and temperature");
            }
            if property.starts_with("stress_") && file == "fatigue" {
                let open = row["remark"].contains("not in the abstract");
                assert!(open || !row["cycles_or_hours"].is_empty(), "{id}: a stress without its life");
            }
            if property == "rupture_stress" || row["kind"] == "run-out" {
                assert!(!row["cycles_or_hours"].is_empty(), "{id}: how long it held");
            }
            if property.ends_with("_ratio") && property != "poisson_ratio" || property == "kept_share" {
                let says = row["remark"].contains(" over ") || !row["remark"].is_empty() && !row["moisture"].is_empty();
                assert!(says || row["remark"].contains("hotter"), "{id}: a ratio of what");
            }
        }
    }
}

#[test]
fn every_source_is_cited_and_says_how_it_was_read() {
    let page = std::fs::read_to_string(folder().join("README.md")).expect("page");
    let mut licences: BTreeMap<String, String> = BTreeMap::new();
    for (_, rows) in all() {
        for row in rows {
            let id = &row["id"];
            assert!(is_citation(&row["doi"]), "{id}: {}", row["doi"]);
            assert!(!row["source"].is_empty() && !row["place"].is_empty(), "{id}: source and place");
            let licence = licences.entry(row["doi"].clone()).or_insert_with(|| row["licence"].clone());
            assert_eq!(*licence, row["licence"], "{id}: one source, one licence");
            let place = &row["place"];
            if row["how_read"] == "second-hand" {
                assert!(place.contains("quot") || place.contains("note N"), "{id}: second-hand of whom");
            }
            let notes = place
                .split([' ', ','])
                .filter(|word| word.starts_with('N') && word.as_bytes().get(1).is_some_and(u8::is_ascii_digit));
            for note in notes {
                assert!(page.contains(&format!("| {note} |")), "{id}: {note} is not on the page");
            }
        }
    }
}

#[test]
fn unopened_papers_are_not_among_the_rows() {
    let (header, unopened) = read("unopened");
    assert_eq!(header, "doi,title,polymer,promises,seen");
    let used: BTreeSet<String> =
        all().into_iter().flat_map(|(_, rows)| rows).map(|row| row["doi"].to_lowercase()).collect();
    let mut seen = BTreeSet::new();
    for row in &unopened {
        assert!(is_doi(&row["doi"]), "{}", row["doi"]);
        assert!(row.values().all(|cell| !cell.is_empty()), "{}", row["doi"]);
        assert!(seen.insert(row["doi"].to_lowercase()), "twice: {}", row["doi"]);
        assert!(!used.contains(&row["doi"].to_lowercase()), "its numbers stand in the rows: {}", row["doi"]);
    }
    let promises = |word: &str| unopened.iter().filter(|row| row["promises"].contains(word)).count();
    assert!(
        promises("fatigue") + promises("interlayer") >= 8,
        "too few papers left for predictions made before looking"
    );
}

#[test]
fn the_page_states_the_counts_of_the_files() {
    let page = std::fs::read_to_string(folder().join("README.md")).expect("page");
    let sources = |rows: &[Row]| rows.iter().map(|row| row["doi"].clone()).collect::<BTreeSet<_>>();
    let (mut count, mut second_hand, mut papers, mut paper_rows) = (0, 0, BTreeSet::new(), 0);
    let mut everything = BTreeSet::new();
    for (file, rows) in all() {
        let cited = sources(&rows);
        let line = format!("| `{file}.csv` | {} | {} |", rows.len(), cited.len());
        assert!(page.contains(&line), "the page lacks: {line}");
        count += rows.len();
        second_hand += rows.iter().filter(|row| row["how_read"] == "second-hand").count();
        everything.extend(cited.iter().cloned());
        if file != "data_sheets" {
            paper_rows += rows.len();
            papers.extend(cited);
        }
    }
    let unopened = read("unopened").1.len();
    assert!(page.contains(&format!("| `unopened.csv` | {unopened} | {unopened} |")));
    let sum = format!(
        "All files: {count} rows from {} sources; without data sheets {paper_rows} rows from {} sources. {} rows were read in the \
         source itself, {second_hand} are second-hand.",
        everything.len(),
        papers.len(),
        count - second_hand
    );
    assert!(page.contains(&sum), "the page lacks: {sum}");
}

#[test]
fn the_check_of_a_citation_can_fail() {
    for good in [
        "10.3390/polym16131868",
        "10.1002/pc.71040",
        "arXiv:2302.11240",
        "PMC6119930",
        "cite:Procedia Struct. Integrity 76",
    ] {
        assert!(is_citation(good), "{good}");
    }
    for bad in
        ["", "10.3390", "10.33/ab", "10.3390/with space", "doi:10.3390/polym1", "PMC12a456", "arXiv:23.1", "cite:short"]
    {
        assert!(!is_citation(bad), "{bad}");
    }
}
