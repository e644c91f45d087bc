import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { moment } from "../lib/format";
import { language, t, trouble } from "../state/bench";
import { by, EntryForm, Signer } from "./Entry";
import { saidFields, saidKey } from "./Said";
import { Wide } from "./Wide";

type Found =
  | ({ way: "show" } & components["schemas"]["ThingPage"])
  | ({ way: "trace" } & components["schemas"]["TracePage"])
  | ({ way: "recall" } & components["schemas"]["RecallPage"]);

/** Questions to the register: a thing's entries, what it came from, who carries it; a signature under it. */
export function LookUp({ changed }: { changed: () => Promise<void> }) {
  const kinds = useSignal<string[]>([]);
  const kind = useSignal("lot");
  const id = useSignal("");
  const found = useSignal<Found | null>(null);
  useEffect(() => {
    void api.GET("/api/register/kinds").then(({ data }) => data && (kinds.value = Object.keys(data.kinds)));
  }, []);
  const ask = async (way: Found["way"], subject = id.value.trim() ? `${kind.value}:${id.value.trim()}` : kind.value) => {
    const query = { params: { query: { subject } } };
    const take = <T,>(answer: { data?: T; error?: unknown }): T | undefined => {
      trouble.value = answer.data ? "" : troubleWords(answer.error);
      return answer.data;
    };
    if (way === "show") {
      const data = take(await api.GET("/api/register/things", query));
      found.value = data ? { way, ...data } : null;
    } else if (way === "trace") {
      const data = take(await api.GET("/api/register/trace", query));
      found.value = data ? { way, ...data } : null;
    } else {
      const data = take(await api.GET("/api/register/recall", query));
      found.value = data ? { way, ...data } : null;
    }
  };
  const now = found.value;
  const named = !id.value.trim();
  return (
    <section aria-labelledby="lookup">
      <h2 id="lookup">{t("lookUp")}</h2>
      <p class="small">{t("lookUpHow")}</p>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          void ask("show");
        }}
      >
        <label class="number">
          {t("kind")}
          <select value={kind.value} onChange={(e) => (kind.value = e.currentTarget.value)}>
            {kinds.value.map((one) => <option key={one} value={one}>{saidKey(one)}</option>)}
          </select>
        </label>
        <label class="number">{t("id")} <input value={id.value} maxLength={120} onInput={(e) => (id.value = e.currentTarget.value)} /></label>
        <button>{t("showEntries")}</button>
        <button type="button" disabled={named} onClick={() => void ask("trace")}>{t("traceIt")}</button>
        <button
          type="button" disabled={named || !["lot", "batch", "build"].includes(kind.value)}
          onClick={() => void ask("recall")}
        >
          {t("recallIt")}
        </button>
      </form>
      <div role="status">
        {now?.way === "show" && <Entries subject={now.subject} rows={now.rows} />}
        {now?.way === "trace" && <CameFrom subject={now.subject} from={now.came_from} />}
        {now?.way === "recall" && <Recall of={now} />}
      </div>
      {now?.way === "show" && now.subject.includes(":") && now.rows.length > 0 && (
        <>
          <Signer />
          <EntryForm
            label={t("signIt")}
            done={changed}
            send={(said) =>
              api.POST("/api/register/signatures", {
                body: { subject: now.subject, meaning: said.text("meaning"), role: said.text("role"), ...by() },
              })
            }
          >
            <label class="number">{t("meaning")} <input name="meaning" required maxLength={200} /></label>
            <label class="number">{t("office")} <input name="role" maxLength={120} /></label>
          </EntryForm>
        </>
      )}
    </section>
  );
}

/** Entries, each with its number, name and time, or what stands of a kind. */
function Entries({ subject, rows }: { subject: string; rows: readonly Record<string, unknown>[] }) {
  if (!rows.length) return <p class="hint">{t("nothingFound")}</p>;
  const many = !subject.includes(":");
  return (
    <Wide label={subject}><table class="rows">
      <tbody>
        {rows.map((row, n) => (
          <tr key={n}>
            <th scope="row">{many ? String(row["id"]) : String(row["seq"])}</th>
            {!many && <td>{moment(String(row["made_at"]), language.value)}<br />{String(row["made_by"])}</td>}
            <td class="small">{saidFields(row["body"] as Record<string, unknown>)}</td>
          </tr>
        ))}
      </tbody>
    </table></Wide>
  );
}

function CameFrom({ subject, from }: { subject: string; from: Record<string, string[]> }) {
  const kinds = Object.entries(from);
  return (
    <>
      <h3>{subject} {t("cameFrom")}</h3>
      {!kinds.length && <p class="hint">{t("nothingFound")}</p>}
      <table class="rows">
        <tbody>
          {kinds.map(([kind, ids]) => (
            <tr key={kind}>
              <th scope="row">{saidKey(kind)}</th>
              <td>{ids.join(", ")}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}

function Recall({ of }: { of: components["schemas"]["RecallPage"] }) {
  return (
    <>
      <h3>{t("recallOf")} {of.subject}</h3>
      {!of.frameworks.length && <p class="hint">{t("recallNone")}</p>}
      {of.frameworks.length > 0 && (
        <>
          <p>
            {t("recallCount")}: {of.frameworks.length}{" "}
            <a href={`/api/register/recall/paper?subject=${encodeURIComponent(of.subject)}`} target="_blank" rel="noreferrer">{t("recallPaper")}</a>
          </p>
          <Wide label={`${t("recallOf")} ${of.subject}`}><table class="rows">
            <thead>
              <tr>
                {[t("framework"), t("name"), t("patient"), t("prescriber"), t("build")].map((words) => <th key={words} scope="col">{words}</th>)}
              </tr>
            </thead>
            <tbody>
              {of.frameworks.map((one) => (
                <tr key={one.part}>
                  <th scope="row">{one.part}</th>
                  <td>{one.case}</td>
                  <td>{one.patient}</td>
                  <td>{one.prescriber}</td>
                  <td>{one.build}</td>
                </tr>
              ))}
            </tbody>
          </table></Wide>
        </>
      )}
    </>
  );
}
