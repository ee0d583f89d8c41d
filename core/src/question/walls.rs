//! From a mesh and a job to the walls that are too thin.

use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::check::{PartSource, Question, Stage, Watcher, facet_demand, facet_values, posed_in, prepared, stage};
use crate::Error;
use crate::job::{JobError, resolve, resolve_print};
use crate::mesh::Mesh;
use crate::numeric::sort_few;
use crate::part::{Frame, Part, Piston, Rod};
use crate::piston::PistonWall;
use crate::report::{AreaStepReport, CAUTIONS, FacetValues, SCHEMA_VERSION, ThinRegionReport, WallsReport};
use crate::rod::RodPlaces;
use crate::section::{planes, settled_sections};
use crate::wall::{
    SOUND_BEADS, Shells, Station, StepLimits, Surface, ThinReason, ThinRegion, WallLimits, WallMap, area_steps,
    thin_regions,
};

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

const MM: f64 = 1e3;

/// The place of a wall in words, from its middle, the direction across it and its thickness.
type PlaceOf<'a> = Box<dyn Fn(&Point3<f64>, &Vector3<f64>, f64) -> String + 'a>;

/// A part that is measured.
enum Measured {
    Rod(Arc<Rod>),
    Piston(Arc<Piston>),
}

/// A part as far as its walls matter.
struct Walled<'a> {
    mesh: &'a Mesh,
    frame: &'a Frame,
    shells: Shells,
    whole_file: bool,
    area_steps: Vec<AreaStepReport>,
    place: PlaceOf<'a>,
}

impl<'a> Walled<'a> {
    fn of(part: &'a Measured) -> Self {
        match part {
            Measured::Rod(rod) => {
                let places = RodPlaces::new(rod);
                Self {
                    mesh: &rod.mesh,
                    frame: &rod.frame,
                    shells: if rod.overlapping && places.has_cap() {
                        Shells::Jointed
                    } else {
                        Shells::united(rod.overlapping)
                    },
                    whole_file: rod.left_out.is_empty(),
                    area_steps: steps(rod),
                    place: Box::new(move |middle, across, thickness| places.of(middle, across, thickness).to_string()),
                }
            }
            Measured::Piston(piston) => Self {
                mesh: &piston.mesh,
                frame: &piston.frame,
                shells: Shells::united(piston.overlapping),
                whole_file: piston.left_out.is_empty(),
                area_steps: Vec::new(),
                place: Box::new(|middle, across, _| PistonWall::of(piston, middle, across).to_string()),
            },
        }
    }
}

/// Measures the walls of a rod or a piston.
///
/// Of the job only part and print have to be there; with an engine, a material and a speed in it, walls of a rod whose
/// stress is more than they bear for the wanted life are flagged too.
pub fn walls<'a>(
    source: impl Into<PartSource<'a>>,
    question: &Question<'_>,
    request: &WallRequest,
    watcher: &mut dyn Watcher,
) -> Result<Walls, Error> {
    let job = question.job;
    let (pose, print) = resolve_print(job)?;
    let resolved = match resolve(job, question.card_text, question.pressure_text) {
        Ok(resolved) => Some(resolved),
        // No load is known, so none is asked for.
        Err(JobError::Missing { .. }) => None,
        Err(error) => return Err(error.into()),
    };
    let loaded = source.into().part(job, watcher)?;
    let mended = loaded.mended;
    let (part, demand) = match (&loaded.part, resolved) {
        (Part::Rod(rod), Some(resolved)) => {
            stage(watcher, Stage::Assessing)?;
            let prepared = prepared(resolved, loaded.with(rod.clone()))?;
            let demand = facet_demand(&prepared)?;
            (Measured::Rod(prepared.rod), demand)
        }
        (Part::Rod(rod), None) => (Measured::Rod(rod.clone()), Vec::new()),
        (Part::Piston(piston), _) => (Measured::Piston(piston.clone()), Vec::new()),
    };
    let walled = Walled::of(&part);
    let print = posed_in(pose, print, walled.frame)?;
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
    let mesh = walled.mesh;
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
        thin_regions: regions.iter().map(|region| described(&walled, region)).collect(),
        area_steps: walled.area_steps.clone(),
        least_thickness_mm: thickness_mm.iter().flatten().copied().reduce(f64::min),
        thickness_mm_by_area: by_area(&map),
        facet_count: mesh.facets().len(),
        stress_looked_at: !demand.is_empty(),
        facets_as_in_file,
        thickness_mm: request.every_facet.then(|| thickness_mm.clone()),
        notes: notes(&part, walled.shells, facets_as_in_file, !demand.is_empty()),
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    };
    let limit_mm = request.least_mm.unwrap_or(0.0).max(SOUND_BEADS * print.bead_width * MM);
    Ok(Walls { report, thickness_mm: facet_values(mesh, walled.frame, thickness_mm), limit_mm })
}

fn described(walled: &Walled<'_>, region: &ThinRegion) -> ThinRegionReport {
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
        center_mm: walled.frame.to_file_mm(&region.thinnest),
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
fn steps(rod: &Rod) -> Vec<AreaStepReport> {
    /// Planes in which steps are looked for.
    const PLANES: usize = 200;
    let (from, to) = (rod.small_end.radius(), rod.center_distance - rod.big_end.radius());
    let planes = planes(&rod.mesh, from, to, PLANES, rod.overlapping);
    let stations: Vec<Station> =
        settled_sections(&rod.mesh, &planes, rod.overlapping).iter().map(Station::of).collect();
    area_steps(&stations, &StepLimits::of_rod(rod.center_distance))
        .iter()
        .map(|step| AreaStepReport {
            from_mm: step.from * MM,
            to_mm: step.to * MM,
            area_from_mm2: step.area_from * 1e6,
            area_to_mm2: step.area_to * 1e6,
            fillet_radius_mm: step.fillet_radius * MM,
            concentration: step.concentration,
        })
        .collect()
}

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

fn notes(part: &Measured, shells: Shells, facets_as_in_file: bool, stress: bool) -> Vec<String> {
    let mut notes = vec![
        "Thickness is the diameter of the largest sphere that touches the surface from inside. Next to an edge the sides \
         that meet there do not count, unless they close in by less than 28 degrees."
            .to_string(),
    ];
    match part {
        Measured::Rod(_) => {
            notes.push(
                "Steps of area are taken as shoulders of a flat bar; the eyes have their own factors in a check."
                    .into(),
            );
            notes.push(if stress {
                "Walls flagged for stress are those that nine prints in ten do not bear for the wanted life; the thickness \
                 named would do if stress fell as thickness grows, in bending it falls faster."
                    .into()
            } else {
                "The job has no engine, material or speed, so stress was not looked at.".into()
            });
        }
        Measured::Piston(_) => notes
            .push("Of a piston neither stress nor steps of area are looked at here; a check does the former.".into()),
    }
    if !facets_as_in_file {
        notes.push(
            "Facets were mended or bodies left out, so facet numbers are those of the part's surface, not of the file."
                .into(),
        );
    }
    match shells {
        Shells::Apart => {}
        Shells::United => notes.push("Shells overlap or touch: walls are measured through them as one solid.".into()),
        Shells::Jointed => notes.push(
            "Rod and cap are measured as two parts; where other shells overlap, walls are measured through them."
                .into(),
        ),
    }
    notes
}
