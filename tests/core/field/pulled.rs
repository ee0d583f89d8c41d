//! A rod pulled apart at both bores by cosine pushes: for the tests, and for the example `pulled_rod` that is timed.

use layload_core::field::{
    Accuracy, FieldModel, Gauges, Grid, HeldModel, InertiaRelief, Load, Solution, Stiffness, SurfaceForce, Zoom, tensor,
};
use layload_core::mesh::Mesh;
use nalgebra::{Point3, Vector3, Vector6};

/// Centres and radii of the bores, mm; both along z.
pub(crate) type Bores = [([f64; 2], f64); 2];

type Place = (Point3<f64>, Vector3<f64>);

pub(crate) struct Bore {
    pub(crate) center: Point3<f64>,
    radius: f64,
    facets: Vec<usize>,
    /// Where the pin pushes: away from the other bore.
    pub(crate) toward: Vector3<f64>,
    /// Greatest pressure, Pa.
    pressure: f64,
}

impl Bore {
    fn arm(&self, point: &Point3<f64>) -> Vector3<f64> {
        Vector3::new(point.x - self.center.x, point.y - self.center.y, 0.0)
    }

    fn touches(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> bool {
        (self.arm(point).norm() - self.radius).abs() < 0.02 * self.radius && normal.z.abs() < 0.5
    }

    /// The traction of a cosine push with a peak of one.
    fn push(&self, point: &Point3<f64>) -> Vector3<f64> {
        let radial = self.arm(point).normalize();
        radial * radial.dot(&self.toward).max(0.0)
    }
}

pub(crate) struct PulledRod {
    pub(crate) model: FieldModel,
    pub(crate) bores: [Bore; 2],
    /// Where stresses are looked at: all over the surface, with its normals.
    pub(crate) points: Vec<Place>,
    edge: f64,
    force: f64,
}

impl PulledRod {
    /// With about so many cells, pulled by `force`, N.
    pub(crate) fn new(mesh: Mesh, cells: usize, stiffness: &Stiffness, bores: Bores, force: f64) -> Self {
        let grid = Grid::round(&mesh, cells).unwrap();
        let edge = libm::cbrt(grid.cell_volume());
        let model = FieldModel::solid(mesh, grid, *stiffness).unwrap();
        let [small, big] = bores.map(|([x, y], _)| Point3::new(x * 1e-3, y * 1e-3, 0.0));
        let along = (big - small).normalize();
        let bores = [(small, bores[0].1, -along), (big, bores[1].1, along)].map(|(center, radius, toward)| {
            let mut bore = Bore { center, radius: radius * 1e-3, facets: Vec::new(), toward, pressure: 0.0 };
            let mesh = model.mesh();
            bore.facets = (0..mesh.facets().len())
                .filter(|&f| bore.touches(&mesh.middle(f), &mesh.area_vector(f).normalize()))
                .collect();
            bore.pressure = force / model.integral(&bore.facets, |p| bore.push(p).dot(&toward));
            bore
        });
        let points = spread(&model, edge);
        Self { model, bores, points, edge, force }
    }

    /// The pushes of both pins, held in balance.
    pub(crate) fn load(&self) -> Load {
        let Self { model, force, .. } = self;
        let load = self.bores.iter().fold(Load::none(model), |load, bore| {
            load.cosine_push(model, &bore.facets, &bore.center, &Vector3::z(), &(bore.toward * *force)).unwrap()
        });
        // Two facet meshes of the bores may differ in the last digits; the rest is taken by a hair of acceleration.
        InertiaRelief::new(model, 1100.0).unwrap().balanced(model, load)
    }

    fn traction(&self, point: &Point3<f64>, normal: &Vector3<f64>) -> Vector3<f64> {
        let on = self.bores.iter().find(|bore| bore.touches(point, normal));
        on.map_or_else(Vector3::zeros, |bore| bore.push(point) * bore.pressure)
    }

    /// Greatest principal stress at each of the points, Pa.
    pub(crate) fn greatest(&self, solution: &Solution, load: &Load) -> Vec<f64> {
        Gauges::new(&self.model, &self.points)
            .stresses(solution, load, |n| self.traction(&self.points[n].0, &self.points[n].1))
            .iter()
            .map(|stress| stress.as_ref().map_or(f64::NAN, principal))
            .collect()
    }

    /// Greatest of them in a bore, and once more with finer cells, as a check looks at its worst places, Pa.
    pub(crate) fn peak(&self, bore: &Bore, solution: &Solution, greatest: &[f64]) -> [f64; 2] {
        let on = self.points.iter().zip(greatest).filter(|((p, n), _)| bore.touches(p, n));
        let (worst, coarse) = on.max_by(|a, b| a.1.total_cmp(b.1)).unwrap();
        let zoom = Zoom::new(&self.model, &worst.0, 4.5, 3).unwrap();
        let load = Load::none(&zoom.model).traction(&zoom.model, &bore.facets, |p, n| self.traction(p, n)).unwrap();
        let held: HeldModel<'_> = zoom.held(solution.displacements(), &[]).unwrap();
        let closer = held.solve(&load, &Accuracy { residual: 1e-7, ..Accuracy::default() }, None).unwrap();
        let strains = held.strains(&closer, &load);
        let near = spread(&zoom.model, self.edge / 3.0).into_iter().filter(|(p, _)| zoom.within(p, 1.5));
        let stress = |(p, n): Place| strains.stress_at(&p, &n, SurfaceForce::Known(self.traction(&p, &n)));
        let on = near.filter(|(p, n)| bore.touches(p, n));
        [*coarse, on.filter_map(stress).map(|stress| principal(&stress)).fold(0.0, f64::max)]
    }
}

fn principal(stress: &Vector6<f64>) -> f64 {
    tensor(stress).symmetric_eigenvalues().max()
}

/// Points about `apart` from each other all over the surface, with their normals: facets of the samples are long strips.
fn spread(model: &FieldModel, apart: f64) -> Vec<Place> {
    let mut points = Vec::new();
    for facet in 0..model.mesh().facets().len() {
        let normal = model.mesh().area_vector(facet).normalize();
        let [a, b, c] = model.mesh().corners(facet);
        let longest = (a - b).norm().max((b - c).norm()).max((c - a).norm());
        let parts = (longest / apart).ceil().max(1.0) as usize;
        for i in 0..parts {
            for j in 0..parts - i {
                let (u, v) = ((i as f64 + 1.0 / 3.0) / parts as f64, (j as f64 + 1.0 / 3.0) / parts as f64);
                points.push((a + (b - a) * u + (c - a) * v, normal));
            }
        }
    }
    points
}
