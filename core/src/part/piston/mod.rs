//! Recognition of a piston: the round outside, its closed side, the pin bore across, the ring grooves.
//!
//! Frame: `x` along the cylinder axis toward the crown, `z` along the pin, the origin on the cylinder axis at the height
//! of the pin.

mod doubt;
mod ends;
mod outside;
mod pin;
mod rays;
mod recognise;

use nalgebra::{Point3, Vector3};

pub use doubt::PistonDoubt;
pub use rays::{AxisRays, Span, disc_points};
pub use recognise::find_piston;
pub(super) use recognise::pick_piston;

use crate::mesh::Mesh;
use crate::part::frame::Frame;
use crate::part::left_out::LeftOut;
use crate::part::rod::GivenBore;

/// A piston: its mesh in its own frame, and what the trade calls its features.
#[derive(Debug, Clone)]
pub struct Piston {
    /// Surface in frame coordinates.
    pub mesh: Mesh,
    /// Where the frame lies in the file.
    pub frame: Frame,
    /// The guiding outside below the grooves.
    pub skirt: Skirt,
    /// The ring belt's, over the pin, from the crown down.
    pub grooves: Vec<Groove>,
    /// Those under the pin, from the crown down.
    pub skirt_grooves: Vec<Groove>,
    /// What stands out of the uppermost land.
    pub collar: Option<Collar>,
    /// What stands out of the skirt, mostly at its end.
    pub lip: Option<Collar>,
    /// The bore across.
    pub pin: PinBore,
    /// Height of the crown over the pin axis, m: the compression height.
    pub compression_height: f64,
    /// Height of the lowest point, m; negative.
    pub low: f64,
    /// Whether the body is several shells that overlap or touch.
    pub overlapping: bool,
    /// Closed voids in the body.
    pub voids: usize,
    /// Other bodies of the file, left out.
    pub left_out: Vec<LeftOut>,
    /// Where its signs do not agree, or are weak.
    pub doubts: Vec<PistonDoubt>,
}

/// A ring of wall that stands out of its neighbours.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Collar {
    /// Radius of the circle through the facet corners, m.
    pub radius: f64,
    /// Lower end, m over the pin axis.
    pub from: f64,
    /// Upper end, m.
    pub to: f64,
}

/// The cylinder that guides a piston.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Skirt {
    /// Radius of the circle through the facet corners, m.
    pub radius: f64,
    /// Lower end, m over the pin axis.
    pub from: f64,
    /// Upper end, m.
    pub to: f64,
    /// Angle of the circle that has a wall, rad.
    pub arc: f64,
    /// Error of the tessellation, m.
    pub sagitta: f64,
}

/// A ring groove.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Groove {
    /// Lower flank, m over the pin axis.
    pub from: f64,
    /// Upper flank, m.
    pub to: f64,
    /// Radius of its floor, m.
    pub floor_radius: f64,
    /// Radius of the lower of its two lands, m.
    pub land_radius: f64,
}

impl Groove {
    /// Along the axis, m.
    pub fn width(&self) -> f64 {
        self.to - self.from
    }

    /// From the land inward, m.
    pub fn depth(&self) -> f64 {
        self.land_radius - self.floor_radius
    }
}

/// The bore of the piston pin.
#[derive(Debug, Clone, PartialEq)]
pub struct PinBore {
    /// Radius of the circle through the facet corners, m.
    pub radius: f64,
    /// Distance of the pin axis from the cylinder axis, m.
    pub offset: f64,
    /// Error of the tessellation, m.
    pub sagitta: f64,
    /// One or two stretches of wall along the pin.
    pub bosses: Vec<Boss>,
    /// Deviation of the angle between pin and cylinder axis from a right angle, rad.
    pub lean: f64,
}

impl PinBore {
    /// Length that carries the pin, m.
    pub fn bearing_length(&self) -> f64 {
        self.bosses.iter().map(|boss| boss.bearing_length).sum()
    }

    /// Free length between two bosses, m; none where there is but one.
    pub fn gap(&self) -> Option<f64> {
        self.bosses.windows(2).map(|pair| pair[1].from - pair[0].to).next()
    }
}

/// A stretch of the pin bore.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Boss {
    /// Where it begins along the pin, m from the cylinder axis.
    pub from: f64,
    /// Where it ends, m.
    pub to: f64,
    /// Mean length round the bore, m: less than the whole where an end is slanted or a slot opens it.
    pub bearing_length: f64,
}

/// What the user says of the piston instead of recognition.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct GivenPiston {
    /// Direction from skirt to crown in the file.
    pub crown_direction: Option<Vector3<f64>>,
    /// A point of the cylinder axis in the file, m, and the outer diameter, m.
    pub body: Option<GivenBore>,
    /// A point of the pin axis in the file, m, and the diameter of its bore, m.
    pub pin_bore: Option<GivenBore>,
    /// Direction of the pin axis in the file.
    pub pin_axis: Option<Vector3<f64>>,
    /// The ring grooves, from the crown down.
    pub grooves: Option<Vec<GivenGroove>>,
}

/// A ring groove named by hand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GivenGroove {
    /// Upper flank, m below the crown.
    pub below_crown: f64,
    /// Width along the axis, m.
    pub width: f64,
    /// Depth below the land, m.
    pub depth: f64,
}

impl GivenPiston {
    /// Whether it names anything that only a piston has.
    pub(super) fn anything(&self) -> bool {
        self.crown_direction.is_some() || self.body.is_some() || self.pin_bore.is_some() || self.grooves.is_some()
    }
}

impl Piston {
    /// A point of the pin axis in frame coordinates.
    pub fn pin_center(&self) -> Point3<f64> {
        Point3::new(0.0, self.pin.offset, 0.0)
    }

    /// Overall length along the axis, m.
    pub fn length(&self) -> f64 {
        self.compression_height - self.low
    }

    /// Radius of the uppermost land, m.
    pub fn land_radius(&self) -> f64 {
        self.grooves.first().map_or(self.skirt.radius, |groove| groove.land_radius)
    }

    /// Ring grooves of belt and skirt, from the crown down.
    pub fn all_grooves(&self) -> impl Iterator<Item = &Groove> {
        self.grooves.iter().chain(&self.skirt_grooves)
    }

    /// The widest of it, m: what has to go into the cylinder.
    pub fn greatest_radius(&self) -> f64 {
        let out = [self.collar, self.lip].into_iter().flatten().map(|collar| collar.radius);
        out.fold(self.skirt.radius.max(self.land_radius()), f64::max)
    }
}
