use std::fmt::Write as _;
use std::io;

use super::chart::{Chart, Panel};
use super::picture::{LETTER, Pen, Picture};

/// Margins round the panels and what lies between them, px.
const LEFT: f64 = 76.0;
const RIGHT: f64 = 24.0;
const GAP: f64 = 26.0;
const FOOT: f64 = 52.0;

/// Height of the row of named stretches, px.
const SPAN: f64 = 22.0;

/// Height of a line of notes, px.
const NOTE: f64 = 17.0;

/// How large a chart is drawn.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Sheet {
    width: f64,
    panel: f64,
    /// Above the panels, the title included where it is drawn.
    top: f64,
    titled: bool,
}

impl Sheet {
    /// A file of its own, with the title in it.
    pub(crate) const FILE: Self = Self { width: 760.0, panel: 230.0, top: 60.0, titled: true };

    /// A column of a page that sets the title itself.
    pub(crate) const COLUMN: Self = Self { width: 480.0, panel: 150.0, top: 26.0, titled: false };
}

/// Bytes of an SVG file.
pub fn chart_svg(chart: &Chart) -> io::Result<Vec<u8>> {
    chart_picture(chart, Sheet::FILE)?.file()
}

/// A chart on a sheet.
pub(crate) fn chart_picture(chart: &Chart, sheet: Sheet) -> io::Result<Picture> {
    let top = sheet.top + if chart.spans.is_empty() { 0.0 } else { SPAN + 18.0 };
    let count = chart.panels.len() as f64;
    let foot = top + count * sheet.panel + (count - 1.0).max(0.0) * GAP + FOOT;
    let notes: Vec<String> = chart.notes.iter().flat_map(|note| sheet.wrapped(note)).collect();
    let height = foot + notes.len() as f64 * NOTE + if notes.is_empty() { 0.0 } else { 12.0 };
    Picture::new([sheet.width, height], &chart.title, &chart.told, |pen| {
        if sheet.titled {
            pen.text("ink title", [LEFT, 30.0], "start", &chart.title)?;
        }
        let drawn = Drawn { chart, sheet };
        drawn.spans(pen)?;
        for (number, panel) in chart.panels.iter().enumerate() {
            let from = top + number as f64 * (sheet.panel + GAP);
            drawn.panel(pen, panel, from, number + 1 == chart.panels.len())?;
        }
        for (number, line) in notes.iter().enumerate() {
            pen.text("soft", [LEFT, foot + 8.0 + number as f64 * NOTE], "start", line)?;
        }
        Ok(())
    })
}

impl Sheet {
    /// A sentence in lines as wide as the plot.
    fn wrapped(self, note: &str) -> Vec<String> {
        let most = ((self.width - LEFT - RIGHT) / LETTER) as usize;
        textwrap::wrap(note, most).into_iter().map(std::borrow::Cow::into_owned).collect()
    }
}

/// A chart on its sheet.
struct Drawn<'a> {
    chart: &'a Chart,
    sheet: Sheet,
}

impl Drawn<'_> {
    fn right(&self) -> f64 {
        self.sheet.width - RIGHT
    }

    fn x(&self, value: f64) -> f64 {
        LEFT + self.chart.across.share(value) * (self.right() - LEFT)
    }

    fn y(&self, panel: &Panel, top: f64, value: f64) -> f64 {
        top + (1.0 - panel.up.share(value)) * self.sheet.panel
    }

    fn spans(&self, pen: &mut Pen) -> io::Result<()> {
        let top = self.sheet.top;
        for span in &self.chart.spans {
            let (left, right) = (self.x(span.from), self.x(span.to));
            pen.rectangle("span", [left, top - 6.0, right - left, SPAN])?;
            let room = ((right - left) / LETTER) as usize;
            if room >= span.label.chars().count() {
                pen.text("ink", [f64::midpoint(left, right), top + 9.5], "middle", &span.label)?;
            } else if room >= 6 {
                let kept: String = span.label.chars().take(room - 1).collect();
                pen.text("ink", [f64::midpoint(left, right), top + 9.5], "middle", &format!("{kept}…"))?;
            }
        }
        Ok(())
    }

    fn panel(&self, pen: &mut Pen, panel: &Panel, top: f64, last: bool) -> io::Result<()> {
        self.frame(pen, panel, top, last)?;
        let (chart, right, bottom) = (self.chart, self.right(), top + self.sheet.panel);
        for band in &panel.bands {
            let place = |x: f64, y: f64| format!("{:.1},{:.1} ", self.x(x), self.y(panel, top, y));
            let there = band.points.iter().map(|&(x, low, _)| place(x, low));
            let back = band.points.iter().rev().map(|&(x, _, high)| place(x, high));
            let points: String = there.chain(back).collect();
            pen.element("polygon", &[("class", "band"), ("points", points.trim_end())])?;
        }
        for level in panel.levels.iter().filter(|level| panel.up.holds(level.value)) {
            let y = self.y(panel, top, level.value);
            pen.line("level", [LEFT, y, right, y])?;
            // Words over the line, under it where it is the upper edge.
            let words = if y - top < 16.0 { y + 14.0 } else { y - 5.0 };
            pen.text("ink", [LEFT + 8.0, words], "start", &level.label)?;
        }
        if let Some((place, words)) = &chart.mark
            && chart.across.holds(*place)
        {
            let x = self.x(*place);
            pen.line("mark", [x, top, x, bottom])?;
            if last {
                pen.text("soft", [x + 5.0, bottom - 8.0], "start", words)?;
            }
        }
        self.lines(pen, panel, top)?;
        let mut named: Vec<(f64, f64)> = Vec::new();
        for point in panel.points.iter().filter(|point| chart.across.holds(point.place.0)) {
            let (x, y) = (self.x(point.place.0), self.y(panel, top, point.place.1));
            // Names of points that meet stand beside each other.
            let met = named.iter().filter(|(a, b)| (a - x).abs() < 14.0 && (b - y).abs() < 14.0).count();
            named.push((x, y));
            pen.circle("point", [x, y, 4.5])?;
            pen.text("ink", [x + 8.0 + 14.0 * met as f64, y + 4.0], "start", &point.label)?;
        }
        Ok(())
    }

    /// Rules, numbers and names of the axes.
    fn frame(&self, pen: &mut Pen, panel: &Panel, top: f64, last: bool) -> io::Result<()> {
        let (right, bottom) = (self.right(), top + self.sheet.panel);
        for tick in panel.up.ticks() {
            let y = self.y(panel, top, tick.value);
            pen.line("rule", [LEFT, y, right, y])?;
            pen.text("soft", [LEFT - 8.0, y + 4.0], "end", &tick.label)?;
        }
        for tick in self.chart.across.ticks() {
            let x = self.x(tick.value);
            pen.line("rule", [x, top, x, bottom])?;
            if last {
                pen.text("soft", [x, bottom + 18.0], "middle", &tick.label)?;
            }
        }
        if last {
            pen.text("ink", [f64::midpoint(LEFT, right), bottom + 40.0], "middle", &self.chart.across.label)?;
        }
        pen.rectangle("frame", [LEFT, top, right - LEFT, self.sheet.panel])?;
        pen.text("ink", [LEFT, top - 7.0], "start", &panel.up.label)
    }

    fn lines(&self, pen: &mut Pen, panel: &Panel, top: f64) -> io::Result<()> {
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
                let _ = write!(path, "{step}{:.1} {:.1}", self.x(x), self.y(panel, top, value));
                pen_down = true;
            }
            let color = if number % 2 == 0 { "one" } else { "two" };
            let class = format!("curve {color}{}", if curve.dashed { " dash" } else { "" });
            pen.element("path", &[("class", &class), ("d", &path)])?;
            // One line needs no name beside that of its axis.
            if panel.lines.len() < 2 {
                continue;
            }
            let y = top + 18.0 + 18.0 * number as f64;
            let words = self.right() - 12.0 - LETTER * longest;
            pen.line(&class, [words - 40.0, y - 4.0, words - 10.0, y - 4.0])?;
            pen.text("ink", [words, y], "start", &curve.label)?;
        }
        Ok(())
    }
}
