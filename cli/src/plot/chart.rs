use super::Axis;

/// Panels above each other over one axis.
#[derive(Debug, Clone)]
pub struct Chart {
    /// Its headline.
    pub title: String,
    /// What it shows, in sentences, for those who do not see it.
    pub told: String,
    /// The axis of all panels.
    pub across: Axis,
    /// From the top down.
    pub panels: Vec<Panel>,
    /// Named stretches along the axis, drawn above the first panel.
    pub spans: Vec<Span>,
    /// A place along the axis to mark, with its words.
    pub mark: Option<(f64, String)>,
    /// Sentences below it.
    pub notes: Vec<String>,
}

/// One plot.
#[derive(Debug, Clone)]
pub struct Panel {
    /// Its upright axis.
    pub up: Axis,
    /// Lines over the axis.
    pub lines: Vec<Line>,
    /// Rooms between two lines.
    pub bands: Vec<Band>,
    /// Level lines.
    pub levels: Vec<Level>,
    /// Points with their names.
    pub points: Vec<Point>,
}

/// A single point with a short name.
#[derive(Debug, Clone)]
pub struct Point {
    /// Across and up.
    pub place: (f64, f64),
    /// Its name.
    pub label: String,
}

/// A line through points; it is broken where a value is missing.
#[derive(Debug, Clone)]
pub struct Line {
    /// Its name.
    pub label: String,
    /// Place, and value where there is one.
    pub points: Vec<(f64, Option<f64>)>,
    /// Whether it is dashed.
    pub dashed: bool,
}

/// The room between two lines: place, low, high.
#[derive(Debug, Clone)]
pub struct Band {
    /// Place, low, high.
    pub points: Vec<(f64, f64, f64)>,
}

/// A level line with its words.
#[derive(Debug, Clone)]
pub struct Level {
    /// How high up.
    pub value: f64,
    /// Its name.
    pub label: String,
}

/// A named stretch along the axis.
#[derive(Debug, Clone)]
pub struct Span {
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// Its name.
    pub label: String,
}
