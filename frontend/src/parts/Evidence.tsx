import type { View } from "../api/view";
import { figure } from "../lib/format";
import { cited, said } from "./Said";
import { language, page, place, t } from "../state/bench";

/** Quantities, pictures and files of the last work. */
export function Evidence({ view, stamp }: { view: View; stamp: string }) {
  const base = `/api/cases/${encodeURIComponent(place.value)}`;
  const groups = [...new Set(view.pictures.map((p) => p.group))];
  return (
    <section aria-labelledby="evidence">
      <h2 id="evidence">{t("evidence")}</h2>
      <dl class="measures">
        {view.measures.map((m) => (
          <div key={m.name}>
            <dt>{said(m.name)}</dt>
            <dd title={cited(m.source)}>{figure(typeof m.value === "string" ? said(m.value) : m.value, m.unit, language.value)}</dd>
          </div>
        ))}
      </dl>
      {groups.map((group) => (
        <details key={group}>
          <summary>{said(group)}</summary>
          <div class="pictures">
            {view.pictures
              .filter((p) => p.group === group)
              .map((p) => (
                <figure key={p.file}>
                  <a href={`${base}/view/${p.file}?at=${stamp}`} target="_blank" rel="noreferrer">
                    <img loading="lazy" src={`${base}/view/${p.file}?at=${stamp}`} alt={said(p.alt)} />
                  </a>
                  <figcaption class="small">{said(p.caption)}</figcaption>
                </figure>
              ))}
          </div>
        </details>
      ))}
      <h3>{t("files")}</h3>
      <ul class="files">
        {page.value?.results.map((file) => (
          <li key={file}>
            <a href={`${base}/results/${file}`} target="_blank" rel="noreferrer">{file}</a>
          </li>
        ))}
      </ul>
    </section>
  );
}
