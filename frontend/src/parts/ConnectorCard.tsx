import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type ConnectorWish } from "../api/client";
import { said } from "./Said";
import { by, page, t, take } from "../state/bench";
import { forms } from "../state/forms";
import { getReady } from "../state/live";

/** The major connector and its measures. */
export function ConnectorCard({ name, arch }: { name: string; arch: string }) {
  const stands = page.value?.connector ?? null;
  const draft = useSignal<ConnectorWish | null>(stands);
  useEffect(() => {
    draft.value = stands;
  }, [page.value]);
  const wish = draft.value;
  const of = forms.value.connectors[arch] ?? [];
  if (!wish) return null;
  const across = wish.form.includes("bar") ? "height_mm" : "width_mm";
  const fields = [
    [across, across === "height_mm" ? t("height") : t("width"), 0.5],
    ["thickness_mm", t("thickness"), 0.1],
    ["margin_distance_mm", t("fromMargins"), 0.5],
    ["relief_mm", t("reliefOf"), 0.05],
  ] as const;
  const keep = async () =>
    take(
      await api.PUT("/api/cases/{name}/connector", {
        params: { path: { name } },
        body: {
          connector: wish,
          ...by(`major connector: ${wish.form}`),
        },
      }),
    );
  return (
    <section onFocusIn={() => void getReady()}>
      <h2>{t("connector")}</h2>
      <div class="row">
        <select
          aria-label={t("connector")}
          value={wish.form}
          onChange={(e) =>
            (draft.value = { ...wish, form: e.currentTarget.value as ConnectorWish["form"] })
          }
        >
          {of.map((form) => (
            <option key={form} value={form}>{said(form)}</option>
          ))}
        </select>
        {fields.map(([key, words, step]) => (
          <label key={key} class="number">
            {words}
            <input
              type="number"
              step={step}
              min={0}
              value={wish[key]}
              onChange={(e) => (draft.value = { ...wish, [key]: e.currentTarget.valueAsNumber })}
            />
            mm
          </label>
        ))}
        <button onClick={() => void keep()}>{t("keep")}</button>
      </div>
    </section>
  );
}
