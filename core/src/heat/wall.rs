use core::ops::Range;

use super::chain::{Around, Chain, ChainEnd, Workspace};
use super::error::HeatError;
use super::gas_film::Film;

/// Most cells through a wall.
const CELL_LIMIT: usize = 100_000;

/// Most layers.
const LAYER_LIMIT: usize = 100;

/// One layer of a wall: printed plastic, a metal crown plate, a coating.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WallLayer {
    /// Thickness, m.
    pub thickness: f64,
    /// Conductivity through the thickness, W/(m K).
    pub conductivity: f64,
    /// Density times specific heat, J/(m³ K).
    pub volumetric_heat: f64,
    /// Cells through the thickness; sixty follow a crown within a few thousandths.
    pub cells: usize,
}

/// How two layers touch.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Joint {
    /// Without any gap.
    Perfect,
    /// Through a conductance, W/(m² K).
    Conductance(f64),
}

/// A flat wall in layers, per square metre: `c dT/dt = d/dx (k dT/dx)` by finite volumes round points that stand on all
/// surfaces and joints; of second order in the cell width.
#[derive(Debug, Clone, PartialEq)]
pub struct Wall {
    pub(super) chain: Chain,
    depths: Vec<f64>,
    layers: Vec<Range<usize>>,
}

impl Wall {
    /// A wall from its layers, the gas side first, with one joint fewer.
    pub fn new(layers: &[WallLayer], joints: &[Joint]) -> Result<Self, HeatError> {
        let count = HeatError::count("layers", layers.len(), 1, LAYER_LIMIT)?;
        HeatError::count("joints", joints.len(), count - 1, count - 1)?;
        let cells: usize = layers.iter().map(|layer| layer.cells).fold(0, usize::saturating_add);
        HeatError::count("cells", cells, 2, CELL_LIMIT)?;
        let mut chain = Chain { capacity: Vec::with_capacity(cells + count), link: Vec::with_capacity(cells + count) };
        let (mut depths, mut ranges) = (Vec::with_capacity(cells + count), Vec::with_capacity(count));
        let mut top = 0.0;
        for (index, layer) in layers.iter().enumerate() {
            let thickness = HeatError::positive("thickness of a layer", layer.thickness)?;
            let conductivity = HeatError::positive("conductivity of a layer", layer.conductivity)?;
            let volumetric = HeatError::positive("volumetric heat of a layer", layer.volumetric_heat)?;
            HeatError::count("cells of a layer", layer.cells, 1, CELL_LIMIT)?;
            match index.checked_sub(1).map(|above| joints[above]) {
                Some(Joint::Conductance(joint)) => {
                    chain.link.push(HeatError::positive("conductance of a joint", joint)?);
                    chain.capacity.push(0.0);
                    depths.push(top);
                }
                Some(Joint::Perfect) => {}
                None => {
                    chain.capacity.push(0.0);
                    depths.push(top);
                }
            }
            let first = chain.capacity.len() - 1;
            let width = thickness / layer.cells as f64;
            for cell in 0..layer.cells {
                chain.link.push(conductivity / width);
                if let Some(above) = chain.capacity.last_mut() {
                    *above += 0.5 * volumetric * width;
                }
                chain.capacity.push(0.5 * volumetric * width);
                depths.push(top + width * (cell + 1) as f64);
            }
            ranges.push(first..chain.capacity.len());
            top += thickness;
        }
        Ok(Self { chain, depths, layers: ranges })
    }

    /// Depth of every point below the gas side, m. A joint that is not perfect has two points.
    pub fn depths(&self) -> &[f64] {
        &self.depths
    }

    /// The points of a layer, its two faces included; `None` if there is no such layer.
    pub fn layer(&self, index: usize) -> Option<Range<usize>> {
        self.layers.get(index).cloned()
    }

    /// Temperatures (K) after endless time between two films, one of them with a coefficient above zero.
    pub fn steady(&self, gas: Film, back: Film) -> Result<Vec<f64>, HeatError> {
        let around = self.around(gas, back)?;
        if gas.coefficient <= 0.0 && back.coefficient <= 0.0 {
            return Err(HeatError::NoWayOut);
        }
        let mut at = vec![gas.temperature.min(back.temperature); self.depths.len()];
        let forever = 1e12 * self.chain.capacity.iter().sum::<f64>();
        self.chain
            .plain_step(&around, &|_, _| 0.0, &mut at, forever, &mut Workspace::new(self.depths.len()))
            .map_err(|_| HeatError::Unstable { seconds: f64::INFINITY })?;
        Ok(at)
    }

    pub(super) fn around(&self, gas: Film, back: Film) -> Result<Around, HeatError> {
        let end =
            |film: Film| ChainEnd::Contact { conductance: film.coefficient, temperature: film.temperature }.checked();
        let ends = [end(gas)?, end(back)?];
        Ok(Around { side: vec![0.0; self.depths.len()], side_temperature: 1.0, ends })
    }
}
