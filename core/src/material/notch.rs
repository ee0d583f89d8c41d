/// Length over which printed plastics feel a notch, m: at half of it below the notch the stress counts (point method of the
/// theory of critical distances; Taylor, The Theory of Critical Distances, 2007).
///
/// It is the least, rounded down, of four that follow from published tests of printed bars with notches of three radii and two
/// load ratios (Procedia Struct. Integrity 76 (2026) 99-106, tables 1 and 2; evidence rows `hn001` to `hn006`): 0.21, 0.30, 0.45
/// and 2.0 mm. The bars were of another plastic, and that their notches were equally deep is taken as such. The shorter the
/// length, the higher the stress that counts.
pub const CRITICAL_DISTANCE: f64 = 0.2e-3;
