use super::coarsen::{coarser, gather, interpolate};
use super::coarsest::{Coarsest, Order, least_work};
use super::level::Level;
use super::lines::Lines;
use super::number::Number;
use super::rigid::RigidMotions;
use super::smoother::Smoother;

// Written here: the solvers of the registry want an assembled matrix, of 79 numbers a node and load; these cells have none.
/// Grids from the finest to one small enough to solve at once: one pass over them all is the preconditioner.
#[derive(Debug, Clone)]
pub(super) struct Multigrid {
    levels: Vec<Level>,
    smoothers: Vec<Smoother>,
    coarsest: Coarsest,
}

/// Work, in products, up to which a grid is solved at once: what an iteration or two on twenty thousand cells take.
///
/// Counted in 64 bits: in the 32 of a sandbox the work of a window of the field's wraps round to less.
const SMALL: u64 = 60_000_000;

impl Multigrid {
    pub(super) fn new(finest: Level, motions: &RigidMotions) -> Self {
        let mut levels = vec![finest];
        let mut smoothers = Vec::new();
        let coarsest = loop {
            let level = &levels[levels.len() - 1];
            let blocks = level.blocks();
            let single = level.counts.iter().all(|&count| count == 1);
            if single || least_work(level, &blocks) <= SMALL {
                let order = Order::new(level, &blocks);
                if single || order.work() <= SMALL {
                    break Coarsest::new(level, &order, motions, levels.len() - 1);
                }
            }
            smoothers.push(Smoother::new(level, &blocks));
            let next = coarser(level);
            levels.push(next);
        };
        Self { levels, smoothers, coarsest }
    }

    pub(super) fn finest(&self) -> &Level {
        &self.levels[0]
    }

    /// Grids, the finest among them.
    pub(super) fn depth(&self) -> usize {
        self.levels.len()
    }

    /// Cells with matrices of their own on all grids.
    pub(super) fn own_cells(&self) -> usize {
        self.levels.iter().map(Level::own_cells).sum()
    }

    /// Room for the vectors of a pass.
    pub(super) fn work<T: Number<Factor = f32>>(&self) -> Vec<Work<T>> {
        self.levels.iter().map(|level| Work::new(&level.lines)).collect()
    }

    /// Solves nearly for the load in the finest `work`, and leaves the answer there.
    pub(super) fn pass<T: Number<Factor = f32>>(&self, work: &mut [Work<T>]) {
        self.improve(0, Visit::First, work);
    }

    /// Improves the answer of the grid at `depth`, which a first visit takes to be nothing yet.
    fn improve<T: Number<Factor = f32>>(&self, depth: usize, visit: Visit, work: &mut [Work<T>]) {
        let Some((here, below)) = work.split_first_mut() else { return };
        let level = &self.levels[depth];
        let Some(smoother) = self.smoothers.get(depth) else {
            self.coarsest.solve(&here.load, &mut here.answer);
            return;
        };
        let Work { load, answer, other } = here;
        match visit {
            Visit::First => smoother.smooth_zero(level, load, answer, other),
            Visit::Again => smoother.smooth(level, load, answer, other),
        }
        level.rest(load, answer, other);
        gather(&level.lines, other, &self.levels[depth + 1].lines, &mut below[0].load);
        self.improve(depth + 1, Visit::First, below);
        // The first coarser grid costs as much as an iteration saves; one that is solved at once has no more to give.
        if (1..self.smoothers.len().saturating_sub(1)).contains(&depth) {
            self.improve(depth + 1, Visit::Again, below);
        }
        interpolate(&self.levels[depth + 1].lines, &below[0].answer, &level.lines, answer);
        smoother.smooth(level, load, answer, other);
    }
}

/// Whether a grid has an answer already. Grids from the second coarser one on are visited twice in a pass (a W-cycle):
/// the coarser a grid, the less it can bend as the part does, and the second visit mends what the first left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Visit {
    First,
    Again,
}

/// Vectors of one grid.
#[derive(Debug, Clone)]
pub(super) struct Work<T> {
    pub(super) load: Vec<T>,
    pub(super) answer: Vec<T>,
    /// Room for one more.
    other: Vec<T>,
}

impl<T: Number> Work<T> {
    fn new(lines: &Lines) -> Self {
        Self { load: lines.zeros(), answer: lines.zeros(), other: lines.zeros() }
    }
}
