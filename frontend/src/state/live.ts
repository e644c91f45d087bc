import { effect, signal } from "@preact/signals";
import { api, type FindingRow, type Point3 } from "../api/client";
import type { ViewComponent, ViewPart } from "../api/view";
import { leaf, page, place } from "./bench";
import { tool, tooth, view } from "./model";

/** What a change would look like, before the case is worked out anew. */
export interface Live {
  part: ViewPart;
  stamp: string;
  components: ViewComponent[];
  findings: FindingRow[] | null;
  /** Whether the whole framework can be shown with it. */
  cuts: boolean;
  /** Borders of bases that differ. */
  borders: Point3[][];
}

export const live = signal<Live | null>(null);
let asked = 0;
let readyFor = "";

/** Take the case up in the background, so that the first change is shown soon. */
export async function getReady(): Promise<void> {
  const key = `${place.value} ${page.value?.view_stamp}`;
  if (readyFor === key || !page.value?.view_stamp) return;
  readyFor = key;
  const { data } = await api.POST("/api/cases/{name}/live/ready", { params: { path: { name: place.value } } });
  if (!data?.ready && readyFor === key) readyFor = ""; // another case came first
}

/** Show what the sheet now asks for: the new pieces first, then the whole with its findings. */
export async function showChange(): Promise<void> {
  const mine = ++asked;
  const at = { params: { path: { name: place.value } } };
  for (const path of ["/api/cases/{name}/live/laid", "/api/cases/{name}/live/cut"] as const) {
    const { data } = await api.POST(path, at);
    if (mine !== asked) return;
    live.value = data ? ({ ...data } as unknown as Live) : null;
    if (!data?.cuts) return; // more than a retainer differs: its pieces alone, until it is worked out
  }
}

export function forgetChange(): void {
  asked++;
  live.value = null;
}

const OPENED_MS = 1500; // after which a case that was opened is taken up

/** The case that is looked at is taken up, again where another one was looked at in between. */
function readySoon(): void {
  clearTimeout(soon);
  if (!view.value || !place.value || leaf.value !== "design" || document.hidden) return;
  soon = window.setTimeout(() => void getReady(), OPENED_MS);
}

let soon = 0;
effect(readySoon);
document.addEventListener("visibilitychange", () => {
  readyFor = "";
  readySoon();
});

effect(() => {
  if (view.value && (tool.value === "tip" || tool.value === "border" || tooth.value !== null)) void getReady();
});
