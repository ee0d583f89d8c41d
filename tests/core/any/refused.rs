//! What is refused, with its code and a sentence that helps.

use layload_core::job::Job;
use layload_core::{Error, Question, quick_look};

use super::given::{checked, job, part};
use crate::mesh::shapes::{Region, Solid};

fn refused(places: &str) -> Error {
    let ring = part(&Solid::prism(&Region::annulus(20e-3, 10e-3, 0.0, 48), -3e-3, 3e-3));
    checked(&ring, &job(places), 2000).map(|report| report.verdict.margin).unwrap_err()
}

const BORE: &str = "[[place]]\nname = \"bore\"\nbore = { diameter_mm = 20 }\n";
const TOP: &str = "[[place]]\nname = \"top\"\nface = { toward = [1, 0, 0] }\n";
const FREE: &str = "[[hold]]\nas = \"free\"\n";
const GLUED: &str = "[[hold]]\nat = \"top\"\nas = \"glued\"\n";
const GAS: &str = "[[load]]\nname = \"gas\"\nat = \"bore\"\npressure_bar = 5\n";

#[test]
#[expect(clippy::too_many_lines, reason = "a table of faults")]
fn each_fault_is_told_by_its_name() {
    let faults: [(&str, String, &[&str]); 20] = [
        (
            "place-not-found",
            format!("[[place]]\nname = \"lug\"\nbore = {{ diameter_mm = 7 }}\n{FREE}{GAS}")
                .replace("at = \"bore\"", "at = \"lug\""),
            &["`lug`", "7.00 mm wide", "20.00 mm wide at"],
        ),
        (
            "place-not-found",
            format!("[[place]]\nname = \"pad\"\nface = {{ near_mm = [0, 0, 90] }}\n{BORE}{FREE}{GAS}"),
            &["`pad`", "z 90.00", "flat faces near it", "facing"],
        ),
        (
            "place-not-found",
            format!("[[place]]\nname = \"side\"\nface = {{ toward = [1, 1, 1], within_deg = 5 }}\n{BORE}{FREE}{GAS}"),
            &["`side`", "faces 0.58"],
        ),
        (
            "place-unknown",
            format!("{BORE}{FREE}{GAS}").replace("at = \"bore\"", "at = \"boar\""),
            &["`gas`", "`boar`", "did you mean `bore`?"],
        ),
        (
            "place-several",
            format!("[[place]]\nname = \"edge\"\nface = {{ near_mm = [3, 20, 0] }}\n{BORE}{FREE}{GAS}"),
            &["`edge`", "facing 1, 0, 0"],
        ),
        ("place-twice", format!("{BORE}{BORE}{FREE}{GAS}"), &["places", "`bore`"]),
        ("place-twice", format!("{BORE}{FREE}{GAS}{GAS}"), &["loads", "`gas`"]),
        ("place-shape", format!("[[place]]\nname = \"bore\"\n{FREE}{GAS}"), &["neither a bore nor a face"]),
        ("place-no-load", format!("{BORE}{FREE}"), &["nothing loads the part"]),
        ("place-no-hold", format!("{BORE}{GAS}"), &["nothing holds the part"]),
        ("place-load", format!("{BORE}{FREE}[[load]]\nname = \"gas\"\nat = \"bore\"\n"), &["`gas` has no size"]),
        (
            "place-load",
            format!("{BORE}{FREE}[[load]]\nname = \"gas\"\nat = \"bore\"\npressure_bar = 5\nforce_n = [1, 0, 0]\n"),
            &["more than one size"],
        ),
        ("place-load", format!("{BORE}{FREE}[[load]]\nname = \"gas\"\npressure_bar = 5\n"), &["has no place"]),
        (
            "place-load",
            format!("{BORE}{FREE}[[load]]\nname = \"shake\"\nacceleration_m_s2 = [0, 1, 0]\n"),
            &["`shake`", "nothing holds"],
        ),
        (
            "place-left-free",
            format!("{BORE}{TOP}[[hold]]\nat = \"top\"\nas = \"flat\"\n{GAS}"),
            &["slide along", "turn about"],
        ),
        (
            "place-left-free",
            format!(
                "{BORE}[[hold]]\nat = \"bore\"\nas = \"pin\"\n[[load]]\nname = \"w\"\nspin = {{ about = \"bore\", rpm = 100 }}\n"
            ),
            &["turn about the axis of its pin"],
        ),
        ("place-together", format!("{BORE}{TOP}{GLUED}{FREE}{GAS}"), &["free in one hold"]),
        (
            "place-not-there",
            format!("{BORE}{FREE}[[load]]\nname = \"pull\"\nat = \"bore\"\nforce_n = [5, 0, 0]\n"),
            &["`pull`", "along the axis"],
        ),
        (
            "place-no-column",
            format!("{BORE}{FREE}{GAS}[history]\nangle_deg = [0, 180]\nloads.gass = [0, 1]\n"),
            &["no column for the load `gas`", "did you mean `gass`?"],
        ),
        (
            "place-history",
            format!("{BORE}{FREE}{GAS}[history]\nangle_deg = [0, 180]\nloads.gas = [0, 1, 0]\n"),
            &["3 rows"],
        ),
    ];
    for (code, places, said) in &faults {
        let error = refused(places);
        let told = format!("{error}; {:?}", error.help());
        assert_eq!(error.code(), *code, "{told}");
        for words in *said {
            assert!(told.contains(words), "{words} is not in: {told}");
        }
    }
}

#[test]
fn sections_alone_are_no_answer() {
    let ring = part(&Solid::prism(&Region::annulus(20e-3, 10e-3, 0.0, 48), -3e-3, 3e-3));
    let job = job(&format!("{BORE}{FREE}{GAS}"));
    let question = Question { job: &job, card_text: None, pressure_text: None };
    assert_eq!(quick_look(&ring, &question, &mut ()).unwrap_err().code(), "field-only");
}

#[test]
fn a_key_that_jobs_do_not_have_is_told_with_what_was_meant() {
    let told = Job::from_toml("[[load]]\nname = \"a\"\nforce = [1, 0, 0]\n").unwrap_err().to_string();
    assert!(told.contains("force_n"), "{told}");
    let told = Job::from_toml("[[hold]]\nat = \"a\"\nas = \"glue\"\n").unwrap_err().to_string();
    assert!(told.contains("glued"), "{told}");
}
