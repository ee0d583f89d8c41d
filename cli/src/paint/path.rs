//! The line through `OKLab` along which the colours lie.

use palette::cam16::{Cam16Jmh, Cam16UcsJab, IntoCam16Unclamped, Parameters};
use palette::color_difference::EuclideanDistance;
use palette::convert::FromColorUnclamped;
use palette::white_point::D65;
use palette::{LinSrgb, Mix, Oklab, Oklch, Srgb, Xyz};

/// Corners of a Bézier curve in `OKLab` (Ottosson 2020): lightness, chroma and hue in degrees, from the good end (pale
/// blue) over sand and orange to the bad end (deep red, the most saturated).
///
/// Found by a search with these aims: inside sRGB, lightness falling throughout also as seen with protan, deutan and
/// tritan vision (Machado, Oliveira & Fernandes 2009), steps as even as can be under each, far from the grey of facets
/// that were not measured. `tests/reference/paint` measures what came of it.
const CORNERS: [[f64; 3]; 5] =
    [[0.945, 0.04, 218.0], [0.902, 0.0, 209.0], [0.778, 0.153, 117.0], [0.666, 0.152, 68.0], [0.47, 0.19, 27.0]];

/// Pieces in which the length of the curve is measured.
const PIECES: usize = 2048;

/// Luminance to which the eye is adapted, cd/m²: a fifth of a white sheet under the 64 lx for which sRGB is defined
/// (IEC 61966-2-1).
const ADAPTING_LUMINANCE: f64 = 64.0 / std::f64::consts::PI / 5.0;

/// `count` colours in the middles of as many pieces of the curve of equal perceived length, from the good end.
///
/// Length is measured in CAM16-UCS (Li et al. 2017).
pub(super) fn colors(count: usize) -> Vec<[u8; 3]> {
    let share = |piece: usize| piece as f64 / PIECES as f64;
    let view = Parameters::<palette::cam16::StaticWp<D65>, f64>::default_static_wp(ADAPTING_LUMINANCE).bake();
    let seen = |piece: usize| {
        let seen: Cam16Jmh<f64> = Xyz::<D65, f64>::from_color_unclamped(point(share(piece))).into_cam16_unclamped(view);
        Cam16UcsJab::from_color_unclamped(seen)
    };
    let mut length = 0.0;
    let mut lengths = vec![0.0];
    let mut last = seen(0);
    for piece in 1..=PIECES {
        let next = seen(piece);
        length += last.distance(next);
        lengths.push(length);
        last = next;
    }
    let middle = |index: usize| {
        let wanted = (index as f64 + 0.5) / count as f64 * length;
        let end = lengths.partition_point(|&length| length < wanted).clamp(1, PIECES);
        let part = (wanted - lengths[end - 1]) / (lengths[end] - lengths[end - 1]);
        let linear = LinSrgb::from_color_unclamped(point(share(end - 1) + part / PIECES as f64));
        Srgb::<f64>::from_linear(linear).into_format::<u8>().into()
    };
    (0..count).map(middle).collect()
}

/// Point of the curve, by repeated mixing (de Casteljau).
fn point(share: f64) -> Oklab<f64> {
    let mut corners = CORNERS.map(|[l, chroma, hue]| Oklab::from_color_unclamped(Oklch::new(l, chroma, hue)));
    for left in (1..corners.len()).rev() {
        for index in 0..left {
            corners[index] = corners[index].mix(corners[index + 1], share);
        }
    }
    corners[0]
}
