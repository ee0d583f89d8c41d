// Life against speed, and the section along the load path.

import * as Plot from "@observablehq/plot";
import type { SpeedPoint, Station } from "../checker/component/interfaces/layload-parts-checker.js";
import type { CheckAnswer, WallsAnswer } from "../checker/protocol.js";
import { byId, make } from "../dom.js";
import type { Kind } from "../part/kind.js";
import { duration, significant, whole } from "./numbers.js";
import { table } from "./tables.js";

/** Lives beyond these ends are drawn at them: nobody tests for longer, and a shorter one is no run. */
const SHORTEST_H = 1 / 3600;
const LONGEST_H = 1e4;

const hours = (seconds: number) => Math.min(Math.max(seconds / 3600, SHORTEST_H), LONGEST_H);

const key = (...entries: [color: string, shape: string, text: string][]) =>
  make(
    "p",
    { class: "key" },
    ...entries.map(([color, shape, text]) => {
      const mark = make("i", { class: shape });
      mark.style.borderColor = color;
      if (shape === "dot") mark.style.background = color;
      return make("span", {}, mark, text);
    }),
  );

function figure(plot: Node, label: string, ...rest: Node[]): HTMLElement {
  if (plot instanceof Element) {
    plot.setAttribute("role", "img");
    plot.setAttribute("aria-label", label);
    // The library names its groups by how they are drawn, which says nothing; the label says what they show.
    for (const group of plot.querySelectorAll("g[aria-label]")) group.removeAttribute("aria-label");
  }
  return make("figure", {}, plot, ...rest);
}

/** Life against speed with what is wanted. */
export function life(host: HTMLElement, { verdict }: CheckAnswer, points: SpeedPoint[], { noun }: Kind) {
  const wanted = hours(verdict.wantedLifeS);
  const ticks = new Map([
    [SHORTEST_H, "1 s"],
    [1 / 60, "1 min"],
    [1, "1 h"],
    [10, "10 h"],
    [100, "100 h"],
    [1000, "1000 h"],
    [LONGEST_H, "10\u202f000 h"],
  ]);
  const plot = Plot.plot({
    width: Math.max(host.clientWidth, 280),
    height: 280,
    marginLeft: 70,
    marginRight: 24,
    marginBottom: 40,
    marginTop: 26,
    x: { label: "top speed of the duty, rpm →", tickFormat: whole, ticks: 5, grid: true },
    y: {
      type: "log",
      domain: [SHORTEST_H, LONGEST_H],
    },
    marks: [
      Plot.gridY([...ticks.keys()]),
      // With its own text: the library leaves out labels of a logarithmic axis that it finds too many.
      Plot.axisY([...ticks.keys()], { text: [...ticks.values()], label: "↑ running time" }),
      Plot.ruleY([wanted], { stroke: "var(--mark)", strokeDasharray: "6 4", strokeWidth: 2 }),
      Plot.ruleX([verdict.dutyRpm], { stroke: "currentColor", strokeOpacity: 0.45 }),
      Plot.line(points, { x: "rpm", y: (p: SpeedPoint) => hours(p.lifeB50S), stroke: "var(--curve-two)", strokeWidth: 2 }),
      Plot.line(points, { x: "rpm", y: (p: SpeedPoint) => hours(p.lifeB10S), stroke: "var(--curve)", strokeWidth: 3 }),
      Plot.dot(points, { x: "rpm", y: (p: SpeedPoint) => hours(p.lifeB10S), fill: "var(--curve)", r: 2.5 }),
    ],
  });
  const numbers = make(
    "details",
    {},
    make("summary", {}, "As numbers"),
    table(
      "Life against speed",
      [
        { head: "rpm", number: true, cell: ({ rpm }) => whole(rpm) },
        { head: "90 % reach", number: true, cell: ({ lifeB10S }) => duration(lifeB10S) },
        { head: "50 % reach", number: true, cell: ({ lifeB50S }) => duration(lifeB50S) },
        { head: "first to fail", cell: ({ governingWords, governingPlace }) => `${governingWords}, ${governingPlace}` },
      ],
      points,
    ),
  );
  host.replaceChildren(
    figure(
      plot,
      `Running time that 90 % and 50 % of ${noun}s reach, from ${whole(points[0]?.rpm ?? 0)} to ` +
        `${whole(points.at(-1)?.rpm ?? 0)} rpm; wanted ${duration(verdict.wantedLifeS)}.`,
      key(
        ["var(--curve)", "", `90 % of ${noun}s reach`],
        ["var(--curve-two)", "", "50 % reach"],
        ["var(--mark)", "dashed", `wanted: ${duration(verdict.wantedLifeS)}`],
      ),
      numbers,
    ),
  );
}

/** Section area of the cuts, with flags. */
export function area(host: HTMLElement, { stations }: CheckAnswer, walls: WallsAnswer | undefined, sound: number, kind: Kind) {
  const thin = stations.filter(({ thinnestWallMm }) => thinnestWallMm !== undefined && thinnestWallMm < sound);
  const most = stations.reduce<Station | undefined>(
    (worst, station) => (worst && worst.utilisation >= station.utilisation ? worst : station),
    undefined,
  );
  const steps = walls?.steps ?? [];
  const plot = Plot.plot({
    width: Math.max(host.clientWidth, 280),
    height: 280,
    marginLeft: 50,
    marginBottom: 40,
    marginTop: 26,
    x: { label: `${kind.axis}, mm →`, grid: true, ticks: 6 },
    y: { label: "↑ area, mm²", zero: true, grid: true, ticks: 5 },
    marks: [
      Plot.rectX(steps, { x1: "fromMm", x2: "toMm", fill: "var(--curve-two)", fillOpacity: 0.25 }),
      Plot.areaY(stations, { x: "positionMm", y: "areaMm2", fill: "var(--curve)", fillOpacity: 0.12 }),
      Plot.line(stations, { x: "positionMm", y: "areaMm2", stroke: "var(--curve)", strokeWidth: 2.5 }),
      Plot.line(stations, { x: "positionMm", y: "solidAreaMm2", stroke: "var(--curve)", strokeDasharray: "3 3" }),
      Plot.ruleX(most ? [most] : [], { x: "positionMm", stroke: "currentColor", strokeOpacity: 0.6 }),
      Plot.dot(thin, { x: "positionMm", y: "areaMm2", fill: "var(--mark)", r: 4 }),
    ],
  });
  const worst = most
    ? `The most used cut is ${kind.place(most.positionMm, significant(most.positionMm))}: ` +
      `${significant(most.utilisation * 100)} % of its strength.`
    : "";
  const numbers = make(
    "details",
    {},
    make("summary", {}, "As numbers"),
    table(
      kind.cuts,
      [
        { head: `${kind.axis}, mm`, number: true, cell: ({ positionMm }) => significant(positionMm) },
        { head: "area, mm²", number: true, cell: ({ areaMm2 }) => significant(areaMm2) },
        { head: "thinnest wall, mm", number: true, cell: (s) => (s.thinnestWallMm ? significant(s.thinnestWallMm) : "–") },
        { head: "stress, MPa", number: true, cell: (s) => `${significant(s.stressMinMpa)} to ${significant(s.stressMaxMpa)}` },
        { head: "of strength, %", number: true, cell: ({ utilisation }) => significant(utilisation * 100) },
        { head: "°C", number: true, cell: ({ temperatureC }) => temperatureC.toFixed(0) },
      ],
      stations,
    ),
  );
  const entries: [string, string, string][] = [
    ["var(--curve)", "", "area"],
    ["var(--curve)", "dashed", "printed solid"],
    ["currentColor", "", "most used"],
  ];
  byId("area-title").textContent = kind.cuts;
  if (thin.length) entries.push(["var(--mark)", "dot", `wall under ${significant(sound)} mm`]);
  if (steps.length) entries.push(["var(--curve-two)", "", "sudden step"]);
  host.replaceChildren(
    figure(plot, `${kind.cuts}: area of ${stations.length} cuts. ${worst}`, key(...entries), make("p", {}, worst), numbers),
  );
}
