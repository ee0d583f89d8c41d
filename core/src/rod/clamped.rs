use super::model::RodModel;
use super::place::End;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use crate::job::{Cap, Scenario};
use crate::life::Findley;
use crate::material::{Card, REFERENCE_TEMPERATURE};
use crate::numeric::halved;
use crate::stress::{Clamp, StressError};

/// Young's modulus of steel studs, Pa, and their expansion by heat, 1/K (handbook values; memory).
const STEEL: (f64, f64) = (205e9, 11.5e-6);

/// A cap clamped over an eye: one stud with the plastic it squeezes stands for all.
pub struct Clamped<'a> {
    /// The cap.
    pub cap: &'a Cap,
    hot: Clamp,
    /// What the preload would be, had it been tightened when hot to the same change of length, N.
    preload: f64,
    /// What the plastic grows beyond the stud, m.
    growth: f64,
    creep: Findley,
    kelvin: f64,
}

impl<'a> Clamped<'a> {
    /// The cap of an eye, if it has one.
    pub fn of(
        model: &RodModel,
        scenario: &'a Scenario,
        card: &Card,
        temperatures: &Temperatures,
        end: End,
    ) -> Option<Self> {
        let cap = scenario.caps[end as usize].as_ref()?;
        let kelvin = temperatures.eyes[end as usize];
        let cosine = model.print.build.x;
        let (cold, warm) = (card.at(REFERENCE_TEMPERATURE, scenario.moisture), card.at(kelvin, scenario.moisture));
        let stud_stiffness = STEEL.0 * cap.stress_area / cap.stud_length;
        let clamp = |modulus: f64| Clamp { stud_stiffness, area: cap.squeezed, length: cap.grip, modulus };
        let give = |clamp: &Clamp| 1.0 / stud_stiffness + clamp.length / (clamp.area * clamp.modulus);
        let (stiff, hot) = (clamp(cold.modulus_along(cosine)), clamp(warm.modulus_along(cosine)));
        let warming = kelvin - REFERENCE_TEMPERATURE;
        let law = card.creep.in_si();
        Some(Self {
            preload: cap.preload * give(&stiff) / give(&hot),
            growth: (cap.grip * warm.expansion_along(cosine) - cap.stud_length * STEEL.1) * warming,
            creep: Findley::of_material(&law, cold.bead_modulus / cold.modulus_along(cosine)).ok()?,
            hot,
            cap,
            kelvin,
        })
    }

    /// Pull of all studs when tightened, N.
    pub fn assembled(&self) -> f64 {
        self.cap.preload * self.cap.studs
    }

    /// Stress of the plastic under a head when tightened, Pa.
    pub fn squeeze(&self) -> f64 {
        self.cap.preload / self.cap.squeezed
    }

    /// Stress of a stud when tightened, Pa.
    pub fn stud_stress(&self) -> f64 {
        self.cap.preload / self.cap.stress_area
    }

    /// Pull of all studs at the running temperature after a time at it, N; at once with 0.
    pub fn after(&self, seconds: f64) -> Result<f64, StressError> {
        let strain = |squeeze: f64| match seconds {
            0.0 => 0.0,
            _ => self.creep.strain(squeeze, seconds, self.kelvin).unwrap_or(f64::INFINITY),
        };
        Ok(self.cap.studs * self.hot.relaxed_preload(self.preload, self.growth, strain)?)
    }

    /// Running time until a pull (N) on the joint opens it, s; 0 if it does so at once, `None` beyond `horizon`, s.
    ///
    /// It opens when the pull reaches what is left of the preload: that the squeezed plastic gives back a part of it to
    /// the studs is left out, which is severe. Found by halving the logarithm of time, to a thousandth.
    pub fn opens(&self, pull: f64, horizon: f64) -> Result<Option<f64>, StressError> {
        if self.after(0.0)? <= pull {
            return Ok(Some(0.0));
        }
        if self.after(horizon)? > pull {
            return Ok(None);
        }
        // Shorter than a millionth of a second is no time.
        let ends = (libm::log(1e-6_f64.min(0.5 * horizon)), libm::log(horizon));
        let near = |good: f64, bad: f64| bad - good <= 1e-3;
        let (last, _) = halved(ends, near, |at| Ok::<_, StressError>(self.after(libm::exp(at))? > pull))?;
        Ok(Some(libm::exp(last)))
    }
}

/// Greatest pull through the joint of an eye over the duty, N: the axial force in the cut through the bore's centre,
/// beyond which lie cap and pin.
pub fn joint_pull(stressing: &Stressing<'_>, end: End) -> f64 {
    let model = stressing.model;
    let center = if end == End::Small { 0.0 } else { model.length };
    let off = |index: &usize| (model.stations[*index].section.position - center).abs();
    // The cut through the centre itself, unless there is no material in it.
    let cut = (0..model.stations.len()).min_by(|a, b| off(a).total_cmp(&off(b)));
    cut.map_or(0.0, |index| stressing.station(index).axial.1.max(0.0))
}
