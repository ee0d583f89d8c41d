// The page: what happens when.

import { area, life } from "./answer/charts.js";
import { significant, whole } from "./answer/numbers.js";
import * as tables from "./answer/tables.js";
import { advice, shown } from "./answer/verdict.js";
import { Client, NoAnswer } from "./checker/client.js";
import type { NamedFile, SpeedPoint } from "./checker/component/interfaces/layload-parts-checker.js";
import type { CheckAnswer, JobQuestion, JobTexts, JobValues, LoadedPart, Speeds, WallsAnswer } from "./checker/protocol.js";
import { DirectionsPanel } from "./directions.js";
import { byId, make } from "./dom.js";
import { type FormKind, directionOf } from "./job/fields.js";
import { BadField, Form } from "./job/form.js";
import { fieldOf, inLabels } from "./job/labels.js";
import { type Kind, kindOf } from "./part/kind.js";
import { legend } from "./part/legend.js";
import { type Quantity, thickness, utilisation } from "./part/scale.js";
import { Scene } from "./part/scene.js";

declare global {
  var layloadChecker: string;
}

/** Ends of the curve, as shares of the duty's top speed. */
const SPEEDS = [0.3, 1.8];

/** Speeds of the curve: the duty's own is among them. */
const SPEED_COUNT = 31;

/** Bead width and layer height where the job says nothing, for drawing only; the checker has its own usual values. */
const DRAWN_LAYER_MM = 0.2;

class Page {
  private readonly client = new Client(globalThis.layloadChecker);
  private readonly scene: Scene | undefined;
  private readonly directions: DirectionsPanel;
  private form!: Form;
  private texts: JobTexts = {};
  /** The file of the part, and what the form said of reading it when that was last tried. */
  private file: File | undefined;
  private readBy = "";
  private part: LoadedPart | undefined;
  private answer: CheckAnswer | undefined;
  private walls: WallsAnswer | undefined;
  private busy = false;

  constructor() {
    this.scene = this.drawing();
    this.directions = new DirectionsPanel((value, label) => this.form.chooseDirection(value, label));
  }

  async start() {
    const { versions, materials, cautions } = await this.client.ask("about", {});
    this.form = new Form(materials, () => this.changed());
    byId("cautions").replaceChildren(...cautions.map((text) => make("li", {}, text)));
    byId("about").textContent = `layload ${versions.programVersion}; everything is computed in this page.`;
    this.listen();
    document.body.dataset["ready"] = "yes";
  }

  private listen() {
    byId<HTMLInputElement>("stl").addEventListener("change", (event) => this.opened(event));
    byId<HTMLInputElement>("job-file").addEventListener("change", (event) => this.opened(event));
    byId("save-job").addEventListener("click", () => this.run(() => this.saveJob()));
    byId("save-report").addEventListener("click", () => {
      if (this.answer) save("report.json", "application/json", `${this.answer.json}\n`);
    });
    byId("cancel").addEventListener("click", () => this.client.cancel());
    byId("find-directions").addEventListener("click", () => this.run(() => this.findDirections()));
    byId("job").addEventListener("submit", (event) => {
      event.preventDefault();
      void this.run(() => this.check());
    });
    byId("paint").addEventListener("change", () => this.paint());
    byId("layers").addEventListener("change", () => this.lay());
    byId("home").addEventListener("click", () => this.scene?.home());
    const over = (event: DragEvent, on: boolean) => {
      event.preventDefault();
      document.body.classList.toggle("dropping", on);
    };
    addEventListener("dragover", (event) => over(event, true));
    addEventListener("dragleave", (event) => over(event, false));
    addEventListener("drop", (event) => {
      over(event, false);
      const files = [...(event.dataTransfer?.files ?? [])];
      void this.run(async () => {
        for (const file of files) await this.open(file);
      });
    });
  }

  /** Runs one thing at a time, shows progress, and says why it failed. */
  private async run(work: () => Promise<void>) {
    if (this.busy) return;
    this.busy = true;
    const problem = byId("problem");
    problem.hidden = true;
    byId("working").hidden = false;
    byId("ready").hidden = true;
    byId("stage").textContent = "working";
    byId<HTMLProgressElement>("progress").removeAttribute("value");
    const focused = document.activeElement;
    if (focused instanceof HTMLButtonElement && byId("ready").contains(focused)) byId("cancel").focus({ preventScroll: true });
    try {
      await work();
    } catch (error) {
      this.failed(error);
    } finally {
      this.busy = false;
      const cancelFocused = document.activeElement === byId("cancel");
      byId("working").hidden = true;
      byId("ready").hidden = false;
      if (cancelFocused) byId("check").focus({ preventScroll: true });
    }
  }

  private failed(error: unknown) {
    if (error instanceof NoAnswer && error.cancelled) {
      byId("status").textContent = "Stopped.";
      return;
    }
    const problem = byId("problem");
    const help = error instanceof NoAnswer ? error.help : "";
    const message = error instanceof Error ? error.message : String(error);
    problem.hidden = false;
    const sentence = message.charAt(0).toUpperCase() + message.slice(1);
    problem.replaceChildren(make("p", {}, make("strong", {}, `${sentence}.`)), help ? make("p", {}, `Help: ${inLabels(help)}.`) : "");
    problem.scrollIntoView({ block: "nearest" });
    const field = error instanceof BadField ? error.element : error instanceof NoAnswer && error.key ? fieldOf(error.key) : null;
    if (field) {
      field.closest("details")?.setAttribute("open", "");
      field.focus();
    }
  }

  private readonly progress = (stage: string, step: number, steps: number) => {
    byId("stage").textContent = stage;
    byId<HTMLProgressElement>("progress").value = (step - 0.5) / steps;
  };

  private async opened(event: Event) {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file) await this.run(() => this.open(file));
    // The same file can be opened again after it was changed.
    input.value = "";
  }

  private async open(file: File) {
    if (/\.toml$/i.test(file.name)) await this.loadJob(file);
    else await this.loadPart(file);
  }

  private question(): JobQuestion {
    const values = this.form.read();
    const title = byId<HTMLInputElement>("title").value.trim();
    values.title = title || undefined;
    return { values, texts: this.texts };
  }

  private kind(): Kind {
    return kindOf(this.part?.facts);
  }

  /** The part, read again where the form says of reading it something new. */
  private async readPart(): Promise<LoadedPart> {
    if (this.file && this.readBy !== readingOf(this.question())) await this.loadPart(this.file);
    if (!this.part) throw new NoAnswer("there is no part yet", "open or drop an STL first");
    return this.part;
  }

  private async loadPart(file: File) {
    byId("stage").textContent = "reading the file";
    const stl = new Uint8Array(await file.arrayBuffer());
    const question = this.question();
    this.file = file;
    this.readBy = readingOf(question);
    this.part = await this.client.load(stl, question, this.progress);
    const { facts } = this.part;
    const bores = facts.bores.map(({ diameterMm }) => significant(diameterMm)).join(" and ");
    const apart = facts.centerDistanceMm === undefined ? "" : `, ${significant(facts.centerDistanceMm)} mm between them`;
    const called = facts.bores.length === 1 ? (facts.kind === "piston" ? "pin bore" : "bore") : "bores";
    const words = `${file.name}: ${facts.kind.replace("-", " ")}, ${whole(facts.facetCount)} facets, ${called} ${bores} mm${apart}.`;
    this.form.chooseKind(facts.kind === "piston" ? "piston" : "rod");
    byId("facts").hidden = false;
    byId("facts").textContent = words;
    byId("status").textContent = words;
    this.forget();
    byId("no-part").hidden = true;
    this.scene?.show(this.part);
    await this.measureWalls();
    this.choosePaint("thickness");
    this.lay();
  }

  private async measureWalls() {
    const walls = await this.client.ask("walls", { job: this.question() }, this.progress);
    this.walls = walls;
    byId("walls-section").hidden = false;
    byId("walls").replaceChildren(...tables.walls(walls, this.kind()));
  }

  private async check() {
    await this.readPart();
    const job = this.question();
    if (!this.kind().sections) {
      if (byId<HTMLInputElement>("quick").checked) throw new NoAnswer("this part has no sections", "untick sections alone and check it again");
      await this.answered(await this.client.ask("check", { job }, this.progress), []);
      return;
    }
    // Sections first: they stand until the stress field is solved, and need no progress of their own.
    const look = await this.client.ask("check", { job, quick: true });
    if (byId<HTMLInputElement>("quick").checked) {
      await this.answered(look, await this.speeds(job, look));
      return;
    }
    this.first(look);
    const answer = await this.client.ask("check", { job, speeds: around(look) }, this.progress);
    await this.answered(answer, answer.speeds);
  }

  /** A look at sections until the answer is there. */
  private first(look: CheckAnswer) {
    byId("verdict").replaceChildren(make("p", { class: "hint" }, "A first look; the stress field is being solved."), ...shown(look));
  }

  /** Shows an answer with everything that belongs to it. */
  private async answered(answer: CheckAnswer, points: SpeedPoint[]) {
    this.answer = answer;
    byId("answer").classList.remove("stale");
    byId("verdict").replaceChildren(...shown(answer));
    byId("cautions").replaceChildren(...answer.cautions.map((text) => make("li", {}, text)));
    byId("spots-section").hidden = false;
    byId("spots").replaceChildren(tables.spots(answer.hotSpots));
    byId("changes-section").hidden = answer.sensitivities.length + answer.words.advice.length === 0;
    byId("changes").replaceChildren(advice(answer), tables.changes(answer.sensitivities));
    byId("ground-section").hidden = false;
    byId("ground").replaceChildren(...tables.ground(answer));
    byId("status").textContent = `${answer.words.word} ${answer.words.sentence}`;
    this.choosePaint("use");
    if (matchMedia("(max-width: 959px)").matches) byId("verdict-section").scrollIntoView();
    await this.measureWalls();
    if (this.kind().sections) {
      area(byId("area-chart"), answer, this.walls, this.soundWall(), this.kind());
      life(byId("life-chart"), answer, points, this.kind());
    } else {
      byId("area-chart").replaceChildren(make("p", { class: "empty" }, "A part of this kind has no sections."));
      byId("life-chart").replaceChildren(make("p", { class: "empty" }, "Life at other speeds is not drawn for a part of this kind."));
    }
  }

  /** Life at other speeds of the same duty, by sections. */
  private async speeds(job: JobQuestion, look: CheckAnswer): Promise<SpeedPoint[]> {
    return (await this.client.ask("sweep", { job, quick: true, ...around(look) }, this.progress)).points;
  }

  private async findDirections() {
    await this.readPart();
    const answer = await this.client.ask("directions", { job: this.question(), quick: byId<HTMLInputElement>("quick").checked, count: 1000 }, this.progress);
    this.directions.show(answer, byId<HTMLSelectElement>("print-direction").value);
    byId("status").textContent = answer.reason;
  }

  private async saveJob() {
    save("job.toml", "application/toml", await this.client.ask("jobText", { job: this.question() }));
    byId("status").textContent = "The job was saved as job.toml.";
  }

  private async loadJob(file: File) {
    const text = await file.text();
    const { values, missing } = await this.client.ask("jobValues", { text });
    this.texts = { file: text };
    byId<HTMLInputElement>("title").value = values.title ?? "";
    this.form.show(values);
    if (!this.part) this.form.chooseKind(kindOfJob(values));
    this.askFor(missing);
    this.changed();
    byId("status").textContent = `${file.name} was loaded.`;
  }

  /** Files that the job names have to be chosen by the user: a page cannot read them by itself. */
  private askFor(missing: NamedFile[]) {
    const host = byId("attach");
    host.hidden = missing.length === 0;
    host.replaceChildren(
      ...missing.map(({ name, purpose }, index) => {
        const input = make("input", { type: "file", id: `attach-${index}` });
        input.addEventListener("change", async () => {
          const text = await input.files?.[0]?.text();
          if (text === undefined) return;
          const named = purpose === "material-card" ? { card: text } : purpose === "history" ? { history: text } : { pressure: text };
          this.texts = { ...this.texts, ...named };
          this.changed();
        });
        return make("p", {}, make("label", { for: `attach-${index}` }, `The job names ${name}; choose it: `), input);
      }),
    );
  }

  /** Marks the answer as older than the job. */
  private changed() {
    if (this.answer) byId("answer").classList.add("stale");
    this.lay();
  }

  /** Takes away what belongs to another part. */
  private forget() {
    this.answer = undefined;
    this.walls = undefined;
    byId("answer").classList.remove("stale");
    byId("verdict").replaceChildren(make("p", { class: "empty" }, "Say what the engine does, and press Check."));
    byId("area-title").textContent = this.kind().cuts;
    for (const id of ["life-chart", "area-chart"]) byId(id).replaceChildren(make("p", { class: "empty" }, "After a check."));
    for (const id of ["spots-section", "changes-section", "ground-section", "walls-section"]) byId(id).hidden = true;
    this.directions.clear();
  }

  /** Two beads: a thinner wall cannot be printed sound. */
  private soundWall(): number {
    return this.walls?.limitMm ?? 0;
  }

  private painted(): [Quantity, Float32Array] | undefined {
    const by = byId<HTMLSelectElement>("paint").value;
    if (by === "use" && this.answer?.utilisation.length) return [utilisation(this.answer.utilisation), this.answer.utilisation];
    if (by === "thickness" && this.walls) return [thickness(this.walls.limitMm), this.walls.thicknessMm];
    return undefined;
  }

  /** Paints by what was asked for, or by the next that there is: of a piston no stress is known facet by facet. */
  private choosePaint(by: string) {
    const select = byId<HTMLSelectElement>("paint");
    const known = (value: string) =>
      value === "use" ? !!this.answer?.utilisation.length : value === "thickness" ? !!this.walls : true;
    for (const option of select.options) {
      option.disabled = !known(option.value);
      if (option.value === "use") option.textContent = `stress over what lasts${known("use") || this.kind().painted ? "" : " (by the stress field)"}`;
    }
    select.value = known(by) ? by : known("thickness") ? "thickness" : "plain";
    this.paint();
  }

  private paint() {
    const painted = this.painted();
    this.scene?.paint(painted?.[0], painted?.[1]);
    legend(byId("legend"), painted?.[0]);
  }

  /** Lays the part on the bed as the form says. */
  private lay() {
    if (!this.part) return;
    const direction = directionOf(byId<HTMLSelectElement>("print-direction").value);
    const { poses } = this.part;
    const named = poses.find(({ name, usual }) => (direction ? name === direction.tag : usual)) ?? poses[0];
    const up = direction?.tag === "along" ? direction.val : (named?.buildDirection ?? { x: 0, y: 0, z: 1 });
    const given = Number(byId<HTMLInputElement>("print-layerHeightMm").value.replace(",", "."));
    const layer = given > 0 ? given : DRAWN_LAYER_MM;
    const lines = byId<HTMLInputElement>("layers").checked;
    const each = this.scene?.lay(up, layer, lines) ?? 1;
    byId("layer-words").textContent = lines
      ? `A line every ${each} layers of ${layer} mm, stacked upward from the bed. Press a facet for its value.`
      : "Press a facet for its value.";
    this.directions.mark(up);
  }

  private drawing(): Scene | undefined {
    try {
      return new Scene(byId<HTMLCanvasElement>("part-canvas"), (facet) => {
        const painted = this.painted();
        const value = facet === undefined ? undefined : painted?.[1][facet];
        if (!painted || value === undefined) return;
        const { title, unit } = painted[0];
        const text = Number.isFinite(value) ? `${significant(value)} ${unit}` : "not measured";
        byId("layer-words").textContent = `${title} of facet ${facet}: ${text.trim()}.`;
      });
    } catch {
      byId("no-drawing").hidden = false;
      byId("part-canvas").hidden = true;
      return undefined;
    }
  }
}

/** Speeds round that of the duty. */
function around({ verdict }: CheckAnswer): Speeds {
  const [from, to] = SPEEDS.map((share) => verdict.dutyRpm * share) as [number, number];
  return { from, to, count: SPEED_COUNT };
}

/** Hands the user a file. */
function save(name: string, type: string, text: string) {
  const link = make("a", { download: name, href: URL.createObjectURL(new Blob([text], { type })) });
  link.click();
  URL.revokeObjectURL(link.href);
}

/** What a question says of reading the mesh. */
function readingOf({ values }: JobQuestion): string {
  const keyed = Object.entries(values.keyed).filter(([key]) => key === "part.kind" || key.startsWith("part.piston."));
  return JSON.stringify([values.partNotes.meshUnit, values.partNotes.pinAxis, keyed]);
}

/** The form that a job is for, before there is a part. */
function kindOfJob({ keyed, crownLayers }: JobValues): FormKind {
  const piston = Object.entries(keyed).some(([key, value]) => value !== undefined && /^(part\.)?piston\./.test(key));
  return piston || crownLayers.length > 0 || keyed["part.kind"] === '"piston"' ? "piston" : "rod";
}

new Page().start().catch((error: unknown) => {
  const problem = byId("problem");
  problem.hidden = false;
  problem.textContent = `The checker did not start: ${error instanceof Error ? error.message : String(error)}`;
});
