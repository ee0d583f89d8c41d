// The help of the checker names keys of a job file; here they are the labels of the form.

import { type Field, GROUPS, RUN_LENGTH, WANTED_LIFE } from "./fields.js";

const TABLES = ["duty", "engine", "material", "model", "part", "piston", "print", "surroundings"];

const labels = new Map<string, string>([["duty.steps", "Speed, throttle and time of a step"]]);
const ids = new Map<string, string>();
for (const { key, label, id } of [...GROUPS.flatMap(({ fields }): Field[] => fields), WANTED_LIFE, RUN_LENGTH]) {
  if (!key) continue;
  labels.set(key, label);
  ids.set(key, id);
}

/** The field of the form that fills in a key of a job, where there is one. */
export const fieldOf = (key: string): HTMLElement | null => document.getElementById(ids.get(key) ?? "");

/** Help with the labels of the form in place of keys; a key without a field is said to belong in a job file. */
export const inLabels = (help: string): string =>
  help.replaceAll(/\b[a-z_]+(?:\.[a-z_]+)+\b/g, (key) => {
    const label = labels.get(key);
    if (label) return `“${label}”`;
    return TABLES.includes(key.split(".")[0] ?? "") ? `${key} in the job file` : key;
  });
