use super::{Entry, entry};

/// Every term of a report that is not a failure mode.
pub(super) const TERMS: &[Entry] = &[
    entry(
        &["HOLDS", "FAILS", "verdict", "state"],
        "Whether 90 % of parts reach the wanted life at the duty, by this estimate.",
        "HOLDS means two things: the B10 life is at least the wanted life, and 90 % of parts survive the largest load. It never \
         means that a part is safe. The JSON tells what the answer is worth: holds, holds-unproven, holds-unchecked, \
         no-fault-found or fails. If several apply, the gravest is told.",
    ),
    entry(
        &["NO FAULT FOUND", "quick look", "quick"],
        "Only sections were checked, and none fails. That is no answer.",
        "Sections do not see fillets, pockets and blends, where stress is often highest. Leave out --quick to solve the stress \
         field of the whole part.",
    ),
    entry(
        &["HOLDS, not all checked", "holds-unchecked"],
        "It holds in what was checked. Something that carries load was not checked and could turn the answer.",
        "The line Not checked names it, with what it could do.",
    ),
    entry(
        &["HOLDS, unproven", "unproven", "holds-unproven", "measured"],
        "It holds, but most of the uncertainty comes from values nobody measured.",
        "Such an answer is a reason to test, not to trust. Break test pieces of your own prints and put their values into a card \
         (layload fit).",
    ),
    entry(
        &["margin"],
        "The factor by which all stress could grow before the answer turns. 1 is the limit.",
        "Each failure mode has its own. For softening it is a factor on the temperature above 23 °C, for runaway on heat, for \
         seizure and the head on growth. The margin of all modes together decides. It may be a little below the least one, \
         because several modes and places fail more often than one.",
    ),
    entry(
        &["Weakest places", "Failure modes", "First", "first to fail", "governing mode", "mode"],
        "Where and how the part fails first. The failure mode with the least margin fails first and stands first.",
        "The margin beside a mode is that mode's own. Coordinates are in mm of the mesh file.",
    ),
    entry(
        &["Life", "running time", "B10", "B50", "B10 life"],
        "How long parts run. 90 % of parts reach the B10 life, 50 % the B50 life.",
        "Strength and life differ from print to print (log-normal). The first place to fail ends the part. The report also tells \
         the B10 life with material values at their 1-in-20 limits.",
    ),
    entry(
        &["Speed", "top speed", "highest speed"],
        "The highest speed at which the part still holds for the wanted life, and holds at all lower speeds.",
        "All steps of the duty run faster and slower in proportion. A slow engine at full throttle can fail where a fast one \
         holds, because inertia then takes less off the gas force. In that case the speed is a range.",
    ),
    entry(
        &["Heat"],
        "How warm the part gets from its surroundings and from its own cycles of load.",
        "A fin equation along the shank, transient conduction through a crown. Each place has the strength of its own \
         temperature: in long running, or at the end of one run from cold with duty.run_s.",
    ),
    entry(
        &["Confidence", "uncertainty", "measure first"],
        "How far the true margin may be from the one told, and which value to measure first.",
        "Each value of the card has a standard uncertainty by its source. Each is lowered by it in turn; the changes of the \
         margin add as squares. The range told is one standard deviation either way.",
    ),
    entry(
        &["Not checked", "unchecked", "effects"],
        "What carries load or could lower the margin and is not in the answer.",
        "Places that carry load come first, then the number of effects and the largest of them. --limits lists all, each with \
         the factor by which it could lower the margin.",
    ),
    entry(
        &["Unusual", "unusual input", "warning"],
        "An input that is possible but far from usual: a slip of the unit is likely.",
        "The line tells what is usual and which key to check. Impossible inputs are refused.",
    ),
    entry(
        &["What to do", "action", "advice", "enough"],
        "Changes that help, best first, from what to what, each by itself, and the two best together.",
        "Margin and life are those with the change made. If the part fails, a size grows by tenths of a millimetre until it is \
         enough, by a fifth at most, and the last column tells whether it is. Likely means that the size asks for another mesh, \
         which may be some per cent weaker than told: check that mesh. --changes lists every change, also those that harm.",
    ),
    entry(
        &["What a change does", "sensitivity", "change", "changes"],
        "The check run again with one input changed at a time.",
        "Largest effect first: on life, or on the margin if there is no life to compare. Bars show what the list is sorted by. \
         No change means less than 0.1 %.",
    ),
    entry(
        &["Engine", "engine as taken"],
        "The engine as taken. The peak pressure is given, measured, or worked out from compression and burning.",
        "--inputs lists every value with its source. [engine] in the job file has the keys.",
    ),
    entry(
        &["Print", "print as taken"],
        "Material, moisture, build direction, layers, walls and infill as taken, and how well the layers bond.",
        "--inputs lists every value with its source. [print] and [material] in the job file have the keys.",
    ),
    entry(
        &["duty", "step"],
        "How the engine is run: steps of speed, throttle and time, repeated until the end.",
        "In the job file: duty.steps. --rpm replaces them by one steady speed at open throttle.",
    ),
    entry(
        &["station", "cut", "load path", "Along the rod", "place"],
        "A cut across the part on the way of the force: from bore to bore, or from skirt to crown.",
        "Area, second moments and thinnest wall come from the mesh, force and stress from the engine.",
    ),
    entry(
        &["area", "solid area", "printed solid"],
        "Material in a cut, mm², and how much of it is printed solid.",
        "Walls and skins are solid, the infill has its density. Its stiffness goes with the square of that (Gibson & Ashby).",
    ),
    entry(
        &["thinnest wall", "thinnest", "Thin places", "ligament", "wall thickness"],
        "The narrowest material in a cut, or beside a bore (ligament).",
        "A wall thinner than two beads is one bead or a gap. It cannot be printed sound.",
    ),
    entry(
        &["used", "utilisation"],
        "Stress / strength.",
        "In the table of cuts: peak stress / mean short-term strength in its direction, at its temperature. On painted parts: \
         stress / what 90 % of prints take for the wanted life.",
    ),
    entry(
        &["axial force", "N", "pull", "push"],
        "Force along the part; tension is positive.",
        "Gas pushes at firing. Inertia pulls at the top of the exhaust stroke and pushes at the bottom.",
    ),
    entry(
        &["stress", "hoop stress", "peak factor", "Kt"],
        "Force over area, MPa. In an eye it runs around the bore (hoop) and is highest beside the pin.",
        "In the shank: axial force and bending of the section. In an eye: net-section stress times the peak factor of a contact \
         study.",
    ),
    entry(
        &["stress field", "cells"],
        "The stress at each place of the solid. The part is divided into small cubes (cells) and their balance is solved.",
        "It sees fillets, blends, pockets and bosses. Where its margin is less than that of the sections, it counts.",
    ),
    entry(
        &["bending moment", "M", "whip"],
        "The rod swings and its own mass bends it: the whip.",
        "From the rod's mass along its length, at each crank angle.",
    ),
    entry(
        &["side thrust"],
        "The rod stands at an angle and presses the piston against the cylinder wall.",
        "Gas and inertia force times the tangent of the rod angle.",
    ),
    entry(
        &["top centre", "crank angle"],
        "The crank angle counts from the top position of the piston at firing.",
        "One cycle takes 720 degrees in a four-stroke, 360 in a two-stroke.",
    ),
    entry(
        &["reciprocating mass"],
        "What moves with the piston: piston, rings, pin.",
        "Weigh it. The mass of the rod comes from its mesh.",
    ),
    entry(
        &["peak cylinder pressure", "peak pressure"],
        "The highest absolute pressure over the piston.",
        "Give it, give a measured table, or let it be worked out (polytropic compression, Wiebe's burning; Heywood). Small \
         engines have 20 to 60 bar.",
    ),
    entry(
        &["spread of peak pressure", "knock"],
        "How far the peak pressure of one cycle differs from the next.",
        "peak_spread_percent in [engine.gas] is its standard deviation over the mean; the highest of many cycles then has four of \
         them over it. knock_every and knock_times say that one cycle in so many peaks at so many times the mean. Heat is that of \
         the mean cycle.",
    ),
    entry(
        &["fillet", "blend", "radius"],
        "The round inner corner where a thin part meets a thick one, as the shank meets an eye.",
        "The larger its radius, the lower the peak of stress there: from sharp to a radius of half the shank's depth it falls by \
         half or more (Peterson; from memory). Where the weakest place lies outside an eye, at the shank, a larger radius often helps more than \
         a thicker wall. It is not among the changes told: draw it and check again.",
    ),
    entry(
        &["seam", "seams"],
        "Where the outline of each layer begins and ends.",
        "Beads meet badly there, so a crack starts early. The program does not see where yours lie: put them on the least \
         stressed side.",
    ),
    entry(
        &["first full load", "full load"],
        "The greatest load of the duty, the first time it comes.",
        "Where more than 10 % of parts fail at it, life is 0 s, even if what has the least margin would take some time.",
    ),
    entry(
        &["eye", "small end", "big end", "small-end", "big-end", "small-end eye", "big-end eye"],
        "The ring of a rod around a pin. The small end holds the piston pin, the big end the crank pin.",
        "Its hoop stress comes from a contact study: a rigid pin with clearance in a round ring.",
    ),
    entry(&["shank"], "The rod between its eyes.", "It is pulled, pushed and whipped, and it can buckle."),
    entry(
        &["radial clearance", "clearance"],
        "Half the difference between bore and pin when warm and running.",
        "A loose pin touches less of its bore and stresses the eye more. 0.3 mm may add half.",
    ),
    entry(
        &["Fits", "Length and fits", "stretch"],
        "How much longer the rod gets, and how its pressed rings and clamped caps hold. Of a piston: its running clearance.",
        "The rod grows by its pull, by creep over the wanted life (Findley) and by heat. Together they use up the gap between \
         piston and head.",
    ),
    entry(
        &["interference", "press fit", "ring", "grip"],
        "The outside diameter of a bearing or bush less the diameter of its bore in the part.",
        "From tolerance classes by ISO 286, or measured. Thick rings (Lamé) that relax at constant interference.",
    ),
    entry(
        &["rating life", "dynamic load rating", "ISO 281"],
        "Turns that 90 % of rolling bearings reach: (C / P)^p million.",
        "P is the steady load of the same life as the pin's force over the duty. p is 3 for balls, 10/3 for rollers. It holds \
         for a stiff housing.",
    ),
    entry(
        &["crown", "counting depth", "crown thickness"],
        "The closed side of a piston, on which the gas presses.",
        "A round plate with an edge between clamped and supported. Heat enters from the gas. When a fifth of its thickness (or \
         piston.soft_share) is soft, the crown is lost.",
    ),
    entry(
        &["film", "Hohenberg", "Woschni"],
        "How readily the gas gives its heat to the wall, W/(m² K).",
        "Formulas by Hohenberg (1979) and Woschni (1967), fitted to far larger engines. The one with more heat counts.",
    ),
    entry(&["ring groove", "groove"], "The slot for a piston ring.", "Heat opens or closes it; its floor grows."),
    entry(
        &["ring land", "land", "top land"],
        "The rib between two ring grooves. The top land is above the first groove.",
        "An annular plate with a clamped root. All gas pressure acts above it and none below.",
    ),
    entry(
        &["pin boss", "boss", "pin bore"],
        "The material around the pin of a piston.",
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
];
