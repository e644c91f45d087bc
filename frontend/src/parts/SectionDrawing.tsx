import type { Point3 } from "../api/client";
import { figure } from "../lib/format";
import { flat } from "../lib/section";
import { language, t } from "../state/bench";
import { said } from "./Said";
import { cuts, plane } from "../state/model";

const HALF_MM = 11;

/** The section as a drawing, 22 mm wide, with a scale; occlusal is up. */
export function SectionDrawing() {
  const at = plane.value;
  if (!at || !cuts.value.length) return null;
  return (
    <figure class="section">
      <svg
        viewBox={`${-HALF_MM} ${-HALF_MM} ${2 * HALF_MM} ${2 * HALF_MM}`}
        role="img"
        aria-label={`${t("section")}: ${cuts.value
          .filter((c) => c.area_mm2 !== null)
          .map((c) => `${said(c.part.replace("_", " "))} ${figure(c.area_mm2, "mm2", language.value)}`)
          .join(", ")}`}
      >
        {cuts.value.map((cut) => (
          <path
            key={cut.part}
            class={cut.part}
            d={cut.lines_arch_mm
              .map((line) => flat(line as Point3[], at.at, at.normal))
              .map((line) => `M${line.map((p) => p.map((v) => v.toFixed(3)).join(" ")).join("L")}`)
              .join("")}
          />
        ))}
        <g class="scale">
          <line x1={-10} x2={-5} y1={10} y2={10} />
          <text x={-7.5} y={9.5}>5 mm</text>
        </g>
      </svg>
    </figure>
  );
}
