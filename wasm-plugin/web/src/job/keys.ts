// What the plugin's records have no place for: fields that fill in a key of a job file.

import type { JobValues } from "../checker/protocol.js";
import type { ChoiceField, Field, NumberField, TextField } from "./fields.js";

type Keyed<F extends Field> = F & { key: string };

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
    id: idOf(key),
    label,
    choices,
    get: (job) => word(job, key),
    set: (job, value) => put(job, key, value),
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

const ofCap = (name: string) => `part.big_end.cap.${name}`;
export const CAP: Keyed<Field>[] = [
  number(ofCap("studs"), "Studs", "", { whole: true, empty: "two" }),
  number(ofCap("thread_mm"), "Thread", "mm", { hint: "Nominal diameter; coarse pitch." }),
  number(ofCap("grip_mm"), "Grip", "mm", { hint: "Plastic that one stud squeezes, head to thread." }),
  number(ofCap("head_mm"), "Head or washer", "mm", { empty: "usual" }),
  number(ofCap("hole_mm"), "Hole", "mm", { empty: "usual" }),
  number(ofCap("torque_n_m"), "Tightening torque", "N·m"),
];

/** Every key with a field. */
export const KEYS: readonly string[] = [...SMALL_RING, ...BIG_RING, ...CAP].map(({ key }) => key);
