//! A part that was read once.

use layload_core::FieldRequest;
use layload_core::job::NamedPose;
use layload_core::report::BoreReport;
use layload_core::{
    CheckRequest, LoadedPart, SpeedRange, WallRequest, check_and_sweep, check_with, directions, load, sweep, walls,
};

use crate::answer::{Checked, Directed, Measured, Swept};
use crate::interface::checker::{
    Bore, Checked as CheckedHandle, Directed as DirectedHandle, Facts, GuestPart, JobBorrow,
    Measured as MeasuredHandle, Part, Pose, Refusal, Surface, Swept as SweptHandle,
};
use crate::job::HeldJob;
use crate::progress::HostWatcher;
use crate::record::vector;

/// A part that lives as long as its handle.
#[derive(Debug)]
pub(crate) struct HeldPart(LoadedPart);

const MM: f64 = 1e3;

fn cells_of(cells: u32) -> FieldRequest {
    FieldRequest { cells: cells as usize }
}

fn bore(bore: &BoreReport) -> Bore {
    Bore {
        role: bore.role.clone(),
        diameter_mm: bore.diameter_mm,
        center_mm: vector(bore.center_mm),
        axis: vector(bore.axis),
    }
}

impl HeldPart {
    fn checked(&self, job: &JobBorrow<'_>, request: CheckRequest) -> Result<CheckedHandle, Refusal> {
        let texts = job.get::<HeldJob>().texts();
        let checked = check_with(&self.0, &texts.question(), &request, &mut HostWatcher::default())?;
        let utilisation = checked.facets.map_or_else(Vec::new, |facets| facets.values);
        Ok(CheckedHandle::new(Checked { report: checked.report, utilisation, speeds: Vec::new() }))
    }

    fn directed(
        &self,
        job: &JobBorrow<'_>,
        count: u32,
        field: Option<FieldRequest>,
    ) -> Result<DirectedHandle, Refusal> {
        let texts = job.get::<HeldJob>().texts();
        let report = directions(&self.0, &texts.question(), count as usize, field, &mut HostWatcher::default())?;
        Ok(DirectedHandle::new(Directed(report)))
    }

    fn swept(
        &self,
        job: &JobBorrow<'_>,
        (from_rpm, to_rpm, count): (f64, f64, u32),
        field: Option<FieldRequest>,
    ) -> Result<SweptHandle, Refusal> {
        let range = SpeedRange::new(from_rpm, to_rpm, count as usize)?;
        let texts = job.get::<HeldJob>().texts();
        let report = sweep(&self.0, &texts.question(), &range, field, &mut HostWatcher::default())?;
        Ok(SweptHandle::new(Swept(report)))
    }
}

impl GuestPart for HeldPart {
    fn load(stl: Vec<u8>, job: JobBorrow<'_>) -> Result<Part, Refusal> {
        let texts = job.get::<HeldJob>().texts();
        let rod = load(&stl, &texts.job, &mut HostWatcher::default())?;
        Ok(Part::new(Self(rod)))
    }

    fn facts(&self) -> Facts {
        let LoadedPart { size, part, .. } = &self.0;
        Facts {
            kind: part.kind().word().into(),
            facet_count: part.mesh().facets().len() as u32,
            size_mm: vector((size * MM).into()),
            center_distance_mm: part.center_distance().map(|metres| metres * MM),
            bores: part.bores().iter().map(bore).collect(),
        }
    }

    fn surface(&self) -> Surface {
        let (mesh, frame) = (self.0.part.mesh(), self.0.part.frame());
        let points = mesh.points().iter();
        Surface {
            points_mm: points.flat_map(|point| frame.to_file_mm(point)).map(|c| c as f32).collect(),
            corners: mesh.facets().iter().flatten().copied().collect(),
        }
    }

    fn poses(&self) -> Vec<Pose> {
        let (frame, usual) = (self.0.part.frame(), self.0.part.usual_pose());
        let pose = |pose: NamedPose| Pose {
            name: pose.word().into(),
            build_direction: vector(frame.direction_to_file(&pose.in_part_frame()).into()),
            usual: pose == usual,
        };
        NamedPose::ALL.map(pose).into()
    }

    fn check(&self, job: JobBorrow<'_>, paint: bool) -> Result<CheckedHandle, Refusal> {
        self.checked(&job, CheckRequest { facets: paint, ..CheckRequest::default() })
    }

    fn quick_look(&self, job: JobBorrow<'_>, paint: bool) -> Result<CheckedHandle, Refusal> {
        // Without a stress field not every kind of part is painted.
        self.checked(&job, CheckRequest { facets: paint && self.0.part.painted_by_sections(), field: None })
    }

    fn check_field(&self, job: JobBorrow<'_>, paint: bool, cells: u32) -> Result<CheckedHandle, Refusal> {
        self.checked(&job, CheckRequest { facets: paint, field: Some(cells_of(cells)) })
    }

    fn check_and_sweep(
        &self,
        job: JobBorrow<'_>,
        paint: bool,
        cells: Option<u32>,
        from_rpm: f64,
        to_rpm: f64,
        count: u32,
    ) -> Result<CheckedHandle, Refusal> {
        let range = SpeedRange::new(from_rpm, to_rpm, count as usize)?;
        let texts = job.get::<HeldJob>().texts();
        let facets = paint && (cells.is_some() || self.0.part.painted_by_sections());
        let request = CheckRequest { facets, field: cells.map(cells_of) };
        let (checked, swept) =
            check_and_sweep(&self.0, &texts.question(), &request, &range, &mut HostWatcher::default())?;
        let utilisation = checked.facets.map_or_else(Vec::new, |facets| facets.values);
        Ok(CheckedHandle::new(Checked { report: checked.report, utilisation, speeds: swept.sweep }))
    }

    fn directions(&self, job: JobBorrow<'_>, count: u32) -> Result<DirectedHandle, Refusal> {
        self.directed(&job, count, Some(FieldRequest::default()))
    }

    fn directions_by(&self, job: JobBorrow<'_>, count: u32, cells: Option<u32>) -> Result<DirectedHandle, Refusal> {
        self.directed(&job, count, cells.map(cells_of))
    }

    fn sweep(&self, job: JobBorrow<'_>, from_rpm: f64, to_rpm: f64, count: u32) -> Result<SweptHandle, Refusal> {
        self.swept(&job, (from_rpm, to_rpm, count), Some(FieldRequest::default()))
    }

    fn sweep_by(
        &self,
        job: JobBorrow<'_>,
        from_rpm: f64,
        to_rpm: f64,
        count: u32,
        cells: Option<u32>,
    ) -> Result<SweptHandle, Refusal> {
        self.swept(&job, (from_rpm, to_rpm, count), cells.map(cells_of))
    }

    fn walls(&self, job: JobBorrow<'_>, least_mm: Option<f64>) -> Result<MeasuredHandle, Refusal> {
        let texts = job.get::<HeldJob>().texts();
        let request = WallRequest { least_mm, every_facet: false };
        let walls = walls(&self.0, &texts.question(), &request, &mut HostWatcher::default())?;
        Ok(MeasuredHandle::new(Measured(walls)))
    }
}
