import { signal } from "@preact/signals";
import { api, troubleWords, type Comparison, type Point3 } from "../api/client";
import { loadJson, type StageView, type View, type ViewLabel } from "../api/view";
import { figure } from "../lib/format";
import { jobs, language, trouble } from "./bench";
import { shown, view } from "./model";

/** What is shown of two revisions: one of them, both through each other, or the distances. */
export const WAYS = ["both", "older", "newer", "gained", "lost"] as const;
export type Way = (typeof WAYS)[number];

const SHOWS: Record<Way, readonly string[]> = {
  both: ["older", "newer"],
  older: ["older"],
  newer: ["newer"],
  gained: ["gained"],
  lost: ["lost"],
};
const THROUGH = 0.55;

export const comparison = signal<Comparison | null>(null);
export const lines = signal<string[]>([]);
/** The picture of the two; null where there is none. */
export const picture = signal<View | null>(null);
export const way = signal<Way>("both");
let asked = 0;

/** Hold two revisions against each other: their lines, and their solids where both were worked out. */
export async function compareRevisions(name: string, older: number, newer: number): Promise<void> {
  const mine = ++asked;
  const where = { params: { path: { name }, query: { older, newer } } };
  const [told, text] = await Promise.all([
    api.GET("/api/cases/{name}/comparison", where),
    api.GET("/api/cases/{name}/differences", where),
  ]);
  if (mine !== asked) return;
  if (!told.data || !text.data) {
    trouble.value = troubleWords(told.error ?? text.error);
    return;
  }
  lines.value = text.data.lines;
  picture.value = null;
  comparison.value = told.data;
  if (!told.data.key) return;
  if (!told.data.made && !(await made(name, older, newer))) return;
  const { data } = told.data.made ? told : await api.GET("/api/cases/{name}/comparison", where);
  if (mine !== asked || !data) return;
  comparison.value = data;
  await draw(name, data);
}

export function endComparison(): void {
  asked++;
  comparison.value = null;
  picture.value = null;
  lines.value = [];
  way.value = "both";
}

export function showWay(next: Way): void {
  way.value = next;
  shown.value = Object.fromEntries(Object.keys(shown.value).map((key) => [key, SHOWS[next].includes(key)]));
}

/** Ask for the comparison and wait until it is there; false where it was stopped or failed. */
async function made(name: string, older: number, newer: number): Promise<boolean> {
  const { data, error } = await api.POST("/api/cases/{name}/comparison", {
    params: { path: { name } },
    body: { older, newer },
  });
  if (!data) {
    trouble.value = troubleWords(error);
    return false;
  }
  if (!jobs.value.has(data.id)) jobs.value = new Map([...jobs.value, [data.id, data]]);
  return new Promise((resolve) => {
    let end = () => {};
    end = jobs.subscribe((all) => {
      const state = all.get(data.id)?.state;
      if (state === "waiting" || state === "at work") return;
      queueMicrotask(() => end());
      resolve(state === "done" || state === undefined);
    });
  });
}

async function draw(name: string, told: Comparison): Promise<void> {
  const base = `/api/cases/${encodeURIComponent(name)}/comparison/${told.key}/view`;
  const own = await loadJson<StageView & { scan_to_arch: number[][] }>(`${base}?at=${told.view_stamp}`);
  const under = view.value;
  if (!under || comparison.value !== told) return;
  const same = JSON.stringify(under.scan_to_arch) === JSON.stringify(own.scan_to_arch);
  const flag = (one: Comparison["gain"], sign: string): ViewLabel[] =>
    one ? [{ at: one.at_arch_mm as Point3, text: `${sign}${figure(one.mm, "mm", language.value)}`, kind: "flag" }] : [];
  const parts = own.parts.map((part) => ({
    ...part,
    from: base,
    shown: SHOWS[way.value].includes(part.key),
    ...(part.with_values ? {} : { through: THROUGH }),
  }));
  picture.value = {
    ...under,
    teeth: same ? under.teeth : [],
    parts,
    tracks: [],
    components: [],
    base_borders: [],
    labels: [...flag(told.gain, "+"), ...flag(told.loss, "−")],
  };
}
