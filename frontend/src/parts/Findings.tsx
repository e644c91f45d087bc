import type { FindingRow, Point3 } from "../api/client";
import { figure } from "../lib/format";
import { language, t } from "../state/bench";
import { goTo } from "../state/model";
import { Cited, Said, said } from "./Said";

const HEADS = { stop: "stop", look: "lookAt", note: "note" } as const;
const SIGNS = { stop: "■", look: "◆", note: "●" } as const;

/** What the rules found, the gravest first. */
export function Findings({ findings }: { findings: FindingRow[] }) {
  if (!findings.length) return <p class="hint">{t("noFindings")}</p>;
  return (
    <>
      {(["stop", "look", "note"] as const).map((severity) => {
        const some = findings.filter((f) => f.severity === severity);
        if (!some.length) return null;
        return (
          <details key={severity} open={severity !== "note"} class={`findings ${severity}`}>
            <summary>
              <span class="sign" aria-hidden="true">{SIGNS[severity]}</span> {some.length}{" "}
              {said(severity)}: {t(HEADS[severity])}
            </summary>
            <ul>
              {alike(some).map(([first, ...others], n) => (
                <Finding key={n} finding={first!} others={others} />
              ))}
            </ul>
          </details>
        );
      })}
    </>
  );
}

/** Findings of one rule told together where there are three or more; a stop never is. */
function alike(findings: FindingRow[]): FindingRow[][] {
  const groups = new Map<string, FindingRow[]>();
  findings.forEach((finding, n) => {
    const key = finding.severity === "stop" ? `${n}` : finding.rule;
    groups.set(key, [...(groups.get(key) ?? []), finding]);
  });
  return [...groups.values()].flatMap((group) => (group.length < 3 ? group.map((f) => [f]) : [group]));
}

function Finding({ finding, others = [] }: { finding: FindingRow; others?: FindingRow[] }) {
  const say = (v: number | string | null) => figure(typeof v === "string" ? said(v) : v, finding.unit, language.value);
  return (
    <li data-rule={finding.rule} data-component={finding.component}>
      <p><Said text={finding.text} /></p>
      <p class="small">
        {finding.measured !== null && (
          <span>
            {t("measured")} <b>{say(finding.measured)}</b>
          </span>
        )}
        {finding.limit !== null && (
          <span>
            {t("limit")} <b>{say(finding.limit)}</b>
          </span>
        )}
        <span>
          {t("source")}: <Cited text={finding.source} />
        </span>
        {finding.at_arch_mm && (
          <button
            class="link"
            aria-label={`${t("show")}: ${said(finding.text)}`}
            onClick={() => (goTo.value = { at: finding.at_arch_mm as Point3, words: finding.rule })}
          >
            {t("show")}
          </button>
        )}
      </p>
      {others.length > 0 && (
        <details class="others">
          <summary class="small">
            {others.length} {t("alike")}
          </summary>
          <ul>
            {others.map((other, n) => (
              <Finding key={n} finding={other} />
            ))}
          </ul>
        </details>
      )}
    </li>
  );
}
