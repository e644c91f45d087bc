import type { Signal } from "@preact/signals";
import type { Key } from "../lib/words";
import { t } from "../state/bench";

/** Head of a page about the days from one to another, and what went wrong in reading them. */
export function Period(of: { title: Key; first: Signal<string>; last: Signal<string>; trouble: string }) {
  return (
    <>
      <p><a href="#/">{t("back")}</a></p>
      <h1>{t(of.title)}</h1>
      <p class="row">
        {([[t("firstDay"), of.first], [t("lastDay"), of.last]] as const).map(([label, value]) => (
          <label key={label} class="number">
            {label} <input type="date" value={value.value} onChange={(e) => (value.value = e.currentTarget.value)} />
          </label>
        ))}
      </p>
      {of.trouble && <p class="hint">{of.trouble}</p>}
    </>
  );
}
