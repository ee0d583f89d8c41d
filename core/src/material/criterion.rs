use nalgebra::{Matrix3, Vector2, Vector3};

use super::state::MaterialState;

/// Which strength of the layer plane a point has.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Lay {
    /// In a printed wall: the beads run along the surface, with the load.
    Wall,
    /// In a skin or the inside: lines change direction from layer to layer.
    Lines,
}

/// Strength of a printed point against a stress, by what it does to the layer plane.
///
/// The stress is resolved into the normal traction σ and the shear traction τ on the layer plane and the greatest
/// tension s within that plane; Tsai-Hill's interaction (Azzi & Tsai 1965) joins them:
/// `(s/X)² - s σ/X² + (σ/Y)² + (τ/S)² = 1` at failure. For a bar pulled at an angle to its layers this is the off-axis
/// curve `1/f² = c⁴/X² + (1/S² - 1/X²) c² s² + s⁴/Y²`. Compression is held against the compression strength.
///
/// Pressure closes a weld, which then bears more shear before it slides. Puck's criterion of a plane, for a pressure, counts of
/// a shear τ the part `sqrt(τ² + (p σ)²) - p |σ|`, where `p` is the slope of the strength against the pressure at none (Puck,
/// Kopp & Knops 2002, Compos. Sci. Technol. 62, 371). At most the credit of his theory counts, where the plane gives way to
/// slanting ones: a shear strength `sqrt(1 + 2 p)` times that without pressure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayerStrength {
    in_plane: f64,
    across: f64,
    shear: f64,
    compression: f64,
}

/// Slope of the shear strength of a weld against the pressure on it. For the plane between fibres 0.25 (glass) and 0.30
/// (carbon, second hand), 0.2 where no test says; of printed welds no test was found, so that it is the least of them.
const INCLINATION: f64 = 0.2;

/// The root of `1 + 2 p`.
const MOST_CREDIT: f64 = 1.183_215_956_619_923_2;

/// How much of the strength a stress uses.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Use {
    /// Tsai-Hill utilisation, 1 at failure.
    pub utilisation: f64,
    /// Share of it that comes from tractions on the layer plane, 0 to 1.
    pub layer_share: f64,
    /// Whether it is of a pull or a push: 1 where all of it comes from tension, -1 from compression, 0 from shear along the
    /// layers.
    pub pull: f64,
}

impl Use {
    /// The use as a number of a history that turns: along the line of the worst stress of that history, whose use is `worst`,
    /// with `alike` of one sign where a stress points the same way as the worst.
    ///
    /// Positive is a pull. A shear along the layers has no sign of its own: one that stays beside a push is no other way to
    /// be loaded, and one that turns round is.
    pub fn signed(&self, worst: &Self, alike: f64) -> f64 {
        let sense = if worst.pull < 0.0 { -1.0 } else { 1.0 };
        sense * alike.signum() * self.utilisation
    }

    /// How much of it ruptures by lasting: a pull and a shear do, whichever way round; of a push as much as it has shear.
    pub fn lasting(&self) -> f64 {
        self.utilisation * (1.0 + self.pull.min(0.0))
    }
}

impl LayerStrength {
    /// Strengths of a material for a point of the given lay.
    ///
    /// Lines that cross from layer to layer carry about the mean of the strengths along and across the bead (memory).
    pub fn of(material: &MaterialState, lay: Lay) -> Self {
        let in_plane = match lay {
            Lay::Wall => material.bead_strength,
            Lay::Lines => f64::midpoint(material.bead_strength, material.across_strength),
        };
        Self {
            in_plane,
            across: material.layer_strength,
            shear: material.layer_shear_strength,
            compression: material.compression_strength,
        }
    }

    /// The same where layers are bonded better, or worse, by a factor.
    #[must_use]
    pub fn bonded(&self, factor: f64) -> Self {
        Self { across: self.across * factor, shear: self.shear * factor, ..*self }
    }

    /// Tensile strength within the layer plane, Pa.
    pub fn in_plane(&self) -> f64 {
        self.in_plane
    }

    /// Utilisation of `stress` (Pa) in layers of the given plane.
    pub fn use_of(&self, stress: &Matrix3<f64>, plane: &LayerPlane) -> Use {
        self.use_of_tractions(&plane.tractions(stress))
    }

    /// The same from what a stress does to the layer plane.
    pub fn use_of_tractions(&self, on: &Tractions) -> Use {
        let Tractions { normal, shear, in_plane: [p, q, r] } = *on;
        let shear = sliding(shear.norm(), normal);
        let (mean, half) = (f64::midpoint(p, q), (p - q) / 2.0);
        let reach = (half * half + r * r).sqrt();
        let (most, least) = (mean + reach, mean - reach);
        // The in-plane direction that is loaded most sets X: tension against tension, compression against compression.
        let (in_plane, x) = if most >= -least { (most, self.in_plane) } else { (least, self.compression) };
        let y = if normal >= 0.0 { self.across } else { self.compression };
        let (a, b, c) = (in_plane / x, normal / y, shear / self.shear);
        let layer = b * b + c * c;
        // The interaction term only relieves stresses of one sign; Tsai and Hill's form is kept there.
        let square = (a * a - a * normal / x + layer).max(0.0);
        let shares = a * a + layer;
        let of_all = |part: f64| if shares > 0.0 { part / shares } else { 0.0 };
        Use { utilisation: square.sqrt(), layer_share: of_all(layer), pull: of_all(a * a.abs() + b * b.abs()) }
    }
}

/// What of a shear counts against the shear strength of a plane under a normal traction.
fn sliding(shear: f64, normal: f64) -> f64 {
    let pressed = INCLINATION * normal.min(0.0);
    (libm::hypot(shear, pressed) + pressed).max(shear / MOST_CREDIT)
}

/// The plane of the layers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayerPlane {
    build: Vector3<f64>,
    first: Vector3<f64>,
    second: Vector3<f64>,
}

impl LayerPlane {
    /// Layers stacked along the unit vector `build`.
    pub fn new(build: Vector3<f64>) -> Self {
        let mut helper = Vector3::zeros();
        helper[build.iamin()] = 1.0;
        let first = build.cross(&helper).normalize();
        Self { build, first, second: build.cross(&first) }
    }

    /// Unit vector along which layers are stacked.
    pub fn build(&self) -> &Vector3<f64> {
        &self.build
    }

    /// What a stress does to the plane.
    pub fn tractions(&self, stress: &Matrix3<f64>) -> Tractions {
        let Self { build, first, second } = self;
        let traction = stress * build;
        let (along_first, along_second) = (stress * first, stress * second);
        Tractions {
            normal: build.dot(&traction),
            shear: Vector2::new(first.dot(&traction), second.dot(&traction)),
            in_plane: [first.dot(&along_first), second.dot(&along_second), first.dot(&along_second)],
        }
    }

    /// What a stress along one line does to the plane: `line` is its unit vector, `stress` in Pa.
    pub fn tractions_along(&self, line: &Vector3<f64>, stress: f64) -> Tractions {
        let (out, first, second) = (self.build.dot(line), self.first.dot(line), self.second.dot(line));
        let (on_first, on_second) = (stress * first, stress * second);
        Tractions {
            normal: stress * out * out,
            shear: Vector2::new(on_first * out, on_second * out),
            in_plane: [on_first * first, on_second * second, on_first * second],
        }
    }
}

/// What a stress does to a layer plane, Pa: all of it is linear in the stress.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tractions {
    /// Normal traction on the plane.
    pub normal: f64,
    /// Shear traction along two directions in the plane.
    pub shear: Vector2<f64>,
    /// Normal stresses along both directions, and shear between them.
    pub in_plane: [f64; 3],
}

impl Tractions {
    /// Those of the sum of two stresses, each times a factor.
    #[must_use]
    pub fn mixed(&self, own: f64, other: &Self, others: f64) -> Self {
        Self {
            normal: own * self.normal + others * other.normal,
            shear: self.shear * own + other.shear * others,
            in_plane: core::array::from_fn(|k| own * self.in_plane[k] + others * other.in_plane[k]),
        }
    }
}
