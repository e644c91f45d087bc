import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { moment } from "../lib/format";
import { CaseHead } from "../parts/CaseHead";
import { JobBar } from "../parts/JobBar";
import { Said, saidFields, saidKey } from "../parts/Said";
import { Files } from "../parts/Told";
import { author, language, setAuthor, stages, t, takeJob, trouble } from "../state/bench";
import { stageOf } from "./StageModel";

type Register = components["schemas"]["RegisterPage"];
type Particulars = components["schemas"]["Particulars"];
type Fields = Record<string, Record<string, Record<string, string>>>;
const PRINTED = ["name", "address", "responsible", "country", "registration", "phone"] as const;

/** What the register holds of a case, its documents, and letting it go. */
export function PapersPage({ name }: { name: string }) {
  const state = stageOf("papers");
  const held = useSignal<Register | null>(null);
  const at = { params: { path: { name } } };
  const load = async () => {
    const { data, error } = await api.GET("/api/cases/{name}/register", at);
    if (data) held.value = data;
    else trouble.value = troubleWords(error);
  };
  useEffect(() => void load(), [name, stages.value]);
  const signed = () => ({ by: author.value || "—" });
  const enter = async (path: "register" | "dispatch") => {
    const { error } = await api.POST(`/api/cases/{name}/${path}`, { ...at, body: signed() });
    if (error) trouble.value = troubleWords(error);
    await load();
  };
  const papers = async () =>
    takeJob(await api.POST("/api/cases/{name}/papers", { ...at, body: signed() }));
  const now = held.value;
  const unsigned = !author.value.trim();
  return (
    <main class="case one">
      <CaseHead name={name}>
        <JobBar name={name}>
          <label class="number">
            {t("author")}
            <input value={author.value} onInput={(e) => setAuthor(e.currentTarget.value)} />
          </label>
          <button disabled={unsigned || !now?.entered} onClick={() => void papers()}>{t("writePapers")}</button>
        </JobBar>
      </CaseHead>
      <div class="ticket">
        <section aria-labelledby="standing">
          <h2 id="standing">{t("mayLeave")}</h2>
          {now?.sent && <p class="note">● {t("sent")} {moment(now.sent, language.value)}</p>}
          {now && !now.entered && (
            <p>
              {t("notEntered")}{" "}
              <button class="first" disabled={unsigned} onClick={() => void enter("register")}>
                {t("enterCase")}
              </button>
            </p>
          )}
          {now?.entered && !now.sent && (
            <>
              {now.stops.length === 0 && <p>{t("nothingOpen")}</p>}
              <ul class="told">
                {now.stops.map((stop) => (
                  <li key={stop} class="stop"><p><span class="sign">■</span> <Said text={stop} /></p></li>
                ))}
              </ul>
              <button
                class="first"
                disabled={unsigned || now.stops.length > 0}
                onClick={() => void enter("dispatch")}
              >
                {t("send")}
              </button>
            </>
          )}
          {unsigned && <p class="hint">{t("nameFirst")}</p>}
        </section>
        {(state?.files.length ?? 0) > 0 && (
          <Files base={`/api/cases/${encodeURIComponent(name)}/stages/papers/files`} files={state!.files} />
        )}
        <Entries held={now} done={load} />
        <LaboratoryCard />
        <p class="small caution">{t("caution")}</p>
      </div>
    </main>
  );
}

/** What stands in the register of the case, and a form for one more entry. */
function Entries({ held, done }: { held: Register | null; done: () => Promise<void> }) {
  const kinds = useSignal<Fields>({});
  const kind = useSignal("part");
  useEffect(() => {
    void api.GET("/api/register/kinds").then(({ data }) => data && (kinds.value = data.kinds as Fields));
  }, []);
  const fields = kinds.value[kind.value] ?? {};
  const add = async (form: HTMLFormElement) => {
    const sent = new FormData(form);
    const body: Record<string, unknown> = {};
    for (const [field, type] of [...Object.entries(fields["needed"] ?? {}), ...Object.entries(fields["optional"] ?? {})]) {
      const text = String(sent.get(`field.${field}`) ?? "").trim();
      if (text) body[field] = readAs(text, type);
    }
    const { error } = await api.POST("/api/register/entries", {
      body: { kind: kind.value, id: String(sent.get("id")), fields: body, by: author.value || "—" },
    });
    if (error) trouble.value = troubleWords(error);
    else {
      trouble.value = "";
      await done();
    }
  };
  return (
    <section aria-labelledby="entries">
      <h2 id="entries">{t("register")}</h2>
      <table class="rows">
        <tbody>
          {held?.entries.map((one) => (
            <tr key={one.kind + one.id}>
              <th scope="row">{saidKey(one.kind)}</th>
              <td>{one.id}</td>
              <td class="small">
                {saidFields(one.fields, 40)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <details>
        <summary>{t("newEntry")}</summary>
        <form
          class="new"
          onSubmit={(e) => {
            e.preventDefault();
            void add(e.currentTarget);
          }}
        >
          <label>
            {t("kind")}
            <select value={kind.value} onChange={(e) => (kind.value = e.currentTarget.value)}>
              {Object.keys(kinds.value).map((one) => (
                <option key={one} value={one}>{saidKey(one)}</option>
              ))}
            </select>
          </label>
          <label>{t("id")} <input name="id" required maxLength={120} /></label>
          {(["needed", "optional"] as const).flatMap((group) =>
            Object.entries(fields[group] ?? {}).map(([field, type]) => (
              <label key={kind.value + field}>
                <span>{saidKey(field)} {group === "needed" && "*"} <span class="small">{HINTS[type]}</span></span>
                {type === "bool" ? (
                  <select name={`field.${field}`} required={group === "needed"}>
                    <option value=""></option>
                    <option value="true">{t("yes")}</option>
                    <option value="false">{t("no")}</option>
                  </select>
                ) : (
                  <input name={`field.${field}`} required={group === "needed"} />
                )}
              </label>
            )),
          )}
          <p><button>{t("enter")}</button></p>
        </form>
      </details>
    </section>
  );
}

const HINTS: Record<string, string> = { float: "1.5", list: "a, b", dict: "{…}", str: "" };

function readAs(text: string, type: string): unknown {
  if (type === "float") return Number(text.replace(",", "."));
  if (type === "bool") return text === "true";
  if (text.startsWith("[") || text.startsWith("{")) {
    try {
      return JSON.parse(text) as unknown;
    } catch {
      return text;
    }
  }
  return type === "list" ? text.split(",").map((one) => one.trim()) : text;
}

/** The laboratory as the documents print it. */
function LaboratoryCard() {
  const known = useSignal<Particulars | null>(null);
  useEffect(() => {
    void api.GET("/api/laboratory").then(({ data }) => data && (known.value = data));
  }, []);
  const now = known.value;
  if (!now) return null;
  const keep = async (form: HTMLFormElement) => {
    const sent = new FormData(form);
    const body = { ...now, ...Object.fromEntries(PRINTED.map((key) => [key, String(sent.get(key) ?? "")])) };
    const { data, error } = await api.PUT("/api/laboratory", { body });
    if (data) known.value = data;
    else trouble.value = troubleWords(error);
  };
  return (
    <details open={!now.name}>
      <summary>{t("laboratory")}: {now.name || t("none")}</summary>
      <form
        class="new"
        onSubmit={(e) => {
          e.preventDefault();
          void keep(e.currentTarget);
        }}
      >
        {PRINTED.map((key) => (
          <label key={key}>
            {t(`lab_${key}`)}
            <input name={key} defaultValue={now[key]} required={key === "name" || key === "address"} />
          </label>
        ))}
        <p><button>{t("keepParticulars")}</button></p>
      </form>
    </details>
  );
}
