//! From a mesh and a job to the walls that are too thin.

use super::load::PartSource;
use crate::Error;
use crate::job::{JobError, resolve, resolve_print};
use crate::kind::{Question, Stage, Walled, Watcher, facet_values, posed_in, stage};
use crate::numeric::sort_few;
use crate::part::Frame;
use crate::report::{CAUTIONS, FacetValues, SCHEMA_VERSION, ThinRegionReport, WallsReport};
use crate::units::MM;
use crate::wall::{SOUND_BEADS, Shells, Surface, ThinReason, ThinRegion, WallLimits, WallMap, thin_regions};

/// What is asked of the walls beside the job.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct WallRequest {
    /// Least thickness wanted everywhere, mm, beside the limits that follow from the print.
    pub least_mm: Option<f64>,
    /// Whether the thickness of every facet goes into the report.
    pub every_facet: bool,
}

/// Walls of a rod with the surface they were measured on.
#[derive(Debug, Clone)]
pub struct Walls {
    /// The answer.
    pub report: WallsReport,
    /// Least wall thickness on each facet, mm; `None` for one that bounds nothing.
    pub thickness_mm: FacetValues,
    /// The limit that marks the scale, mm: below it a wall cannot be printed sound.
    pub limit_mm: f64,
}

/// Measures the walls of a rod or a piston.
///
/// Of the job only part and print have to be there; with an engine, a material and a speed in it, walls of a rod whose
/// stress is more than they bear for the wanted life are flagged too.
///
/// # Errors
///
/// Where the mesh is no closed part of a known kind, the job is incomplete or does not belong to it, or the watcher stops the
/// work. Where the least wall asked for is none.
///
/// ```
/// use layload_core::job::Job;
/// use layload_core::{Question, WallRequest, walls};
///
/// # fn main() -> Result<(), Box<dyn std::error::Error>> {
/// # let samples = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
/// # let stl = std::fs::read(format!("{samples}plain_rod.stl"))?;
/// # let job = Job::from_toml(&std::fs::read_to_string(format!("{samples}bench_single.toml"))?)?;
/// # let question = Question { job: &job, card_text: None, pressure_text: None };
/// let walls = walls(&stl, &question, &WallRequest { least_mm: Some(3.0), every_facet: false }, &mut ())?;
/// for thin in &walls.report.thin_regions {
///     println!("{}: {:.2} mm, {}", thin.place, thin.least_thickness_mm, thin.reason);
/// }
/// assert!(walls.report.stress_looked_at);
/// # Ok(())
/// # }
/// ```
pub fn walls<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &WallRequest,
    watcher: &mut dyn Watcher,
) -> Result<Walls, Error> {
    let job = question.job;
    let (pose, print) = resolve_print(job)?;
    let loads_known = match resolve(job, question.card_text, question.pressure_text) {
        Ok(_) => true,
        // No load is known, so none is asked for.
        Err(JobError::Missing { .. }) => false,
        Err(error) => return Err(error.into()),
    };
    let loaded = source.into().part(job, watcher)?;
    let (mended, part) = (loaded.mended, &loaded.part);
    let demand = if loads_known {
        stage(watcher, Stage::Assessing)?;
        part.clone().facet_demand(&loaded, question)?.unwrap_or_default()
    } else {
        Vec::new()
    };
    let (mesh, frame, walled) = (part.mesh(), part.frame(), part.walled());
    let print = posed_in(pose, print, frame)?;
    let mut limits = WallLimits::of_print(&print);
    if let Some(least) = request.least_mm {
        if !(least > 0.0 && least <= 1000.0) {
            let (low, high) = (0.0, 1000.0);
            let (key, usual) = ("least_mm".into(), None);
            let (what, unit) = ("least wall", "mm");
            return Err(JobError::OutOfRange { what, value: least, unit, low, high, key, usual }.into());
        }
        limits = limits.and_given(least / MM);
    }
    stage(watcher, Stage::Walls)?;
    let surface = Surface::new(mesh, walled.shells);
    let map = WallMap::of(&surface);
    let regions = thin_regions(&surface, &map, &limits, &demand);
    let facets_as_in_file = walled.whole_file
        && mended.degenerate_dropped == 0
        && mended.holes_capped == 0
        && mended.facets_in_file == mesh.facets().len();
    let thickness_mm: Vec<Option<f64>> =
        map.of_facets().iter().map(|found| found.map(|f| f.thickness.sphere * MM)).collect();
    let report = WallsReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        title: job.title.clone(),
        thin_regions: regions.iter().map(|region| described(&walled, frame, region)).collect(),
        area_steps: walled.area_steps.clone(),
        least_thickness_mm: thickness_mm.iter().flatten().copied().reduce(f64::min),
        thickness_mm_by_area: by_area(&map),
        facet_count: mesh.facets().len(),
        stress_looked_at: !demand.is_empty(),
        facets_as_in_file,
        thickness_mm: request.every_facet.then(|| thickness_mm.clone()),
        notes: notes(&walled, facets_as_in_file, !demand.is_empty()),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    };
    let limit_mm = request.least_mm.unwrap_or(0.0).max(SOUND_BEADS * print.bead_width * MM);
    Ok(Walls { report, thickness_mm: facet_values(mesh, frame, thickness_mm), limit_mm })
}

fn described(walled: &Walled<'_>, frame: &Frame, region: &ThinRegion) -> ThinRegionReport {
    let place = (walled.place)(&region.thinnest, &region.across, region.least_thickness);
    let (least, limit) = (region.least_thickness * MM, region.limit * MM);
    let reason = match (region.reason, region.edge) {
        (ThinReason::FewBeads, Some(edge)) => format!(
            "a sharp edge {:.1} mm long: too thin for two beads over the last {:.1} mm; end it blunt, at least {limit:.2} \
             mm thick",
            edge.length * MM,
            edge.depth * MM
        ),
        (ThinReason::FewBeads, None) => format!("too thin for two beads; use at least {limit:.2} mm"),
        (ThinReason::BelowGiven, _) => format!("thinner than the {limit:.2} mm asked for"),
        (ThinReason::Overstressed, _) => {
            format!("{:.2} times the stress it bears for the wanted life; {limit:.2} mm would do", limit / least)
        }
        (ThinReason::NoCore, _) => {
            format!("the solid walls of both sides meet, so there is no lighter inside; it begins at {limit:.2} mm")
        }
    };
    ThinRegionReport {
        place,
        center_mm: frame.to_file_mm(&region.thinnest),
        area_mm2: region.area * 1e6,
        least_thickness_mm: least,
        limit_mm: limit,
        cause: region.reason.into(),
        reason,
        edge_length_mm: region.edge.map(|edge| edge.length * MM),
        edge_depth_mm: region.edge.map(|edge| edge.depth * MM),
        facets: region.facets.clone(),
    }
}

/// Sudden changes of area between the bores.
/// Thickness that nine tenths, half and one tenth of the surface exceed, mm.
fn by_area(map: &WallMap) -> [f64; 3] {
    let mut known: Vec<(f64, f64)> = map.by_area().map(|(thickness, area)| (thickness * MM, area)).collect();
    sort_few(&mut known, |a, b| a.0.total_cmp(&b.0));
    let total: f64 = known.iter().map(|(_, area)| area).sum();
    [0.1, 0.5, 0.9].map(|share| {
        let mut passed = 0.0;
        let reached = known.iter().find(|(_, area)| {
            passed += area;
            passed >= share * total
        });
        reached.map_or(0.0, |(thickness, _)| *thickness)
    })
}

fn notes(walled: &Walled<'_>, facets_as_in_file: bool, stress: bool) -> Vec<String> {
    let mut notes = vec![
        "Thickness is the diameter of the largest sphere that touches the surface from inside. Next to an edge the sides \
         that meet there do not count, unless they close in by less than 28 degrees."
            .to_string(),
    ];
    notes.extend((walled.notes)(stress));
    if !facets_as_in_file {
        notes.push(
            "Facets were mended or bodies left out, so facet numbers are those of the part's surface, not of the file."
                .into(),
        );
    }
    match walled.shells {
        Shells::Apart => {}
        Shells::United => notes.push("Shells overlap or touch: walls are measured through them as one solid.".into()),
        Shells::Jointed => notes.push(
            "Rod and cap are measured as two parts; where other shells overlap, walls are measured through them."
                .into(),
        ),
    }
    notes
}
