use super::mode::Mode;
use super::model::RodModel;
use super::piece::{FirstLook, Piece, Spot};
use super::place::{End, RodPlace};
use super::setting::Setting;
use super::stressing::Stressing;
use super::summary::{Assessment, ModeMargin};
use super::temperatures::Temperatures;
use super::worst::Worst;
use super::{buckling, ring, shank};
use crate::job::Scenario;
use crate::threads::map_in_order;

/// Assesses every station and both eyes.
pub fn assess(stressing: &Stressing<'_>, scenario: &Scenario, temperatures: &Temperatures) -> Assessment {
    let setting = Setting::new(stressing, scenario, &scenario.card, temperatures);
    joined(&setting, &all_pieces(stressing.model))
}

/// Every station of the load path and both eyes.
pub(super) fn all_pieces(model: &RodModel) -> Vec<Piece> {
    let stations = model.load_path().map(|(index, _)| Piece::Station(index));
    stations.chain([Piece::Eye(End::Small), Piece::Eye(End::Big)]).collect()
}

/// Assesses some pieces.
///
/// A first look at every piece gives exact margins of single loads and, for fatigue, margins that cannot be undercut.
/// Only the points whose bound lies below the worst exact margin known are counted cycle by cycle.
pub(super) fn joined(setting: &Setting<'_>, pieces: &[Piece]) -> Assessment {
    let looks: Vec<FirstLook> = map_in_order(pieces.len(), |i| match pieces[i] {
        Piece::Station(index) => shank::look(setting, index),
        Piece::Eye(end) => ring::look(setting, end),
    });
    let mut worst = Worst::default();
    let mut stations = vec![None; setting.model.stations.len()];
    let mut eyes = [Vec::new(), Vec::new()];
    let mut spots: Vec<(ModeMargin, Spot)> = Vec::new();
    for (look, &piece) in looks.into_iter().zip(pieces) {
        match piece {
            Piece::Station(index) => stations[index] = look.station,
            Piece::Eye(end) => eyes[end as usize] = look.extremes,
        }
        for (mode, ()) in look.modes.found {
            worst.add(mode, piece);
        }
        spots.extend(look.spots);
    }
    spots.sort_by(|a, b| a.0.margin.total_cmp(&b.0.margin));
    let mut middles = Vec::new();
    for (bound, spot) in spots {
        // A bound of one mode speaks for that mode only; what it is worth is known after the exact look.
        let known =
            if let Spot::Middle { .. } = spot { worst.least_like(bound.mode) } else { worst.margin(bound.mode) };
        if known.is_some_and(|known| known <= bound.margin) {
            continue;
        }
        if let Spot::Middle { station } = spot {
            // Several modes put a bound on it; one look settles them all.
            if middles.contains(&station) {
                continue;
            }
            middles.push(station);
        }
        let exact = match spot {
            Spot::Fibre { station, fibre } => shank::fibre(setting, station, fibre),
            Spot::Middle { station } => shank::middle(setting, station),
            Spot::Round { end, point } => ring::point(setting, end, point),
        };
        for mode in exact {
            worst.add(mode, spot.piece());
        }
    }
    let any = pieces.first().copied().unwrap_or(Piece::Eye(End::Small));
    worst.add(buckling::margin(setting), any);
    let mut soft = pieces.iter().copied().filter(|&piece| setting.softened(piece));
    if let Some(first) = soft.next() {
        let whole = soft.count() + 1 == pieces.len();
        let place = if whole { RodPlace::Whole } else { softened_place(setting, first) };
        worst.add(ModeMargin::at_once(Mode::Softening, place, 0.0, 0.0), first);
    }
    let (modes, pieces) = worst.sorted();
    Assessment { modes, stations, eyes, pieces }
}

fn softened_place(setting: &Setting<'_>, piece: Piece) -> RodPlace {
    match piece {
        Piece::Station(index) => RodPlace::ShankAt { position: setting.model.stations[index].section.position },
        Piece::Eye(end) => RodPlace::Bore { end },
    }
}
