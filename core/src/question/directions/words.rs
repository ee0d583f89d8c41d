//! Why a direction is recommended or not, from the numbers that decide.

use crate::kind::Lying;
use crate::orient::{ALIKE, Choice, DirectionScore, Posed, Standing};
use crate::report::{DirectionReport, NamedDirections};
use crate::verdict::Mode;

/// How a part lies, in the words of the trade.
fn lies(pose: &DirectionScore, words: &Lying) -> String {
    let build = &pose.build;
    if build.z.abs() > 0.9998 {
        words.flat.into()
    } else if build.y.abs() > 0.9998 {
        words.on_edge.into()
    } else if build.x.abs() > 0.9998 {
        words.upright[usize::from(build.x < 0.0)].into()
    } else {
        let Lying { along, bores: of, .. } = words;
        let to_layers = 90.0 - libm::acos(build.x.abs().min(1.0)).to_degrees();
        let bores = libm::acos(build.z.abs().min(1.0)).to_degrees();
        format!("with {along} at {to_layers:.0}° to the layers and {of} {bores:.0}° off upright")
    }
}

/// What the recommended direction was chosen from.
pub(crate) struct Chosen<'a> {
    pub(crate) scores: &'a [DirectionScore],
    pub(crate) compromises: &'a [bool],
    pub(crate) choice: Choice,
    pub(crate) named: &'a NamedDirections,
    pub(crate) wanted_life: f64,
    pub(crate) lying: Lying,
}

impl Chosen<'_> {
    /// What speaks for the direction, against the others and the three ways a rod can lie.
    pub(crate) fn reason(&self) -> String {
        let own = &self.scores[self.choice.index];
        let wanted = format!("{:.1} h", self.wanted_life / 3600.0);
        let holds = match (own.margin >= 1.0, self.named.flat.solved) {
            (true, true) => "holds",
            (true, false) => "no fault found by sections",
            (false, _) => "does not hold",
        };
        let named = [("flat", &self.named.flat), ("on edge", &self.named.on_edge), ("upright", &self.named.upright)];
        let margins: Vec<String> = named.iter().map(|(word, pose)| format!("{word} {:.2}", pose.margin)).collect();
        format!(
            "Print it {}: margin {:.2}, {holds} for the wanted {wanted}. {}{} Margins by name: {}.{}",
            lies(own, &self.lying),
            own.margin,
            self.against_others(own),
            self.support_needed(own),
            margins.join(", "),
            self.layers(),
        )
    }

    fn against_others(&self, own: &DirectionScore) -> String {
        let Choice { strongest, quickest, .. } = self.choice;
        let (strong, quick) = (&self.scores[strongest], &self.scores[quickest]);
        if self.compromises.iter().filter(|&&compromise| compromise).count() == 1 {
            let standing = self.scores.iter().filter(|score| score.posed.stands()).count();
            return match (own.posed.stands(), standing) {
                (true, 1) => "No other pose stays on the bed.".into(),
                // Numbers of the field are set against each other alone.
                _ if self.named.flat.solved => {
                    "Of the poses that the stress field was solved for, none that may be recommended beats it.".into()
                }
                (true, _) => {
                    "It is at least as good as every other pose that stays on the bed in margin, print time, support \
                              and bore steps."
                        .into()
                }
                (false, _) => {
                    "It is at least as good as every other pose on a face in margin, print time, support and bore \
                               steps."
                        .into()
                }
            };
        }
        let strength = if own.margin >= strong.margin * (1.0 - ALIKE) {
            "It has the greatest margin of the best compromises".to_string()
        } else {
            format!(
                "Its margin is {:.0} % below that of the strongest compromise ({:.2}), less than the estimate can tell apart",
                (1.0 - own.margin / strong.margin) * 100.0,
                strong.margin
            )
        };
        let minutes = |score: &DirectionScore| score.print_time / 60.0;
        let time = if own.print_time <= quick.print_time * (1.0 + ALIKE) {
            "; of those within a tenth of the greatest margin it prints quickest".to_string()
        } else {
            format!(
                "; it prints in {:.1} min, near the quickest of those within a tenth of the greatest margin ({:.1} min), with \
                 bore steps of {:.2} mm instead of {:.2} mm",
                minutes(own),
                minutes(quick),
                own.stair_step * 1e3,
                quick.stair_step * 1e3
            )
        };
        format!("{strength}{time}.")
    }

    /// What is to be said of a pose that does not stay on the bed by itself.
    fn support_needed(&self, own: &DirectionScore) -> String {
        let Some(fault) = fault(&own.posed) else { return String::new() };
        let best = self.scores.iter().filter(|score| score.posed.stands()).map(|score| score.margin).reduce(f64::max);
        let others = best.map_or_else(
            || "no pose does".to_string(),
            |best| {
                let by = if self.named.flat.solved { " by sections" } else { "" };
                format!("the strongest pose that does has a margin of {best:.2}{by}")
            },
        );
        format!(" It does not stay on the bed by itself ({fault}); {others}. Let supports hold it.")
    }

    fn layers(&self) -> String {
        let upright = &self.named.upright;
        if upright.margin >= self.named.flat.margin {
            String::new()
        } else if matches!(upright.governing_mode, Mode::FatigueAcrossLayers | Mode::OverloadAcrossLayers) {
            format!(" Upright is worse than flat: {}.", self.lying.parted)
        } else {
            " Upright is worse than flat.".into()
        }
    }
}

/// Why a pose does not stay on the bed; `None` if it does.
pub(crate) fn fault(posed: &Posed) -> Option<String> {
    let area = posed.contact_area * 1e6;
    match posed.standing() {
        Standing::Stands => None,
        Standing::SmallFooting { least } => Some(format!(
            "only {area:.1} mm² rest on the bed, and {:.1} mm² are the least for {:.0} mm of height",
            least * 1e6,
            posed.height * 1e3
        )),
        Standing::TipsOver => {
            Some(format!("it tips over: its centre of mass does not lie over its footing of {area:.0} mm²"))
        }
        Standing::Unsteady { tilt } => Some(format!(
            "a lean of {:.1}° tips it over on its footing of {area:.0} mm², and {:.0}° are the least that counts as steady",
            tilt.to_degrees(),
            Posed::LEAST_TILT.to_degrees()
        )),
    }
}

/// In what a pose is worse than the recommended one.
pub(crate) fn worse(pose: &DirectionReport, recommended: &DirectionReport) -> String {
    let mut found = Vec::new();
    if pose.margin < recommended.margin * (1.0 - ALIKE) {
        found.push(format!("margin {:.2} against {:.2}", pose.margin, recommended.margin));
    }
    if pose.print_time_s > recommended.print_time_s * (1.0 + ALIKE) {
        found.push(format!(
            "{:.0} min to print against {:.0}",
            pose.print_time_s / 60.0,
            recommended.print_time_s / 60.0
        ));
    }
    if pose.support_area_mm2 > recommended.support_area_mm2 + 1.0 {
        found.push(format!("{:.0} mm² to support against {:.0}", pose.support_area_mm2, recommended.support_area_mm2));
    }
    if pose.stair_step_mm > recommended.stair_step_mm + 1e-3 {
        found.push(format!("bore steps of {:.2} mm against {:.2}", pose.stair_step_mm, recommended.stair_step_mm));
    }
    if found.is_empty() { "as good as the recommended one".into() } else { found.join(", ") }
}
