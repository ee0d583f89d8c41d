//! Breaks as they are told at a bench, and what an engineer answers: common practice, no source.

use layload_core::Mode;

use super::{Case, seen};

const MINUTE: f64 = 60.0;
const HOUR: f64 = 3600.0;

/// Part, looks, place, speed (rpm), running time (s), and what it was; none where no failure mode has it.
type Told = (&'static str, &'static str, &'static str, f64, f64, Option<Mode>);

const TOLD: [Told; 24] = [
    ("upright", "flat face, torn in one go", "shank", 6000.0, 10.0, Some(Mode::OverloadAcrossLayers)),
    ("upright", "layers came apart, beach marks", "small end", 4000.0, 40.0 * MINUTE, Some(Mode::FatigueAcrossLayers)),
    ("upright", "delaminated, old crack", "shank", 4500.0, 20.0 * MINUTE, Some(Mode::FatigueAcrossLayers)),
    ("rod", "jagged, fibres pulled out", "shank", 11000.0, 5.0, Some(Mode::OverloadInLayerPlane)),
    (
        "rod",
        "across the beads, smooth patch and rough rest, crack beside the pin",
        "big end",
        6000.0,
        3.0 * HOUR,
        Some(Mode::FatigueInLayerPlane),
    ),
    ("rod", "torn across, crack grew in steps", "little end", 6500.0, 0.0, Some(Mode::FatigueInLayerPlane)),
    ("rod", "white, stretched, torn across", "big-end eye", 3000.0, 4.0 * HOUR, Some(Mode::CreepRuptureInLayerPlane)),
    ("rod", "banana", "shank", 3000.0, 0.0, Some(Mode::Buckling)),
    ("rod", "buckled, kinked, went soft", "beam", 3000.0, 5.0 * MINUTE, Some(Mode::Buckling)),
    ("rod", "kinked, bulged out", "shank", 3000.0, 20.0, Some(Mode::Crushing)),
    ("rod", "egg shaped, squashed", "big end", 5000.0, 10.0 * MINUTE, Some(Mode::BearingPressure)),
    ("rod", "hole pulled long", "little end", 7000.0, MINUTE, Some(Mode::BearingPressure)),
    ("bushed", "split when pressed", "big end", 0.0, 0.0, Some(Mode::SplitByRing)),
    ("bushed", "bush walked, shiny bore", "small end", 5000.0, HOUR, Some(Mode::LooseRing)),
    ("split", "studs slack, cap open", "cap", 0.0, 2.0 * HOUR, Some(Mode::OpenJoint)),
    ("rod", "molten, bulged out, went soft", "shank", 9000.0, 12.0 * MINUTE, Some(Mode::SelfHeating)),
    ("rod", "hit the head, rod longer", "", 5000.0, HOUR, Some(Mode::HeadContact)),
    ("dry", "scorched, molten, shiny bore", "big end", 5000.0, 10.0 * MINUTE, Some(Mode::JournalHeat)),
    ("dry", "black dust, egg shaped, polished", "big end", 3000.0, 8.0 * HOUR, Some(Mode::JournalWear)),
    ("piston", "crown caved in, went soft", "crown", 3000.0, 0.0, Some(Mode::Softening)),
    ("piston", "hole in the crown, molten", "crown", 0.0, 0.0, Some(Mode::Softening)),
    ("piston", "seized, scuffed", "skirt", 3000.0, 2.0 * MINUTE, Some(Mode::Seizure)),
    ("rod", "started at a void, screw marks", "shank", 3000.0, 30.0 * MINUTE, None),
    ("rod", "screw marks", "", 4000.0, 20.0 * MINUTE, None),
];

fn case(name: &str) -> Case {
    match name {
        "upright" => Case::upright(),
        "bushed" => Case::new("bushed_rod", "bench_bushed"),
        "split" => Case::new("split_rod", "bench_split"),
        "piston" => Case::new("flat_crown_piston", "bench_piston"),
        "dry" => {
            let mut case = Case::new("plain_rod", "bench_single");
            case.job.part.big_end.runs = Some(layload_core::job::Runs::Dry);
            case
        }
        _ => Case::new("plain_rod", "bench_single"),
    }
}

#[test]
fn an_engineer_answers_the_same() {
    let mut wrong = Vec::new();
    for (name, looks, at, rpm, seconds, mode) in TOLD {
        let told = case(name).told(&seen(looks, at, rpm, seconds)).unwrap();
        let first = &told.causes[0];
        if first.mode != mode {
            let list: Vec<_> =
                told.causes.iter().take(4).map(|c| (c.mode, c.probability, c.before, c.margin)).collect();
            wrong.push(format!("{name}, {looks}, {at}, {rpm} rpm, {seconds} s: {mode:?} and not {list:?}"));
        }
        let modes: std::collections::BTreeSet<_> = told.causes.iter().map(|cause| cause.mode).collect();
        assert_eq!(modes.len(), told.causes.len(), "{name}: a mode twice");
        assert_eq!(told.fits, first.mode.is_some());
        let sum: f64 = told.causes.iter().map(|cause| cause.probability).sum();
        assert!((sum - 1.0).abs() < 1e-12 && !told.changes.is_empty() && !told.cautions.is_empty(), "{sum}");
    }
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), TOLD.len(), wrong.join("\n"));
}

/// A break that the inputs cannot have: the answer keeps the mode that is seen, and says what to look for.
#[test]
fn a_break_far_too_early_puts_the_bond_in_doubt() {
    let told = Case::upright().told(&seen("flat face, rough all over", "small end", 3500.0, 40.0)).unwrap();
    let first = &told.causes[0];
    assert_eq!(first.mode, Some(Mode::OverloadAcrossLayers), "{:?}", told.causes);
    assert!(first.margin.unwrap() > 1.8, "{:?}", first.margin);
    let said = told.contradictions.join(" ");
    for word in ["bond between layers below", "notch", "bore out of size", "40.0 s", "the margin is"] {
        assert!(said.contains(word), "{word}: {said}");
    }
}

/// The place on the other end of the rod than the model's is told.
#[test]
fn another_place_than_the_model_s_is_told() {
    let case = Case::new("plain_rod", "bench_single");
    let mut said = 0;
    for at in ["small end", "big end"] {
        let told = case.told(&seen("torn across, beach marks", at, 6000.0, HOUR)).unwrap();
        said += usize::from(told.contradictions.iter().any(|said| said.contains(&format!("It broke at the {at}"))));
    }
    assert_eq!(said, 1);
}

/// A part measured much warmer than the model has it.
#[test]
fn a_measured_temperature_is_taken_and_compared() {
    let case = Case::new("plain_rod", "bench_single");
    let mut seen = seen("molten", "shank", 5000.0, 10.0 * MINUTE);
    let cold = case.told(&seen).unwrap();
    seen.measured_c = Some(cold.run.model_c + 60.0);
    let hot = case.told(&seen).unwrap();
    assert!(hot.contradictions.iter().any(|said| said.contains("by the model at")), "{:?}", hot.contradictions);
    assert_eq!(hot.run.model_c, cold.run.model_c);
    let margin = |told: &layload_core::report::DiagnosisReport| {
        told.causes.iter().find(|cause| cause.mode == Some(Mode::FatigueInLayerPlane)).and_then(|cause| cause.margin)
    };
    assert!(margin(&hot) < margin(&cold));
}

/// A rod printed flat has no layers across its pull: where they part all the same, the job is in doubt.
#[test]
fn a_mode_that_the_model_does_not_have_is_told() {
    let case = Case::new("plain_rod", "bench_single");
    let told = case.told(&seen("flat face, peeled", "shank", 5000.0, 20.0 * MINUTE)).unwrap();
    let says = told.contradictions.iter().any(|said| said.contains("layers part, which the model does not have"));
    assert!(says, "{:?}", told.contradictions);
    let usual = case.told(&seen("torn across, beach marks", "big end", 5000.0, 20.0 * MINUTE)).unwrap();
    assert!(!usual.contradictions.iter().any(|said| said.contains("does not have")), "{:?}", usual.contradictions);
}

/// A part that is light has gaps; one that is long has grown, which is a look of its own.
#[test]
fn weight_and_length_are_held_against_the_model() {
    let case = Case::new("plain_rod", "bench_single");
    let question = layload_core::Question { job: &case.job, card_text: None, pressure_text: None };
    let report = layload_core::quick_look(&case.part, &question, &mut ()).unwrap();
    let (mass, length) = (report.mesh.mass_g, report.part.center_distance_mm.unwrap());
    let told = |mass_g: f64, length_mm: f64| {
        let seen = layload_core::SeenBreak {
            mass_g: Some(mass_g),
            center_distance_mm: Some(length_mm),
            ..seen("torn across", "shank", 5000.0, HOUR)
        };
        case.told(&seen).unwrap()
    };
    let (usual, light, long) = (told(mass, length), told(0.92 * mass, length), told(mass, 1.005 * length));
    let says = |told: &layload_core::report::DiagnosisReport, words: &str| {
        told.contradictions.iter().any(|said| said.contains(words))
    };
    assert!(!says(&usual, "weighs") && !says(&usual, "apart"));
    assert!(says(&light, "8 % less") && says(&light, "gaps between beads"));
    assert!(says(&long, "0.5 % farther apart") && long.looks.iter().any(|look| look.look == "longer"));
    let creep = |told: &layload_core::report::DiagnosisReport| {
        told.causes.iter().find(|cause| cause.mode == Some(Mode::CreepRuptureInLayerPlane)).unwrap().probability
    };
    assert!(creep(&long) > creep(&usual));
}

/// What is asked next tells the two likeliest causes apart: where it is there the one, else the other comes first by more.
#[test]
fn the_next_look_parts_the_two_likeliest() {
    let case = Case::upright();
    let before = seen("flat face", "shank", 6000.0, 5.0 * MINUTE);
    let told = case.told(&before).unwrap();
    let next = told.next_look.unwrap();
    assert!(next.bits > 0.01 && next.if_there != next.if_not, "{next:?}");
    let mut after = before.clone();
    after.looks.push(layload_core::diagnosis::Look::named(&next.look).unwrap());
    let then = case.told(&after).unwrap();
    let share = |told: &layload_core::report::DiagnosisReport, words: &str| {
        told.causes.iter().find(|cause| cause.words == words).unwrap().probability
    };
    let ratio = |told: &layload_core::report::DiagnosisReport| share(told, &next.if_there) / share(told, &next.if_not);
    let first = case.told(&before).unwrap();
    assert!(ratio(&then) > ratio(&first), "{} {}", ratio(&then), ratio(&first));
}
