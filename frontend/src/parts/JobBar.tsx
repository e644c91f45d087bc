import type { ComponentChildren } from "preact";
import { said } from "./Said";
import { cancelJob, openJobOf, page, t, workOut } from "../state/bench";

/** Watch what is at work on a case and stop it; `children`: what can be asked for otherwise. */
export function JobBar({ name, children }: { name: string; children?: ComponentChildren }) {
  const job = openJobOf(name);
  const standing = page.value?.line.standing;
  if (job) {
    const share = Math.round(job.fraction * 100);
    return (
      <div class="job">
        <label>
          <span>{said(job.phase || job.state)}</span>
          <progress max={100} value={share} aria-label={said(job.task)} />
        </label>
        <span class="figure">{share} %</span>
        <button onClick={() => void cancelJob(job.id)}>{t("cancel")}</button>
      </div>
    );
  }
  if (children) return <div class="job">{children}</div>;
  return (
    <div class="job">
      {standing === "stale" && <span class="hint">{t("stale")}</span>}
      {standing === "not worked out" && <span class="hint">{t("never")}</span>}
      <button
        class={standing === "worked out" ? "" : "first"}
        disabled={standing === "sheet has errors"}
        onClick={() => void workOut(name)}
      >
        {t("workOut")}
      </button>
    </div>
  );
}
