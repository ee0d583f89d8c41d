use nalgebra::{Point3, Vector3, Vector6};

use super::solved::FieldCase;
use crate::verdict::margin::ModeMargin;

/// A place where the field finds the most harm; `P` names places of the part, `A` is what acts on it.
#[derive(Debug, Clone)]
pub struct FieldSpot<P, A> {
    /// Where, in words.
    pub place: P,
    /// In the frame of the part, m.
    pub position: Point3<f64>,
    /// Outward unit vector of the surface there.
    pub normal: Vector3<f64>,
    /// What gives way there first, and when.
    pub mode: ModeMargin<P>,
    /// Every mode that stress makes there, the least margin first.
    pub modes: Vec<ModeMargin<P>>,
    /// What the sections find of the same eye or of the nearest section of the shank, or plates, rings and cuts of the same
    /// region of a piston, by such modes.
    pub sections: Option<ModeMargin<P>>,
    /// Whether it was seen with finer cells.
    pub finer: bool,
    /// When most of the strength is used, and what loads the part then.
    pub moment: Moment<A>,
    /// The principal stress of greatest size when most of the strength is used, Pa; tension positive.
    pub stress: f64,
    /// That stress over the nominal one then: pin force over net section of an eye or of bosses, the section's own greatest
    /// stress in a shank, in a crown the pressure times the square of free radius over thickness, elsewhere force over area
    /// of a cut. `None` where there is next to none.
    pub factor: Option<f64>,
    /// What the contact study, the section model, a round plate or Neuber's notch has for it.
    pub section_factor: f64,
    /// Whether it lies at a sharp inner corner.
    pub sharp: bool,
    /// How far below that corner its stress was taken, m; where it could not be, the value depends on the size of cells and does
    /// not count.
    pub depth: Option<f64>,
}

impl<P, A> FieldSpot<P, A> {
    /// Whether its margin is one of the part's.
    pub fn counts(&self) -> bool {
        !self.sharp || self.depth.is_some()
    }
}

/// One moment of the duty.
#[derive(Debug, Clone, PartialEq)]
pub struct Moment<A> {
    /// Speed, rpm.
    pub rpm: f64,
    /// Crank angle from top dead centre, rad.
    pub crank_angle: f64,
    /// Stress at the place in the part's frame, Pa: xx, yy, zz, yz, zx, xy.
    pub stress: Vector6<f64>,
    /// The same without what warmth adds.
    pub mechanical: Vector6<f64>,
    /// Share of the used strength that tractions on the layer plane take.
    pub layer_share: f64,
    /// What acts on the part.
    pub acting: A,
}

/// What the stress field says of a part.
#[derive(Debug, Clone)]
pub struct FieldFindings<P, A> {
    /// Cells that hold material.
    pub cells: usize,
    /// Edge of a cell, m.
    pub edge: f64,
    /// The cases solved.
    pub cases: Vec<FieldCase>,
    /// The worst places, the least margin first.
    pub spots: Vec<FieldSpot<P, A>>,
    /// Stress over what nine in ten bear for the wanted life at the middle of every facet, if it was asked for.
    pub facets: Option<Vec<Option<f64>>>,
}
