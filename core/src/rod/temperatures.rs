use super::model::RodModel;
use super::piece::Piece;

/// Temperature of every station and of both eyes, K.
#[derive(Debug, Clone, PartialEq)]
pub struct Temperatures {
    /// As in [`RodModel::stations`].
    pub stations: Vec<f64>,
    /// Small end and big end.
    pub eyes: [f64; 2],
}

impl Temperatures {
    /// The whole rod at one temperature, K.
    pub fn uniform(model: &RodModel, kelvin: f64) -> Self {
        Self { stations: vec![kelvin; model.stations.len()], eyes: [kelvin; 2] }
    }

    pub(crate) fn of(&self, piece: Piece) -> f64 {
        match piece {
            Piece::Station(index) => self.stations[index],
            Piece::Eye(end) => self.eyes[end as usize],
        }
    }

    /// The hottest, K.
    pub fn peak(&self) -> f64 {
        self.stations.iter().chain(&self.eyes).copied().fold(f64::NEG_INFINITY, f64::max)
    }
}
