import { useSignal } from "@preact/signals";
import { api, troubleWords } from "../api/client";
import { t, trouble } from "../state/bench";
import { by, EntryForm, Signer } from "./Entry";

/** Health data of a patient: shown, kept, and erased by right. */
export function Persons({ done }: { done: () => Promise<void> }) {
  const pseudonym = useSignal("");
  const kept = useSignal<Record<string, unknown> | null | undefined>(undefined);
  const lines = useSignal("");
  const again = useSignal("");
  const take = (answer: { data?: { kept: unknown }; error?: unknown }) => {
    trouble.value = answer.data ? "" : troubleWords(answer.error);
    if (!answer.data) return;
    kept.value = answer.data.kept as Record<string, unknown> | null;
    lines.value = Object.entries(kept.value ?? {})
      .map(([key, value]) => `${key}: ${typeof value === "string" ? value : JSON.stringify(value)}`)
      .join("\n");
  };
  const show = async () => take(await api.POST("/api/register/persons/shown", { body: { pseudonym: pseudonym.value.trim() } }));
  const keep = async () =>
    take(await api.PUT("/api/register/persons", { body: { pseudonym: pseudonym.value.trim(), fields: fieldsOf(lines.value) } }));
  return (
    <section aria-labelledby="persons">
      <h2 id="persons">{t("persons")}</h2>
      <p class="small">{t("personsHow")}</p>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          void show();
        }}
      >
        <label class="number">
          {t("pseudonym")}
          <input
            value={pseudonym.value} required maxLength={120} autoComplete="off"
            onInput={(e) => ((pseudonym.value = e.currentTarget.value), (kept.value = undefined), (again.value = ""))}
          />
        </label>
        <button>{t("showPerson")}</button>
      </form>
      {kept.value !== undefined && (
        <form
          class="entry"
          onSubmit={(e) => {
            e.preventDefault();
            void keep();
          }}
        >
          {kept.value === null && <p class="hint">{t("personNone")}</p>}
          <label class="tall">
            {t("personFields")}
            <textarea rows={4} value={lines.value} maxLength={8000} onInput={(e) => (lines.value = e.currentTarget.value)} />
          </label>
          <p><button disabled={!lines.value.trim()}>{t("keepPerson")}</button></p>
        </form>
      )}
      {kept.value && (
        <>
          <h3>{t("erase")}</h3>
          <p class="small">{t("eraseHow")}</p>
          <Signer />
          <EntryForm
            label={t("erase")}
            done={async () => {
              kept.value = null;
              lines.value = "";
              again.value = "";
              await done();
            }}
            send={async (said) =>
              said.text("again") === pseudonym.value.trim()
                ? api.POST("/api/register/erasures", { body: { pseudonym: pseudonym.value.trim(), reason: said.text("reason"), ...by() } })
                : { error: { what: t("eraseDiffers") } }
            }
          >
            <label class="number">{t("eraseReason")} <input name="reason" maxLength={400} /></label>
            <label class="number">{t("eraseAgain")} <input name="again" required maxLength={120} autoComplete="off" /></label>
          </EntryForm>
        </>
      )}
    </section>
  );
}

/** Lines `name: value` as fields. */
function fieldsOf(lines: string): Record<string, string> {
  const pairs = lines.split("\n").filter((line) => line.trim()).map((line) => {
    const at = line.indexOf(":");
    return at < 0 ? [line.trim(), ""] as const : [line.slice(0, at).trim(), line.slice(at + 1).trim()] as const;
  });
  return Object.fromEntries(pairs);
}
