use libm::{log, log10, pow};

use super::estimate::relative;
use super::through::{Law, Parameter, Through, through};
use super::{CONFIDENCE, LEAST_LIFE_SCATTER, LawFit, LawFound, ONE_DEVIATION};
use crate::coupon::predicted;
use crate::coupon::test::{CouponTest, Measured, TestDirection};
use crate::life::normal_quantile;
use crate::report::{FitLineReport, FitPointReport};

/// Logarithms of the cycles of a test and of those that a check counts.
const CYCLES: Law = |card, test| {
    let Measured::Fatigue(.., cycles) = test.measured else { return None };
    Some((log(cycles), log(predicted::life(card, test)?)))
};

/// Load ratios this far apart, as factors on the reversed amplitude over the highest stress, tell the exponent of Walker.
const RATIOS_APART: f64 = 1.15;

impl LawFit<'_> {
    /// Stress-life lines: within the layer plane, and across layers; with them Walker's exponent, where ratios differ.
    pub(super) fn fatigue(&mut self) {
        let mut walker_known = false;
        for layer in [false, true] {
            let of_line = |test: &CouponTest| {
                matches!(test.measured, Measured::Fatigue(..)) && (test.direction == TestDirection::Layer) == layer
            };
            let tests: Vec<CouponTest> = self.tests.iter().filter(|test| of_line(test)).copied().collect();
            if tests.is_empty() {
                continue;
            }
            let (line, walker) = line_values(layer);
            let told = |fit: &Through| walker_told(&self.card, fit);
            let with_walker = (!walker_known && ratios_differ(&tests))
                .then(|| through(&self.card, &[line[0], line[1], walker], &tests, CYCLES))
                .flatten()
                .filter(told);
            walker_known |= with_walker.is_some();
            let found = with_walker.or_else(|| through(&self.card, &line, &tests, CYCLES));
            let Some(found) = found else {
                self.findings.push(self.no_line(layer, &tests));
                continue;
            };
            for (test, used) in self.tests.iter().zip(&mut self.used) {
                *used |= of_line(test);
            }
            self.stress_life(layer, &tests, &found);
        }
    }

    /// Why no line goes through tests.
    fn no_line(&self, layer: bool, tests: &[CouponTest]) -> String {
        let where_ = plane(layer);
        let points: Vec<(f64, f64)> = tests
            .iter()
            .filter(|test| !test.run_out)
            .filter_map(|test| Some((log(predicted::over_strength(&self.card, test)?), CYCLES(&self.card, test)?.0)))
            .collect();
        let mean = |of: fn(&(f64, f64)) -> f64| points.iter().map(of).sum::<f64>() / points.len() as f64;
        let (stress, life) = (mean(|p| p.0), mean(|p| p.1));
        let together: f64 = points.iter().map(|p| (p.0 - stress) * (p.1 - life)).sum();
        let spread: f64 = points.iter().map(|p| (p.0 - stress) * (p.0 - stress)).sum();
        if points.len() > 2 && spread > 1e-6 && together >= 0.0 {
            format!("Fatigue lives {where_} do not fall with stress: no line was taken from them.")
        } else {
            format!("{} fatigue tests {where_} are too few, or all at one stress, for a line.", tests.len())
        }
    }

    fn stress_life(&mut self, layer: bool, tests: &[CouponTest], found: &Through) {
        let where_ = plane(layer);
        let fit = &found.fit;
        let how = if fit.run_outs > 0 {
            format!("stress-life line {where_}, run-outs right-censored, by maximum likelihood")
        } else {
            format!("stress-life line {where_}, least squares (ASTM E739)")
        };
        let (fatigue, count) = (&found.card.fatigue, tests.len());
        let (ratio, exponent) = if layer {
            (fatigue.layer_ratio_1e6.value, fatigue.layer_exponent.value)
        } else {
            (fatigue.ratio_1e6.value, fatigue.exponent.value)
        };
        let of_ratio = LawFound::by_log(fit, 0, ratio, count, &how);
        let of_exponent = LawFound::plain(fit, 1, exponent, count, &how);
        if layer {
            self.put("fatigue ratio across layers", "1", |card| &mut card.fatigue.layer_ratio_1e6, &of_ratio);
            self.put("fatigue exponent across layers", "1", |card| &mut card.fatigue.layer_exponent, &of_exponent);
        } else {
            self.put("fatigue ratio at a million cycles", "1", |card| &mut card.fatigue.ratio_1e6, &of_ratio);
            self.put("fatigue exponent", "1", |card| &mut card.fatigue.exponent, &of_exponent);
        }
        if fit.coefficients.len() > 2 {
            let walker = LawFound::plain(fit, 2, fatigue.walker_exponent.value, count, &how);
            self.put("Walker exponent", "1", |card| &mut card.fatigue.walker_exponent, &walker);
        }
        if !layer {
            self.life_scatter(exponent, count, found);
        }
        self.line(layer, (ratio, exponent), tests, found);
    }

    fn life_scatter(&mut self, exponent: f64, count: usize, found: &Through) {
        let fit = &found.fit;
        let decades = 1.0 / core::f64::consts::LN_10;
        let whole = fit.deviation * decades;
        // Every coupon is a print of its own: the scatter of its strength is in that of its life already.
        let strength = exponent * self.card.strength.scatter_log10.value;
        let own = (whole * whole - strength * strength).max(0.0).sqrt().max(LEAST_LIFE_SCATTER);
        let of_all = fit.deviation_range(CONFIDENCE);
        let part = own / fit.deviation;
        let scatter = LawFound {
            value: own,
            spread: 1.0 / (2.0 * fit.freedom() as f64).sqrt(),
            range: (of_all.0 * part, of_all.1 * part),
            count,
            run_outs: fit.run_outs,
            how: format!(
                "scatter about the line {}, {whole:.3}, less the exponent times the scatter of strength",
                plane(false)
            ),
        };
        self.put("scatter of life (log10)", "1", |card| &mut card.fatigue.scatter_log10, &scatter);
    }

    fn line(&mut self, layer: bool, (ratio, exponent): (f64, f64), tests: &[CouponTest], found: &Through) {
        const STEPS: usize = 40;
        let fit = &found.fit;
        let decades = 1.0 / core::f64::consts::LN_10;
        let points: Vec<(f64, f64, bool)> = tests
            .iter()
            .filter_map(|test| {
                let Measured::Fatigue(.., cycles) = test.measured else { return None };
                Some((predicted::over_strength(&found.card, test)?, cycles, test.run_out))
            })
            .collect();
        let logs = points.iter().map(|p| log10(p.0));
        let (low, high) = logs.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
        let ten = -normal_quantile(0.1).unwrap_or(-1.281_551_565_544_600_4);
        let intercept = 6.0 + exponent * log10(ratio);
        let at = |step: usize| {
            let stress = low + (high - low) * step as f64 / STEPS as f64;
            // Change of ln life with ln ratio and with the exponent; at zero mean Walker's says nothing.
            let mut row = vec![0.0; fit.coefficients.len()];
            row[0] = exponent;
            row[1] = log(ratio) - stress * core::f64::consts::LN_10;
            let (middle, reach) = (intercept - exponent * stress, fit.band(&row, CONFIDENCE) * decades);
            let of = |log: f64| pow(10.0, log);
            FitPointReport {
                stress: of(stress),
                life: of(middle),
                low: of(middle - reach),
                high: of(middle + reach),
                nine_in_ten: of(middle - ten * fit.deviation * decades),
            }
        };
        self.lines.push(FitLineReport {
            name: format!("fatigue {}", plane(layer)),
            stress_unit: "amplitude over strength, zero mean".into(),
            life_unit: "cycles".into(),
            intercept,
            slope: -exponent,
            deviation: fit.deviation * decades,
            line: (0..=STEPS).map(at).collect(),
            failed: points.iter().filter(|p| !p.2).map(|p| [p.0, p.1]).collect(),
            run_outs: points.iter().filter(|p| p.2).map(|p| [p.0, p.1]).collect(),
        });
    }
}

fn plane(layer: bool) -> &'static str {
    if layer { "across layers" } else { "in the layer plane" }
}

/// Ratio and exponent of a line, and Walker's exponent.
fn line_values(layer: bool) -> ([Parameter; 2], Parameter) {
    let line = if layer {
        [
            Parameter::log(|card| &mut card.fatigue.layer_ratio_1e6.value),
            Parameter::plain(|card| &mut card.fatigue.layer_exponent.value),
        ]
    } else {
        [
            Parameter::log(|card| &mut card.fatigue.ratio_1e6.value),
            Parameter::plain(|card| &mut card.fatigue.exponent.value),
        ]
    };
    (line, Parameter::plain(|card| &mut card.fatigue.walker_exponent.value))
}

fn ratios_differ(tests: &[CouponTest]) -> bool {
    let parts = tests.iter().filter_map(|test| match test.measured {
        Measured::Fatigue(_, ratio, _) => Some(0.5 * (1.0 - ratio)),
        _ => None,
    });
    let (low, high) = parts.fold((f64::INFINITY, 0.0), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
    high > low * RATIOS_APART
}

/// Whether tests tell Walker's exponent better than the card already does.
fn walker_told(card: &crate::material::Card, found: &Through) -> bool {
    let value = found.card.fatigue.walker_exponent.value;
    let spread = relative(&found.fit, 2, value, ONE_DEVIATION);
    (0.01..=1.0).contains(&value) && spread < card.fatigue.walker_exponent.relative_spread()
}
