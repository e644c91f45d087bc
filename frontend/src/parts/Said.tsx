import { inLanguage } from "../lib/sentences";
import { language } from "../state/bench";

/** What the server said, in the reader's language where the catalogue has it. */
export function Said({ text }: { text: string }) {
  const told = inLanguage(text, language.value);
  return told.whole ? <>{told.text}</> : <span lang="en">{told.text}</span>;
}

/** The same as a word, where only text can stand. */
export function said(text: string): string {
  return inLanguage(text, language.value).text;
}
