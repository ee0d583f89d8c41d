// The panel of build directions: the sphere, and the same as a table.

import { duration, significant } from "./answer/numbers.js";
import { table } from "./answer/tables.js";
import type { DirectionScore, Vector } from "./checker/component/interfaces/layload-parts-checker.js";
import type { DirectionsAnswer } from "./checker/protocol.js";
import { byId, make } from "./dom.js";
import { directionText } from "./job/fields.js";
import { cssColorOf } from "./part/scale.js";
import { Sphere, marginScale } from "./part/sphere.js";

interface Row {
  name: string;
  value: string;
  score: DirectionScore;
}

/** Directions of the Pareto set that are listed beside the named ones. */
const LISTED = 8;

export class DirectionsPanel {
  private sphere: Sphere | undefined;
  private current = "";

  constructor(private readonly choose: (value: string, label: string) => void) {}

  clear() {
    this.sphere = undefined;
    const words = "Press “Which way up?” to score build directions.";
    byId("directions").replaceChildren(make("p", { class: "empty" }, words));
  }

  show({ recommended, reason, named, scores, notes }: DirectionsAnswer, current: string) {
    this.current = current;
    const canvas = make("canvas", {
      role: "img",
      "aria-label": `${scores.length} build directions on a sphere, coloured by margin. The table beside it lists the best.`,
    });
    const scale = marginScale(scores);
    const known = named.map(({ score }) => score.buildDirection);
    const rows: Row[] = [
      { name: "Recommended", value: directionText(recommended.buildDirection), score: recommended },
      ...named.map(({ name, score }) => ({ name: capital(name.replace("-", " ")), value: name, score })),
      ...scores
        .filter(({ pareto, buildDirection }) => pareto && !known.some((other) => same(buildDirection, other)))
        .sort((a, b) => b.margin - a.margin)
        .slice(0, LISTED)
        .map((score) => ({ name: words(score.buildDirection), value: directionText(score.buildDirection), score })),
    ];
    const button = (row: Row) => {
      const mark = make("span", { "aria-hidden": "true" }, "● ");
      mark.style.color = cssColorOf(scale, row.score.margin);
      const press = make("button", { type: "button", class: "quiet", "data-direction": row.value }, mark, row.name);
      press.addEventListener("click", () => this.take(row.value, row.name));
      return press;
    };
    const list = table<Row>(
      "Build directions",
      [
        { head: "Lay it", cell: button },
        { head: "Margin", number: true, cell: ({ score }) => significant(score.margin) },
        { head: "Print", number: true, cell: ({ score }) => duration(score.printTimeS) },
        { head: "Supported, mm²", number: true, cell: ({ score }) => significant(score.supportAreaMm2) },
        { head: "Bore steps, mm", number: true, cell: ({ score }) => (score.stairStepMm < 0.001 ? "0" : significant(score.stairStepMm)) },
      ],
      rows,
    );
    const hint = make(
      "p",
      { class: "hint" },
      "Pale blue is strong, deep red weak; larger points are beaten by no other in margin, print time, supports and " +
        "bores together. Press a point or a button to lay the part so.",
    );
    byId("directions").replaceChildren(
      make("div", {}, make("div", { class: "canvas" }, canvas), hint),
      make(
        "div",
        {},
        make("p", {}, reason),
        list,
        make("details", {}, make("summary", {}, "How directions are scored"), make("ul", {}, ...notes.map((note) => make("li", {}, note)))),
      ),
    );
    try {
      this.sphere = new Sphere(canvas, ({ buildDirection }) =>
        this.take(directionText(buildDirection), words(buildDirection)),
      );
      this.sphere.show(scores);
    } catch {
      // Without a drawing the table says the same.
      canvas.parentElement?.remove();
    }
    this.highlight();
  }

  mark(direction: Vector | undefined) {
    this.sphere?.mark(direction);
    this.current = byId<HTMLSelectElement>("print-direction").value;
    this.highlight();
  }

  private take(value: string, name: string) {
    this.choose(value, name);
    byId("status").textContent = `The part now lies ${name.toLowerCase()}. Check again for the verdict.`;
  }

  private highlight() {
    for (const press of byId("directions").querySelectorAll<HTMLElement>("[data-direction]")) {
      const on = press.dataset["direction"] === this.current;
      press.setAttribute("aria-pressed", String(on));
      press.closest("tr")?.classList.toggle("current", on);
    }
  }
}

/** Whether two directions lay a part the same way, apart from up and down. */
const same = (a: Vector, b: Vector) => Math.abs(a.x * b.x + a.y * b.y + a.z * b.z) > 0.9999;

const capital = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

const words = ({ x, y, z }: Vector) => [x, y, z].map((part) => (Math.round(part * 100) / 100 + 0).toFixed(2)).join(", ");
