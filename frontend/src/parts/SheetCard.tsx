import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api } from "../api/client";
import { by, page, t, take } from "../state/bench";

/** The case sheet itself, for whoever would rather write. */
export function SheetCard({ name }: { name: string }) {
  const text = useSignal("");
  const reason = useSignal("");
  useEffect(() => {
    text.value = page.value?.sheet ?? "";
  }, [page.value]);
  const keep = async () => {
    const done = take(
      await api.PUT("/api/cases/{name}/sheet", {
        params: { path: { name } },
        body: {
          sheet: text.value,
          ...by(reason.value || "sheet edited"),
        },
      }),
    );
    if (done) reason.value = "";
  };
  return (
    <details class="sheet">
      <summary>{t("sheet")}</summary>
      <textarea
        aria-label={t("sheet")}
        spellcheck={false}
        rows={22}
        value={text.value}
        onInput={(e) => (text.value = e.currentTarget.value)}
      />
      <div class="row">
        <label>
          {t("reason")}{" "}
          <input value={reason.value} onInput={(e) => (reason.value = e.currentTarget.value)} />
        </label>
        <button disabled={text.value === page.value?.sheet} onClick={() => void keep()}>
          {t("keep")}
        </button>
      </div>
    </details>
  );
}
