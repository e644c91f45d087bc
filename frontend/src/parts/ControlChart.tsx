import { figure } from "../lib/format";
import { language, t } from "../state/bench";

/** Single values in order, with the limits that follow from their moving range. */
export interface Chart {
  values: number[];
  middle: number;
  lower: number;
  upper: number;
  outside: number[];
  runs: number[];
}

const [W, H, LEFT, LOW, TOP, RIGHT] = [640, 220, 52, 30, 12, 60];

/** A control chart; what lies beyond a limit is ringed, long runs on one side are squared. */
export function ControlChart({ chart, title }: { chart: Chart; title: string }) {
  const all = [...chart.values, chart.lower, chart.upper];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const say = (v: number) => figure(v, "um", language.value);
  const x = (n: number) => LEFT + ((n + 0.5) / chart.values.length) * (W - LEFT - RIGHT);
  const y = (v: number) => TOP + ((high - v) / (high - low || 1)) * (H - LOW - TOP);
  const words =
    `${title}: ${chart.values.length}, ${t("mean")} ${say(chart.middle)}, ${t("limit")} ${say(chart.lower)} – ${say(chart.upper)}, ` +
    `${chart.outside.length} ${t("beyond")}, ${chart.runs.length} ${t("longRun")}`;
  return (
    <figure class="curve chart">
      <svg viewBox={`0 0 ${W} ${H}`} role="img" aria-label={words}>
        {([["middle", chart.middle], ["limit", chart.upper], ["limit", chart.lower]] as const).map(([kind, level], n) => (
          <g key={n}>
            <line class={kind} x1={LEFT} x2={W - RIGHT} y1={y(level)} y2={y(level)} />
            <text x={W - RIGHT + 4} y={y(level) + 4}>{say(level)}</text>
          </g>
        ))}
        <path class="line" d={chart.values.map((v, n) => `${n ? "L" : "M"}${x(n).toFixed(1)} ${y(v).toFixed(1)}`).join("")} />
        {chart.values.map((v, n) => <circle key={n} class="dot" cx={x(n)} cy={y(v)} r={2} />)}
        {chart.runs.map((n) => <rect key={n} class="run" x={x(n) - 5} y={y(chart.values[n]!) - 5} width={10} height={10} />)}
        {chart.outside.map((n) => <circle key={n} class="out" cx={x(n)} cy={y(chart.values[n]!)} r={6} />)}
        <text x={LEFT - 4} y={TOP + 4} text-anchor="end">{say(high)}</text>
        <text x={LEFT - 4} y={H - LOW} text-anchor="end">{say(low)}</text>
        <text x={(W + LEFT - RIGHT) / 2} y={H - 6} text-anchor="middle">{t("chartHow")}</text>
      </svg>
      <figcaption class="small">
        {chart.outside.length > 0 && <span class="stop">○ {chart.outside.length} {t("beyond")} </span>}
        {chart.runs.length > 0 && <span>□ {chart.runs.length} {t("longRun")}</span>}
      </figcaption>
    </figure>
  );
}
