import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { loadJson, overlaid, type StageView, type View } from "../api/view";
import { Model } from "../parts/Model";
import { stages, tellFailure, type StagesData } from "../state/bench";
import { view } from "../state/model";

export type StageRow = StagesData["stages"][number];

export function stageOf(stage: StageRow["stage"]): StageRow | undefined {
  return stages.value?.stages.find((one) => one.stage === stage);
}

/** The model with what a later stage found on it. */
export function StageModel({ name, stage }: { name: string; stage: StageRow["stage"] }) {
  const stamp = stageOf(stage)?.view_stamp ?? "";
  const base = `/api/cases/${encodeURIComponent(name)}/stages/${stage}/view`;
  const laid = useSignal<View | null>(null);
  const under = view.value;
  useEffect(() => {
    if (!stamp || !under) {
      laid.value = null;
      return;
    }
    loadJson<StageView>(`${base}?at=${stamp}`).then(
      (own) => (laid.value = overlaid(under, own, base)),
      tellFailure,
    );
  }, [base, stamp, under]);
  if (!laid.value) return null;
  return <Model view={laid.value} stamp={stamp} tools={["turn", "measure", "section"]} />;
}
