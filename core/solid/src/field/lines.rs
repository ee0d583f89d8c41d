use crate::numeric::map_pieces;

/// Where the unknowns of a grid's nodes stand in a vector.
///
/// Nodes at one `y` and `z` are a **line**; of a line only the stretch from the first to the last node that carries
/// material is kept: first the `x` components of the stretch, then `y`, then `z`. A vector is cut between lines into
/// **pieces** of like size; pieces are what threads share and in whose order sums are taken.
#[derive(Debug, Clone)]
pub(super) struct Lines {
    /// Nodes along each axis.
    pub(super) counts: [usize; 3],
    first: Vec<u32>,
    length: Vec<u32>,
    /// Place of the first component of each line, and the whole length at the end.
    offset: Vec<usize>,
    /// First line of each piece, and the number of lines at the end.
    pieces: Vec<usize>,
    bounds: Vec<usize>,
    /// How the part goes on beyond the first plane of nodes across each axis.
    folds: Folds,
}

/// How a part and its load go on beyond the first plane of nodes across an axis.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) enum Fold {
    /// They end there.
    #[default]
    None,
    /// The part as its mirror image and the load likewise: nodes in the plane do not move out of it.
    Even,
    /// The part as its mirror image and the load as the reverse of it: nodes in the plane move out of it alone.
    Odd,
}

/// Across each axis.
pub(super) type Folds = [Fold; 3];

/// Least number of unknowns in a piece: large enough that dealing it out costs nothing beside the work in it.
const PIECE: usize = 12_288;

impl Lines {
    /// For cells of which `spans` tells, for each row, the first and the one after the last filled cell.
    pub(super) fn new(cells: [usize; 3], spans: &[Option<(u32, u32)>]) -> Self {
        let counts = cells.map(|count| count + 1);
        let rows = [cells[1], cells[2]];
        let lines = counts[1] * counts[2];
        let (mut first, mut length) = (vec![0; lines], vec![0; lines]);
        let (mut offset, mut pieces, mut bounds) = (vec![0], vec![0], vec![0]);
        for k in 0..counts[2] {
            for j in 0..counts[1] {
                let line = j + counts[1] * k;
                let touching = [(0, 0), (1, 0), (0, 1), (1, 1)]
                    .into_iter()
                    .filter(|&(b, c)| j >= b && k >= c && j - b < rows[0] && k - c < rows[1])
                    .filter_map(|(b, c)| spans[(j - b) + rows[0] * (k - c)]);
                if let Some((from, to)) = touching.reduce(|a, b| (a.0.min(b.0), a.1.max(b.1))) {
                    first[line] = from;
                    length[line] = to + 1 - from;
                }
                let end = offset[line] + 3 * length[line] as usize;
                offset.push(end);
                if end - bounds[bounds.len() - 1] >= PIECE {
                    pieces.push(line + 1);
                    bounds.push(end);
                }
            }
        }
        if pieces[pieces.len() - 1] != lines {
            pieces.push(lines);
            bounds.push(offset[lines]);
        }
        Self { counts, first, length, offset, pieces, bounds, folds: [Fold::None; 3] }
    }

    /// The same with what lies beyond the first planes.
    pub(super) fn folded(self, folds: Folds) -> Self {
        Self { folds, ..self }
    }

    /// See the field.
    pub(super) fn folds(&self) -> Folds {
        self.folds
    }

    /// Axes along which a node does not move.
    pub(super) fn held(&self, node: [usize; 3]) -> [bool; 3] {
        let mut held = [false; 3];
        for (axis, fold) in self.folds.iter().enumerate().filter(|(axis, _)| node[*axis] == 0) {
            for (component, held) in held.iter_mut().enumerate() {
                *held |= match fold {
                    Fold::None => false,
                    Fold::Even => component == axis,
                    Fold::Odd => component != axis,
                };
            }
        }
        held
    }

    /// Sets what a line's values hold along such axes to nothing.
    pub(super) fn hold<T: Copy + Default>(&self, line: usize, values: &mut [T]) {
        if self.folds == [Fold::None; 3] || values.is_empty() {
            return;
        }
        let length = values.len() / 3;
        let (first, _) = self.stretch(line);
        let at = |i: usize| self.held([i, line % self.counts[1], line / self.counts[1]]);
        // Along a line only its first node may lie in a plane across x.
        let (here, beyond) = (at(first), at(first + 1));
        for (component, values) in values.chunks_exact_mut(length).enumerate() {
            if beyond[component] {
                values.fill(T::default());
            } else if here[component] {
                values[0] = T::default();
            }
        }
    }

    /// Length of a vector.
    pub(super) fn len(&self) -> usize {
        self.offset[self.offset.len() - 1]
    }

    /// Lines of the grid.
    pub(super) fn lines(&self) -> usize {
        self.first.len()
    }

    /// Where the pieces begin in a vector, with its length at the end.
    pub(super) fn bounds(&self) -> &[usize] {
        &self.bounds
    }

    /// The lines of a piece.
    pub(super) fn piece(&self, number: usize) -> std::ops::Range<usize> {
        self.pieces[number]..self.pieces[number + 1]
    }

    /// First node of a line's stretch and the number of nodes in it.
    pub(super) fn stretch(&self, line: usize) -> (usize, usize) {
        (self.first[line] as usize, self.length[line] as usize)
    }

    /// Where a line stands in a vector.
    pub(super) fn range(&self, line: usize) -> std::ops::Range<usize> {
        self.offset[line]..self.offset[line + 1]
    }

    /// Number of the line at `j`, `k`, if there is one.
    pub(super) fn line(&self, j: i64, k: i64) -> Option<usize> {
        let inside = j >= 0 && k >= 0 && j < self.counts[1] as i64 && k < self.counts[2] as i64;
        inside.then(|| j as usize + self.counts[1] * k as usize)
    }

    /// Place of a component of a node that is in its line's stretch.
    pub(super) fn place(&self, node: [usize; 3], component: usize) -> usize {
        let line = node[1] + self.counts[1] * node[2];
        let (first, length) = self.stretch(line);
        self.offset[line] + component * length + (node[0] - first)
    }

    /// Whether a node of the grid is in its line's stretch.
    pub(super) fn holds(&self, node: [usize; 3]) -> bool {
        let (first, length) = self.stretch(node[1] + self.counts[1] * node[2]);
        (first..first + length).contains(&node[0])
    }

    /// The node and the component of a place of a vector.
    pub(super) fn at(&self, place: usize) -> ([usize; 3], usize) {
        let line = self.offset.partition_point(|&start| start <= place) - 1;
        let (first, length) = self.stretch(line);
        let within = place - self.offset[line];
        ([first + within % length, line % self.counts[1], line / self.counts[1]], within / length)
    }

    /// Number of a node that is in its line's stretch; nodes of a line follow each other.
    pub(super) fn number(&self, node: [usize; 3]) -> usize {
        let line = node[1] + self.counts[1] * node[2];
        self.offset[line] / 3 + node[0] - self.first[line] as usize
    }

    /// Places of the three components of the node of that number.
    pub(super) fn places(&self, number: usize) -> [usize; 3] {
        let line = self.offset.partition_point(|&start| start <= 3 * number) - 1;
        let (start, length) = (self.offset[line], self.length[line] as usize);
        [0, 1, 2].map(|component| start + component * length + number - start / 3)
    }

    /// A vector of zeros, written by the threads that will work on it: memory that is read before it is written is
    /// mapped twice, which takes longer than the filling.
    pub(super) fn zeros<T: Copy + Default + Send>(&self) -> Vec<T> {
        let mut vector = vec![T::default(); self.len()];
        map_pieces(&mut vector, &self.bounds, |_, part| part.fill(T::default()));
        vector
    }

    /// Calls `work` for every line with its number and its part of `vector`, lines of one piece in order.
    pub(super) fn for_each<T: Send>(&self, vector: &mut [T], work: impl Fn(usize, &mut [T]) + Sync + Send) {
        self.for_each_with(vector, || (), |line, part, ()| work(line, part));
    }

    /// The same with `room` for what one line needs, which the lines of a piece use one after the other.
    pub(super) fn for_each_with<T: Send, R>(
        &self,
        vector: &mut [T],
        room: impl Fn() -> R + Sync + Send,
        work: impl Fn(usize, &mut [T], &mut R) + Sync + Send,
    ) {
        map_pieces(vector, &self.bounds, |piece, part| {
            let start = self.bounds[piece];
            let mut room = room();
            for line in self.piece(piece) {
                let range = self.range(line);
                work(line, &mut part[range.start - start..range.end - start], &mut room);
            }
        });
    }

    /// Those of the nodes `from..from + count` of one component of a line that are in its stretch, with how many are before
    /// them.
    pub(super) fn within<'a, T>(
        &self,
        line: Option<usize>,
        vector: &'a [T],
        component: usize,
        from: i64,
        count: usize,
    ) -> (usize, &'a [T]) {
        let Some(line) = line else { return (0, &[]) };
        let (first, length) = self.stretch(line);
        let (first, last) = (first as i64, (first + length) as i64);
        let (low, high) = (first.max(from), last.min(from + count as i64));
        if low >= high {
            return (0, &[]);
        }
        let place = self.offset[line] + component * length;
        let values = &vector[place + (low - first) as usize..place + (high - first) as usize];
        ((low - from) as usize, values)
    }
}
