import { useEffect, useRef } from "preact/hooks";
import type { FindingRow } from "../api/client";
import { groundFirst, loadView } from "../api/view";
import { errorInLanguage } from "../lib/sentences";
import { ArchPlan } from "../parts/ArchPlan";
import { ConnectorCard } from "../parts/ConnectorCard";
import { Evidence } from "../parts/Evidence";
import { Findings } from "../parts/Findings";
import { CaseHead } from "../parts/CaseHead";
import { JobBar } from "../parts/JobBar";
import { Model } from "../parts/Model";
import { PathCard } from "../parts/PathCard";
import { Said } from "../parts/Said";
import { RetainerCard } from "../parts/RetainerCard";
import { SheetCard } from "../parts/SheetCard";
import { Trail } from "../parts/Trail";
import { language, leaf, loadPage, loadStages, page, place, t, tellFailure, type Leaf } from "../state/bench";
import { loadAhead, viewAhead } from "../scene/meshes";
import { comparison, endComparison, picture } from "../state/compare";
import { forgetChange, live, showChange } from "../state/live";
import { forget, tooth, view, type Tool } from "../state/model";
import { AcrylicPage } from "./AcrylicPage";
import { BuildPage } from "./BuildPage";
import { ClinicPage } from "./ClinicPage";
import { FurnacePage, InspectionPage, PreparationPage } from "./InspectionPages";
import { PapersPage } from "./PapersPage";
import { ProofPage } from "./ProofPage";

/** The findings, those of the clasps as they would be after the change that is shown. */
function asItWouldBe(findings: FindingRow[]): FindingRow[] {
  const told = live.value?.findings;
  return told ? [...findings.filter((one) => !one.rule.startsWith("clasp.")), ...told] : findings;
}

const COMPARED: readonly Tool[] = ["turn"];
const OTHERS: Partial<Record<Leaf, (of: { name: string }) => preact.JSX.Element>> = {
  preparation: PreparationPage,
  proof: ProofPage,
  build: BuildPage,
  furnace: FurnacePage,
  inspection: InspectionPage,
  clinic: ClinicPage,
  acrylic: AcrylicPage,
  papers: PapersPage,
};

/** One case, read from top to bottom like a job ticket, with the model beside it. */
export function CasePage() {
  const name = place.value;
  const early = useRef<ReturnType<typeof loadView> | null>(null);
  useEffect(() => {
    page.value = null;
    forget();
    endComparison();
    void loadPage(name);
    void loadStages(name);
    early.current = viewAhead(name)?.then((found) => found ?? loadView(name)) ?? loadView(name);
    early.current.then((there) => {
      const parts = there?.view.parts.filter((part) => part.shown) ?? [];
      if (there && leaf.value === "design" && place.value === name) loadAhead(name, groundFirst(there.view, parts), there.stamp);
    }, () => {}); // told where it is taken
  }, [name]);
  const now = page.value?.line.name === name ? page.value : null;
  const stamp = now?.view_stamp ?? "";
  useEffect(() => {
    if (!stamp) return;
    let late = false;
    const take = async () => {
      const first = await early.current; // was asked for together with the page
      const loaded = first?.stamp === stamp ? first : await loadView(name);
      if (!late && loaded) view.value = loaded.view;
    };
    take().catch(tellFailure);
    return () => {
      late = true;
    };
  }, [name, stamp]);
  const standing = now?.line.standing;
  useEffect(() => {
    if (standing === "stale" && stamp) void showChange();
    else forgetChange();
  }, [name, stamp, standing, now?.revisions.at]);
  if (!now) return <main aria-busy="true" />;
  const Other = OTHERS[leaf.value];
  if (Other) return <Other key={leaf.value} name={name} />;
  return (
    <main class="case">
      <CaseHead name={name}>
        <JobBar name={name} />
      </CaseHead>
      <div class="ticket">
        <section aria-labelledby="prescription">
          <h2 id="prescription">{t("prescription")}</h2>
          {now.line.error ? <p class="stop">{errorInLanguage(now.line.error, language.value)}</p> : null}
          <p>{now.prescription.map((one) => <span key={one}><Said text={one} /> </span>)}</p>
        </section>
        {view.value && <ArchPlan view={view.value} stamp={stamp} />}
        {tooth.value !== null && (
          <RetainerCard name={name} code={tooth.value} view={view.value} />
        )}
        <section aria-labelledby="findings">
          <h2 id="findings">{t("findings")}</h2>
          {live.value && !live.value.cuts && <p class="hint" role="status">{t("piecesAlone")}</p>}
          {live.value?.findings && <p class="hint" role="status">{t("asItWouldBe")}</p>}
          <Findings findings={asItWouldBe(now.findings)} />
        </section>
        <PathCard name={name} view={view.value} />
        <ConnectorCard name={name} arch={now.line.arch} />
        <SheetCard name={name} />
        {view.value && <Evidence view={view.value} stamp={stamp} />}
        <Trail name={name} />
        <p class="small caution">{t("caution")}</p>
      </div>
      {picture.value ? (
        <Model key="compared" view={picture.value} stamp={comparison.value?.view_stamp ?? ""} tools={COMPARED} />
      ) : (
        view.value && <Model key="own" view={view.value} stamp={stamp} />
      )}
    </main>
  );
}
