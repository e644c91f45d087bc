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
/** Pieces of a list, such as what a tooth carries; too general for a text of their own. */
const PIECES: Record<string, [RegExp, string][]> = {
  de: [
    [/^(.+) rest$/, "Auflage $1"],
    [/^(.+) proximal plate$/, "Approximalplatte $1"],
    [/^(buccal|lingual) (.+)$/, "$2 $1"],
  ],
};
const patterns = new Map<string, Pattern[]>();
const known = new Map<string, Told>();

/** Texts that no catalogue has wholly; the browser tests ask for them. */
export const unsaid = new Set<string>();

/** A text in the reader's language; `whole`: nothing of it was left in English. */
export interface Told {
  text: string;
  whole: boolean;
}

/**
 * What the server said, as the reader's language says it; what is not known stays as it is.
 *
 * @param mustBe a text of the program itself; a citation may stay in the language it was written in.
 */
export function inLanguage(said: string, language: string, mustBe = true): Told {
  const catalogue = CATALOGUES[language];
  if (!catalogue || !said) return { text: said, whole: true };
  if (!mustBe) return cited(said, language, catalogue);
  const key = `${language} ${said}`;
  let told = known.get(key);
  if (!told) {
    told = carried(said, language, catalogue) ?? translated(said, catalogue, patternsOf(language, catalogue));
    known.set(key, told);
  }
  if (!told.whole) unsaid.add(said);
  return told;
}

/** A citation stands in the catalogue as a whole or stays: a pattern would take its words for others. */
function cited(said: string, language: string, catalogue: Catalogue): Told {
  const text = catalogue.words[said] ?? patternsOf(language, catalogue).find((one) => one.begins === said)?.gives;
  return text === undefined ? { text: said, whole: false } : { text, whole: true };
}

/** A label of figures, such as `47: 1.3 N`, with the numbers as the language writes them. */
export function numbersIn(text: string, language: string): string {
  return CATALOGUES[language] ? text.replace(/(\d)\.(\d+)(?= )/g, "$1,$2") : text;
}

/** An error as the server tells it, `place: what. remedy`, each piece by itself. */
export function troubleInLanguage(error: { what: string; place?: string; remedy?: string }, language: string): string {
  const say = (text: string) => inLanguage(text, language).text;
  const { what, place = "", remedy = "" } = error;
  return [place ? `${word(place, language)}: ${say(what)}` : say(what), say(remedy)].filter(Boolean).join(". ");
}

/** The same where the pieces come joined; it is cut where the catalogue knows what stands before and after. */
export function errorInLanguage(text: string, language: string): string {
  const catalogue = CATALOGUES[language];
  if (!catalogue) return text;
  const all = patternsOf(language, catalogue);
  const whole = (piece: string) => !piece || translated(piece, catalogue, all).whole;
  for (const colon of [0, ...places(text, ": ")])
    for (const stop of [text.length, ...places(text, ". ")]) {
      const [what, remedy] = [text.slice(colon, stop - (stop < text.length ? 2 : 0)), text.slice(stop)];
      if (what && whole(what) && whole(remedy))
        return troubleInLanguage({ place: text.slice(0, Math.max(colon - 2, 0)), what, remedy }, language);
    }
  return inLanguage(text, language).text;
}

/** Where each occurrence of a mark ends. */
function places(text: string, mark: string): number[] {
  const found: number[] = [];
  for (let at = text.indexOf(mark); at >= 0; at = text.indexOf(mark, at + 1)) found.push(at + mark.length);
  return found;
}

/** A single word of the catalogue; names and addresses stay as they are. */
function word(text: string, language: string): string {
  return CATALOGUES[language]?.words[text] ?? text;
}

/** What a change gives a tooth, `35: mesial occlusal rest, ...`; null where this is something else. */
function carried(said: string, language: string, catalogue: Catalogue): Told | null {
  const found = /^(\d\d): (.+)$/s.exec(said);
  if (!found) return null;
  const pieces = found[2]!.split(", ").map((piece) => pieceOf(piece, language, catalogue));
  return pieces.includes(null) ? null : { text: `${found[1]}: ${pieces.join(", ")}`, whole: true };
}

function pieceOf(piece: string, language: string, catalogue: Catalogue): string | null {
  if (catalogue.words[piece]) return catalogue.words[piece];
  if (/^[\d.]+ mm$/.test(piece)) return piece.replace(".", ",");
  for (const [finds, gives] of PIECES[language] ?? []) {
    const found = finds.exec(piece);
    if (found) return gives.replace(/\$(\d)/g, (_, n: string) => value(found[Number(n)]!, catalogue));
  }
  return null;
}

function translated(said: string, catalogue: Catalogue, all: readonly Pattern[]): Told {
  const word = catalogue.words[said];
  if (word) return { text: word, whole: true };
  let partly: Told | null = null;
  for (const { begins, finds, names, gives } of all) {
    if (!said.startsWith(begins)) continue;
    const found = finds.exec(said);
    if (!found) continue;
    const values = new Map(names.map((name, n) => [name, clause(found[n + 1]!, catalogue, all)]));
    const text = gives.replace(/\{(\w)\}/g, (_, name: string) => values.get(name)?.text ?? "");
    const rest = found[names.length + 1];
    const more = rest ? translated(rest, catalogue, all) : { text: "", whole: true };
    const whole = more.whole && [...values.values()].every((one) => one.whole);
    const told = { text: rest ? `${text} ${more.text}` : text, whole };
    if (told.whole) return told;
    partly ??= told;
  }
  return partly ?? { text: said, whole: false };
}

const CLAUSE = /[a-z]{2,}( [a-z]{2,}){3,}/; // as many words in a row are no name

/** What stands in a place of a sentence: a value, or clauses, which the catalogue may have too. */
function clause(said: string, catalogue: Catalogue, all: readonly Pattern[]): Told {
  const text = value(said, catalogue);
  if (!/[a-z]{2,} /.test(said) || /\[[^\]]+\]$/.test(said)) return { text, whole: true }; // [mark]: a citation
  if (text !== said) return { text, whole: !said.split(", ").some((one) => CLAUSE.test(one) && value(one, catalogue) === one) };
  const sentence = sentences(said, catalogue, all);
  if (sentence) return sentence;
  const pieces = said.split(/; (?![^(]*\))/); // not within brackets
  if (pieces.length > 1) return joined(pieces, catalogue, all);
  for (const { begins, finds, names, gives } of all) {
    if (gives.endsWith(".") || (!begins && !/^[+-]?\d/.test(said)) || !said.startsWith(begins)) continue;
    const found = finds.exec(said);
    if (!found) continue;
    const values = names.map((_, n) => clause(found[n + 1]!, catalogue, all));
    const filled = gives.replace(/\{(\w)\}/g, (_, name: string) => values[names.indexOf(name)]?.text ?? "");
    return { text: filled, whole: values.every((one) => one.whole) };
  }
  return { text, whole: !CLAUSE.test(said) };
}

/** Whole sentences in a place, whose last stop was taken off; null where it is none. */
function sentences(said: string, catalogue: Catalogue, all: readonly Pattern[]): Told | null {
  const told = translated(`${said}.`, catalogue, all.filter((one) => one.begins.length > 3 && one.gives.endsWith(".")));
  return told.whole ? { text: told.text.replace(/\.$/, ""), whole: true } : null;
}

function joined(pieces: readonly string[], catalogue: Catalogue, all: readonly Pattern[]): Told {
  const told = pieces.map((piece) => clause(piece, catalogue, all));
  return { text: told.map((one) => one.text).join("; "), whole: told.every((one) => one.whole) };
}

/** A value in its place: a word, a list of words, a number as the language writes it. */
function value(said: string, catalogue: Catalogue): string {
  const word = catalogue.words[said];
  if (word) return word;
  if (/^[+-]?\d+\.\d+( \S{1,4})?$/.test(said)) return said.replace(".", ",");
  if (said.includes(", ")) return said.split(", ").map((one) => value(one, catalogue)).join(", ");
  const kennedy = said.startsWith("Kennedy class ") || said.includes(" free end");
  return kennedy ? said.replace("Kennedy class", "Kennedy-Klasse").replace(" modification", ", Modifikation").replaceAll("free end", "Freiende") : said;
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

/** What stands in a place: as short as may be, but no bracket is open at its end. */
const VALUE = String.raw`((?:[^()]|\((?:[^()]|\([^()]*\))*\))+?)`;

function pattern(said: string, gives: string): Pattern {
  const names: string[] = [];
  const source = said
    .replace(/[.*+?^$()|[\]\\]/g, "\\$&")
    .replace(/\{(\w)\}/g, (_, name: string) => (names.push(name), VALUE));
  const more = said.endsWith(".") ? "(?: (.+))?" : ""; // what is no sentence stands alone
  return { begins: said.split("{")[0]!, finds: new RegExp(`^${source}${more}$`, "s"), names, gives };
}
