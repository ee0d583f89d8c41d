//! One part asked many times with changed inputs, without reading or cutting its mesh again.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use nalgebra::Vector3;

use crate::Error;
use crate::bench::scaled;
use crate::check::{LoadedPart, PreparedRod, Printed, Question, posed_in, prepared};
use crate::job::{Assumption, Scenario, resolve, resolve_pace};
use crate::life::WeakestLink;
use crate::material::Card;
use crate::mesh::Mesh;
use crate::orient::{Posed, Shape, print_time};
use crate::part::{Frame, Part, Piston, Rod, Thickness};
use crate::piston::{PreparedPiston, prepare_piston};
use crate::print::PrintSettings;
use crate::report::{WarningReport, warnings};
use crate::stress::EyeFamily;
use crate::verdict::piston::{PistonModel, WarmPiston, assess_piston};
use crate::verdict::{Mode, RodCuts, RodModel, Stressing, assess, self_heating, settles_beyond};

/// Sizes of a part over those of its mesh, and of what its material bears over its card.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Sizes {
    /// Of a rod, along its pins.
    pub(crate) rod: Thickness,
    /// Of a piston's crown.
    pub(crate) crown: f64,
    /// Strength over that of the card.
    pub(crate) strength: f64,
    /// Life at one strength over that of the card.
    pub(crate) life: f64,
}

impl Sizes {
    /// A card with both factors in it.
    fn card(&self, card: Card) -> Card {
        if self.strength == 1.0 && self.life == 1.0 { card } else { scaled(&card, self.strength, self.life) }
    }
}

impl Default for Sizes {
    fn default() -> Self {
        Self { rod: Thickness::default(), crown: 1.0, strength: 1.0, life: 1.0 }
    }
}

/// What one trial came to; the same numbers as a check's where the sizes are those of the mesh.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Trial {
    /// Mass of the plastic, kg.
    pub(crate) mass: f64,
    /// Factor by which all stress could grow before one part in ten fails within the wanted life.
    pub(crate) margin: f64,
    /// Running time that nine in ten reach, s.
    pub(crate) life_b10: f64,
    /// Running time that half reach, s.
    pub(crate) life_b50: f64,
    /// Highest temperature at which strength was taken, K.
    pub(crate) peak: f64,
    /// What fails first: the mode whose own margin is least.
    pub(crate) mode: Mode,
    /// Where.
    pub(crate) place: String,
    /// All places that can fail, with their scatter; heat that takes a piston is not among them.
    pub(crate) link: WeakestLink,
}

/// A part read and cut once.
pub(crate) enum TrialPart {
    Rod(Box<TrialRod>),
    Piston(Box<TrialPiston>),
}

impl TrialPart {
    /// `stations` is how finely a rod is cut.
    pub(crate) fn new(loaded: &LoadedPart, stations: usize) -> Self {
        match &loaded.part {
            Part::Rod(rod) => Self::Rod(Box::new(TrialRod {
                cuts: Kept::default(),
                models: Kept::default(),
                whole: Arc::new(RodCuts::new(rod, stations)),
                shape: OnceLock::new(),
                loaded: loaded.with(rod.clone()),
            })),
            Part::Piston(piston) => Self::Piston(Box::new(TrialPiston {
                models: Kept::default(),
                shape: OnceLock::new(),
                piston: piston.clone(),
            })),
        }
    }

    /// Assesses the part for a job at some sizes.
    pub(crate) fn assessed(&self, question: &Question<'_>, sizes: &Sizes) -> Result<Trial, Error> {
        match self {
            Self::Rod(rod) => rod.assessed(question, sizes),
            Self::Piston(piston) => piston.assessed(question, sizes),
        }
    }

    /// What of a job is hardly meant for the part.
    pub(crate) fn warnings(&self, question: &Question<'_>) -> Result<Vec<WarningReport>, Error> {
        Ok(match self {
            Self::Rod(rod) => {
                let resolved = resolve(question.job, question.card_text, question.pressure_text)?;
                warnings(&prepared(resolved, rod.loaded.clone())?.scenario)
            }
            Self::Piston(piston) => warnings(&prepare_piston(piston.piston.clone(), question)?.scenario),
        })
    }

    /// Time to print it, s. Supports of a part made thicker are taken to grow as its plastic does.
    pub(crate) fn print_time(&self, question: &Question<'_>, sizes: &Sizes, mass: f64) -> Result<f64, Error> {
        let (scenario, _) = resolve(question.job, question.card_text, question.pressure_text)?;
        let (pace, _) = resolve_pace(question.job)?;
        let plastic = mass / scenario.card.density_kg_m3.value;
        let posed = |frame: &Frame, shape: &Shape| -> Result<(PrintSettings, Posed), Error> {
            let print = posed_in(scenario.pose, scenario.print, frame)?;
            Ok((print, shape.posed(&print.build, pace.overhang, print.layer_height)))
        };
        let (print, posed) = match self {
            Self::Rod(rod) => {
                let (print, posed) = posed(&rod.rod().frame, rod.shape.get_or_init(|| Shape::new(&rod.rod().mesh)))?;
                let height = height(&rod.rod().mesh, &print.build, |x| sizes.rod.at(x, rod.rod()));
                let grown = height / posed.height;
                (print, Posed { height, support_volume: posed.support_volume * grown, ..posed })
            }
            Self::Piston(piston) => {
                // As in a check: axis upright unless the job says otherwise.
                let prepared = prepare_piston(piston.piston.clone(), question)?;
                let shape = piston.shape.get_or_init(|| Shape::new(&piston.piston.mesh));
                let posed = shape.posed(&prepared.print.build, pace.overhang, prepared.print.layer_height);
                (prepared.print, posed)
            }
        };
        Ok(print_time(plastic, &posed, &print, &pace))
    }
}

/// Height of a mesh over a bed square to `build`, each point's `z` times the factor at its `x`.
fn height(mesh: &Mesh, build: &Vector3<f64>, factor: impl Fn(f64) -> f64) -> f64 {
    let reach = mesh.points().iter().map(|p| build.x * p.x + build.y * p.y + build.z * p.z * factor(p.x));
    let (low, high) = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), r| (f64::min(l, r), f64::max(h, r)));
    high - low
}

/// Things measured once, by what they depend on; which are kept never changes a result.
struct Kept<T>(Mutex<BTreeMap<Vec<u64>, Arc<T>>>);

impl<T> Default for Kept<T> {
    fn default() -> Self {
        Self(Mutex::default())
    }
}

/// Models kept at a time: enough for a table of materials, directions and walls.
const KEPT: usize = 48;

impl<T> Kept<T> {
    fn get(&self, key: &[f64], make: impl FnOnce() -> Result<T, Error>) -> Result<Arc<T>, Error> {
        let key: Vec<u64> = key.iter().map(|number| number.to_bits()).collect();
        if let Some(known) = self.0.lock().unwrap_or_else(PoisonError::into_inner).get(&key) {
            return Ok(known.clone());
        }
        // Made outside the lock: two threads may make the same, which is dearer than waiting only once.
        let made = Arc::new(make()?);
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.len() >= KEPT {
            kept.clear();
        }
        kept.insert(key, made.clone());
        Ok(made)
    }
}

fn print_key(print: &PrintSettings) -> [f64; 8] {
    let PrintSettings { build, bead_width, layer_height, walls, skin_layers, infill } = print;
    [build.x, build.y, build.z, *bead_width, *layer_height, f64::from(*walls), f64::from(*skin_layers), *infill]
}

/// A rod cut once.
pub(crate) struct TrialRod {
    loaded: LoadedPart<Arc<Rod>>,
    whole: Arc<RodCuts>,
    shape: OnceLock<Shape>,
    cuts: Kept<RodCuts>,
    models: Kept<RodModel>,
}

impl TrialRod {
    pub(crate) fn rod(&self) -> &Arc<Rod> {
        &self.loaded.part
    }

    fn assessed(&self, question: &Question<'_>, changed: &Sizes) -> Result<Trial, Error> {
        let thickness = changed.rod;
        let mut resolved: (Scenario, Vec<Assumption>) =
            resolve(question.job, question.card_text, question.pressure_text)?;
        resolved.0.card = changed.card(resolved.0.card);
        let prepared: PreparedRod = prepared(resolved, self.loaded.clone())?;
        let density = prepared.scenario.material().density;
        let sizes = [thickness.small_end, thickness.shank, thickness.big_end];
        let cuts = if thickness == Thickness::default() {
            self.whole.clone()
        } else {
            self.cuts.get(&sizes, || Ok(self.whole.with_thickness(self.rod(), thickness)))?
        };
        let key: Vec<f64> = sizes.into_iter().chain(print_key(&prepared.print)).chain([density]).collect();
        let angles = EyeFamily::embedded().angles();
        let model = self.models.get(&key, || Ok(RodModel::new(self.rod(), &cuts, prepared.print, density, angles)))?;
        let printed = Printed::loaded(model, &prepared)?;
        let warm = printed.warm(&prepared)?;
        let temperatures = warm.at(1.0)?.temperatures;
        let peak = temperatures.peak();
        let scenario = &prepared.scenario;
        let stressing = Stressing::new(&printed.model, &printed.loading, scenario, &temperatures);
        let mut assessment = assess(&stressing, scenario, &temperatures);
        if !settles_beyond(&warm, 1.0, assessment.governing().margin)? {
            assessment.add(self_heating(&warm, 1.0)?);
        }
        let strength = &assessment.strength;
        let governing = strength.governing();
        Ok(Trial {
            mass: printed.model.mass.mass(),
            margin: strength.margin(),
            life_b10: strength.life_at(0.1),
            life_b50: strength.life_at(0.5),
            peak,
            mode: governing.mode,
            place: governing.place.to_string(),
            link: strength.weakest_link(),
        })
    }
}

/// A piston measured once for every way it is printed.
pub(crate) struct TrialPiston {
    piston: Arc<Piston>,
    shape: OnceLock<Shape>,
    models: Kept<PistonModel>,
}

impl TrialPiston {
    /// The piston of a job, measured.
    pub(crate) fn measured(&self, prepared: &PreparedPiston) -> Result<Arc<PistonModel>, Error> {
        let given = &prepared.given;
        let by_hand = |value: Option<f64>| value.unwrap_or(-1.0);
        let mut key = print_key(&prepared.print).to_vec();
        key.extend([prepared.scenario.material().density, given.ring_mass, given.pin_mass]);
        key.extend([by_hand(given.crown_thickness), by_hand(given.plate_radius), prepared.scenario.stations as f64]);
        key.extend(given.layers.iter().flat_map(|layer| [layer.density, layer.thickness]));
        self.models.get(&key, || prepared.model())
    }

    fn assessed(&self, question: &Question<'_>, changed: &Sizes) -> Result<Trial, Error> {
        let crown = changed.crown;
        let mut prepared = prepare_piston(self.piston.clone(), question)?;
        prepared.scenario.card = changed.card(prepared.scenario.card);
        let as_it_is = self.measured(&prepared)?;
        let model = if crown == 1.0 {
            as_it_is
        } else {
            Arc::new(with_crown(&as_it_is, crown, prepared.scenario.material().density))
        };
        let loading = prepared.loading(&model)?;
        let PreparedPiston { scenario, given, .. } = &prepared;
        let warm = WarmPiston::new(&model, &loading, scenario, given, &scenario.card, 1.0)?;
        let case = prepared.case(&model, &loading, &warm, 1.0);
        let assessment = assess_piston(&case, &scenario.card)?;
        let governing = assessment.strength.governing();
        Ok(Trial {
            mass: model.mass.plastic(),
            margin: assessment.strength.margin(),
            life_b10: assessment.life_at(0.1),
            life_b50: assessment.life_at(0.5),
            peak: assessment.hottest,
            mode: governing.mode,
            place: governing.place.to_string(),
            link: assessment.strength.weakest_link(),
        })
    }
}

/// The same piston with a crown thicker or thinner on its underside: stiffness, heat and mass follow; where walls and
/// bosses meet it stays. `density` is that of the solid plastic, kg/m³.
pub(crate) fn with_crown(model: &PistonModel, factor: f64, density: f64) -> PistonModel {
    let more = model.crown_thickness * (factor - 1.0);
    let area = core::f64::consts::PI * model.plate_radius * model.plate_radius;
    let middle = model.crown.underside - more / 2.0;
    let mass = model.mass.with_plastic(middle, area * more * density);
    let mut crown = model.crown.clone();
    crown.bridges.iter_mut().for_each(|bridge| bridge.thickness *= factor);
    PistonModel {
        crown,
        crown_thickness: model.crown_thickness * factor,
        volume: model.volume + area * more,
        mass,
        ..model.clone()
    }
}
