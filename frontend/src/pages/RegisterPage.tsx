import { useSignal, type Signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { figure, moment } from "../lib/format";
import { LabHead } from "../parts/LabHead";
import { LookUp } from "../parts/LookUp";
import { Persons } from "../parts/Persons";
import { Said, saidKey } from "../parts/Said";
import { Figures } from "../parts/Told";
import { Wide } from "../parts/Wide";
import { Work } from "../parts/Work";
import { here, jobs, language, openJobOf, t, takeJob, trouble } from "../state/bench";

type State = components["schemas"]["RegisterState"];

interface Checked {
  entries: number;
  head: string;
  faults: string[];
  on: string;
  against: string;
}

/** The laboratory's register as a whole: is it sound, is it safe, and what it can answer. */
export function RegisterPage() {
  const state = useSignal<State | null>(null);
  const load = async () => {
    const { data, error } = await api.GET("/api/register");
    if (data) state.value = data;
    else trouble.value = troubleWords(error);
  };
  const busy = openJobOf("")?.id;
  useEffect(() => void load(), [busy, jobs.value.size]);
  const now = state.value;
  const mayAll = !here.value?.accounts || here.value.role === "lead";
  const make = async () => {
    const { data, error } = await api.POST("/api/register");
    if (data) state.value = data;
    else trouble.value = troubleWords(error);
  };
  if (!now) return <main class="list"><LabHead title="register" /></main>;
  return (
    <main class="list">
      <LabHead title="register" />
      <section aria-labelledby="state">
        <h2 id="state">{t("registerState")}</h2>
        {!now.there && <p>{t("noRegister")} <button class="first" onClick={() => void make()}>{t("makeRegister")}</button></p>}
        {now.there && !now.up_to_date && (
          <p class="look">◆ {t("oldRegister")} <button onClick={() => void make()}>{t("bringUp")}</button></p>
        )}
        {now.up_to_date && (
          <>
            <Figures
              rows={[
                [t("entriesCount"), now.entries, ""],
                ...Object.entries(now.counts).map(([kind, count]) => [saidKey(kind), count, ""] as const),
              ]}
            />
            <p class="small">{t("headNow")}: <code class="hash">{now.head}</code></p>
            <p class="small">{t("headHow")}</p>
          </>
        )}
      </section>
      {now.up_to_date && <LookUp changed={load} />}
      {now.up_to_date && !mayAll && <p class="hint">{t("leadOnly")}</p>}
      {now.up_to_date && mayAll && (
        <>
          <Whole state={state as Signal<State>} />
          <Written state={now} of="backups" />
          <Written state={now} of="exports" />
          <Persons done={load} />
        </>
      )}
    </main>
  );
}

/** The check of the whole, and what it found last. */
function Whole({ state }: { state: Signal<State> }) {
  const head = useSignal("");
  const found = state.value.checked as unknown as Checked | null;
  const ask = async () => takeJob(await api.POST("/api/register/check", { body: { head: head.value } }));
  return (
    <section aria-labelledby="whole">
      <h2 id="whole">{t("checkTitle")}</h2>
      <p class="small">{t("checkHow")}</p>
      {!found && <p class="hint">{t("neverChecked")}</p>}
      {found && (
        <>
          <p class={found.faults.length ? "stop" : "note"} data-whole={!found.faults.length}>
            {found.faults.length ? `■ ${t("notWhole")}` : `● ${t("isWhole")}`}
          </p>
          <p class="small">
            {t("checkedOn")} {moment(`${found.on}Z`, language.value)}, {found.entries} {t("entriesCount")}
            {found.against && <>, {t("againstHead")} <code class="hash">{found.against}</code></>}
            {state.value.entries > found.entries && <>; {t("entriesSince")}: {state.value.entries - found.entries}</>}
          </p>
          <ul class="told">
            {found.faults.map((fault) => <li key={fault} class="stop"><p><span class="sign">■</span> <Said text={fault} /></p></li>)}
          </ul>
        </>
      )}
      <Work tasks={["check the register"]}>
        <form
          class="row"
          onSubmit={(e) => {
            e.preventDefault();
            void ask();
          }}
        >
          <label class="number">{t("headNoted")} <input value={head.value} maxLength={100} onInput={(e) => (head.value = e.currentTarget.value)} /></label>
          <button>{t("checkNow")}</button>
        </form>
      </Work>
    </section>
  );
}

/** Files that were written from the register, and one more. */
function Written({ state, of }: { state: State; of: "backups" | "exports" }) {
  const whole = of === "backups";
  const rows = state[of];
  const ask = async () => takeJob(whole ? await api.POST("/api/register/backups") : await api.POST("/api/register/exports"));
  const attempt = async (file: string) => takeJob(await api.POST("/api/register/restored", { body: { file } }));
  return (
    <section aria-labelledby={of}>
      <h2 id={of}>{t(of)}</h2>
      <p class="small">{t(whole ? "backupHow" : "exportHow")}</p>
      {!rows.length && <p class="hint">{t(whole ? "noBackups" : "noExports")}</p>}
      {rows.length > 0 && (
        <Wide label={t(of)}><table class="rows">
          <thead>
            <tr>
              <th scope="col">{t("file")}</th>
              <th scope="col" class="figure">{t("size")}</th>
              {whole && <th scope="col">{t("headNow")}</th>}
              {whole && <td></td>}
            </tr>
          </thead>
          <tbody>
            {rows.map((one) => (
              <tr key={one.file}>
                <th scope="row"><a href={`/api/register/${of}/${encodeURIComponent(one.file)}`} download={one.file}>{one.file}</a></th>
                <td class="figure">{figure(one.size_bytes / 1000, "kB", language.value)}</td>
                {whole && <td><code class="hash">{one.head}</code></td>}
                {whole && (
                  <td>
                    {one.restored ? (
                      <span class="note">● {t("triedBackup")}</span>
                    ) : (
                      <button disabled={!!openJobOf("")} aria-label={`${t("tryBackup")}: ${one.file}`} onClick={() => void attempt(one.file)}>
                        {t("tryBackup")}
                      </button>
                    )}
                  </td>
                )}
              </tr>
            ))}
          </tbody>
        </table></Wide>
      )}
      <Work tasks={whole ? ["back up", "restore"] : ["export"]}><button onClick={() => void ask()}>{t(whole ? "backupNow" : "exportNow")}</button></Work>
      {whole && (
        <p class="small">
          {t("restoreHow")} <code>claspwright register restore backups/{rows[0]?.file ?? "…"} --register register</code>
        </p>
      )}
    </section>
  );
}
