use layload_core::mesh::Mesh;
use layload_core::part::{GivenRod, Rod, ThicknessFactors, find_rod};

fn rod(stl: &[u8]) -> Rod {
    let (mesh, _) = Mesh::from_stl(stl, layload_core::LengthUnit::Millimetre).unwrap();
    find_rod(layload_core::mesh::bodies(mesh).unwrap(), &GivenRod::default()).unwrap()
}

const SAMPLES: [&[u8]; 4] = [
    include_bytes!("../../../samples/plain_rod.stl"),
    include_bytes!("../../../samples/i_shank_rod.stl"),
    include_bytes!("../../../samples/thin_web_rod.stl"),
    include_bytes!("../../../samples/stout_rod.stl"),
];

/// Volume goes with an even factor; with factors of its own for each part it lies between those of the even ones, and the
/// surface stays closed where its facets were cut.
#[test]
fn a_rod_made_thicker_part_by_part_stays_closed() {
    for stl in SAMPLES {
        let rod = rod(stl);
        let volume = |rod: &Rod| rod.mesh.mass_properties().volume;
        let even = rod.with_thickness(&ThicknessFactors::even(1.3)).unwrap();
        assert!((volume(&even) / volume(&rod) - 1.3).abs() < 1e-9);
        assert!((even.small_end.depth() / rod.small_end.depth() - 1.3).abs() < 1e-12);
        let factors = ThicknessFactors { small_end: 1.3, shank: 0.8, big_end: 1.1 };
        let each = rod.with_thickness(&factors).unwrap();
        // Made of the same points and facets anew, it is still one closed surface.
        Mesh::from_facets(each.mesh.points().to_vec(), each.mesh.facets().to_vec()).unwrap();
        assert!(volume(&each) > 0.8 * volume(&rod) && volume(&each) < 1.3 * volume(&rod));
        assert!((each.big_end.depth() / rod.big_end.depth() - 1.1).abs() < 1e-12);
        let reach = |rod: &Rod, from: f64, to: f64| {
            let within = rod.mesh.points().iter().filter(|p| p.x >= from && p.x <= to);
            within.map(|p| p.z.abs()).fold(0.0, f64::max)
        };
        let (length, small, big) = (rod.center_distance, rod.small_end.radius(), rod.big_end.radius());
        assert!((reach(&each, -1.0, small) / reach(&rod, -1.0, small) - 1.3).abs() < 1e-9);
        assert!((reach(&each, length - big, 1.0) / reach(&rod, length - big, 1.0) - 1.1).abs() < 1e-9);
        // No corner of the shank stands out beyond the thicker of its neighbours.
        let most = rod.mesh.points().iter().map(|p| p.z.abs()).fold(0.0, f64::max);
        assert!(reach(&each, small, length - big) <= 1.3 * most + 1e-12);
    }
}
