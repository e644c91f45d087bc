import type { ViewCone } from "../api/view";
import { figure } from "../lib/format";
import { ramp } from "../lib/ramp";
import { language, t } from "../state/bench";

/** Points of every tilt, light where they are few; a place chosen here becomes the tilts to prescribe. */
export function ConeMap(props: {
  cone: ViewCone;
  front: number;
  side: number;
  choose: (front: number, side: number) => void;
}) {
  const { cone, front, side } = props;
  const reach = Math.max(...cone.tilts_deg.map(([a, b]) => Math.max(Math.abs(a), Math.abs(b)))) + 1;
  const [low, high] = [Math.min(...cone.points), Math.max(...cone.points)];
  const near = nearest(cone, front, side);
  const say = (v: number, unit: string) => figure(v, unit, language.value);
  const take = (e: MouseEvent) => {
    const box = (e.currentTarget as SVGElement).getBoundingClientRect();
    const place = (v: number, span: number) => (v / span) * 2 * reach - reach;
    const found = nearest(cone, -place(e.clientY - box.top, box.height), place(e.clientX - box.left, box.width));
    const [a, b] = cone.tilts_deg[found]!;
    props.choose(a, b);
  };
  const words = `${say(front, "deg")} / ${say(side, "deg")}: ${say(cone.points[near]!, "")} ${t("points")}${
    cone.least_undercut_mm ? `, ${t("leastUndercut")} ${say(cone.least_undercut_mm[near]!, "mm")}` : ""
  }`;
  return (
    <figure class="cone">
      <svg
        viewBox={`${-reach} ${-reach} ${2 * reach} ${2 * reach}`}
        role="img"
        aria-label={`${t("coneMap")}. ${words}`}
        onClick={take}
      >
        {cone.tilts_deg.map(([a, b], n) => (
          <rect
            key={n}
            x={b - cone.step_deg / 2}
            y={-a - cone.step_deg / 2}
            width={cone.step_deg * 1.03}
            height={cone.step_deg * 1.03}
            fill={`rgb(${ramp((cone.points[n]! - low) / (high - low || 1)).join(" ")})`}
          />
        ))}
        <circle class="usual" r={10} />
        <path class="zero" d="M-0.8 0H0.8M0 -0.8V0.8" />
        <circle class="chosen" cx={side} cy={-front} r={0.9} />
        <text x={-reach + 0.2} y={-reach + 1.7}>↑ {t("anterior")}</text>
        <text class="end" x={reach - 0.2} y={reach - 0.5}>{t("lateral")} →</text>
      </svg>
      <figcaption class="small" aria-live="polite">{words}. {t("coneHow")}</figcaption>
    </figure>
  );
}

function nearest(cone: ViewCone, front: number, side: number): number {
  let best = 0;
  let least = Infinity;
  cone.tilts_deg.forEach(([a, b], n) => {
    const far = Math.hypot(a - front, b - side);
    if (far < least) [best, least] = [n, far];
  });
  return best;
}
