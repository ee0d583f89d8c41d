use layload_core::coupon::{CouponError, CouponRow, fit_card};
use layload_core::material::{Card, Source, library};

fn row(test: &str, direction: &str) -> CouponRow {
    CouponRow { test: Some(test.into()), direction: Some(direction.into()), ..CouponRow::default() }
}

fn base() -> Card {
    library::card("PA12-CF15").unwrap()
}

fn tensile(direction: &str, mpa: f64) -> CouponRow {
    CouponRow { strength_mpa: Some(mpa), ..row("tensile", direction) }
}

#[test]
fn means_scatter_and_what_was_not_tested() {
    let rows = [48.0, 50.0, 52.0].map(|mpa| tensile("bead", mpa));
    let found = fit_card(&rows, &base(), Some("mine"), Some("2026-05-04")).unwrap();
    let card = &found.card;
    assert_eq!(card.strength.bead_mpa.value, 50.0);
    assert_eq!(card.strength.bead_mpa.source, Source::Coupon);
    let note = card.strength.bead_mpa.note.as_ref().unwrap();
    assert!(note.contains("3 tests") && note.contains("2026-05-04"), "{note}");
    // Sample deviation of log10 of the three numbers, by hand: logs 1.681241, 1.698970, 1.716003.
    assert!((card.strength.scatter_log10.value - 0.017_383).abs() < 2e-6, "{}", card.strength.scatter_log10.value);
    assert_eq!(card.strength.layer_mpa, base().strength.layer_mpa);
    assert_eq!(card.name, "mine");
    assert_eq!(&Card::from_toml(&card.to_toml().unwrap()).unwrap(), card);
}

#[test]
fn bending_pairs_give_the_layers_where_no_tensile_test_was_made() {
    let bend = |direction: &str, mpa: f64| CouponRow { strength_mpa: Some(mpa), ..row("bending", direction) };
    let rows = vec![
        tensile("bead", 50.0),
        tensile("bead", 50.0),
        bend("bead", 80.0),
        bend("bead", 80.0),
        bend("layer", 24.0),
        bend("layer", 24.0),
    ];
    let found = fit_card(&rows, &base(), None, None).unwrap();
    // 24 / 80 of 50.
    assert!((found.card.strength.layer_mpa.value - 15.0).abs() < 1e-9);
    assert!(
        found.report.fitted.iter().any(|v| v.name == "layer over bead, bending tests" && (v.value - 0.3).abs() < 1e-12)
    );
}

/// Lives on an exact line come back as its exponent and its amplitude at a million cycles, whatever the load ratio.
#[test]
fn an_exact_fatigue_line_is_recovered() {
    let mut rows = [50.0, 50.0].map(|mpa| tensile("bead", mpa)).to_vec();
    let walker = base().fatigue.walker_exponent.value;
    for (k, amplitude) in [20.0_f64, 17.0, 15.0, 13.0, 12.0].into_iter().enumerate() {
        let ratio = if k % 2 == 0 { -1.0 } else { 0.1 };
        let cycles = 1e6 * libm::pow(0.25 * 50.0 / amplitude, 8.0);
        rows.push(CouponRow {
            stress_mpa: Some(amplitude / libm::pow(0.5 * (1.0 - ratio), walker)),
            stress_ratio: Some(ratio),
            cycles: Some(cycles),
            ..row("fatigue", "bead")
        });
    }
    let fatigue = fit_card(&rows, &base(), None, None).unwrap().card.fatigue;
    assert!((fatigue.exponent.value - 8.0).abs() < 1e-9, "{}", fatigue.exponent.value);
    assert!((fatigue.ratio_1e6.value - 0.25).abs() < 1e-10, "{}", fatigue.ratio_1e6.value);
    assert_eq!(fatigue.layer_exponent, base().fatigue.layer_exponent);
}

/// Times of Zhurkov's law come back as its energy, and the law of the card gives them again.
#[test]
fn an_exact_rupture_law_is_recovered() {
    let card = base();
    let (energy, strength) = (195e3, card.strength.bead_mpa.value * 1e6);
    let law = layload_core::life::KineticStrength::through(1e-13, energy, strength, 40.0, 296.15).unwrap();
    let rows: Vec<CouponRow> = [46.0, 43.0, 40.0, 37.0]
        .into_iter()
        .map(|mpa| CouponRow {
            stress_mpa: Some(mpa),
            time_s: Some(law.time_to_failure_s(mpa * 1e6, 296.15).unwrap()),
            ..row("creep-rupture", "bead")
        })
        .collect();
    let creep = fit_card(&rows, &card, None, None).unwrap().card.creep;
    assert!(
        (creep.activation_energy_kj_mol.value / 195.0 - 1.0).abs() < 1e-9,
        "{}",
        creep.activation_energy_kj_mol.value
    );
    assert!((creep.short_test_s.value / 40.0 - 1.0).abs() < 1e-6, "{}", creep.short_test_s.value);
}

/// Strains of Findley's law at two stresses and two temperatures come back as its four constants.
#[test]
fn an_exact_creep_law_is_recovered() {
    let law = layload_core::life::Findley::new(8e-4, 21e6, 0.2, 95e3, 296.15).unwrap();
    let mut rows = Vec::new();
    for (mpa, celsius) in [(6.0, 23.0), (14.0, 23.0), (28.0, 23.0), (14.0, 60.0)] {
        for seconds in [100.0, 1e3, 1e4, 1e5] {
            rows.push(CouponRow {
                stress_mpa: Some(mpa),
                temperature_c: Some(celsius),
                time_s: Some(seconds),
                creep_strain: Some(law.strain(mpa * 1e6, seconds, celsius + 273.15).unwrap()),
                ..row("creep", "bead")
            });
        }
    }
    let creep = fit_card(&rows, &base(), None, None).unwrap().card.creep;
    // The stress scale is found by golden section, to about the square root of the digits of a number.
    for (found, given) in [
        (creep.strain_scale.value, 8e-4),
        (creep.stress_scale_mpa.value, 21.0),
        (creep.time_exponent.value, 0.2),
        (creep.shift_energy_kj_mol.value, 95.0),
    ] {
        assert!((found / given - 1.0).abs() < 1e-5, "{found} {given}");
    }
}

#[test]
fn slips_are_named_with_their_row() {
    let refused = |row: CouponRow| fit_card(&[tensile("bead", 50.0), row], &base(), None, None).unwrap_err();
    assert_eq!(
        refused(row("tensile", "bead")),
        CouponError::Missing { row: 2, test: "tensile", column: "strength_mpa" }
    );
    assert!(matches!(refused(row("twisting", "bead")), CouponError::UnknownTest { row: 2, .. }));
    assert!(matches!(refused(tensile("sideways", 3.0)), CouponError::UnknownWord { row: 2, .. }));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(refused(tensile("bead", bad)), CouponError::Implausible { row: 2, .. }), "{bad}");
    }
    assert_eq!(fit_card(&[], &base(), None, None).unwrap_err(), CouponError::Empty);
}

#[test]
fn lives_that_grow_with_stress_change_nothing() {
    let mut rows = vec![tensile("bead", 50.0), tensile("bead", 51.0)];
    for (stress, cycles) in [(10.0, 1e4), (12.0, 1e5), (14.0, 1e6), (16.0, 1e7)] {
        rows.push(CouponRow { stress_mpa: Some(stress), cycles: Some(cycles), ..row("fatigue", "bead") });
    }
    let found = fit_card(&rows, &base(), None, None).unwrap();
    assert_eq!(found.card.fatigue.exponent, base().fatigue.exponent);
    assert!(found.report.findings.iter().any(|said| said.contains("do not fall with stress")));
}
