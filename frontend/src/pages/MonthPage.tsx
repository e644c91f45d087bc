import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import { Period } from "../parts/Period";
import { Figures } from "../parts/Told";
import { t } from "../state/bench";

interface Figured {
  [key: string]: unknown;
  remakes: Record<string, number>;
  bias_by_place_um: Record<string, number>;
  gaps: { middle: number; lower: number; upper: number; outside: number[] } | null;
  gap_capability: { cpk: number; cpk_low: number; cpk_high: number } | null;
}

/** What the laboratory made, what it took and what went wrong. */
export function MonthPage() {
  const today = new Date().toISOString().slice(0, 10);
  const first = useSignal(`${today.slice(0, 7)}-01`);
  const last = useSignal(today);
  const figures = useSignal<Figured | null>(null);
  const words = useSignal("");
  useEffect(() => {
    if (!first.value || !last.value) return;
    void api
      .GET("/api/month", { params: { query: { first: first.value, last: last.value } } })
      .then(({ data, error }) => {
        figures.value = data ? (data.figures as unknown as Figured) : null;
        words.value = data ? "" : troubleWords(error);
      });
  }, [first.value, last.value]);
  const f = figures.value;
  const n = (key: string) => f?.[key] as number | null | undefined;
  const list = (of: Record<string, number>, unit: string) =>
    Object.entries(of).map(([key, value]) => [key, value, unit] as const);
  return (
    <main class="list">
      <Period title="month" first={first} last={last} trouble={words.value} />
      {f && (
        <>
          <Figures
            rows={[
              [t("cases"), n("cases"), ""],
              [t("frameworks"), n("frameworks"), ""],
              [t("sent"), n("sent"), ""],
              [t("late"), n("late"), ""],
              [t("turnaround"), n("turnaround_days"), "d"],
              [t("builds"), n("builds"), ""],
              [t("melted"), n("powder_melted_g"), "g"],
              [t("lostPowder"), n("powder_lost_g"), "g"],
              [t("furnaceHours"), n("furnace_hours"), "h"],
              [t("furnaceFailed"), n("furnace_failed"), ""],
              [t("costEach"), n("cost_per_framework"), String(f["currency"])],
            ]}
          />
          <h2>{t("remakes")}</h2>
          <Figures rows={list(f.remakes, "")} />
          <h2>{t("gap")}</h2>
          {f.gaps && (
            <Figures
              rows={[
                [t("meanAbs"), f.gaps.middle, "um"],
                [t("limit"), `${Math.round(f.gaps.lower)}–${Math.round(f.gaps.upper)} µm`, ""],
                [t("outside"), f.gaps.outside.length, ""],
                ["Cpk", f.gap_capability?.cpk, ""],
              ]}
            />
          )}
          <h2>{t("byPlace")}</h2>
          <Figures rows={list(f.bias_by_place_um, "um")} />
        </>
      )}
    </main>
  );
}
