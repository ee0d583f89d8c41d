// The page's side of the worker: questions in order, progress, cancelling, and a new worker after a breakdown.

import type { FromWorker, JobQuestion, Kind, Questions, ToWorker } from "./protocol.js";

/** Why there is no answer, for the user. */
export class NoAnswer extends Error {
  constructor(
    message: string,
    readonly help: string,
    readonly cancelled = false,
    /** Key of the job that it is about. */
    readonly key?: string,
  ) {
    super(message);
  }
}

export type Progress = (stage: string, step: number, steps: number) => void;

interface Waiting {
  resolve: (answer: never) => void;
  reject: (reason: NoAnswer) => void;
  progress: Progress | undefined;
}

const stopped = () => new NoAnswer("stopped on request", "press the button again to start over", true);

/** One checker, with the part it holds. */
export class Client {
  private worker: Worker | undefined;
  private next = 1;
  private readonly waiting = new Map<number, Waiting>();
  /** What has to be loaded again into a new worker. */
  private part: { stl: Uint8Array; job: JobQuestion } | undefined;
  private partHeld = false;
  private readonly url: string;

  constructor(program: string) {
    this.url = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
  }

  /** Asks one question; a question about the part brings the part along if the worker is new. */
  async ask<K extends Kind>(kind: K, ask: Questions[K]["ask"], progress?: Progress): Promise<Questions[K]["answer"]> {
    const aboutPart = kind === "check" || kind === "sweep" || kind === "walls" || kind === "directions";
    if (aboutPart && !this.partHeld && this.part) await this.load(this.part.stl, this.part.job, progress);
    return this.send(kind, ask, progress);
  }

  /** Reads a part; it is kept so that cancelling does not lose it. */
  async load(stl: Uint8Array, job: JobQuestion, progress?: Progress): Promise<Questions["load"]["answer"]> {
    const answer = await this.send("load", { stl, job }, progress);
    this.part = { stl, job };
    this.partHeld = true;
    return answer;
  }

  /** Ends whatever runs. */
  cancel() {
    this.end(stopped());
  }

  private send<K extends Kind>(kind: K, ask: Questions[K]["ask"], progress?: Progress): Promise<Questions[K]["answer"]> {
    const worker = (this.worker ??= this.start());
    const id = this.next++;
    return new Promise((resolve, reject) => {
      this.waiting.set(id, { resolve, reject, progress });
      worker.postMessage({ id, kind, ask } as ToWorker);
    });
  }

  private start(): Worker {
    const worker = new Worker(this.url);
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => this.hear(data);
    worker.onerror = (event) => {
      event.preventDefault();
      this.broken(event.message || "the checker did not start");
    };
    return worker;
  }

  private hear(message: FromWorker) {
    const waiting = this.waiting.get(message.id);
    if (!waiting) return;
    if (message.at === "stage") {
      waiting.progress?.(message.stage, message.step, message.steps);
      return;
    }
    if (message.at === "breakdown") {
      this.broken(message.reason);
      return;
    }
    this.waiting.delete(message.id);
    if (message.at === "answer") {
      waiting.resolve(message.answer as never);
    } else if (message.refusal.tag === "cancelled") {
      waiting.reject(stopped());
    } else {
      const { message: sentence, help, key } = message.refusal.val;
      waiting.reject(new NoAnswer(sentence, help, false, key));
    }
  }

  private broken(reason: string) {
    this.end(new NoAnswer(`the checker broke down: ${reason}`, "export the mesh coarser and try again"));
  }

  private end(reason: NoAnswer) {
    this.worker?.terminate();
    this.worker = undefined;
    this.partHeld = false;
    const waiting = [...this.waiting.values()];
    this.waiting.clear();
    for (const { reject } of waiting) reject(reason);
  }
}
