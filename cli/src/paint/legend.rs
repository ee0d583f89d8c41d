use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesText, Event};

use super::scale::{ColorScale, NOT_MEASURED, STEPS, hex};
use super::{BadEnd, PaintError, Quantity, words};
use crate::plot::ticks::ticks;

type Xml = Writer<Vec<u8>>;

/// Least width, px; long titles widen it.
const WIDTH: f64 = 480.0;
const HEIGHT: f64 = 180.0;

/// Room left and right, px.
const MARGIN: f64 = 28.0;

/// Top and bottom of the colour bar, px.
const BAR: [f64; 2] = [70.0, 98.0];

/// Width of a bold letter of the title, px: a wide one, since fonts differ.
const TITLE_LETTER: f64 = 10.5;

const INK: &str = "#1A1A1A";
const PAPER: &str = "#FFFFFF";

/// Width of a letter elsewhere, px, in the same way.
const LETTER: f64 = 8.5;

/// Every so many steps of the scale is a stop of the gradient: between them lines in sRGB are as good as the curve.
const STOP: usize = 5;

/// Bytes of an SVG with the colour scale, its numbers and its marks.
///
/// It stands on paper of its own, so that it reads the same on a light page and on a dark one.
pub fn legend_svg(quantity: &Quantity) -> Result<Vec<u8>, PaintError> {
    let letters = words::headline(quantity).chars().count() as f64;
    let width = WIDTH.max((letters * TITLE_LETTER + 2.0 * MARGIN).ceil());
    let mut xml = Writer::new_with_indent(Vec::new(), b' ', 1);
    let attributes = [
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("width", &width.to_string()),
        ("height", &HEIGHT.to_string()),
        ("viewBox", &format!("0 0 {width} {HEIGHT}")),
        ("role", "img"),
        ("font-family", "sans-serif"),
        ("font-size", "14"),
    ];
    xml.create_element("svg").with_attributes(attributes).write_inner_content(|xml| {
        let told = words::sentences(quantity).join(" ");
        xml.create_element("title").write_text_content(BytesText::new(&words::headline(quantity)))?;
        xml.create_element("desc").write_text_content(BytesText::new(&told))?;
        let (paper, [right, bottom]) = (("fill", PAPER), [width - 1.0, HEIGHT - 1.0]);
        rectangle(xml, [0.5, 0.5, right, bottom], &[paper, ("rx", "8"), ("stroke", "#8A8A8A")])?;
        text(xml, [MARGIN, 32.0], &words::headline(quantity), &[("font-size", "17"), ("font-weight", "bold")])?;
        bar(xml, quantity, width)?;
        numbers(xml, quantity, width)?;
        limit(xml, quantity, width)?;
        foot(xml, quantity, width)
    })?;
    xml.write_event(Event::Text(BytesText::new("\n")))?;
    Ok(xml.into_inner())
}

fn bar(xml: &mut Xml, quantity: &Quantity, width: f64) -> io::Result<()> {
    let scale = ColorScale::new(quantity.bad_end());
    // Legends put into one page share names: equal names must mean equal colours.
    let name = match quantity.bad_end() {
        BadEnd::Low => "colors-low-is-bad",
        BadEnd::High => "colors-high-is-bad",
    };
    xml.create_element("linearGradient").with_attribute(("id", name)).write_inner_content(|xml| {
        for (step, &color) in scale.colors().iter().enumerate().step_by(STOP) {
            let offset = format!("{:.4}", (step as f64 + 0.5) / STEPS as f64);
            let attributes = [("offset", offset.as_str()), ("stop-color", &hex(color))];
            xml.create_element("stop").with_attributes(attributes).write_empty()?;
        }
        Ok(())
    })?;
    let [top, bottom] = BAR;
    let place = [MARGIN, top, width - 2.0 * MARGIN, bottom - top];
    rectangle(xml, place, &[("fill", &format!("url(#{name})")), ("stroke", INK)])
}

fn numbers(xml: &mut Xml, quantity: &Quantity, width: f64) -> io::Result<()> {
    for tick in ticks(quantity.low(), quantity.high()) {
        let x = across(quantity, tick.value, width);
        line(xml, [x, BAR[1], x, BAR[1] + 6.0], &[("stroke", INK)])?;
        centered(xml, [x, BAR[1] + 22.0], &tick.label, width)?;
    }
    Ok(())
}

/// A line across the bar at the limit, and one along it over all that is beyond.
fn limit(xml: &mut Xml, quantity: &Quantity, width: f64) -> io::Result<()> {
    let Some(limit) = quantity.limit() else { return Ok(()) };
    let [top, bottom] = BAR;
    let x = across(quantity, limit, width);
    let end = across(quantity, bad_value(quantity), width);
    line(xml, [end, top - 5.0, x, top - 5.0], &[("stroke", INK), ("stroke-width", "4")])?;
    for (color, thick) in [(PAPER, "5"), (INK, "2")] {
        line(xml, [x, top - 7.0, x, bottom], &[("stroke", color), ("stroke-width", thick)])?;
    }
    let label = format!("limit {}", words::value(quantity, limit));
    centered(xml, [x, top - 12.0], &label, width)
}

/// Which end is worse, the grey, and what lies beyond the ends.
fn foot(xml: &mut Xml, quantity: &Quantity, width: f64) -> io::Result<()> {
    let base = BAR[1] + 46.0;
    let arrow = |tip: f64, back: f64| format!("{tip},{} {back},{} {back},{}", base - 5.0, base - 10.0, base);
    let (tip, back, word, anchor, grey) = match quantity.bad_end() {
        BadEnd::Low => (MARGIN, MARGIN + 9.0, MARGIN + 15.0, "start", width - MARGIN - 110.0),
        BadEnd::High => (width - MARGIN, width - MARGIN - 9.0, width - MARGIN - 15.0, "end", MARGIN),
    };
    xml.create_element("polygon")
        .with_attributes([("points", arrow(tip, back).as_str()), ("fill", INK)])
        .write_empty()?;
    text(xml, [word, base], "worse", &[("text-anchor", anchor)])?;
    rectangle(xml, [grey, base - 12.0, 14.0, 14.0], &[("fill", &hex(NOT_MEASURED)), ("stroke", INK)])?;
    text(xml, [grey + 21.0, base], "not measured", &[])?;
    let (x, anchor) = match quantity.bad_end() {
        BadEnd::Low => (MARGIN, "start"),
        BadEnd::High => (width - MARGIN, "end"),
    };
    text(
        xml,
        [x, base + 22.0],
        "values beyond the ends: colour of the end",
        &[("text-anchor", anchor), ("font-size", "12")],
    )
}

fn bad_value(quantity: &Quantity) -> f64 {
    match quantity.bad_end() {
        BadEnd::Low => quantity.low(),
        BadEnd::High => quantity.high(),
    }
}

/// Where a value is on the bar, px to a hundredth.
fn across(quantity: &Quantity, value: f64, width: f64) -> f64 {
    ((MARGIN + quantity.share(value) * (width - 2.0 * MARGIN)) * 100.0).round() / 100.0
}

/// Words round a place, or beside it where they would leave the paper.
fn centered(xml: &mut Xml, [x, y]: [f64; 2], words: &str, width: f64) -> io::Result<()> {
    let half = words.chars().count() as f64 * LETTER / 2.0;
    let anchor = if x < half {
        "start"
    } else if x > width - half {
        "end"
    } else {
        "middle"
    };
    text(xml, [x, y], words, &[("text-anchor", anchor)])
}

fn rectangle(xml: &mut Xml, place: [f64; 4], look: &[(&str, &str)]) -> io::Result<()> {
    shape(xml, "rect", ["x", "y", "width", "height"], place, look)
}

fn line(xml: &mut Xml, ends: [f64; 4], look: &[(&str, &str)]) -> io::Result<()> {
    shape(xml, "line", ["x1", "y1", "x2", "y2"], ends, look)
}

fn shape(xml: &mut Xml, name: &str, keys: [&str; 4], place: [f64; 4], look: &[(&str, &str)]) -> io::Result<()> {
    let place = place.map(|number| number.to_string());
    let attributes = keys.into_iter().zip(place.iter().map(String::as_str)).chain(look.iter().copied());
    xml.create_element(name).with_attributes(attributes).write_empty()?;
    Ok(())
}

fn text(xml: &mut Xml, [x, y]: [f64; 2], words: &str, look: &[(&str, &str)]) -> io::Result<()> {
    let (x, y) = (x.to_string(), y.to_string());
    let place = [("x", x.as_str()), ("y", &y), ("fill", INK)];
    xml.create_element("text")
        .with_attributes(place.into_iter().chain(look.iter().copied()))
        .write_text_content(BytesText::new(words))?;
    Ok(())
}
