use core::f64::consts::PI;

use nalgebra::{Point3, Vector2, Vector3};

use super::place::{End, RodPlace};
use crate::load::RodMass;
use crate::material::Lay;
use crate::mesh::SKIN;
use crate::numeric::map_in_order;
use crate::part::{Eye, Rod, ThicknessFactors};
use crate::print::{Makeup, PrintSettings, makeup};
use crate::section::{
    Ligament, Section, VolumeMoments, beyond_faces, hair, narrowest, planes, sections, settled_sections, slab_moments,
    slab_moments_from_sections,
};
use crate::stress::{EyeModel, Fibre, extreme_fibres, web_shear_factor};
use crate::verdict::lay_under;

/// Which part of a rod a station cuts.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Region {
    /// Through the small-end bore or beyond it.
    SmallEnd,
    /// Between the bores.
    Shank,
    /// Through the big-end bore or beyond it.
    BigEnd,
}

/// A cut of the rod as printed.
#[derive(Debug, Clone)]
pub struct Station {
    /// The cut.
    pub section: Section,
    /// What the print makes of it.
    pub makeup: Makeup,
    /// Its thinnest place; only between the bore centres.
    pub ligament: Option<Ligament>,
    /// Where along the rod.
    pub region: Region,
    /// Its outermost corners; empty in the eyes, where a bar's bending does not hold.
    pub fibres: Vec<Fibre>,
    /// Greatest over mean shear stress.
    pub shear_factor: f64,
}

/// A point round an eye.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyePoint {
    /// Index of the angle in the table of the contact study.
    pub angle: usize,
    /// On the outer surface instead of the bore.
    pub outside: bool,
    /// Unit vector of the hoop direction.
    pub hoop: Vector3<f64>,
    /// Lay of the beads there.
    pub lay: Lay,
    /// Place in words.
    pub place: RodPlace,
    /// Position in the frame, m.
    pub point: Point3<f64>,
}

/// What mesh and print settings fix of a rod.
#[derive(Debug, Clone)]
pub struct RodModel {
    /// All cuts from end to end, in order.
    pub stations: Vec<Station>,
    /// Mass along the rod.
    pub mass: RodMass,
    /// Small end and big end; `None` where the ring could not be measured.
    pub eyes: [Option<EyeModel>; 2],
    /// Hot spots round each eye.
    pub eye_points: [Vec<EyePoint>; 2],
    /// Print settings in the rod's frame.
    pub print: PrintSettings,
    /// Centre distance, m.
    pub length: f64,
    /// Volume of the part, voids and infill counted as the mesh has them, m³.
    pub volume: f64,
}

/// How far from a bore's centre faces are those of its joint, m. Edges there are broken by round tenths of a millimetre; half way
/// between two of them rounding does not choose.
const JOINT: f64 = 1.5 * SKIN;

/// The cuts of a rod, before it is known how it is printed.
#[derive(Debug, Clone)]
pub struct RodCuts {
    sections: Vec<Section>,
    /// Thinnest place of each, between the bore centres only: walls beyond them are the eyes' business.
    ligaments: Vec<Option<Ligament>>,
    slabs: Vec<VolumeMoments>,
    /// Over that of the mesh.
    thickness: ThicknessFactors,
}

impl RodCuts {
    /// Cuts a rod in about as many planes as asked for, and through both bore centres.
    pub fn new(rod: &Rod, stations: usize) -> Self {
        let (low, high) = rod.mesh.bounds();
        let length = rod.center_distance;
        let mut positions = planes(&rod.mesh, low.x, high.x, stations.saturating_sub(2), rod.overlapping);
        positions.extend([0.0, length]);
        positions.sort_by(f64::total_cmp);
        positions.dedup();
        let mut sections = settled_sections(&rod.mesh, &positions, rod.overlapping);
        for (end, eye) in [(End::Small, &rod.small_end), (End::Big, &rod.big_end)] {
            let Some(section) = sections.iter_mut().find(|section| section.position == eye.center.x) else { continue };
            let truer = if eye.half {
                half_eye(rod, end, section.position)
            } else {
                beyond_faces(&rod.mesh, section, JOINT, rod.overlapping)
            };
            if let Some(truer) = truer {
                *section = truer;
            }
        }
        // Where nothing is cut there is nothing to break, and nothing to divide a force by.
        sections.retain(|section| section.properties.area > 0.0);
        let positions: Vec<f64> = sections.iter().map(|section| section.position).collect();
        let slabs = if rod.overlapping {
            slab_moments_from_sections(&sections, low.x, high.x)
        } else {
            slab_moments(&rod.mesh, &positions)
        };
        let ligaments = map_in_order(sections.len(), |i| {
            let on_path = (0.0..=length).contains(&sections[i].position);
            if on_path { narrowest(&sections[i].loops) } else { None }
        });
        Self { sections, ligaments, slabs, thickness: ThicknessFactors::default() }
    }

    /// The same cuts of the rod made thicker or thinner along its pins, without cutting it again.
    ///
    /// Of cuts that were thickened already the rod's own are taken. Thinnest walls are not looked for anew.
    #[must_use]
    pub fn with_thickness(&self, rod: &Rod, thickness: ThicknessFactors) -> Self {
        let factor = |position: f64| thickness.at(position, rod) / self.thickness.at(position, rod);
        let sections: Vec<Section> =
            self.sections.iter().map(|section| section.stretched(factor(section.position))).collect();
        let slabs = self.slabs.iter().enumerate().map(|(slab, moments)| {
            let ends = [slab.checked_sub(1), Some(slab)].into_iter().flatten();
            let ends: Vec<f64> = ends.filter_map(|k| self.sections.get(k)).map(|s| s.position).collect();
            let middle = ends.iter().sum::<f64>() / ends.len().max(1) as f64;
            moments.stretched(factor(middle))
        });
        Self { slabs: slabs.collect(), ligaments: vec![None; sections.len()], sections, thickness }
    }
}

/// The cut through the bore's centre of an eye without its other half, on the shank's side: the joint may lie on either
/// side of the centre, and all material is on this one.
fn half_eye(rod: &Rod, end: End, center: f64) -> Option<Section> {
    let (low, high) = rod.mesh.bounds();
    let inside = match end {
        End::Small => center.max(low.x) + hair(&rod.mesh),
        End::Big => center.min(high.x) - hair(&rod.mesh),
    };
    let cut = sections(&rod.mesh, &[inside], rod.overlapping).pop()?;
    Some(Section { position: center, ..cut })
}

impl RodModel {
    /// Measures a rod as printed.
    ///
    /// `print.build` is in the frame of the rod. Mass takes the density of the solid plastic, kg/m³. `angles` are those
    /// of the contact study, rad from the rod's end.
    pub fn new(rod: &Rod, cuts: &RodCuts, print: PrintSettings, density: f64, angles: &[f64]) -> Self {
        let (low, high) = rod.mesh.bounds();
        let length = rod.center_distance;
        let shank = (rod.small_end.radius(), length - rod.big_end.radius());
        let stations =
            map_in_order(cuts.sections.len(), |i| station(cuts.sections[i].clone(), cuts.ligaments[i], &print, shank));
        let relative: Vec<f64> = stations.iter().map(|s| s.makeup.relative_density(&print)).collect();
        let densities: Vec<f64> = (0..cuts.slabs.len())
            .map(|slab| {
                let before = slab.checked_sub(1).and_then(|i| relative.get(i));
                let after = relative.get(slab);
                let known = [before, after].into_iter().flatten();
                let count = known.clone().count().max(1) as f64;
                density * known.sum::<f64>() / count
            })
            .collect();
        let centers = stations.iter().map(|s| [s.makeup.stiffness.centroid.x, s.makeup.stiffness.centroid.y]).collect();
        let positions = stations.iter().map(|s| s.section.position).collect();
        let thickness = cuts.thickness;
        let big_end_z = rod.big_end.center.z * thickness.big_end;
        let mass = RodMass::new(&cuts.slabs, &densities, positions, centers, length, big_end_z);
        let eye = |eye: &Eye, thickness: f64, beyond: f64| {
            let at = stations.iter().find(|s| s.section.position == eye.center.x)?;
            let (seat, end) = (eye.depth() * thickness, beyond - eye.radius());
            let ring = EyeModel::measured(&at.section, eye.center.y, eye.radius(), seat, end, eye.half)?;
            // A lighter inside carries less than its share of the ring's area.
            let share = at.makeup.stiffness.area / at.section.properties.area;
            Some(EyeModel { thickness: ring.thickness * share, ..ring })
        };
        let eyes =
            [eye(&rod.small_end, thickness.small_end, -low.x), eye(&rod.big_end, thickness.big_end, high.x - length)];
        let points = |end: End, eye: &Eye, model: &Option<EyeModel>| {
            model.map_or_else(Vec::new, |model| eye_points(end, eye, &model, &print, angles))
        };
        let eye_points = [points(End::Small, &rod.small_end, &eyes[0]), points(End::Big, &rod.big_end, &eyes[1])];
        let volume = cuts.slabs.iter().map(|slab| slab.volume).sum();
        Self { stations, mass, eyes, eye_points, print, length, volume }
    }

    /// The same with the wall round one bore so many times as thick; none where its ring could not be measured.
    ///
    /// The ring is made thicker all round, with its mass; where the shank joins it nothing is taken off.
    #[must_use]
    pub(crate) fn with_eye_wall(&self, rod: &Rod, end: End, factor: f64, density: f64) -> Option<Self> {
        let eye = self.eyes[end as usize]?;
        let thicker = EyeModel { ligament: factor * eye.ligament, ..eye };
        let [inner, outer] = [eye, thicker].map(|eye| eye.radius + eye.ligament);
        let round = if eye.half { PI } else { 2.0 * PI };
        let mass = 0.5 * round * (outer * outer - inner * inner) * eye.thickness * density;
        let center = if end == End::Small { rod.small_end.center } else { rod.big_end.center };
        let mut model = self.clone();
        model.eyes[end as usize] = Some(thicker);
        model.mass = self.mass.with_ring(center.into(), [inner, outer], mass);
        Some(model)
    }

    /// Stations between the bore centres.
    pub fn load_path(&self) -> impl Iterator<Item = (usize, &Station)> {
        let length = self.length;
        self.stations.iter().enumerate().filter(move |(_, s)| (0.0..=length).contains(&s.section.position))
    }
}

/// A cut nearer than this to the end of an eye is the eye's, m: rounding must not choose.
const BORDER: f64 = 1e-6;

fn station(section: Section, ligament: Option<Ligament>, print: &PrintSettings, shank: (f64, f64)) -> Station {
    let makeup = makeup(&section, print);
    let region = if section.position <= shank.0 + BORDER {
        Region::SmallEnd
    } else if section.position < shank.1 - BORDER {
        Region::Shank
    } else {
        Region::BigEnd
    };
    let (fibres, shear_factor) = if region == Region::Shank && makeup.stiffness.area > 0.0 {
        (extreme_fibres(&section.loops, &makeup.stiffness), web_shear_factor(&section.loops, &section.properties))
    } else {
        (Vec::new(), 1.5)
    };
    Station { section, makeup, ligament, region, fibres, shear_factor }
}

fn eye_points(end: End, eye: &Eye, model: &EyeModel, print: &PrintSettings, angles: &[f64]) -> Vec<EyePoint> {
    // Angles count from the rod's end: toward -x at the small end, +x at the big end.
    let outward = if end == End::Small { -1.0 } else { 1.0 };
    let mut points = Vec::new();
    for side in [1.0, -1.0] {
        for (index, &angle) in angles.iter().enumerate() {
            let (sine, cosine) = (libm::sin(angle), libm::cos(angle));
            // On the axis of the rod both sides are one point.
            if side < 0.0 && sine.abs() < 1e-9 {
                continue;
            }
            // A half bore without its cap has no outer half.
            if eye.half && cosine > 1e-9 {
                continue;
            }
            let radial = Vector2::new(outward * cosine, side * sine);
            let hoop = Vector3::new(-radial.y, radial.x, 0.0);
            let normal = Vector3::new(radial.x, radial.y, 0.0);
            let lay = lay_under(&normal, print);
            for outside in [false, true] {
                let radius = if outside { model.radius + model.ligament } else { model.radius };
                points.push(EyePoint {
                    angle: index,
                    outside,
                    hoop,
                    lay,
                    place: RodPlace::Eye { end, angle, outside },
                    point: eye.center + normal * radius,
                });
            }
        }
    }
    points
}
