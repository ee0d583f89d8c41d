//! The text table of crank angle and pressure: reading, writing and every way it can be wrong.

use std::fmt::Write;

use approx::assert_relative_eq;
use layload_core::engine::{Cylinder, GasCycle, PressureError, PressureTrace, SliderCrank, Strokes};
use proptest::prelude::*;

use super::Tested;

/// A smooth two-stroke table with its peak at 12 degrees.
fn rows(from_deg: i32, to_deg: i32) -> Vec<String> {
    (from_deg..=to_deg)
        .map(|degree| {
            let bar = 20.0 + 18.0 * libm::cos(f64::from(degree - 12).to_radians());
            format!("{degree},{bar}")
        })
        .collect()
}

fn read(text: &str) -> Result<PressureTrace, PressureError> {
    PressureTrace::from_csv(text, Strokes::Two, 360)
}

#[test]
fn written_table_reads_back() -> Tested {
    let cylinder = Cylinder::new(SliderCrank::new(0.020, 0.090, 0.0)?, 0.040, 8.5)?;
    for (cycle, samples) in [(GasCycle::four_stroke(), 720), (GasCycle::two_stroke(), 500)] {
        let trace = cycle.run(&cylinder, 1.0, samples)?.trace;
        let back = PressureTrace::from_csv(&trace.to_csv(), trace.strokes(), samples)?;
        assert_eq!(back.samples_pa().len(), samples);
        for (a, b) in trace.samples_pa().iter().zip(back.samples_pa()) {
            // 1e-12: angles and bars are written in full, so only the rounding of the unit remains.
            assert_relative_eq!(a, b, max_relative = 1e-12);
        }
    }
    Ok(())
}

#[test]
fn layouts_of_the_same_table_agree() -> Tested {
    let plain = read(&rows(0, 359).join("\n"))?;
    let expected = |degree: f64| 1e5 * (20.0 + 18.0 * libm::cos((degree - 12.0).to_radians()));
    for (index, got) in plain.samples_pa().iter().enumerate() {
        assert_relative_eq!(*got, expected(index as f64), max_relative = 1e-12);
    }
    let headed = format!("crank angle,pressure\n{}\n", rows(0, 359).join("\n"));
    let windows = format!("\u{feff}angle;bar\r\n\r\n{}\r\n", rows(0, 359).join("\r\n").replace(',', " ; "));
    let tabs = format!("# measured\n\n{}\n# end", rows(0, 359).join("\n").replace(',', "\t"));
    let closed = rows(0, 360).join("\n");
    for text in [headed, windows, tabs, closed] {
        let got = read(&text)?;
        for (a, b) in plain.samples_pa().iter().zip(got.samples_pa()) {
            assert_relative_eq!(*a, *b, max_relative = 1e-12);
        }
    }
    Ok(())
}

#[test]
fn angles_may_begin_anywhere() -> Tested {
    let plain = read(&rows(0, 359).join("\n"))?;
    for (from, to) in [(-180, 179), (-180, 180), (-360, -1), (90, 449), (720, 1079)] {
        let got = read(&rows(from, to).join("\n"))?;
        for (a, b) in plain.samples_pa().iter().zip(got.samples_pa()) {
            assert_relative_eq!(*a, *b, max_relative = 1e-9);
        }
    }
    Ok(())
}

#[test]
fn uneven_rows_are_joined_by_straight_lines() -> Tested {
    let mut text = String::new();
    for degree in (0..360).step_by(10) {
        writeln!(
            text,
            "{degree},{}",
            if degree == 10 {
                30.0
            } else if degree == 0 {
                4.0
            } else {
                1.0
            }
        )?;
    }
    let trace = read(&text)?;
    assert_relative_eq!(trace.samples_pa()[5], 17e5, max_relative = 1e-12);
    assert_relative_eq!(trace.samples_pa()[10], 30e5, max_relative = 1e-12);
    assert_relative_eq!(trace.samples_pa()[345], 1e5, max_relative = 1e-12);
    // From the last row round to the first.
    assert_relative_eq!(trace.samples_pa()[354], 0.6e5 + 0.4 * 4e5, max_relative = 1e-12);
    Ok(())
}

#[test]
fn closing_row_is_averaged_with_the_first() -> Tested {
    let mut lines = rows(0, 359);
    lines[0] = "0,37".into();
    lines.push("360,38".into());
    assert_relative_eq!(read(&lines.join("\n"))?.samples_pa()[0], 37.5e5, max_relative = 1e-12);
    lines.pop();
    lines.push("360,50".into());
    let got = read(&lines.join("\n"));
    assert_eq!(got, Err(PressureError::NotClosed { line: 361, last_bar: 50.0, first_bar: 37.0 }));
    Ok(())
}

/// The table with one line replaced, line numbers from 1.
fn with_line(line: usize, content: &str) -> Result<PressureTrace, PressureError> {
    let mut lines = rows(0, 359);
    lines[line - 1] = content.into();
    read(&lines.join("\n"))
}

#[test]
fn bad_rows_are_named_by_line() {
    assert_eq!(with_line(20, "19"), Err(PressureError::FieldCount { line: 20, found: 1 }));
    assert_eq!(with_line(20, "19,20,21"), Err(PressureError::FieldCount { line: 20, found: 3 }));
    assert_eq!(with_line(20, "19,high"), Err(PressureError::NotANumber { line: 20, text: "high".into() }));
    assert_eq!(with_line(20, "angle,bar"), Err(PressureError::NotANumber { line: 20, text: "angle".into() }));
    assert_eq!(with_line(20, "19,"), Err(PressureError::NotANumber { line: 20, text: String::new() }));
    assert_eq!(with_line(20, "19,-1"), Err(PressureError::PressureRange { line: 20, pressure_bar: -1.0 }));
    assert_eq!(with_line(20, "19,0"), Err(PressureError::PressureRange { line: 20, pressure_bar: 0.0 }));
    assert!(matches!(with_line(20, "19,NaN"), Err(PressureError::PressureRange { line: 20, .. })));
    assert!(matches!(with_line(20, "19,inf"), Err(PressureError::PressureRange { line: 20, .. })));
    assert!(matches!(with_line(20, "NaN,20"), Err(PressureError::AngleRange { line: 20, .. })));
    assert!(matches!(with_line(360, "1e9,20"), Err(PressureError::AngleRange { line: 360, .. })));
    let same = PressureError::NotRising { line: 20, angle_deg: 18.0, before_deg: 18.0 };
    assert_eq!(with_line(20, "18,20"), Err(same));
    let back = PressureError::NotRising { line: 20, angle_deg: 17.5, before_deg: 18.0 };
    assert_eq!(with_line(20, "17.5,20"), Err(back));
}

#[test]
fn heading_counts_as_a_line_and_stands_first_only() {
    let text = format!("angle,bar\n{}", rows(0, 359).join("\n")).replace("\n19,", "\nx,");
    assert_eq!(read(&text), Err(PressureError::NotANumber { line: 21, text: "x".into() }));
    let two = format!("angle,bar\ndeg,bar\n{}", rows(0, 359).join("\n"));
    assert_eq!(read(&two), Err(PressureError::NotANumber { line: 2, text: "deg".into() }));
    // A first row of which only one field is no number is a mistake, not a heading.
    let half = format!("0,x\n{}", rows(1, 359).join("\n"));
    assert_eq!(read(&half), Err(PressureError::NotANumber { line: 1, text: "x".into() }));
}

/// What a heading does not say in words known here may be anything: other columns are no pressure by crank angle.
#[test]
fn an_unknown_heading_is_refused_with_what_is_expected() {
    let body = rows(0, 359).join("\n");
    let refused = |heading: &str| match read(&format!("{heading}\n{body}")) {
        Err(error @ PressureError::Heading { line: 1, .. }) => {
            error.help().contains("the crank angle in degrees") && error.help().contains("angle_deg,pressure_bar")
        }
        _ => false,
    };
    for heading in
        ["x,y", "angle,temperature", "volume_cm3,pressure_bar", "lift,flow", "crank angle,mbar", ",", "name,"]
    {
        assert!(refused(heading), "{heading}");
    }
    for heading in ["CRANK,Pressure", "deg;bar(abs)", "angle_deg,pressure_bar", "ca,p", "\u{b0}CA\tp [bar]"] {
        assert!(read(&format!("{heading}\n{body}")).is_ok(), "{heading}");
    }
}

#[test]
fn the_whole_cycle_is_wanted() {
    for empty in ["", "\n\n", "angle,bar\n", "# nothing"] {
        assert_eq!(read(empty), Err(PressureError::EmptyTable));
    }
    assert!(matches!(read("0,20"), Err(PressureError::Gap { line: 1, .. })));
    let mut lines = rows(0, 359);
    lines.drain(100..110);
    let got = read(&lines.join("\n"));
    assert!(matches!(got, Err(PressureError::Gap { line: 101, gap_deg, .. }) if (gap_deg - 11.0).abs() < 1e-9));
    let short = read(&rows(0, 349).join("\n"));
    assert!(matches!(short, Err(PressureError::Gap { line: 1, gap_deg, .. }) if (gap_deg - 11.0).abs() < 1e-9));
    assert!(read(&rows(0, 350).join("\n")).is_ok());
    let long = read(&rows(0, 361).join("\n"));
    assert!(matches!(long, Err(PressureError::TooLong { line: 362, .. })), "{long:?}");
    // A two-stroke's table is half of a four-stroke's.
    let half = PressureTrace::from_csv(&rows(0, 359).join("\n"), Strokes::Four, 720);
    assert!(matches!(half, Err(PressureError::Gap { line: 1, .. })), "{half:?}");
}

#[test]
fn a_peak_at_the_wrong_dead_centre_is_refused() {
    let shifted: Vec<String> = rows(0, 359)
        .iter()
        .enumerate()
        .filter_map(|(index, row)| Some(format!("{},{}", index + 180, row.split_once(',')?.1)))
        .collect();
    let got = read(&shifted.join("\n"));
    assert!(
        matches!(got, Err(PressureError::PeakMisplaced { angle_deg }) if (angle_deg + 168.0).abs() < 1e-6),
        "{got:?}"
    );
}

#[test]
fn sample_count_is_checked_first() {
    for count in [0, 35, 72_001, usize::MAX] {
        let got = PressureTrace::from_csv("", Strokes::Two, count);
        assert!(matches!(got, Err(PressureError::SampleCount { .. })), "{got:?}");
    }
}

#[test]
fn messages_name_line_and_remedy() {
    let error = PressureError::NotANumber { line: 7, text: "high".into() };
    assert!(error.to_string().contains("line 7"));
    assert!(error.help().contains("degrees") && error.help().contains("bar"));
}

proptest! {
    #[test]
    fn no_text_panics(text in "\\PC*") {
        let _ = read(&text);
    }

    #[test]
    fn no_numbers_panic(pairs in prop::collection::vec((any::<f64>(), any::<f64>()), 0..50)) {
        let text = pairs.iter().map(|(a, b)| format!("{a},{b}")).collect::<Vec<_>>().join("\n");
        let _ = read(&text);
    }

    #[test]
    fn tables_with_jitter_are_read(jitter in prop::collection::vec(-0.4_f64..0.4, 72)) {
        let text = jitter
            .iter()
            .enumerate()
            .map(|(index, shift)| {
                let degree = 5.0 * (index as f64 + shift) - 100.0;
                format!("{degree},{}", 20.0 + 18.0 * libm::cos((degree - 12.0).to_radians()))
            })
            .collect::<Vec<_>>()
            .join("\n");
        let got = read(&text);
        prop_assert!(got.is_ok(), "{got:?}");
        // Straight lines over at most 9 degrees cut off up to h^2/8 of the curvature: 18 bar * 0.157^2 / 8.
        let peak = got.map(|trace| trace.peak().pressure_pa);
        prop_assert!(peak.is_ok_and(|p| p <= 38e5 + 1.0 && p > 38e5 - 0.06e5));
    }
}
