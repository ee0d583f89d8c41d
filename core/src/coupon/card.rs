use libm::{exp, log, log10, pow, sinh};

use super::against::contradictions;
use super::error::CouponError;
use super::regression::Regression;
use super::row::CouponRow;
use super::student::student_quantile;
use super::test::{CouponTest, Measured, TestDirection};
use crate::life::{GAS_CONSTANT_J_MOL_K, normal_quantile};
use crate::material::{Card, REFERENCE_TEMPERATURE, Source, Value};
use crate::report::{CAUTIONS, CouponReport, FitLineReport, FitPointReport, FittedReport, SCHEMA_VERSION};

/// A card with what was fitted in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Fitted {
    /// The card, which reads back.
    pub card: Card,
    /// What was fitted and how well.
    pub report: CouponReport,
}

/// Confidence of all ranges.
const CONFIDENCE: f64 = 0.9;

/// A test this near to 23 °C counts as done there, K.
const ROOM: f64 = 3.0;

/// Scatter of life that is left to the life itself, whatever the scatter of strength explains (log10; memory): no series
/// of fatigue tests is steadier.
const LEAST_LIFE_SCATTER: f64 = 0.05;

/// Fits what the tests allow into a copy of `base`; what they do not say stays as it is there, with its own source.
///
/// `name` is the card's; `date` a day in words, or the latest of the rows where it is absent. Nothing is read from a clock.
pub fn fit_card(
    rows: &[CouponRow],
    base: &Card,
    name: Option<&str>,
    date: Option<&str>,
) -> Result<Fitted, CouponError> {
    if rows.is_empty() {
        return Err(CouponError::Empty);
    }
    let tests: Vec<CouponTest> =
        rows.iter().enumerate().map(|(k, row)| CouponTest::read(k + 1, row)).collect::<Result<_, _>>()?;
    let latest = rows.iter().filter_map(|row| row.date.as_deref()).max();
    let mut card = base.clone();
    card.name = name.map_or_else(|| format!("{} coupons", base.name), String::from);
    let mut work = Work {
        tests: &tests,
        card,
        date: date.or(latest).map(String::from),
        fitted: Vec::new(),
        lines: Vec::new(),
        findings: Vec::new(),
        used: vec![false; tests.len()],
    };
    work.strengths();
    work.moduli();
    work.knockdown();
    work.fatigue();
    work.rupture();
    work.creep();
    let unused = work.used.iter().filter(|used| !**used).count();
    if unused > 0 {
        work.findings.push(format!(
            "{unused} of {} tests went into no value: too few of their kind, away from 23 °C, or of a kind that a card \
             does not hold.",
            tests.len()
        ));
    }
    if work.fitted.is_empty() {
        work.findings.push("Nothing could be fitted: the card is the base card under another name.".into());
    }
    // What is written must read back; a fit that no card can hold is refused by the same rules.
    let card = Card::from_toml(&work.card.to_toml()?).map_err(|error| match error {
        crate::material::MaterialError::Implausible { what, value, .. } => CouponError::Unfit { what, value },
        other => other.into(),
    })?;
    // First: whoever reads one line reads this.
    work.findings.splice(0..0, contradictions(&card, &tests));
    Ok(Fitted {
        report: CouponReport {
            schema_version: SCHEMA_VERSION.into(),
            program_version: env!("CARGO_PKG_VERSION").into(),
            card: card.name.clone(),
            base: base.name.clone(),
            date: work.date,
            tests: tests.len(),
            unused,
            confidence: CONFIDENCE,
            fitted: work.fitted,
            lines: work.lines,
            findings: work.findings,
            cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
        },
        card,
    })
}

struct Work<'a> {
    tests: &'a [CouponTest],
    card: Card,
    date: Option<String>,
    fitted: Vec<FittedReport>,
    lines: Vec<FitLineReport>,
    findings: Vec<String>,
    used: Vec<bool>,
}

/// What a number came from.
struct Found {
    value: f64,
    /// Relative standard uncertainty.
    spread: f64,
    range: (f64, f64),
    count: usize,
    run_outs: usize,
    how: String,
}

impl Work<'_> {
    /// Puts a value into the card and into the report.
    fn put(&mut self, name: &str, unit: &str, of: impl Fn(&mut Card) -> &mut Value, found: &Found) {
        let dated = self.date.as_ref().map_or_else(String::new, |date| format!("; {date}"));
        let outs = if found.run_outs > 0 { format!(", {} of them run-outs", found.run_outs) } else { String::new() };
        let slot = of(&mut self.card);
        let before = slot.value;
        *slot = Value {
            value: found.value,
            source: Source::Coupon,
            reference: None,
            spread: Some(found.spread),
            note: Some(format!(
                "{}: {} tests{outs}; nine in ten such series lie within {:.4} to {:.4}{dated}.",
                found.how, found.count, found.range.0, found.range.1
            )),
        };
        self.report(name, unit, Some(before), found);
    }

    fn report(&mut self, name: &str, unit: &str, before: Option<f64>, found: &Found) {
        self.fitted.push(FittedReport {
            name: name.into(),
            unit: unit.into(),
            value: found.value,
            low: found.range.0,
            high: found.range.1,
            base: before,
            tests: found.count,
            run_outs: found.run_outs,
            how: found.how.clone(),
        });
    }

    /// Results of short-term tests at room temperature, and marks them as used.
    fn short(&mut self, of: impl Fn(&CouponTest) -> Option<f64>) -> Vec<f64> {
        let mut values = Vec::new();
        for (test, used) in self.tests.iter().zip(&mut self.used) {
            let room = (test.temperature - REFERENCE_TEMPERATURE).abs() <= ROOM;
            if let Some(value) = of(test).filter(|_| room && !test.run_out) {
                values.push(value);
                *used = true;
            }
        }
        values
    }

    fn strengths(&mut self) {
        use TestDirection::{Across, Bead, Layer};
        let mut residuals: Vec<f64> = Vec::new();
        let mut groups = 0;
        let tensile = |direction: TestDirection| {
            move |test: &CouponTest| match test.measured {
                Measured::Tensile(strength, _) if test.direction == direction => Some(strength),
                _ => None,
            }
        };
        let all: [(&str, &str, Vec<f64>); 5] = [
            ("strength along beads", "mean of tensile tests (ISO 527)", self.short(tensile(Bead))),
            ("strength across beads", "mean of tensile tests (ISO 527)", self.short(tensile(Across))),
            ("strength across layers", "mean of tensile tests (ISO 527)", self.short(tensile(Layer))),
            (
                "compression strength",
                "mean of compression tests (ISO 604)",
                self.short(|test| if let Measured::Compression(s) = test.measured { Some(s) } else { None }),
            ),
            (
                "shear strength between layers",
                "mean of shear tests",
                self.short(|test| if let Measured::Shear(s) = test.measured { Some(s) } else { None }),
            ),
        ];
        for (_, _, values) in &all {
            if values.len() > 1 {
                let logs: Vec<f64> = values.iter().map(|v| log10(*v)).collect();
                let mean = logs.iter().sum::<f64>() / logs.len() as f64;
                residuals.extend(logs.iter().map(|l| l - mean));
                groups += 1;
            }
        }
        // Pooled: prints of one machine scatter alike in every direction.
        let freedom = residuals.len() - groups;
        let scatter = if freedom > 0 {
            (residuals.iter().map(|r| r * r).sum::<f64>() / freedom as f64).sqrt()
        } else {
            self.card.strength.scatter_log10.value
        };
        let pooled = freedom.max(1);
        for (number, (name, how, values)) in all.iter().enumerate() {
            if values.is_empty() {
                continue;
            }
            let found = mean_of(values, scatter, pooled, how);
            self.put(
                name,
                "MPa",
                |card| match number {
                    0 => &mut card.strength.bead_mpa,
                    1 => &mut card.strength.across_mpa,
                    2 => &mut card.strength.layer_mpa,
                    3 => &mut card.strength.compression_mpa,
                    _ => &mut card.strength.layer_shear_mpa,
                },
                &Found { value: found.value * 1e-6, range: (found.range.0 * 1e-6, found.range.1 * 1e-6), ..found },
            );
        }
        if freedom >= 2 {
            let found = scatter_of(scatter, freedom, residuals.len(), "scatter within directions, pooled");
            self.put("scatter of strength (log10)", "1", |card| &mut card.strength.scatter_log10, &found);
        }
    }

    fn moduli(&mut self) {
        for direction in [TestDirection::Bead, TestDirection::Across, TestDirection::Layer] {
            let of = |test: &CouponTest, bending: bool| match test.measured {
                Measured::Tensile(_, modulus) if !bending && test.direction == direction => modulus,
                Measured::Bending(_, modulus) if bending && test.direction == direction => modulus,
                _ => None,
            };
            let mut values = self.short(|test| of(test, false));
            let mut how = "mean modulus of tensile tests (ISO 527)";
            if values.is_empty() {
                values = self.short(|test| of(test, true));
                how = "mean modulus of bending tests (ISO 178)";
            }
            if values.is_empty() {
                continue;
            }
            let logs: Vec<f64> = values.iter().map(|v| log10(*v)).collect();
            let mean = logs.iter().sum::<f64>() / logs.len() as f64;
            let squares = logs.iter().map(|l| (l - mean) * (l - mean)).sum::<f64>();
            // One test alone says nothing of scatter: 5 %, as of any coupon.
            let scatter = if values.len() > 1 { (squares / (values.len() - 1) as f64).sqrt() } else { log10(1.05) };
            let found = mean_of(&values, scatter, values.len().max(2) - 1, how);
            let found =
                Found { value: found.value * 1e-6, range: (found.range.0 * 1e-6, found.range.1 * 1e-6), ..found };
            let name = format!("stiffness {}", direction.words());
            self.put(
                &name,
                "MPa",
                |card| match direction {
                    TestDirection::Bead => &mut card.stiffness.bead_mpa,
                    TestDirection::Across => &mut card.stiffness.across_mpa,
                    TestDirection::Layer => &mut card.stiffness.layer_mpa,
                },
                &found,
            );
        }
    }

    /// Strength across layers over that along beads, from pairs of one kind of test; bending serves where no tensile test
    /// was made across layers, since the ratio carries over where the strength of the outer fibre does not.
    fn knockdown(&mut self) {
        let pairs: Vec<(&str, [Vec<f64>; 2])> = [("tensile", false), ("bending", true)]
            .into_iter()
            .map(|(word, bending)| {
                let of = |direction: TestDirection| {
                    let strengths = self.tests.iter().filter(|test| {
                        test.direction == direction
                            && !test.run_out
                            && (test.temperature - REFERENCE_TEMPERATURE).abs() <= ROOM
                    });
                    strengths
                        .filter_map(|test| match test.measured {
                            Measured::Tensile(strength, _) if !bending => Some(log(strength)),
                            Measured::Bending(strength, _) if bending => Some(log(strength)),
                            _ => None,
                        })
                        .collect::<Vec<f64>>()
                };
                (word, [of(TestDirection::Bead), of(TestDirection::Layer)])
            })
            .collect();
        let layer_known = self.card.strength.layer_mpa.source == Source::Coupon;
        let bead_known = self.card.strength.bead_mpa.source == Source::Coupon;
        for (word, [bead, layer]) in &pairs {
            let freedom = (bead.len() + layer.len()).saturating_sub(2);
            if bead.is_empty() || layer.is_empty() || freedom == 0 {
                continue;
            }
            let mean = |list: &[f64]| list.iter().sum::<f64>() / list.len() as f64;
            let (a, b) = (mean(bead), mean(layer));
            let squares: f64 = bead.iter().map(|x| (x - a) * (x - a)).sum::<f64>()
                + layer.iter().map(|x| (x - b) * (x - b)).sum::<f64>();
            let error = (squares / freedom as f64 * (1.0 / bead.len() as f64 + 1.0 / layer.len() as f64)).sqrt();
            let reach = error * student_quantile(f64::midpoint(1.0, CONFIDENCE), freedom).unwrap_or(f64::INFINITY);
            let found = Found {
                value: exp(b - a),
                spread: error,
                range: (exp(b - a - reach), exp(b - a + reach)),
                count: bead.len() + layer.len(),
                run_outs: 0,
                how: format!("ratio of {word} strengths across layers and along beads"),
            };
            let before = self.card.strength.layer_mpa.value / self.card.strength.bead_mpa.value;
            self.report(&format!("layer over bead, {word} tests"), "1", Some(before), &found);
            if *word == "bending" && !layer_known && bead_known {
                let strength = self.card.strength.bead_mpa.value;
                let scaled = Found {
                    value: found.value * strength,
                    range: (found.range.0 * strength, found.range.1 * strength),
                    how: "tensile strength along beads times the ratio of bending tests (ISO 178)".into(),
                    ..found
                };
                self.put("strength across layers", "MPa", |card| &mut card.strength.layer_mpa, &scaled);
                for (test, used) in self.tests.iter().zip(&mut self.used) {
                    *used |= matches!(test.measured, Measured::Bending(..));
                }
            }
        }
    }

    /// Stress-life lines: within the layer plane, and across layers.
    fn fatigue(&mut self) {
        let walker = self.card.fatigue.walker_exponent.value;
        for layer in [false, true] {
            let strength = |card: &Card, direction: TestDirection| match direction {
                TestDirection::Bead => card.strength.bead_mpa.value,
                TestDirection::Across => card.strength.across_mpa.value,
                TestDirection::Layer => card.strength.layer_mpa.value,
            };
            let mut points: Vec<(f64, f64, bool)> = Vec::new();
            for (test, used) in self.tests.iter().zip(&mut self.used) {
                let Measured::Fatigue(highest, ratio, cycles) = test.measured else { continue };
                if (test.direction == TestDirection::Layer) != layer
                    || (test.temperature - REFERENCE_TEMPERATURE).abs() > 10.0
                {
                    continue;
                }
                // Over the strength of its own direction, at zero mean by Walker's rule.
                let amplitude = highest * pow(0.5 * (1.0 - ratio), walker);
                points.push((amplitude * 1e-6 / strength(&self.card, test.direction), cycles, test.run_out));
                *used = true;
            }
            let rows: Vec<Vec<f64>> = points.iter().map(|(s, ..)| vec![1.0, log10(*s)]).collect();
            let lives: Vec<f64> = points.iter().map(|(_, n, _)| log10(*n)).collect();
            let outs: Vec<bool> = points.iter().map(|p| p.2).collect();
            let Some(fit) = Regression::new(&rows, &lives, &outs) else {
                if !points.is_empty() {
                    self.findings.push(format!(
                        "{} fatigue tests {} are too few, or all at one stress, for a line.",
                        points.len(),
                        if layer { "across layers" } else { "in the layer plane" }
                    ));
                }
                continue;
            };
            self.stress_life(layer, &points, &fit);
        }
    }

    fn stress_life(&mut self, layer: bool, points: &[(f64, f64, bool)], fit: &Regression) {
        let where_ = if layer { "across layers" } else { "in the layer plane" };
        let (a, b) = (fit.coefficients[0], fit.coefficients[1]);
        if b >= 0.0 {
            self.findings.push(format!("Fatigue lives {where_} do not fall with stress: no line was taken from them."));
            return;
        }
        let how = if fit.run_outs > 0 {
            format!("stress-life line {where_}, run-outs right-censored, by maximum likelihood")
        } else {
            format!("stress-life line {where_}, least squares (ASTM E739)")
        };
        let range = fit.range(1, CONFIDENCE);
        let found = |value: f64, spread: f64, range: (f64, f64)| Found {
            value,
            spread,
            range,
            count: points.len(),
            run_outs: fit.run_outs,
            how: how.clone(),
        };
        let inflated = fit.t(0.682_689_492_137);
        let exponent = found(-b, inflated * fit.standard_error(1) / -b, (-range.1, -range.0));
        // The amplitude at a million cycles: log10 S = (6 - a) / b.
        let log_ratio = (6.0 - a) / b;
        let row = [1.0, log_ratio];
        let variance = row
            .iter()
            .enumerate()
            .flat_map(|(r, x)| row.iter().enumerate().map(move |(c, y)| (r, c, x * y)))
            .map(|(r, c, product)| product * fit.covariance[(r, c)])
            .sum::<f64>();
        let error = variance.max(0.0).sqrt() / -b;
        let reach = fit.t(CONFIDENCE) * error;
        let of = |log: f64| pow(10.0, log);
        let spread = of(inflated * error) - 1.0;
        let ratio = found(of(log_ratio), spread, (of(log_ratio - reach), of(log_ratio + reach)));
        if layer {
            self.put("fatigue ratio across layers", "1", |card| &mut card.fatigue.layer_ratio_1e6, &ratio);
            self.put("fatigue exponent across layers", "1", |card| &mut card.fatigue.layer_exponent, &exponent);
        } else {
            self.put("fatigue ratio at a million cycles", "1", |card| &mut card.fatigue.ratio_1e6, &ratio);
            self.put("fatigue exponent", "1", |card| &mut card.fatigue.exponent, &exponent);
            // Every coupon is a print of its own: the scatter of its strength is in that of its life already.
            let strength = -b * self.card.strength.scatter_log10.value;
            let own = (fit.deviation * fit.deviation - strength * strength).max(0.0).sqrt().max(LEAST_LIFE_SCATTER);
            let of_all = fit.deviation_range(CONFIDENCE);
            let part = own / fit.deviation;
            let mut scatter = found(own, 1.0 / (2.0 * fit.freedom() as f64).sqrt(), (of_all.0 * part, of_all.1 * part));
            scatter.how = format!(
                "scatter about the line {where_}, {:.3}, less the exponent times the scatter of strength",
                fit.deviation
            );
            self.put("scatter of life (log10)", "1", |card| &mut card.fatigue.scatter_log10, &scatter);
        }
        self.line(layer, points, fit);
    }

    fn line(&mut self, layer: bool, points: &[(f64, f64, bool)], fit: &Regression) {
        const STEPS: usize = 40;
        let (a, b) = (fit.coefficients[0], fit.coefficients[1]);
        let logs = points.iter().map(|p| log10(p.0));
        let (low, high) = logs.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
        let ten = -normal_quantile(0.1).unwrap_or(-1.281_551_565_544_600_4);
        let at = |step: usize| {
            let stress = low + (high - low) * step as f64 / STEPS as f64;
            let (middle, reach) = (a + b * stress, fit.band(&[1.0, stress], CONFIDENCE));
            let of = |log: f64| pow(10.0, log);
            FitPointReport {
                stress: of(stress),
                life: of(middle),
                low: of(middle - reach),
                high: of(middle + reach),
                nine_in_ten: of(middle - ten * fit.deviation),
            }
        };
        let of = if layer { "across layers" } else { "in the layer plane" };
        self.lines.push(FitLineReport {
            name: format!("fatigue {of}"),
            stress_unit: "amplitude over strength, zero mean".into(),
            life_unit: "cycles".into(),
            intercept: a,
            slope: b,
            deviation: fit.deviation,
            line: (0..=STEPS).map(at).collect(),
            failed: points.iter().filter(|p| !p.2).map(|p| [p.0, p.1]).collect(),
            run_outs: points.iter().filter(|p| p.2).map(|p| [p.0, p.1]).collect(),
        });
    }

    /// Strength of a direction over that along the beads, Pa per Pa.
    fn softer(&self, direction: TestDirection) -> f64 {
        let strength = &self.card.strength;
        match direction {
            TestDirection::Bead => 1.0,
            TestDirection::Across => strength.across_mpa.value / strength.bead_mpa.value,
            TestDirection::Layer => strength.layer_mpa.value / strength.bead_mpa.value,
        }
    }

    /// Zhurkov's law: `ln t/t0 = U/(R T) - g S/(R T)`, a plane without a constant.
    fn rupture(&mut self) {
        let attempt = self.card.creep.attempt_time_s.value;
        let mut rows: Vec<Vec<f64>> = Vec::new();
        let (mut logs, mut outs, mut temperatures): (Vec<f64>, Vec<bool>, Vec<f64>) = Default::default();
        let mut points: Vec<(f64, f64, bool)> = Vec::new();
        let mut members = Vec::new();
        for (k, test) in self.tests.iter().enumerate() {
            let Measured::Rupture(stress, time) = test.measured else { continue };
            // As the stress along the beads that is as bad; heat takes strength away, by the card's curve.
            let kept = self.card.share_at(test.temperature).0 / self.card.share_at(REFERENCE_TEMPERATURE).0;
            let stress = stress / self.softer(test.direction);
            let thermal = GAS_CONSTANT_J_MOL_K * test.temperature;
            rows.push(vec![1.0 / thermal, -stress / kept / thermal]);
            logs.push(log(time / attempt));
            outs.push(test.run_out);
            temperatures.push(test.temperature);
            points.push((stress * 1e-6, time, test.run_out));
            members.push(k);
        }
        if rows.is_empty() {
            return;
        }
        let Some(fit) = Regression::new(&rows, &logs, &outs).filter(|fit| fit.coefficients.iter().all(|c| *c > 0.0))
        else {
            self.findings.push(
                "Creep-rupture tests are too few, all at one stress, or last longer under more stress: Zhurkov's law was \
                 not fitted."
                    .into(),
            );
            return;
        };
        for k in members {
            self.used[k] = true;
        }
        let (energy, volume) = (fit.coefficients[0], fit.coefficients[1]);
        let range = fit.range(0, CONFIDENCE);
        let how = if fit.run_outs > 0 {
            "Zhurkov's law, run-outs right-censored, by maximum likelihood, attempt time as it was"
        } else {
            "Zhurkov's law by least squares, attempt time as it was"
        };
        let inflated = fit.t(0.682_689_492_137);
        let found = |value: f64, spread: f64, range: (f64, f64)| Found {
            value,
            spread,
            range,
            count: logs.len(),
            run_outs: fit.run_outs,
            how: how.into(),
        };
        let of_energy =
            found(energy * 1e-3, inflated * fit.standard_error(0) / energy, (range.0 * 1e-3, range.1 * 1e-3));
        self.put("activation energy of rupture", "kJ/mol", |card| &mut card.creep.activation_energy_kj_mol, &of_energy);
        let reach = fit.range(1, CONFIDENCE);
        let of_volume = found(volume * 1e6, inflated * fit.standard_error(1) / volume, (reach.0 * 1e6, reach.1 * 1e6));
        self.report("activation volume of rupture", "cm³/mol", None, &of_volume);
        // The card's law goes through strength and time of a short test: the time at which this law meets the strength.
        let strength = self.card.strength.bead_mpa.value * 1e6;
        let thermal = GAS_CONSTANT_J_MOL_K * REFERENCE_TEMPERATURE;
        let row = [1.0 / thermal, -strength / thermal];
        let ln_time = fit.at(&row) + log(attempt);
        let reach = fit.t(CONFIDENCE) * row_error(&fit, &row);
        let time = found(
            exp(ln_time),
            (exp(inflated * row_error(&fit, &row)) - 1.0).min(5.0),
            (exp(ln_time - reach), exp(ln_time + reach)),
        );
        self.put("time of a short-term test", "s", |card| &mut card.creep.short_test_s, &time);
        let mut distinct = temperatures.clone();
        distinct.sort_by(f64::total_cmp);
        distinct.dedup_by(|a, b| (*a - *b).abs() < ROOM);
        if distinct.len() < 2 {
            self.findings.push(
                "Creep rupture was tested at one temperature: how it quickens with heat rests on the attempt time alone."
                    .into(),
            );
        }
        self.rupture_line(&points, &fit, attempt);
    }

    fn rupture_line(&mut self, points: &[(f64, f64, bool)], fit: &Regression, attempt: f64) {
        const STEPS: usize = 40;
        let (low, high) = points.iter().fold((f64::INFINITY, 0.0), |(l, h), p| (f64::min(l, p.0), f64::max(h, p.0)));
        let thermal = GAS_CONSTANT_J_MOL_K * REFERENCE_TEMPERATURE;
        let at = |step: usize| {
            let stress = low + (high - low) * step as f64 / STEPS as f64;
            let row = [1.0 / thermal, -stress * 1e6 / thermal];
            let (middle, reach) = (fit.at(&row) + log(attempt), fit.band(&row, CONFIDENCE));
            FitPointReport {
                stress,
                life: exp(middle),
                low: exp(middle - reach),
                high: exp(middle + reach),
                nine_in_ten: exp(middle + normal_quantile(0.1).unwrap_or(0.0) * fit.deviation),
            }
        };
        self.lines.push(FitLineReport {
            name: "creep rupture, line at 23 °C".into(),
            stress_unit: "stress along beads that is as bad, MPa".into(),
            life_unit: "s".into(),
            intercept: fit.coefficients[0],
            slope: -fit.coefficients[1],
            deviation: fit.deviation,
            line: (0..=STEPS).map(at).collect(),
            failed: points.iter().filter(|p| !p.2).map(|p| [p.0, p.1]).collect(),
            run_outs: points.iter().filter(|p| p.2).map(|p| [p.0, p.1]).collect(),
        });
    }

    /// Findley's law in logarithms: a straight line in `ln t` and `1/T` for each stress scale, which is looked for.
    fn creep(&mut self) {
        let mut tests: Vec<Strain> = Vec::new();
        let mut members = Vec::new();
        for (k, test) in self.tests.iter().enumerate() {
            let Measured::Creep(stress, time, strain) = test.measured else { continue };
            let softness = match test.direction {
                TestDirection::Bead => 1.0,
                TestDirection::Across => self.card.stiffness.bead_mpa.value / self.card.stiffness.across_mpa.value,
                TestDirection::Layer => self.card.stiffness.bead_mpa.value / self.card.stiffness.layer_mpa.value,
            };
            tests.push((stress, time, strain / softness, test.temperature));
            members.push(k);
        }
        if tests.is_empty() {
            return;
        }
        let spans = |of: fn(&Strain) -> f64, least: f64| {
            let (low, high) =
                tests.iter().map(of).fold((f64::INFINITY, 0.0), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
            high > low * least
        };
        let (stresses, temperatures) = (spans(|t| t.0, 1.2), spans(|t| t.3, 1.01));
        let held_energy = self.card.creep.shift_energy_kj_mol.value * 1e3;
        let shift = |kelvin: f64| (1.0 / REFERENCE_TEMPERATURE - 1.0 / kelvin) / GAS_CONSTANT_J_MOL_K;
        let fit_at = |scale: f64| -> Option<Regression> {
            let mut rows = Vec::new();
            let mut y = Vec::new();
            for &(stress, time, strain, kelvin) in &tests {
                let clock = log(time / 3600.0);
                y.push(log(strain) - log(sinh(stress / scale)));
                rows.push(if temperatures {
                    vec![1.0, clock, shift(kelvin)]
                } else {
                    vec![1.0, clock + held_energy * shift(kelvin)]
                });
            }
            Regression::new(&rows, &y, &vec![false; y.len()])
        };
        let held = self.card.creep.stress_scale_mpa.value * 1e6;
        let scale = if stresses { best_scale(held, |scale| fit_at(scale).map(|fit| fit.deviation)) } else { held };
        let Some(fit) = fit_at(scale).filter(|fit| fit.coefficients[1] > 0.0 && fit.coefficients[1] <= 1.0) else {
            self.findings
                .push("Creep strains are too few, or do not grow with time: Findley's law was not fitted.".into());
            return;
        };
        for k in members {
            self.used[k] = true;
        }
        let inflated = fit.t(0.682_689_492_137);
        let how = "Findley's law, least squares of ln strain";
        let found = |value: f64, spread: f64, range: (f64, f64)| Found {
            value,
            spread,
            range,
            count: tests.len(),
            run_outs: 0,
            how: how.into(),
        };
        let (low, high) = fit.range(0, CONFIDENCE);
        let strain = found(exp(fit.coefficients[0]), inflated * fit.standard_error(0), (exp(low), exp(high)));
        self.put("strain scale of creep", "1", |card| &mut card.creep.strain_scale, &strain);
        let n = fit.coefficients[1];
        let time = found(n, inflated * fit.standard_error(1) / n, fit.range(1, CONFIDENCE));
        self.put("time exponent of creep", "1", |card| &mut card.creep.time_exponent, &time);
        if stresses {
            let reach = scale_range(scale, &fit, |scale| fit_at(scale).map(|fit| fit.deviation));
            let spread = (log(reach.1 / reach.0) / 2.0 / fit.t(CONFIDENCE) * inflated).max(1e-6);
            let stress = found(scale * 1e-6, spread.min(5.0), (reach.0 * 1e-6, reach.1 * 1e-6));
            self.put("stress scale of creep", "MPa", |card| &mut card.creep.stress_scale_mpa, &stress);
        } else {
            self.findings.push("Creep was tested at one stress: its stress scale stays as it was.".into());
        }
        if temperatures && fit.coefficients[2] > 0.0 {
            // The third coefficient is n times the energy.
            let energy = fit.coefficients[2] / n;
            let relative = fit.standard_error(2) / fit.coefficients[2];
            let reach = fit.t(CONFIDENCE) * relative * energy;
            let value = found(energy * 1e-3, inflated * relative, ((energy - reach) * 1e-3, (energy + reach) * 1e-3));
            self.put("shift energy of creep", "kJ/mol", |card| &mut card.creep.shift_energy_kj_mol, &value);
        } else {
            self.findings.push("Creep was tested at one temperature: its shift with heat stays as it was.".into());
        }
        self.findings.push(
            "Strains read from one test piece share its own stiffness: the ranges of creep values are too narrow where few \
             pieces were read often."
                .into(),
        );
    }
}

/// Stress along the beads (Pa), time (s), creep strain and temperature (K).
type Strain = (f64, f64, f64, f64);

fn row_error(fit: &Regression, row: &[f64]) -> f64 {
    let mut sum = 0.0;
    for (r, x) in row.iter().enumerate() {
        for (c, y) in row.iter().enumerate() {
            sum += x * y * fit.covariance[(r, c)];
        }
    }
    sum.max(0.0).sqrt()
}

/// Factors on the known stress scale within which another is looked for.
const SCALES: (f64, f64) = (0.1, 10.0);

/// The stress scale of the least deviation: the range is walked, then narrowed by golden section.
fn best_scale(known: f64, deviation: impl Fn(f64) -> Option<f64>) -> f64 {
    const WALK: usize = 60;
    let at = |ln_factor: f64| deviation(known * exp(ln_factor)).unwrap_or(f64::INFINITY);
    let (low, high) = (log(SCALES.0), log(SCALES.1));
    let step = (high - low) / WALK as f64;
    let best = (0..=WALK).map(|k| low + k as f64 * step).min_by(|a, b| at(*a).total_cmp(&at(*b))).unwrap_or(0.0);
    let golden = 0.5 * (5.0_f64.sqrt() - 1.0);
    let (mut a, mut b) = (best - step, best + step);
    for _ in 0..60 {
        let (c, d) = (b - golden * (b - a), a + golden * (b - a));
        if at(c) < at(d) {
            b = d;
        } else {
            a = c;
        }
    }
    known * exp(f64::midpoint(a, b))
}

/// Where the deviation has grown as much as Student's t allows for one more value: the profile of the likelihood.
fn scale_range(best: f64, fit: &Regression, deviation: impl Fn(f64) -> Option<f64>) -> (f64, f64) {
    let freedom = fit.freedom().saturating_sub(1).max(1) as f64;
    let t = fit.t(CONFIDENCE);
    let limit = fit.deviation * (1.0 + t * t / freedom).sqrt();
    let beyond = |ln_factor: f64| deviation(best * exp(ln_factor)).is_none_or(|d| d > limit);
    let end = |sign: f64| {
        let (mut inside, mut outside) = (0.0, log(SCALES.1));
        for _ in 0..60 {
            let middle = f64::midpoint(inside, outside);
            if beyond(sign * middle) {
                outside = middle;
            } else {
                inside = middle;
            }
        }
        best * exp(sign * inside)
    };
    (end(-1.0), end(1.0))
}

/// Mean of values that scatter by a known deviation of log10.
fn mean_of(values: &[f64], scatter: f64, freedom: usize, how: &str) -> Found {
    let mean = values.iter().sum::<f64>() / values.len() as f64;
    let error = scatter * core::f64::consts::LN_10 / (values.len() as f64).sqrt();
    let reach = student_quantile(f64::midpoint(1.0, CONFIDENCE), freedom).unwrap_or(f64::INFINITY);
    let one = student_quantile(0.841_344_746_069, freedom).unwrap_or(1.0);
    Found {
        value: mean,
        spread: one * error,
        range: (mean * exp(-reach * error), mean * exp(reach * error)),
        count: values.len(),
        run_outs: 0,
        how: how.into(),
    }
}

fn scatter_of(scatter: f64, freedom: usize, count: usize, how: &str) -> Found {
    let of = |probability: f64| {
        let quantile = super::student::chi_squared_quantile(probability, freedom).unwrap_or(freedom as f64);
        scatter * (freedom as f64 / quantile).sqrt()
    };
    Found {
        value: scatter,
        spread: 1.0 / (2.0 * freedom as f64).sqrt(),
        range: (of(f64::midpoint(1.0, CONFIDENCE)), of((1.0 - CONFIDENCE) / 2.0)),
        count,
        run_outs: 0,
        how: how.into(),
    }
}
