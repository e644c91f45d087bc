import { useSignal } from "@preact/signals";
import { asked, troubleWords } from "../api/client";
import { loadCases, t, trouble } from "../state/bench";

const SCANS = ".stl,.ply,.obj,.3mf,.dcm";

/** Scans and a few answers make a case. */
export function NewCase() {
  const open = useSignal(false);
  const sending = useSignal(false);
  const send = async (event: SubmitEvent) => {
    event.preventDefault();
    const form = event.currentTarget as HTMLFormElement;
    const body = new FormData(form);
    for (const [key, value] of [...body])
      if (value === "" || (value instanceof File && !value.name)) body.delete(key);
    sending.value = true;
    const answer = await asked(new Request("/api/cases", { method: "POST", body }));
    sending.value = false;
    if (answer.ok) {
      const made = (await answer.json()) as { name: string };
      await loadCases();
      location.hash = `/${encodeURIComponent(made.name)}`;
    } else trouble.value = troubleWords(await answer.json().catch(() => undefined));
  };
  if (!open.value)
    return (
      <button class="first" onClick={() => (open.value = true)}>{t("newCase")}</button>
    );
  const word = (name: string, words: string, extra = {}) => (
    <label>
      {words}
      <input name={name} {...extra} />
    </label>
  );
  return (
    <form class="card new" onSubmit={(e) => void send(e)}>
      <h2>{t("newCase")}</h2>
      {word("name", t("name"), { required: true, maxLength: 64 })}
      {word("master", t("master"), { type: "file", accept: SCANS, required: true })}
      {word("opposing", t("opposing"), { type: "file", accept: SCANS })}
      {word("bite", t("bite"), { type: "file", accept: SCANS })}
      {word("missing", t("missing"), { required: true, placeholder: "36, 37, 46" })}
      {word("not_replaced", t("notReplaced"))}
      {word("functional_depth_mm", `${t("depth")} [mm]`, { type: "number", step: 0.5, min: 0.5, max: 30 })}
      {word("allergies", t("allergies"))}
      {word("patient", t("patient"))}
      {word("prescriber", t("prescriber"))}
      {word("laboratory", t("laboratory"))}
      {word("due", t("due"), { type: "date" })}
      <p class="row">
        <button class="first" disabled={sending.value}>{t("make")}</button>
        <button type="button" onClick={() => (open.value = false)}>{t("cancel")}</button>
      </p>
    </form>
  );
}
