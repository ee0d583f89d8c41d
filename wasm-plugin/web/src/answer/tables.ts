// Answers as tables.

import type { HotSpot, Sensitivity } from "../checker/component/interfaces/layload-parts-checker.js";
import type { CheckAnswer, WallsAnswer } from "../checker/protocol.js";
import { make } from "../dom.js";
import type { Kind } from "../part/kind.js";
import { duration, significant } from "./numbers.js";

interface Column<T> {
  head: string;
  number?: boolean;
  cell: (row: T) => string | Node;
}

/** A table that scrolls by itself in a narrow window; the first column names the row. */
export function table<T>(caption: string, columns: Column<T>[], rows: readonly T[], more?: (row: T) => string): HTMLElement {
  const head = columns.map(({ head, number }) => make("th", { scope: "col", class: number ? "number" : undefined }, head));
  const body = rows.map((row) =>
    make(
      "tr",
      { class: more?.(row) || undefined },
      ...columns.map(({ number, cell }, index) =>
        index === 0
          ? make("th", { scope: "row" }, cell(row))
          : make("td", { class: number ? "number" : undefined }, cell(row)),
      ),
    ),
  );
  return make(
    "div",
    { class: "scroll", tabindex: "0", role: "region", "aria-label": `Table: ${caption}` },
    make(
      "table",
      {},
      make("caption", { class: "unseen" }, caption),
      make("thead", {}, make("tr", {}, ...head)),
      make("tbody", {}, ...body),
    ),
  );
}

/** Every way to fail at its worst place. */
export function spots(hotSpots: HotSpot[]): HTMLElement {
  return table(
    "Ways to fail",
    [
      { head: "Way to fail", cell: ({ words }) => words },
      { head: "Worst place", cell: ({ place }) => place },
      { head: "Margin", number: true, cell: ({ margin }) => significant(margin) },
      {
        head: "90 % reach",
        number: true,
        cell: ({ lifeB10S }) => (lifeB10S === undefined ? "–" : duration(lifeB10S)),
      },
    ],
    hotSpots,
  );
}

/** What changes of the input do. */
export function changes(sensitivities: Sensitivity[]): HTMLElement {
  const factor = (value: number) => `× ${significant(value)}`;
  return table(
    "Changes",
    [
      { head: "What", cell: ({ input }) => input },
      { head: "Change", cell: ({ change }) => change },
      { head: "Life", number: true, cell: ({ lifeFactor }) => (lifeFactor === undefined ? "–" : factor(lifeFactor)) },
      { head: "Margin", number: true, cell: ({ marginFactor }) => factor(marginFactor) },
    ],
    sensitivities,
  );
}

/** Walls that are too thin. */
export function walls({ leastMm, regions, steps, notes }: WallsAnswer, kind: Kind): Node[] {
  const least = leastMm === undefined ? "" : `The thinnest wall is ${significant(leastMm)} mm. `;
  const shown: Node[] = [
    make("p", {}, `${least}${regions.length ? `${regions.length} below their limit:` : "None is below its limit."}`),
  ];
  if (regions.length) {
    shown.push(
      table(
        "Thin walls",
        [
          { head: "Where", cell: ({ place }) => place },
          { head: "Least, mm", number: true, cell: ({ leastThicknessMm }) => significant(leastThicknessMm) },
          { head: "Limit, mm", number: true, cell: ({ limitMm }) => significant(limitMm) },
          { head: "Area, mm²", number: true, cell: ({ areaMm2 }) => significant(areaMm2) },
          { head: "Why", cell: ({ reason }) => reason },
        ],
        regions.slice(0, 40),
      ),
    );
    if (regions.length > 40) shown.push(make("p", { class: "hint" }, `${regions.length - 40} smaller ones are not listed.`));
  }
  for (const step of steps) {
    shown.push(
      make(
        "p",
        {},
        `From ${kind.place(step.fromMm, significant(step.fromMm))} to ${significant(step.toMm)} mm the area goes from ` +
          `${significant(step.areaFromMm2)} to ${significant(step.areaToMm2)} mm²: peak stress ` +
          `${significant(step.concentration)} times the mean.`,
      ),
    );
  }
  return [...shown, folded("How walls are measured", list(notes))];
}

/** What an answer rests on. */
export function ground({ assumptions, notes }: CheckAnswer): Node[] {
  const value = (text: string) => (text !== "" && Number.isFinite(Number(text)) ? significant(Number(text)) : text);
  return [
    folded(
      `${assumptions.length} values and where they come from`,
      table(
        "Values",
        [
          { head: "What", cell: ({ name }) => name },
          { head: "How much", number: true, cell: (row) => `${value(row.value)}${row.unit === "1" ? "" : ` ${row.unit}`}` },
          { head: "Source", cell: ({ source, reference }) => [source.replace("-", " "), reference].filter(Boolean).join("; ") },
        ],
        assumptions,
      ),
    ),
    folded("Where the model is weak for this case", list(notes)),
  ];
}

const list = (texts: string[]) => make("ul", {}, ...texts.map((text) => make("li", {}, text)));

const folded = (title: string, content: Node) => make("details", {}, make("summary", {}, title), content);
