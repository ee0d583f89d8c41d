// Fields of what lies on the crown of a piston: two layers, a coating over a plate; more stay as they were loaded.

import type { CrownLayer } from "../checker/component/interfaces/layload-parts-checker.js";
import type { JobValues } from "../checker/protocol.js";
import type { Field, NumberField, TextField } from "./fields.js";

/** Layers with fields. */
const SHOWN = 2;

/** Numbers of a layer; all but the joint are needed. */
const NUMBERS: [key: keyof CrownLayer & string, label: string, unit: string][] = [
  ["thicknessMm", "Thickness", "mm"],
  ["conductivityWMK", "Conductivity", "W/mK"],
  ["densityKgM3", "Density", "kg/m³"],
  ["specificHeatJKgK", "Specific heat", "J/kgK"],
  ["jointWM2K", "Joint below it", "W/m²K"],
];

const WHICH = ["First from the gas", "Below that"];

/** A layer of a job, made where it is not there yet; what is missing in it shows when it is read back. */
const layer = (job: JobValues, index: number) => {
  while (job.crownLayers.length <= index) job.crownLayers.push({} as CrownLayer);
  return job.crownLayers[index] as unknown as Record<string, number | string | undefined>;
};

function fieldsOf(index: number): Field[] {
  const name: TextField = {
    kind: "text",
    id: `crown-layer-${index}-name`,
    label: `${WHICH[index]}: name`,
    empty: "none",
    get: (job) => job.crownLayers[index]?.name ?? "",
    set: (job, value) => {
      if (value || index < job.crownLayers.length) layer(job, index)["name"] = value || undefined;
    },
  };
  const numbers = NUMBERS.map(
    ([key, label, unit]): NumberField => ({
      kind: "number",
      id: `crown-layer-${index}-${key}`,
      label,
      unit,
      least: 0,
      empty: key === "jointWM2K" ? "no gap" : "none",
      get: (job) => job.crownLayers[index]?.[key] as number | undefined,
      set: (job, value) => {
        if (value !== undefined || index < job.crownLayers.length) layer(job, index)[key] = value;
      },
    }),
  );
  return [name, ...numbers];
}

export const LAYERS: Field[] = Array.from({ length: SHOWN }, (_, index) => fieldsOf(index)).flat();

/** Takes out layers that say nothing; returns the field of the first number that a layer lacks, with its label. */
export function settleLayers(job: JobValues): { id: string; label: string } | undefined {
  for (const [index, each] of job.crownLayers.entries()) {
    const said = Object.values(each).some((value) => value !== undefined);
    const lacking = NUMBERS.find(([key]) => key !== "jointWM2K" && each[key] === undefined);
    if (said && lacking) return { id: `crown-layer-${index}-${lacking[0]}`, label: lacking[1] };
    if (said) each.name ||= `layer ${index + 1}`;
  }
  job.crownLayers = job.crownLayers.filter((each) => Object.values(each).some((value) => value !== undefined));
  return undefined;
}
