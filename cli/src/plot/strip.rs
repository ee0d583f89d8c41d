use std::io;

use super::Axis;
use super::picture::{Pen, Picture};

/// One scale with a stretch on it, a wider thin one round that, and places marked above and below.
#[derive(Debug, Clone)]
pub(crate) struct Strip {
    pub(crate) title: String,
    /// What it shows, in sentences.
    pub(crate) told: String,
    pub(crate) along: Axis,
    /// The stretch that counts.
    pub(crate) stretch: (f64, f64),
    /// How far its ends may be off.
    pub(crate) whiskers: (f64, f64),
    /// Marked above, with words.
    pub(crate) above: Vec<(f64, String)>,
    /// Marked below: the limit to compare with.
    pub(crate) limit: (f64, String),
}

const WIDTH: f64 = 760.0;
const LEFT: f64 = 40.0;
const BAR: f64 = 22.0;

impl Strip {
    /// Draws it; a page that has the title already leaves it out.
    pub(crate) fn picture(&self, titled: bool) -> io::Result<Picture> {
        let top = if titled { 74.0 } else { 40.0 };
        Picture::new([WIDTH, top + 92.0], &self.title, &self.told, |pen| self.draw(pen, top, titled))
    }

    fn x(&self, value: f64) -> f64 {
        LEFT + self.along.share(value) * (WIDTH - 2.0 * LEFT)
    }

    fn draw(&self, pen: &mut Pen, top: f64, titled: bool) -> io::Result<()> {
        if titled {
            pen.text("ink title", [LEFT, 30.0], "start", &self.title)?;
        }
        let (middle, bottom) = (top + 0.5 * BAR, top + BAR);
        pen.rectangle("span", [LEFT, top, WIDTH - 2.0 * LEFT, BAR])?;
        for tick in self.along.ticks() {
            let x = self.x(tick.value);
            pen.line("frame", [x, bottom, x, bottom + 5.0])?;
            pen.text("soft", [x, bottom + 19.0], "middle", &tick.label)?;
        }
        pen.text("soft", [WIDTH - LEFT, bottom + 37.0], "end", &self.along.label)?;
        let (low, high) = (self.x(self.whiskers.0), self.x(self.whiskers.1));
        pen.line("mark", [low, middle, high, middle])?;
        for x in [low, high] {
            pen.line("mark", [x, middle - 6.0, x, middle + 6.0])?;
        }
        let (from, to) = (self.x(self.stretch.0), self.x(self.stretch.1));
        pen.rectangle("fill-one", [from, top + 3.0, (to - from).max(3.0), BAR - 6.0])?;
        // Neighbouring words that would meet turn away from each other.
        for (number, (value, words)) in self.above.iter().enumerate() {
            let x = self.x(*value);
            pen.line("frame", [x, top - 6.0, x, top])?;
            let anchor = match (number, self.above.len()) {
                (0, 2..) => "end",
                (last, count) if last + 1 == count && count > 1 => "start",
                _ => "middle",
            };
            let half = 3.2 * words.chars().count() as f64;
            let (place, anchor) = match anchor {
                "end" if x - 2.0 * half < 0.0 => (4.0, "start"),
                "start" if x + 2.0 * half > WIDTH => (WIDTH - 4.0, "end"),
                _ => (x, anchor),
            };
            pen.text("ink", [place, top - 12.0], anchor, words)?;
        }
        let (value, words) = &self.limit;
        let x = self.x(*value);
        let half = 3.4 * words.chars().count() as f64;
        pen.line("two", [x, top - 4.0, x, bottom + 28.0])?;
        pen.text("ink", [x.clamp(half, WIDTH - half), bottom + 42.0], "middle", words)
    }
}
