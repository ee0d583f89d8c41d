// The verdict in words: the same sentences as the command line's.

import type { CheckAnswer } from "../checker/protocol.js";
import { make } from "../dom.js";
import { duration, significant, whole } from "./numbers.js";

/** The word of the verdict and the sentence after it. */
export function sentence({ verdict }: CheckAnswer): { word: string; state: string; text: string } {
  const wanted = duration(verdict.wantedLifeS);
  const life = duration(verdict.lifeS);
  const at = `at ${whole(verdict.dutyRpm)} rpm: `;
  if (verdict.holds) {
    const unproven = !verdict.wellFounded;
    const more = verdict.lifeBeyondTests && !life.startsWith("over") ? "more than " : "";
    return {
      word: "HOLDS",
      state: unproven ? "unproven" : "good",
      text:
        `${unproven ? "on paper, unproven, " : ""}${at}nine rods in ten should run ${more}${life}, wanted ${wanted}; ` +
        "if the values listed below are right.",
    };
  }
  const text =
    verdict.lifeS <= 0
      ? `${at}the first full load is likely to break more than one rod in ten.`
      : `${at}one rod in ten is likely to break within ${life}, wanted ${wanted}.`;
  return { word: "FAILS", state: "bad", text };
}

function speed({ verdict }: CheckAnswer): [string, string] {
  const wanted = duration(verdict.wantedLifeS);
  const { maxRpm, minRpm, maxRpmMeaning: meaning } = verdict;
  if (maxRpm === undefined || meaning === "none") {
    return ["none", `no speed holds for ${wanted}: the gas force or the heat is too much already`];
  }
  if (meaning === "limit") return [`${whole(maxRpm)} rpm`, `highest for ${wanted}`];
  if (meaning === "at-least") return [`${whole(maxRpm)} rpm or more`, "higher was not looked at"];
  return [
    `${whole(minRpm ?? 0)} to ${whole(maxRpm)} rpm`,
    `for ${wanted}; slower at the same throttle it fails, because inertia relieves the gas force less: mind starting`,
  ];
}

/** The whole answer, for the top of the page. */
export function shown(answer: CheckAnswer): Node[] {
  const { verdict, heat, founding, cautions } = answer;
  const { word, state, text } = sentence(answer);
  const figure = (name: string, value: string, small?: string) =>
    make("div", {}, make("dt", {}, name), make("dd", {}, value, small ? make("small", {}, small) : null));
  const shank =
    heat.rodPeakC === undefined ? "heats itself without limit" : `shank settles at ${heat.rodPeakC.toFixed(0)} °C`;
  const runaway = heat.runawayRpm === undefined ? "" : `; runaway from ${whole(heat.runawayRpm)} rpm`;
  const measure = founding.measureFirst ? `measure first: ${founding.measureFirst}` : "";
  return [
    make(
      "p",
      { class: "sentence" },
      make("span", { class: `word ${state}`, id: "word" }, word),
      make("span", {}, text),
    ),
    make("p", { class: "stale-words" }, "The job has changed since: check again."),
    make(
      "dl",
      { class: "figures" },
      figure("First to give way", verdict.governingWords, verdict.governingPlace),
      figure("Margin on stress", significant(verdict.margin), "1 is the limit"),
      figure("Speed", ...speed(answer)),
      figure("Warmest", `${heat.takenC.toFixed(0)} °C`, shank + runaway),
      figure(
        "Ground",
        `${(founding.memoryShare * 100).toFixed(0)} % from memory`,
        `margin may be ${significant(founding.marginFactor)} times more or less; ${measure}`.replace(/; $/, ""),
      ),
    ),
    ...verdict.unchecked.map((what) => make("p", { class: "caution" }, `Not checked: ${what}.`)),
    make("p", { class: "caution" }, cautions[0] ?? ""),
  ];
}
