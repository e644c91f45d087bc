import { inLanguage } from "../lib/sentences";
import { figure } from "../lib/format";
import { language, t } from "../state/bench";

/** What the server said, in the reader's language where the catalogue has it. */
export function Said({ text }: { text: string }) {
  const told = inLanguage(text, language.value);
  return told.whole ? <>{told.text}</> : <span lang="en">{told.text}</span>;
}

/** Where something was taken from: a citation stays as it was written where the catalogue has no other. */
export function Cited({ text }: { text: string }) {
  const told = inLanguage(text, language.value, false);
  return told.whole ? <>{told.text}</> : <span lang="en">{told.text}</span>;
}

/** The same as a word, where only text can stand. */
export function said(text: string): string {
  return inLanguage(text, language.value).text;
}

/** A citation, where only text can stand. */
export function cited(text: string): string {
  return inLanguage(text, language.value, false).text;
}

/** A key of the register, a kind or a field, as words; units that end it stay as they are. */
export function saidKey(key: string): string {
  return said(key.replaceAll("_", " "));
}

/** The fields of an entry in one line; a text longer than `most` signs is cut. */
export function saidFields(fields: Record<string, unknown>, most = Infinity): string {
  return Object.entries(fields).map(([key, value]) => `${saidKey(key)}: ${fieldValue(value, most, key === "design")}`).join(", ");
}

/** `kept`: prose that was entered as it stands, such as a design that was approved by its words. */
function fieldValue(value: unknown, most: number, kept = false): string {
  if (typeof value === "boolean") return t(value ? "yes" : "no");
  if (typeof value === "number") return figure(value, "", language.value);
  if (typeof value === "object") return JSON.stringify(value);
  const text = kept ? cited(String(value)) : said(String(value));
  return text.length > most ? `${text.slice(0, most)}…` : text;
}
