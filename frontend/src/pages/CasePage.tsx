import { useEffect } from "preact/hooks";
import { loadView } from "../api/view";
import { ArchPlan } from "../parts/ArchPlan";
import { ConnectorCard } from "../parts/ConnectorCard";
import { Evidence } from "../parts/Evidence";
import { Findings } from "../parts/Findings";
import { JobBar } from "../parts/JobBar";
import { Model } from "../parts/Model";
import { PathCard } from "../parts/PathCard";
import { RetainerCard } from "../parts/RetainerCard";
import { SheetCard } from "../parts/SheetCard";
import { Trail } from "../parts/Trail";
import { day } from "../lib/format";
import { language, loadPage, page, place, t, trouble } from "../state/bench";
import { forget, tooth, view } from "../state/model";

/** One case, read from top to bottom like a job ticket, with the model beside it. */
export function CasePage() {
  const name = place.value;
  useEffect(() => {
    page.value = null;
    forget();
    void loadPage(name);
  }, [name]);
  const stamp = page.value?.view_stamp ?? "";
  useEffect(() => {
    if (!stamp) return;
    loadView(name).then(
      (loaded) => (view.value = loaded),
      (error: unknown) => (trouble.value = String(error)),
    );
  }, [name, stamp]);
  const now = page.value;
  if (!now) return <main aria-busy="true" />;
  return (
    <main class="case">
      <header>
        <p><a href="#/">{t("back")}</a></p>
        <h1>{now.line.name}</h1>
        <p class="class">
          {now.line.kennedy}
          {now.line.due && `, ${t("due")} ${day(now.line.due, language.value)}`}
        </p>
        <JobBar name={name} />
      </header>
      <div class="ticket">
        <section aria-labelledby="prescription">
          <h2 id="prescription">{t("prescription")}</h2>
          {now.line.error ? <p class="stop">{now.line.error}</p> : null}
          <p>{now.prescription.join(" ")}</p>
        </section>
        {view.value && <ArchPlan view={view.value} stamp={stamp} />}
        {tooth.value !== null && (
          <RetainerCard name={name} code={tooth.value} view={view.value} />
        )}
        <section aria-labelledby="findings">
          <h2 id="findings">{t("findings")}</h2>
          <Findings findings={now.findings} />
        </section>
        <PathCard name={name} view={view.value} />
        <ConnectorCard name={name} arch={now.line.arch} />
        <SheetCard name={name} />
        {view.value && <Evidence view={view.value} stamp={stamp} />}
        <Trail name={name} />
        <p class="small caution">{t("caution")}</p>
      </div>
      {view.value && <Model view={view.value} stamp={stamp} />}
    </main>
  );
}
