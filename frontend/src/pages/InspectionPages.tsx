import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api } from "../api/client";
import { figure } from "../lib/format";
import { CaseHead } from "../parts/CaseHead";
import { JobBar } from "../parts/JobBar";
import { OtherScan } from "../parts/OtherScan";
import { Said, said } from "../parts/Said";
import { Files, Figures, ToldFindings, type Told } from "../parts/Told";
import { author, language, openJobOf, sendForm, setAuthor, t, takeJob } from "../state/bench";
import { view } from "../state/model";
import { StageModel, stageOf } from "./StageModel";

const filesOf = (name: string, stage: string) =>
  `/api/cases/${encodeURIComponent(name)}/stages/${stage}/files`;

/** What else is needed where the outcome shall be entered in the register. */
function EntryFields({ fields }: { fields: readonly (readonly [string, string])[] }) {
  return (
    <details>
      <summary>{t("enterToo")}</summary>
      <div class="row">
        {fields.map(([key, words]) => (
          <label key={key} class="number">{words} <input name={key} /></label>
        ))}
        <label class="number">
          {t("author")} <input name="by" value={author.value} onInput={(e) => setAuthor(e.currentTarget.value)} />
        </label>
      </div>
    </details>
  );
}

/** The log of a stress relief against its schedule. */
export function FurnacePage({ name }: { name: string }) {
  const state = stageOf("furnace");
  const told = state?.answers["run"] as
    | ({ log: string; schedule: string; passed: boolean; findings: Told[] } & Record<string, number | null>)
    | undefined;
  const schedules = useSignal<string[]>([]);
  useEffect(() => {
    void api.GET("/api/builds/forms").then(({ data }) => data && (schedules.value = data.schedules));
  }, []);
  return (
    <main class="case one">
      <CaseHead name={name}>
        <JobBar name={name}>
          <form
            class="row"
            onSubmit={(e) => {
              e.preventDefault();
              void sendForm(`/api/cases/${encodeURIComponent(name)}/furnace`, new FormData(e.currentTarget));
            }}
          >
            <label class="number">
              {t("log")} <input type="file" name="log" accept=".csv,.txt" required />
            </label>
            <label class="number">
              {t("schedule")}
              <select name="wanted">
                {schedules.value.map((one) => (
                  <option key={one} value={one}>{one}</option>
                ))}
              </select>
            </label>
            <EntryFields fields={[["builds", t("builds")], ["run", t("id")], ["instrument", t("instrument")]]} />
            <button class={state?.done ? "" : "first"}>{t("judge")}</button>
          </form>
        </JobBar>
      </CaseHead>
      <div class="ticket">
        {!told && <p class="hint">{t("neverRun")}</p>}
        {told && (
          <section aria-labelledby="run">
            <h2 id="run">
              <span class={told.passed ? "note" : "stop"}>
                {told.passed ? "● " : "■ "}
                {told.passed ? t("passed") : t("failed")}
              </span>{" "}
              <span class="small">{told.log}, {told.schedule}</span>
            </h2>
            <Figures
              rows={[
                [t("purge"), told["purge_min"], "min"],
                [t("ramp"), told["ramp_c_per_h"], "°C/h"],
                [t("highest"), told["highest_c"], "°C"],
                [t("soak"), told["soak_min"], "min"],
                [t("soakMean"), told["soak_mean_c"], "°C"],
                [t("cooling"), told["cooling_c_per_h"], "°C/h"],
                [t("unloading"), told["last_c"], "°C"],
              ]}
            />
            <img
              class="plot"
              src={`${filesOf(name, "furnace")}/run.png`}
              alt={`${t("furnace")}: ${t("highest")} ${figure(told["highest_c"], "°C", language.value)}, ${t("soak")} ${figure(told["soak_min"], "min", language.value)}`}
            />
            <ToldFindings findings={told.findings} />
            <Files base={filesOf(name, "furnace")} files={state?.files ?? []} />
          </section>
        )}
        <p class="small caution">{t("caution")}</p>
      </div>
    </main>
  );
}

interface FitTold {
  scan: string;
  aligned_by: string;
  overlap_share: number;
  bias_um: number;
  mean_abs_um: number;
  rms_um: number;
  p95_um: number;
  findings: Told[];
}

interface SeatTold {
  settled: boolean;
  tilt_deg: number;
  lift_um: number;
  rests: { name: string; mean_gap_um: number; highest_gap_um: number; uncertainty_um: number }[];
  rocking: { play_um: number }[];
  findings: Told[];
}

/** A scan of the finished metal against design and model. */
export function InspectionPage({ name }: { name: string }) {
  const state = stageOf("inspection");
  const fit = state?.answers["fit"] as unknown as FitTold | undefined;
  const seat = state?.answers["seat"] as unknown as SeatTold | undefined;
  const say = (v: number, unit: string) => figure(v, unit, language.value);
  return (
    <main class="case">
      <CaseHead name={name}>
        <JobBar name={name}>
          {state?.stale && <span class="hint">{t("stale")}</span>}
          <form
            class="row"
            onSubmit={(e) => {
              e.preventDefault();
              void sendForm(`/api/cases/${encodeURIComponent(name)}/inspection`, new FormData(e.currentTarget));
            }}
          >
            <label class="number">
              {t("metalScan")} <input type="file" name="scan" accept=".stl,.ply,.obj,.3mf,.dcm" required />
            </label>
            <EntryFields fields={[["part", t("frameworkId")], ["instrument", t("instrument")]]} />
            <button class={state?.done ? "" : "first"}>{t("inspect")}</button>
          </form>
        </JobBar>
      </CaseHead>
      <div class="ticket">
        {!fit && <p class="hint">{t("neverInspected")}</p>}
        {fit && (
          <section aria-labelledby="fit">
            <h2 id="fit">{t("deviation")} <span class="small">{fit.scan}</span></h2>
            <Figures
              rows={[
                [t("trueness"), fit.bias_um, "um"],
                [t("meanAbs"), fit.mean_abs_um, "um"],
                [t("rms"), fit.rms_um, "um"],
                [t("p95"), fit.p95_um, "um"],
                [t("overlap"), 100 * fit.overlap_share, "%"],
              ]}
            />
            <p class="small">{t("signHow")}</p>
          </section>
        )}
        {seat && (
          <section aria-labelledby="seat">
            <h2 id="seat">{t("seating")}</h2>
            <Figures
              rows={[
                [t("tilt"), seat.tilt_deg, "deg"],
                [t("rocks"), Math.max(0, ...seat.rocking.map((r) => r.play_um)), "um"],
              ]}
            />
            <table class="rows">
              <thead>
                <tr>
                  <th scope="col">{t("rest")}</th>
                  <th scope="col" class="figure">{t("gap")}</th>
                  <th scope="col" class="figure">± 2 s</th>
                  <th scope="col" class="figure">{t("highest")}</th>
                </tr>
              </thead>
              <tbody>
                {seat.rests.map((rest) => (
                  <tr key={rest.name}>
                    <th scope="row">{rest.name}</th>
                    <td class="figure">{say(rest.mean_gap_um, "um")}</td>
                    <td class="figure">{say(2 * rest.uncertainty_um, "um")}</td>
                    <td class="figure">{say(rest.highest_gap_um, "um")}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </section>
        )}
        {fit && seat && (
          <section aria-labelledby="findings">
            <h2 id="findings">{t("findings")}</h2>
            <ToldFindings findings={[...fit.findings, ...seat.findings]} />
            <Files base={filesOf(name, "inspection")} files={state?.files ?? []} />
          </section>
        )}
        <p class="small caution">{t("caution")}</p>
      </div>
      <StageModel name={name} stage="inspection" />
    </main>
  );
}

interface Asked {
  path: string;
  asks: string[];
  seats: { tooth: number; where: string; depth_mm: number; width_mm: number; reduce_mm: number }[];
  guiding_planes: { tooth: number; where: string; height_mm: number; area_mm2: number; reduce_mm: number }[];
}

/** What the dentist should still reduce before the final scan; a new scan may be taken in here. */
export function PreparationPage({ name }: { name: string }) {
  const state = stageOf("preparation");
  const surveyed = stageOf("survey");
  const drawn = !!view.value && !!stageOf("scans")?.view_stamp;
  const told = state?.answers["preparation"] as unknown as Asked | undefined;
  const say = (v: number, unit: string) => figure(v, unit, language.value);
  const ask = async () =>
    takeJob(await api.POST("/api/cases/{name}/preparation", { params: { path: { name } } }));
  return (
    <main class={drawn ? "case" : "case one"}>
      <CaseHead name={name}>
        <JobBar name={name}>
          <button class={state?.done ? "" : "first"} onClick={() => void ask()}>{t("readPreparation")}</button>
        </JobBar>
      </CaseHead>
      <div class="ticket">
        {!told && <p class="hint">{t("neverPrepared")}</p>}
        {told && (
          <section aria-labelledby="asks">
            <h2 id="asks">{t("asks")}</h2>
            <p class="small">{t("path")}: <Said text={told.path} /></p>
            {told.asks.length === 0 && <p>{t("nothingToReduce")}</p>}
            <ul>
              {told.asks.map((one) => (
                <li key={one}><Said text={one} /></li>
              ))}
            </ul>
            <table class="rows">
              <thead>
                <tr>
                  <th scope="col">{t("tooth")}</th>
                  <th scope="col">{t("place")}</th>
                  <th scope="col" class="figure">{t("measured")}</th>
                  <th scope="col" class="figure">{t("reduce")}</th>
                </tr>
              </thead>
              <tbody>
                {told.seats.map((one) => (
                  <tr key={`s${one.tooth}${one.where}`}>
                    <th scope="row">{one.tooth}</th>
                    <td>{said(one.where)}, {t("rest")}</td>
                    <td class="figure">{say(one.depth_mm, "mm")} × {say(one.width_mm, "mm")}</td>
                    <td class="figure">{say(one.reduce_mm, "mm")}</td>
                  </tr>
                ))}
                {told.guiding_planes.map((one) => (
                  <tr key={`g${one.tooth}${one.where}`}>
                    <th scope="row">{one.tooth}</th>
                    <td>{said(one.where)}, {t("guidingPlane")}</td>
                    <td class="figure">{say(one.height_mm, "mm")}, {say(one.area_mm2, "mm2")}</td>
                    <td class="figure">{say(one.reduce_mm, "mm")}</td>
                  </tr>
                ))}
              </tbody>
            </table>
            <Files base={filesOf(name, "preparation")} files={state?.files ?? []} />
          </section>
        )}
        <section aria-labelledby="survey">
          <h2 id="survey">{t("surveyed")}</h2>
          <p class="small">{t("surveyHow")}</p>
          <p>
            <button
              disabled={!!openJobOf(name)}
              onClick={() => void api.POST("/api/cases/{name}/survey", { params: { path: { name } } }).then(takeJob)}
            >
              {t("surveyIt")}
            </button>
          </p>
          {surveyed?.done && <Files base={filesOf(name, "survey")} files={surveyed.files} />}
        </section>
        <OtherScan name={name} />
        <section aria-labelledby="rescan">
          <h2 id="rescan">{t("rescan")}</h2>
          <p class="small">{t("rescanHow")}</p>
          <form
            class="row"
            onSubmit={(e) => {
              e.preventDefault();
              void sendForm(`/api/cases/${encodeURIComponent(name)}/rescan`, new FormData(e.currentTarget));
            }}
          >
            <label class="number">
              {t("master")} <input type="file" name="scan" accept=".stl,.ply,.obj,.3mf,.dcm" required />
            </label>
            <label class="number">
              {t("newName")} <input name="new_case" required maxLength={64} defaultValue={`${name}-2`} />
            </label>
            <button>{t("takeIn")}</button>
          </form>
        </section>
      </div>
      {drawn && <StageModel name={name} stage="scans" />}
    </main>
  );
}
