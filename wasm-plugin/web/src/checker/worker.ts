// The component in a worker: it answers one question at a time and knows nothing of the page.

import { type ImportObject, instantiate } from "./component/layload.js";
import core from "./component/layload.core.wasm";
import core2 from "./component/layload.core2.wasm";
import core3 from "./component/layload.core3.wasm";
import type * as Host from "./component/interfaces/layload-parts-host.js";
import type * as Checker from "./component/interfaces/layload-parts-checker.js";
import { KEYS } from "../job/fields.js";
import type { FromWorker, JobQuestion, JobTexts, JobValues, Kind, Questions, Speeds, ToWorker } from "./protocol.js";

const files: Record<string, Uint8Array<ArrayBuffer>> = {
  "layload.core.wasm": core,
  "layload.core2.wasm": core2,
  "layload.core3.wasm": core3,
};

let current = 0;
const tell = (message: FromWorker) => postMessage(message);

const host: typeof Host = {
  // The page stops a question by ending this worker, so there is never a reason to say no here.
  advance(stage, step, steps) {
    tell({ id: current, at: "stage", stage, step, steps });
    return true;
  },
};

// The glue looks the interface up without its version, whatever its own types say.
const imports = { "layload:parts/host": host } as unknown as ImportObject;

function module(path: string): WebAssembly.Module {
  const bytes = files[path];
  if (!bytes) throw new Error(`the component has an unknown part ${path}`);
  return new WebAssembly.Module(bytes);
}

const checker: typeof Checker = instantiate(module, imports).checker;
let part: Checker.Part | undefined;

/** Where the glue keeps the way to let a handle go; browsers without it get this name. */
const DISPOSE = (Symbol as { dispose?: symbol }).dispose ?? Symbol.for("dispose");

/** Lets a handle go as soon as it is not needed; waiting for the collector would keep its memory. */
function using<H extends object, R>(handle: H, use: (handle: H) => R): R {
  try {
    return use(handle);
  } finally {
    (handle as Record<symbol, (() => void) | undefined>)[DISPOSE]?.();
  }
}

function job({ values, texts }: JobQuestion): Checker.Job {
  const job = texts.file === undefined ? new checker.Job() : checker.Job.fromText(texts.file);
  job.setTitle(values.title);
  job.setEngine(values.engine);
  job.setPartNotes(values.partNotes);
  job.setPrint(values.print);
  job.setMaterial(values.material);
  job.setSurroundings(values.surroundings);
  job.setDuty(values.duty);
  for (const [key, value] of Object.entries(values.keyed)) {
    if (value !== undefined || texts.file !== undefined) job.setKey(key, value);
  }
  job.setCrownLayers(values.crownLayers);
  attach(job, texts);
  return job;
}

function attach(job: Checker.Job, { card, pressure, history }: JobTexts) {
  if (card !== undefined) job.attachCard(card);
  if (pressure !== undefined) job.attachPressureTable(pressure);
  if (history !== undefined) job.attachHistory(history);
}

function valuesOf(job: Checker.Job): JobValues {
  return {
    title: job.title(),
    engine: job.engine(),
    partNotes: job.partNotes(),
    print: job.print(),
    material: job.material(),
    surroundings: job.surroundings(),
    duty: job.duty(),
    crownLayers: job.crownLayers(),
    keyed: Object.fromEntries(KEYS.map((key) => [key, job.key(key)])),
  };
}

function loaded(): Checker.Part {
  if (!part) throw new Error("no part was loaded");
  return part;
}

/** Cells of the stress field that are usual; none for sections alone. */
const cells = (quick: boolean | undefined) => (quick ? undefined : 60_000);

function checked(job: Checker.Job, quick: boolean | undefined, speeds: Speeds | undefined): Checker.Checked {
  if (speeds) return loaded().checkAndSweep(job, true, cells(quick), speeds.from, speeds.to, speeds.count);
  return quick ? loaded().quickLook(job, true) : loaded().check(job, true);
}

const answers: { [K in Kind]: (ask: Questions[K]["ask"]) => Questions[K]["answer"] } = {
  about: () => ({ versions: checker.about(), materials: checker.materials(), cautions: checker.cautions() }),
  load: ({ stl, job: asked }) => {
    const next = using(job(asked), (job) => checker.Part.load(stl, job));
    if (part) using(part, () => {});
    part = next;
    const { pointsMm, corners } = part.surface();
    return { facts: part.facts(), poses: part.poses(), pointsMm, corners };
  },
  check: ({ job: asked, quick, speeds }) =>
    using(job(asked), (job) =>
      using(checked(job, quick, speeds), (answer) => ({
        state: answer.state(),
        verdict: answer.verdict(),
        words: answer.words(),
        life: answer.life(),
        hotSpots: answer.hotSpots(),
        stations: answer.stations(),
        utilisation: answer.facetUtilisation(),
        uncertainty: answer.uncertainty(),
        heat: answer.heat(),
        sensitivities: answer.sensitivities(),
        speeds: answer.speeds(),
        assumptions: answer.assumptions(),
        notes: answer.notes(),
        cautions: answer.cautions(),
        json: answer.json(),
      })),
    ),
  sweep: ({ job: asked, quick, from, to, count }) =>
    using(job(asked), (job) =>
      using(loaded().sweepBy(job, from, to, count, cells(quick)), (answer) => ({ points: answer.points(), json: answer.json() })),
    ),
  walls: ({ job: asked }) =>
    using(job(asked), (job) =>
      using(loaded().walls(job, undefined), (answer) => ({
        leastMm: answer.leastThicknessMm(),
        limitMm: answer.limitMm(),
        regions: answer.thinRegions(),
        steps: answer.areaSteps(),
        thicknessMm: answer.facetThicknessMm(),
        notes: answer.notes(),
        json: answer.json(),
      })),
    ),
  directions: ({ job: asked, quick, count }) =>
    using(job(asked), (job) =>
      using(loaded().directionsBy(job, count, cells(quick)), (answer) => ({
        recommended: answer.recommended(),
        reason: answer.reason(),
        named: answer.named(),
        scores: answer.scores(),
        notes: answer.notes(),
        json: answer.json(),
      })),
    ),
  jobText: ({ job: asked }) => using(job(asked), (job) => job.toText()),
  jobValues: ({ text }) =>
    using(checker.Job.fromText(text), (job) => ({ values: valuesOf(job), missing: job.missingFiles() })),
};

onmessage = ({ data }: MessageEvent<ToWorker>) => {
  current = data.id;
  try {
    const answer = (answers[data.kind] as (ask: unknown) => unknown)(data.ask);
    tell({ id: data.id, at: "answer", answer });
  } catch (error) {
    const refusal = (error as { payload?: Checker.Refusal }).payload;
    if (refusal?.tag) tell({ id: data.id, at: "refusal", refusal });
    else tell({ id: data.id, at: "breakdown", reason: String(error) });
  }
};
