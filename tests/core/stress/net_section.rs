//! Both sides of an eye beside its bore, measured on the mesh itself.

use layload_core::rod::{End, PreparedRod};
use layload_core::stress::EyeFamily;
use layload_core::{Question, prepare};

fn plain() -> Result<PreparedRod, Box<dyn std::error::Error>> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../samples/");
    let job = layload_core::job::Job::from_toml(&std::fs::read_to_string(format!("{folder}bench_single.toml"))?)?;
    let question = Question { job: &job, card_text: None, pressure_text: None };
    Ok(prepare(&std::fs::read(format!("{folder}plain_rod.stl"))?, &question, &mut ())?)
}

#[test]
fn an_eye_has_two_sides_of_its_wall_and_depth() -> Result<(), Box<dyn std::error::Error>> {
    let prepared = plain()?;
    let model = prepared.model(EyeFamily::embedded().angles());
    let rod = &prepared.rod;
    for (end, eye) in [(End::Small, &rod.small_end), (End::Big, &rod.big_end)] {
        let center = eye.center;
        let bore = eye.radius();
        // Corners of the mesh on the far side of the eye: how far out and how deep they lie.
        let away = if end == End::Small { -1.0 } else { 1.0 };
        let beyond = rod.mesh.points().iter().filter(|p| away * (p.x - center.x) > 0.2 * bore);
        let (mut outer, mut low, mut high) = (0.0_f64, f64::INFINITY, f64::NEG_INFINITY);
        for p in beyond {
            outer = outer.max(libm::hypot(p.x - center.x, p.y - center.y));
            (low, high) = (low.min(p.z), high.max(p.z));
        }
        let wanted = 2.0 * (outer - bore) * (high - low);
        let found = model.eyes[end as usize].ok_or("no eye")?.net_area();
        // Chords lie inside the circles that they stand for by less than a hundredth of the wall.
        assert!((found / wanted - 1.0).abs() < 0.015, "{end:?}: {found} and {wanted}");
    }
    Ok(())
}
