// What the form asks for: every field with its unit and where it goes in a job.

import type { JobValues } from "../checker/protocol.js";
import { LAYERS } from "./layers.js";
import {
  BIG_RING,
  BIG_RUNS,
  CAP,
  KIND,
  type Keyed,
  PEAKS,
  PISTON_BODY,
  PISTON_FITS,
  PISTON_RUN,
  SMALL_RING,
  SMALL_RUNS,
  WARMTH,
} from "./keys.js";
import type { BuildDirection, Vector } from "../checker/component/interfaces/layload-parts-checker.js";

interface Common {
  id: string;
  label: string;
  /** Its key in a job file, by which help names it. */
  key?: string;
  /** What to know before filling it in. */
  hint?: string;
  /** Whether a check cannot do without it. */
  needed?: boolean;
  /** What leaving it empty means, where that is not the usual value. */
  empty?: string;
  /** The kind of part that it belongs to, where it is not every part's. */
  of?: FormKind;
}

/** Kinds of part with fields of their own. */
export type FormKind = "rod" | "piston";

export interface NumberField extends Common {
  kind: "number";
  unit: string;
  least?: number;
  most?: number;
  whole?: boolean;
  get: (job: JobValues) => number | undefined;
  set: (job: JobValues, value: number | undefined) => void;
}

export interface ChoiceField extends Common {
  kind: "choice";
  choices: [value: string, label: string][];
  /** Labels that read otherwise for a piston, by value. */
  ofPiston?: Record<string, string>;
  get: (job: JobValues) => string;
  set: (job: JobValues, value: string) => void;
}

export interface TextField extends Common {
  kind: "text";
  get: (job: JobValues) => string;
  set: (job: JobValues, value: string) => void;
}

export type Field = NumberField | ChoiceField | TextField;

export interface Group {
  id: string;
  title: string;
  fields: Field[];
  /** Shown folded away: most jobs leave it alone. */
  folded?: boolean;
  /** The kind of part that it belongs to, where it is not every part's. */
  of?: FormKind;
}

type Tables = Pick<JobValues, "engine" | "print" | "material" | "surroundings" | "duty">;

/** A number that sits in a table of the job under its own name. */
function number<T extends keyof Tables>(
  table: T,
  key: keyof Tables[T] & string,
  label: string,
  unit: string,
  more: Partial<NumberField> = {},
): NumberField {
  return {
    kind: "number",
    id: `${table}-${key}`,
    key: `${table}.${key.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)}`,
    label,
    unit,
    ...more,
    get: (job) => (job[table] as Record<string, unknown>)[key] as number | undefined,
    set: (job, value) => {
      (job[table] as Record<string, unknown>)[key] = value;
    },
  };
}

const clearance = (eye: "smallEnd" | "bigEnd", label: string): NumberField => ({
  kind: "number",
  id: `clearance-${eye}`,
  key: eye === "smallEnd" ? "part.small_end.radial_clearance_mm" : "part.big_end.radial_clearance_mm",
  label,
  unit: "mm",
  of: "rod",
  least: 0,
  hint: "Radial, warm and running; 0 for a pressed ring.",
  get: (job) => job.partNotes[eye].radialClearanceMm,
  set: (job, value) => {
    setOrDrop(job.partNotes[eye], "radialClearanceMm", value);
  },
});

function setOrDrop<T extends object, K extends keyof T>(table: T, key: K, value: T[K] | undefined) {
  if (value === undefined) delete table[key];
  else table[key] = value;
}

/** A direction as text, for the choice of a direction found by the search. */
export const directionText = ({ x, y, z }: Vector) => `${x},${y},${z}`;

export function directionOf(choice: string): BuildDirection | undefined {
  if (choice === "") return undefined;
  if (choice === "flat" || choice === "on-edge" || choice === "upright") return { tag: choice };
  const [x = 0, y = 0, z = 0] = choice.split(",").map(Number);
  return { tag: "along", val: { x, y, z } };
}

export const GROUPS: Group[] = [
  {
    id: "engine",
    title: "Engine",
    fields: [
      {
        kind: "choice",
        id: "engine-strokes",
        key: "engine.strokes",
        label: "Working cycle",
        choices: [
          ["", "usual: four"],
          ["four", "four-stroke"],
          ["two", "two-stroke"],
        ],
        get: (job) => job.engine.strokes ?? "",
        set: (job, value) => setOrDrop(job.engine, "strokes", value === "two" || value === "four" ? value : undefined),
      },
      number("engine", "boreMm", "Cylinder bore", "mm", { needed: true, least: 0 }),
      number("engine", "strokeMm", "Stroke", "mm", { needed: true, least: 0 }),
      number("engine", "reciprocatingMassG", "Piston, rings and pin", "g", { needed: true, least: 0 }),
      number("engine", "compressionRatio", "Compression ratio", "", { least: 1 }),
      number("engine", "peakPressureBar", "Peak pressure", "bar", {
        key: "engine.gas.peak_pressure_bar",
        least: 0,
        hint: "Absolute, at open throttle. Left empty, a cycle model estimates it.",
      }),
      SMALL_RUNS,
      BIG_RUNS,
    ],
  },
  { id: "piston", title: "Piston in its cylinder", of: "piston", fields: PISTON_RUN },
  {
    id: "print",
    title: "Print",
    fields: [
      {
        kind: "choice",
        id: "print-direction",
        key: "print.build_direction",
        label: "Build direction",
        choices: [
          ["", "usual: flat"],
          ["flat", "flat, pin axes upright"],
          ["on-edge", "on its edge"],
          ["upright", "upright"],
        ],
        ofPiston: {
          "": "usual: axis upright",
          flat: "lying, pin upright",
          "on-edge": "lying, pin level",
          upright: "axis upright",
        },
        get: ({ print: { buildDirection: direction } }) =>
          direction ? (direction.tag === "along" ? directionText(direction.val) : direction.tag) : "",
        set: (job, value) => setOrDrop(job.print, "buildDirection", directionOf(value)),
      },
      number("print", "beadWidthMm", "Bead width", "mm", { least: 0 }),
      number("print", "layerHeightMm", "Layer height", "mm", { least: 0 }),
      number("print", "walls", "Walls", "beads", { least: 0, whole: true }),
      number("print", "skinLayers", "Skins", "layers", { least: 0, whole: true }),
      number("print", "infillPercent", "Inside", "%", { least: 0, most: 100 }),
    ],
  },
  {
    id: "material",
    title: "Material",
    fields: [
      {
        kind: "choice",
        id: "material-name",
        key: "material.name",
        label: "Family",
        needed: true,
        choices: [["", "choose one"]],
        get: (job) => job.material.name ?? "",
        set: (job, value) => setOrDrop(job.material, "name", value || undefined),
      },
      {
        kind: "choice",
        id: "material-moisture",
        key: "material.moisture",
        label: "Moisture",
        choices: [
          ["", "usual"],
          ["dry", "dried and kept dry"],
          ["conditioned", "as in a room"],
        ],
        get: (job) => job.material.moisture ?? "",
        set: (job, value) =>
          setOrDrop(job.material, "moisture", value === "dry" || value === "conditioned" ? value : undefined),
      },
      number("material", "temperatureC", "Part temperature", "°C", {
        hint: "Left empty, the heat of loads and surroundings decides.",
      }),
    ],
  },
  {
    id: "surroundings",
    title: "Surroundings and fits",
    folded: true,
    fields: [
      number("surroundings", "crankcaseAirC", "Crankcase air", "°C"),
      number("surroundings", "pistonPinC", "Piston pin", "°C"),
      number("surroundings", "crankPinC", "Crank pin", "°C", { of: "rod" }),
      number("surroundings", "startC", "Before a run", "°C", { hint: "The part, cold." }),
      clearance("smallEnd", "Clearance, small end"),
      clearance("bigEnd", "Clearance, big end"),
      KIND,
      {
        kind: "choice",
        id: "mesh-unit",
        key: "part.mesh_unit",
        label: "Unit of the mesh",
        choices: [
          ["", "usual: mm"],
          ["millimetre", "millimetres"],
          ["centimetre", "centimetres"],
          ["inch", "inches"],
          ["metre", "metres"],
        ],
        get: (job) => job.partNotes.meshUnit ?? "",
        set: (job, value) =>
          setOrDrop(
            job.partNotes,
            "meshUnit",
            value === "millimetre" || value === "centimetre" || value === "inch" || value === "metre"
              ? value
              : undefined,
          ),
      },
    ],
  },
  { id: "peaks", title: "Spread of peak pressure, knock", folded: true, fields: PEAKS },
  { id: "warmth", title: "Warmth of the print: how well layers bond", folded: true, fields: WARMTH },
  { id: "small-ring", title: "Bearing or bush, small end", folded: true, of: "rod", fields: SMALL_RING },
  { id: "big-ring", title: "Bearing or bush, big end", folded: true, of: "rod", fields: BIG_RING },
  { id: "cap", title: "Split big end: clamped cap", folded: true, of: "rod", fields: CAP },
  { id: "crown-layers", title: "Plate or coating on the crown", folded: true, of: "piston", fields: LAYERS },
  { id: "piston-fits", title: "Fits, rings and films", folded: true, of: "piston", fields: PISTON_FITS },
  { id: "piston-body", title: "Recognition by hand", folded: true, of: "piston", fields: PISTON_BODY },
];

const isKeyed = (field: Field): field is Keyed<Field> => "keyed" in field;

/** Every key of a job file that a field fills in by its text, wherever in the form it stands. */
export const KEYS: readonly string[] = GROUPS.flatMap(({ fields }) => fields.filter(isKeyed)).map(({ key }) => key);

export const WANTED_LIFE = number("duty", "wantedLifeH", "Wanted life", "h", { least: 0 });
export const RUN_LENGTH = number("duty", "runS", "One run from cold", "s", {
  least: 0,
  hint: "Left empty, runs are long enough for heat to settle.",
});

/** A job that says nothing. */
export const emptyJob = (): JobValues => ({
  engine: {},
  partNotes: { smallEnd: {}, bigEnd: {} },
  print: {},
  material: {},
  surroundings: {},
  duty: { steps: [] },
  keyed: {},
  crownLayers: [],
});
