use std::sync::Arc;

use nalgebra::{Point3, Vector3};

use super::faces::{Flank, GasFace};
use crate::Error;
use crate::field::{FieldError, FieldModel, Grid, Softness};
use crate::life::Findley;
use crate::numeric::map_in_order;
use crate::part::Piston;
use crate::piston::assess::PistonCase;
use crate::verdict::field::{
    Acting, BoreSeat, FieldRequest, PinCases, PinnedBore, SolvedBore, SolvedCases, Solving, States, UnitCase, Warmth,
};

/// A piston solved for its unit cases: bands of the pin, its side push, gas, both sides of the skirt, warmth.
#[derive(Debug, Clone)]
pub struct PistonField {
    pub(crate) solved: SolvedCases,
    pub(crate) bore: SolvedBore,
    /// Number of the case of gas.
    pub(crate) gas: usize,
    /// Area on which gas presses it down, m².
    crown_area: f64,
    /// Stiffness along the axis over that at the pin.
    softness: Softness,
    /// Numbers of the cases of the skirt toward y and away from it, where there is one.
    flanks: [Option<usize>; 2],
    /// Number of the case of uneven warmth; nothing where the whole piston has one temperature.
    pub(crate) warmth: Option<usize>,
}

impl PistonField {
    pub(crate) fn new(
        case: &PistonCase<'_>,
        piston: &Piston,
        request: FieldRequest,
        solving: &mut Solving<'_>,
    ) -> Result<Self, Error> {
        let (scenario, print) = (case.scenario, &case.model.print);
        let card = &scenario.card;
        let at_pin = case.boss_temperature();
        // Contact asks for the stiffness at the pin: all others are told as shares of it.
        let material = card.at(case.before_softening(at_pin), scenario.moisture);
        let grid = Grid::round(&piston.mesh, request.cells)?;
        let stiffness = material.stiffness(&print.build)?;
        let model = FieldModel::with_inside(piston.mesh.clone(), grid, stiffness, &print.into())?;
        let softness = softness(case);
        let model = model.softened(softness.clone());
        let seat = BoreSeat {
            radius: piston.pin.radius,
            sagitta: piston.pin.sagitta,
            from: piston.pin.bosses.iter().map(|boss| boss.from).fold(f64::INFINITY, f64::min),
            to: piston.pin.bosses.iter().map(|boss| boss.to).fold(f64::NEG_INFINITY, f64::max),
        };
        let center = Point3::new(0.0, piston.pin.offset, 0.0);
        let bore = PinnedBore::new("pin bore", &piston.mesh, (center, Vector3::z(), Vector3::x()), seat);
        let mut cases = Vec::new();
        let mut pin = PinCases::new(&model, bore, &mut cases)?;
        let gas = cases.len();
        let face = Acting::Surface(Arc::new(GasFace::new(piston, case.model)));
        let crown_area = -face.load(&model, 1.0)?.resultant(&model).x;
        if crown_area <= 0.0 {
            return Err(FieldError::NoSurface { what: "gas" }.into());
        }
        cases.push(UnitCase { name: "gas on the crown".into(), acting: face });
        let flanks = [(1.0, "skirt toward y"), (-1.0, "skirt away from y")].map(|(side, name)| {
            let flank = Flank::new(piston, side, |facets, of| model.integral(facets, of))?;
            cases.push(UnitCase { name: name.into(), acting: Acting::Surface(Arc::new(flank)) });
            Some(cases.len() - 1)
        });
        let warmth = warmth(case).map(|warmth| {
            cases.push(UnitCase { name: "warmth".into(), acting: Acting::Warmth(warmth) });
            cases.len() - 1
        });
        let density = scenario.material().density;
        let solved = SolvedCases::new(model, density, cases, solving, |number, solution, footprints| {
            pin.see(number, solution, footprints);
        })?;
        let bore = pin.solved();
        Ok(Self { solved, bore, gas, crown_area, softness, flanks, warmth })
    }

    /// How much of each case there is over the duty.
    pub(crate) fn states(&self, case: &PistonCase<'_>) -> States {
        let mass = &case.model.mass;
        // Rings and what lies on the crown press on it by their own inertia.
        let carried = mass.on_bosses() - mass.plastic();
        // What creep takes of the stress by heat while it runs is there with the other sign when it has cooled.
        let kept = kept(case);
        let of_step = |step: usize| {
            let (basis, speed) = (case.loading.basis(step), case.loading.speed(step, case.factor));
            map_in_order(basis.angles(), |angle| {
                let force = basis.at(angle, speed);
                let mut state = vec![0.0_f32; self.solved.count()];
                let pressed = self.bore.press(force.pin, case.piston.pin_clearance);
                let pressed = pressed.unwrap_or_else(|| self.bore.press_by_cosine(force.pin));
                for (k, pressure) in pressed.iter().enumerate() {
                    state[self.bore.first + k] = *pressure as f32;
                }
                state[self.bore.side] = force.pin_side as f32;
                state[self.gas] = ((force.gas + carried * force.acceleration) / self.crown_area) as f32;
                // A push toward y is one on the side away from it.
                if let Some(flank) = self.flanks[usize::from(force.wall > 0.0)] {
                    state[flank] = force.wall.abs() as f32;
                }
                if let Some(warmth) = self.warmth {
                    state[warmth] = kept as f32;
                }
                state
            })
        };
        let steps = (0..case.loading.duty.steps().len()).map(of_step).collect();
        let mut rest = vec![0.0; self.solved.count()];
        if let Some(warmth) = self.warmth {
            rest[warmth] = (kept - 1.0) as f32;
        }
        States { steps, rest }
    }

    /// Whether stiffness changes so much over the cells at a height that they cannot tell its stress: in a skin that is hot.
    pub(crate) fn blurred(&self, height: f64) -> bool {
        let edge = self.solved.edge;
        let (below, above) = (self.softness.at(height - edge), self.softness.at(height + edge));
        below.max(above) > BLURRED * below.min(above)
    }

    /// Force of the wall on the skirt toward y and away from it in a state, N.
    pub(crate) fn wall(&self, state: &[f32]) -> [f64; 2] {
        self.flanks.map(|flank| flank.map_or(0.0, |case| f64::from(state[case])))
    }
}

/// Ratio of stiffness over two cells from which on they cannot tell it.
const BLURRED: f64 = 2.0;

/// Temperatures along the axis from the lowest place of the ring belt to the crown's upper face, m and K.
fn temperatures<'a>(case: &PistonCase<'a>) -> impl Iterator<Item = (f64, f64)> + use<'a> {
    let (warm, crown) = (case.warm, case.model.crown.underside);
    let belt = warm.belt_heights.iter().zip(&warm.belt).filter(move |(height, _)| **height < crown);
    // The crown is known by depth, which falls toward its upper face.
    let top = crown + warm.depths.last().copied().unwrap_or(0.0);
    let through = warm.depths.iter().zip(&warm.crown).rev();
    belt.map(|(&height, &kelvin)| (height, kelvin)).chain(through.map(move |(&depth, &kelvin)| (top - depth, kelvin)))
}

/// Stiffness along the axis over that at the pin.
fn softness(case: &PistonCase<'_>) -> Softness {
    if !case.warm.counts {
        return Softness::default();
    }
    let card = &case.scenario.card;
    let at_pin = card.share_at(case.boss_temperature()).1.max(1e-4);
    Softness::new(temperatures(case).map(|(height, kelvin)| (height, card.share_at(kelvin).1 / at_pin)))
}

/// Kelvin above the pin: within the crown's wall those of crown and belt, at its outer face those of the belt, which loses heat
/// to the cylinder. Nothing where the whole piston has one temperature.
fn warmth(case: &PistonCase<'_>) -> Option<Warmth> {
    let (warm, model, at_pin) = (case.warm, case.model, case.boss_temperature());
    let above = |(height, kelvin): (f64, f64)| (height, kelvin - at_pin);
    let rim = warm.belt_heights.iter().copied().zip(warm.belt.iter().copied());
    let warmth = Warmth::along(temperatures(case).map(above).collect());
    warm.counts.then(|| warmth.with_rim(rim.map(above).collect(), [model.plate_radius, model.crown.radius]))
}

/// Share of the stress by heat that creep leaves at the end of a run: elastic strain over elastic and creep strain together
/// (the effective modulus; Findley, Lai & Onaran), where the crown has its mean temperature, at the stress of a plate whose
/// edge cannot turn, `E a dT / (2 (1 - nu))` (Timoshenko and Goodier, Theory of Elasticity).
fn kept(case: &PistonCase<'_>) -> f64 {
    let (warm, card) = (case.warm, &case.scenario.card);
    let kelvin = case.before_softening(warm.crown_mean());
    let material = card.at(kelvin, case.scenario.moisture);
    let modulus = material.in_plane_modulus();
    let (face, back) = (warm.crown.first().copied().unwrap_or(kelvin), warm.crown.last().copied().unwrap_or(kelvin));
    let nu = material.poisson_ratio.clamp(0.0, 0.5);
    let free = material.in_plane_expansion() * (face - back).abs() / (2.0 * (1.0 - nu));
    let law = Findley::of_material(&card.creep.in_si(), material.bead_modulus / modulus);
    let crept = |law: Findley| law.strain(modulus * free, warm.run, kelvin).ok();
    law.ok().and_then(crept).filter(|_| free > 0.0).map_or(1.0, |crept| free / (free + crept))
}
