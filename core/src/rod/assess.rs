use super::assessment::{Assessment, StationStress};
use super::model::RodModel;
use super::piece::{FirstLook, Piece, Spot};
use super::place::{End, RodMargin, RodPlace};
use super::pressed::EyeState;
use super::setting::Setting;
use super::stressing::Stressing;
use super::temperatures::Temperatures;
use super::wear::WearBound;
use super::worst::Worst;
use crate::job::Scenario;
use crate::numeric::{map_in_order, sort_few};
use crate::rod::{buckling, head, ring, shank};
use crate::verdict::{Mode, ModeMargin, SpotStress};

/// Assesses every station and both eyes.
pub fn assess(stressing: &Stressing<'_>, scenario: &Scenario, temperatures: &Temperatures) -> Assessment {
    let setting = Setting::new(stressing, scenario, &scenario.card, temperatures);
    joined(&setting, &all_pieces(stressing.model))
}

/// Assesses the whole rod with all speeds of the duty times a factor, at the temperatures that go with it.
pub fn assess_at(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    speed_factor: f64,
    temperatures: &Temperatures,
) -> Assessment {
    let states = EyeState::both(stressing.model, scenario, &scenario.card, temperatures);
    let faster = stressing.at_speed(speed_factor, states);
    joined(&Setting::new(&faster, scenario, &scenario.card, temperatures), &all_pieces(stressing.model))
}

/// Assesses the pieces at which the modes of an earlier assessment of the same rod were worst.
pub fn assess_again(
    stressing: &Stressing<'_>,
    scenario: &Scenario,
    temperatures: &Temperatures,
    earlier: &Assessment,
) -> Assessment {
    let setting = Setting::new(stressing, scenario, &scenario.card, temperatures);
    joined(&setting, &earlier.governing_pieces())
}

/// Every station of the load path and both eyes.
pub(crate) fn all_pieces(model: &RodModel) -> Vec<Piece> {
    let stations = model.load_path().map(|(index, _)| Piece::Station(index));
    stations.chain([Piece::Eye(End::Small), Piece::Eye(End::Big)]).collect()
}

/// Assesses some pieces.
///
/// A first look at every piece gives exact margins of single loads and, for running, margins that cannot be undercut.
/// Only the points whose bound lies below the worst exact margin known are counted cycle by cycle, and of points alike
/// only those whose stress does not lie within that of another.
pub(crate) fn joined(setting: &Setting<'_>, pieces: &[Piece]) -> Assessment {
    let Looked { mut worst, stations, eyes, mut loaded, mut worn } = first_looks(setting, pieces);
    let mut middles: Vec<(f64, f64)> = Vec::new();
    let mut middle = |worst: &mut Worst<Piece>, station: usize| {
        let reach = setting.stressing.station(station).reached(setting.kept(Piece::Station(station)));
        // Several modes put a bound on it, and a place whose stress reaches as far settles it too.
        if !middles.iter().any(|&(normal, shear)| normal >= reach.0 && shear >= reach.1) {
            middles.push(reach);
            let (mode, running) = shank::middle(setting, station, worst);
            worst.add(mode, Piece::Station(station));
            if let Some(running) = running {
                worst.add_worn(running, Piece::Station(station));
            }
        }
    };
    sort_few(&mut loaded, |a, b| a.0.margin.total_cmp(&b.0.margin));
    for (bound, spot) in loaded {
        // Which mode it is of is known after the exact look.
        if let Spot::Middle { station } = spot
            && worst.least_at_once().is_none_or(|known| bound.margin < known)
        {
            middle(&mut worst, station);
        }
    }
    let mut fibres: Vec<(&SpotStress, f64)> = Vec::new();
    sort_few(&mut worn, |a, b| a.0.least().total_cmp(&b.0.least()));
    for (bound, spot) in worn {
        match spot {
            Spot::Middle { station } => {
                if worst.worst_of(bound.region).is_none_or(|known| bound.least() < known) {
                    middle(&mut worst, station);
                }
            }
            Spot::Fibre { station, fibre } => {
                let (own, kept) = (&setting.stressing.station(station).fibres[fibre], setting.kept(spot.piece()));
                // All fibres have one line and one lay.
                let settled = fibres.iter().any(|&(other, other_kept)| own.within(kept, other, other_kept));
                if worst.open_to(&bound) && !settled {
                    fibres.push((own, kept));
                    if let Some(running) = shank::fibre(setting, station, fibre, worst.known(&bound)) {
                        worst.add_worn(running, spot.piece());
                    }
                }
            }
            Spot::Round { end, point } => {
                if worst.open_to(&bound)
                    && let Some(running) = ring::point(setting, end, point, worst.known(&bound))
                {
                    worst.add_worn(running, spot.piece());
                }
            }
        }
    }
    whole(setting, pieces, &mut worst);
    let (strength, pieces) = setting.strength_of(worst);
    Assessment { strength, stations, eyes, pieces }
}

/// What first looks at pieces give.
struct Looked {
    worst: Worst<Piece>,
    stations: Vec<Option<StationStress>>,
    eyes: [Vec<(f64, f64)>; 2],
    /// Bounds of single loads at places still to be looked at.
    loaded: Vec<(RodMargin, Spot)>,
    /// The same of running.
    worn: Vec<(WearBound, Spot)>,
}

fn first_looks(setting: &Setting<'_>, pieces: &[Piece]) -> Looked {
    let looks: Vec<FirstLook> = map_in_order(pieces.len(), |i| match pieces[i] {
        Piece::Station(index) => shank::look(setting, index),
        Piece::Eye(end) => ring::look(setting, end),
    });
    let mut worst = Worst::default();
    let mut stations = vec![None; setting.model.stations.len()];
    let mut eyes = [Vec::new(), Vec::new()];
    let mut loaded: Vec<(RodMargin, Spot)> = Vec::new();
    let mut worn: Vec<(WearBound, Spot)> = Vec::new();
    for (look, &piece) in looks.into_iter().zip(pieces) {
        match piece {
            Piece::Station(index) => stations[index] = look.station,
            Piece::Eye(end) => eyes[end as usize] = look.extremes,
        }
        for (mode, ()) in look.modes.found {
            worst.add(mode, piece);
        }
        loaded.extend(look.loaded);
        worn.extend(look.worn);
    }
    Looked { worst, stations, eyes, loaded, worn }
}

/// What is judged for the rod as a whole: buckling, the head, softening.
fn whole(setting: &Setting<'_>, pieces: &[Piece], worst: &mut Worst<Piece>) {
    let any = pieces.first().copied().unwrap_or(Piece::Eye(End::Small));
    worst.add(buckling::margin(setting), any);
    if let Some(contact) = head::contact(setting) {
        worst.add(contact, any);
    }
    let mut soft = pieces.iter().copied().filter(|&piece| setting.softened(piece));
    if let Some(first) = soft.next() {
        let whole = soft.count() + 1 == pieces.len();
        let place = if whole { RodPlace::Whole } else { softened_place(setting, first) };
        worst.add(ModeMargin::at_once(Mode::Softening, place, 0.0), first);
    }
}

fn softened_place(setting: &Setting<'_>, piece: Piece) -> RodPlace {
    match piece {
        Piece::Station(index) => RodPlace::ShankAt { position: setting.model.stations[index].section.position },
        Piece::Eye(end) => RodPlace::Bore { end },
    }
}
