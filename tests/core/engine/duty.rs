//! The list of running steps.

use approx::assert_relative_eq;
use layload_core::engine::{Duty, DutyError, DutyStep};

use super::Tested;

fn step(rpm: f64, throttle: f64, seconds: f64) -> DutyStep {
    DutyStep { rpm, throttle, seconds }
}

#[test]
fn sums() -> Tested {
    let duty = Duty::new(vec![step(3000.0, 0.2, 60.0), step(9000.0, 1.0, 20.0)])?;
    assert_relative_eq!(duty.total_s(), 80.0);
    assert_relative_eq!(duty.revolutions(), 3000.0 + 3000.0);
    assert_relative_eq!(duty.highest_rpm(), 9000.0);
    assert_relative_eq!(duty.steps()[0].angular_speed_rad_s(), 314.159_265_358_979_3, max_relative = 1e-15);
    Ok(())
}

#[test]
fn speed_factor_changes_speed_only() -> Tested {
    let duty = Duty::new(vec![step(3000.0, 0.2, 60.0), step(9000.0, 1.0, 20.0)])?;
    let faster = duty.at_speed_factor(1.5)?;
    assert_eq!(faster.steps(), [step(4500.0, 0.2, 60.0), step(13_500.0, 1.0, 20.0)]);
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e9] {
        assert!(matches!(duty.at_speed_factor(bad), Err(DutyError::Speed { number: 1, .. })));
    }
    Ok(())
}

#[test]
fn each_step_is_checked_and_named() {
    let good = step(3000.0, 0.5, 10.0);
    assert_eq!(Duty::new(Vec::new()), Err(DutyError::Empty));
    for rpm in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let got = Duty::new(vec![good, DutyStep { rpm, ..good }]);
        assert!(matches!(got, Err(DutyError::Speed { number: 2, .. })), "{got:?}");
    }
    for throttle in [-0.1, 1.1, f64::NAN] {
        let got = Duty::new(vec![good, DutyStep { throttle, ..good }]);
        assert!(matches!(got, Err(DutyError::Throttle { number: 2, .. })), "{got:?}");
    }
    for seconds in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let got = Duty::new(vec![good, DutyStep { seconds, ..good }]);
        assert!(matches!(got, Err(DutyError::Time { number: 2, .. })), "{got:?}");
        assert!(got.is_err_and(|error| error.help().contains("in seconds")));
    }
    assert!(matches!(Duty::new(vec![good; 100_001]), Err(DutyError::TooMany { count: 100_001, .. })));
}

#[test]
fn reading_checks_too() -> Tested {
    let duty: Duty = serde_json::from_str(r#"[{"rpm":3000,"throttle":0.5,"seconds":10}]"#)?;
    assert_eq!(duty, Duty::new(vec![step(3000.0, 0.5, 10.0)])?);
    assert_eq!(serde_json::from_str::<Duty>(&serde_json::to_string(&duty)?)?, duty);
    let error = serde_json::from_str::<Duty>(r#"[{"rpm":3000,"throttle":2,"seconds":10}]"#);
    assert!(error.is_err_and(|e| e.to_string().contains("throttle must lie within 0 and 1")));
    assert!(serde_json::from_str::<Duty>(r#"[{"rpm":3000,"throttle":1,"seconds":10,"gear":3}]"#).is_err());
    assert!(serde_json::from_str::<Duty>("[]").is_err());
    Ok(())
}

#[test]
fn steps_alike_are_gathered_into_the_first() {
    let step = |rpm: f64, throttle: f64, seconds: f64| DutyStep { rpm, throttle, seconds };
    let written =
        vec![step(3e3, 0.4, 2.0), step(5e3, 1.0, 1.0), step(3e3, 0.4, 3.0), step(3e3, 0.5, 4.0), step(5e3, 1.0, 7.0)];
    let gathered = Duty::new(written.clone()).unwrap().gathered().0;
    assert_eq!(gathered.steps(), [step(3e3, 0.4, 5.0), step(5e3, 1.0, 8.0), step(3e3, 0.5, 4.0)]);
    // What is alike already stays as it is.
    assert_eq!(gathered.gathered(), (gathered, None));
    // No step grows beyond what one may last: the result is a duty that can be read again.
    let long = Duty::new(vec![step(3e3, 1.0, 9e8); 3]).unwrap().gathered().0;
    assert_eq!(long.steps().len(), 3);
    assert!(Duty::new(long.steps().to_vec()).is_ok());
}

#[test]
fn many_steps_nearly_alike_are_one_on_the_unfavourable_side() {
    let steps: Vec<DutyStep> = (0..900).map(|k| step(3e3 + f64::from(k), 0.5, 2.0)).collect();
    let duty = Duty::new(steps).unwrap();
    let (gathered, nearness) = duty.gathered();
    let nearness = nearness.unwrap();
    assert!(gathered.steps().len() <= 100, "{}", gathered.steps().len());
    assert_eq!(gathered.total_s(), duty.total_s());
    assert_eq!(gathered.highest_rpm(), duty.highest_rpm());
    // Each stands for speeds from so much below it, and for none above.
    let revolutions = gathered.revolutions() / duty.revolutions();
    assert!((1.0..=1.0 + nearness.speed_share).contains(&revolutions), "{revolutions}");
    // A hundred different ones stay as they are.
    let few = Duty::new(duty.steps()[..100].to_vec()).unwrap();
    assert_eq!(few.gathered(), (few.clone(), None));
}
