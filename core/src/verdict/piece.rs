use super::place::End;
use super::summary::{ModeMargin, StationStress};
use super::wear::WearBound;
use super::worst::Worst;

/// A piece of a rod that is assessed on its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Piece {
    /// A station by index.
    Station(usize),
    /// An eye.
    Eye(End),
}

/// A point whose exact margin costs more than a look at its extremes.
#[derive(Debug, Clone, Copy)]
pub(super) enum Spot {
    /// An extreme fibre of a station.
    Fibre {
        /// Which station.
        station: usize,
        /// Which of its fibres.
        fibre: usize,
    },
    /// The middle of a station's depth.
    Middle {
        /// Which station.
        station: usize,
    },
    /// A point round an eye.
    Round {
        /// Which eye.
        end: End,
        /// Which of its points.
        point: usize,
    },
}

impl Spot {
    /// The piece it belongs to.
    pub(super) fn piece(self) -> Piece {
        match self {
            Self::Fibre { station, .. } | Self::Middle { station } => Piece::Station(station),
            Self::Round { end, .. } => Piece::Eye(end),
        }
    }
}

/// What a first look at a piece gives.
#[derive(Default)]
pub(super) struct FirstLook {
    /// Exact margins of the modes that need no history.
    pub(super) modes: Worst<()>,
    /// Points of which only bounds of what running does to them are known yet.
    pub(super) worn: Vec<(WearBound, Spot)>,
    /// The same of modes that one load brings about: a margin that the true one cannot fall below.
    pub(super) loaded: Vec<(ModeMargin, Spot)>,
    pub(super) station: Option<StationStress>,
    pub(super) extremes: Vec<(f64, f64)>,
}
