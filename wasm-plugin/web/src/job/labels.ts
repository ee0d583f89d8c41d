// The help of the checker names keys of a job file; here they are the labels of the form.

import { type Field, GROUPS, RUN_LENGTH, WANTED_LIFE } from "./fields.js";

const TABLES = ["duty", "engine", "material", "model", "part", "piston", "print", "surroundings"];

const labels = new Map<string, string>([["duty.steps", "Speed, throttle and time of a step"]]);
for (const { key, label } of [...GROUPS.flatMap(({ fields }): Field[] => fields), WANTED_LIFE, RUN_LENGTH]) {
  if (key) labels.set(key, label);
}

/** Help with the labels of the form in place of keys; a key without a field is said to belong in a job file. */
export const inLabels = (help: string): string =>
  help.replaceAll(/\b[a-z_]+(?:\.[a-z_]+)+\b/g, (key) => {
    const label = labels.get(key);
    if (label) return `“${label}”`;
    return TABLES.includes(key.split(".")[0] ?? "") ? `${key} in the job file` : key;
  });
