import type { Signal } from "@preact/signals";
import { t, type LabLeaf } from "../state/bench";
import { LabHead } from "./LabHead";

/** Head of a page about the days from one to another, and what went wrong in reading them. */
export function Period(of: { title: LabLeaf; first: Signal<string>; last: Signal<string>; trouble: string }) {
  return (
    <>
      <LabHead title={of.title} />
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
