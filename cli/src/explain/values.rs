use super::{Entry, entry};

/// Values of the print and the material, and words for their sources.
pub(super) const VALUES: &[Entry] = &[
    entry(
        &["build direction", "flat", "on-edge", "upright", "pose"],
        "The direction in which layers are stacked.",
        "A rod lies flat (bores upright), on its edge (bores level), or stands upright. Load across layers meets their joints, \
         which are the weakest.",
    ),
    entry(
        &["layer plane", "layers", "layer"],
        "The plane in which a layer lies. Its joints are weaker than its beads.",
        "Stresses on this plane are held against the layer strengths.",
    ),
    entry(
        &["layer bond", "bond factor", "layer time", "bond"],
        "How strong this print bonds its layers, compared with the bars that the material card stands for.",
        "A layer welds to the one below while both are hot. A long layer time lets the layer below cool, so it bonds less. A flat \
         part with large layers bonds worse than a thin one that stands. A hotter nozzle, a warm chamber, less fan and fewer \
         parts on the bed help. The card stands for five bars of 10 x 4 mm, upright on one bed, with usual settings: factor 1.",
    ),
    entry(
        &["bead", "bead width", "walls", "skin layers", "infill"],
        "A strand of plastic as the nozzle lays it.",
        "Walls are beads along an outline. Skins are solid layers at top and bottom. Infill is the lighter inside.",
    ),
    entry(
        &["axial strength", "knockdown"],
        "Strength along the part / strength along the beads.",
        "100 % for a rod printed flat. For one that stands it is layer strength / bead strength.",
    ),
    entry(
        &["softening temperature", "softens"],
        "Where the plastic deforms under a small load (in the manner of ISO 75, or the glass transition).",
        "Above it the strength counts as nothing.",
    ),
    entry(
        &["glass transition"],
        "Where the disordered part of a plastic turns from glassy to leathery.",
        "Semi-crystalline families keep some stiffness above it; others soften there.",
    ),
    entry(
        &["moisture", "conditioned", "dry"],
        "Water in the plastic: dried and kept dry, or as in a room at 50 % humidity (conditioned).",
        "Water makes polyamides weaker, softer and tougher.",
    ),
    entry(
        &["fatigue ratio", "fatigue ratio at a million cycles"],
        "The amplitude that 50 % of pieces take for a million full reversals / the tensile strength.",
        "It fixes the stress-life line (Basquin).",
    ),
    entry(
        &["fatigue exponent"],
        "How steep the stress-life line is: life grows with this power when stress falls.",
        "With 10, a stress 10 % lower gives 2.9 times the life.",
    ),
    entry(
        &["Walker exponent", "mean-stress rule", "Goodman", "Gerber", "Smith, Watson and Topper"],
        "How much a steady pull adds to the harm of a cycle.",
        "Walker's rule, unless model.mean_stress names another.",
    ),
    entry(
        &["scatter", "scatter of strength", "scatter of life"],
        "How far equal parts differ, as the standard deviation of the decimal logarithm.",
        "0.035 of strength is 8 %. 0.4 of life is a factor of 2.5.",
    ),
    entry(
        &["activation energy", "attempt time"],
        "The numbers of Zhurkov's law: how long plastic lasts under a steady load.",
        "t = t0 exp((U - g s) / (k T)).",
    ),
    entry(&["creep"], "Plastic under load grows longer with time.", "Findley's law, shifted by temperature."),
    entry(&["given"], "From the job file or an option.", "Source words say where a number comes from."),
    entry(&["mesh"], "Measured on the STL.", "Source words say where a number comes from."),
    entry(&["coupon"], "From test pieces of your own prints.", "The best source there is for a printed plastic."),
    entry(
        &["published"],
        "From a paper, standard or handbook, named beside it.",
        "Where it is printed is in the JSON and in the card.",
    ),
    entry(
        &["pooled"],
        "Drawn from tests of like plastics, as there is none of this one.",
        "The card lists how many results stand behind it. Its spread is that of a new printer.",
    ),
    entry(
        &["common practice"],
        "Accepted in the trade, without a source to name.",
        "Good for a first estimate. Printers differ widely.",
    ),
    entry(
        &["memory"],
        "Recalled by the authors; nobody measured it.",
        "The least certain source. Replace it by a test.",
    ),
];
