//! The list of states: what each rests on, and which of them is told where several would do.

use layload_core::State;
use layload_core::verdict::Basis;

fn state(margin: f64, field: bool, all_checked: bool, well_founded: bool) -> State {
    State::of(margin, Basis { field, all_checked, well_founded })
}

#[test]
fn the_graver_one_is_told() {
    for founded in [false, true] {
        for checked in [false, true] {
            for field in [false, true] {
                // Below 1 it fails whatever it rests on, and so it does where the margin is no number.
                assert_eq!(state(0.999_999, field, checked, founded), State::Fails);
                assert_eq!(state(f64::NAN, field, checked, founded), State::Fails);
            }
            assert_eq!(state(1.0, false, checked, founded), State::NoFaultFound);
        }
        assert_eq!(state(1.0, true, false, founded), State::HoldsUnchecked);
    }
    assert_eq!(state(1.0, true, true, false), State::HoldsUnproven);
    assert_eq!(state(1.0, true, true, true), State::Holds);
}

#[test]
fn words_and_keys_agree() -> Result<(), Box<dyn std::error::Error>> {
    for state in [State::Holds, State::HoldsUnproven, State::HoldsUnchecked, State::NoFaultFound, State::Fails] {
        assert_eq!(serde_json::to_string(&state)?, format!("\"{}\"", state.key()));
        assert!(state.told().starts_with(state.word()));
        // Only what holds is told with that word.
        assert_eq!(state.told().contains("HOLDS"), state.holds() == Some(true), "{state:?}");
    }
    Ok(())
}
