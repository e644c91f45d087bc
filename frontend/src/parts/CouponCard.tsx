import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api } from "../api/client";
import type { components } from "../api/schema";
import { figure } from "../lib/format";
import { language, openJobOf, t, takeJob } from "../state/bench";
import { Files, Figures } from "./Told";

const SIZES = [
  ["length_mm", "couponLength", 60, 10, 120],
  ["width_mm", "couponWidth", 5, 1, 20],
  ["height_mm", "couponHeight", 3, 1, 10],
  ["legs", "couponLegs", 12, 2, 60],
  ["leg_mm", "couponLeg", 2.5, 0.5, 20],
  ["leg_height_mm", "couponLegHeight", 3, 1, 10],
] as const;

/** The coupon that calibrates distortion: its solid to print, the strain from its measured rise. */
export function CouponCard({ name }: { name: string }) {
  const state = useSignal<components["schemas"]["CouponState"] | null>(null);
  const processes = useSignal<string[]>(["cocr-25um"]);
  const job = openJobOf(name)?.id;
  useEffect(() => {
    void api.GET("/api/builds/forms").then(({ data }) => data && (processes.value = data.processes));
  }, []);
  useEffect(() => {
    if (!job) void api.GET("/api/coupon").then(({ data }) => data && (state.value = data));
  }, [job]);
  const told = state.value?.told;
  const plain = (v: number) => figure(v, "", language.value);
  const ask = async (form: HTMLFormElement) => {
    const given = new FormData(form);
    const number = (key: string) => Number(given.get(key));
    takeJob(
      await api.POST("/api/coupon", {
        body: {
          case: name,
          process: String(given.get("process")),
          rise_mm: given.get("rise_mm") ? number("rise_mm") : null,
          sizes: {
            length_mm: number("length_mm"),
            width_mm: number("width_mm"),
            height_mm: number("height_mm"),
            legs: number("legs"),
            leg_mm: number("leg_mm"),
            leg_height_mm: number("leg_height_mm"),
          },
        },
      }),
    );
  };
  return (
    <details class="coupon">
      <summary><h2>{t("coupon")}</h2></summary>
      <p class="small">{t("couponHow")}</p>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          void ask(e.currentTarget);
        }}
      >
        <label class="number">
          {t("process")}
          <select name="process">
            {processes.value.map((one) => (
              <option key={one} value={one}>{one}</option>
            ))}
          </select>
        </label>
        {SIZES.map(([key, words, value, min, max]) => (
          <label key={key} class="number">
            {t(words)}
            <input type="number" name={key} required min={min} max={max} step={key === "legs" ? 1 : "any"} defaultValue={String(value)} />
          </label>
        ))}
        <label class="number">
          {t("couponRise")} <input type="number" name="rise_mm" min={0.001} max={50} step="any" />
        </label>
        <button disabled={!!job}>{t("couponAsk")}</button>
      </form>
      {told && (
        <>
          <Figures
            rows={[
              [t("recordStrain"), told.record_strain.toLocaleString(language.value, { maximumFractionDigits: 6 }), ""],
              [t("recordRise"), told.record_rise_mm.toLocaleString(language.value, { maximumFractionDigits: 3 }), "mm"],
              [t("couponRise"), told.rise_mm, ""],
              [t("couponStrain"), told.strain?.toLocaleString(language.value, { maximumFractionDigits: 6 }), ""],
            ]}
          />
          <p class="small">
            {told.process}; {[told.sizes.length_mm, told.sizes.width_mm, told.sizes.height_mm].map(plain).join(" × ")} mm, {t("couponLegs")}: {told.sizes.legs} × {plain(told.sizes.leg_mm)} mm
          </p>
          {told.strain != null && <p class="small">{t("couponEnter")}</p>}
          <Files base="/api/coupon/files" files={state.value?.files ?? []} />
        </>
      )}
    </details>
  );
}
