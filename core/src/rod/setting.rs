use std::sync::Arc;

use nalgebra::{Point3, Vector2, Vector3};

use super::model::{EyePoint, RodModel, Station};
use super::piece::Piece;
use super::place::{End, RodPlace, RodStrength};
use super::pressed::Pressed;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use super::worst::Worst;
use crate::job::Scenario;
use crate::life::MeanStress;
use crate::material::{Card, Lay, LayerPlane, LayerStrength, MaterialState, REFERENCE_TEMPERATURE, Use};
use crate::verdict::{mean_stress_rule, rupture_exponents, ten_percent_factor, wall_lay};

/// Everything an assessment of one point needs besides the point.
#[derive(Clone)]
pub(crate) struct Setting<'a> {
    pub(crate) stressing: &'a Stressing<'a>,
    pub(crate) model: &'a RodModel,
    pub(crate) scenario: &'a Scenario,
    pub(crate) temperatures: &'a Temperatures,
    /// The material at the reference temperature of the scenario.
    pub(crate) material: MaterialState,
    pub(crate) rule: MeanStress,
    pub(crate) plane: LayerPlane,
    wall: LayerStrength,
    lines: LayerStrength,
    /// Strength between the layers that each section cuts, over that of the rod's weakest ones.
    section_bonds: Arc<[f64]>,
    /// Hoop stress of both eyes right after their rings are pressed in, at the bore and on the outer surface, Pa.
    pub(crate) assembled: [[f64; 2]; 2],
    /// Strength when cold over that at the reference temperature.
    pub(crate) cold: f64,
    card: &'a Card,
    /// Share of strength that the reference temperature leaves.
    reference: f64,
    /// What nine prints in ten reach of the mean strength.
    pub(crate) ten_percent_strength: f64,
    pub(crate) ln_wanted_life: f64,
}

/// A place and what its own temperature leaves of the material there.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Here {
    pub(crate) place: RodPlace,
    /// Strength over that at the reference temperature.
    pub(crate) kept: f64,
    /// Strength between layers over that of the rod's weakest ones.
    pub(crate) bond: f64,
    /// Rupture under lasting load: logarithm of the damage a second without stress, and its growth with tension over
    /// strength.
    pub(crate) rupture: (f64, f64),
}

impl<'a> Setting<'a> {
    pub(crate) fn new(
        stressing: &'a Stressing<'a>,
        scenario: &'a Scenario,
        card: &'a Card,
        temperatures: &'a Temperatures,
    ) -> Self {
        let material = card.at(scenario.temperature, scenario.moisture);
        let reference = card.share_at(scenario.temperature).0;
        let assembled = [End::Small, End::Big].map(|end| {
            let ring = Pressed::of(stressing.model, scenario, card, temperatures, end);
            let stress = ring.map(|ring| ring.assembled()).unwrap_or_default();
            [stress.eye_hoop, stress.eye_outside_hoop]
        });
        Self {
            assembled,
            cold: card.share_at(REFERENCE_TEMPERATURE).0 / reference,
            stressing,
            model: stressing.model,
            scenario,
            temperatures,
            material,
            rule: mean_stress_rule(scenario, material.walker_exponent),
            plane: LayerPlane::new(stressing.model.print.build),
            wall: LayerStrength::of(&material, wall_lay(&stressing.model.print)),
            lines: LayerStrength::of(&material, Lay::Lines),
            section_bonds: stressing.model.stations.iter().map(|station| bond_of(scenario, station)).collect(),
            reference,
            ten_percent_strength: ten_percent_factor(material.strength_scatter),
            ln_wanted_life: libm::log(scenario.wanted_life),
            card,
        }
    }

    /// The same with layers stacked along another direction.
    ///
    /// `bond` is the strength between its layers over that in this one.
    pub(crate) fn facing(&self, build: Vector3<f64>, bond: f64) -> Self {
        let (wall, lines) = (self.wall.bonded(bond), self.lines.bonded(bond));
        Self { plane: LayerPlane::new(build), wall, lines, ..self.clone() }
    }

    pub(crate) fn card(&self) -> &Card {
        self.card
    }

    pub(crate) fn strength(&self, lay: Lay) -> &LayerStrength {
        match lay {
            Lay::Wall => &self.wall,
            Lay::Lines => &self.lines,
        }
    }

    pub(crate) fn material_at(&self, kelvin: f64) -> MaterialState {
        self.card.at(kelvin, self.scenario.moisture)
    }

    /// A place on a piece as a whole: a station by the layers that its section cuts, an eye by the weakest ones of the rod.
    pub(crate) fn here(&self, piece: Piece, place: RodPlace) -> Here {
        let kelvin = self.temperatures.of(piece);
        let bond = match piece {
            Piece::Station(index) => self.section_bonds[index],
            Piece::Eye(_) => 1.0,
        };
        Here { place, kept: self.kept(piece), bond, rupture: rupture_exponents(self.card, kelvin) }
    }

    /// A point of an eye, which stands for a line along the pin.
    pub(crate) fn here_on(&self, end: End, point: &EyePoint) -> Here {
        Here { bond: self.bond_of_line(end, point), ..self.here(Piece::Eye(end), point.place) }
    }

    /// Strength between the layers through a line of an eye along its pin, over that of the rod's weakest ones.
    pub(crate) fn bond_of_line(&self, end: End, point: &EyePoint) -> f64 {
        let half = self.model.eyes[end as usize].map_or(0.0, |eye| 0.5 * eye.thickness);
        let line = [-half, half].into_iter().map(|z| point.point + Vector3::new(0.0, 0.0, z));
        self.scenario.bond.as_ref().map_or(1.0, |bond| bond.over_least(line))
    }

    /// Strength that a piece has at its own temperature over that at the reference temperature.
    pub(crate) fn kept(&self, piece: Piece) -> f64 {
        let kelvin = self.temperatures.of(piece);
        if kelvin == self.scenario.temperature { 1.0 } else { self.card.share_at(kelvin).0 / self.reference }
    }

    /// Strength of the part from the worst of its modes and places, with what is known of each.
    pub(crate) fn strength_of<T: Copy>(&self, worst: Worst<T>) -> (RodStrength, Vec<T>) {
        let (modes, links, of) = worst.sorted();
        let strength_scatter = self.material.strength_scatter;
        (RodStrength { modes, links, strength_scatter, wanted_life: self.scenario.wanted_life }, of)
    }

    /// Whether a piece is above its softening temperature.
    pub(crate) fn softened(&self, piece: Piece) -> bool {
        self.temperatures.of(piece) >= self.card.softening()
    }
}

/// Strength between the layers that a section cuts, over that of the rod's weakest ones.
fn bond_of(scenario: &Scenario, station: &Station) -> f64 {
    let Some(bond) = &scenario.bond else { return 1.0 };
    let middle = station.makeup.stiffness.centroid;
    let at = |offset: &Vector2<f64>| Point3::new(station.section.position, middle.x + offset.x, middle.y + offset.y);
    bond.over_least(station.fibres.iter().map(|fibre| at(&fibre.offset)))
}

/// Strength of a point against stress along one line, per Pa, pulled and pushed.
pub(crate) struct LineStrength {
    pub(crate) pulled: Use,
    pub(crate) pushed: Use,
    /// Strength within the layer plane, Pa: the scale of fatigue.
    pub(crate) in_plane: f64,
}

impl LineStrength {
    /// `kept` is the strength at the point's temperature over that of the setting, `bond` that between its layers over the
    /// rod's weakest.
    pub(crate) fn new(setting: &Setting<'_>, direction: &Vector3<f64>, lay: Lay, kept: f64, bond: f64) -> Self {
        let strength = setting.strength(lay).bonded(bond);
        let on = setting.plane.tractions_along(direction, 1.0 / kept);
        Self {
            pulled: strength.use_of_tractions(&on),
            pushed: strength.use_of_tractions(&on.mixed(-1.0, &on, 0.0)),
            in_plane: strength.in_plane(),
        }
    }

    pub(crate) fn utilisation(&self, stress: f64) -> f64 {
        if stress >= 0.0 { stress * self.pulled.utilisation } else { -stress * self.pushed.utilisation }
    }

    /// Factor that turns a stress along the line into the stress along beads at the reference temperature that is as bad.
    /// Pushes keep the scale of pulls, which is severe.
    pub(crate) fn scale(&self) -> f64 {
        self.pulled.utilisation * self.in_plane
    }
}
