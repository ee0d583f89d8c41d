use nalgebra::{Point3, Vector2, Vector3};

use super::crank::of_piston;
use super::effects::effects;
use super::field::field;
use super::notes::{notes, unchecked};
use super::part::part;
use super::position::on_piston;
use crate::job::{Assumption, Origin};
use crate::kind::Answers;
use crate::kind::report::{Common, coarse, life_of, mending, of_card, temperature_from};
use crate::material::{LayerPlane, LayerStrength};
use crate::piston::assess::{CrownEdge, PistonAssessment, PistonCase};
use crate::piston::field::PistonFieldFindings;
use crate::piston::limits::growth_of;
use crate::piston::place::{PistonPlace, PistonRegion};
use crate::piston::prepared::PreparedPiston;
use crate::report::{
    BossReport, BridgeReport, CrownHeatReport, CrownMomentReport, CrownReport, GrooveReport, GrowthReport, HeatReport,
    HoleReport, HottestReport, LandReport, LifeReport, PistonMassReport, PistonReport, Report, StationReport,
};
use crate::stress::{AnnularPlate, GradedPlate, RoundPlate};
use crate::units::{MM, MPA, ROOM_K, ZERO_C};
use crate::verdict::wall_lay;

/// Everything a piston's report is made from.
pub(crate) struct PistonParts<'a> {
    /// What was worked out beside it.
    pub answers: &'a Answers,
    /// Part and job.
    pub prepared: &'a PreparedPiston,
    /// Model, loads and heat.
    pub case: &'a PistonCase<'a>,
    /// The duty assessed.
    pub assessment: &'a PistonAssessment,
    /// Time until the crown is soft by each correlation of the gas film, s: Hohenberg, Woschni.
    pub soft_by_correlation: [Option<f64>; 2],
    /// The stress field, if it was solved.
    pub field: Option<&'a PistonFieldFindings>,
}

impl PistonParts<'_> {
    /// Peak over the duty of something at every crank angle.
    fn peak(&self, of: impl Fn(&crate::load::PistonForce) -> f64) -> f64 {
        let case = self.case;
        let mut peak = 0.0_f64;
        for step in 0..case.loading.duty.steps().len() {
            let (basis, speed) = (case.loading.basis(step), case.loading.speed(step, case.factor));
            for angle in 0..basis.angles() {
                peak = peak.max(of(&basis.at(angle, speed)));
            }
        }
        peak
    }

    /// Highest gas pressure less that under the piston, Pa.
    fn peak_pressure(&self) -> f64 {
        let throttles = self.case.loading.throttles.iter();
        throttles.map(|load| load.trace.peak().pressure_pa).fold(0.0, f64::max)
    }
}

/// Writes the report.
pub(crate) fn build(parts: &PistonParts<'_>) -> Report {
    let PreparedPiston { scenario, mended, unit, size, piston: found, cylinder, .. } = parts.prepared;
    let stations = stations(parts);
    let used = stations.iter().max_by(|a, b| a.utilisation.total_cmp(&b.utilisation)).map(|s| s.position_mm);
    let mut mesh_notes = mending(mended, found.overlapping, found.voids, &found.left_out);
    mesh_notes.extend(coarse(found.mesh.step()));
    let common = Common {
        answers: parts.answers.clone(),
        scenario,
        file: (*mended, *unit, *size),
        solid: (parts.case.model.volume, parts.case.model.mass.plastic()),
        mesh_notes,
        part: part(found),
        frame: &found.frame,
        build: parts.case.model.print.build,
        strength: &parts.assessment.strength,
        life: parts.assessment.life_at(0.1),
        lives: life(parts),
        center: &|place| on_piston(parts, place),
        heat: heat(parts),
        cylinder: (cylinder, parts.peak_pressure()),
        stations,
        assumptions: assumptions(parts),
        notes: notes(parts),
        field: parts.field.is_some(),
        unchecked: unchecked(parts),
        effects: effects(parts),
    };
    Report {
        piston: Some(piston(parts)),
        crank: of_piston(parts, used),
        field: parts.field.map(|findings| field(parts, findings)),
        ..common.report()
    }
}

/// Lives of the part; where heat ends the first run, no print outlives that. The correlation of the gas film that softens the
/// crown later, if it does at all, is the upper end of what may be.
fn life(parts: &PistonParts<'_>) -> LifeReport {
    let Some(soft_at) = parts.assessment.soft_after else {
        return life_of(&parts.assessment.strength.weakest_link(), parts.answers.uncertainty.deviation);
    };
    let later = |soft: &Option<f64>| soft.map_or(f64::INFINITY, |by_film| by_film.max(soft_at));
    let latest = parts.soft_by_correlation.iter().map(later).fold(soft_at, f64::max);
    let mut strength = parts.assessment.strength.clone();
    strength.modes.retain(|mode| mode.mode.asks_for_strength());
    let cool = life_of(&strength.weakest_link(), parts.answers.uncertainty.deviation);
    LifeReport {
        b50_s: cool.b50_s.min(soft_at),
        b10_s: cool.b10_s.min(soft_at),
        b1_s: cool.b1_s.min(soft_at),
        b10_low_s: cool.b10_low_s.min(soft_at),
        b10_high_s: cool.b10_high_s.min(latest),
        one_print_low_s: cool.one_print_low_s.min(soft_at),
        one_print_high_s: cool.one_print_high_s.min(latest),
        ..cool
    }
}

fn heat(parts: &PistonParts<'_>) -> HeatReport {
    let warm = parts.case.warm;
    HeatReport {
        from: temperature_from(parts.prepared.scenario.part_temperature),
        taken_c: parts.assessment.hottest - ZERO_C,
        hottest: HottestReport {
            place: PistonPlace::Crown.to_string(),
            temperature_c: Some(warm.plastic_face - ZERO_C),
            softening_c: parts.prepared.scenario.card.softening() - ZERO_C,
            runs_away: false,
        },
    }
}

fn piston(parts: &PistonParts<'_>) -> PistonReport {
    let (piston, model) = (&parts.prepared.piston, parts.case.model);
    let fits = &parts.case.fits;
    let thrust = parts.peak(|force| force.wall.abs());
    let pin = parts.peak(|force| libm::hypot(force.pin, force.pin_side));
    PistonReport {
        compression_height_mm: piston.compression_height * MM,
        length_mm: piston.length() * MM,
        skirt_diameter_mm: 2.0 * piston.skirt.radius * MM,
        skirt_length_mm: (piston.skirt.to - piston.skirt.from) * MM,
        skirt_sagitta_mm: piston.skirt.sagitta * MM,
        land_diameter_mm: 2.0 * piston.land_radius() * MM,
        crown_direction: piston.frame.direction_to_file(&Vector3::x()).into(),
        pin_offset_mm: piston.pin.offset * MM,
        bosses: piston
            .pin
            .bosses
            .iter()
            .map(|boss| BossReport {
                from_mm: boss.from * MM,
                to_mm: boss.to * MM,
                bearing_length_mm: boss.bearing_length * MM,
            })
            .collect(),
        boss_gap_mm: piston.pin.gap().map(|gap| gap * MM),
        boss_wall_mm: model.boss.map(|eye| eye.ligament * MM),
        boss_edge_mm: model.boss_edge.is_finite().then_some(model.boss_edge * MM),
        crown: crown(parts),
        grooves: grooves(parts),
        lands: lands(parts),
        masses: PistonMassReport {
            plastic_g: model.mass.plastic() * 1e3,
            whole_g: model.mass.whole() * 1e3,
            job_g: parts.prepared.scenario.engine.reciprocating_mass * 1e3,
        },
        pin_pull_n: parts.peak(|force| -force.pin),
        pin_push_n: parts.peak(|force| force.pin),
        side_thrust_n: thrust,
        skirt_pressure_mpa: thrust / (fits.skirt * fits.skirt_length).max(1e-12) * MPA,
        pin_pressure_mpa: pin / (fits.pin * model.bearing_length).max(1e-12) * MPA,
        growth: growth(parts),
        crown_heat: crown_heat(parts),
    }
}

fn crown(parts: &PistonParts<'_>) -> CrownReport {
    let (model, scenario, warm) = (parts.case.model, &parts.prepared.scenario, parts.case.warm);
    let map = &model.crown;
    let moduli: Vec<f64> = warm.crown.iter().map(|&kelvin| scenario.card.share_at(kelvin).1.max(1e-4)).collect();
    let hot = GradedPlate::new(&warm.depths, &moduli);
    let equal = hot.as_ref().map_or(f64::NAN, GradedPlate::equal_thickness);
    let stiffest = moduli.iter().copied().fold(0.0, f64::max);
    let cold = scenario.card.at(ROOM_K, scenario.moisture);
    let modulus = cold.in_plane_modulus() * stiffest;
    let pressure = parts.peak_pressure() - scenario.engine.crankcase_pressure;
    let plate = RoundPlate::new(model.plate_radius, equal, modulus, cold.poisson_ratio);
    let deflection = plate.map_or([f64::NAN; 2], |plate| {
        [plate.clamped(pressure), plate.supported(pressure)].map(|result| result.center_deflection * MM)
    });
    let CrownEdge { share, supported, clamped } = parts.assessment.crown;
    let held = parts
        .assessment
        .strength
        .modes
        .iter()
        .filter(|mode| mode.place.region() == PistonRegion::Crown && mode.mode.asks_for_strength());
    CrownReport {
        thickness_mm: model.crown_thickness * MM,
        thin_mm: map.thin * MM,
        mean_mm: map.mean * MM,
        thick_mm: map.thick * MM,
        sphere_mm: map.thin_sphere * MM,
        free_diameter_mm: 2.0 * model.plate_radius * MM,
        relief_mm: map.relief * MM,
        equal_thickness_mm: equal * MM,
        governing_edge: if supported <= clamped { "supported" } else { "clamped" }.into(),
        margin_supported: supported,
        margin_clamped: clamped,
        edge_share: share,
        margin: held.map(|mode| mode.margin).fold(f64::INFINITY, f64::min),
        deflection_mm: deflection,
        bridges: map
            .bridges
            .iter()
            .map(|bridge| BridgeReport {
                thickness_mm: bridge.thickness * MM,
                area_mm2: bridge.area * 1e6,
                center_mm: file_point(parts, bridge.top, &bridge.at),
            })
            .collect(),
        holes: map
            .holes
            .iter()
            .map(|hole| HoleReport {
                area_mm2: hole.area * 1e6,
                center_mm: file_point(parts, parts.prepared.piston.compression_height, &hole.at),
            })
            .collect(),
    }
}

/// A point of the crown by its height over the pin axis and its place on the disc, in coordinates of the file, mm.
fn file_point(parts: &PistonParts<'_>, height: f64, at: &Vector2<f64>) -> [f64; 3] {
    parts.prepared.piston.frame.to_file_mm(&Point3::new(height, at.x, at.y))
}

/// Expansion of an iron ring, 1/K (handbook value; memory).
const RING_EXPANSION: f64 = 11e-6;

fn grooves(parts: &PistonParts<'_>) -> Vec<GrooveReport> {
    let (piston, model, case) = (&parts.prepared.piston, parts.case.model, parts.case);
    let scenario = &parts.prepared.scenario;
    let pressure = parts.peak_pressure() - scenario.engine.crankcase_pressure;
    let growth = growth_of(case, &scenario.card)[0].1;
    piston
        .all_grooves()
        .enumerate()
        .map(|(index, groove)| {
            let kelvin = case.warm.belt_at(f64::midpoint(groove.from, groove.to));
            let material = scenario.card.at(kelvin, scenario.moisture);
            let warming = kelvin - ROOM_K;
            let along = material.expansion_along(model.print.build.x);
            // The land above the first groove has the gas on both its sides.
            let above = index.checked_sub(1).and_then(|land| model.lands.get(land));
            let closing = above.and_then(|land| {
                let modulus = material.in_plane_modulus().max(1.0);
                AnnularPlate::new(land.root, land.edge, land.height, modulus, material.poisson_ratio).ok()
            });
            let floor = 2.0 * groove.floor_radius * growth.expansion * warming;
            GrooveReport {
                below_crown_mm: (piston.compression_height - groove.to) * MM,
                width_mm: groove.width() * MM,
                depth_mm: groove.depth() * MM,
                width_growth_mm: groove.width() * (along - RING_EXPANSION) * warming * MM,
                closing_mm: closing.map_or(0.0, |plate| plate.under_pressure(pressure).deflection) * MM,
                floor_growth_mm: (floor - growth.of_bore()) * MM,
            }
        })
        .collect()
}

fn lands(parts: &PistonParts<'_>) -> Vec<LandReport> {
    let (model, scenario) = (parts.case.model, &parts.prepared.scenario);
    let pressure = parts.peak_pressure() - scenario.engine.crankcase_pressure;
    let lands = model.lands.iter().enumerate().map(|(index, land)| {
        let kelvin = parts.case.warm.belt_at(land.top);
        let material = scenario.card.at(kelvin, scenario.moisture);
        let modulus = material.in_plane_modulus().max(1.0);
        let plate = AnnularPlate::new(land.root, land.edge, land.height, modulus, material.poisson_ratio);
        LandReport {
            number: index + 2,
            height_mm: land.height * MM,
            depth_mm: (land.edge - land.root) * MM,
            root_stress_mpa: plate.map_or(f64::NAN, |plate| plate.under_pressure(pressure).root_stress * MPA),
            temperature_c: kelvin - ZERO_C,
        }
    });
    lands.collect()
}

fn growth(parts: &PistonParts<'_>) -> Vec<GrowthReport> {
    let film = parts.prepared.given.running_clearance;
    growth_of(parts.case, &parts.prepared.scenario.card)
        .into_iter()
        .map(|(place, growth)| GrowthReport {
            place: place.to_string(),
            temperature_c: growth.temperature - ZERO_C,
            cold_clearance_mm: growth.cold_clearance() * MM,
            growth_mm: growth.of_part() * MM,
            bore_growth_mm: growth.of_bore() * MM,
            running_clearance_mm: growth.running_clearance() * MM,
            wanted_clearance_mm: growth.wanted_clearance(film) * MM,
        })
        .collect()
}

fn crown_heat(parts: &PistonParts<'_>) -> CrownHeatReport {
    let warm = parts.case.warm;
    let softening = parts.prepared.scenario.card.softening();
    let flux = |film: &&crate::heat::Film| film.coefficient * (film.temperature - softening);
    let hottest = warm.films.iter().max_by(|a, b| flux(a).total_cmp(&flux(b)));
    CrownHeatReport {
        run_s: warm.run,
        softening_c: softening - ZERO_C,
        counting_depth_mm: warm.counting_depth.0 * MM,
        counting_depth_c: warm.counting_depth.1 - ZERO_C,
        surface_c: warm.surface - ZERO_C,
        plastic_face_c: warm.plastic_face - ZERO_C,
        top_land_c: warm.land - ZERO_C,
        softening_time_s: warm.soft(),
        crown_soft_s: warm.crown_soft,
        crown_soft_hohenberg_s: parts.soft_by_correlation[0],
        crown_soft_woschni_s: parts.soft_by_correlation[1],
        land_soft_s: warm.land_soft,
        film_w_m2_k: hottest.map_or(0.0, |film| film.coefficient),
        film_temperature_c: hottest.map_or(0.0, |film| film.temperature - ZERO_C),
        imbalance: warm.imbalance,
        table: warm
            .moments
            .iter()
            .map(|moment| CrownMomentReport {
                seconds: moment.seconds,
                surface_c: moment.surface - ZERO_C,
                plastic_face_c: moment.plastic_face - ZERO_C,
                underside_c: moment.underside - ZERO_C,
                soft_depth_mm: moment.soft_depth * MM,
            })
            .collect(),
    }
}

fn stations(parts: &PistonParts<'_>) -> Vec<StationReport> {
    let (case, scenario) = (parts.case, &parts.prepared.scenario);
    let plane = LayerPlane::new(case.model.print.build);
    let along = Vector3::x() * Vector3::x().transpose();
    case.loaded_stations()
        .map(|(index, station)| {
            let area = station.makeup.stiffness.area;
            let (low, high) = station.makeup.stiffness.principal();
            let position = station.section.position;
            let (least, most) = case.section_extremes(index);
            let kelvin = case.wall_temperature(position);
            let strength = LayerStrength::of(&scenario.card.at(kelvin, scenario.moisture), wall_lay(&case.model.print));
            let used = |stress: f64| strength.use_of(&(along * stress), &plane).utilisation;
            StationReport {
                position_mm: position * MM,
                area_mm2: station.section.properties.area * 1e6,
                solid_area_mm2: station.makeup.solid_area * 1e6,
                second_moment_min_mm4: low * 1e12,
                second_moment_max_mm4: high * 1e12,
                thinnest_wall_mm: None,
                axial_force_max_n: most,
                axial_force_min_n: least,
                shear_force_max_n: 0.0,
                bending_moment_max_n_mm: 0.0,
                stress_max_mpa: most / area * MPA,
                stress_min_mpa: least / area * MPA,
                utilisation: used(most / area * station.notch).max(used(least / area)),
                temperature_c: kelvin - ZERO_C,
            }
        })
        .collect()
}

fn assumptions(parts: &PistonParts<'_>) -> Vec<Assumption> {
    let (piston, model) = (&parts.prepared.piston, parts.case.model);
    let mut list = parts.prepared.assumptions.clone();
    for (name, value) in [
        ("skirt diameter", 2.0 * piston.skirt.radius),
        ("pin bore", 2.0 * piston.pin.radius),
        ("compression height", piston.compression_height),
        ("crown taken", model.crown_thickness),
        ("free crown diameter", 2.0 * model.plate_radius),
    ] {
        list.push(Assumption::number(name, value * MM, "mm", Origin::Mesh));
    }
    list.extend(of_card(&parts.prepared.scenario.given_card, parts.assessment.hottest));
    list
}
