import { useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { loadJson, type Platform } from "../api/view";
import { t, tellFailure } from "../state/bench";

interface Layer {
  parts: { name: string; kind: "part" | "support"; contours_mm: [number, number][][] }[];
}

/** The contours of one layer on its platform, drawn from above; y is up. */
export function LayerDrawing({ base, platform, layer }: { base: string; platform: Platform; layer: number }) {
  const seen = useSignal<Layer | null>(null);
  const wanted = useRef(layer);
  wanted.current = layer;
  useEffect(() => {
    const late = setTimeout(() => {
      loadJson<Layer>(`${base}/${layer}`).then(
        (loaded) => {
          if (wanted.current === layer) seen.value = loaded;
        },
        tellFailure,
      );
    }, 60);
    return () => clearTimeout(late);
  }, [base, layer]);
  const [w, h] = [platform.width_mm / 2, platform.depth_mm / 2];
  const path = (lines: [number, number][][]) =>
    lines.map((line) => `M${line.map(([x, y]) => `${x} ${-y}`).join("L")}Z`).join("");
  const count = seen.value?.parts.reduce((sum, part) => sum + part.contours_mm.length, 0) ?? 0;
  return (
    <svg
      class="layer"
      viewBox={`${-w - 2} ${-h - 2} ${2 * w + 4} ${2 * h + 4}`}
      role="img"
      aria-label={`${t("layer")} ${layer + 1}: ${count} ${t("contours")}`}
    >
      {platform.shape === "round" ? (
        <ellipse class="plate" rx={w} ry={h} />
      ) : (
        <rect class="plate" x={-w} y={-h} width={2 * w} height={2 * h} />
      )}
      {seen.value?.parts.map((part, n) => (
        <path key={n} class={part.kind} fill-rule="evenodd" d={path(part.contours_mm)}>
          <title>{part.name}</title>
        </path>
      ))}
    </svg>
  );
}
