use std::sync::OnceLock;

use serde::Deserialize;

use crate::numeric::greater;

/// Which way a pin pushes in its bore.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Thrust {
    /// Away from the shank: the rod is pulled.
    Pull,
    /// Toward the shank: the rod is pushed.
    Push,
}

/// Angles round an eye in the table, every ten degrees from the rod's end to the shank.
pub const EYE_ANGLES: usize = 19;

/// Hoop stress over net-section stress at each of the table's angles.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EyeFactors {
    /// At the bore.
    pub bore: [f64; EYE_ANGLES],
    /// On the outer surface.
    pub outer: [f64; EYE_ANGLES],
    /// The greatest at the bore, which may lie between two angles of the table. It never falls as the pin gets looser.
    peak: f64,
}

/// Hoop stress round an eye for many widths and loads, from a finite-element contact study.
///
/// Plane stress, rigid pin, one-sided frictionless contact with clearance, shank 0.7 of the eye's width; the study, its
/// checks and its limits are in `tests/reference/eye_contact`. Between the nodes of the table factors are linear in the
/// width ratio and in the load coordinate.
#[derive(Debug, Clone, PartialEq)]
pub struct EyeFamily {
    angles: [f64; EYE_ANGLES],
    width_ratios: Vec<f64>,
    load_coordinates: Vec<f64>,
    /// `[thrust][width][load]`.
    factors: [Vec<Vec<EyeFactors>>; 2],
}

/// The parts of the table file that are read.
#[derive(Deserialize)]
struct FactorTable {
    width_ratio: Vec<f64>,
    load_coordinate: Vec<f64>,
    angle_deg: [f64; EYE_ANGLES],
    bore_hoop: [Vec<Vec<[f64; EYE_ANGLES]>>; 2],
    outer_hoop: [Vec<Vec<[f64; EYE_ANGLES]>>; 2],
    peak: [Vec<Vec<f64>>; 2],
}

impl EyeFamily {
    /// The table that comes with the program.
    ///
    /// # Panics
    /// Never on input: the table is part of the program and read by its tests.
    #[allow(clippy::expect_used)]
    pub fn embedded() -> &'static Self {
        static FAMILY: OnceLock<EyeFamily> = OnceLock::new();
        FAMILY.get_or_init(|| {
            let table: FactorTable =
                serde_json::from_str(include_str!("eye_family.json")).expect("the embedded table reads");
            table.into()
        })
    }

    /// Angles from the rod's end, rad.
    pub fn angles(&self) -> &[f64; EYE_ANGLES] {
        &self.angles
    }

    /// Whether a width over bore diameter was studied.
    pub fn covers(&self, width_ratio: f64) -> bool {
        let (first, last) = (self.width_ratios.first(), self.width_ratios.last());
        first.is_some_and(|&low| low <= width_ratio) && last.is_some_and(|&high| width_ratio <= high)
    }

    /// Factors at a width over bore diameter and a looseness `E c t / P` of the pin: modulus, radial clearance and
    /// thickness over pin force; 0 for a close fit.
    ///
    /// Widths outside the study take the nearest one in it.
    pub fn factors(&'static self, thrust: Thrust, width_ratio: f64, looseness: f64) -> EyeFactors {
        WidthFactors::new(self, thrust, width_ratio).at(looseness)
    }
}

/// The table at one width and thrust, for many loads.
#[derive(Debug, Clone)]
pub struct WidthFactors {
    load_coordinates: &'static [f64],
    factors: Vec<EyeFactors>,
}

/// Where a load lies between those of the table.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TableLoad {
    below: usize,
    share: f64,
    /// What the curve between two nodes is raised by at the bore to reach their peak: where the peak moves from one angle to
    /// another, the curve between them is lower than both.
    raise: f64,
}

impl WidthFactors {
    /// Interpolates between the widths of the study.
    pub fn new(family: &'static EyeFamily, thrust: Thrust, width_ratio: f64) -> Self {
        let (width, share) = bracket(&family.width_ratios, width_ratio);
        let set = &family.factors[thrust as usize];
        let factors = set[width].iter().zip(&set[width + 1]).map(|(near, far)| near.toward(far, share)).collect();
        Self { load_coordinates: &family.load_coordinates, factors }
    }

    /// Finds a looseness, as in [`EyeFamily::factors`], in the table.
    pub fn load(&self, looseness: f64) -> TableLoad {
        let (below, share) = bracket(self.load_coordinates, 1.0 / (1.0 + looseness.max(0.0).sqrt()));
        let (near, far) = (&self.factors[below], &self.factors[below + 1]);
        let both = near.bore.iter().zip(&far.bore);
        let reached = both.map(|(near, far)| near + share * (far - near)).fold(0.0, greater);
        let peak = near.peak + share * (far.peak - near.peak);
        TableLoad { below, share, raise: if reached > 0.0 { greater(peak / reached, 1.0) } else { 1.0 } }
    }

    /// Factor at one angle of the table, at the bore or on the outer surface.
    pub fn factor(&self, load: TableLoad, outside: bool, angle: usize) -> f64 {
        let of = |load: usize| if outside { self.factors[load].outer[angle] } else { self.factors[load].bore[angle] };
        let below = of(load.below);
        let factor = below + load.share * (of(load.below + 1) - below);
        if outside || factor <= 0.0 { factor } else { factor * load.raise }
    }

    /// Factors at all angles at a load.
    pub fn at_load(&self, TableLoad { below, share, raise }: TableLoad) -> EyeFactors {
        self.factors[below].toward(&self.factors[below + 1], share).raised(raise)
    }

    /// Factors at all angles at a looseness.
    pub fn at(&self, looseness: f64) -> EyeFactors {
        self.at_load(self.load(looseness))
    }
}

impl EyeFactors {
    fn toward(&self, other: &Self, share: f64) -> Self {
        let between = |a: &[f64; EYE_ANGLES], b: &[f64; EYE_ANGLES]| {
            core::array::from_fn(|angle| a[angle] + share * (b[angle] - a[angle]))
        };
        Self {
            bore: between(&self.bore, &other.bore),
            outer: between(&self.outer, &other.outer),
            peak: self.peak + share * (other.peak - self.peak),
        }
    }

    /// With every pull at the bore times a factor.
    fn raised(self, raise: f64) -> Self {
        Self { bore: self.bore.map(|factor| if factor > 0.0 { factor * raise } else { factor }), ..self }
    }
}

impl From<FactorTable> for EyeFamily {
    fn from(table: FactorTable) -> Self {
        let factors = core::array::from_fn(|thrust| {
            let (bore, outer) = (&table.bore_hoop[thrust], &table.outer_hoop[thrust]);
            let peaks: Vec<_> = table.peak[thrust].iter().map(|of_loads| never_falling_when_looser(of_loads)).collect();
            let at = |width: usize, load: usize| {
                let bore = bore[width][load];
                // The greatest stress may lie between two angles of the table; the curve is raised to reach it.
                let tabulated = bore.iter().copied().fold(0.0, f64::max);
                let peak = peaks[width][load].max(tabulated);
                let raise = if tabulated > 0.0 { peak / tabulated } else { 1.0 };
                EyeFactors { bore, outer: outer[width][load], peak }.raised(raise)
            };
            (0..bore.len()).map(|width| (0..bore[width].len()).map(|load| at(width, load)).collect()).collect()
        });
        Self {
            angles: table.angle_deg.map(f64::to_radians),
            width_ratios: table.width_ratio,
            load_coordinates: table.load_coordinate,
            factors,
        }
    }
}

/// Peaks at rising load coordinates, the loosest pin first, of which none beyond the least is below that of a tighter pin. The
/// loosest pins of the study touch a node or two, and their peaks scatter by a few per cent.
fn never_falling_when_looser(peaks: &[f64]) -> Vec<f64> {
    let mut found = peaks.to_vec();
    let least = (0..found.len()).reduce(|best, k| if found[k] < found[best] { k } else { best }).unwrap_or(0);
    for k in (0..least).rev() {
        found[k] = greater(found[k], found[k + 1]);
    }
    found
}

/// Node below a value on a rising axis, and how far the value lies toward the next; the ends hold beyond the axis.
fn bracket(axis: &[f64], value: f64) -> (usize, f64) {
    let below = axis.partition_point(|&node| node <= value).clamp(1, axis.len() - 1) - 1;
    (below, ((value - axis[below]) / (axis[below + 1] - axis[below])).clamp(0.0, 1.0))
}
