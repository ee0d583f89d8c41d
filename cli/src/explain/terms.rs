use super::Entry;

const fn entry(names: &'static [&'static str], what: &'static str, more: &'static str) -> Entry {
    Entry { names, what, more }
}

/// Every term of a report that is not a failure mode.
pub(super) const TERMS: &[Entry] = &[
    entry(
        &["HOLDS", "FAILS", "verdict", "state"],
        "Whether nine parts in ten reach the wanted life at the duty, by this estimate.",
        "It holds when the B10 life is at least the wanted one and nine in ten bear the greatest load, by the stress field of the \
         whole part. It never says that a part is safe: it is a model with listed values. The state in the JSON says what it is \
         worth: holds, holds-unproven, holds-unchecked, no-fault-found or fails.",
    ),
    entry(
        &["NO FAULT FOUND", "quick look"],
        "Sections alone were looked at, and by them nothing fails. That is no answer.",
        "Sections see no fillets, pockets and blends, where stress is often highest. Without --quick the stress field of the whole \
         part is solved, and that answers.",
    ),
    entry(
        &["holds-unchecked", "as far as checked"],
        "It holds in what was checked, but something that carries load was not and could turn the answer.",
        "The lines with Beware name it. A sharp inner corner is one: an elastic body has no bound on its stress there, whatever \
         the number of cells.",
    ),
    entry(
        &["stress field", "cells"],
        "The stress in every place of the solid, found by dividing it into small cubes and solving their balance.",
        "It sees fillets, blends, pockets and bosses. Where it finds less margin than the sections do, it counts.",
    ),
    entry(
        &["unproven", "holds-unproven", "well founded"],
        "Most of the uncertainty rests on values recalled from memory instead of measured.",
        "An answer that holds but is unproven is a reason to test, not to trust. Break test pieces of your own print and put \
         their values into a card.",
    ),
    entry(
        &["layer bond", "bond factor", "layer time", "bond"],
        "How strong this print bonds its layers, over the bars that the material card stands for.",
        "A layer welds to the one below while both are hot. The longer a layer takes, the colder the one below has become, and \
         the less it bonds. A flat part with large layers bonds worse than a thin one that stands; a hotter nozzle, a warm \
         chamber, less fan and fewer parts on the bed bond better. The card's strength across layers is that of five bars \
         of 10 x 4 mm that stand upright on one bed, printed with the usual settings; their bond factor is 1.",
    ),
    entry(
        &["margin"],
        "The factor by which all stress could grow before the answer turns; 1 is the limit.",
        "Every mode has its own. For softening it is the factor on temperature above 23 °C, for runaway on heat, for seizure \
         and the head on growth. The margin of all modes together decides: it may be a little below the least of them, because \
         several modes and places, each with its scatter, fail more often than one.",
    ),
    entry(
        &["First", "first to fail", "first to give way", "governing mode", "mode"],
        "The failure mode whose own margin is least, and its place.",
        "It is the first row of the table of modes. The number beside a mode is always that mode's own margin; the margin of \
         all modes together is another number and is named as such.",
    ),
    entry(
        &["Life", "running time", "B10", "B50", "nine in ten", "half"],
        "How long parts run: B10 is the time at which one in ten has failed, B50 that of half of them.",
        "Strength and life scatter log-normally from print to print; places share the strength of a print and fail for \
         themselves, the first one ending it. The strong and the weak side are what material values as wrong as one time in \
         twenty make of B10.",
    ),
    entry(
        &["Speed", "highest speed", "top speed"],
        "The highest top speed of the duty at which, and below which, the part still holds.",
        "All steps of the duty are run faster and slower in proportion. Slow running at full throttle can fail where fast \
         running holds: inertia then relieves the gas force less.",
    ),
    entry(
        &["Heat"],
        "How warm the part gets from its surroundings and from its own hysteresis.",
        "A fin equation along the shank, transient conduction through a crown. Strength is taken at the temperature of each \
         place, in the long run or at the end of one run from cold.",
    ),
    entry(
        &["Ground", "founding", "uncertainty", "measure first"],
        "How much of the uncertainty rests on memory, how far the margin may be off, and what to measure first.",
        "Every value of the card has a standard uncertainty by its source; each is lowered by it in turn and the changes of the \
         margin are added as squares.",
    ),
    entry(
        &["Beware", "not checked", "unchecked", "unusual input", "warning"],
        "An input that is hardly meant, or something that carries load and that the model does not see.",
        "An unusual input is named with what is usual and with the key to check; a slip of the unit is likely. Of what is not \
         checked an answer that holds says nothing.",
    ),
    entry(
        &["duty", "step"],
        "How the engine is run: steps of speed, throttle and time, repeated until the end.",
        "In the job file: duty.steps.",
    ),
    entry(
        &["station", "cut", "load path", "Along the rod", "place"],
        "A cut across the part on the way of the force, from bore to bore or from skirt to crown.",
        "Every cut has its area, second moments and thinnest wall from the mesh, and force and stress from the engine.",
    ),
    entry(
        &["area", "solid area", "printed solid"],
        "Material in a cut, mm²; of that, what is printed solid.",
        "Walls and skins are solid, the inside has its density; its stiffness goes with the square of it (Gibson & Ashby).",
    ),
    entry(
        &["thinnest wall", "thinnest", "Thin places", "ligament", "wall thickness"],
        "The narrowest material in a cut, or beside a bore (ligament).",
        "Below two bead widths a wall is one bead or a gap and cannot be printed sound.",
    ),
    entry(
        &["used", "utilisation"],
        "Stress over strength.",
        "In the table of cuts: the greatest stress of one load over the mean strength in its direction at its temperature. On \
         painted parts: over what nine in ten bear for the wanted life.",
    ),
    entry(
        &["axial force", "N", "pull", "push"],
        "Force along the part; tension is positive.",
        "Gas pushes at firing; inertia pulls at the top of the exhaust stroke and pushes at the bottom.",
    ),
    entry(
        &["stress", "hoop stress", "peak factor"],
        "Force over area, MPa; in an eye round the bore (hoop), where it is highest beside the pin.",
        "In the shank axial force and bending of the section; in an eye net-section stress times the peak factor of a contact \
         study.",
    ),
    entry(
        &["bending moment", "M", "whip"],
        "The rod swings, and its own mass bends it: the whip.",
        "From the rod's mass along its length, at every crank angle; without lumped masses.",
    ),
    entry(
        &["side thrust"],
        "The slant of the rod presses the piston against the cylinder wall.",
        "Gas and inertia force times the tangent of the rod angle.",
    ),
    entry(
        &["top centre", "crank angle"],
        "The crank angle counts from the top position of the piston at firing.",
        "A four-stroke needs 720 degrees for one cycle, a two-stroke 360.",
    ),
    entry(
        &["reciprocating mass"],
        "What moves with the piston: piston, rings, pin.",
        "Weigh it. The rod's own mass comes from its mesh.",
    ),
    entry(
        &["peak cylinder pressure", "peak pressure"],
        "The highest absolute pressure over the piston.",
        "Stated in the job, measured as a table, or worked out: polytropic compression and expansion with Wiebe's burning \
         (Heywood). Small engines have 20 to 60 bar.",
    ),
    entry(
        &["build direction", "flat", "on-edge", "upright", "directions"],
        "The way in which layers are stacked.",
        "A rod lies flat with its bores upright, on its edge with its bores level, or stands upright. Load across layers meets \
         their joints, the weakest way to load a print.",
    ),
    entry(
        &["layer plane", "layers", "layer"],
        "The plane in which a layer lies; its joints are weaker than its beads.",
        "Tractions on this plane are held against the layer strengths.",
    ),
    entry(
        &["bead", "bead width", "walls", "skin layers", "infill"],
        "A strand of plastic as the nozzle lays it.",
        "Walls are beads along an outline, skins solid layers at top and bottom, infill the lighter inside.",
    ),
    entry(
        &["knockdown", "keeps of bead strength"],
        "Strength in a direction over that along the beads.",
        "1 for a rod printed lying; the layer strength over the bead strength for one that stands.",
    ),
    entry(
        &["eye", "small end", "big end", "small-end", "big-end"],
        "The ring of a rod round a pin: the small end holds the piston pin, the big end the crank pin.",
        "Its hoop stress comes from a contact study of a rigid pin with clearance in a round ring.",
    ),
    entry(&["shank"], "The rod between its eyes.", "It is pulled, pushed, whipped and can buckle."),
    entry(
        &["radial clearance", "clearance"],
        "Half the difference of bore and pin when warm and running.",
        "A loose pin touches less of its bore and stresses the eye more: 0.3 mm may add half.",
    ),
    entry(
        &["Length and fits", "stretch", "gap to the head"],
        "How much longer the rod gets, and how its pressed rings hold.",
        "Elastic pull, creep over the wanted life (Findley) and heat; together they use up the gap between piston and head.",
    ),
    entry(
        &["interference", "press fit", "ring", "grip"],
        "The outside of a bearing or bush less its bore, both as diameters.",
        "From tolerance classes by ISO 286, or measured. Thick rings (Lamé), relaxing at constant interference.",
    ),
    entry(
        &["rating life", "dynamic load rating", "ISO 281"],
        "Turns that nine rolling bearings in ten outlive: (C / P)^p million.",
        "P is the steady load of the same life as the pin's force over the duty; p is 3 for balls, 10/3 for rollers. It holds for \
         a stiff housing.",
    ),
    entry(
        &["crown", "counting depth", "crown thickness"],
        "The closed side of a piston, on which the gas presses.",
        "A round plate between a clamped and a supported edge; heat enters from the gas, and when a fifth of it (or what the \
         job says) is soft it counts as lost.",
    ),
    entry(
        &["film", "Hohenberg", "Woschni"],
        "How readily the gas gives its heat to the wall, W/(m² K).",
        "Correlations by Hohenberg (1979) and Woschni (1967), fitted to far larger engines; the one that brings more decides.",
    ),
    entry(&["ring groove", "groove"], "The slot for a piston ring.", "Heat opens or closes it; its floor grows."),
    entry(
        &["ring land", "land", "top land"],
        "The rib between two ring grooves; the top land is over the first.",
        "An annular plate, its root clamped, all gas pressure above and none below.",
    ),
    entry(
        &["pin boss", "boss", "pin bore"],
        "The material round the pin of a piston.",
        "Taken as an eye of one width.",
    ),
    entry(
        &["skirt"],
        "The part of a piston that guides it in the cylinder.",
        "It grows with heat and takes the side thrust.",
    ),
    entry(
        &["growth in the cylinder", "growth", "running clearance"],
        "How much wider the piston gets than its cylinder when both are warm.",
        "Expansion of the card in its direction times the rise of temperature, for skirt and top land.",
    ),
    entry(&["compression height"], "From the pin axis to the top of the crown.", "Measured on the mesh."),
    entry(
        &["softening temperature", "softens"],
        "Where the plastic gives way under a small load (in the manner of ISO 75, or the glass transition).",
        "Above it the strength counts as nothing.",
    ),
    entry(
        &["glass transition"],
        "Where the disordered part of a plastic turns from glassy to leathery.",
        "Part-crystalline families keep some stiffness above it; others soften there.",
    ),
    entry(
        &["moisture", "conditioned", "dry"],
        "Water in the plastic: dried and kept dry, or as in a room at 50 % humidity.",
        "Polyamides lose strength and stiffness with water and gain toughness.",
    ),
    entry(
        &["fatigue ratio", "fatigue ratio at a million cycles"],
        "Amplitude that half the pieces bear for a million full reversals, over the tensile strength.",
        "The anchor of the stress-life line (Basquin).",
    ),
    entry(
        &["fatigue exponent"],
        "How steep the stress-life line is: life grows with this power when stress falls.",
        "With 10, a tenth less stress gives 2.9 times the life.",
    ),
    entry(
        &["Walker exponent", "mean-stress rule", "Goodman", "Gerber", "Smith, Watson and Topper"],
        "How much a standing pull adds to the harm of a cycle.",
        "Walker's rule unless the job asks for another (model.mean_stress).",
    ),
    entry(
        &["scatter", "scatter of strength", "scatter of life"],
        "How far equal parts differ, as the standard deviation of the decimal logarithm.",
        "0.035 of strength is 8 %; 0.4 of life is a factor of 2.5.",
    ),
    entry(
        &["activation energy", "attempt time"],
        "The numbers of Zhurkov's law of breaking under a load that lasts.",
        "t = t0 exp((U - g s) / (k T)).",
    ),
    entry(&["creep"], "Plastic under load grows longer with time.", "Findley's law with a shift by temperature."),
    entry(
        &["What a change does", "sensitivity", "change"],
        "The check run again with one input changed at a time.",
        "What moves life most comes first, then what moves the margin; factors on the margin and on the B10 life.",
    ),
    entry(&["given"], "Said in the job file or by an option.", "Source words say where a number comes from."),
    entry(&["mesh"], "Measured on the STL.", "Source words say where a number comes from."),
    entry(&["coupon"], "From test pieces of your own prints.", "The best source there is for a printed plastic."),
    entry(
        &["published"],
        "From a paper, standard or handbook, named beside it.",
        "Where it is printed stands in the JSON and in the card.",
    ),
    entry(
        &["pooled"],
        "Drawn from tests of like plastics, because there is none of this one.",
        "The card lists how many results stand behind it; its spread is that of a new printer.",
    ),
    entry(
        &["common practice"],
        "Accepted in the trade, without a source to name.",
        "Good for a first estimate; spread between printers is wide.",
    ),
    entry(&["memory"], "Recalled, to be replaced by a measurement.", "Counts as the least certain source."),
];
