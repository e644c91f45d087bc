import type { Point3 } from "../api/client";
import type { ViewPlan } from "../api/view";

/** Where a point of the arch lies on the plan, in pixels of its picture. */
export function onPlan(plan: ViewPlan, p: Point3): [number, number] {
  return [
    plan.origin_px[0] + plan.x_px_per_mm[0] * p[0] + plan.y_px_per_mm[0] * p[1],
    plan.origin_px[1] + plan.x_px_per_mm[1] * p[0] + plan.y_px_per_mm[1] * p[1],
  ];
}

/** An SVG path through points of the arch. */
export function pathOf(plan: ViewPlan, points: readonly Point3[], closed = false): string {
  const steps = points.map((p) => onPlan(plan, p).map((v) => v.toFixed(1)).join(" "));
  return steps.length ? `M${steps.join("L")}${closed ? "Z" : ""}` : "";
}

/** Places along a crest for the codes of its missing teeth, evenly spread. */
export function alongCrest(crest: readonly Point3[], count: number): Point3[] {
  const last = crest.length - 1;
  return Array.from({ length: count }, (_, k) => crest[Math.round(((k + 0.5) / count) * last)]!);
}
