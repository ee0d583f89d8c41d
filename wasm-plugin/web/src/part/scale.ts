// The colours of a painted part: those of the command line's painted files, from the good end (pale blue) over sand and
// orange to the bad end (deep red). `layload walls ROD.stl --legend-out SCALE.svg` prints them.

const COLORS = [
  "#d0f4fe", "#d2f0f8", "#d3edf2", "#d3ebec", "#d3e9e6", "#d3e7e1", "#d2e4db", "#d2e2d5",
  "#d1e0ce", "#d0ddc7", "#d0dabf", "#cfd7b7", "#ced3af", "#cdd0a7", "#cccc9e", "#ccc896",
  "#cbc48d", "#cbbf85", "#cabb7d", "#cab675", "#c9b26d", "#c9ad66", "#c9a85f", "#c8a458",
  "#c89f52", "#c89a4c", "#c79546", "#c79040", "#c68c3b", "#c68736", "#c58232", "#c57d2d",
  "#c47929", "#c47425", "#c36f22", "#c26a1f", "#c1661c", "#c06119", "#bf5c17", "#be5715",
  "#bd5214", "#bc4d12", "#bb4811", "#b94310", "#b83e10", "#b73810", "#b53210", "#b42c10",
  "#b22510", "#b01d10", "#ae1411", "#ad0511",
];

/** Not measured. */
export const GREY = "#707070";

/** What is painted, and between which values the colours run. */
export interface Quantity {
  title: string;
  unit: string;
  low: number;
  high: number;
  limit: number;
  badEnd: "low" | "high";
}

const rgb = (hex: string): [number, number, number] => {
  const number = Number.parseInt(hex.slice(1), 16);
  return [(number >> 16) / 255, ((number >> 8) & 255) / 255, (number & 255) / 255];
};

const STOPS = COLORS.map(rgb);
const UNKNOWN = rgb(GREY);

/** Colour of a value, as shares of red, green and blue. */
export function colorOf(quantity: Quantity, value: number): [number, number, number] {
  if (!Number.isFinite(value)) return UNKNOWN;
  const share = (value - quantity.low) / (quantity.high - quantity.low);
  const bad = quantity.badEnd === "high" ? share : 1 - share;
  const place = Math.min(Math.max(bad, 0), 1) * (STOPS.length - 1);
  const below = Math.min(Math.floor(place), STOPS.length - 2);
  const [a, b, part] = [STOPS[below] ?? UNKNOWN, STOPS[below + 1] ?? UNKNOWN, place - below];
  return [a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part, a[2] + (b[2] - a[2]) * part];
}

/** The same as CSS. */
export function cssColorOf(quantity: Quantity, value: number): string {
  return `rgb(${colorOf(quantity, value).map((share) => Math.round(share * 255)).join(" ")})`;
}

/** The scale from its low to its high end, as a CSS gradient. */
export function gradient(quantity: Quantity): string {
  const colors = quantity.badEnd === "high" ? COLORS : [...COLORS].reverse();
  return `linear-gradient(to right, ${colors.join(", ")})`;
}

/** Wall thickness: it ends at four limits, thicker is thick enough. */
export function thickness(limitMm: number): Quantity {
  return { title: "Wall thickness", unit: "mm", low: 0, high: 4 * limitMm, limit: limitMm, badEnd: "low" };
}

/** Stress over what is borne for the wanted life, with a round end above the highest value. */
export function utilisation(values: Float32Array): Quantity {
  const highest = values.reduce((most, value) => (value > most ? value : most), 0);
  const high = [1, 1.5, 2, 3, 5, 10, 100].find((end) => end >= highest) ?? 1000;
  return { title: "Stress over what lasts", unit: "", low: 0, high, limit: 1, badEnd: "high" };
}
