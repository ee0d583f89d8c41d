use layload_core::bench::{BenchEntry, BenchError, RunOutcome, read_log};
use layload_core::engine::DutyStep;

fn entry(seconds: f64) -> BenchEntry {
    BenchEntry {
        family: "rods".into(),
        outcome: RunOutcome::Failed,
        steps: vec![DutyStep { rpm: 5000.0, throttle: 1.0, seconds }],
        sound_s: None,
        temperature_c: None,
        place: Some("small end, at the \"bore\"\nand beside".into()),
        how: None,
        mode: None,
        seen: Vec::new(),
        mesh: None,
        job: None,
        date: Some("2026-05-04".into()),
        note: None,
    }
}

#[test]
fn a_line_reads_back_as_its_entry() {
    let text = format!("# a remark\n\n{}{}", entry(60.0).line().unwrap(), entry(90.0).line().unwrap());
    assert_eq!(read_log(&text).unwrap(), (vec![entry(60.0), entry(90.0)], None));
}

/// Cut anywhere, a log keeps every finished entry, and never makes one of half a line.
#[test]
fn a_log_cut_anywhere_keeps_what_was_finished() {
    let lines = [entry(60.0).line().unwrap(), entry(90.0).line().unwrap()];
    let text = lines.concat();
    for cut in (0..=text.len()).filter(|cut| text.is_char_boundary(*cut)) {
        let (entries, unfinished) = read_log(&text[..cut]).unwrap();
        // An entry is whole without the end of its line.
        let finished = usize::from(cut + 1 >= lines[0].len()) + usize::from(cut + 1 >= text.len());
        assert_eq!(entries.len(), finished, "{cut}");
        let ends = [0, lines[0].len() - 1, lines[0].len(), text.len() - 1, text.len()];
        assert_eq!(unfinished, (!ends.contains(&cut)).then_some(finished + 1), "{cut}");
    }
}

/// What somebody else wrote at the end is not taken for half an entry.
#[test]
fn other_words_at_the_end_are_refused_by_line() {
    for tail in ["buy oil", "[1, 2]", "{\"family\": 3}", "{}"] {
        let text = format!("{}{tail}", entry(60.0).line().unwrap());
        assert!(matches!(read_log(&text), Err(BenchError::Format { line: 2, .. })), "{tail}");
    }
    let typo = entry(60.0).line().unwrap().replace("\"outcome\"", "\"outcom\"");
    assert!(read_log(&typo).unwrap_err().to_string().contains("did you mean `outcome`?"));
    assert_eq!(read_log(&format!("{}# a remark", entry(60.0).line().unwrap())).unwrap(), (vec![entry(60.0)], None));
}

#[test]
fn slips_are_refused() {
    assert!(matches!(read_log("{}\n"), Err(BenchError::Format { line: 1, .. })));
    let none = BenchEntry { steps: Vec::new(), ..entry(1.0) };
    assert_eq!(none.checked(), Err(BenchError::NoSteps));
    for (rpm, throttle, seconds) in [(0.0, 1.0, 1.0), (1.0, 2.0, 1.0), (1.0, 1.0, 0.0), (f64::NAN, 1.0, 1.0)] {
        let bad = BenchEntry { steps: vec![DutyStep { rpm, throttle, seconds }], ..entry(1.0) };
        assert!(matches!(bad.checked(), Err(BenchError::Implausible { .. })));
    }
    assert!(BenchEntry { sound_s: Some(60.0), ..entry(60.0) }.checked().is_err());
}

/// A run that was taken back counts no longer; its line stays, and a line is taken back once.
#[test]
fn a_line_takes_a_run_back() {
    let lines = format!("# rods of May\n{}{}", entry(60.0).line().unwrap(), entry(90.0).line().unwrap());
    let back = |line| layload_core::bench::TakeBack { takes_back: line, note: None }.line().unwrap();
    let text = lines.clone() + &back(2);
    assert_eq!(read_log(&text).unwrap(), (vec![entry(90.0)], None));
    let read = layload_core::bench::read_lines(&text).unwrap();
    assert_eq!((read.entries[0].0, read.taken_back.as_slice()), (3, &[2][..]));
    for bad in [1, 2, 4, 9] {
        let text = if bad == 2 { lines.clone() + &back(2) + &back(2) } else { lines.clone() + &back(bad) };
        assert!(matches!(read_log(&text), Err(BenchError::Format { line: 4 | 5, .. })), "{bad}");
    }
    // Cut anywhere within, it takes nothing back and is no entry.
    for cut in 1..back(2).len() - 1 {
        let (entries, unfinished) = read_log(&(lines.clone() + &back(2)[..cut])).unwrap();
        assert_eq!((entries.len(), unfinished), (2, Some(4)), "{cut}");
    }
    // Words of a note are words.
    let noted = BenchEntry { note: Some("\"takes_back\": 1".into()), ..entry(60.0) };
    assert_eq!(read_log(&noted.line().unwrap()).unwrap(), (vec![noted], None));
}
