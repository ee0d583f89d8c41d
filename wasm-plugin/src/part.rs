//! A part that was read once.

use layload_core::job::NamedPose;
use layload_core::part::{Eye, Part as Recognised, Piston};
use layload_core::verdict::FieldRequest;
use layload_core::{CheckRequest, LoadedPart, SpeedRange, WallRequest, check_with, directions, load, sweep, walls};

use nalgebra::{Point3, Vector3};

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

fn bore(role: &str, eye: &Eye) -> Bore {
    Bore {
        role: role.into(),
        diameter_mm: eye.bore.diameter() * MM,
        center_mm: vector((eye.bore.center.coords * MM).into()),
        axis: vector(eye.bore.axis.into()),
    }
}

/// The pin's bore across a piston.
fn pin_bore(piston: &Piston) -> Bore {
    let center = piston.frame.to_file_mm(&Point3::new(0.0, piston.pin.offset, 0.0));
    Bore {
        role: "pin".into(),
        diameter_mm: 2.0 * piston.pin.radius * MM,
        center_mm: vector(center),
        axis: vector(piston.frame.direction_to_file(&Vector3::z()).into()),
    }
}

impl HeldPart {
    fn checked(&self, job: &JobBorrow<'_>, request: CheckRequest) -> Result<CheckedHandle, Refusal> {
        let texts = job.get::<HeldJob>().texts();
        let checked = check_with(&self.0, &texts.question(), &request, &mut HostWatcher::default())?;
        let utilisation = checked.facets.map_or_else(Vec::new, |facets| facets.values);
        Ok(CheckedHandle::new(Checked { report: checked.report, utilisation }))
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
        let size_mm = vector((size * MM).into());
        match part {
            Recognised::Rod(rod) => Facts {
                kind: "connecting-rod".into(),
                facet_count: rod.mesh.facets().len() as u32,
                size_mm,
                center_distance_mm: Some(rod.center_distance * MM),
                bores: vec![bore("small-end", &rod.small_end), bore("big-end", &rod.big_end)],
            },
            Recognised::Piston(piston) => Facts {
                kind: "piston".into(),
                facet_count: piston.mesh.facets().len() as u32,
                size_mm,
                center_distance_mm: None,
                bores: vec![pin_bore(piston)],
            },
        }
    }

    fn surface(&self) -> Surface {
        let (mesh, frame) = match &self.0.part {
            Recognised::Rod(rod) => (&rod.mesh, &rod.frame),
            Recognised::Piston(piston) => (&piston.mesh, &piston.frame),
        };
        let points = mesh.points().iter();
        Surface {
            points_mm: points.flat_map(|point| frame.to_file_mm(point)).map(|c| c as f32).collect(),
            corners: mesh.facets().iter().flatten().copied().collect(),
        }
    }

    fn poses(&self) -> Vec<Pose> {
        let (frame, usual) = match &self.0.part {
            Recognised::Rod(rod) => (&rod.frame, NamedPose::USUAL_OF_RODS),
            Recognised::Piston(piston) => (&piston.frame, NamedPose::USUAL_OF_PISTONS),
        };
        let pose = |pose: NamedPose| Pose {
            name: pose.word().into(),
            build_direction: vector(frame.direction_to_file(&pose.in_part_frame()).into()),
            usual: pose == usual,
        };
        NamedPose::ALL.map(pose).into()
    }

    fn check(&self, job: JobBorrow<'_>, paint: bool) -> Result<CheckedHandle, Refusal> {
        // Only rods are painted by their stress.
        self.checked(&job, CheckRequest { facets: paint && matches!(self.0.part, Recognised::Rod(_)), field: None })
    }

    fn check_field(&self, job: JobBorrow<'_>, paint: bool, cells: u32) -> Result<CheckedHandle, Refusal> {
        self.checked(&job, CheckRequest { facets: paint, field: Some(FieldRequest { cells: cells as usize }) })
    }

    fn directions(&self, job: JobBorrow<'_>, count: u32) -> Result<DirectedHandle, Refusal> {
        let texts = job.get::<HeldJob>().texts();
        let report = directions(&self.0, &texts.question(), count as usize, &mut HostWatcher::default())?;
        Ok(DirectedHandle::new(Directed(report)))
    }

    fn sweep(&self, job: JobBorrow<'_>, from_rpm: f64, to_rpm: f64, count: u32) -> Result<SweptHandle, Refusal> {
        let range = SpeedRange::new(from_rpm, to_rpm, count as usize)?;
        let texts = job.get::<HeldJob>().texts();
        let report = sweep(&self.0, &texts.question(), &range, &mut HostWatcher::default())?;
        Ok(SweptHandle::new(Swept(report)))
    }

    fn walls(&self, job: JobBorrow<'_>, least_mm: Option<f64>) -> Result<MeasuredHandle, Refusal> {
        let texts = job.get::<HeldJob>().texts();
        let request = WallRequest { least_mm, every_facet: false };
        let walls = walls(&self.0, &texts.question(), &request, &mut HostWatcher::default())?;
        Ok(MeasuredHandle::new(Measured(walls)))
    }
}
