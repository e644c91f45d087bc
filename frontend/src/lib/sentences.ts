import german from "./words/sentences.de.json";

/** What the server says, in another language: sentences with places for values, and single words. */
interface Catalogue {
  words: Record<string, string>;
  sentences: string[][];
}

interface Pattern {
  begins: string;
  finds: RegExp;
  names: string[];
  gives: string;
}

const CATALOGUES: Record<string, Catalogue> = { de: german };
const patterns = new Map<string, Pattern[]>();
const known = new Map<string, Told>();

/** A text in the reader's language; `whole`: nothing of it was left in English. */
export interface Told {
  text: string;
  whole: boolean;
}

/** What the server said, as the reader's language says it; what is not known stays as it is. */
export function inLanguage(said: string, language: string): Told {
  const catalogue = CATALOGUES[language];
  if (!catalogue || !said) return { text: said, whole: true };
  const key = `${language} ${said}`;
  let told = known.get(key);
  if (!told) known.set(key, (told = translated(said, catalogue, patternsOf(language, catalogue))));
  return told;
}

function translated(said: string, catalogue: Catalogue, all: readonly Pattern[]): Told {
  const word = catalogue.words[said];
  if (word) return { text: word, whole: true };
  let partly: Told | null = null;
  for (const { begins, finds, names, gives } of all) {
    if (!said.startsWith(begins)) continue;
    const found = finds.exec(said);
    if (!found) continue;
    const values = new Map(names.map((name, n) => [name, value(found[n + 1]!, catalogue)]));
    const text = gives.replace(/\{(\w)\}/g, (_, name: string) => values.get(name) ?? "");
    const rest = found[names.length + 1];
    if (!rest) return { text, whole: true };
    const more = translated(rest, catalogue, all);
    const told = { text: `${text} ${more.text}`, whole: more.whole };
    if (told.whole) return told;
    partly ??= told;
  }
  return partly ?? { text: said, whole: false };
}

/** A value in its place: a word, a list of words, a number as the language writes it. */
function value(said: string, catalogue: Catalogue): string {
  const word = catalogue.words[said];
  if (word) return word;
  if (/^-?\d+\.\d+$/.test(said)) return said.replace(".", ",");
  const kennedy = said.startsWith("Kennedy class ") || said.includes(" free end");
  return kennedy ? said.replace("Kennedy class", "Kennedy-Klasse").replace("modification", "Modifikation").replaceAll("free end", "Freiende") : said;
}

function patternsOf(language: string, catalogue: Catalogue): Pattern[] {
  let made = patterns.get(language);
  if (!made) {
    made = catalogue.sentences.map(([said, gives]) => pattern(said!, gives!));
    // What says more in its own words is looked at first.
    made.sort((a, b) => b.finds.source.length - 4 * b.names.length - (a.finds.source.length - 4 * a.names.length));
    patterns.set(language, made);
  }
  return made;
}

function pattern(said: string, gives: string): Pattern {
  const names: string[] = [];
  const source = said
    .replace(/[.*+?^$()|[\]\\]/g, "\\$&")
    .replace(/\{(\w)\}/g, (_, name: string) => (names.push(name), "(.+?)"));
  return { begins: said.split("{")[0]!, finds: new RegExp(`^${source}(?: (.+))?$`, "s"), names, gives };
}
