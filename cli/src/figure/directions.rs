use std::fmt::Write as _;
use std::io;

use layload_core::Record;
use layload_core::report::DirectionMargin;

use crate::paint::BadEnd;
use crate::paint::scale::{ColorScale, hex};
use crate::plot::{LETTER, Pen, Picture};
use crate::text::numbers::significant;

const WIDTH: f64 = 480.0;
const RADIUS: f64 = 150.0;

/// Steps of the scale of colours: as many as can be told apart beside each other.
const STEPS: usize = 9;

/// Margins of half the sphere of build directions as seen along the pins, areas kept (Lambert's azimuthal projection):
/// the middle is a rod that lies flat, left and right one that stands.
pub(crate) fn directions(margins: &[DirectionMargin], printed: [f64; 3], titled: bool) -> io::Result<Picture> {
    let (least, greatest) = margins
        .iter()
        .map(|entry| entry.margin)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), m| (f64::min(low, m), f64::max(high, m)));
    let top = if titled { 52.0 } else { 34.0 };
    let center = [0.5 * WIDTH, top + RADIUS];
    let told = format!(
        "Margin against the direction in which layers stack, {} directions: from {} to {}. Layers square to the pins lie in \
         the middle, layers across the rod at the left and right edge, layers along its width at the top and bottom.",
        margins.len(),
        significant(least),
        significant(greatest)
    );
    let height = top + 2.0 * RADIUS + 92.0;
    Picture::new([WIDTH, height], "Margin by build direction", &told, |pen| {
        if titled {
            pen.text("ink title", [20.0, 28.0], "start", "Margin by build direction")?;
        }
        pen.circle("frame", [center[0], center[1], RADIUS + 7.0])?;
        let span = (greatest - least).max(1e-9);
        let step = |margin: f64| (((margin - least) / span * STEPS as f64) as usize).min(STEPS - 1);
        let color = colors();
        for (number, color) in color.iter().enumerate() {
            let mut dots = String::new();
            for entry in margins.iter().filter(|entry| step(entry.margin) == number) {
                // A direction and its opposite stack the same layers.
                for sign in if entry.in_part[2] == 0.0 { &[1.0, -1.0][..] } else { &[1.0] } {
                    let [x, y] = placed(entry.in_part.map(|c| sign * c), center);
                    let _ = write!(dots, "M{x:.1} {y:.1}h0");
                }
            }
            if !dots.is_empty() {
                let dot =
                    [("stroke", color.as_str()), ("stroke-width", "13.5"), ("stroke-linecap", "round"), ("d", &dots)];
                pen.element("path", &dot)?;
            }
        }
        let [x, y] = placed(printed, center);
        pen.circle("point", [x, y, 6.0])?;
        // Words of a mark near the right edge stand on its left.
        let (at, anchor) = if x > center[0] + 0.4 * RADIUS { (x - 11.0, "end") } else { (x + 11.0, "start") };
        let words = "as printed";
        let room = LETTER * words.len() as f64 + 6.0;
        let left = if anchor == "end" { at - room + 3.0 } else { at - 3.0 };
        pen.rectangle("paper", [left, y - 9.0, room, 18.0])?;
        pen.text("ink", [at, y + 4.0], anchor, words)?;
        for (place, anchor, words) in [
            ([center[0], top - 14.0], "middle", "on edge"),
            ([center[0] - RADIUS - 14.0, center[1] + 4.0], "end", "upright"),
            ([center[0] + RADIUS + 14.0, center[1] + 4.0], "start", "upright"),
            ([center[0], center[1] + RADIUS + 26.0], "middle", "on edge"),
        ] {
            pen.text("soft", place, anchor, words)?;
        }
        let bar = top + 2.0 * RADIUS + 42.0;
        scale(pen, bar, (least, greatest), &color)?;
        pen.text("soft", [0.5 * WIDTH, bar + 46.0], "middle", "margin, 1 is the limit; dark is worse")
    })
}

/// The scale of colours with the margins at its ends, and the limit where that lies between.
fn scale(pen: &mut Pen, bar: f64, (least, greatest): (f64, f64), colors: &[String]) -> io::Result<()> {
    let [left, right] = [100.0, WIDTH - 100.0];
    let span = (greatest - least).max(1e-9);
    let width = (right - left) / STEPS as f64;
    for (number, color) in colors.iter().enumerate() {
        let place = [left + width * number as f64, bar, width + 0.5, 14.0].map(|n| format!("{n:.1}"));
        let [x, y, w, h] = &place;
        let key = [("fill", color.as_str()), ("x", x), ("y", y), ("width", w), ("height", h)];
        pen.element("rect", &key)?;
    }
    pen.rectangle("frame", [left, bar, right - left, 14.0])?;
    pen.text("soft", [left, bar + 31.0], "middle", &significant(least))?;
    pen.text("soft", [right, bar + 31.0], "middle", &significant(greatest))?;
    if least < 1.0 && greatest > 1.0 {
        let x = left + (1.0 - least) / span * (right - left);
        pen.line("level", [x, bar - 4.0, x, bar + 18.0])?;
        if x - left > 50.0 && right - x > 50.0 {
            pen.text("ink", [x, bar + 31.0], "middle", "1")?;
        }
    }
    Ok(())
}

/// The direction in which the part is built, along the rod, across it and along the pins: the axes of its drawing.
pub(crate) fn built(record: &Record) -> [f64; 3] {
    let Some(view) = record.drawing.views.first() else { return [0.0, 0.0, 1.0] };
    let (x, y) = (view.right, view.up);
    let z = [x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]];
    let build = record.report.print.build_direction;
    [x, y, z].map(|axis| axis.iter().zip(build).map(|(a, b)| a * b).sum())
}

/// Colours from the least margin to the greatest.
fn colors() -> Vec<String> {
    let scale = ColorScale::new(BadEnd::Low);
    (0..STEPS).map(|step| hex(scale.colors()[(step * 2 + 1) * scale.colors().len() / (2 * STEPS)])).collect()
}

/// Place of a direction of the part; the lower half of the sphere lies over the upper.
fn placed(direction: [f64; 3], center: [f64; 2]) -> [f64; 2] {
    let [x, y, z] = if direction[2] < 0.0 { direction.map(|c| -c) } else { direction };
    let scale = RADIUS / (1.0 + z).max(1e-9).sqrt();
    [center[0] + x * scale, center[1] - y * scale]
}
