// What the plugin's records have no place for: fields that fill in a key of a job file.

import type { JobValues } from "../checker/protocol.js";
import type { ChoiceField, Field, NumberField, TextField } from "./fields.js";

/** `keyed` says that a job file's text is its only home, so that reading a job asks for its key. */
export type Keyed<F extends Field> = F & { key: string; keyed: true };

const idOf = (key: string) => key.replaceAll(/[._]/g, "-");

/** A word out of the quotes of a job file. */
const word = (job: JobValues, key: string) => job.keyed[key]?.replaceAll(/^["']|["']$/g, "") ?? "";

function put(job: JobValues, key: string, value: string) {
  job.keyed[key] = value === "" ? undefined : JSON.stringify(value);
}

function number(key: string, label: string, unit: string, more: Partial<NumberField> = {}): Keyed<NumberField> {
  return {
    kind: "number",
    key,
    keyed: true,
    id: idOf(key),
    label,
    unit,
    least: 0,
    empty: "none",
    ...more,
    get: ({ keyed }) => (keyed[key] === undefined ? undefined : Number(keyed[key])),
    set: ({ keyed }, value) => {
      keyed[key] = value?.toString();
    },
  };
}

function text(key: string, label: string, hint: string): Keyed<TextField> {
  return {
    kind: "text",
    key,
    keyed: true,
    id: idOf(key),
    label,
    hint,
    empty: "none",
    get: (job) => word(job, key),
    set: (job, value) => put(job, key, value),
  };
}

function choice(key: string, label: string, choices: [string, string][]): Keyed<ChoiceField> {
  return {
    kind: "choice",
    key,
    keyed: true,
    id: idOf(key),
    label,
    choices,
    get: (job) => word(job, key),
    set: (job, value) => put(job, key, value),
  };
}

/** Three numbers, as a job file has them: a point in mm or a direction. */
function vector(key: string, label: string, hint: string): Keyed<TextField> {
  return {
    ...text(key, label, hint),
    get: ({ keyed }) => (keyed[key] ?? "").replaceAll(/[[\]]/g, "").trim(),
    set: ({ keyed }, value) => {
      const numbers = value.split(/[\s,;]+/).filter(Boolean);
      keyed[key] = numbers.length ? `[${numbers.join(", ")}]` : undefined;
    },
  };
}

const ring = (end: "small" | "big"): Keyed<Field>[] => {
  const key = (name: string) => `part.${end}_end.ring.${name}`;
  return [
    text(key("bearing"), "Ball bearing", "Designation by ISO 15, such as 6204, or the sizes of a bush."),
    number(key("interference_mm"), "Interference", "mm", {
      least: -1,
      hint: "Outside of the ring less bore of the eye, as printed.",
    }),
    number(key("bore_mm"), "Bush, bore", "mm"),
    number(key("outside_mm"), "Bush, outside", "mm"),
    number(key("width_mm"), "Bush, width", "mm"),
    choice(key("metal"), "Bush, metal", [
      ["", "usual: steel"],
      ["steel", "steel"],
      ["bronze", "bronze"],
    ]),
    choice(key("rolling"), "In it rolls", [
      ["", "usual"],
      ["ball", "balls"],
      ["roller", "rollers or needles"],
    ]),
    number(key("dynamic_rating_n"), "Dynamic load rating C", "N", { hint: "Of a rolling bearing, for its rating life." }),
  ];
};

export const SMALL_RING = ring("small");
export const BIG_RING = ring("big");

const runs = (end: "small" | "big", label: string): Keyed<ChoiceField> => ({
  ...choice(`part.${end}_end.runs`, label, [
    ["", "usual: plastic, oiled"],
    ["bearing", "in a bearing"],
    ["bush", "in a bush"],
    ["oiled", "in the plastic, oiled"],
    ["greased", "in the plastic, greased"],
    ["dry", "in the plastic, dry"],
  ]),
  of: "rod",
  hint: "Plastic that runs on a turning pin melts or wears.",
});

/** What the pins run in. */
export const SMALL_RUNS = runs("small", "Piston pin runs");
export const BIG_RUNS = runs("big", "Crank pin runs");

/** How peak pressure differs from cycle to cycle. */
export const PEAKS: Keyed<Field>[] = [
  number("engine.gas.peak_spread_percent", "Spread of peak pressure", "%", {
    most: 50,
    hint: "Standard deviation over the mean, from cycle to cycle; usual 2 to 10.",
  }),
  number("engine.gas.knock_every", "Knock: one cycle in", "", { least: 2, hint: "Together with the next." }),
  number("engine.gas.knock_times", "Peak of a knocking cycle over the mean", "", { least: 1 }),
];

/** What makes the layers of a print bond. */
export const WARMTH: Keyed<Field>[] = [
  number("print.nozzle_c", "Nozzle", "°C", { empty: "usual" }),
  number("print.bed_c", "Bed", "°C", { least: -50, empty: "usual" }),
  number("print.chamber_c", "Chamber", "°C", { least: -50, empty: "usual", hint: "Air round the part." }),
  number("print.fan_percent", "Fan", "%", { most: 100, empty: "usual" }),
  number("print.bead_speed_mm_s", "Speed", "mm/s", { empty: "usual" }),
  number("print.least_layer_s", "Least time a layer", "s", { empty: "usual" }),
  number("print.parts_together", "Parts printed together", "", { least: 1, whole: true, empty: "one" }),
];

const ofCap = (name: string) => `part.big_end.cap.${name}`;
export const CAP: Keyed<Field>[] = [
  number(ofCap("studs"), "Studs", "", { whole: true, empty: "two" }),
  number(ofCap("thread_mm"), "Thread", "mm", { hint: "Nominal diameter; coarse pitch." }),
  number(ofCap("grip_mm"), "Grip", "mm", { hint: "Plastic that one stud squeezes, head to thread." }),
  number(ofCap("head_mm"), "Head or washer", "mm", { empty: "usual" }),
  number(ofCap("hole_mm"), "Hole", "mm", { empty: "usual" }),
  number(ofCap("torque_n_m"), "Tightening torque", "N·m"),
];

/** What a piston runs with. */
export const PISTON_RUN: Keyed<Field>[] = [
  number("piston.rod_length_mm", "Rod between centres", "mm", { empty: "usual", hint: "1.7 to 2 strokes are common." }),
  choice("piston.underside", "Under the crown", [
    ["", "usual: air"],
    ["air", "air"],
    ["oil-mist", "oil mist"],
  ]),
  choice("piston.cylinder", "Cylinder", [
    ["", "usual: steel"],
    ["steel", "steel or iron"],
    ["aluminium", "aluminium"],
  ]),
  number("piston.cylinder_wall_c", "Cylinder wall", "°C", { least: -60, empty: "usual", hint: "When running; 80 to 180." }),
];

/** Its fits, its films and what it may lose. */
export const PISTON_FITS: Keyed<Field>[] = [
  number("piston.running_clearance_mm", "Clearance when warm", "mm", { empty: "usual", hint: "Diametral, to be left." }),
  number("piston.pin_clearance_mm", "Clearance of the pin", "mm", { empty: "usual", hint: "Radial, in its bosses, warm." }),
  number("piston.soft_share", "Crown that may soften", "", { most: 1, empty: "usual", hint: "Share of its thickness." }),
  number("piston.pin_mass_g", "Pin and circlips", "g", { empty: "usual" }),
  number("piston.ring_mass_g", "One ring", "g", { empty: "usual" }),
  number("piston.underside_film_w_m2_k", "Film under the crown", "W/m²K", { empty: "usual" }),
  number("piston.wall_film_w_m2_k", "Film, rings to wall", "W/m²K", { empty: "usual" }),
];

/** What recognition may not see of a piston; what belongs to reading the mesh comes first. */
export const PISTON_BODY: Keyed<Field>[] = [
  vector("part.piston.crown_direction", "Crown direction", "From skirt to crown in the mesh, such as 0, 0, 1."),
  vector("part.piston.center_mm", "Point of its axis", "Of the cylinder axis, mm."),
  number("part.piston.diameter_mm", "Outside", "mm"),
  vector("part.piston.pin_center_mm", "Point of the pin axis", "mm."),
  number("part.piston.pin_diameter_mm", "Pin bore", "mm"),
  grooves("part.piston.grooves"),
  number("piston.crown_thickness_mm", "Crown thickness", "mm"),
  number("piston.plate_diameter_mm", "Free crown", "mm", { hint: "Diameter of the plate inside its wall." }),
];

/** What the part is, where recognition needs to be told. */
export const KIND: Keyed<Field> = choice("part.kind", "What it is", [
  ["", "recognised"],
  ["rod", "connecting rod"],
  ["piston", "piston"],
  ["any", "another part, by places and loads of the job file"],
]);

/** Ring grooves by hand: below the crown, width and depth of each. */
function grooves(key: string): Keyed<TextField> {
  const names = ["below_crown_mm", "width_mm", "depth_mm"];
  return {
    ...text(key, "Ring grooves", "Each: mm below the crown, wide, deep; such as 3 1.5 1.7; 6.5 1.5 1.7."),
    get: ({ keyed }) =>
      [...(keyed[key] ?? "").matchAll(/\{[^}]*\}/g)]
        .map(([groove]) => names.map((name) => groove.match(new RegExp(`${name} = ([^,} ]+)`))?.[1] ?? "").join(" "))
        .join("; "),
    set: ({ keyed }, value) => {
      const rows = value.split(";").map((row) => row.split(/[\s]+/).filter(Boolean)).filter((row) => row.length);
      const said = rows.map((row) => `{ ${row.map((number, index) => `${names[index] ?? "more"} = ${number}`).join(", ")} }`);
      keyed[key] = said.length ? `[${said.join(", ")}]` : undefined;
    },
  };
}
