use super::assessment::StationStress;
use super::place::{End, RodMargin};
use super::wear::WearBound;
use super::worst::Worst;

/// A piece of a rod that is assessed on its own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Piece {
    /// A station by index.
    Station(usize),
    /// An eye.
    Eye(End),
}

/// A point whose exact margin costs more than a look at its extremes.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Spot {
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
    pub(crate) fn piece(self) -> Piece {
        match self {
            Self::Fibre { station, .. } | Self::Middle { station } => Piece::Station(station),
            Self::Round { end, .. } => Piece::Eye(end),
        }
    }
}

/// What a first look at a piece gives.
#[derive(Default)]
pub(crate) struct FirstLook {
    /// Exact margins of the modes that need no history.
    pub(crate) modes: Worst<()>,
    /// Points of which only bounds of what running does to them are known yet.
    pub(crate) worn: Vec<(WearBound, Spot)>,
    /// The same of modes that one load brings about: a margin that the true one cannot fall below.
    pub(crate) loaded: Vec<(RodMargin, Spot)>,
    pub(crate) station: Option<StationStress>,
    pub(crate) extremes: Vec<(f64, f64)>,
}
