import type { Point3 } from "../api/client";
import type { View } from "../api/view";
import { alongCrest, onPlan, pathOf } from "../lib/plan";
import { page, place, t } from "../state/bench";
import { tooth } from "../state/model";

const WIDE: Record<string, number> = {
  "major connector": 16,
  "retentive arm": 7,
  "reciprocal arm": 7,
  "approach arm": 6,
  "minor connector": 7,
  rest: 7,
};

/** The scan from occlusal with survey lines, components in place and teeth to choose. */
export function ArchPlan({ view, stamp }: { view: View; stamp: string }) {
  const plan = view.plan;
  if (!plan) return null;
  const picture = `/api/cases/${encodeURIComponent(place.value)}/view/plan.png?at=${stamp}`;
  const gaps = view.spans.flatMap((span) =>
    alongCrest(span.crest, span.missing.length).map((at, k) => ({ code: span.missing[k]!, at })),
  );
  return (
    <figure class="plan">
      <svg viewBox={`0 0 ${plan.width_px} ${plan.height_px}`} role="group" aria-label={t("plan")}>
        <image href={picture} width={plan.width_px} height={plan.height_px} />
        <g class="survey">
          {view.tracks.map((track, n) => (
            <path key={n} d={pathOf(plan, track.points, track.closed)} />
          ))}
        </g>
        <g class="metal">
          {view.components
            .filter((c) => c.kind in WIDE)
            .map((c) => (
              <path key={c.id} d={pathOf(plan, c.line)} stroke-width={WIDE[c.kind]}>
                <title>{c.id}</title>
              </path>
            ))}
        </g>
        {gaps.map((gap) => (
          <Code key={gap.code} code={gap.code} at={onPlan(plan, gap.at)} gone />
        ))}
        {view.teeth.map((one) => (
          <Code key={one.code} code={one.code} at={onPlan(plan, one.centre as Point3)} />
        ))}
      </svg>
      <figcaption class="small">{t("planHow")}</figcaption>
    </figure>
  );
}

function Code({ code, at, gone = false }: { code: number; at: [number, number]; gone?: boolean }) {
  const chosen = tooth.value === code;
  const carries = page.value?.retainers.some((r) => r.tooth === code) ?? false;
  const choose = () => (tooth.value = chosen ? null : code);
  const kind = ["code", gone && "gone", chosen && "chosen", carries && "carries"].filter(Boolean);
  if (gone)
    return (
      <g class={kind.join(" ")} transform={`translate(${at[0]} ${at[1]})`}>
        <text>({code})</text>
      </g>
    );
  return (
    <g
      class={kind.join(" ")}
      transform={`translate(${at[0]} ${at[1]})`}
      role="button"
      tabIndex={0}
      aria-pressed={chosen}
      aria-label={`${code}${carries ? `, ${t("clasp")} / ${t("rests")}` : ""}`}
      onClick={choose}
      onKeyDown={(e) => {
        if (e.key === "Enter" || e.key === " ") {
          e.preventDefault();
          choose();
        }
      }}
    >
      <circle r={21} />
      <text>{code}</text>
    </g>
  );
}
