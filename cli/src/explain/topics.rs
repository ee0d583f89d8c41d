use super::{Entry, entry};

/// How the program works and what it leaves out, a topic each.
pub(super) const TOPICS: &[Entry] = &[
    entry(
        &["safety", "cautions", "shield"],
        "Printed engine parts break. This program gives an estimate, not an approval. It calls no part safe.",
        "A rod or piston that breaks at speed throws fragments. Put a shield around the engine and stand clear of its plane.\n\
         Start and stop from a distance, with a fuel or ignition cut that works when the engine does not answer.\n\
         Fuel, hot parts and plastic burn. Keep an extinguisher within reach and no loose fuel near.\n\
         Wear eye and ear protection; so must everybody near.\n\
         Look at the part after each short run. Retire it at any crack, whitening, stretch or oval bore.\n\
         Local rules come first. A licensed engineer decides where people or property depend on the part.",
    ),
    entry(
        &["first screen", "screen", "reading a result"],
        "The answer in the order in which you need it.",
        "The verdict with life, margin and top speed; the weakest places; confidence; what was not checked; what to do; engine, \
         print, heat and fits as taken; safety.\n\
         --stations adds every failure mode, the stress field and the cuts. --changes adds every change of an input. --inputs \
         adds every value taken, with its source. --limits adds the limits of the estimate and the cautions. --all adds all of \
         them. --summary prints one line a part, --quiet the verdict alone.",
    ),
    entry(
        &["check", "how a check works"],
        "The stress field of the whole part and cuts through it are both worked out. Place by place the lesser margin counts.",
        "compare and sweep answer the same way. The field is solved at the job's own speed; at other speeds its ratio to the \
         sections is kept. directions solves it for the best directions and the named ones. size, learn and study use sections \
         raised to the field of the part as it is, which is called corrected. size solves what its answer names, study one \
         case in ten.",
    ),
    entry(
        &["exit code", "exit codes"],
        "0: done, and the part holds. 1: it does not reach the wanted life. 2: bad input. 3: sections alone found no fault.",
        "3 comes from --quick, size and learn; it is no answer. Of several parts the gravest code is given: 2, then 1, then 3.",
    ),
    entry(
        &["job file", "job"],
        "Engine, print, material and duty in one TOML file.",
        "layload new-job ENGINE.toml writes one with each key, its unit and its usual range. Anything left out is taken as usual \
         and listed by --inputs. Options override the file. A job names files of its own folder and below, because it may come \
         from a stranger; --any-folder allows more.",
    ),
    entry(
        &["piston", "check of a piston"],
        "A piston is recognised by its round outside, its closed end, its pin bore through two bosses and its ring grooves.",
        "The answer tells how hot the crown gets in one run from cold and when so much of it is soft that it is lost. It checks \
         bending of crown and ring lands, the pull of the walls, the bosses, and the clearance to grow. Thin places, holes, \
         lips and collars are named.\n\
         A metal plate on the crown goes into the job as [[piston.layers]] (samples/bench_piston_plate.toml); the mesh is the \
         plastic alone. Printed crowns last seconds: give duty.run_s, the length of one run.\n\
         If a piston is not recognised, --crown-direction, --piston-body, --pin-bore and --pin-axis name what is not seen.",
    ),
    entry(
        &["any part", "places", "holds and loads"],
        "A printed part that is no rod and no piston: a mount, a lug, a rocker, a ring. Say kind = \"any\" in [part] of the job.",
        "[[place]] names a bore (by a point near it, its diameter, or both) or a face (by a point on it, or by the direction it \
         faces). layload places PART.stl lists bores and flat faces to copy. Coordinates and directions are those of the file.\n\
         [[hold]] says what holds a place: glued (in every direction), flat (square to its face), pin (a round pin in a bore, \
         with clearance_mm), or free without a place (its own inertia balances it).\n\
         [[load]] has a name and one of force_n, pressure_bar, moment_n_m, acceleration_m_s2 and spin. A force in a bore comes \
         from a round pin with clearance_mm. follows_speed = true: it grows as the speed squared.\n\
         [history] has angle_deg (up to 360: every turn, beyond: every second turn) or seconds, and under [history.loads] one \
         list of factors a load; or table = \"FILE.csv\". Without it loads are steady.\n\
         [[warm]] gives a place a temperature; it falls away from there as along a fin.\n\
         The answer comes from the stress field alone: --quick, size and study have none. Not checked: glue and screws of a \
         hold, the rim of a held surface, resonance, heat that the part makes or conducts.",
    ),
    entry(
        &["directions", "which way up"],
        "Which way up to print a part, and why.",
        "A thousand build directions, the named poses and those that rest on a face are scored; of a piston the named poses, \
         either way up, and those on a face. Of those that stay on the bed the \
         best compromises of margin, print time, supported area and round bores are checked in full. The recommended one is \
         the quickest within 10 % of the largest margin. A part stays on the bed if its footing is large enough for its height \
         and a lean of 10° does not tip it over. Brim and supports do not count.",
    ),
    entry(
        &["thickness of walls", "thin walls"],
        "Thickness is the diameter of the largest sphere that touches the surface from inside.",
        "Beside an edge the two sides are not a wall unless they meet at less than 28°; then a sharp edge is told. A wall \
         thinner than two beads cannot be printed sound. One thinner than twice the solid walls has no lighter inside.",
    ),
    entry(
        &["page", "record", "report file"],
        "--report writes one HTML file that needs no network and no script.",
        "It shows the part from three sides with the weakest places numbered, area and stress along it, forces over a cycle, life \
         and heat against speed, margin by build direction, what to do, each value with its source, and the job to run it \
         again. --svg and --csv write the drawings and the tables into folders.",
    ),
    entry(
        &["files", "overwrite"],
        "Files are written whole or not at all. None is replaced without --overwrite; an input is never replaced.",
        "Each place is checked before the work. The answer is printed even if a file fails; the exit code is then 2. \
         Characters that would steer a terminal are shown as \\u{1b}.",
    ),
    entry(
        &["painted part", "colours"],
        "--mesh-out PART.3mf (or .ply) writes the part in colours, --legend-out SCALE.svg the scale.",
        "walls paints thickness, check paints stress / strength.",
    ),
    entry(
        &["compare"],
        "Two meshes, or two jobs, side by side.",
        "Areas and walls at equal shares of the load path, mass, bores, pin forces, heat, life, margins and top speed. What \
         changed most comes first, in sentences. --new-job gives the new part a job of its own.",
    ),
    entry(
        &["size"],
        "The least thickness along the pins that reaches a wanted speed and life.",
        "It tries the whole rod, the shank, each end, or each by its own factor; of a piston the crown. It tries the job's \
         material, direction and walls and those you list. It marks what no other beats in mass, life and print time. The \
         outline stays that of the mesh. If nothing reaches it, the nearest is named. Sections corrected by the stress field \
         of the part search; the field is solved for what the answer names. A piston's thicker crown is not solved, as its mesh \
         would have to be drawn.",
    ),
    entry(
        &["fit", "material card", "card"],
        "A material card from a table of your own tests (samples/coupons.csv has the columns; its numbers are invented).",
        "It fits means and scatter, what heat leaves of strength and stiffness, stress-life lines with run-outs, the Walker \
         exponent where load ratios differ, Zhurkov's and Findley's laws, and the ratio of layer to bead strength. Each law is \
         fitted through the function that check uses. Each value has its count, its range and the word coupon. What was not \
         tested stays as in --base.\n\
         The card is then held against each test. The answer tells both numbers where it contradicts them by more than they \
         scatter. Do not use a card for what its own answer warns of.",
    ),
    entry(
        &["learn", "bench log"],
        "A log of bench runs, one a line, and what it says about your parts.",
        "It gives two factors for a family of parts: strength / the card's, and life at one strength / the model's. A part that \
         survived counts as at least so long. It tells what was known before and after, and when the log disagrees with the \
         model beyond chance: then no factor mends it.\n\
         A run whose failure mode is known (layload diagnose --log) teaches what decides that mode: beads, the bond between layers, \
         strength when pressed, or life; the other modes count as survived. --take-back takes the run of a line out of the \
         count; the line stays in the log.\n\
         A run is added after the answer, whole or not at all. An unfinished last line stays unless --cut-unfinished is given. \
         Stops within a run do not count as new warm-ups. check --log uses the log.",
    ),
    entry(
        &["diagnose", "diagnosis", "break"],
        "What caused a break, from what was seen of it.",
        "A check of the run says how likely each failure mode ends the part at that speed, time and place. A table says how often \
         breaks of each mode have each look. Both together give how likely each cause is; one of them is that none of the modes \
         fits. The numbers of the looks are common practice, not measurements.\n\
         The answer names what of the inputs the break contradicts, the next look that would tell the two likeliest causes apart, \
         and what to change. --seen takes the looks, --at the place, --speed-rpm, --throttle, --time and --measured-c the run, \
         --weighed-g and --bores-apart-mm what was measured of the pieces. \
         --log adds the run to a bench log, with its mode where that is clear.",
    ),
    entry(
        &["plan", "ladder", "ladder of runs"],
        "A ladder of runs for one part: speeds, throttle and minutes, from where nearly all parts live up to the wanted life.",
        "The first step is the highest level that 999 of 1000 parts live through by the model. Each next step is the one that teaches most of \
         strength and life (bits) for the parts that it breaks; a step counts as a twentieth of a part besides. Wear of all steps \
         adds up. Each step tells what the margin is known to where the part lives through it, and where it breaks.\n\
         After each step let the part cool and check it at the places that the plan lists with their coordinates. At any stop \
         sign do not run it again. Where even the lowest level is not lived through by 999 of 1000 parts, the plan says so. --parts says how many prints there are to spend; the plan tells what so many teach, and \
         whether test bars teach more than the first part. --log starts from what a bench log has taught. No step is safe.",
    ),
    entry(
        &["looks", "look", "what was seen"],
        "Words for what a break looks like, as --seen of diagnose takes them; everyday words for them are understood too.",
        "Face of the break: flat-between-layers, stepped-across-beads, rest-lines (a smooth patch with fine lines, a rough rest), \
         rough-all-over, void (it begins at a void or a nick).\n\
         Beside it: whitened, melted, browned, bulged, wrinkled (folded on the pressed side), sagged (bent without a break).\n\
         Bores: oval-bore, polished-bore, crack-at-bore (square to the rod), split-eye, split-on-pressing, dust, ring-moved (a pressed ring turned).\n\
         Whole part: bowed (the shank sideways), longer, joint-gap (of a cap), strike-mark (of piston on head), scored, stuck (in \
         its cylinder), sunk-crown, burned-through, foreign-marks (of something that does not belong there).",
    ),
    entry(
        &["study"],
        "Many cases: a matrix, a Latin hypercube or a Sobol sequence of inputs and meshes, on all cores.",
        "Results go to results.csv, effects to effects.json (main effects; Sobol indices for his sequence). Each finished case is \
         on disk, so --resume continues a stopped run to the same bytes. --shard 1/4 runs a quarter of the cases. \
         samples/dask/study.py hands shards to a Dask cluster. Built with the feature parquet it also writes the table as Parquet.",
    ),
    entry(
        &["plugin", "host"],
        "layload host PLUGIN.wasm gives the same answers through the sandboxed plugin.",
        "--memory-mib and --deadline-ms set its limits. Build the plugin with bash wasm-plugin/build.sh, and the \
         program with the feature host, which takes some minutes. wasm-plugin/README.md tells how to use the plugin in another program.",
    ),
    entry(
        &["model", "method"],
        "Which model each step uses, with its source.",
        "Mass: signed tetrahedra (Mirtich 1996). Printed section: walls solid, inside by density (Gibson & Ashby 1997).\n\
         Gas: polytropic with Wiebe heat release (Heywood), or a measured table. Forces: rigid rod in plane motion with its own \
         mass distribution.\n\
         Shank: unsymmetric bending (Timoshenko). Eyes: contact study of a rigid pin with clearance. Buckling: Euler and Johnson \
         (Shigley). Steps of section: Peterson.\n\
         Layers: stress on the layer plane, joined by Tsai-Hill (Azzi & Tsai 1965); shear under pressure by Puck, Kopp & Knops \
         2002.\n\
         Fatigue: rainflow (ASTM E1049), Walker 1970, Basquin, Miner. Steady load: Zhurkov 1965, Bailey 1939. Creep: Findley.\n\
         Heat: fin equation with hysteresis (Ferry; Incropera). Crown: round plate (Roark; Timoshenko), transient conduction, \
         films by Hohenberg 1979 and Woschni 1967.\n\
         Rings: Lamé, ISO 286. Caps: Shigley, ISO 898-1. Rolling bearings: ISO 281.\n\
         Scatter: log-normal strength of a print and life of each place, weakest link. Fits: ASTM E739, Olsen 1978. Studies: \
         McKay 1979, Owen 1995, Saltelli 2010, Jansen 1999.\n\
         tests/EVIDENCE.md lists each check against others, with source and tolerance.",
    ),
    entry(
        &["limits", "limits of the estimate"],
        "What the program does not see. --limits lists it for your part.",
        "Not seen: the bolts of a split big end, and its cap beyond how the studs hold it. Eyes are as hot as their pins. A pressed \
         ring's stress is added to that of the pin. Domes and ribs of a crown count as flat plates. Heat that rings and walls \
         lead away is left out. Wear of a piston's pin bores is not seen.\n\
         The stress field takes pins as rigid and refuses a split eye without its cap. Beside general programs its peaks are from \
         5 % too low to 4 % too high at bores, within 3 % in a crown and at bosses (tests/EVIDENCE.md), and from 7 % too low \
         to 5 % too high in fillets and on the outside of eyes (measured once, tests/reference/calculix/hot_spots.json; no test \
         repeats it). Places that are not solved a second time with finer cells are from 40 % too low to 7 % too high; they do \
         not govern.\n\
         With --quick an eye is a round ring. The plain sample rod carries twice the stress of the sections on the outside of \
         its eyes, where they meet the shank.\n\
         Values for printed plastics differ widely between printers. Break test pieces of your own before you believe a number.",
    ),
];
