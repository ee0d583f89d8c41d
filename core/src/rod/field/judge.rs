use crate::rod::RodMargin;
use nalgebra::{Point3, Vector2, Vector6};

use super::cases::{ENDS, RodField, outward};
use crate::field::tensor;
use crate::material::{Lay, Use};
use crate::numeric::sort_few;
use crate::rod::model::Region;
use crate::rod::piece::Piece;
use crate::rod::place::{End, RodPlace};
use crate::rod::setting::{Here, Setting};
use crate::rod::wear::Wear;
use crate::verdict::ModeMargin;
use crate::verdict::field::{Angles, Judged, Judging, Path, SolvedCases, States, lays};

/// Holds the stress at points of the surface against the material, over the whole duty.
pub(crate) struct Judge<'a> {
    pub(crate) setting: &'a Setting<'a>,
    pub(crate) field: &'a RodField,
    pub(crate) duty: &'a States,
    /// Of every station, then of both eyes.
    heres: Vec<Here>,
    /// Lay of the beads at every point.
    lays: Vec<Lay>,
    /// Every crank angle of each step, and few of them.
    all: Vec<Vec<usize>>,
    few: Vec<Vec<usize>>,
}

/// An eye reaches this far, in widths of its ring beyond the bore, as for painted facets.
const EYE_REACH: f64 = 1.5;

impl<'a> Judge<'a> {
    pub(crate) fn new(setting: &'a Setting<'a>, field: &'a RodField, duty: &'a States) -> Self {
        let stations = (0..setting.model.stations.len()).map(Piece::Station);
        let pieces = stations.chain([Piece::Eye(End::Small), Piece::Eye(End::Big)]);
        let heres = pieces.map(|piece| setting.here(piece, RodPlace::Whole)).collect();
        let (all, few) = (duty.all(), duty.few());
        let lays = lays(&field.solved.points, &setting.model.print);
        Self { setting, field, duty, heres, lays, all, few }
    }

    /// Where a point is on the rod.
    pub(crate) fn piece(&self, at: &Point3<f64>) -> (Piece, RodPlace) {
        for (solved, end) in self.field.bores.iter().zip(ENDS) {
            let bore = &solved.bore;
            let outward = outward(end).x;
            let arm = Vector2::new(outward * (at.x - bore.center.x), at.y - bore.center.y);
            let distance = arm.norm();
            let ligament = self.setting.model.eyes[end as usize].map_or(0.0, |eye| eye.ligament);
            if arm.x > 0.0 || distance <= bore.radius + EYE_REACH * ligament {
                let angle = libm::atan2(arm.y.abs(), arm.x);
                let outside = distance > bore.radius + 0.5 * ligament;
                return (Piece::Eye(end), RodPlace::Eye { end, angle, outside });
            }
        }
        let stations = &self.setting.model.stations;
        let away = |k: usize| (stations[k].section.position - at.x).abs();
        let shank = (0..stations.len()).filter(|&k| stations[k].region == Region::Shank);
        let nearest = shank.min_by(|&a, &b| away(a).total_cmp(&away(b))).unwrap_or(0);
        (Piece::Station(nearest), RodPlace::ShankAt { position: at.x })
    }

    fn bond(&self, point: usize) -> f64 {
        self.setting.scenario.bond_at(&self.field.solved.points.points[point].0)
    }

    fn here(&self, piece: Piece, place: RodPlace) -> Here {
        let count = self.heres.len() - 2;
        let here = match piece {
            Piece::Station(index) => self.heres[index],
            Piece::Eye(end) => self.heres[count + end as usize],
        };
        Here { place, ..here }
    }
}

impl Judging for Judge<'_> {
    type Place = RodPlace;
    type Region = Region;

    fn solved(&self) -> &SolvedCases {
        &self.field.solved
    }

    fn states(&self) -> &States {
        self.duty
    }

    fn place(&self, at: &Point3<f64>) -> RodPlace {
        self.piece(at).1
    }

    fn region(place: &RodPlace) -> Region {
        place.region()
    }

    fn alike(a: &RodPlace, b: &RodPlace, spread: f64) -> bool {
        /// Angle within which points round an eye are one place, rad.
        const TURN: f64 = 25.0 / 180.0 * core::f64::consts::PI;
        match (a, b) {
            (RodPlace::Eye { end, angle, outside }, RodPlace::Eye { end: e, angle: t, outside: o }) => {
                end == e && outside == o && (angle - t).abs() < TURN
            }
            (RodPlace::ShankAt { position }, RodPlace::ShankAt { position: p }) => (position - p).abs() < spread,
            _ => false,
        }
    }

    fn used(&self, point: usize, stress: &Vector6<f64>) -> Use {
        let (piece, place) = self.piece(&self.field.solved.points.points[point].0);
        let kept = self.here(piece, place).kept;
        let strength = self.setting.strength(self.lays[point]).bonded(self.bond(point));
        strength.use_of(&(tensor(stress) / kept), &self.setting.plane)
    }

    fn at(&self, point: usize, angles: Angles, factor: f64, finer: Option<Use>) -> Option<Judged<RodPlace>> {
        if !self.field.solved.known(point) {
            return None;
        }
        let (at, normal) = &self.field.solved.points.points[point];
        let (piece, place) = self.piece(at);
        let here = self.here(piece, place);
        let strength = self.setting.strength(self.lays[point]).bonded(self.bond(point));
        let used = |stress: &Vector6<f64>| strength.use_of(&(tensor(stress) / here.kept), &self.setting.plane);
        let chosen = if angles == Angles::All { &self.all } else { &self.few };
        let path = Path::new(self.field.solved.at(point), self.duty, chosen, factor, used, finer);
        let most = path.most;
        let in_plane = strength.in_plane();
        let wear = Wear::new(self.setting, in_plane, most, here);
        let counted = path.counted(self.setting.stressing.shares());
        let worn = wear.exact_of(&path.reach(), &counted, (in_plane, most.pull.abs()));
        let under_pin = self.field.bores.iter().any(|solved| solved.bore.touches(at, normal));
        let mut modes: Vec<RodMargin> = worn.modes.into_iter().flatten().collect();
        if !(under_pin && most.pull < 0.0) {
            let margin = self.setting.ten_percent_strength / most.utilisation.max(1e-9);
            modes.push(ModeMargin::at_once(path.at_once(), place, margin));
        }
        sort_few(&mut modes, |a, b| a.margin.total_cmp(&b.margin));
        let Path { worst, stress, .. } = path;
        Some(Judged { point, place, modes, worst, stress, layer_share: most.layer_share })
    }
}
