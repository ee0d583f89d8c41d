//! A crank that cannot turn is refused, with the reason and the remedy.

use layload_core::engine::{CrankError, SliderCrank};

#[test]
fn lengths_must_be_positive_numbers() {
    for bad in [0.0, -0.02, f64::NAN, f64::INFINITY] {
        assert!(matches!(
            SliderCrank::new(bad, 0.09, 0.0),
            Err(CrankError::NotPositive { quantity: "crank throw", .. })
        ));
        assert!(matches!(
            SliderCrank::new(0.02, bad, 0.0),
            Err(CrankError::NotPositive { quantity: "rod length", .. })
        ));
    }
    assert_eq!(SliderCrank::new(0.02, 0.09, f64::NAN), Err(CrankError::OffsetNotFinite));
    assert_eq!(SliderCrank::new(0.02, 0.09, f64::INFINITY), Err(CrankError::OffsetNotFinite));
}

#[test]
fn rod_must_pass_the_crank() {
    assert!(matches!(SliderCrank::new(0.02, 0.02, 0.0), Err(CrankError::CannotTurn { .. })));
    assert!(matches!(SliderCrank::new(0.02, 0.09, 0.07), Err(CrankError::CannotTurn { .. })));
    assert!(matches!(SliderCrank::new(0.02, 0.09, -0.0701), Err(CrankError::CannotTurn { .. })));
    assert!(SliderCrank::new(0.02, 0.09, -0.0699).is_ok());
}

#[test]
fn message_gives_millimetres_and_a_remedy() {
    let error = CrankError::CannotTurn { throw_m: 0.02, rod_length_m: 0.015, pin_offset_m: -0.001 };
    let text = error.to_string();
    assert!(text.contains("20.000 mm") && text.contains("15.000 mm") && text.contains("1.000 mm"), "{text}");
    assert!(error.help().contains("stroke"));
}
