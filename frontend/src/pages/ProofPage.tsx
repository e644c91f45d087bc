import { useSignal } from "@preact/signals";
import { api } from "../api/client";
import { ArmCard } from "../parts/ArmCard";
import { Curve } from "../parts/Curve";
import { CaseHead } from "../parts/CaseHead";
import { JobBar } from "../parts/JobBar";
import { said } from "../parts/Said";
import { Files, Figures, ToldFindings, type Told } from "../parts/Told";
import { figure } from "../lib/format";
import { language, page, t, takeJob } from "../state/bench";
import { StageModel, stageOf } from "./StageModel";

interface Arm {
  component: string;
  tooth: number;
  withdrawal_n: number;
  withdrawal_low_n: number;
  withdrawal_high_n: number;
  insertion_n: number;
  peak_stress_mpa: number;
  goodman_factor: number;
  length_mm: number;
  decides: string;
  curve: { lift_mm: number[]; withdrawal_n: number[]; insertion_n: number[] };
  stress: { along_mm: number[]; mpa: number[] };
}

interface Check {
  arms: Arm[];
  denture: { least_lifting_n: number | null; without_indirect_n: number | null; lifts_about: string[] } | null;
  solid: {
    step_mm: number;
    twist_mm_under_10_n: number | null;
    spread_mm_under_10_n: number | null;
    cases: { load: string; peak_stress_mpa: number; yields_at: number }[];
  } | null;
  findings: Told[];
}

/** Will it hold, and last: arms, lifting, stress of the solid. */
export function ProofPage({ name }: { name: string }) {
  const state = stageOf("proof");
  const told = state?.answers["check"] as unknown as Check | undefined;
  const solid = useSignal(false);
  const ask = async () =>
    takeJob(
      await api.POST("/api/cases/{name}/proof", {
        params: { path: { name } },
        body: { elements_mm: solid.value ? 0.3 : null },
      }),
    );
  const say = (v: number | null, unit: string) => figure(v, unit, language.value);
  return (
    <main class="case">
      <CaseHead name={name}>
        <JobBar name={name}>
          {state?.stale && <span class="hint">{t("stale")}</span>}
          <label class="tick">
            <input type="checkbox" checked={solid.value} onChange={(e) => (solid.value = e.currentTarget.checked)} />
            {t("withStress")}
          </label>
          <button
            class={state?.done && !state.stale ? "" : "first"}
            disabled={page.value?.line.standing === "sheet has errors"}
            onClick={() => void ask()}
          >
            {t("prove")}
          </button>
        </JobBar>
      </CaseHead>
      <div class="ticket">
        {!told && <p class="hint">{t("neverProved")}</p>}
        {told?.denture && (
          <section aria-labelledby="lifting">
            <h2 id="lifting">{t("lifting")}</h2>
            <Figures
              rows={[
                [t("leastLift"), told.denture.least_lifting_n, "N"],
                [t("withoutIndirect"), told.denture.without_indirect_n, "N"],
                [t("liftsAbout"), told.denture.lifts_about.join(", "), ""],
              ]}
            />
          </section>
        )}
        {told && (
          <section aria-labelledby="arms">
            <h2 id="arms">{t("arms")}</h2>
            <table class="rows">
              <thead>
                <tr>
                  <th scope="col">{t("tooth")}</th>
                  <th scope="col" class="figure">{t("withdrawal")}</th>
                  <th scope="col" class="figure">{t("range")}</th>
                  <th scope="col" class="figure">{t("peakStress")}</th>
                  <th scope="col" class="figure">{t("fatigue")}</th>
                </tr>
              </thead>
              <tbody>
                {told.arms.map((arm) => (
                  <tr key={arm.component}>
                    <th scope="row" title={arm.component}>{arm.tooth}</th>
                    <td class="figure">{say(arm.withdrawal_n, "N")}</td>
                    <td class="figure">{say(arm.withdrawal_low_n, "")}–{say(arm.withdrawal_high_n, "N")}</td>
                    <td class="figure">{say(arm.peak_stress_mpa, "MPa")}</td>
                    <td class="figure">{say(arm.goodman_factor, "")}</td>
                  </tr>
                ))}
              </tbody>
            </table>
            <div class="curves">
              {told.arms.map((arm) => (
                <div key={arm.component}>
                  <Curve
                    title={`${arm.tooth}: ${t("withdrawal")}, ${t("insertion")}`}
                    across={t("liftMm")}
                    up="N"
                    lines={[
                      { name: t("withdrawal"), x: arm.curve.lift_mm, y: arm.curve.withdrawal_n },
                      { name: t("insertion"), x: arm.curve.lift_mm, y: arm.curve.insertion_n, dashed: true },
                    ]}
                  />
                  <Curve
                    title={`${arm.tooth}: ${t("stressAlong")}`}
                    across={t("alongMm")}
                    up="MPa"
                    lines={[{ name: t("stress"), x: arm.stress.along_mm, y: arm.stress.mpa }]}
                  />
                </div>
              ))}
            </div>
          </section>
        )}
        {told?.solid && (
          <section aria-labelledby="solid">
            <h2 id="solid">{t("solid")}</h2>
            <Figures
              rows={[
                [t("elements"), told.solid.step_mm, "mm"],
                [t("twist"), told.solid.twist_mm_under_10_n, "mm"],
                [t("spread"), told.solid.spread_mm_under_10_n, "mm"],
              ]}
            />
            <table class="rows">
              <thead>
                <tr>
                  <th scope="col">{t("load")}</th>
                  <th scope="col" class="figure">{t("peakStress")}</th>
                  <th scope="col" class="figure">{t("yieldsAt")}</th>
                </tr>
              </thead>
              <tbody>
                {told.solid.cases.map((one) => (
                  <tr key={one.load}>
                    <th scope="row">{said(one.load)}</th>
                    <td class="figure">{say(one.peak_stress_mpa, "MPa")}</td>
                    <td class="figure">{say(one.yields_at, "")} ×</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
        {told && (
          <section aria-labelledby="findings">
            <h2 id="findings">{t("findings")}</h2>
            <ToldFindings findings={told.findings} />
            <Files base={`/api/cases/${encodeURIComponent(name)}/stages/proof/files`} files={state?.files ?? []} />
          </section>
        )}
        <ArmCard />
        <p class="small caution">{t("caution")}</p>
      </div>
      <StageModel name={name} stage="proof" />
    </main>
  );
}
