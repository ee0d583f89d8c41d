// The verdict: its sentences are the plugin's own, those that the command line prints.

import type { Verdict } from "../checker/component/interfaces/layload-parts-checker.js";
import type { CheckAnswer } from "../checker/protocol.js";
import { make } from "../dom.js";
import { duration, significant, whole } from "./numbers.js";

/** A sentence whose numbers stay on one line. */
const kept = (text: string) => text.replaceAll(/(\d) (?=\d{3})/g, "$1\u202f").replaceAll(" -> ", "\u00a0\u2192 ");

/** How the word is coloured: as good only where it holds, founded and checked. */
function colour(state: string): string {
  if (state === "fails") return "bad";
  return state === "holds" ? "good" : "unproven";
}

/** The highest speed as a figure; the sentence about it stands among the lines. */
function speed({ maxRpm, minRpm, maxRpmMeaning: meaning }: Verdict): string {
  if (maxRpm === undefined || meaning === "none") return "none";
  if (meaning === "range") return `${whole(minRpm ?? 0)} to ${whole(maxRpm)} rpm`;
  return meaning === "at-least" ? `${whole(maxRpm)} rpm or more` : `${whole(maxRpm)} rpm`;
}

/** The whole answer, for the top of the page. */
export function shown({ state, verdict, heat, uncertainty, words, cautions }: CheckAnswer): Node[] {
  const figure = (name: string, value: string, small?: string) =>
    make("div", {}, make("dt", {}, name), make("dd", {}, value, small ? make("small", {}, small) : null));
  const lines = words.lines.map(({ about, text }) =>
    make("div", { class: about === "Unusual" || about === "Not checked" ? "caution" : undefined }, make("dt", {}, about), make("dd", {}, kept(text))),
  );
  return [
    make(
      "p",
      { class: "sentence" },
      make("span", { class: `word ${colour(state)}`, id: "word" }, words.word),
      make("span", { id: "sentence" }, kept(words.sentence)),
    ),
    make("p", { class: "stale-words" }, "The job has changed since: check again."),
    make(
      "dl",
      { class: "figures" },
      figure("First to fail", verdict.governingWords, verdict.governingPlace),
      figure("Margin on stress", significant(verdict.margin), "1 is the limit"),
      figure("90 % last", duration(verdict.lifeS), `wanted ${duration(verdict.wantedLifeS)}`),
      figure("Top speed", speed(verdict)),
      figure("Warmest place with load", `${heat.takenC.toFixed(0)} °C`),
      figure("Uncertainty from values not measured", `${(uncertainty.memoryShare * 100).toFixed(0)} %`),
    ),
    make("dl", { class: "lines" }, ...lines),
    make("p", { class: "caution" }, cautions[0] ?? ""),
  ];
}

/** What to change first. */
export function advice({ words }: CheckAnswer): HTMLElement {
  return make("ol", { id: "advice" }, ...words.advice.map((text) => make("li", {}, kept(text))));
}
