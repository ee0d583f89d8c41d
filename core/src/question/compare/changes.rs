//! What changed between two reports.

use crate::job::{Assumption, Quantity};
use crate::numeric::sort_few_by_key;
use crate::report::{
    CAUTIONS, ChangeGroup, ChangeReport, CompareReport, InputChangeReport, PathChangeReport, Report, RevisionReport,
    SCHEMA_VERSION, StationReport, VerdictReport,
};

/// Points at which two load paths are set side by side.
const POINTS: usize = 41;

/// Changes smaller than this share are not told in sentences.
const WORTH_TELLING: f64 = 0.005;

/// Sets two reports side by side.
pub(super) fn compared(old: &Report, new: &Report) -> CompareReport {
    let changes = changes(old, new);
    let path = path(old, new);
    CompareReport {
        schema_version: SCHEMA_VERSION.into(),
        program_version: env!("CARGO_PKG_VERSION").into(),
        kind: new.part.kind,
        old: revision(old),
        new: revision(new),
        findings: findings(old, new, &path),
        inputs: inputs(&old.assumptions, &new.assumptions),
        changes,
        path,
        cautions: CAUTIONS.iter().map(|&text| text.into()).collect(),
    }
}

fn revision(report: &Report) -> RevisionReport {
    let verdict = &report.verdict;
    // The effects that no check looks at are the same for both sides, and listed by each check.
    let own = |unchecked: &&String| report.effects.iter().all(|effect| effect.effect != **unchecked);
    let unusual = report.warnings.iter().map(|warning| format!("whether an input is meant: {}", warning.message));
    RevisionReport {
        title: report.title.clone(),
        state: verdict.state,
        holds: verdict.holds,
        well_founded: verdict.well_founded,
        governing_mode: verdict.governing_mode,
        governing_place: verdict.governing_place.clone(),
        max_rpm_meaning: verdict.max_rpm_meaning,
        unchecked: unusual.chain(verdict.unchecked.iter().filter(own).cloned()).collect(),
    }
}

/// A number of a report: its group, name, unit and value.
type Compared = (ChangeGroup, String, &'static str, Option<f64>);

/// Numbers of a report that are worth comparing.
fn numbers(report: &Report) -> Vec<Compared> {
    let mut list = geometry(report);
    list.extend(loads(report));
    list.extend(heat(report));
    list.extend(answer(report));
    list
}

fn geometry(report: &Report) -> Vec<Compared> {
    let mut list = Vec::new();
    let mut add = |name: &str, unit, value| list.push((ChangeGroup::Geometry, name.into(), unit, value));
    add("mass as printed", "g", Some(report.mesh.mass_g));
    add("volume", "mm³", Some(report.mesh.volume_mm3));
    if let Some(distance) = report.part.center_distance_mm {
        add("distance between bores", "mm", Some(distance));
    }
    for bore in &report.part.bores {
        add(&format!("{} bore", bore.role), "mm", Some(bore.diameter_mm));
        add(&format!("{} bore's length", bore.role), "mm", Some(bore.depth_mm));
    }
    for eye in report.rod.iter().flat_map(|rod| &rod.eyes) {
        add(&format!("{} wall", eye.role), "mm", Some(eye.ligament_mm));
    }
    if let Some(piston) = &report.piston {
        add("crown thickness", "mm", Some(piston.crown.thickness_mm));
    }
    let least = |of: &dyn Fn(&StationReport) -> Option<f64>| {
        report.stations.iter().filter_map(of).filter(|value| *value > 0.0).min_by(f64::total_cmp)
    };
    add("least area along the path", "mm²", least(&|s| Some(s.area_mm2)));
    add("thinnest wall along the path", "mm", least(&|s| s.thinnest_wall_mm));
    add("least second moment", "mm⁴", least(&|s| Some(s.second_moment_min_mm4)));
    list
}

fn loads(report: &Report) -> Vec<Compared> {
    let mut list = Vec::new();
    let mut add = |name: &str, unit, value| list.push((ChangeGroup::Loads, name.into(), unit, value));
    add("peak pressure", "bar", Some(report.loads.peak_pressure_bar));
    let pin = match (&report.rod, &report.piston) {
        (Some(rod), _) => Some((rod.forces.small_end_pull_n, rod.forces.small_end_push_n)),
        (_, Some(piston)) => Some((piston.pin_pull_n, piston.pin_push_n)),
        _ => None,
    };
    add("greatest pull of the piston pin", "N", pin.map(|(pull, _)| pull));
    add("greatest push of the piston pin", "N", pin.map(|(_, push)| push));
    if let Some(rod) = &report.rod {
        add("greatest pull of the crank pin", "N", Some(rod.forces.big_end_pull_n));
        add("greatest push of the crank pin", "N", Some(rod.forces.big_end_push_n));
        add("greatest bending moment of the whip", "N mm", Some(rod.forces.whip_moment_max_n_mm));
    }
    for eye in report.rod.iter().flat_map(|rod| &rod.eyes) {
        add(&format!("{} hoop stress", eye.role), "MPa", Some(eye.hoop_stress_max_mpa));
        add(&format!("{} pin pressure", eye.role), "MPa", Some(eye.pin_pressure_mpa));
    }
    let stresses = report.stations.iter().map(|s| s.stress_max_mpa.max(-s.stress_min_mpa));
    add("greatest stress along the path", "MPa", stresses.max_by(f64::total_cmp));
    list
}

fn heat(report: &Report) -> Vec<Compared> {
    let (rod, crown) = (report.rod.as_ref(), report.piston.as_ref().map(|piston| &piston.crown_heat));
    let mut list = Vec::new();
    let mut add = |name: &str, unit, value| list.push((ChangeGroup::Heat, name.into(), unit, value));
    add("strength taken at up to", "°C", Some(report.heat.taken_c));
    add("shank in long running", "°C", rod.and(report.heat.hottest.temperature_c));
    add("crown's face in one run", "°C", crown.map(|crown| crown.surface_c));
    add("crown soft after", "s", crown.and_then(|crown| crown.softening_time_s));
    add("runs away from", "rpm", rod.and_then(|rod| rod.runaway_rpm));
    list
}

fn answer(report: &Report) -> Vec<Compared> {
    use ChangeGroup::{Life, Speed};
    let verdict = &report.verdict;
    let mut list = Vec::new();
    let mut add = |group, name: &str, unit, value| list.push((group, name.into(), unit, value));
    add(Life, "margin on stress", "1", Some(verdict.margin));
    add(Life, "90 % reach", "s", Some(report.life.b10_s));
    add(Life, "50 % reach", "s", Some(report.life.b50_s));
    add(Life, "99 % reach", "s", Some(report.life.b1_s));
    add(Life, "axial / bead strength", "1", Some(report.print.axial_strength_share));
    add(Life, "margin known within a factor of", "1", Some(report.uncertainty.margin_factor));
    add(Speed, "speed of the duty", "rpm", Some(verdict.duty_rpm));
    add(Speed, "top speed for the wanted life", "rpm", verdict.max_rpm);
    if verdict.min_rpm.is_some() {
        add(Speed, "lowest speed for the wanted life", "rpm", verdict.min_rpm);
    }
    for mode in &report.modes {
        add(Life, &format!("margin: {}", mode.mode.words()), "1", Some(mode.margin));
    }
    list
}

/// Numbers of both, in the order of the old one, then those that only the new one has.
fn changes(old: &Report, new: &Report) -> Vec<ChangeReport> {
    let (old, new) = (numbers(old), numbers(new));
    let mut list: Vec<ChangeReport> = Vec::new();
    let of = |list: &[(ChangeGroup, String, &'static str, Option<f64>)], name: &str| {
        list.iter().find(|entry| entry.1 == name).and_then(|entry| entry.3)
    };
    for (group, name, unit, _) in old.iter().chain(&new) {
        if list.iter().any(|known| known.name == *name) {
            continue;
        }
        let (before, after) = (of(&old, name), of(&new, name));
        if before.is_none() && after.is_none() {
            continue;
        }
        let factor = match (before, after) {
            (Some(a), Some(b)) if a > 0.0 && b > 0.0 && *unit != "°C" => Some(b / a),
            _ => None,
        };
        list.push(ChangeReport {
            group: *group,
            name: name.clone(),
            unit: (*unit).into(),
            old: before,
            new: after,
            factor,
        });
    }
    sort_few_by_key(&mut list, |change| change.group as u8);
    list
}

fn inputs(old: &[Assumption], new: &[Assumption]) -> Vec<InputChangeReport> {
    let find = |list: &[Assumption], name: &str| list.iter().find(|entry| entry.name == name).cloned();
    let mut list: Vec<InputChangeReport> = Vec::new();
    for entry in old.iter().chain(new) {
        if list.iter().any(|known| known.name == entry.name) {
            continue;
        }
        let (before, after) = (find(old, &entry.name), find(new, &entry.name));
        if differs(before.as_ref().map(|e| &e.value), after.as_ref().map(|e| &e.value)) {
            list.push(InputChangeReport {
                name: entry.name.clone(),
                unit: entry.unit.clone(),
                old: before.map(|e| e.value),
                new: after.map(|e| e.value),
            });
        }
    }
    list
}

/// Whether two values differ; numbers measured on two meshes do in their last digits always.
fn differs(old: Option<&Quantity>, new: Option<&Quantity>) -> bool {
    match (old, new) {
        (Some(Quantity::Number(a)), Some(Quantity::Number(b))) => (a - b).abs() > 1e-5 * a.abs().max(b.abs()),
        _ => old != new,
    }
}

fn path(old: &Report, new: &Report) -> Vec<PathChangeReport> {
    let along = |stations: &[StationReport]| -> Vec<(f64, StationReport)> {
        let ends = stations.first().zip(stations.last());
        let (from, to) = ends.map_or((0.0, 1.0), |(a, b)| (a.position_mm, b.position_mm));
        stations.iter().map(|s| ((s.position_mm - from) / (to - from).max(f64::MIN_POSITIVE), *s)).collect()
    };
    let (old, new) = (along(&old.stations), along(&new.stations));
    if old.len() < 2 || new.len() < 2 {
        return Vec::new();
    }
    let half = 0.5 / (POINTS - 1) as f64;
    let at = |list: &[(f64, StationReport)], share: f64, of: &dyn Fn(&StationReport) -> f64| {
        let above = list.partition_point(|(s, _)| *s < share).clamp(1, list.len() - 1);
        let ((low, a), (high, b)) = (&list[above - 1], &list[above]);
        let part = if high > low { ((share - low) / (high - low)).clamp(0.0, 1.0) } else { 0.0 };
        of(a) + part * (of(b) - of(a))
    };
    let wall = |list: &[(f64, StationReport)], share: f64| {
        let near = list.iter().filter(|(s, _)| (s - share).abs() <= half);
        near.filter_map(|(_, s)| s.thinnest_wall_mm).min_by(f64::total_cmp)
    };
    (0..POINTS)
        .map(|point| {
            let share = point as f64 / (POINTS - 1) as f64;
            PathChangeReport {
                share,
                old_area_mm2: at(&old, share, &|s| s.area_mm2),
                new_area_mm2: at(&new, share, &|s| s.area_mm2),
                old_wall_mm: wall(&old, share),
                new_wall_mm: wall(&new, share),
                old_utilisation: at(&old, share, &|s| s.utilisation),
                new_utilisation: at(&new, share, &|s| s.utilisation),
            }
        })
        .collect()
}

fn findings(old: &Report, new: &Report, path: &[PathChangeReport]) -> Vec<String> {
    let mut said = Vec::new();
    let (a, b) = (&old.verdict, &new.verdict);
    said.extend(verdicts(a, b));
    if let Some(words) = grown("mass", old.mesh.mass_g, new.mesh.mass_g) {
        said.push(format!("{words}, {:.1} to {:.1} g.", old.mesh.mass_g, new.mesh.mass_g));
    }
    let change = |point: &PathChangeReport| libm::log(point.new_area_mm2.max(1e-9) / point.old_area_mm2.max(1e-9));
    let most = path.iter().filter(|p| p.old_area_mm2 > 0.0 && p.new_area_mm2 > 0.0);
    if let Some(point) = most.max_by(|p, q| change(p).abs().total_cmp(&change(q).abs()))
        && change(point).abs() > WORTH_TELLING
    {
        said.push(format!(
            "Along the path the area changes most at {:.0} % of its length: {:.1} to {:.1} mm².",
            point.share * 100.0,
            point.old_area_mm2,
            point.new_area_mm2
        ));
    } else if !path.is_empty() {
        said.push("Areas along the path are the same within a half per cent.".into());
    }
    said.extend(speeds(a.max_rpm, b.max_rpm));
    // One standard deviation of what is not known of the material: the same card is wrong in both the same way, but not
    // where modes or materials differ.
    let same = a.governing_mode == b.governing_mode;
    let unknown =
        libm::log(new.uncertainty.margin_factor.max(1.0)).max(libm::log(old.uncertainty.margin_factor.max(1.0)));
    let moved = libm::log(b.margin.max(1e-9) / a.margin.max(1e-9)).abs();
    if !same && moved < unknown {
        said.push(format!(
            "Different things give way, and the margin itself is known only within a factor of {:.2}: the change may be \
             none.",
            libm::exp(unknown)
        ));
    }
    said
}

/// Whether both hold, and what fails first.
fn verdicts(a: &VerdictReport, b: &VerdictReport) -> [String; 2] {
    let word = |holds: Option<bool>| match holds {
        Some(true) => "holds",
        Some(false) => "does not hold",
        None => "shows no fault by sections",
    };
    let holding = if a.holds == b.holds {
        format!(
            "Both {}; the margin goes from {:.2} to {:.2}.",
            match a.holds {
                Some(true) => "hold",
                Some(false) => "fail",
                None => "show no fault by sections",
            },
            a.margin,
            b.margin
        )
    } else {
        format!(
            "The old part {}, the new one {}; the margin goes from {:.2} to {:.2}.",
            word(a.holds),
            word(b.holds),
            a.margin,
            b.margin
        )
    };
    let first = if a.governing_mode == b.governing_mode && a.governing_place == b.governing_place {
        format!("Both fail first by {}, {}.", a.governing_mode.words(), a.governing_place)
    } else {
        format!(
            "First to fail was {}, {}; it is now {}, {}.",
            a.governing_mode.words(),
            a.governing_place,
            b.governing_mode.words(),
            b.governing_place
        )
    };
    [holding, first]
}

/// How the highest speed moved.
fn speeds(before: Option<f64>, after: Option<f64>) -> Option<String> {
    match (before, after) {
        (Some(before), Some(after)) => grown("top speed for the wanted life", before, after)
            .map(|words| format!("{words}, {before:.0} to {after:.0} rpm.")),
        (None, Some(after)) => Some(format!("No speed was low enough before; now {after:.0} rpm is.")),
        (Some(before), None) => Some(format!("{before:.0} rpm was low enough before; now no speed is.")),
        (None, None) => None,
    }
}

fn grown(what: &str, old: f64, new: f64) -> Option<String> {
    let change = new / old - 1.0;
    if !change.is_finite() || change.abs() < WORTH_TELLING {
        return None;
    }
    let verb = if change > 0.0 { "grows" } else { "falls" };
    Some(format!("The {what} {verb} by {:.1} %", change.abs() * 100.0))
}
