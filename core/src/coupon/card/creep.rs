use libm::log;

use super::through::{Law, Parameter, Through, through};
use super::{LawFit, LawFound};
use crate::coupon::predicted;
use crate::coupon::test::{CouponTest, Measured};

/// Logarithms of a creep strain and of the one that a check takes.
const STRAIN: Law = |card, test| {
    let Measured::Creep(.., strain) = test.measured else { return None };
    Some((log(strain), log(predicted::strain(card, test)?)))
};

const HOW: &str = "Findley's law, least squares of ln strain";

/// Which constants of Findley's law are looked for, beside its strain scale and time exponent.
#[derive(Clone, Copy)]
struct Asked {
    stress: bool,
    heat: bool,
}

impl LawFit<'_> {
    /// Findley's law: its constants, as far as stresses and temperatures differ.
    pub(super) fn creep(&mut self) {
        let strained = |test: &CouponTest| matches!(test.measured, Measured::Creep(..));
        let tests: Vec<CouponTest> = self.tests.iter().filter(|test| strained(test)).copied().collect();
        if tests.is_empty() {
            return;
        }
        let spans = |of: fn(&CouponTest) -> f64, least: f64| {
            let (low, high) =
                tests.iter().map(of).fold((f64::INFINITY, 0.0), |(l, h), x| (f64::min(l, x), f64::max(h, x)));
            high > low * least
        };
        let asked = Asked { stress: spans(stress_of, 1.2), heat: spans(|test| test.temperature, 1.01) };
        // Where strains grow in proportion to stress, no stress scale is in them.
        let fits = [asked, Asked { stress: false, ..asked }];
        let found = fits.into_iter().find_map(|asked| Some((asked, findley(&self.card, &tests, asked)?)));
        let Some((asked, found)) = found else {
            self.findings
                .push("Creep strains are too few, or do not grow with time: Findley's law was not fitted.".into());
            return;
        };
        for (test, used) in self.tests.iter().zip(&mut self.used) {
            *used |= strained(test);
        }
        self.creep_values(&tests, asked, &found);
        self.findings.push(
            "Strains read from one test piece share its own stiffness: the ranges of creep values are too narrow where few \
             pieces were read often."
                .into(),
        );
    }

    fn creep_values(&mut self, tests: &[CouponTest], asked: Asked, found: &Through) {
        let Through { card, fit } = found;
        let (creep, count) = (&card.creep, tests.len());
        let strain = LawFound::by_log(fit, 0, creep.strain_scale.value, count, HOW);
        self.put("strain scale of creep", "1", |card| &mut card.creep.strain_scale, &strain);
        let time = LawFound::plain(fit, 1, creep.time_exponent.value, count, HOW);
        self.put("time exponent of creep", "1", |card| &mut card.creep.time_exponent, &time);
        if asked.stress {
            let stress = LawFound::by_log(fit, 2, creep.stress_scale_mpa.value, count, HOW);
            self.put("stress scale of creep", "MPa", |card| &mut card.creep.stress_scale_mpa, &stress);
        } else {
            self.findings.push("Creep tests tell of no stress scale: it stays as it was.".into());
        }
        if asked.heat {
            let column = fit.coefficients.len() - 1;
            let energy = LawFound::plain(fit, column, creep.shift_energy_kj_mol.value, count, HOW);
            self.put("shift energy of creep", "kJ/mol", |card| &mut card.creep.shift_energy_kj_mol, &energy);
        } else {
            self.findings.push("Creep was tested at one temperature: its shift with heat stays as it was.".into());
        }
    }
}

fn stress_of(test: &CouponTest) -> f64 {
    match test.measured {
        Measured::Creep(stress, ..) => stress,
        _ => 0.0,
    }
}

fn findley(card: &crate::material::Card, tests: &[CouponTest], asked: Asked) -> Option<Through> {
    let mut values = vec![
        Parameter::log(|card| &mut card.creep.strain_scale.value),
        Parameter::plain(|card| &mut card.creep.time_exponent.value),
    ];
    if asked.stress {
        values.push(Parameter::log(|card| &mut card.creep.stress_scale_mpa.value));
    }
    if asked.heat {
        values.push(Parameter::plain(|card| &mut card.creep.shift_energy_kj_mol.value));
    }
    through(card, &values, tests, STRAIN).filter(|found| found.card.creep.shift_energy_kj_mol.value > 0.0)
}
