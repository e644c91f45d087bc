import { cancelJob, openJobOf, page, t, workOut } from "../state/bench";

/** Ask for the work, watch it, stop it. */
export function JobBar({ name }: { name: string }) {
  const job = openJobOf(name);
  const standing = page.value?.line.standing;
  if (job) {
    const share = Math.round(job.fraction * 100);
    return (
      <div class="job">
        <label>
          <span>{job.phase || job.state}</span>
          <progress max={100} value={share} aria-label={t("workOut")} />
        </label>
        <span class="figure">{share} %</span>
        <button onClick={() => void cancelJob(job.id)}>{t("cancel")}</button>
      </div>
    );
  }
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
