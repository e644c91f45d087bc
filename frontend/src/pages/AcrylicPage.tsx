import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { figure } from "../lib/format";
import { CaseHead } from "../parts/CaseHead";
import { Curve } from "../parts/Curve";
import { by, EntryForm, EntryRows, Signer } from "../parts/Entry";
import { JobBar } from "../parts/JobBar";
import { Figures, ToldFindings, type Told } from "../parts/Told";
import { language, page, t, trouble } from "../state/bench";

type Step = Required<components["schemas"]["BathStep"]>;
type Plan = components["schemas"]["AcrylicAnswer"];
const ROOM_C = 23;

/** What to weigh for the bases, how to cure them, and which lots went in. */
export function AcrylicPage({ name }: { name: string }) {
  const at = { params: { path: { name } } };
  const cycles = useSignal<Record<string, Step[]>>({});
  const cycle = useSignal("long");
  const steps = useSignal<Step[]>([]);
  const volume = useSignal<number | null>(null);
  const excess = useSignal(25);
  const model = useSignal<"stone" | "printed resin">("stone");
  const cooling = useSignal<[number, number]>([30, 15]);
  const plan = useSignal<Plan | null>(null);
  const packed = useSignal<Record<string, unknown>[]>([]);
  useEffect(() => {
    void api.GET("/api/cases/{name}/acrylic", at).then(({ data }) => {
      if (!data) return;
      cycles.value = data.cycles as Record<string, Step[]>;
      steps.value = cycles.value["long"] ?? [];
    });
    void loadPacked();
  }, [name]);
  const loadPacked = async () => {
    const { data } = await api.GET("/api/cases/{name}/register", at);
    packed.value = (data?.entries ?? []).filter((one) => one.kind === "acrylic").map((one) => one.fields);
  };
  useEffect(() => {
    if (!steps.value.length) return;
    const body = {
      base_cm3: volume.value, excess_percent: excess.value, steps: steps.value, model: model.value,
      bench_cool_min: cooling.value[0], water_cool_min: cooling.value[1],
    };
    let late = false;
    void api.POST("/api/cases/{name}/acrylic/plan", { ...at, body }).then(({ data, error }) => {
      if (late) return;
      if (data) plan.value = data;
      trouble.value = data ? "" : troubleWords(error);
    });
    return () => {
      late = true;
    };
  }, [name, volume.value, excess.value, steps.value, model.value, cooling.value, page.value?.line.standing]);
  const now = plan.value;
  const say = (v: number, unit: string) => figure(v, unit, language.value);
  const take = (key: string) => {
    cycle.value = key;
    if (key in cycles.value) steps.value = cycles.value[key]!;
  };
  const put = (n: number, change: Partial<Step>) => {
    cycle.value = "own";
    steps.value = steps.value.map((one, k) => (k === n ? { ...one, ...change } : one));
  };
  return (
    <main class="case one">
      <CaseHead name={name}>
        <JobBar name={name}><Signer /></JobBar>
      </CaseHead>
      <div class="ticket">
        <section aria-labelledby="amounts">
          <h2 id="amounts">{t("amounts")}</h2>
          {now && now.from_run_cm3 === null && volume.value === null && <p class="hint">{t("noBase")}</p>}
          {now?.bases.map((one, n) => (
            <p key={n} class="small">
              {(one["teeth"] as number[]).join(", ")}: {say((one["acrylic_mm3"] as number) / 1000, "cm³")}
            </p>
          ))}
          <div class="row">
            <Number_ words={t("otherVolume")} unit="cm³" value={volume.value} min={0.1} max={200} step={0.1} change={(v) => (volume.value = v)} />
            <Number_ words={t("excess")} unit="%" value={excess.value} min={0} max={200} step={5} change={(v) => (excess.value = v ?? 0)} />
          </div>
          {now?.amount && (
            <Figures
              rows={[
                [`${t("baseVolume")}${volume.value === null ? `, ${t("ofRun")}` : ""}`, now.amount.base_cm3, "cm³"],
                [t("powder"), `${say(now.amount.powder_g, "g")} (${say(now.amount.powder_cm3, "cm³")})`, ""],
                [t("liquid"), now.amount.liquid_ml, "ml"],
                [
                  t("shrinkage"),
                  `${t("ideal")} ${say(now.ideal_shrinkage_percent, "%")}, ${t("observed")} ${now.observed_percent.map((v) => say(v, "")).join("–")} %`,
                  "",
                ],
              ]}
            />
          )}
          <p class="small caution">{t("makersFirst")}</p>
        </section>
        <section aria-labelledby="curing">
          <h2 id="curing">{t("curing")}</h2>
          <div class="row">
            <label class="number">
              {t("cycle")}
              <select value={cycle.value} onChange={(e) => take(e.currentTarget.value)}>
                {([...Object.keys(cycles.value), "own"] as ("long" | "short" | "own")[]).map((one) => (
                  <option key={one} value={one}>{t(`cycle_${one}`)}</option>
                ))}
              </select>
            </label>
            <label class="number">
              {t("packedOn")}
              <select value={model.value} onChange={(e) => (model.value = e.currentTarget.value as "stone")}>
                <option value="stone">{t("stone")}</option>
                <option value="printed resin">{t("printedResin")}</option>
              </select>
            </label>
          </div>
          {steps.value.map((one, n) => (
            <div key={n} class="row" role="group" aria-label={`${t("bath")} ${n + 1}`}>
              <span class="figure">{n + 1}</span>
              <Number_ words={t("bath")} unit="°C" value={one.bath_c} min={10} max={200} step={1} change={(v) => put(n, { bath_c: v ?? 20 })} />
              <Number_ words={t("rise")} unit="min" value={one.rise_min} min={0} max={600} step={5} change={(v) => put(n, { rise_min: v ?? 0 })} />
              <Number_ words={t("hold")} unit="min" value={one.minutes} min={0} max={1500} step={5} change={(v) => put(n, { minutes: v ?? 0 })} />
            </div>
          ))}
          <div class="row">
            <button onClick={() => ((cycle.value = "own"), (steps.value = [...steps.value, steps.value[steps.value.length - 1]!]))} disabled={steps.value.length >= 8}>{t("addStep")}</button>
            <button onClick={() => ((cycle.value = "own"), (steps.value = steps.value.slice(0, -1)))} disabled={steps.value.length < 2}>{t("dropStep")}</button>
            <Number_ words={t("benchCool")} unit="min" value={cooling.value[0]} min={0} max={600} step={5} change={(v) => (cooling.value = [v ?? 0, cooling.value[1]])} />
            <Number_ words={t("waterCool")} unit="min" value={cooling.value[1]} min={0} max={600} step={5} change={(v) => (cooling.value = [cooling.value[0], v ?? 0])} />
          </div>
          {steps.value.length > 0 && <div class="bath"><Curve title={t("bathCurve")} across={t("minutesAxis")} up="°C" lines={[bathLine(steps.value)]} /></div>}
          {now && <ToldFindings findings={now.findings as unknown as Told[]} />}
        </section>
        <section aria-labelledby="packing">
          <h2 id="packing">{t("packing")}</h2>
          <EntryRows
            rows={packed.value}
            shows={(row) => [
              `${String(row["powder_lot"])} / ${String(row["liquid_lot"])}`,
              `${say(row["powder_g"] as number, "g")} / ${say(row["liquid_ml"] as number, "ml")}`,
              String(row["cycle"] ?? ""),
              String(row["tooth_lot"] ?? ""),
            ]}
          />
          <EntryForm
            label={t("enter")}
            done={loadPacked}
            send={(said) =>
              api.POST("/api/cases/{name}/acrylic", {
                ...at,
                body: {
                  powder_lot: said.text("powder_lot"), liquid_lot: said.text("liquid_lot"), tooth_lot: said.text("tooth_lot"),
                  cycle: steps.value.map((one) => `${one.bath_c} °C ${one.minutes} min`).join(", "),
                  base_cm3: volume.value, excess_percent: excess.value, ...by(),
                },
              })
            }
          >
            <label class="number">{t("powderLot")} <input name="powder_lot" required maxLength={120} /></label>
            <label class="number">{t("liquidLot")} <input name="liquid_lot" required maxLength={120} /></label>
            <label class="number">{t("toothLot")} <input name="tooth_lot" maxLength={120} /></label>
          </EntryForm>
        </section>
        <p class="small caution">{t("caution")}</p>
      </div>
    </main>
  );
}

function Number_(props: {
  words: string; unit: string; value: number | null; min: number; max: number; step: number;
  change: (value: number | null) => void;
}) {
  return (
    <label class="number">
      {props.words}
      <input
        type="number" min={props.min} max={props.max} step={props.step} value={props.value ?? ""}
        onChange={(e) => e.currentTarget.checkValidity() && props.change(Number.isNaN(e.currentTarget.valueAsNumber) ? null : e.currentTarget.valueAsNumber)}
      />
      {props.unit}
    </label>
  );
}

/** The bath over time: each rise, then each hold. */
function bathLine(steps: readonly Step[]) {
  const [x, y] = [[0], [ROOM_C]];
  for (const one of steps) {
    const from = x[x.length - 1]!;
    x.push(from + one.rise_min, from + one.rise_min + one.minutes);
    y.push(one.bath_c, one.bath_c);
  }
  return { name: "°C", x, y };
}
