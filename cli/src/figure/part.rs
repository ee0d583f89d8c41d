use std::fmt::Write as _;
use std::io;

use layload_core::drawing::{Drawing, Side, View};
use layload_core::report::{BoreReport, Report};

use super::places::Place;
use crate::plot::{LETTER, Pen, Picture};

/// Room round the views and between them, px.
const MARGIN: f64 = 46.0;
const GAP: f64 = 64.0;

/// Room for the numbers of the places above a view, px.
const TAGS: f64 = 40.0;

const WIDTH: f64 = 1000.0;

/// Greatest height of the views together, px: a page in print has room for it.
const HEIGHT: f64 = 760.0;

/// Cuts marked along the load path, at most.
const CUTS: usize = 40;

/// The part from three sides with its bores, cuts, load path and numbered places. `to` gives the target of a number.
pub(crate) fn part(
    report: &Report,
    drawing: &Drawing,
    places: &[Place],
    to: Option<&dyn Fn(&Place) -> String>,
) -> io::Result<Picture> {
    let layout = Layout::of(&drawing.views);
    let words = report.part.kind.words();
    let named: Vec<String> = places.iter().map(|place| format!("{}: {}", place.number, place.words)).collect();
    let told = format!(
        "The {words} along the pins, across them and along its axis, hidden lines left out, {:.1} by {:.1} by {:.1} mm in the \
         file. Numbered places: {}.",
        report.mesh.size_mm[0],
        report.mesh.size_mm[1],
        report.mesh.size_mm[2],
        if named.is_empty() { "none".into() } else { named.join("; ") }
    );
    Picture::new([WIDTH, layout.height], "The part from three sides", &told, |pen| {
        for (view, corner) in drawing.views.iter().zip(&layout.corners) {
            let sheet = OnSheet { view, corner: *corner, scale: layout.scale };
            sheet.lines(pen)?;
            sheet.bores(pen, &report.part.bores)?;
            if view.side != Side::Along {
                sheet.path(pen, report)?;
            }
            if view.side == Side::AlongPins || view.side == Side::AcrossPins {
                sheet.places(pen, places, to)?;
            }
            sheet.caption(pen)?;
        }
        ruler(pen, &layout)
    })
}

/// Where the views lie: the second below the first, the third on its right.
struct Layout {
    scale: f64,
    corners: Vec<[f64; 2]>,
    height: f64,
}

impl Layout {
    fn of(views: &[View]) -> Self {
        let size = |k: usize| views.get(k).map_or([1.0; 2], |v| [v.high[0] - v.low[0], v.high[1] - v.low[1]]);
        let [first, second, third] = [size(0), size(1), size(2)];
        // A long part has its second view below, a short one beside.
        let long = first[0] > 1.6 * first[1];
        if long {
            let across = first[0].max(second[0]) + third[0];
            let up = first[1].max(third[1]) + second[1];
            let scale = ((WIDTH - 2.0 * MARGIN - GAP) / across).min((HEIGHT - GAP - 2.0 * TAGS) / up);
            let row = first[1].max(third[1]) * scale;
            let below = TAGS + row + 26.0 + GAP;
            let middle = |height: f64| TAGS + 0.5 * (row - height * scale);
            Self {
                scale,
                corners: vec![
                    [MARGIN, middle(first[1])],
                    [MARGIN, below],
                    [WIDTH - MARGIN - third[0] * scale, middle(third[1])],
                ],
                height: below + second[1] * scale + 64.0,
            }
        } else {
            let across = first[0] + second[0] + third[0];
            let up = first[1].max(second[1]).max(third[1]);
            let scale = ((WIDTH - 2.0 * MARGIN - 2.0 * GAP) / across).min((HEIGHT - 2.0 * TAGS) / up);
            let middle = |height: f64| TAGS + 0.5 * (up - height) * scale;
            let second_left = MARGIN + first[0] * scale + GAP;
            Self {
                scale,
                corners: vec![
                    [MARGIN, middle(first[1])],
                    [second_left, middle(second[1])],
                    [second_left + second[0] * scale + GAP, middle(third[1])],
                ],
                height: TAGS + up * scale + 78.0,
            }
        }
    }
}

/// A length to measure by, in the lower right corner.
fn ruler(pen: &mut Pen, layout: &Layout) -> io::Result<()> {
    let length = [100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0].into_iter().find(|mm| mm * layout.scale < 0.2 * WIDTH);
    let Some(mm) = length else { return Ok(()) };
    let (right, y) = (WIDTH - MARGIN, layout.height - 22.0);
    let left = right - mm * layout.scale;
    pen.line("mark", [left, y, right, y])?;
    for x in [left, right] {
        pen.line("mark", [x, y - 5.0, x, y + 5.0])?;
    }
    pen.text("soft", [f64::midpoint(left, right), y - 7.0], "middle", &format!("{mm:.0} mm"))
}

/// A view at its place on the sheet.
struct OnSheet<'a> {
    view: &'a View,
    corner: [f64; 2],
    scale: f64,
}

impl OnSheet<'_> {
    fn at(&self, [u, v]: [f64; 2]) -> [f64; 2] {
        [self.corner[0] + (u - self.view.low[0]) * self.scale, self.corner[1] + (self.view.high[1] - v) * self.scale]
    }

    fn of(&self, point_mm: [f64; 3]) -> [f64; 2] {
        self.at(self.view.place(point_mm))
    }

    fn lines(&self, pen: &mut Pen) -> io::Result<()> {
        for (class, lines) in [("edge", &self.view.edges), ("outline", &self.view.outlines)] {
            let mut path = String::new();
            for line in lines {
                for (number, &point) in line.iter().enumerate() {
                    let [x, y] = self.at(point);
                    let _ = write!(path, "{}{x:.1} {y:.1}", if number == 0 { 'M' } else { 'L' });
                }
            }
            if !path.is_empty() {
                pen.element("path", &[("class", class), ("d", &path)])?;
            }
        }
        Ok(())
    }

    /// Centre lines of the bores, with their diameter where they are seen round.
    fn bores(&self, pen: &mut Pen, bores: &[BoreReport]) -> io::Result<()> {
        for bore in bores {
            let [x, y] = self.of(bore.center_mm);
            let ahead: f64 = bore.axis.iter().zip(cross(self.view.right, self.view.up)).map(|(a, b)| a * b).sum();
            if ahead.abs() > 0.99 {
                let reach = 0.5 * bore.diameter_mm * self.scale + 9.0;
                pen.line("axis", [x - reach, y, x + reach, y])?;
                pen.line("axis", [x, y - reach, x, y + reach])?;
                let words = format!("⌀ {:.2}", bore.diameter_mm);
                // On the right inside where there is room for it, else below the view with a line to it.
                let radius = 0.5 * bore.diameter_mm * self.scale;
                let width = LETTER * words.chars().count() as f64;
                if 1.15 * width + 8.0 < radius {
                    pen.text("soft", [x + 4.0, y - 5.0], "start", &words)?;
                } else {
                    let [bottom, middle] = self.below();
                    let start = [x + 0.5 * radius, y + 0.866 * radius];
                    let end = x + 0.5 * radius + 0.3 * (bottom - start[1]).max(0.0);
                    // Under the caption where it would run into that.
                    let taken = 0.5 * (width + LETTER * self.words().chars().count() as f64) + 8.0;
                    let under = bottom + if (end - middle).abs() < taken { 28.0 } else { 8.0 };
                    pen.line("mark", [start[0], start[1], end, bottom + 6.0])?;
                    pen.text("soft", [end.max(0.5 * width + 4.0), under + 14.0], "middle", &words)?;
                }
            } else {
                let reach = 0.5 * bore.depth_mm + 9.0 / self.scale;
                let end = |sign: f64| {
                    let point: Vec<f64> =
                        bore.center_mm.iter().zip(bore.axis).map(|(c, a)| c + sign * reach * a).collect();
                    self.of([point[0], point[1], point[2]])
                };
                let ([x1, y1], [x2, y2]) = (end(-1.0), end(1.0));
                pen.line("axis", [x1, y1, x2, y2])?;
            }
        }
        Ok(())
    }

    /// The load path with its cuts: of a rod from bore to bore, of a piston up its axis.
    fn path(&self, pen: &mut Pen, report: &Report) -> io::Result<()> {
        let Some((origin, along)) = report.part.path.as_ref().map(|path| (path.origin_mm, path.along)) else {
            return Ok(());
        };
        let at = |mm: f64| {
            let point: Vec<f64> = origin.iter().zip(along).map(|(o, a)| o + mm * a).collect();
            self.of([point[0], point[1], point[2]])
        };
        let (Some(first), Some(last)) = (report.stations.first(), report.stations.last()) else { return Ok(()) };
        let ([x1, y1], [x2, y2]) = (at(first.position_mm), at(last.position_mm));
        pen.line("axis", [x1, y1, x2, y2])?;
        let length = ((x2 - x1).powi(2) + (y2 - y1).powi(2)).sqrt().max(1e-9);
        let across = [-(y2 - y1) / length * 4.0, (x2 - x1) / length * 4.0];
        let stride = report.stations.len().div_ceil(CUTS).max(1);
        for station in report.stations.iter().step_by(stride) {
            let [x, y] = at(station.position_mm);
            pen.line("cut", [x - across[0], y - across[1], x + across[0], y + across[1]])?;
        }
        Ok(())
    }

    /// Numbers of the places, above the view, with a line to each place.
    fn places(&self, pen: &mut Pen, places: &[Place], to: Option<&dyn Fn(&Place) -> String>) -> io::Result<()> {
        let mut spots: Vec<(usize, [f64; 2])> = places.iter().map(|p| self.of(p.center_mm)).enumerate().collect();
        spots.sort_by(|a, b| a.1[0].total_cmp(&b.1[0]));
        // Numbers keep their order and stand apart.
        let mut rows: Vec<f64> = Vec::new();
        for (_, [x, _]) in &spots {
            let free = rows.last().map_or(f64::NEG_INFINITY, |last| last + 26.0);
            rows.push(x.max(free).max(14.0));
        }
        let over = rows.last().map_or(0.0, |last| last - (WIDTH - 14.0)).max(0.0);
        let y = self.corner[1] - 22.0;
        for ((index, [px, py]), x) in spots.iter().zip(rows.iter().map(|x| x - over)) {
            let place = &places[*index];
            pen.element("path", &[("class", "leader"), ("d", &format!("M{x:.1} {:.1}L{px:.1} {py:.1}", y + 10.0))])?;
            pen.circle("tag", [*px, *py, 3.2])?;
            let tag = |pen: &mut Pen| {
                pen.circle("tag", [x, y, 11.0])?;
                pen.text("tag-ink", [x, y + 4.5], "middle", &place.number.to_string())
            };
            match to {
                Some(to) => pen.link(&to(place), tag)?,
                None => tag(pen)?,
            }
        }
        Ok(())
    }

    fn words(&self) -> String {
        let [width, height] = self.size();
        format!("{}, {width:.1} × {height:.1} mm", self.view.side.words())
    }

    fn size(&self) -> [f64; 2] {
        [0, 1].map(|k| self.view.high[k] - self.view.low[k])
    }

    /// Lower edge of the view and the middle of its width on the sheet.
    fn below(&self) -> [f64; 2] {
        let [width, height] = self.size();
        [self.corner[1] + height * self.scale, self.corner[0] + 0.5 * width * self.scale]
    }

    fn caption(&self, pen: &mut Pen) -> io::Result<()> {
        let words = self.words();
        let [bottom, middle] = self.below();
        let half = 0.5 * LETTER * words.chars().count() as f64;
        let place = [middle.clamp(half + 4.0, WIDTH - half - 4.0), bottom + 24.0];
        pen.text("soft", place, "middle", &words)
    }
}

fn cross(a: [f64; 3], b: [f64; 3]) -> [f64; 3] {
    [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
}
