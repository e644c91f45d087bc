import { useSignal } from "@preact/signals";
import type { ComponentChildren } from "preact";
import { troubleWords } from "../api/client";
import { author, setAuthor, t, trouble } from "../state/bench";

/** What an entry's form says. */
export class Said {
  constructor(private readonly form: FormData) {}
  text(key: string): string {
    return String(this.form.get(key) ?? "").trim();
  }
  number(key: string): number | null {
    const text = this.text(key);
    return text ? Number(text) : null;
  }
  tick(key: string): boolean {
    return this.form.get(key) === "on";
  }
}

type Answer = Promise<{ data?: unknown; error?: unknown }>;

/** A signed entry of the register: its fields and one button; told when it is in. */
export function EntryForm(props: {
  label: string;
  send: (said: Said) => Answer;
  done: () => Promise<void>;
  children: ComponentChildren;
  disabled?: boolean;
}) {
  const told = useSignal("");
  const send = async (form: HTMLFormElement) => {
    const { data, error } = await props.send(new Said(new FormData(form)));
    told.value = data ? wordsOf(data) : "";
    trouble.value = data ? "" : troubleWords(error);
    if (!data) return;
    form.reset();
    await props.done();
  };
  const unsigned = !author.value.trim();
  return (
    <form
      class="entry"
      onSubmit={(e) => {
        e.preventDefault();
        void send(e.currentTarget);
      }}
    >
      <fieldset class="fields" disabled={props.disabled}>
        {props.children}
        <button disabled={unsigned} title={unsigned ? t("nameFirst") : undefined}>{props.label}</button>
        <span class="small" role="status">{told.value}</span>
      </fieldset>
    </form>
  );
}

function wordsOf(data: unknown): string {
  const number = (data as { number?: number }).number;
  return number === undefined ? "●" : `● ${t("entered")} ${number}`;
}

/** The name that signs every entry of a page. */
export function Signer() {
  return (
    <label class="number">
      {!author.value.trim() && <span class="hint">{t("signFirst")}</span>}
      {t("author")}
      <input value={author.value} onInput={(e) => setAuthor(e.currentTarget.value)} />
    </label>
  );
}

export function by(): { by: string } {
  return { by: author.value.trim() || "—" };
}

export function today(): string {
  return new Date().toISOString().slice(0, 10);
}

/** A few of the fields of entries, a row each. */
export function EntryRows({ rows, shows }: { rows: readonly Record<string, unknown>[]; shows: (row: Record<string, unknown>) => ComponentChildren[] }) {
  if (!rows.length) return null;
  return (
    <table class="rows">
      <tbody>
        {rows.map((row, n) => (
          <tr key={n}>
            {shows(row).map((cell, k) => (k === 0 ? <th key={k} scope="row">{cell}</th> : <td key={k}>{cell}</td>))}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
