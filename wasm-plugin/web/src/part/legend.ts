// What the colours mean.

import { significant } from "../answer/numbers.js";
import { make } from "../dom.js";
import { type Quantity, gradient } from "./scale.js";

/** The scale of a painted part with its limit marked. */
export function legend(host: HTMLElement, quantity: Quantity | undefined) {
  host.hidden = quantity === undefined;
  if (!quantity) return;
  const { title, unit, low, high, limit, badEnd } = quantity;
  const bar = make("div", { class: "scale" });
  bar.style.background = gradient(quantity);
  const mark = make("span", { class: "limit" });
  mark.style.left = `${((limit - low) / (high - low)) * 100}%`;
  bar.append(mark);
  const side = badEnd === "low" ? "below" : "above";
  const value = (number: number) => (unit ? `${significant(number)} ${unit}` : significant(number));
  host.replaceChildren(
    make("p", { id: "legend-words" }, `${title}${unit ? `, ${unit}` : ""}. Limit ${value(limit)}: worse ${side} it. Grey was not measured.`),
    bar,
    make("div", { class: "ticks", "aria-hidden": "true" }, ...[0, 0.25, 0.5, 0.75, 1].map((share) => make("span", {}, significant(low + share * (high - low))))),
  );
}
