import { figure } from "../lib/format";
import { language, t } from "../state/bench";

/** A finding as a later stage's file holds it. */
export interface Told {
  rule: string;
  severity: "stop" | "look" | "note";
  text: string;
  source: string;
  component?: string;
}

const SIGNS = { stop: "■", look: "◆", note: "●" } as const;

/** What a later stage found, the gravest first. */
export function ToldFindings({ findings }: { findings: readonly Told[] }) {
  if (!findings.length) return <p class="hint">{t("noFindings")}</p>;
  const order = ["stop", "look", "note"];
  const sorted = [...findings].sort((a, b) => order.indexOf(a.severity) - order.indexOf(b.severity));
  const notes = sorted.filter((one) => one.severity === "note");
  return (
    <>
      <Rows rows={sorted.filter((one) => one.severity !== "note")} />
      {notes.length > 0 && (
        <details>
          <summary>
            <span class="note" aria-hidden="true">●</span> {notes.length} note: {t("note")}
          </summary>
          <Rows rows={notes} />
        </details>
      )}
    </>
  );
}

function Rows({ rows }: { rows: readonly Told[] }) {
  return (
    <ul class="told">
      {rows.map((one, n) => (
          <li key={n} class={one.severity} data-rule={one.rule}>
            <p>
              <span class="sign" aria-hidden="true">{SIGNS[one.severity]}</span>{" "}
              <span class="unseen">{one.severity}: </span>
              {one.text}
            </p>
            <p class="small">{[one.component, `${t("source")}: ${one.source}`].filter(Boolean).join(" · ")}</p>
          </li>
        ))}
    </ul>
  );
}

/** Figures in a row: words, value, unit. */
export function Figures({ rows }: { rows: readonly (readonly [string, number | string | null | undefined, string])[] }) {
  return (
    <dl class="measures">
      {rows
        .filter(([, value]) => value !== null && value !== undefined)
        .map(([words, value, unit]) => (
          <div key={words}>
            <dt>{words}</dt>
            <dd>{figure(value, unit, language.value)}</dd>
          </div>
        ))}
    </dl>
  );
}

/** Links to the files of a folder. */
export function Files({ base, files }: { base: string; files: readonly string[] }) {
  return (
    <>
      <h3>{t("files")}</h3>
      <ul class="files">
        {files.map((file) => (
          <li key={file}>
            <a href={`${base}/${encodeURIComponent(file)}`} target="_blank" rel="noreferrer">{file}</a>
          </li>
        ))}
      </ul>
    </>
  );
}
