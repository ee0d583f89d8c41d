//! Round pins in their bores, all together: which bands of the walls they press, and how hard.

use nalgebra::{DMatrix, DVector, Vector2};

use super::descent::{STIFF, least};

/// What all bands of all pins do to each other, and to the part as a whole.
#[derive(Debug, Clone)]
pub(crate) struct Condensed {
    /// Of each pin its bands, a range of all.
    pub(crate) of_pin: Vec<core::ops::Range<usize>>,
    /// Work of the pressure of one band on what another does, both 1 Pa, N m.
    pub(crate) work: DMatrix<f64>,
    /// Work of the pressure of each band (rows) on what each other case does (columns), N m.
    pub(crate) loads: DMatrix<f64>,
    /// m².
    pub(crate) areas: Vec<f64>,
    /// Force of each band's pressure of 1 Pa as its pin sees it, N.
    pub(crate) forces: Vec<Vector2<f64>>,
    /// Motions of a floating part that its holding pins resist.
    pub(crate) motions: Motions,
}

/// Motions of a floating part that pins resist.
#[derive(Debug, Clone, Default)]
pub(crate) struct Motions {
    /// How many.
    pub(crate) count: usize,
    /// For each pin how each motion moves it (two rows a pin).
    pub(crate) at_pins: DMatrix<f64>,
    /// Acceleration along each motion (rows) by 1 Pa on each band, and by each other case.
    pub(crate) by_bands: DMatrix<f64>,
    pub(crate) by_loads: DMatrix<f64>,
}

/// What acts at one moment.
pub(crate) struct Acts<'a> {
    /// Of each pin its radial clearance, m, and its force, N; none where it holds the part.
    pub(crate) pins: &'a [(f64, Option<Vector2<f64>>)],
    /// So much of each other case.
    pub(crate) loads: &'a [f64],
}

/// Rounds in which all wrong bands change.
const ROUNDS: usize = 16;

/// After these one changes at a time, so many times as there are bands.
const SINGLE: usize = 30;

/// A pull or an overlap below this share of the greatest pressure or gap is rounding.
const ROUNDING: f64 = 1e-9;

/// What is added to the equation of a free motion, over its own size: it keeps a pin that touches one band alone in place.
const SOFT: f64 = 1e-9;

/// Pressures below this share of what would close the clearance of a bore are none.
const BARELY: f64 = 1e-6;

/// A force below this share of the greatest is none.
const NONE: f64 = 1e-9;

impl Condensed {
    /// Pressure on every band, Pa, or the number of a pin that nothing can hold. `touching` is a guess at the bands that touch,
    /// and then those that do.
    ///
    /// Pin and wall touch without overlap or pull: gap and pressure are not negative and one of them is zero on every band, found
    /// by a primal-dual active set, all wrong bands at a time; where that goes round in circles one at a time, the first of them,
    /// which always ends (Murty 1974, Math. Program. 7, 351, for matrices as these; from memory).
    pub(crate) fn press(&self, acts: &Acts<'_>, touching: &mut Option<Vec<bool>>) -> Result<Vec<f64>, usize> {
        let count = self.areas.len();
        let most = acts.pins.iter().filter_map(|(_, force)| *force).map(|force| force.norm()).fold(0.0, f64::max);
        let pin_of: Vec<usize> =
            self.of_pin.iter().enumerate().flat_map(|(pin, range)| range.clone().map(move |_| pin)).collect();
        let nothing_to_hold = self.nothing_to_hold(acts, &pin_of);
        let unloaded =
            |force: &Option<Vector2<f64>>| force.map_or(nothing_to_hold, |force| force.norm() <= NONE * most);
        let idle: Vec<bool> = acts.pins.iter().map(|(_, force)| unloaded(force)).collect();
        let mut active = touching.take().unwrap_or_else(|| self.first_guess(acts, &pin_of));
        self.put_back(acts, &pin_of, &idle, &mut active);
        for round in 0..ROUNDS + SINGLE * count {
            (0..count).for_each(|k| active[k] &= !idle[pin_of[k]]);
            let Some(Closed { mut pressures, gaps }) = self.solve(acts, &active, &idle, &pin_of) else { break };
            let wrong = wrong(&active, &pressures, &gaps);
            let wrong: Vec<usize> = wrong.into_iter().filter(|&k| !idle[pin_of[k]]).collect();
            let Some(&first) = wrong.first() else {
                for pressure in &mut pressures {
                    *pressure = pressure.max(0.0);
                }
                *touching = Some(active);
                return Ok(pressures);
            };
            if round < ROUNDS {
                for k in wrong {
                    active[k] = !active[k];
                }
                self.put_back(acts, &pin_of, &idle, &mut active);
            } else {
                active[first] = !active[first];
            }
        }
        // Pins that load have a bound that falls with every step; a part held by its pins has not.
        if acts.pins.iter().zip(&idle).all(|((_, force), &idle)| force.is_some() || idle)
            && let Some(pressures) = self.by_descent(acts, &idle, &pin_of)
        {
            *touching = Some(pressures.iter().map(|&pressure| pressure > 0.0).collect());
            return Ok(pressures);
        }
        Err((0..idle.len()).find(|&pin| !idle[pin]).unwrap_or(0))
    }

    /// The same of pins that load, each held to its force by a stiff spring.
    fn by_descent(&self, acts: &Acts<'_>, idle: &[bool], pin_of: &[usize]) -> Option<Vec<f64>> {
        let bands: Vec<usize> = (0..self.areas.len()).filter(|&k| !idle[pin_of[k]]).collect();
        // In a unit that makes the entries of the work near 1, pressures of every bore alike.
        let unit = bands.iter().map(|&k| self.work[(k, k)]).fold(f64::MIN_POSITIVE, f64::max).sqrt().recip();
        let push = bands.iter().map(|&k| self.forces[k].norm()).fold(f64::MIN_POSITIVE, f64::max) * unit;
        let open = self.open(acts, pin_of);
        let facing = |k: usize, other: &Vector2<f64>| self.forces[k].dot(other) * unit / (push * push);
        let matrix = DMatrix::from_fn(bands.len(), bands.len(), |r, c| {
            let (k, j) = (bands[r], bands[c]);
            let held = if pin_of[k] == pin_of[j] { STIFF * facing(k, &self.forces[j]) * unit } else { 0.0 };
            f64::midpoint(self.work[(k, j)], self.work[(j, k)]) * unit * unit + held
        });
        let linear = DVector::from_fn(bands.len(), |r, _| {
            let force = acts.pins[pin_of[bands[r]]].1.unwrap_or_default();
            open[bands[r]] * unit - STIFF * facing(bands[r], &force)
        });
        let found = least(&matrix, &linear)?;
        let mut pressures = vec![0.0; self.areas.len()];
        bands.iter().zip(found.iter()).for_each(|(&k, &pressure)| pressures[k] = pressure * unit);
        Some(pressures)
    }

    /// Whether the pins that hold a floating part have next to nothing to bear, as of one that turns about its own middle: then they
    /// stand free in their bores.
    fn nothing_to_hold(&self, acts: &Acts<'_>, pin_of: &[usize]) -> bool {
        let Some(least) = self.least_pressures(acts, pin_of) else { return false };
        let closing = |k: usize| acts.pins[pin_of[k]].0 * self.areas[k] / self.work[(k, k)].max(f64::MIN_POSITIVE);
        let held = (0..self.areas.len()).filter(|&k| acts.pins[pin_of[k]].1.is_none());
        let closing = held.map(closing).fold(f64::INFINITY, f64::min);
        closing.is_finite() && least.amax() <= BARELY * closing
    }

    /// A pin that has to carry and touches nowhere is put back to where it is pushed.
    fn put_back(&self, acts: &Acts<'_>, pin_of: &[usize], idle: &[bool], active: &mut [bool]) {
        for (pin, range) in self.of_pin.iter().enumerate() {
            let carries = acts.pins[pin].1.is_some() || self.motions.count > 0;
            if !idle[pin] && carries && !active[range.clone()].contains(&true) {
                let guess = self.first_guess(acts, pin_of);
                range.clone().for_each(|k| active[k] = guess[k]);
            }
        }
    }

    /// A pin that loads touches the half that it pushes. One that holds touches where its bore is pushed on it: of a floating part
    /// where the least pressures that keep it in place would press, of another where loads close the gap.
    fn first_guess(&self, acts: &Acts<'_>, pin_of: &[usize]) -> Vec<bool> {
        let least = self.least_pressures(acts, pin_of);
        let open = self.open(acts, pin_of);
        let touches = |k: usize| match (acts.pins[pin_of[k]].1, &least) {
            (Some(force), _) => self.forces[k].dot(&force) > 0.0,
            (None, Some(least)) => least[k] > 0.0,
            (None, None) => open[k] < 0.0,
        };
        (0..self.areas.len()).map(touches).collect()
    }

    /// Pressures, pulls too, of least sum of squares by which the holding pins of a floating part keep it in place.
    fn least_pressures(&self, acts: &Acts<'_>, pin_of: &[usize]) -> Option<DVector<f64>> {
        if self.motions.count == 0 {
            return None;
        }
        let mut by_holds = self.motions.by_bands.clone();
        let mut wanted = -(&self.motions.by_loads * DVector::from_column_slice(acts.loads));
        for (k, &pin) in pin_of.iter().enumerate() {
            if let Some(force) = acts.pins[pin].1 {
                // What a pin brings is spread over its bands as they face it.
                let reach: f64 = self.of_pin[pin].clone().map(|j| self.forces[j].norm_squared()).sum();
                wanted -= by_holds.column(k) * (2.0 * self.forces[k].dot(&force) / reach.max(f64::MIN_POSITIVE));
                by_holds.column_mut(k).fill(0.0);
            }
        }
        let scale = by_holds.amax().max(f64::MIN_POSITIVE);
        let by_holds = by_holds / scale;
        let square = &by_holds * by_holds.transpose();
        Some(by_holds.transpose() * square.lu().solve(&(wanted / scale))?)
    }

    /// What touching bands press when their gaps are closed, and the gaps of the others.
    fn solve(&self, acts: &Acts<'_>, active: &[bool], idle: &[bool], pin_of: &[usize]) -> Option<Closed> {
        let count = self.areas.len();
        let inside: Vec<usize> = (0..count).filter(|&k| active[k]).collect();
        // Unknown after the pressures: where pins that load go, then motions of the part.
        let moving: Vec<usize> = (0..idle.len()).filter(|&pin| acts.pins[pin].1.is_some() && !idle[pin]).collect();
        let holding = (0..idle.len()).any(|pin| acts.pins[pin].1.is_none() && !idle[pin]);
        let (n, loose, free) = (inside.len(), 2 * moving.len(), if holding { self.motions.count } else { 0 });
        let size = n + loose + free;
        if size == 0 {
            return Some(Closed { pressures: vec![0.0; count], gaps: self.open(acts, pin_of) });
        }
        // Pressures are told in a unit that makes their own entries 1.
        let unit = (0..count).map(|k| self.work[(k, k)]).fold(f64::MIN_POSITIVE, f64::max).sqrt().recip();
        let push = self.forces.iter().map(Vector2::norm).fold(f64::MIN_POSITIVE, f64::max) * unit;
        let open = self.open(acts, pin_of);
        let mut system = DMatrix::zeros(size, size);
        let mut right = DVector::zeros(size);
        for (r, &k) in inside.iter().enumerate() {
            for (c, &j) in inside.iter().enumerate() {
                system[(r, c)] = self.work[(k, j)] * unit * unit;
            }
            right[r] = -open[k] * unit;
            if let Some(at) = moving.iter().position(|&pin| pin == pin_of[k]) {
                for axis in 0..2 {
                    system[(r, n + 2 * at + axis)] = -self.forces[k][axis] * unit / push;
                    system[(n + 2 * at + axis, r)] = self.forces[k][axis] * unit / push;
                }
            }
            for motion in 0..free {
                system[(r, n + loose + motion)] = self.moved(k, pin_of[k], motion) * unit / push;
                system[(n + loose + motion, r)] = self.motions.by_bands[(motion, k)] * unit;
            }
        }
        for (at, &pin) in moving.iter().enumerate() {
            let force = acts.pins[pin].1.unwrap_or_default();
            for axis in 0..2 {
                right[n + 2 * at + axis] = force[axis] / push;
                system[(n + 2 * at + axis, n + 2 * at + axis)] = SOFT;
            }
        }
        for motion in 0..free {
            let row = n + loose + motion;
            let by: f64 = acts.loads.iter().enumerate().map(|(i, c)| self.motions.by_loads[(motion, i)] * c).sum();
            let scale = self.motions.by_bands.row(motion).amax().max(f64::MIN_POSITIVE) * unit;
            system.row_mut(row).scale_mut(scale.recip());
            right[row] = -by / scale;
            system[(row, row)] -= SOFT;
        }
        let solved = system.lu().solve(&right)?;
        if !solved.iter().all(|value| value.is_finite()) {
            return None;
        }
        let mut pressures = vec![0.0; count];
        inside.iter().zip(solved.iter()).for_each(|(&k, p)| pressures[k] = p * unit);
        let mut gaps = open;
        for (k, gap) in gaps.iter_mut().enumerate() {
            *gap += inside.iter().map(|&j| self.work[(k, j)] * pressures[j]).sum::<f64>();
            if let Some(at) = moving.iter().position(|&pin| pin == pin_of[k]) {
                *gap -= (0..2).map(|axis| self.forces[k][axis] * solved[n + 2 * at + axis] / push).sum::<f64>();
            }
            *gap += (0..free).map(|m| self.moved(k, pin_of[k], m) * solved[n + loose + m] / push).sum::<f64>();
        }
        Some(Closed { pressures, gaps })
    }

    /// Gap of every band where nothing touches, times its area, m³.
    fn open(&self, acts: &Acts<'_>, pin_of: &[usize]) -> Vec<f64> {
        let by_loads = |k: usize| acts.loads.iter().enumerate().map(|(i, c)| self.loads[(k, i)] * c).sum::<f64>();
        (0..self.areas.len()).map(|k| acts.pins[pin_of[k]].0 * self.areas[k] + by_loads(k)).collect()
    }

    /// How a motion of the part opens the gap of a band.
    fn moved(&self, band: usize, pin: usize, motion: usize) -> f64 {
        (0..2).map(|axis| self.forces[band][axis] * self.motions.at_pins[(2 * pin + axis, motion)]).sum()
    }
}

/// Bands that touch and pull, or do not and overlap, the first first.
fn wrong(active: &[bool], pressures: &[f64], gaps: &[f64]) -> Vec<usize> {
    let greatest = |of: &[f64]| of.iter().fold(0.0_f64, |most, value| most.max(value.abs()));
    let (pull, overlap) = (-ROUNDING * greatest(pressures), -ROUNDING * greatest(gaps));
    let wrong = |&k: &usize| if active[k] { pressures[k] < pull } else { gaps[k] < overlap };
    (0..active.len()).filter(wrong).collect()
}

struct Closed {
    pressures: Vec<f64>,
    gaps: Vec<f64>,
}
