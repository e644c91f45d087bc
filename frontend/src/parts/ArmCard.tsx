import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { t, trouble } from "../state/bench";
import { Cited, Said } from "./Said";
import { Figures } from "./Told";

const FIELDS = [
  ["length_mm", "armLength", "12", 0.1, 200],
  ["radius_mm", "armRadius", "0.8", 0.01, 200],
  ["tip_ratio", "armTaper", "0.5", 0.01, 1],
  ["arc_deg", "armArc", "0", 0, 180],
  ["undercut_mm", "armUndercut", "0.25", 0.001, 200],
  ["convergence_deg", "armSlope", "", 0, 89.9],
  ["friction", "armFriction", "", 0, 2],
] as const;

/** One bare arm by the closed form, of no case. */
export function ArmCard() {
  const alloys = useSignal<components["schemas"]["AlloyRow"][]>([]);
  const told = useSignal<components["schemas"]["ArmFigures"] | null>(null);
  useEffect(() => {
    void api.GET("/api/arm/alloys").then(({ data }) => data && (alloys.value = data));
  }, []);
  const ask = async (form: HTMLFormElement) => {
    const given = new FormData(form);
    const number = (key: string) => Number(given.get(key));
    const orNone = (key: string) => (given.get(key) ? number(key) : null);
    const { data, error } = await api.POST("/api/arm", {
      body: {
        length_mm: number("length_mm"),
        radius_mm: number("radius_mm"),
        undercut_mm: number("undercut_mm"),
        alloy: String(given.get("alloy")),
        tip_ratio: number("tip_ratio"),
        arc_deg: number("arc_deg"),
        convergence_deg: orNone("convergence_deg"),
        friction: orNone("friction"),
      },
    });
    told.value = data ?? null;
    trouble.value = data ? "" : troubleWords(error);
  };
  const found = told.value;
  return (
    <details class="single-arm">
      <summary><h2>{t("singleArm")}</h2></summary>
      <p class="small">{t("singleArmHow")}</p>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          void ask(e.currentTarget);
        }}
      >
        {FIELDS.map(([key, words, value, min, max]) => (
          <label key={key} class="number">
            {t(words)}
            <input type="number" name={key} required={value !== ""} min={min} max={max} step="any" defaultValue={value} />
          </label>
        ))}
        <label class="number">
          {t("alloy")}
          <select name="alloy">
            {alloys.value.map((one) => (
              <option key={one.name} value={one.name}>{one.name}</option>
            ))}
          </select>
        </label>
        <button>{t("armAsk")}</button>
      </form>
      {found && (
        <>
          <Figures
            rows={[
              [t("armForce"), found.force_n, "N"],
              [t("peakStress"), found.peak_stress_mpa, "MPa"],
              [t("armPeakAt"), found.peak_at_mm, "mm"],
              [t("withdrawal"), found.withdrawal_n, "N"],
              [t("modulus"), found.modulus_mpa, "MPa"],
            ]}
          />
          <p class="small">{t("source")}: <Cited text={found.source} /></p>
          <p class="small">{t("modulus")}: <Cited text={found.modulus_source} /></p>
          <p class="small caution"><Said text={found.caution} /></p>
        </>
      )}
    </details>
  );
}
