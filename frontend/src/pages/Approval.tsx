import { useSignal } from "@preact/signals";
import { api } from "../api/client";
import { by, EntryForm } from "../parts/Entry";
import { page, t } from "../state/bench";
import type { Clinic } from "./ClinicPage";

interface Revision {
  id: string;
  hash: string;
  design: string;
  answers: { approved: boolean; text: string }[];
}

/** The design offered, and the prescriber's word on it, bound to its hash. */
export function Approval({ name, now, done }: { name: string; now: Clinic; done: () => Promise<void> }) {
  const at = { params: { path: { name } } };
  const rows = now.revisions as unknown as Revision[];
  const standing = page.value?.line.standing;
  const chosen = useSignal("");
  return (
    <section aria-labelledby="approval">
      <h2 id="approval">{t("approval")}</h2>
      <p class="small">{t("approvalHow")}</p>
      {!rows.length && <p class="hint">{t("noRevision")}</p>}
      {rows.length > 0 && (
        <table class="rows">
          <thead>
            <tr><th scope="col">{t("revision")}</th><th scope="col">{t("hash")}</th><th scope="col">{t("answers")}</th></tr>
          </thead>
          <tbody>
            {rows.map((one) => (
              <tr key={one.id}>
                <th scope="row">{one.id}</th>
                <td><code title={one.hash}>{one.hash.slice(0, 12)}</code></td>
                <td>
                  {!one.answers.length && t("open")}
                  {one.answers.map((said, n) => (
                    <p key={n} class={said.approved ? "note" : "look"}>
                      {said.approved ? `● ${t("approved")}` : `◆ ${t("refused")}`}
                      {said.text && <span class="small said"> {said.text}</span>}
                    </p>
                  ))}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {standing === "stale" && <p class="look"><span class="sign">◆</span> {t("staleOffer")}</p>}
      <EntryForm
        label={t("offer")}
        done={done}
        disabled={standing !== "worked out"}
        send={() => api.POST("/api/cases/{name}/clinic/revisions", { ...at, body: by() })}
      >
        {null}
      </EntryForm>
      {rows.length > 0 && (
        <>
          <EntryForm
            label={t("takeAnswer")}
            done={done}
            send={(said) => api.POST("/api/cases/{name}/clinic/answers/text", { ...at, body: { text: said.text("text"), ...by() } })}
          >
            <label class="tall">
              {t("pasteAnswer")}
              <textarea name="text" rows={4} required maxLength={4000} aria-describedby="paste" />
              <span id="paste" class="small">{t("pasteHow")}</span>
            </label>
          </EntryForm>
          <details>
            <summary>{t("byHand")}</summary>
            <EntryForm
              label={t("enter")}
              done={done}
              send={(said) =>
                api.POST("/api/cases/{name}/clinic/answers", {
                  ...at,
                  body: {
                    revision: chosen.value || rows[rows.length - 1]!.id, seen_hash: said.text("seen_hash"),
                    approved: said.text("approved") === "yes", text: said.text("text"), ...by(),
                  },
                })
              }
            >
              <select aria-label={t("revision")} value={chosen.value || rows[rows.length - 1]!.id} onChange={(e) => (chosen.value = e.currentTarget.value)}>
                {rows.map((one) => <option key={one.id} value={one.id}>{one.id}</option>)}
              </select>
              <label class="number">{t("seenHash")} <input name="seen_hash" required minLength={12} maxLength={64} pattern="[0-9A-Fa-f]+" /></label>
              <select name="approved" aria-label={t("approval")}>
                <option value="yes">{t("approved")}</option>
                <option value="no">{t("refused")}</option>
              </select>
              <label class="number">{t("remark")} <input name="text" maxLength={400} /></label>
            </EntryForm>
          </details>
        </>
      )}
    </section>
  );
}
