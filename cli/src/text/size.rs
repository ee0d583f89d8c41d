use std::fmt::Write;

use layload_core::report::{CandidateReport, NumbersBy, SizeReport};

use super::numbers::{duration, significant, whole};
use super::safety;
use super::wrap::{heading, list, paragraph};

/// Rows of a table at most.
const ROWS: usize = 14;

/// What reaches the wanted life.
pub(crate) fn size(report: &SizeReport) -> String {
    let mut text = String::new();
    paragraph(&mut text, "Answer ", "       ", &report.answer);
    let now = &report.as_it_is;
    paragraph(
        &mut text,
        "As now ",
        "       ",
        &format!(
            "{:.1} g, margin of all modes together {} at {} rpm for {}; first to fail: {}, {}.",
            now.mass_g,
            significant(now.margin),
            whole(report.wanted_rpm),
            duration(report.wanted_life_s),
            now.governing_mode.words(),
            now.governing_place
        ),
    );
    if let Some(k) = report.without_change {
        let c = &report.candidates[k];
        let how = format!("in {}, printed {}, {} walls", c.material, c.direction, c.walls);
        paragraph(
            &mut text,
            "Same   ",
            "       ",
            &format!("the present mesh reaches it {how}: margin {}{}.", significant(c.margin), by(c)),
        );
    }
    let choice = |flag: bool| {
        let mut rows: Vec<&CandidateReport> =
            report.candidates.iter().filter(|c| if flag { c.pareto } else { !c.reaches }).collect();
        if flag {
            rows.sort_by(|a, b| a.mass_g.total_cmp(&b.mass_g));
        } else {
            rows.sort_by(|a, b| b.margin.total_cmp(&a.margin));
        }
        rows
    };
    let best = choice(true);
    if !best.is_empty() {
        heading(&mut text, "Best compromises of mass, life and print time that reach it");
        rows(&mut text, &best);
    }
    let none = choice(false);
    if !none.is_empty() {
        heading(&mut text, "Do not reach it within the range, nearest first");
        rows(&mut text, &none);
    }
    let reaching = report.candidates.iter().filter(|c| c.reaches).count();
    let _ = writeln!(text, "\n{reaching} of {} tried reach it; --json lists all", report.candidates.len());
    text.push_str(legend(report));
    list(&mut text, "Limits of this search", &report.notes);
    text.push('\n');
    safety(&mut text);
    text
}

/// What the numbers of one candidate rest on, where that is not a field.
fn by(candidate: &CandidateReport) -> &'static str {
    match candidate.by {
        NumbersBy::Field => "",
        NumbersBy::CorrectedSections => ", by corrected sections",
        NumbersBy::Sections => ", by sections",
    }
}

/// What the marks of a table mean.
fn legend(report: &SizeReport) -> &'static str {
    if report.as_it_is.by == NumbersBy::Sections {
        "All by sections alone, which do not see fillets, pockets and blends.\n"
    } else {
        "c: by sections, corrected by the stress field of the present part; without a mark solved\n"
    }
}

fn rows(text: &mut String, list: &[&CandidateReport]) {
    if list.iter().any(|c| c.crown_mm.is_some()) {
        text.push_str("  varied     material   printed walls          crown mm    g  print margin   life\n");
    } else {
        text.push_str("  varied     material   printed walls  thick s/m/b mm    g  print margin   life\n");
    }
    for c in list.iter().take(ROWS) {
        let varied = c.varied.map_or("as it is", layload_core::report::Varied::words);
        let size = match (c.thickness_mm, c.crown_mm) {
            (Some([small, shank, big]), _) => format!("{small:.1}/{shank:.1}/{big:.1}"),
            (_, Some(crown)) => format!("{crown:.2}"),
            _ => String::new(),
        };
        let _ = writeln!(
            text,
            "  {varied:<10} {:<10} {:<7} {:>4}  {size:>14} {:>5.1} {:>7} {:>5} {:<1} {}",
            short(&c.material, 10),
            short(&c.direction, 7),
            c.walls,
            c.mass_g,
            duration(c.print_time_s).replace(' ', ""),
            significant(c.margin),
            if c.by == NumbersBy::CorrectedSections { "c" } else { "" },
            duration(c.life_b10_s)
        );
    }
    if list.len() > ROWS {
        let _ = writeln!(text, "  and {} more", list.len() - ROWS);
    }
}

fn short(words: &str, most: usize) -> String {
    if words.chars().count() <= most { words.into() } else { words.chars().take(most - 1).chain(['…']).collect() }
}
