import { figure } from "../lib/format";
import { language, t } from "../state/bench";
import { Cited, Said, said } from "./Said";

/** A finding as a later stage's file holds it. */
export interface Told {
  rule: string;
  severity: "stop" | "look" | "note";
  text: string;
  source: string;
  component?: string;
}

const SIGNS = { stop: "■", look: "◆", note: "●" } as const;
const ORDER = ["stop", "look", "note"] as const;

/** What a later stage found, by component, those with the gravest findings first; notes are folded. */
export function ToldFindings({ findings }: { findings: readonly Told[] }) {
  if (!findings.length) return <p class="hint">{t("noFindings")}</p>;
  const groups = byComponent(findings);
  const grave = groups.filter((group) => worst(group[1]) < 2);
  const quiet = groups.filter((group) => worst(group[1]) === 2);
  return (
    <>
      {grave.map((group) => <Group key={group[0]} group={group} alone={groups.length === 1} />)}
      {quiet.length > 0 && (
        <details class="told-notes">
          <summary>
            <Count rows={quiet.flatMap((group) => group[1])} /> {t("note")}
          </summary>
          {quiet.map((group) => <Group key={group[0]} group={group} />)}
        </details>
      )}
    </>
  );
}

/** Findings under the component they name, in the order of their gravest. */
function byComponent(findings: readonly Told[]): [string, Told[]][] {
  const groups = new Map<string, Told[]>();
  for (const one of findings) {
    const key = one.component || "";
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  return [...groups].sort((a, b) => worst(a[1]) - worst(b[1]));
}

function worst(rows: readonly Told[]): number {
  return Math.min(...rows.map((one) => ORDER.indexOf(one.severity)));
}

/** Findings of one component; those of none have a head only beside others. */
function Group({ group: [component, rows], alone: only = false }: { group: [string, Told[]]; alone?: boolean }) {
  const notes = rows.filter((one) => one.severity === "note");
  const grave = ORDER.slice(0, 2).flatMap((severity) => rows.filter((one) => one.severity === severity));
  const alone = rows.length === 1;
  return (
    <section class="told-group" data-component={component}>
      {(component || !only) && <h3>{component || t("whole")} <Count rows={rows} /></h3>}
      <Rows rows={alone ? rows : grave} />
      {!alone && notes.length > 0 && (
        <details>
          <summary class="small">
            <Count rows={notes} /> {t("note")}
          </summary>
          <Rows rows={notes} />
        </details>
      )}
    </section>
  );
}

/** How many of each severity, as signs and in words. */
function Count({ rows }: { rows: readonly Told[] }) {
  return (
    <span class="told count">
      {ORDER.map((severity) => [severity, rows.filter((one) => one.severity === severity).length] as const)
        .filter(([, count]) => count > 0)
        .map(([severity, count]) => (
          <span key={severity} class={severity}>
            <span class="sign" aria-hidden="true">{SIGNS[severity]}</span> {count}
            <span class="unseen"> {said(severity)}</span>{" "}
          </span>
        ))}
    </span>
  );
}

function Rows({ rows }: { rows: readonly Told[] }) {
  if (!rows.length) return null;
  return (
    <ul class="told">
      {rows.map((one, n) => (
        <li key={n} class={one.severity} data-rule={one.rule}>
          <p>
            <span class="sign" aria-hidden="true">{SIGNS[one.severity]}</span>{" "}
            <span class="unseen">{said(one.severity)}: </span>
            <Said text={one.text} />
          </p>
          <p class="small">{t("source")}: <Cited text={one.source} /></p>
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
