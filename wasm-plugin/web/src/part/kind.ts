// What a part is called, and what its cuts are counted along.

import type { Facts } from "../checker/component/interfaces/layload-parts-checker.js";

export interface Kind {
  /** The word for one part in a sentence. */
  noun: string;
  /** Title of the chart of cuts. */
  cuts: string;
  /** The axis that cuts are counted along, without unit. */
  axis: string;
  /** A place along that axis, mm, in words; `at` is already written as a number. */
  place: (mm: number, at: string) => string;
  /** Whether a check without the stress field knows the stress of every facet. */
  painted: boolean;
  /** Whether it has sections, by which it is answered without the stress field. */
  sections: boolean;
}

const ROD: Kind = {
  noun: "rod",
  cuts: "Section along the rod",
  axis: "from the small-end centre",
  place: (_, at) => `${at} mm from the small-end centre`,
  painted: true,
  sections: true,
};

const PISTON: Kind = {
  noun: "piston",
  cuts: "Section from skirt to crown",
  axis: "height over the pin",
  place: (mm, at) => (mm < 0 ? `${at.replace(/^-/, "")} mm under the pin` : `${at} mm over the pin`),
  painted: false,
  sections: true,
};

/** Kinds that later versions of the plugin know. */
const OTHER: Kind = {
  noun: "part",
  cuts: "Section along the load path",
  axis: "along the load path",
  place: (_, at) => `${at} mm along the load path`,
  painted: true,
  sections: true,
};

/** A part by places, holds and loads of the job file, for which the page has no fields. */
const ANY: Kind = { ...OTHER, cuts: "Sections", painted: false, sections: false };

export function kindOf(facts: Facts | undefined): Kind {
  if (!facts || facts.kind === "connecting-rod") return ROD;
  if (facts.kind === "any") return ANY;
  return facts.kind === "piston" ? PISTON : OTHER;
}
