/// Boundary dimensions of a radial rolling bearing, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BearingSize {
    /// Bore.
    pub bore: f64,
    /// Outside diameter.
    pub outside: f64,
    /// Width.
    pub width: f64,
}

/// Designation and bore, outside and width in mm: single-row deep-groove ball bearings, dimension series 10 and 02 of
/// ISO 15. Common practice, compared with two published lists.
const SIZES: [(&str, [f64; 3]); 20] = [
    ("6000", [10.0, 26.0, 8.0]),
    ("6001", [12.0, 28.0, 8.0]),
    ("6002", [15.0, 32.0, 9.0]),
    ("6003", [17.0, 35.0, 10.0]),
    ("6004", [20.0, 42.0, 12.0]),
    ("6005", [25.0, 47.0, 12.0]),
    ("6006", [30.0, 55.0, 13.0]),
    ("6007", [35.0, 62.0, 14.0]),
    ("6008", [40.0, 68.0, 15.0]),
    ("6009", [45.0, 75.0, 16.0]),
    ("6010", [50.0, 80.0, 16.0]),
    ("6200", [10.0, 30.0, 9.0]),
    ("6201", [12.0, 32.0, 10.0]),
    ("6202", [15.0, 35.0, 11.0]),
    ("6203", [17.0, 40.0, 12.0]),
    ("6204", [20.0, 47.0, 14.0]),
    ("6205", [25.0, 52.0, 15.0]),
    ("6206", [30.0, 62.0, 16.0]),
    ("6207", [35.0, 72.0, 17.0]),
    ("6208", [40.0, 80.0, 18.0]),
];

/// The designations that are known, in order.
pub fn bearing_designations() -> impl Iterator<Item = &'static str> {
    SIZES.iter().map(|(name, _)| *name)
}

impl BearingSize {
    /// Dimensions of a designation such as `6204`; anything after a space or hyphen (seals, clearance) is ignored.
    pub fn of(designation: &str) -> Option<Self> {
        let name = designation.trim().split([' ', '-', '/']).next()?;
        let (_, [bore, outside, width]) = SIZES.iter().find(|(known, _)| *known == name)?;
        Some(Self { bore: bore * 1e-3, outside: outside * 1e-3, width: width * 1e-3 })
    }

    /// Inner radius of the outer ring as a plain ring, m: the ring takes about 15 % of the difference of outside and bore
    /// on either side (memory). A steel ring is so much stiffer than plastic that this hardly matters.
    pub fn outer_ring_inner_radius(&self) -> f64 {
        0.5 * (self.outside - 0.30 * (self.outside - self.bore))
    }
}
