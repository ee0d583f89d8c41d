use std::fmt::Write as _;
use std::io;

use quick_xml::Writer;
use quick_xml::events::{BytesText, Event};

use super::chart::{Chart, Panel};

type Xml = Writer<Vec<u8>>;

/// Size of the drawing and its margins, px.
const WIDTH: f64 = 760.0;
const LEFT: f64 = 76.0;
const RIGHT: f64 = 24.0;
const TOP: f64 = 60.0;
const PANEL: f64 = 230.0;
const GAP: f64 = 26.0;
const FOOT: f64 = 52.0;

/// Height of the row of named stretches, px.
const SPAN: f64 = 22.0;

/// Height of a line of notes, px.
const NOTE: f64 = 17.0;

/// Width of a small letter, px: a wide one, since fonts differ.
const LETTER: f64 = 6.6;

/// Ink and paper follow the page's own light or dark.
const STYLE: &str = "\
.paper{fill:#fdfcf9}.ink{fill:#24211c}.soft{fill:#6b655b}.rule{stroke:#d8d2c6;fill:none}.frame{stroke:#8c8578;fill:none}\
.one{stroke:#0b5c6b}.two{stroke:#a34a12}.curve{fill:none;stroke-width:2.2;stroke-linejoin:round}.dash{stroke-dasharray:7 5}\
.band{fill:#0b5c6b;opacity:.16}.level{stroke:#24211c;stroke-dasharray:2 4;stroke-width:1.4}.span{fill:#e9e3d6;stroke:#fdfcf9}\
.mark{stroke:#6b655b;stroke-width:1.2}.point{fill:#fdfcf9;stroke:#24211c;stroke-width:1.8}text{font:12.5px system-ui,sans-serif}.title{font-size:16px;font-weight:600}\
@media(prefers-color-scheme:dark){.paper{fill:#1d1f21}.ink{fill:#ece8df}.soft{fill:#a8a297}.rule{stroke:#3a3c3e}\
.frame{stroke:#77736b}.one{stroke:#5fc3d4}.two{stroke:#f0a267}.band{fill:#5fc3d4}.level{stroke:#ece8df}\
.span{fill:#34373a;stroke:#1d1f21}.mark{stroke:#a8a297}.point{fill:#1d1f21;stroke:#ece8df}}";

/// Bytes of an SVG.
pub(crate) fn chart_svg(chart: &Chart) -> io::Result<Vec<u8>> {
    let top = TOP + if chart.spans.is_empty() { 0.0 } else { SPAN + 18.0 };
    let count = chart.panels.len() as f64;
    let foot = top + count * PANEL + (count - 1.0).max(0.0) * GAP + FOOT;
    let notes: Vec<String> = chart.notes.iter().flat_map(|note| wrapped(note)).collect();
    let height = foot + notes.len() as f64 * NOTE + if notes.is_empty() { 0.0 } else { 12.0 };
    let mut xml = Writer::new_with_indent(Vec::new(), b' ', 1);
    let view = format!("0 0 {WIDTH} {height}");
    let attributes = [
        ("xmlns", "http://www.w3.org/2000/svg"),
        ("viewBox", view.as_str()),
        ("width", "760"),
        ("height", &height.to_string()),
        ("role", "img"),
    ];
    xml.create_element("svg").with_attributes(attributes).write_inner_content(|xml| {
        xml.create_element("title").write_text_content(BytesText::new(&chart.title))?;
        xml.create_element("desc").write_text_content(BytesText::new(&chart.told))?;
        xml.create_element("style").write_text_content(BytesText::from_escaped(STYLE))?;
        rectangle(xml, "paper", [0.0, 0.0, WIDTH, height])?;
        text(xml, "ink title", [LEFT, 30.0], "start", &chart.title)?;
        spans(xml, chart)?;
        for (number, panel) in chart.panels.iter().enumerate() {
            let from = top + number as f64 * (PANEL + GAP);
            draw(xml, chart, panel, from, number + 1 == chart.panels.len())?;
        }
        for (number, line) in notes.iter().enumerate() {
            text(xml, "soft", [LEFT, foot + 8.0 + number as f64 * NOTE], "start", line)?;
        }
        Ok(())
    })?;
    xml.write_event(Event::Text(BytesText::new("\n")))?;
    Ok(xml.into_inner())
}

/// A sentence in lines as wide as the plot.
fn wrapped(note: &str) -> Vec<String> {
    let most = ((WIDTH - LEFT - RIGHT) / LETTER) as usize;
    textwrap::wrap(note, most).into_iter().map(std::borrow::Cow::into_owned).collect()
}

fn x_of(chart: &Chart, value: f64) -> f64 {
    LEFT + chart.across.share(value) * (WIDTH - LEFT - RIGHT)
}

fn y_of(panel: &Panel, top: f64, value: f64) -> f64 {
    top + (1.0 - panel.up.share(value)) * PANEL
}

fn spans(xml: &mut Xml, chart: &Chart) -> io::Result<()> {
    for span in &chart.spans {
        let (left, right) = (x_of(chart, span.from), x_of(chart, span.to));
        rectangle(xml, "span", [left, TOP - 6.0, right - left, SPAN])?;
        let room = ((right - left) / LETTER) as usize;
        if room >= span.label.chars().count() {
            text(xml, "ink", [f64::midpoint(left, right), TOP + 9.5], "middle", &span.label)?;
        } else if room >= 6 {
            let kept: String = span.label.chars().take(room - 1).collect();
            text(xml, "ink", [f64::midpoint(left, right), TOP + 9.5], "middle", &format!("{kept}…"))?;
        }
    }
    Ok(())
}

fn draw(xml: &mut Xml, chart: &Chart, panel: &Panel, top: f64, last: bool) -> io::Result<()> {
    let bottom = top + PANEL;
    for tick in panel.up.ticks() {
        let y = y_of(panel, top, tick.value);
        line(xml, "rule", [LEFT, y, WIDTH - RIGHT, y])?;
        text(xml, "soft", [LEFT - 8.0, y + 4.0], "end", &tick.label)?;
    }
    for tick in chart.across.ticks() {
        let x = x_of(chart, tick.value);
        line(xml, "rule", [x, top, x, bottom])?;
        if last {
            text(xml, "soft", [x, bottom + 18.0], "middle", &tick.label)?;
        }
    }
    if last {
        text(xml, "ink", [f64::midpoint(LEFT, WIDTH - RIGHT), bottom + 40.0], "middle", &chart.across.label)?;
    }
    rectangle(xml, "frame", [LEFT, top, WIDTH - LEFT - RIGHT, PANEL])?;
    text(xml, "ink", [LEFT, top - 7.0], "start", &panel.up.label)?;
    for band in &panel.bands {
        let place = |x: f64, y: f64| format!("{:.1},{:.1} ", x_of(chart, x), y_of(panel, top, y));
        let there = band.points.iter().map(|&(x, low, _)| place(x, low));
        let back = band.points.iter().rev().map(|&(x, _, high)| place(x, high));
        let points: String = there.chain(back).collect();
        let attributes = [("class", "band"), ("points", points.trim_end())];
        xml.create_element("polygon").with_attributes(attributes).write_empty()?;
    }
    for level in panel.levels.iter().filter(|level| panel.up.holds(level.value)) {
        let y = y_of(panel, top, level.value);
        line(xml, "level", [LEFT, y, WIDTH - RIGHT, y])?;
        text(xml, "ink", [LEFT + 8.0, y - 5.0], "start", &level.label)?;
    }
    if let Some((place, words)) = &chart.mark
        && chart.across.holds(*place)
    {
        let x = x_of(chart, *place);
        line(xml, "mark", [x, top, x, bottom])?;
        if last {
            text(xml, "soft", [x + 5.0, bottom - 8.0], "start", words)?;
        }
    }
    let longest = panel.lines.iter().map(|curve| curve.label.chars().count()).max().unwrap_or(0) as f64;
    for (number, curve) in panel.lines.iter().enumerate() {
        let mut path = String::new();
        let mut pen_down = false;
        for &(x, value) in &curve.points {
            let Some(value) = value else {
                pen_down = false;
                continue;
            };
            let step = if pen_down { 'L' } else { 'M' };
            let _ = write!(path, "{step}{:.1} {:.1}", x_of(chart, x), y_of(panel, top, value));
            pen_down = true;
        }
        let color = if number % 2 == 0 { "one" } else { "two" };
        let class = format!("curve {color}{}", if curve.dashed { " dash" } else { "" });
        xml.create_element("path").with_attributes([("class", class.as_str()), ("d", &path)]).write_empty()?;
        let y = top + 18.0 + 18.0 * number as f64;
        // One line needs no name beside that of its axis.
        if panel.lines.len() < 2 {
            continue;
        }
        let words = WIDTH - RIGHT - 12.0 - LETTER * longest;
        line(xml, &class, [words - 40.0, y - 4.0, words - 10.0, y - 4.0])?;
        text(xml, "ink", [words, y], "start", &curve.label)?;
    }
    let mut named: Vec<(f64, f64)> = Vec::new();
    for point in panel.points.iter().filter(|point| chart.across.holds(point.place.0)) {
        let (x, y) = (x_of(chart, point.place.0), y_of(panel, top, point.place.1));
        // Names of points that meet stand beside each other.
        let met = named.iter().filter(|(a, b)| (a - x).abs() < 14.0 && (b - y).abs() < 14.0).count();
        named.push((x, y));
        let (cx, cy) = (format!("{x:.1}"), format!("{y:.1}"));
        let attributes = [("class", "point"), ("cx", cx.as_str()), ("cy", &cy), ("r", "4.5")];
        xml.create_element("circle").with_attributes(attributes).write_empty()?;
        text(xml, "ink", [x + 8.0 + 14.0 * met as f64, y + 4.0], "start", &point.label)?;
    }
    Ok(())
}

fn rectangle(xml: &mut Xml, class: &str, place: [f64; 4]) -> io::Result<()> {
    shape(xml, "rect", class, ["x", "y", "width", "height"], place)
}

fn line(xml: &mut Xml, class: &str, ends: [f64; 4]) -> io::Result<()> {
    shape(xml, "line", class, ["x1", "y1", "x2", "y2"], ends)
}

fn shape(xml: &mut Xml, name: &str, class: &str, keys: [&str; 4], place: [f64; 4]) -> io::Result<()> {
    let place = place.map(|number| format!("{number:.1}"));
    let attributes = keys.into_iter().zip(place.iter().map(String::as_str));
    xml.create_element(name).with_attribute(("class", class)).with_attributes(attributes).write_empty()?;
    Ok(())
}

fn text(xml: &mut Xml, class: &str, [x, y]: [f64; 2], anchor: &str, words: &str) -> io::Result<()> {
    let (x, y) = (format!("{x:.1}"), format!("{y:.1}"));
    let attributes = [("class", class), ("x", x.as_str()), ("y", &y), ("text-anchor", anchor)];
    xml.create_element("text").with_attributes(attributes).write_text_content(BytesText::new(words))?;
    Ok(())
}
