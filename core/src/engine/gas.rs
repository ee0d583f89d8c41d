use super::closed::{March, Point};
use super::cylinder::Cylinder;
use super::error::GasError;
use super::exchange::GasExchange;
use super::pressure::PressureTrace;
use super::temperature::GasTemperature;

/// The gas side of an engine: what goes in, when it burns and how the cylinder opens.
///
/// While the cylinder is closed the pressure follows dp = -n p dV / V + (n - 1) dQ / V (Heywood, *Internal
/// Combustion Engine Fundamentals*, ch. 9: first law, one zone, constant exponent). Compression runs at the first
/// exponent up to the piston's top position, expansion at the second. Heat follows the Wiebe function
/// x = (1 - exp(-a y^(m+1))) / (1 - exp(-a)), y the part of the burn duration gone by, so that all of it is
/// released. While the cylinder is open, blow-down falls to the back pressure along half a cosine wave, and through
/// the overlap the pressure passes to that of the manifold in the same way; a two-stroke stays at back pressure
/// until its exhaust port closes. Waves in pipes are not modelled.
///
/// The defaults of [`Self::four_stroke`] and [`Self::two_stroke`] are textbook typical values, from memory: a
/// measured pressure table or a stated peak is better.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GasCycle {
    /// Valve or port timing; also decides two-stroke or four-stroke.
    pub exchange: GasExchange,
    /// Polytropic exponent of compression, 1.32 (Heywood gives 1.3 +- 0.05; memory).
    pub compression_exponent: f64,
    /// Polytropic exponent of combustion after the top and of expansion, 1.28 (memory).
    pub expansion_exponent: f64,
    /// Wiebe's a, 5 (Heywood; memory).
    pub wiebe_efficiency: f64,
    /// Wiebe's m, 2 (Heywood; memory).
    pub wiebe_form: f64,
    /// Start of heat release, negative before the top: -25 degrees (memory).
    pub burn_start_rad: f64,
    /// Duration of heat release, 60 degrees (memory).
    pub burn_duration_rad: f64,
    /// Absolute manifold pressure at closed throttle, 40 kPa for valves, 60 kPa for ports (memory).
    pub closed_manifold_pa: f64,
    /// Absolute manifold pressure at open throttle, 95 kPa for valves, 101 kPa for ports (memory).
    pub open_manifold_pa: f64,
    /// Absolute pressure that the exhaust pushes out against, 108 kPa (memory).
    pub back_pressure_pa: f64,
    /// Temperature of the trapped gas when the cylinder closes, residual included: 350 K for valves, 380 K for ports
    /// (memory).
    pub charge_temperature_k: f64,
    /// Gas constant per mass, 287 J/(kg K): air.
    pub gas_constant_j_kg_k: f64,
    /// Share of fresh mixture in the trapped mass at open throttle, 0.93 for valves, 0.70 for ports (memory).
    pub fresh_share: f64,
    /// Air to fuel by mass, 13 (rich of the 14.7 of petrol; memory).
    pub air_fuel_ratio: f64,
    /// Lower heating value of the fuel, 43 MJ/kg: petrol (memory). Methanol has about 20.
    pub lower_heating_value_j_kg: f64,
    /// Share of the fuel's heat that is released, 0.92 (memory).
    pub combustion_efficiency: f64,
    /// Share of the released heat that goes into the walls during combustion, 0.20 (memory; small cylinders lose
    /// much).
    pub wall_loss_share: f64,
    /// Multiplies the heat of the fuel: 1 is the charge as described, 0 a motored engine. [`Self::scaled_to_peak`] sets it
    /// where no burn and no smaller charge meets a peak.
    pub heat_scale: f64,
}

/// One cycle as the model gives it.
#[derive(Debug, Clone, PartialEq)]
pub struct GasRun {
    /// Pressure over the cycle.
    pub trace: PressureTrace,
    /// Gas temperature over the cycle, at the same crank angles.
    pub temperature: GasTemperature,
    /// Mass in the cylinder while it is closed.
    pub trapped_mass_kg: f64,
    /// Fuel in the trapped mass.
    pub fuel_mass_kg: f64,
    /// Heat given to the gas: fuel times heating value times efficiency, less the wall's share, times the scale.
    pub heat_j: f64,
}

impl GasCycle {
    /// A small four-stroke on petrol.
    pub fn four_stroke() -> Self {
        Self {
            exchange: GasExchange::typical_valves(),
            compression_exponent: 1.32,
            expansion_exponent: 1.28,
            wiebe_efficiency: 5.0,
            wiebe_form: 2.0,
            burn_start_rad: (-25_f64).to_radians(),
            burn_duration_rad: 60_f64.to_radians(),
            closed_manifold_pa: 40e3,
            open_manifold_pa: 95e3,
            back_pressure_pa: 108e3,
            charge_temperature_k: 350.0,
            gas_constant_j_kg_k: 287.0,
            fresh_share: 0.93,
            air_fuel_ratio: 13.0,
            lower_heating_value_j_kg: 43e6,
            combustion_efficiency: 0.92,
            wall_loss_share: 0.20,
            heat_scale: 1.0,
        }
    }

    /// A small two-stroke on petrol.
    pub fn two_stroke() -> Self {
        Self {
            exchange: GasExchange::typical_ports(),
            closed_manifold_pa: 60e3,
            open_manifold_pa: 101e3,
            charge_temperature_k: 380.0,
            fresh_share: 0.70,
            ..Self::four_stroke()
        }
    }

    /// Manifold pressure at a throttle from 0 to 1: linear between the closed and the open value.
    pub fn manifold_pa(&self, throttle: f64) -> f64 {
        self.closed_manifold_pa + throttle * (self.open_manifold_pa - self.closed_manifold_pa)
    }

    /// Runs the model over one cycle.
    ///
    /// `samples` pressures at equal crank steps ([`super::pressure::DEFAULT_SAMPLES`] is a good number). The peak is that of
    /// the samples.
    pub fn run(&self, cylinder: &Cylinder, throttle: f64, samples: usize) -> Result<GasRun, GasError> {
        self.check(throttle)?;
        let charge = self.charge(cylinder, throttle);
        let heat_j = self.heat_scale * charge.heat_j;
        let shape = self.shape(cylinder, throttle, samples)?;
        let pressures = shape.iter().map(|point| point.motored_pa + heat_j * point.per_heat).collect();
        let trace = PressureTrace::new(self.exchange.strokes(), pressures)?;
        let temperature = GasTemperature::of(&trace, cylinder, &self.exchange, self.charge_temperature_k)?;
        Ok(GasRun {
            trace,
            temperature,
            trapped_mass_kg: charge.trapped_mass_kg,
            fuel_mass_kg: charge.fuel_mass_kg,
            heat_j,
        })
    }

    /// Refuses numbers that the model has no meaning for.
    pub(super) fn check(&self, throttle: f64) -> Result<(), GasError> {
        self.exchange.check()?;
        let positive = [
            ("manifold pressure at closed throttle", self.closed_manifold_pa),
            ("manifold pressure at open throttle", self.open_manifold_pa),
            ("back pressure", self.back_pressure_pa),
            ("charge temperature", self.charge_temperature_k),
            ("gas constant", self.gas_constant_j_kg_k),
            ("air-fuel ratio", self.air_fuel_ratio),
            ("lower heating value", self.lower_heating_value_j_kg),
        ];
        for (quantity, value) in positive {
            require(quantity, value, "a number above 0", value > 0.0)?;
        }
        for (quantity, value) in [
            ("polytropic exponent of compression", self.compression_exponent),
            ("polytropic exponent of expansion", self.expansion_exponent),
        ] {
            require(quantity, value, "above 1 and up to 2", value > 1.0 && value <= 2.0)?;
        }
        for (quantity, value) in
            [("share of fresh mixture", self.fresh_share), ("combustion efficiency", self.combustion_efficiency)]
        {
            require(quantity, value, "above 0 and up to 1", value > 0.0 && value <= 1.0)?;
        }
        let (duration, factor) = (self.burn_duration_rad, self.wiebe_efficiency);
        // Shorter than this, begin and end of combustion are hard to tell apart in a float.
        require("burn duration", duration, "at least 1e-6 rad", duration >= 1e-6)?;
        require("Wiebe efficiency factor", factor, "above 0 and up to 50", factor > 0.0 && factor <= 50.0)?;
        let share = self.wall_loss_share;
        require("wall loss share", share, "from 0 to below 1", (0.0..1.0).contains(&share))?;
        require("Wiebe form factor", self.wiebe_form, "from 0 to 10", (0.0..=10.0).contains(&self.wiebe_form))?;
        require("heat scale", self.heat_scale, "a number from 0", self.heat_scale >= 0.0)?;
        require("throttle", throttle, "within 0 and 1", (0.0..=1.0).contains(&throttle))?;
        require("start of combustion", self.burn_start_rad, "a number", true)?;
        let order = self.open_manifold_pa;
        require(
            "manifold pressure at open throttle",
            order,
            "no less than at closed throttle",
            order >= self.closed_manifold_pa,
        )?;
        let (from, to) = (self.exchange.closed_from_rad(), self.exchange.closed_to_rad());
        let burn_end = self.burn_start_rad + self.burn_duration_rad;
        if self.burn_start_rad < from || burn_end > to {
            return Err(GasError::BurnOutside {
                burn_from_deg: self.burn_start_rad.to_degrees(),
                burn_to_deg: burn_end.to_degrees(),
                closed_from_deg: from.to_degrees(),
                closed_to_deg: to.to_degrees(),
            });
        }
        Ok(())
    }

    /// Pressure when the cylinder closes. Ports close to the exhaust last, so a two-stroke traps back pressure and
    /// its throttle acts through the share of fresh mixture.
    fn closing_pa(&self, throttle: f64) -> f64 {
        match self.exchange {
            GasExchange::Valves { .. } => self.manifold_pa(throttle),
            GasExchange::Ports { .. } => self.back_pressure_pa,
        }
    }

    pub(super) fn charge(&self, cylinder: &Cylinder, throttle: f64) -> Charge {
        let volume_m3 = cylinder.volume_m3(self.exchange.closed_from_rad());
        let trapped_mass_kg =
            self.closing_pa(throttle) * volume_m3 / (self.gas_constant_j_kg_k * self.charge_temperature_k);
        let fresh_share = match self.exchange {
            GasExchange::Valves { .. } => self.fresh_share,
            GasExchange::Ports { .. } => self.fresh_share * self.manifold_pa(throttle) / self.open_manifold_pa,
        };
        let fuel_mass_kg = trapped_mass_kg * fresh_share / (1.0 + self.air_fuel_ratio);
        let heat_j =
            fuel_mass_kg * self.lower_heating_value_j_kg * self.combustion_efficiency * (1.0 - self.wall_loss_share);
        Charge { trapped_mass_kg, fuel_mass_kg, heat_j }
    }

    /// The pressure at each sample as motored part and part per joule of heat.
    pub(super) fn shape(&self, cylinder: &Cylinder, throttle: f64, samples: usize) -> Result<Vec<Point>, GasError> {
        PressureTrace::check_count(samples)?;
        let cycle_rad = self.exchange.strokes().cycle_rad();
        let step_rad = cycle_rad / samples as f64;
        let (from, to) = (self.exchange.closed_from_rad(), self.exchange.closed_to_rad());
        let mut march = March::new(self, cylinder, self.closing_pa(throttle));
        let mut shape = vec![Point { motored_pa: 0.0, per_heat: 0.0 }; samples];
        // The closed period begins late in the cycle and runs on past its end: later samples come first.
        let late = |index: usize| index as f64 * step_rad - cycle_rad;
        let first_late = (0..samples).find(|&index| late(index) >= from).unwrap_or(samples);
        for (index, point) in shape.iter_mut().enumerate().skip(first_late) {
            *point = march.to(late(index));
        }
        let mut open_from = 0;
        while open_from < first_late && open_from as f64 * step_rad <= to {
            shape[open_from] = march.to(open_from as f64 * step_rad);
            open_from += 1;
        }
        let at_opening = march.to(to);
        let manifold_pa = self.manifold_pa(throttle);
        for (index, point) in shape.iter_mut().enumerate().take(first_late).skip(open_from) {
            let shares = self.exchange.open_shares(index as f64 * step_rad);
            let outside_pa = self.back_pressure_pa + shares.manifold * (manifold_pa - self.back_pressure_pa);
            *point = Point {
                motored_pa: outside_pa + shares.cylinder * (at_opening.motored_pa - outside_pa),
                per_heat: shares.cylinder * at_opening.per_heat,
            };
        }
        Ok(shape)
    }
}

fn require(quantity: &'static str, value: f64, range: &'static str, holds: bool) -> Result<(), GasError> {
    if value.is_finite() && holds { Ok(()) } else { Err(GasError::OutOfRange { quantity, range, value }) }
}

pub(super) struct Charge {
    trapped_mass_kg: f64,
    fuel_mass_kg: f64,
    pub(super) heat_j: f64,
}
