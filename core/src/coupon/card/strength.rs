use libm::{exp, log, log10};

use crate::coupon::student::student_quantile;
use crate::coupon::test::{CouponTest, Measured, TestDirection};
use crate::material::{REFERENCE_TEMPERATURE, Source};

use super::estimate::{mean_of, scatter_of};
use super::{CONFIDENCE, LawFit, LawFound, ROOM};

impl LawFit<'_> {
    /// Short-term tests by what they tell: its name, how it is told, and the strengths, Pa.
    fn short_tests(&mut self) -> [(&'static str, &'static str, Vec<f64>); 5] {
        use TestDirection::{Across, Bead, Layer};
        let tensile = |direction: TestDirection| {
            move |test: &CouponTest| match test.measured {
                Measured::Tensile(strength, _) if test.direction == direction => Some(strength),
                _ => None,
            }
        };
        [
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
        ]
    }

    pub(super) fn strengths(&mut self) {
        let all = self.short_tests();
        let mut residuals: Vec<f64> = Vec::new();
        let mut groups = 0;
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
                &LawFound { value: found.value * 1e-6, range: (found.range.0 * 1e-6, found.range.1 * 1e-6), ..found },
            );
        }
        if freedom >= 2 {
            let found = scatter_of(scatter, freedom, residuals.len(), "scatter within directions, pooled");
            self.put("scatter of strength (log10)", "1", |card| &mut card.strength.scatter_log10, &found);
        }
    }

    pub(super) fn moduli(&mut self) {
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
                LawFound { value: found.value * 1e-6, range: (found.range.0 * 1e-6, found.range.1 * 1e-6), ..found };
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
    pub(super) fn knockdown(&mut self) {
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
            let found = LawFound {
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
                let scaled = LawFound {
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
}
