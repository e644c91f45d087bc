import { api } from "../api/client";
import { moment } from "../lib/format";
import { author, language, page, setAuthor, t, take } from "../state/bench";
import { compareRevisions, endComparison } from "../state/compare";
import { ComparisonCard } from "./ComparisonCard";
import { Said } from "./Said";

/** Who changed what and why; one step back or on again. */
export function Trail({ name }: { name: string }) {
  const states = page.value?.revisions;
  if (!states) return null;
  const step = async (way: "undo" | "redo") => {
    endComparison();
    take(await api.POST(`/api/cases/{name}/${way}`, { params: { path: { name } } }));
  };
  return (
    <section aria-labelledby="trail">
      <h2 id="trail">{t("trail")}</h2>
      <div class="row">
        <button disabled={!states.can_undo} onClick={() => void step("undo")}>{t("undo")}</button>
        <button disabled={!states.can_redo} onClick={() => void step("redo")}>{t("redo")}</button>
        <label>
          {t("author")}{" "}
          <input value={author.value} onChange={(e) => setAuthor(e.currentTarget.value)} />
        </label>
      </div>
      <ol class="trail">
        {[...states.revisions].reverse().map((one, n, all) => (
          <li key={one.number} aria-current={one.number === states.at ? "step" : undefined}>
            <span class="figure">{one.number}</span> {one.reason ? <Said text={one.reason} /> : "—"}{" "}
            <span class="small">
              {one.author} {moment(one.written_at, language.value)}
            </span>
            {all[n + 1] && (
              <button class="link" onClick={() => void compareRevisions(name, all[n + 1]!.number, one.number)}>
                {t("compare")}
              </button>
            )}
          </li>
        ))}
      </ol>
      <ComparisonCard name={name} />
    </section>
  );
}
