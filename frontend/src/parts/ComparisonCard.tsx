import type { Comparison, Point3 } from "../api/client";
import { figure } from "../lib/format";
import { language, page, t } from "../state/bench";
import { WAYS, compareRevisions, comparison, endComparison, lines, picture, showWay, way } from "../state/compare";
import { goTo } from "../state/model";
import { Said, said } from "./Said";

const WORDS = { both: "wayBoth", older: "wayOlder", newer: "wayNewer", gained: "wayGained", lost: "wayLost" } as const;
const CHANGES = { came: "findingCame", went: "findingWent", changed: "findingChanged" } as const;

/** Two revisions held against each other: lines of the sheet, solids, findings and numbers. */
export function ComparisonCard({ name }: { name: string }) {
  const told = comparison.value;
  if (!told) return null;
  return (
    <section class="card comparison" aria-labelledby="compared">
      <h3 id="compared">{t("compared")}</h3>
      <div class="row">
        <Choice name={name} told={told} which="older" />
        <Choice name={name} told={told} which="newer" />
        <button onClick={endComparison}>{t("endComparison")}</button>
      </div>
      {!told.older_worked && <p class="hint">{told.older}: {t("notKept")}</p>}
      {!told.newer_worked && <p class="hint">{told.newer}: {t("notKept")}</p>}
      {told.key && !told.made && <p class="hint" role="status">{t("comparing")}</p>}
      {picture.value && <Ways />}
      {told.made && <Numbers told={told} />}
      <h4>{t("sheet")}</h4>
      {lines.value.length ? (
        <pre class="difference">
          {lines.value.map((line, n) => (
            <span key={n} class={line.startsWith("+") ? "added" : "taken"}>{line + "\n"}</span>
          ))}
        </pre>
      ) : (
        <p class="small">{t("noDifference")}</p>
      )}
    </section>
  );
}

function Choice({ name, told, which }: { name: string; told: Comparison; which: "older" | "newer" }) {
  const all = page.value?.revisions.revisions ?? [];
  return (
    <label>
      {t(which === "older" ? "wayOlder" : "wayNewer")}{" "}
      <select
        value={told[which]}
        onChange={(e) => {
          const next = { older: told.older, newer: told.newer, [which]: Number(e.currentTarget.value) };
          void compareRevisions(name, next.older, next.newer);
        }}
      >
        {all.map((one) => (
          <option key={one.number} value={one.number}>{one.number} {said(one.reason)}</option>
        ))}
      </select>
    </label>
  );
}

function Ways() {
  return (
    <div class="row" role="radiogroup" aria-label={t("shownOfThem")}>
      {WAYS.map((one) => (
        <button key={one} role="radio" aria-checked={way.value === one} onClick={() => showWay(one)}>
          {one === "older" || one === "newer" ? <span class={`swatch ${one}`} aria-hidden="true" /> : null}
          {t(WORDS[one])}
        </button>
      ))}
    </div>
  );
}

function Numbers({ told }: { told: Comparison }) {
  const say = (v: number | string | null, unit: string) =>
    v === null ? "—" : figure(typeof v === "string" ? said(v) : v, unit, language.value);
  const most = [["gain", told.gain, t("greatestGain")], ["loss", told.loss, t("greatestLoss")]] as const;
  return (
    <>
      <ul class="told">
        {most.map(([key, one, words]) => (
          <li key={key} data-greatest={key}>
            {words} <b>{one ? say(one.mm, "mm") : t("noDifference")}</b>{" "}
            {one && <Show at={one.at_arch_mm as Point3} words={words} />}
          </li>
        ))}
      </ul>
      {told.measures.length > 0 && (
        <table class="rows">
          <thead><tr><th>{t("measure_")}</th><th>{t("wayOlder")}</th><th>{t("wayNewer")}</th></tr></thead>
          <tbody>
            {told.measures.map((one) => (
              <tr key={one.name}>
                <td>{said(one.name)}</td>
                <td class="figure">{say(one.before, one.unit)}</td>
                <td class="figure">{say(one.after, one.unit)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <h4>{t("findings")}</h4>
      {told.findings.length === 0 && <p class="small">{t("noDifference")}</p>}
      <ul class="told">
        {told.findings.map((one, n) => (
          <li key={n} class={one.severity_after ?? ""} data-change={one.change} data-rule={one.rule}>
            <b>{t(CHANGES[one.change])}</b>{" "}
            {one.severity_before !== one.severity_after && one.severity_before && one.severity_after
              ? `(${said(one.severity_before)} → ${said(one.severity_after)}) `
              : ""}
            <Said text={one.text} />{" "}
            {(one.before !== null || one.after !== null) && (
              <span class="small">{say(one.before, one.unit)} → {say(one.after, one.unit)}</span>
            )}{" "}
            {one.at_arch_mm && <Show at={one.at_arch_mm as Point3} words={one.text} />}
          </li>
        ))}
      </ul>
    </>
  );
}

function Show({ at, words }: { at: Point3; words: string }) {
  return (
    <button class="link" aria-label={`${t("show")}: ${said(words)}`} onClick={() => (goTo.value = { at, words })}>
      {t("show")}
    </button>
  );
}
