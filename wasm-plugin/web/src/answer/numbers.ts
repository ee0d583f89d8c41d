// Numbers as people read them.

const THIN_SPACE = "\u202f";

function grouped(text: string): string {
  const [whole = "", fraction] = text.split(".");
  const spaced = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, THIN_SPACE) : whole;
  return fraction === undefined ? spaced : `${spaced}.${fraction}`;
}

/** Three significant digits, thousands apart. */
export function significant(value: number): string {
  if (value === 0 || !Number.isFinite(value)) return "0";
  if (Math.abs(value) < 1e-6) return value.toExponential(2);
  const digits = Math.min(Math.max(2 - Math.floor(Math.log10(Math.abs(value))), 0), 9);
  return grouped(Number(value.toPrecision(3)).toFixed(digits));
}

/** A whole number with thousands apart. */
export const whole = (value: number) => grouped(value.toFixed(0));

/** A duration in the unit that fits it. */
export function duration(seconds: number): string {
  if (seconds <= 0) return "0 s";
  if (seconds < 1) return "under 1 s";
  if (seconds < 120) return `${significant(seconds)} s`;
  if (seconds < 7200) return `${significant(seconds / 60)} min`;
  if (seconds < 1e4 * 3600) return `${significant(seconds / 3600)} h`;
  return `over ${grouped("10000")} h`;
}
