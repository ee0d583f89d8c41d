//! A solid as cells: volumes against those of the mesh, which cuts by planes of the grid do not change.

use approx::assert_relative_eq;
use layload_core::field::{FieldModel, Grid, Stiffness, Voxels};
use layload_core::print::PrintSettings;
use nalgebra::Vector3;

use super::shapes::{block, ring, turned};
use crate::mesh::shapes::{Solid, motion};

#[test]
fn volume_is_that_of_the_mesh() {
    // Exact but for the rounding of sums over pieces: 1e-8 of a cell is what is dropped at most.
    let solids = [
        turned(block([0.03, 0.011, 0.007]), Vector3::new(1.0, 2.0, -0.7), 0.83).0,
        turned(ring(0.02, 0.008, 0.009, 60), Vector3::new(0.3, 1.0, 0.2), 1.1).0,
        Solid::ball(0.012, 20).moved(&motion([0.2, 0.5, 0.9], [0.3, -2.0, 0.1])).mesh().unwrap(),
    ];
    for mesh in solids {
        for cells in [60, 700, 9000] {
            let voxels = Voxels::new(&mesh, Grid::round(&mesh, cells).unwrap()).unwrap();
            assert_relative_eq!(voxels.volume(), mesh.mass_properties().volume, max_relative = 1e-8);
            assert!(voxels.sampled() == 0 && voxels.cut() < voxels.filled());
        }
    }
}

#[test]
fn faces_of_the_box_are_faces_of_cells() {
    let mesh = block([0.03, 0.011, 0.007]);
    let voxels = Voxels::new(&mesh, Grid::round(&mesh, 3000).unwrap()).unwrap();
    assert_eq!((voxels.cut(), voxels.filled()), (0, voxels.grid().len()));
    let share = voxels.filled() as f64 / 3000.0;
    // Whole numbers of cells along each edge, at least eleven: within a twentieth each.
    assert!((0.85..1.15).contains(&share), "{share}");
}

#[test]
fn voids_are_left_out() {
    let mesh = Solid::ball(0.012, 20).with(&Solid::ball(0.006, 16).inside_out()).mesh().unwrap();
    let voxels = Voxels::new(&mesh, Grid::round(&mesh, 5000).unwrap()).unwrap();
    assert_relative_eq!(voxels.volume(), mesh.mass_properties().volume, max_relative = 1e-8);
}

#[test]
fn overlapping_shells_count_once() {
    let beside = motion([0.0; 3], [0.009, 0.0013, 0.0]);
    let mesh = Solid::block([0.02, 0.01, 0.01]).with(&Solid::block([0.02, 0.01, 0.01]).moved(&beside)).mesh().unwrap();
    let union = 2.0 * 2e-6 - 0.011 * 0.0087 * 0.01;
    let voxels = Voxels::new(&mesh, Grid::with_edge(&mesh, 0.00093).unwrap()).unwrap();
    assert!(voxels.sampled() > 0);
    // Lines an eighth of a cell apart, in the few cells two shells cross.
    assert_relative_eq!(voxels.volume(), union, max_relative = 2e-3);
}

#[test]
fn touching_shells_make_one_solid() {
    let beside = motion([0.0; 3], [0.02, 0.0, 0.0]);
    let mesh = Solid::block([0.02, 0.01, 0.01]).with(&Solid::block([0.02, 0.01, 0.01]).moved(&beside)).mesh().unwrap();
    let voxels = Voxels::new(&mesh, Grid::with_edge(&mesh, 0.0011).unwrap()).unwrap();
    assert_relative_eq!(voxels.volume(), 4e-6, max_relative = 1e-3);
}

#[test]
fn bands_of_a_block() {
    // Walls 3 x 0.4 mm, skins 4 x 0.25 mm round a block: what is left inside is a smaller block.
    let (walls, skins) = (1.2e-3, 1e-3);
    let size = [0.03, 0.012, 0.01];
    let print = PrintSettings {
        build: Vector3::z(),
        bead_width: 0.4e-3,
        layer_height: 0.25e-3,
        walls: 3,
        skin_layers: 4,
        infill: 0.3,
    };
    let mesh = block(size);
    let grid = Grid::with_edge(&mesh, 0.5e-3).unwrap();
    let model =
        FieldModel::with_inside(mesh, grid, Stiffness::isotropic(2e9, 0.35).unwrap(), &(&print).into()).unwrap();
    let inside = (size[0] - 2.0 * walls) * (size[1] - 2.0 * walls) * (size[2] - 2.0 * skins);
    let expected = 1.0 - inside / size.iter().product::<f64>();
    // The band's end runs through cells; along the inner edges and corners it is rounded to a cell.
    assert_relative_eq!(model.solid_share(), expected, max_relative = 0.02);
}
