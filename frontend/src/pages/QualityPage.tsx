import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import { figure } from "../lib/format";
import type { Key } from "../lib/words";
import { ControlChart, type Chart } from "../parts/ControlChart";
import { Period } from "../parts/Period";
import { said } from "../parts/Said";
import { Figures } from "../parts/Told";
import { Wide } from "../parts/Wide";
import { language, t } from "../state/bench";

interface Driver {
  name: string;
  estimate: number;
  low: number;
  high: number;
  clear: boolean;
}

interface Measure {
  name: "bias_um" | "rest_gap_um" | "p95_um" | "adjusted_um";
  chart: Chart;
  capability: { count: number; cpk: number; cpk_low: number; cpk_high: number; share_outside: number } | null;
  groups: Record<string, { name: string; count: number; mean: number; sd: number | null }[]>;
  precision: Record<string, { repeatability_sd: number; reproducibility_sd: number }>;
  drivers: Driver[];
}

interface Told {
  frameworks: number;
  seated_without_adjustment_share: number | null;
  measures: Measure[];
}

/** How well the frameworks come out over builds, machines, lots and places, and what goes with it. */
export function QualityPage() {
  const now = new Date();
  const first = useSignal(new Date(now.getTime() - 90 * 864e5).toISOString().slice(0, 10));
  const last = useSignal(now.toISOString().slice(0, 10));
  const told = useSignal<Told | null>(null);
  const words = useSignal("");
  useEffect(() => {
    if (!first.value || !last.value) return;
    void api.GET("/api/quality", { params: { query: { first: first.value, last: last.value } } }).then(({ data, error }) => {
      told.value = data ? (data.told as unknown as Told) : null;
      words.value = data ? "" : troubleWords(error);
    });
  }, [first.value, last.value]);
  const found = told.value;
  return (
    <main class="list">
      <Period title="quality" first={first} last={last} trouble={words.value} />
      {found && (
        <Figures
          rows={[
            [t("frameworks"), found.frameworks, ""],
            [t("seatedShare"), found.seated_without_adjustment_share === null ? null : 100 * found.seated_without_adjustment_share, "%"],
          ]}
        />
      )}
      {found && !found.measures.length && <p class="hint">{t("noQuality")}</p>}
      {found?.measures.map((one) => <MeasureCard key={one.name} one={one} />)}
    </main>
  );
}

function MeasureCard({ one }: { one: Measure }) {
  const say = (v: number | null, unit = "um") => figure(v, unit, language.value);
  const title = t(one.name);
  return (
    <section aria-labelledby={one.name}>
      <h2 id={one.name}>{title}</h2>
      <ControlChart chart={one.chart} title={title} />
      <Figures
        rows={[
          [t("mean"), one.chart.middle, "um"],
          ["Cpk", one.capability && `${say(one.capability.cpk, "")} (${t("interval")} ${say(one.capability.cpk_low, "")} – ${say(one.capability.cpk_high, "")})`, ""],
          [t("expectedOutside"), one.capability && 100 * one.capability.share_outside, "%"],
        ]}
      />
      <div class="split">
        {Object.entries(one.groups).filter(([, rows]) => rows.length > 0).map(([by, rows]) => (
          <details key={by} open={rows.length > 1 && rows.length <= 6}>
            <summary>{t(`by_${by}` as Key)} ({rows.length})</summary>
            {one.precision[by] && (
              <p class="small">
                {t("repeatability")} {say(one.precision[by].repeatability_sd)}, {t("reproducibility")} {say(one.precision[by].reproducibility_sd)}
              </p>
            )}
            <Wide label={t(`by_${by}` as Key)}><table class="rows">
              <thead>
                <tr>
                  <td></td>
                  <th scope="col" class="figure">{t("count")}</th>
                  <th scope="col" class="figure">{t("mean")}</th>
                  <th scope="col" class="figure">{t("sd")}</th>
                </tr>
              </thead>
              <tbody>
                {rows.map((row) => (
                  <tr key={row.name}>
                    <th scope="row">{said(row.name)}</th>
                    <td class="figure">{row.count}</td>
                    <td class="figure">{say(row.mean)}</td>
                    <td class="figure">{row.sd === null ? "—" : say(row.sd)}</td>
                  </tr>
                ))}
              </tbody>
            </table></Wide>
          </details>
        ))}
      </div>
      {one.drivers.length ? <Drivers rows={one.drivers} /> : <p class="hint">{t("tooFewForDrivers")}</p>}
    </section>
  );
}

/** Coefficients with their intervals, each to its own scale about zero. */
function Drivers({ rows }: { rows: Driver[] }) {
  const shown = rows.filter((row) => row.name !== "intercept");
  const far = Math.max(...shown.flatMap((row) => [Math.abs(row.low), Math.abs(row.high)]), 1e-9);
  const say = (v: number) => figure(v, "um", language.value);
  const x = (v: number) => 100 + (v / far) * 95;
  return (
    <>
      <p class="small">{t("driversHow")}</p>
      <Wide label={t("driversHow")}><table class="rows drivers">
        <tbody>
          {shown.map((row) => (
            <tr key={row.name}>
              <th scope="row">{wordsOf(row.name)}</th>
              <td class="figure">{say(row.estimate)}</td>
              <td class="figure">{say(row.low)} – {say(row.high)}</td>
              <td>
                <svg viewBox="0 0 200 16" aria-hidden="true">
                  <line class="zero" x1={100} x2={100} y1={0} y2={16} />
                  <line class={row.clear ? "span clear" : "span"} x1={x(row.low)} x2={x(row.high)} y1={8} y2={8} />
                  <circle class={row.clear ? "clear" : ""} cx={x(row.estimate)} cy={8} r={4} />
                </svg>
              </td>
              <td>{row.clear ? <b>● {t("clear")}</b> : <span class="small">○ {t("unclear")}</span>}</td>
            </tr>
          ))}
        </tbody>
      </table></Wide>
    </>
  );
}

const CAUSES = ["earlier_builds_of_powder", "x_cm", "y_cm", "off_centre_cm", "mass_g", "inspected_bias_um", "intercept"] as const;

function wordsOf(cause: string): string {
  const known = CAUSES.find((one) => one === cause);
  return known ? t(known) : cause.replace(/^machine/, t("machine"));
}
