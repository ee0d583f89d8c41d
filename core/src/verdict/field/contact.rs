use nalgebra::{DMatrix, DVector};

/// How a bore gives under pressures on bands round it.
#[derive(Debug, Clone)]
pub(crate) struct Compliance {
    /// Work of the pressure of one band on the displacements of another, both 1 Pa, N m.
    pub(crate) work: DMatrix<f64>,
    /// Area of each band, weighted by its shape, m².
    pub(crate) areas: Vec<f64>,
    /// Force of each band's pressure of 1 Pa away from the shank, N.
    pub(crate) outward: Vec<f64>,
}

/// Rounds after which bands that touch are taken as they are.
const ROUNDS: usize = 60;

impl Compliance {
    /// Pressure of a rigid round pin on every band, Pa, for a force (N) away from the shank, negative toward it, at a
    /// radial clearance (m); `None` where nothing of the bore can take the force.
    ///
    /// Pin and bore touch without overlap or pull: gap and pressure are not negative and one of them is zero on every
    /// band, found by a primal-dual active set.
    pub(crate) fn press(&self, force: f64, clearance: f64) -> Option<Vec<f64>> {
        let count = self.areas.len();
        let sense = if force < 0.0 { -1.0 } else { 1.0 };
        let size = force.abs();
        let mut pressures = vec![0.0; count];
        if size == 0.0 {
            return Some(pressures);
        }
        let along: Vec<f64> = self.outward.iter().map(|f| sense * f).collect();
        let most = along.iter().copied().fold(0.0, f64::max);
        if most <= 0.0 {
            return None;
        }
        let stiffest = (0..count).map(|k| self.work[(k, k)] / self.areas[k].max(f64::MIN_POSITIVE)).fold(0.0, f64::max);
        let mut active: Vec<bool> = along.iter().map(|f| *f > 0.0).collect();
        for _ in 0..ROUNDS {
            let inside: Vec<usize> = (0..count).filter(|&k| active[k]).collect();
            let n = inside.len();
            let system = DMatrix::from_fn(n + 1, n + 1, |r, c| match (r < n, c < n) {
                (true, true) => self.work[(inside[r], inside[c])],
                (true, false) => -along[inside[r]],
                (false, true) => along[inside[c]],
                (false, false) => 0.0,
            });
            let right = DVector::from_fn(n + 1, |r, _| if r < n { -clearance * self.areas[inside[r]] } else { size });
            let solved = system.lu().solve(&right)?;
            pressures.fill(0.0);
            inside.iter().zip(solved.iter()).for_each(|(&k, &p)| pressures[k] = p);
            let pin = solved[n];
            let mut changed = false;
            for k in 0..count {
                let gap: f64 = clearance * self.areas[k] - pin * along[k]
                    + (0..count).map(|j| self.work[(k, j)] * pressures[j]).sum::<f64>();
                let gap = if active[k] { 0.0 } else { gap / self.areas[k].max(f64::MIN_POSITIVE) };
                let touches = pressures[k] * stiffest - gap > 0.0;
                changed |= touches != active[k];
                active[k] = touches;
            }
            if !active.iter().any(|&touches| touches) {
                return None;
            }
            if !changed {
                break;
            }
        }
        for pressure in &mut pressures {
            *pressure = pressure.max(0.0);
        }
        Some(pressures)
    }
}
