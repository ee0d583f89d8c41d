use nalgebra::Vector6;

use super::solved::Stress;
use crate::field::combined;
use crate::field::tensor;
use crate::material::Use;
use crate::numeric::sort_few;
use crate::verdict::mode::Mode;
use crate::verdict::spot_stress::{Counted, Reach, extremes};

/// How much of each unit case there is over a duty.
#[derive(Debug, Clone)]
pub(crate) struct States {
    /// `[step][crank angle][case]`.
    pub(crate) steps: Vec<Vec<Vec<f32>>>,
    /// When the engine stands.
    pub(crate) rest: Vec<f32>,
}

/// Crank angles of a step that are looked at first.
const FEW: usize = 60;

/// Steps that are looked at first.
const FEW_STEPS: usize = 8;

impl States {
    /// Every crank angle of each step.
    pub(crate) fn all(&self) -> Vec<Vec<usize>> {
        self.steps.iter().map(|step| (0..step.len()).collect()).collect()
    }

    /// Of each step every so many crank angles, and those at which a case is at its greatest: peaks come out within a per
    /// cent. Of many steps those that load the part most; of the others one angle, which stands for no cycle.
    pub(crate) fn few(&self) -> Vec<Vec<usize>> {
        let few = |states: &Vec<Vec<f32>>| {
            let stride = states.len().div_ceil(FEW).max(1);
            let mut chosen: Vec<usize> = (0..states.len()).step_by(stride).collect();
            for case in 0..self.rest.len() {
                let by = |a: &usize, b: &usize| states[*a][case].total_cmp(&states[*b][case]);
                chosen.extend((0..states.len()).max_by(by));
            }
            chosen.sort_unstable();
            chosen.dedup();
            chosen
        };
        let most = self.most_loaded();
        let steps = self.steps.iter().enumerate();
        steps.map(|(step, states)| if most.contains(&step) { few(states) } else { vec![0] }).collect()
    }

    /// The steps that load the part most: by the greatest size of a state, each case over its own greatest.
    fn most_loaded(&self) -> Vec<usize> {
        let mut greatest = vec![f32::MIN_POSITIVE; self.rest.len()];
        for state in self.steps.iter().flatten() {
            greatest.iter_mut().zip(state).for_each(|(most, value)| *most = most.max(value.abs()));
        }
        let size = |state: &Vec<f32>| state.iter().zip(&greatest).map(|(v, most)| (v / most) * (v / most)).sum::<f32>();
        let sizes: Vec<f32> = self.steps.iter().map(|states| states.iter().map(size).fold(0.0, f32::max)).collect();
        let mut steps: Vec<usize> = (0..self.steps.len()).collect();
        sort_few(&mut steps, |&a, &b| sizes[b].total_cmp(&sizes[a]).then(a.cmp(&b)));
        steps.truncate(FEW_STEPS);
        steps
    }
}

/// Which crank angles are looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Angles {
    /// All.
    All,
    /// Few, see [`States::few`].
    Few,
}

/// What a duty uses of the strength at one point, counted along one line through stress space, that of the worst stress: a
/// point is loaded the same way while its stress points the same way.
#[derive(Debug, Clone)]
pub(crate) struct Path {
    /// Most of the strength that is used, and what of: how much of it is a pull, a push or a shear along the layers decides
    /// what its mean does.
    pub(crate) most: Use,
    /// Step and crank angle then.
    pub(crate) worst: (usize, usize),
    /// Stress then, Pa.
    pub(crate) stress: Vector6<f64>,
    /// Use at every angle of each step, with the sign of what it is of.
    repeating: Vec<Vec<f64>>,
    /// What of it ruptures by lasting.
    lasting: Vec<Vec<f64>>,
    rest: f64,
}

impl Path {
    /// Of a point with the stresses of its cases, all of them times `factor`; `angles` are those looked at, `used` is the
    /// use of a stress, and `finer` what the worst stress is made of where that is known better.
    pub(crate) fn new(
        cases: &[Stress],
        states: &States,
        angles: &[Vec<usize>],
        factor: f64,
        used: impl Fn(&Vector6<f64>) -> Use,
        finer: Option<Use>,
    ) -> Self {
        let combined = |state: &[f32]| combined(cases, state) * factor;
        let mut worst = (Use::default(), (0, 0), Vector6::zeros());
        let mut paths = Vec::with_capacity(angles.len());
        for (step, (states, angles)) in states.steps.iter().zip(angles).enumerate() {
            let path = angles.iter().map(|&angle| {
                let stress = combined(&states[angle]);
                let here = used(&stress);
                if here.utilisation > worst.0.utilisation {
                    worst = (here, (step, angle), stress);
                }
                (stress, here)
            });
            paths.push(path.collect::<Vec<_>>());
        }
        let (mut most, at_worst, stress) = worst;
        if let Some(finer) = finer {
            (most.layer_share, most.pull) = (finer.layer_share, finer.pull);
        }
        let along = |here: &Vector6<f64>| tensor(here).component_mul(&tensor(&stress)).sum();
        let rest = combined(&states.rest);
        let rest = used(&rest).signed(&most, along(&rest));
        let signed = |(here, used): &(Vector6<f64>, Use)| used.signed(&most, along(here));
        let repeating = paths.iter().map(|path| path.iter().map(signed).collect()).collect();
        let lasting = paths.iter().map(|path| path.iter().map(|(_, used)| used.lasting()).collect()).collect();
        Self { most, worst: at_worst, stress, repeating, lasting, rest }
    }

    /// How far it reaches.
    pub(crate) fn reach(&self) -> Reach {
        let steps = self.repeating.iter().map(|history| extremes(history.iter().copied())).collect();
        Reach { steps, rest: self.rest }
    }

    /// Its cycles and lasting levels, where each step has such a share of the time.
    pub(crate) fn counted(&self, shares: impl Iterator<Item = f64>) -> Counted {
        Counted::of_both(self.repeating.iter().zip(self.lasting.iter().map(Some)), shares)
    }

    /// What one load does when the most strength is used.
    pub(crate) fn at_once(&self) -> Mode {
        if self.most.layer_share > 0.5 {
            Mode::OverloadAcrossLayers
        } else if self.most.pull < 0.0 {
            Mode::Crushing
        } else {
            Mode::OverloadInLayerPlane
        }
    }
}
