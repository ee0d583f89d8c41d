//! The record of a check as files: one page, drawings and tables, all from one result.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use serde_json::Value;

use super::Tested;
use super::html::{Element, Page};
use super::run::{Said, file, folder, layload};

const ROD: [&str; 2] = ["samples/thin_web_rod.stl", "samples/bench_single.toml"];
const BEARINGS: [&str; 2] = ["samples/bearing_rod.stl", "samples/bench_bearings.toml"];
const PISTON: [&str; 2] = ["samples/plate_crown_piston.stl", "samples/bench_piston_plate.toml"];

/// Most bytes of a page: what a mail or a phone takes without a thought.
const MOST_BYTES: usize = 1_500_000;

fn text_of(path: &Path) -> String {
    path.display().to_string()
}

fn checked([mesh, job]: [&str; 2], options: &[&str]) -> std::io::Result<Said> {
    layload(&[&["check", "--quick", mesh, "--job", job], options].concat())
}

/// The page and the JSON of one run.
fn page(of: [&str; 2], name: &str, more: &[&str]) -> Result<(String, Value), Box<dyn std::error::Error>> {
    let path = text_of(&folder(name)?.join("page.html"));
    let said = checked(of, &[&["--json", "--report", &path], more].concat())?;
    assert_eq!(said.err, "");
    Ok((fs::read_to_string(&path)?, serde_json::from_str(&said.out)?))
}

/// Whether a number as shown is the value, rounded to its last digit; a share may be shown in per cent.
fn shows(shown: &str, value: f64) -> Option<bool> {
    let plain: String = shown.chars().filter(|letter| *letter != ' ').collect();
    let number: f64 = plain.trim_start_matches('x').parse().ok()?;
    let mantissa = plain.split(['e', 'E']).next().unwrap_or_default();
    let digits = mantissa.split('.').nth(1).map_or(0, str::len);
    let power: i32 = plain.split(['e', 'E']).nth(1).and_then(|power| power.parse().ok()).unwrap_or(0);
    // Large numbers are rounded to three digits.
    let whole = mantissa.trim_start_matches('-').split('.').next().map_or(0, str::len);
    let step = 10_f64.powi(power - i32::try_from(digits).ok()?);
    let step = if digits == 0 && whole > 3 { step.max(10_f64.powi(i32::try_from(whole).ok()? - 3)) } else { step };
    Some([1.0, 100.0].iter().any(|scale| (number - scale * value).abs() <= 0.500_001 * step))
}

#[test]
fn numbers_of_the_page_are_those_of_the_json() -> Tested {
    for (of, name, least) in
        [(ROD, "read_back_rod", 250), (BEARINGS, "read_back_rings", 250), (PISTON, "read_back_piston", 250)]
    {
        let (text, json) = page(of, name, &[])?;
        let html = Page::parsed(&text);
        let numbers: Vec<_> = html.with("data-of").into_iter().filter(|element| element.name == "data").collect();
        let mut compared = 0;
        for element in &numbers {
            let pointer = element.attribute("data-of").ok_or("no pointer")?;
            let value: f64 = element.attribute("value").ok_or("no value")?.parse()?;
            let meant = json.pointer(pointer).and_then(Value::as_f64).ok_or_else(|| format!("no {pointer}"))?;
            assert_eq!(value, meant, "{pointer}");
            let shown = element.words();
            if let Some(right) = shows(&shown, value) {
                assert!(right, "{pointer}: {value} is shown as {shown}");
                compared += 1;
            }
        }
        assert!(numbers.len() >= least, "{name}: only {} numbers", numbers.len());
        // What is left are durations with their unit.
        assert!(10 * compared >= 8 * numbers.len(), "{name}: only {compared} of {} compared", numbers.len());
    }
    Ok(())
}

#[test]
fn the_page_needs_nothing_else() -> Tested {
    for (of, name) in [(ROD, "alone_rod"), (PISTON, "alone_piston")] {
        let (text, _) = page(of, name, &[])?;
        assert!(text.len() <= MOST_BYTES, "{} bytes", text.len());
        let html = Page::parsed(&text);
        assert!(
            html.named(&["script", "link", "img", "iframe", "object", "embed", "audio", "video", "form"]).is_empty()
        );
        for word in ["url(", "@import", "javascript:"] {
            assert!(!text.contains(word), "{word}");
        }
        for link in html.with("href") {
            let to = link.attribute("href").unwrap_or_default();
            assert!(to.starts_with('#'), "{to} leads away");
        }
    }
    Ok(())
}

#[test]
fn links_lead_somewhere_and_names_are_unique() -> Tested {
    for (of, name) in [(ROD, "links_rod"), (BEARINGS, "links_rings"), (PISTON, "links_piston")] {
        let (text, _) = page(of, name, &[])?;
        let html = Page::parsed(&text);
        let names: Vec<&str> = html.with("id").into_iter().filter_map(|element| element.attribute("id")).collect();
        let known: BTreeSet<&str> = names.iter().copied().collect();
        assert_eq!(known.len(), names.len(), "a name is used twice");
        let links = html.with("href");
        assert!(links.len() > 20, "only {} links", links.len());
        for link in links {
            let to = link.attribute("href").unwrap_or_default().trim_start_matches('#');
            assert!(known.contains(to), "{name}: nothing is called {to}");
        }
        // Every numbered place is in the drawing and in a table.
        let tags = html.inside("svg").into_iter().filter(|element| element.name == "a").count();
        assert!(tags >= 4, "only {tags} places are marked");
    }
    Ok(())
}

#[test]
fn every_picture_is_told_in_words() -> Tested {
    let (text, _) = page(PISTON, "told_piston", &[])?;
    let html = Page::parsed(&text);
    let pictures = html.named(&["svg"]);
    assert!(pictures.len() >= 5, "{}", pictures.len());
    for picture in pictures {
        assert!(matches!(picture.attribute("role"), Some("img" | "group")));
        let described = html.named(&["desc"]).into_iter();
        let mut own = described.filter(|desc| html.round(desc).is_some_and(|round| std::ptr::eq(round, picture)));
        let told = own.next().map(Element::words);
        assert!(told.as_ref().is_some_and(|told| told.len() > 60), "{told:?}");
    }
    Ok(())
}

/// The order of what is read; numbers are left to other tests. `INSTA_UPDATE=always cargo test` renews it.
fn structure(text: &str) -> String {
    let html = Page::parsed(text);
    let mut lines = Vec::new();
    for element in html.named(&["h1", "h2", "h3", "figcaption", "caption", "th", "section"]) {
        let name = element.name.as_str();
        if name == "th" && !html.is_within(element, |outer| outer.name == "thead") {
            continue;
        }
        let line = match name {
            "section" => format!("section {}", element.attribute("id").unwrap_or_default()),
            _ => format!("  {name}: {}", without_numbers(&element.words())),
        };
        lines.push(line);
    }
    lines.join("\n")
}

/// Every number as 0, so that better physics does not change a test of form.
fn without_numbers(text: &str) -> String {
    let mut out = String::new();
    for letter in text.chars() {
        let number = letter.is_ascii_digit() || (letter == '.' && out.ends_with('0'));
        match number {
            true if out.ends_with('0') => {}
            true => out.push('0'),
            false => out.push(letter),
        }
    }
    out
}

#[test]
fn the_answer_comes_first_and_the_inputs_last() -> Tested {
    let (rod, _) = page(ROD, "structure_rod", &[])?;
    insta::assert_snapshot!("page_of_a_rod", structure(&rod));
    let (piston, _) = page(PISTON, "structure_piston", &[])?;
    insta::assert_snapshot!("page_of_a_piston", structure(&piston));
    Ok(())
}

#[test]
fn drawings_keep_their_form() -> Tested {
    let drawings = folder("drawings")?;
    assert_eq!(checked(ROD, &["--svg", &text_of(&drawings)])?.err, "");
    let mut names: Vec<String> = fs::read_dir(&drawings)?
        .map(|entry| Ok(entry?.file_name().to_string_lossy().into_owned()))
        .collect::<std::io::Result<_>>()?;
    names.sort_unstable();
    let mut form = Vec::new();
    for name in names {
        let svg = fs::read_to_string(drawings.join(&name))?;
        let html = Page::parsed(&svg);
        let told: Vec<String> = html.named(&["text"]).iter().map(|text| without_numbers(&text.words())).collect();
        let marks: BTreeSet<String> = html
            .inside("svg")
            .iter()
            .map(|mark| format!("{}.{}", mark.name, mark.attribute("class").unwrap_or("-")))
            .collect();
        form.push(format!("{name}\n  {}\n  {}", Vec::from_iter(marks).join(" "), told.join(" | ")));
    }
    insta::assert_snapshot!("drawings_of_a_rod", form.join("\n"));
    Ok(())
}

#[test]
fn text_keeps_its_form() -> Tested {
    for (of, name) in [(ROD, "text_of_a_rod"), (PISTON, "text_of_a_piston")] {
        insta::assert_snapshot!(name, without_numbers(&checked(of, &["--all"])?.out));
    }
    Ok(())
}

#[test]
fn tables_are_those_of_the_json() -> Tested {
    let tables = folder("tables")?;
    let said = checked(ROD, &["--json", "--csv", &text_of(&tables)])?;
    let json: Value = serde_json::from_str(&said.out)?;
    for (name, rows) in [("stations.csv", &json["stations"]), ("crank.csv", &json["crank"]["moments"])] {
        let mut table = csv::Reader::from_path(tables.join(name))?;
        let head = table.headers()?.clone();
        let rows = rows.as_array().ok_or("no rows")?;
        let mut count = 0;
        for (line, row) in table.records().zip(rows) {
            let line = line?;
            for (key, cell) in head.iter().zip(&line) {
                let value = row.get(key).and_then(Value::as_f64);
                assert_eq!(cell.parse::<f64>().ok(), value, "{name} {key}");
            }
            count += 1;
        }
        assert_eq!(count, rows.len(), "{name}");
        assert!(count > 100, "{name}: {count} rows");
    }
    Ok(())
}

/// The crank table ends where the forces of the stations do: its extremes are theirs, but for what lies between two rows.
#[test]
fn the_crank_table_fits_the_stations() -> Tested {
    let said = checked(["samples/plain_rod.stl", "samples/bench_single.toml"], &["--json", "--rpm", "5000"])?;
    let json: Value = serde_json::from_str(&said.out)?;
    let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
    let at = number(&json["crank"]["axial_position_mm"]);
    let stations = json["stations"].as_array().ok_or("no stations")?;
    let station = stations.iter().find(|s| number(&s["position_mm"]) == at).ok_or("no such station")?;
    let moments = json["crank"]["moments"].as_array().ok_or("no moments")?;
    let forces: Vec<f64> = moments.iter().map(|m| number(&m["axial_force_n"])).collect();
    let (low, high) = forces.iter().fold((f64::MAX, f64::MIN), |(l, h), f| (l.min(*f), h.max(*f)));
    let (least, most) = (number(&station["axial_force_min_n"]), number(&station["axial_force_max_n"]));
    // Rows are four degrees apart, in which the smooth forces change little near their extremes.
    assert!((low - least).abs() < 0.02 * least.abs() && low >= least, "{low} {least}");
    assert!((high - most).abs() < 0.02 * most.abs() && high <= most, "{high} {most}");
    assert!((moments.len() as f64 - 180.0).abs() < 1.0);
    Ok(())
}

#[test]
fn files_are_not_overwritten_and_come_whole_or_not_at_all() -> Tested {
    let place = folder("whole_or_none")?;
    let (html, svg, csv) = (place.join("page.html"), place.join("svg"), place.join("csv"));
    let options = ["--report", &text_of(&html), "--svg", &text_of(&svg), "--csv", &text_of(&csv)];
    fs::create_dir_all(&csv)?;
    fs::write(csv.join("crank.csv"), "mine")?;
    let said = checked(ROD, &options)?;
    assert_eq!((said.code, said.out.as_str()), (Some(2), ""));
    assert!(said.complains("crank.csv") && said.complains("--overwrite"), "{}", said.err);
    assert!(!html.exists() && !svg.exists(), "something was written");
    assert_eq!(fs::read_to_string(csv.join("crank.csv"))?, "mine");
    let again = [&options[..], &["--overwrite"]].concat();
    assert_ne!(checked(ROD, &again)?.code, Some(2));
    let first = fs::read(&html)?;
    assert_eq!(fs::read_dir(&svg)?.count(), 8);
    assert_ne!(checked(ROD, &again)?.code, Some(2));
    assert_eq!(fs::read(&html)?, first, "equal input, other bytes");
    // A folder that cannot be written to leaves nothing behind.
    let lost = place.join("page.html").join("svg");
    let said = checked(ROD, &["--svg", &text_of(&lost)])?;
    assert_eq!(said.code, Some(2));
    assert!(said.complains("cannot be written") || said.complains("not a folder"), "{}", said.err);
    Ok(())
}

#[test]
fn words_of_the_job_stay_words() -> Tested {
    let job = fs::read_to_string(super::run::top().join(ROD[1]))?;
    let title = r#"title = "<script>alert('x')</script> & <b>\"bold\"</b>""#;
    let from = job.lines().find(|line| line.starts_with("title")).ok_or("no title")?;
    let path = file("hostile_title.toml", job.replacen(from, title, 1))?;
    let (text, _) = page([ROD[0], &path], "hostile_title", &[])?;
    let html = Page::parsed(&text);
    assert!(html.named(&["script"]).is_empty());
    assert!(html.inside("h1").iter().all(|element| element.name != "b"));
    assert_eq!(
        html.named(&["h1"]).first().map(|heading| heading.words()),
        Some("<script>alert('x')</script> & <b>\"bold\"</b>".into())
    );
    Ok(())
}

/// What the page says to save and to type gives the same answer.
#[test]
fn the_inputs_repeat_the_run() -> Tested {
    let (text, json) = page(ROD, "repeat_inputs", &["--rpm", "4200", "--infill-percent", "60"])?;
    let html = Page::parsed(&text);
    let texts: Vec<_> = html
        .named(&["pre"])
        .into_iter()
        .filter(|element| html.is_within(element, |outer| outer.attribute("id") == Some("again")))
        .collect();
    let job = file("repeated_job.toml", &texts.get(1).ok_or("no job")?.text)?;
    let again: Value = serde_json::from_str(&layload(&["check", "--quick", ROD[0], "--job", &job, "--json"])?.out)?;
    assert_eq!(again["verdict"], json["verdict"]);
    assert_eq!(again["modes"], json["modes"]);
    Ok(())
}

/// With a painted part asked for too, all of it comes from one result.
#[test]
fn everything_at_once() -> Tested {
    let place = folder("at_once")?;
    let (html, mesh) = (text_of(&place.join("page.html")), text_of(&place.join("part.ply")));
    let said = checked(ROD, &["--json", "--facets", "--report", &html, "--mesh-out", &mesh])?;
    assert_eq!(said.err, "");
    let json: Value = serde_json::from_str(&said.out)?;
    assert!(json["facet_utilisation"].as_array().is_some_and(|list| list.len() > 100));
    assert!(Path::new(&html).exists() && Path::new(&mesh).exists());
    let alone: Value = serde_json::from_str(&checked(ROD, &["--json", "--facets"])?.out)?;
    assert_eq!(alone, json);
    Ok(())
}
