//! The part painted with one number per facet, as files.

use std::path::{Path, PathBuf};

use layload_core::report::FacetValues;

use crate::args::PaintArguments;
use crate::failure::Failure;
use crate::output::{Form, Outputs, Plan};
use crate::paint::{BadEnd, PaintError, PaintedMesh, Quantity, legend_svg, ply, three_mf};
use crate::visible::shown;

/// What is painted and how its scale runs.
pub(crate) struct Painting<'a> {
    values: &'a FacetValues,
    title: &'static str,
    unit: &'static str,
    range: [f64; 2],
    limit: Option<f64>,
    bad_end: BadEnd,
}

impl<'a> Painting<'a> {
    /// Wall thickness, marked at a limit, mm. The scale ends at four limits: thicker is thick enough.
    pub(crate) fn thickness(values: &'a FacetValues, limit_mm: f64) -> Self {
        Self {
            values,
            title: "wall thickness",
            unit: "mm",
            range: [0.0, 4.0 * limit_mm],
            limit: Some(limit_mm),
            bad_end: BadEnd::Low,
        }
    }

    /// Stress over what is borne for the wanted life, marked where it is used up.
    pub(crate) fn utilisation(values: &'a FacetValues) -> Self {
        let highest = values.values.iter().flatten().copied().fold(0.0, f64::max);
        // A round end a little above the highest value, at least the limit.
        let end = [1.0, 1.5, 2.0, 3.0, 5.0, 10.0, 100.0].into_iter().find(|end| *end >= highest).unwrap_or(1000.0);
        Self {
            values,
            title: "stress over what lasts",
            unit: "",
            range: [0.0, end],
            limit: Some(1.0),
            bad_end: BadEnd::High,
        }
    }

    fn quantity(&self) -> Result<Quantity, PaintError> {
        Quantity::new(self.title, self.unit, self.range, self.limit, self.bad_end)
    }
}

impl PaintArguments {
    /// Adds its files to those that will be written.
    pub(crate) fn planned(&self, mut plan: Plan) -> Result<Plan, Failure> {
        if let Some(path) = &self.mesh_out {
            if kind(path).is_none() {
                return Err(Failure::Refused {
                    message: format!("{} is neither .3mf nor .ply", shown(path)),
                    help: "end the name in .3mf or .ply".into(),
                });
            }
            plan = plan.file(path, Form::Painted)?;
        }
        let Some(path) = &self.legend_out else { return Ok(plan) };
        if !path.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("svg")) {
            return Err(Failure::Refused {
                message: format!("{} is not .svg", shown(path)),
                help: "the scale is written as .svg".into(),
            });
        }
        plan.file(path, Form::Drawing)
    }

    /// Whether anything is to be painted.
    pub(crate) fn wanted(&self) -> bool {
        self.mesh_out.is_some() || self.legend_out.is_some()
    }
}

#[derive(Clone, Copy)]
enum Kind {
    ThreeMf,
    Ply,
}

fn kind(path: &Path) -> Option<Kind> {
    let extension = path.extension()?.to_str()?;
    if extension.eq_ignore_ascii_case("3mf") {
        Some(Kind::ThreeMf)
    } else if extension.eq_ignore_ascii_case("ply") {
        Some(Kind::Ply)
    } else {
        None
    }
}

/// Writes what was asked for, all of it or nothing.
pub(crate) fn write(arguments: &PaintArguments, painting: &Painting<'_>, outputs: &Outputs) -> Result<(), Failure> {
    if !arguments.wanted() {
        return Ok(());
    }
    let mut files: Vec<(PathBuf, Vec<u8>)> = Vec::new();
    let quantity = painting.quantity()?;
    if let Some((path, kind)) = arguments.mesh_out.as_deref().and_then(|path| Some((path, kind(path)?))) {
        let FacetValues { points_mm, facets, values } = painting.values;
        let mesh = PaintedMesh::new(points_mm, facets, values, &quantity)?;
        let bytes = match kind {
            Kind::ThreeMf => three_mf(&mesh)?,
            Kind::Ply => ply(&mesh)?,
        };
        files.push((path.into(), bytes));
    }
    if let Some(path) = &arguments.legend_out {
        files.push((path.clone(), legend_svg(&quantity)?));
    }
    outputs.write(&files)
}
