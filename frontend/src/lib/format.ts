/** A figure with its unit, as the reader's language writes numbers. */
export function figure(value: number | string | null | undefined, unit: string, language: string): string {
  if (value === null || value === undefined) return "";
  if (typeof value === "string") return unit ? `${value} ${unit}` : value;
  const size = Math.abs(value);
  const digits = size >= 100 ? 0 : size >= 10 ? 1 : 2;
  const text = value.toLocaleString(language, { maximumFractionDigits: digits }).replace(/^-(0[.,]?0*)$/, "$1");
  const sign = { probability: "", deg: "°", degC: " °C", mm2: " mm²", mm3: " mm³", um: " µm" }[unit];
  return sign !== undefined ? text + sign : unit ? `${text}\u00a0${unit}` : text;
}

/** A unit as the page writes it. */
export function unitShown(unit: string): string {
  return { deg: "°", degC: "°C", mm2: "mm²", mm3: "mm³", um: "µm" }[unit] ?? unit;
}

export function day(iso: string | null | undefined, language: string): string {
  return iso ? new Date(iso).toLocaleDateString(language) : "";
}

export function moment(iso: string, language: string): string {
  return new Date(iso).toLocaleString(language, { dateStyle: "short", timeStyle: "short" });
}
