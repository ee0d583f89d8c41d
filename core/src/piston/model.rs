use nalgebra::{Isometry3, Matrix3, Rotation3, Translation3, UnitQuaternion, Vector2};

use crate::job::PistonScenario;
use crate::load::PistonMass;
use crate::numeric::map_in_order;
use crate::part::Piston;
use crate::print::{Makeup, PrintSettings, makeup};
use crate::section::{
    Loop, Section, VolumeMoments, planes, sections, settled_sections, slab_moments, slab_moments_from_sections,
};
use crate::stress::EyeModel;
use crate::wall::{CrownMap, Shells, Surface};

/// What mesh and print settings fix of a piston.
#[derive(Debug, Clone)]
pub struct PistonModel {
    /// Cuts across the axis, from below.
    pub stations: Vec<PistonStation>,
    /// Masses.
    pub mass: PistonMass,
    /// The crown.
    pub crown: CrownMap,
    /// Thickness that the crown is taken with, m.
    pub crown_thickness: f64,
    /// Radius of the free crown plate, m.
    pub plate_radius: f64,
    /// Thickness of the wall that holds the crown's edge, m: the thinnest ring as far below it as the edge's bending
    /// reaches; 0 where there is none.
    pub edge_wall: f64,
    /// Lower edge of the top land, m over the pin axis: the upper flank of the first groove.
    pub top_land_edge: Option<f64>,
    /// Lower end of the ring belt, m over the pin axis: the lower flank of the lowest groove.
    pub belt: Option<f64>,
    /// Lands between neighbouring grooves, from the crown down.
    pub lands: Vec<Land>,
    /// The bosses as eyes of one width; `None` where no ring could be measured.
    pub boss: Option<EyeModel>,
    /// Material under the pin bore toward the skirt's end, m.
    pub boss_edge: f64,
    /// Length that carries the pin, m.
    pub bearing_length: f64,
    /// Print settings in the frame of the piston.
    pub print: PrintSettings,
    /// Volume, m³.
    pub volume: f64,
}

/// A cut of the piston as printed.
#[derive(Debug, Clone)]
pub struct PistonStation {
    /// The cut.
    pub section: Section,
    /// What the print makes of it.
    pub makeup: Makeup,
    /// Peak over mean stress of a pull, by a groove there.
    pub notch: f64,
}

/// A land between two grooves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Land {
    /// Height along the axis, m.
    pub height: f64,
    /// Upper face, m over the pin axis.
    pub top: f64,
    /// Radius where it is rooted, m.
    pub root: f64,
    /// Radius of its free edge, m.
    pub edge: f64,
}

/// Directions round the pin bore in which the boss is measured.
const DIRECTIONS: usize = 72;

impl PistonModel {
    /// Measures a piston as printed; `None` where nothing is hollow below its crown. `density` is that of the solid plastic.
    pub fn new(
        piston: &Piston,
        count: usize,
        print: PrintSettings,
        density: f64,
        given: &PistonScenario,
    ) -> Option<Self> {
        let surface = Surface::new(&piston.mesh, Shells::united(piston.overlapping));
        let crown = CrownMap::of(piston, &surface)?;
        let (low, high) = (piston.low, piston.compression_height);
        let mut positions = planes(&piston.mesh, low, high, count.saturating_sub(1), piston.overlapping);
        positions.push(0.0);
        positions.sort_by(f64::total_cmp);
        positions.dedup();
        let cuts = settled_sections(&piston.mesh, &positions, piston.overlapping);
        let slabs = if piston.overlapping {
            slab_moments_from_sections(&cuts, low, high)
        } else {
            slab_moments(&piston.mesh, &positions)
        };
        let notch = |height: f64| {
            let groove = piston.all_grooves().find(|groove| (groove.from..=groove.to).contains(&height));
            // Neuber's shallow notch, 1 + 2 sqrt(depth / radius); a printed corner is no sharper than half a bead.
            groove.map_or(1.0, |groove| 1.0 + 2.0 * (2.0 * groove.depth() / print.bead_width).sqrt())
        };
        let stations: Vec<PistonStation> = map_in_order(cuts.len(), |i| PistonStation {
            makeup: makeup(&cuts[i], &print),
            notch: notch(cuts[i].position),
            section: cuts[i].clone(),
        });
        let plastic = plastic(&stations, &slabs, &print, density);
        let mut carried: Vec<(f64, f64)> =
            piston.all_grooves().map(|g| (f64::midpoint(g.from, g.to), given.ring_mass)).collect();
        let disc = core::f64::consts::PI * crown.radius * crown.radius;
        carried.extend(given.layers.iter().map(|layer| (high, layer.density * layer.thickness * disc)));
        let (ligament, boss_edge) = boss_walls(piston);
        let bearing_length = piston.pin.bearing_length();
        let boss = (ligament > 0.0 && ligament.is_finite()).then_some(EyeModel {
            radius: piston.pin.radius,
            ligament,
            thickness: bearing_length,
            seat_depth: bearing_length,
            half: false,
            raise: 1.0,
        });
        let mut model = Self {
            edge_wall: 0.0,
            crown_thickness: given.crown_thickness.unwrap_or_else(|| crown.plate()),
            plate_radius: given.plate_radius.unwrap_or(crown.free_radius),
            mass: PistonMass::new(positions, &plastic, &carried, given.pin_mass),
            top_land_edge: piston.grooves.first().map(|groove| groove.to),
            belt: piston.grooves.last().map(|groove| groove.from),
            volume: slabs.iter().map(|slab| slab.volume).sum(),
            stations,
            crown,
            lands: lands(piston),
            boss,
            boss_edge,
            bearing_length,
            print,
        };
        model.edge_wall = model.wall_under_crown();
        Some(model)
    }

    /// Thickness of the crown where it is thinnest, m.
    pub fn thinnest_crown(&self) -> f64 {
        self.crown.bridges.first().map_or(self.crown_thickness, |bridge| bridge.thickness.min(self.crown_thickness))
    }

    /// See [`Self::edge_wall`].
    fn wall_under_crown(&self) -> f64 {
        let whole = (self.crown.radius - self.plate_radius).max(0.0);
        let middle = self.plate_radius + 0.5 * whole;
        // Bending of a long cylinder's edge dies away over about the root of radius times wall (Timoshenko).
        let reach = self.crown.underside - (middle * whole).sqrt();
        let heights = self.stations.iter().map(|s| s.section.position);
        let near = heights.filter(|height| (reach..self.crown.underside).contains(height));
        let area = near.map(|height| self.belt_area(height)).fold(f64::INFINITY, f64::min);
        if area.is_finite() { (area / (core::f64::consts::TAU * middle)).min(whole) } else { whole }
    }

    /// Wall of the ring belt at a height, m²: what lies outside the free crown.
    pub fn belt_area(&self, height: f64) -> f64 {
        let belt =
            core::f64::consts::PI * (self.crown.radius * self.crown.radius - self.plate_radius * self.plate_radius);
        let above = self.stations.partition_point(|s| s.section.position < height);
        let near = [above.checked_sub(1), Some(above)].into_iter().flatten().filter_map(|k| self.stations.get(k));
        let area = near.map(|s| s.section.properties.area).filter(|area| *area > 0.0).fold(f64::INFINITY, f64::min);
        area.min(belt).max(0.05 * belt)
    }
}

/// Thinnest material round the pin bore on the side of the skirt, and straight below it, m.
fn boss_walls(piston: &Piston) -> (f64, f64) {
    // The cutting planes stand square to x: turn z there, a rotation since it only goes round.
    let turn = Matrix3::new(0.0, 0.0, 1.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0);
    let rotation = UnitQuaternion::from_rotation_matrix(&Rotation3::from_matrix_unchecked(turn));
    let mesh = piston.mesh.clone().moved(&Isometry3::from_parts(Translation3::identity(), rotation));
    let middles: Vec<f64> = piston.pin.bosses.iter().map(|boss| f64::midpoint(boss.from, boss.to)).collect();
    let center = Vector2::new(0.0, piston.pin.offset);
    let (mut thinnest, mut below) = (f64::INFINITY, f64::INFINITY);
    for section in sections(&mesh, &middles, piston.overlapping) {
        for k in 0..DIRECTIONS {
            // From -110 to 110 degrees about the skirt's side: beyond that the crown's walls carry.
            let angle = (k as f64 / (DIRECTIONS - 1) as f64 - 0.5) * 220.0_f64.to_radians();
            let toward = Vector2::new(-libm::cos(angle), libm::sin(angle));
            if let Some(wall) = wall_along(&section.loops, center, toward) {
                thinnest = thinnest.min(wall);
                if angle.abs() < 0.05 {
                    below = below.min(wall);
                }
            }
        }
    }
    (thinnest, below)
}

/// Material along a ray that starts in a hole: from the first outline it meets to the second.
fn wall_along(loops: &[Loop], from: Vector2<f64>, toward: Vector2<f64>) -> Option<f64> {
    let mut met: Vec<f64> = Vec::new();
    for ring in loops {
        for (k, a) in ring.iter().enumerate() {
            let (a, b) = (a - from, ring[(k + 1) % ring.len()] - from);
            let (side_a, side_b) = (toward.perp(&a), toward.perp(&b));
            if (side_a < 0.0) != (side_b < 0.0) {
                let along = a + (b - a) * (side_a / (side_a - side_b));
                let distance = along.dot(&toward);
                if distance > 0.0 {
                    met.push(distance);
                }
            }
        }
    }
    met.sort_by(f64::total_cmp);
    Some(met.get(1)? - met.first()?)
}

/// Mass of the plastic of each slab between two cuts, kg; `density` is that of the solid plastic, kg/m³.
fn plastic(stations: &[PistonStation], slabs: &[VolumeMoments], print: &PrintSettings, density: f64) -> Vec<f64> {
    let relative: Vec<f64> = stations.iter().map(|s| s.makeup.relative_density(print)).collect();
    slabs
        .iter()
        .enumerate()
        .map(|(slab, moments)| {
            let known = [slab.checked_sub(1).and_then(|i| relative.get(i)), relative.get(slab)];
            let known: Vec<f64> = known.into_iter().flatten().copied().collect();
            density * moments.volume * known.iter().sum::<f64>() / known.len().max(1) as f64
        })
        .collect()
}

/// Lands between two grooves.
fn lands(piston: &Piston) -> Vec<Land> {
    piston
        .grooves
        .windows(2)
        .map(|pair| Land {
            height: pair[0].from - pair[1].to,
            top: pair[0].from,
            root: pair[0].floor_radius.max(pair[1].floor_radius),
            edge: pair[0].land_radius.min(pair[1].land_radius),
        })
        .filter(|land| land.height > 0.0 && land.edge > land.root)
        .collect()
}
