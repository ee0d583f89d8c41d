use super::Axis;

/// Panels above each other over one axis.
#[derive(Debug, Clone)]
pub(crate) struct Chart {
    pub(crate) title: String,
    /// What it shows, in sentences, for those who do not see it.
    pub(crate) told: String,
    pub(crate) across: Axis,
    pub(crate) panels: Vec<Panel>,
    /// Named stretches along the axis, drawn above the first panel.
    pub(crate) spans: Vec<Span>,
    /// A place along the axis to mark, with its words.
    pub(crate) mark: Option<(f64, String)>,
    /// Sentences below it.
    pub(crate) notes: Vec<String>,
}

/// One plot.
#[derive(Debug, Clone)]
pub(crate) struct Panel {
    pub(crate) up: Axis,
    pub(crate) lines: Vec<Line>,
    pub(crate) bands: Vec<Band>,
    pub(crate) levels: Vec<Level>,
    pub(crate) points: Vec<Point>,
}

/// A single point with a short name.
#[derive(Debug, Clone)]
pub(crate) struct Point {
    pub(crate) place: (f64, f64),
    pub(crate) label: String,
}

/// A line through points; it is broken where a value is missing.
#[derive(Debug, Clone)]
pub(crate) struct Line {
    pub(crate) label: String,
    pub(crate) points: Vec<(f64, Option<f64>)>,
    pub(crate) dashed: bool,
}

/// The room between two lines: place, low, high.
#[derive(Debug, Clone)]
pub(crate) struct Band {
    pub(crate) points: Vec<(f64, f64, f64)>,
}

/// A level line with its words.
#[derive(Debug, Clone)]
pub(crate) struct Level {
    pub(crate) value: f64,
    pub(crate) label: String,
}

/// A named stretch along the axis.
#[derive(Debug, Clone)]
pub(crate) struct Span {
    pub(crate) from: f64,
    pub(crate) to: f64,
    pub(crate) label: String,
}
