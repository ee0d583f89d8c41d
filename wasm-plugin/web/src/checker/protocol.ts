// What page and worker say to each other.

import type {
  AnswerWords,
  AreaStep,
  Assumption,
  CrownLayer,
  DirectionScore,
  Duty,
  Engine,
  Facts,
  Uncertainty,
  Heat,
  HotSpot,
  Life,
  Material,
  MaterialFamily,
  NamedDirection,
  NamedFile,
  PartNotes,
  Pose,
  Print,
  Refusal,
  Sensitivity,
  SpeedPoint,
  Station,
  Surroundings,
  ThinRegion,
  Verdict,
  Versions,
} from "./component/interfaces/layload-parts-checker.js";

/** A job as the form holds it. */
export interface JobValues {
  title?: string | undefined;
  engine: Engine;
  partNotes: PartNotes;
  print: Print;
  material: Material;
  surroundings: Surroundings;
  duty: Duty;
  /** What stands under keys that no record has, in the words of a job file. */
  keyed: Record<string, string | undefined>;
  /** What lies on the crown of a piston, from the gas down. */
  crownLayers: CrownLayer[];
}

/** Texts beside the form: the file it came from, so that keys without a field stay, and the files that names. */
export interface JobTexts {
  file?: string | undefined;
  card?: string | undefined;
  pressure?: string | undefined;
  history?: string | undefined;
}

export interface JobQuestion {
  values: JobValues;
  texts: JobTexts;
}

export interface LoadedPart {
  facts: Facts;
  poses: Pose[];
  pointsMm: Float32Array;
  corners: Uint32Array;
}

/** Top speeds to look at, rpm. */
export interface Speeds {
  from: number;
  to: number;
  count: number;
}

export interface CheckAnswer {
  /** `holds`, `holds-unproven`, `holds-unchecked`, `no-fault-found` or `fails`. */
  state: string;
  verdict: Verdict;
  words: AnswerWords;
  life: Life;
  hotSpots: HotSpot[];
  stations: Station[];
  utilisation: Float32Array;
  uncertainty: Uncertainty;
  heat: Heat;
  sensitivities: Sensitivity[];
  speeds: SpeedPoint[];
  assumptions: Assumption[];
  notes: string[];
  cautions: string[];
  json: string;
}

export interface WallsAnswer {
  leastMm: number | undefined;
  limitMm: number;
  regions: ThinRegion[];
  steps: AreaStep[];
  thicknessMm: Float32Array;
  notes: string[];
  json: string;
}

export interface DirectionsAnswer {
  recommended: DirectionScore;
  reason: string;
  named: NamedDirection[];
  scores: DirectionScore[];
  notes: string[];
  json: string;
}

/** Each question with its answer. */
export interface Questions {
  about: { ask: Record<string, never>; answer: { versions: Versions; materials: MaterialFamily[]; cautions: string[] } };
  load: { ask: { stl: Uint8Array; job: JobQuestion }; answer: LoadedPart };
  /** By the stress field, unless it is to be quick: then by sections alone, which is no answer. With speeds, the life at each. */
  check: { ask: { job: JobQuestion; quick?: boolean; speeds?: Speeds }; answer: CheckAnswer };
  sweep: { ask: { job: JobQuestion; quick?: boolean } & Speeds; answer: { points: SpeedPoint[]; json: string } };
  walls: { ask: { job: JobQuestion }; answer: WallsAnswer };
  directions: { ask: { job: JobQuestion; quick?: boolean; count: number }; answer: DirectionsAnswer };
  jobText: { ask: { job: JobQuestion }; answer: string };
  jobValues: { ask: { text: string }; answer: { values: JobValues; missing: NamedFile[] } };
}

export type Kind = keyof Questions;

export type ToWorker = { [K in Kind]: { id: number; kind: K; ask: Questions[K]["ask"] } }[Kind];

export type FromWorker =
  | { id: number; at: "stage"; stage: string; step: number; steps: number }
  | { id: number; at: "answer"; answer: unknown }
  | { id: number; at: "refusal"; refusal: Refusal }
  | { id: number; at: "breakdown"; reason: string };
