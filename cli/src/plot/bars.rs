use std::io;

use super::picture::{LETTER, Pen, Picture};

/// Bars to both sides of a middle line, each with its words: what makes a number smaller on the left, larger on the
/// right.
#[derive(Debug, Clone)]
pub(crate) struct Bars {
    pub(crate) title: String,
    /// What it shows, in sentences.
    pub(crate) told: String,
    /// What the length of a bar is.
    pub(crate) measure: String,
    pub(crate) list: Vec<Bar>,
}

/// One bar.
#[derive(Debug, Clone)]
pub(crate) struct Bar {
    pub(crate) label: String,
    /// What its end is worth, in words.
    pub(crate) value: String,
    /// Length, negative to the left; the longest fills its side.
    pub(crate) length: f64,
}

const WIDTH: f64 = 760.0;
const MARGIN: f64 = 20.0;
const ROW: f64 = 26.0;

/// Height of a title, px.
const TITLE: f64 = 42.0;

/// Room for the words of a value beside its bar, px.
const VALUE: f64 = 62.0;

impl Bars {
    /// Draws them; a page that has the title already leaves it out.
    pub(crate) fn picture(&self, titled: bool) -> io::Result<Picture> {
        let top = if titled { TITLE } else { 4.0 };
        let height = top + ROW * self.list.len() as f64 + 34.0;
        Picture::new([WIDTH, height], &self.title, &self.told, |pen| self.draw(pen, top, titled))
    }

    fn draw(&self, pen: &mut Pen, top: f64, titled: bool) -> io::Result<()> {
        if titled {
            pen.text("ink title", [MARGIN, 28.0], "start", &self.title)?;
        }
        let longest = self.list.iter().map(|bar| bar.label.chars().count()).max().unwrap_or(0) as f64;
        let left = (MARGIN + LETTER * longest + 12.0).min(0.55 * WIDTH);
        let (room, most) = (WIDTH - MARGIN - left, self.list.iter().map(|bar| bar.length.abs()).fold(1e-9, f64::max));
        let side = |sign: f64| self.list.iter().map(|bar| sign * bar.length).fold(0.0, f64::max) / most;
        // Both sides to one scale, the middle where both fit.
        let scale = (room - 2.0 * VALUE) / (side(-1.0) + side(1.0)).max(1e-9);
        let middle = left + VALUE + side(-1.0) * scale;
        let bottom = top + ROW * self.list.len() as f64;
        for (number, bar) in self.list.iter().enumerate() {
            let y = top + ROW * number as f64;
            pen.text("ink", [left - 12.0, y + 17.0], "end", &bar.label)?;
            let end = middle + bar.length / most * scale;
            let class = if bar.length < 0.0 { "fill-two" } else { "fill-one" };
            pen.rectangle(class, [middle.min(end), y + 5.0, (end - middle).abs().max(0.8), ROW - 10.0])?;
            let (at, anchor) = if bar.length < 0.0 { (end - 6.0, "end") } else { (end + 6.0, "start") };
            pen.text("ink", [at, y + 17.0], anchor, &bar.value)?;
        }
        pen.line("mark", [middle, top, middle, bottom])?;
        pen.text("soft", [WIDTH - MARGIN, bottom + 20.0], "end", &self.measure)
    }
}
