import { useSignal, type Signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, asked, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { day, figure } from "../lib/format";
import type { Key } from "../lib/words";
import { by, EntryForm, Signer, today } from "../parts/Entry";
import { LabHead } from "../parts/LabHead";
import { Cited, said } from "../parts/Said";
import { ToldFindings, type Told } from "../parts/Told";
import { Wide } from "../parts/Wide";
import { Work } from "../parts/Work";
import { jobs, language, t, takeJob, trouble } from "../state/bench";

type Limit = components["schemas"]["LimitRow"];
type Page = components["schemas"]["PowderPage"];
type Verdict = components["schemas"]["CertificateJudged"];
type Sent = components["schemas"]["SentCertificate"];

/** A certificate as it stands on the screen: values by item, ticks by item. */
interface Typed {
  lot: string;
  alloy: string;
  values: Record<string, number>;
  shown: string[];
}

const SIZES = ["D10", "D90"] as const;
const DENSITY = "apparent density";
const GIVEN_ELSEWHERE = ["chemistry", "size", "density", "lot"];
const FIRST_ALLOY = "cocr-lpbf-stress-relieved";

/** Lots of powder, and a lot's certificate against what the alloy must hold. */
export function PowderPage() {
  const page = useSignal<Page | null>(null);
  const typed = useSignal<Typed>({ lot: "", alloy: FIRST_ALLOY, values: {}, shown: [] });
  const verdict = useSignal<Verdict | null>(null);
  const sent = useSignal<Sent | null>(null);
  const now = typed.value;
  const load = async () => {
    const { data, error } = await api.GET("/api/powder", { params: { query: { alloy: typed.value.alloy } } });
    if (data) page.value = data;
    else trouble.value = troubleWords(error);
  };
  useEffect(() => void load(), [now.alloy]);
  useEffect(() => {
    let late = false;
    if (!now.lot || !Object.keys(now.values).length) verdict.value = null;
    else
      void api.POST("/api/powder/judged", { body: wishOf(now) }).then(({ data, error }) => {
        if (late) return;
        verdict.value = data ?? null;
        trouble.value = data ? "" : troubleWords(error);
      });
    return () => {
      late = true;
    };
  }, [now]);
  const reading = sent.value && jobs.value.get(sent.value.job.id);
  useEffect(() => {
    if (sent.value && (reading?.state ?? sent.value.job.state) === "done") void takeRead(sent.value.upload, typed);
  }, [sent.value, reading?.state]);
  const rows = verdict.value?.rows ?? page.value?.limits ?? [];
  return (
    <main class="list">
      <LabHead title="feedstock" />
      <Lots lots={page.value?.lots ?? []} />
      <section aria-labelledby="certificate">
        <h2 id="certificate">{t("certificateOf")}</h2>
        <p class="small">{t("certificateHow")}</p>
        <Work tasks={["read the certificate"]}><SendFile sent={sent} /></Work>
        <p class="row">
          <label class="number">{t("lot")} <input value={now.lot} maxLength={120} onChange={(e) => put(typed, { lot: e.currentTarget.value.trim() })} /></label>
          <label class="number">
            {t("alloy")}
            <select value={now.alloy} onChange={(e) => put(typed, { alloy: e.currentTarget.value })}>
              {Object.entries(page.value?.alloys ?? {}).map(([title, names]) => (
                <option key={title} value={names[0]}>{said(title)}</option>
              ))}
            </select>
          </label>
        </p>
        <Values rows={rows} typed={typed} />
        <Items rows={rows} typed={typed} />
        {verdict.value && <ToldFindings findings={(verdict.value.findings as unknown as Told[]).map((one) => ({ ...one, component: `${t("lot")} ${now.lot}` }))} />}
        <EnterIt typed={typed} verdict={verdict.value} lots={page.value?.lots ?? []} upload={sent.value?.upload ?? ""} done={load} />
      </section>
      <p class="small caution">{t("caution")}</p>
    </main>
  );
}

function put(typed: Signal<Typed>, change: Partial<Typed>): void {
  typed.value = { ...typed.value, ...change };
}

function wishOf(of: Typed) {
  const [d10, d90] = SIZES.map((one) => of.values[one]);
  const percent = Object.entries(of.values).filter(([item]) => /^[A-Z][a-z]?$/.test(item));
  return {
    lot: of.lot, alloy: of.alloy, percent: Object.fromEntries(percent), shown: of.shown,
    size_um: d10 === undefined || d90 === undefined ? null : [d10, d90],
    apparent_density_g_cm3: of.values[DENSITY] ?? null,
  };
}

/** Put what another process read from a file into the form. */
async function takeRead(upload: string, typed: Signal<Typed>): Promise<void> {
  const { data, error } = await api.GET("/api/powder/files/{upload}", { params: { path: { upload } } });
  if (!data) {
    trouble.value = troubleWords(error);
    return;
  }
  const values: Record<string, number> = { ...data.percent };
  data.size_um?.forEach((value, n) => (values[SIZES[n]!] = value));
  if (data.apparent_density_g_cm3 !== null) values[DENSITY] = data.apparent_density_g_cm3;
  put(typed, { lot: data.lot, values, shown: data.shown });
}

function SendFile({ sent }: { sent: Signal<Sent | null> }) {
  const send = async (form: HTMLFormElement) => {
    const answer = await asked(new Request("/api/powder/files", { method: "POST", body: new FormData(form) }));
    const told: unknown = await answer.json().catch(() => undefined);
    if (takeJob(answer.ok ? { data: (told as Sent).job } : { error: told })) sent.value = told as Sent;
  };
  return (
    <form
      class="row"
      onSubmit={(e) => {
        e.preventDefault();
        void send(e.currentTarget);
      }}
    >
      <label class="number">{t("certificateFile")} <input type="file" name="certificate" accept=".toml" required /></label>
      <button>{t("sendFile")}</button>
    </form>
  );
}

/** Every value against its limit; where an item has two limits it is typed once. */
function Values({ rows, typed }: { rows: readonly Limit[]; typed: Signal<Typed> }) {
  const element = useSignal("");
  const shown = rows.filter((row) => row.rule !== "certificate.items");
  const extra = Object.keys(typed.value.values).filter((item) => !shown.some((row) => row.item === item));
  const all = [...shown, ...extra.map((item) => bare(item))];
  const change = (item: string, value: number) => {
    const values = { ...typed.value.values };
    if (Number.isNaN(value)) delete values[item];
    else values[item] = value;
    put(typed, { values });
  };
  return (
    <>
      <Wide label={t("certificateOf")}><table class="rows limits">
        <thead>
          <tr>
            <th scope="col">{t("certificate")}</th>
            <th scope="col" class="figure">{t("whatItHolds")}</th>
            <th scope="col" class="figure">{t("limitOf")}</th>
            <th scope="col">{t("verdict")}</th>
            <th scope="col">{t("source")}</th>
          </tr>
        </thead>
        <tbody>
          {all.map((row, n) => {
            const again = all.findIndex((one) => one.item === row.item) < n;
            const declared = row.rule === "certificate.declare";
            const words = declared ? `${row.item}, ${t("toDeclare")}` : itemWords(row.item);
            return (
              <tr key={`${row.rule}${row.item}`} data-item={row.item}>
                <th scope="row">{words}</th>
                <td class="figure">
                  {again ? (
                    figure(typed.value.values[row.item], row.unit, language.value)
                  ) : (
                    <label class="number">
                      <input
                        type="number" step="any" min={0} aria-label={words} value={typed.value.values[row.item] ?? ""}
                        onChange={(e) => change(row.item, e.currentTarget.valueAsNumber)}
                      />
                      {row.unit === "um" ? "µm" : row.unit === "g/cm3" ? "g/cm³" : row.unit}
                    </label>
                  )}
                </td>
                <td class="figure">{limitWords(row)}</td>
                <td><Mark row={row} begun={Object.keys(typed.value.values).length > 0} /></td>
                <td class="small"><Cited text={row.source} /></td>
              </tr>
            );
          })}
        </tbody>
      </table></Wide>
      <p class="row">
        <label class="number">
          {t("otherElement")}
          <input class="short" value={element.value} maxLength={2} pattern="[A-Z][a-z]?" onInput={(e) => (element.value = e.currentTarget.value)} />
        </label>
        <button
          disabled={!/^[A-Z][a-z]?$/.test(element.value) || all.some((row) => row.item === element.value)}
          onClick={() => (change(element.value, 0), (element.value = ""))}
        >
          {t("addElement")}
        </button>
      </p>
    </>
  );
}

function bare(item: string): Limit {
  return { rule: "certificate.chemistry", item, value: null, low: null, high: null, unit: "%", shown: false, severity: null, source: "" };
}

function itemWords(item: string): string {
  return item === DENSITY ? t("item_density") : item;
}

function limitWords(row: Limit): string {
  const say = (v: number) => v.toLocaleString(language.value, { maximumFractionDigits: 4 });
  const unit = row.unit === "um" ? "µm" : row.unit === "g/cm3" ? "g/cm³" : row.unit;
  if (row.high === null) return t("noLimit");
  if (row.low === null || row.low === 0) return `${t("atMost")} ${say(row.high)} ${unit}`;
  return `${say(row.low)} – ${say(row.high)} ${unit}`;
}

/** A sign and a word: holds, does not hold, or not shown. */
function Mark({ row, begun }: { row: Limit; begun: boolean }) {
  if (row.severity && (begun || row.shown)) {
    return (
      <span class={row.severity}>
        {row.severity === "stop" ? "■" : "◆"} {!row.shown ? t("notShown") : row.rule === "certificate.declare" ? t("declareIt") : t("certFailed")}
      </span>
    );
  }
  if (!row.shown) return <span class="small">{begun ? t("notShown") : ""}</span>;
  return row.high === null ? null : <span class="note">● {t("holds")}</span>;
}

/** What the certificate must show beside its values. */
function Items({ rows, typed }: { rows: readonly Limit[]; typed: Signal<Typed> }) {
  const items = rows.filter((row) => row.rule === "certificate.items");
  if (!items.length) return null;
  return (
    <fieldset class="items">
      <legend>{t("mustShow")}</legend>
      {items.map(({ item, shown }) => (
        <label key={item} class="tick">
          <input
            type="checkbox" disabled={GIVEN_ELSEWHERE.includes(item)}
            checked={GIVEN_ELSEWHERE.includes(item) ? shown && Object.keys(typed.value.values).length > 0 : typed.value.shown.includes(item)}
            onChange={(e) =>
              put(typed, { shown: e.currentTarget.checked ? [...typed.value.shown, item] : typed.value.shown.filter((one) => one !== item) })
            }
          />
          {t(`item_${item}` as Key) ?? item}
        </label>
      ))}
      <span class="small"><Cited text={items[0]!.source} /></span>
    </fieldset>
  );
}

function EnterIt(props: { typed: Signal<Typed>; verdict: Verdict | null; lots: Page["lots"]; upload: string; done: () => Promise<void> }) {
  const now = props.typed.value;
  const isNew = !props.lots.some((one) => one.id === now.lot);
  const passed = props.verdict?.passed ?? true;
  return (
    <>
      <Signer />
      {props.verdict && !passed && <p class="stop">■ {t("certDespite")}</p>}
      {props.verdict && isNew && <p class="hint">{t("newLot")}</p>}
      <EntryForm
        label={passed ? t("enterCertificate") : t("enterFailed")}
        disabled={!props.verdict}
        done={props.done}
        send={(said) =>
          api.POST("/api/powder/certificates", {
            body: {
              ...wishOf(now), ...by(), upload: props.upload,
              new: isNew
                ? { mass_g: said.number("mass") ?? 0, received: said.text("received"), maker_lot: said.text("maker"), expires: said.text("expires") || null }
                : null,
            },
          })
        }
      >
        {props.verdict && isNew && (
          <>
            <label class="number">{t("receivedMass")} <input name="mass" type="number" min={0.1} step="any" required /></label>
            <label class="number">{t("receivedOn")} <input name="received" type="date" required defaultValue={today()} /></label>
            <label class="number">{t("makersLot")} <input name="maker" maxLength={120} /></label>
            <label class="number">{t("expiresOn")} <input name="expires" type="date" /></label>
          </>
        )}
      </EntryForm>
    </>
  );
}

function Lots({ lots }: { lots: Page["lots"] }) {
  return (
    <section aria-labelledby="lots">
      <h2 id="lots">{t("lotsHere")}</h2>
      {!lots.length && <p class="hint">{t("noLots")}</p>}
      {lots.length > 0 && (
        <Wide label={t("lotsHere")}><table class="rows">
          <thead>
            <tr>
              <th scope="col">{t("lot")}</th>
              <th scope="col">{t("alloy")}</th>
              <th scope="col" class="figure">g</th>
              <th scope="col">{t("receivedOn")}</th>
              <th scope="col">{t("certificate")}</th>
            </tr>
          </thead>
          <tbody>
            {lots.map((one) => (
              <tr key={one.id}>
                <th scope="row">{one.id} {one.maker_lot && <span class="small">{one.maker_lot}</span>}</th>
                <td>{one.alloy}</td>
                <td class="figure">{figure(one.mass_g, "", language.value)}</td>
                <td>{day(one.received, language.value)}</td>
                <td>
                  {one.certificate_passed === null ? (
                    <span class="look">◆ {t("certNone")}</span>
                  ) : one.certificate_passed ? (
                    <span class="note">● {t("certPassed")}</span>
                  ) : (
                    <span class="stop">■ {t("certFailed")}</span>
                  )}
                </td>
              </tr>
            ))}
          </tbody>
        </table></Wide>
      )}
    </section>
  );
}
