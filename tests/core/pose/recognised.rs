//! The same bores with the same names, the same piston, or the same reason why there is none.

use layload_core::LengthUnit;
use layload_core::mesh::{Mesh, bodies};
use layload_core::part::{Bore, PartError, Piston, Rod};
use nalgebra::{Isometry3, Point3};

use super::corpus::{part_of, samples};
use super::{Found, POSES, REACH};
use crate::copies::{divided, mirrored, poses, square_copies, stl_of};
use crate::mesh::files;
use crate::mesh::shapes::Solid;

/// Lengths of copies agree within this share: the least-squares fits end at 1e-13, and what belongs to a bore is decided by
/// bounds that no corner lies on but by chance.
const SAME: f64 = 1e-7;

/// What was recognised, as numbers that do not depend on the pose, and points that turn with the part.
struct Seen {
    words: String,
    lengths: Vec<f64>,
    points: Vec<Point3<f64>>,
}

fn seen(solid: &Solid) -> Seen {
    match part_of(solid) {
        Ok(loaded) => match (loaded.recognised::<Rod>(), loaded.recognised::<Piston>()) {
            (Some(rod), _) => seen_rod(&rod),
            (_, Some(piston)) => seen_piston(&piston),
            _ => panic!("a part of a third kind"),
        },
        Err(PartError::Neither { rod, piston, .. }) => {
            Seen { words: format!("{rod}; {piston}"), lengths: Vec::new(), points: Vec::new() }
        }
        // The list of bodies says where they lie.
        Err(PartError::SeveralParts { what, .. }) => Seen { words: what, lengths: Vec::new(), points: Vec::new() },
        Err(error) => Seen { words: error.to_string(), lengths: Vec::new(), points: Vec::new() },
    }
}

fn seen_rod(rod: &Rod) -> Seen {
    let bores = [&rod.small_end.bore, &rod.big_end.bore];
    let of = |bore: &Bore| -> Vec<f64> { bore.seats.iter().flat_map(|seat| [seat.radius, seat.depth()]).collect() };
    Seen {
        words: format!(
            "rod, half {} {}, overlapping {}, voids {}, left out {}, {:?}",
            rod.small_end.half,
            rod.big_end.half,
            rod.overlapping,
            rod.voids,
            rod.left_out.len(),
            rod.naming
        ),
        lengths: bores.into_iter().flat_map(of).chain([rod.center_distance]).collect(),
        points: bores.iter().map(|bore| bore.center).collect(),
    }
}

fn seen_piston(piston: &Piston) -> Seen {
    Seen {
        words: format!(
            "piston, {} grooves, {} bosses, overlapping {}, voids {}, left out {}",
            piston.grooves.len(),
            piston.pin.bosses.len(),
            piston.overlapping,
            piston.voids,
            piston.left_out.len()
        ),
        lengths: [piston.skirt.radius, piston.compression_height, piston.low]
            .into_iter()
            .chain(piston.grooves.iter().flat_map(|groove| [groove.from, groove.to]))
            .chain(piston.pin.bosses.iter().map(|boss| boss.to - boss.from))
            .collect(),
        points: vec![piston.frame.to_file(&Point3::origin()), piston.frame.to_file(&Point3::new(0.1, 0.0, 0.0))],
    }
}

impl Seen {
    /// Where a copy differs; `motion` takes the part to the copy, but a mirrored one.
    fn faults(&self, copy: &Self, motion: Option<&Isometry3<f64>>) -> Vec<String> {
        if self.words != copy.words || self.lengths.len() != copy.lengths.len() {
            return vec![format!("{} and {}", self.words, copy.words)];
        }
        let lengths = self.lengths.iter().zip(&copy.lengths);
        let mut faults: Vec<String> =
            lengths.filter(|(a, b)| (*a - *b).abs() > SAME * 0.1).map(|(a, b)| format!("{a} m and {b} m")).collect();
        if let Some(motion) = motion {
            let points = self.points.iter().zip(&copy.points).map(|(a, b)| (motion * a, b));
            faults
                .extend(points.filter(|(a, b)| (a - *b).norm() > SAME).map(|(a, b)| format!("at {a} instead of {b}")));
        }
        faults
    }
}

#[test]
fn every_mesh_in_every_pose() -> Found<()> {
    let mut faults = Vec::new();
    for (number, sample) in samples()?.iter().enumerate() {
        let as_built = seen(&sample.solid);
        let mut look = |copy: &str, solid: &Solid, motion: Option<&Isometry3<f64>>| {
            let found = as_built.faults(&seen(solid), motion);
            faults.extend(found.into_iter().map(|fault| format!("{}, {copy}: {fault}", sample.name)));
        };
        for (pose, motion) in poses(number as u64, POSES, REACH).iter().enumerate() {
            // Corners of facets come in another order in every copy too.
            look(&format!("pose {pose}"), &sample.solid.clone().shuffled(pose as u64).moved(motion), Some(motion));
        }
        // Three of the turns that take axes to axes, and with them coordinates of 0 and faces square to an axis.
        for (turn, (motion, copy)) in square_copies(&sample.solid).iter().enumerate().step_by(9) {
            look(&format!("square turn {turn}"), copy, Some(motion));
        }
        // The outside of a piston whose pieces overlap is told by how far its facets may stand out, and small ones may less.
        if !sample.name.ends_with("piston_in_pieces.stl") {
            look("divided", &divided(&sample.solid), Some(&Isometry3::identity()));
        }
        look("mirrored", &mirrored(&sample.solid), None);
    }
    assert!(faults.is_empty(), "{} faults\n{}", faults.len(), faults.join("\n"));
    Ok(())
}

/// What is no solid is refused for the same reason in every pose, read from a file.
#[test]
fn what_is_refused() -> Found<()> {
    let truths = files::truths()?;
    for (name, truth) in truths.as_object().ok_or("no files")? {
        if truth["expected"] != "refused" {
            continue;
        }
        let solid = Solid::of_stl(&files::bytes(name)?)?;
        let why = |solid: &Solid| {
            let read = Mesh::from_stl(&stl_of(solid), LengthUnit::Millimetre).and_then(|(mesh, _)| bodies(mesh));
            read.err().map(|error| std::mem::discriminant(&error))
        };
        let as_built = why(&solid);
        // One facet the wrong way round is turned, and then nothing is wrong.
        assert!(as_built.is_some() || name.ends_with("one_flipped_facet.stl"), "{name}");
        for pose in poses(7, POSES, 300.0) {
            assert_eq!(why(&solid.clone().moved(&pose)), as_built, "{name}");
        }
    }
    Ok(())
}
