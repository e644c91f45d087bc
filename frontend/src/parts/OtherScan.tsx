import { figure } from "../lib/format";
import { language, openJobOf, sendForm, t } from "../state/bench";
import { stageOf } from "../pages/StageModel";
import { Files, Figures, ToldFindings, type Told } from "./Told";

interface Compared {
  scan: string;
  overlap_share: number;
  rms_mm: number;
  p95_mm: number;
  change_limit_mm: number;
  changed_teeth: number[];
  teeth: { tooth: number; rms_mm: number | null; p95_mm: number | null; greatest_mm: number | null; changed_mm2: number }[];
  findings: Told[];
}

/** Another scan held against the case's master; nothing is changed by it. */
export function OtherScan({ name }: { name: string }) {
  const state = stageOf("scans");
  const told = state?.answers["scans"] as unknown as Compared | undefined;
  const say = (v: number | null, unit: string) => figure(v, unit, language.value);
  const here = `/api/cases/${encodeURIComponent(name)}`;
  return (
    <section aria-labelledby="other-scan">
      <h2 id="other-scan">{t("otherScan")} {state?.stale && <span class="look small">◆ {t("stale")}</span>}</h2>
      <p class="small">{t("otherScanHow")}</p>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          void sendForm(`${here}/scans`, new FormData(e.currentTarget));
        }}
      >
        <label class="number">
          {t("otherScan")} <input type="file" name="scan" accept=".stl,.ply,.obj,.3mf,.dcm" required />
        </label>
        <button disabled={!!openJobOf(name)}>{t("compareScans")}</button>
      </form>
      {told && (
        <>
          <h3>{told.scan}</h3>
          <Figures
            rows={[
              [t("overlap"), 100 * told.overlap_share, "%"],
              [t("rms"), told.rms_mm, "mm"],
              [t("p95"), told.p95_mm, "mm"],
              [t("changeLimit"), told.change_limit_mm, "mm"],
              [t("changedTeeth"), told.changed_teeth.join(", ") || "–", ""],
            ]}
          />
          <details open={told.changed_teeth.length > 0}>
            <summary>{t("byTooth")}</summary>
            <table class="rows">
              <thead>
                <tr>
                  <th scope="col">{t("tooth")}</th>
                  <th scope="col" class="figure">{t("rms")}</th>
                  <th scope="col" class="figure">{t("p95")}</th>
                  <th scope="col" class="figure">{t("greatest")}</th>
                  <th scope="col" class="figure">{t("changedArea")}</th>
                </tr>
              </thead>
              <tbody>
                {told.teeth.map((one) => (
                  <tr key={one.tooth}>
                    <th scope="row">{one.tooth}</th>
                    <td class="figure">{say(one.rms_mm, "mm")}</td>
                    <td class="figure">{say(one.p95_mm, "mm")}</td>
                    <td class="figure">{say(one.greatest_mm, "mm")}</td>
                    <td class="figure">{say(one.changed_mm2, "mm2")}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </details>
          <ToldFindings findings={told.findings} />
          <Files base={`${here}/stages/scans/files`} files={state?.files ?? []} />
        </>
      )}
    </section>
  );
}
