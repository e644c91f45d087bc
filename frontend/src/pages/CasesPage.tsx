import { useEffect } from "preact/hooks";
import { LabNav } from "../parts/LabHead";
import { NewCase } from "../parts/NewCase";
import { day, figure } from "../lib/format";
import { errorInLanguage } from "../lib/sentences";
import { said } from "../parts/Said";
import { Wide } from "../parts/Wide";
import { cases, language, loadCases, openJobOf, t } from "../state/bench";

/** All cases of the laboratory, the one due first on top. */
export function CasesPage() {
  useEffect(() => void loadCases(), []);
  const list = cases.value;
  return (
    <main class="list">
      <h1>{t("cases")}</h1>
      <LabNav />
      <NewCase />
      {list && !list.length && <p class="hint">{t("noCases")}</p>}
      {list && list.length > 0 && (
        <Wide label={t("cases")}><table>
          <thead>
            <tr>
              <th scope="col">{t("name")}</th>
              <th scope="col">{t("kennedy")}</th>
              <th scope="col">{t("due")}</th>
              <th scope="col">{t("standing")}</th>
              <th scope="col">{t("findings")}</th>
              <th scope="col" class="figure">g</th>
            </tr>
          </thead>
          <tbody>
            {list.map((one) => {
              const job = openJobOf(one.name);
              return (
                <tr key={one.name}>
                  <th scope="row">
                    <a href={`#/${encodeURIComponent(one.name)}`}>{one.name}</a>
                    {one.number !== one.name && <span class="small"> {one.number}</span>}
                  </th>
                  <td>{said(one.kennedy)} {one.arch && <span class="small">{said(one.arch)}</span>}</td>
                  <td>{day(one.due, language.value)}</td>
                  <td>
                    {job ? `${said(job.phase || job.state)}, ${Math.round(job.fraction * 100)} %` : said(one.standing)}
                    {one.error && <p class="small">{errorInLanguage(one.error, language.value)}</p>}
                  </td>
                  <td>
                    {one.stops > 0 && <span class="stop">■ {one.stops} {said("stop")}</span>}{" "}
                    {one.looks > 0 && <span class="look">◆ {one.looks} {said("look")}</span>}
                  </td>
                  <td class="figure">{figure(one.mass_g, "", language.value)}</td>
                </tr>
              );
            })}
          </tbody>
        </table></Wide>
      )}
    </main>
  );
}
