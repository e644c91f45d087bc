import { signal } from "@preact/signals";
import type { CutAnswer, HandleAnswer, HandleRow, Point3 } from "../api/client";
import type { View } from "../api/view";

export type Tool = "turn" | "measure" | "section" | "tip" | "mark" | "border";

export const view = signal<View | null>(null);
export const tooth = signal<number | null>(null);
export const tool = signal<Tool>("turn");
export const shown = signal<Record<string, boolean>>({});
/** Where the 3D view shall go next; set by whoever wants a place shown. */
export const goTo = signal<{ at: Point3; words: string } | null>(null);
/** The direction from the model to the eye; set while a model is shown. */
export const eyeToward = signal<(() => Point3) | null>(null);
/** What was measured at one place. */
export const spot = signal<{ thickness_mm: number | null; or_more: boolean; clearance_mm: number | null } | null>(null);
export const way = signal<{ straight_mm: number; surface_mm: number } | null>(null);
export const cuts = signal<CutAnswer[]>([]);

/** The plane of the section that is shown. */
export const plane = signal<{ at: Point3; normal: Point3 } | null>(null);

/** Points of the framework that can be dragged, and what the one that is held says. */
export const handles = signal<HandleRow[] | null>(null);
export const pulled = signal<HandleAnswer | null>(null);

export function forget(): void {
  view.value = null;
  tooth.value = null;
  tool.value = "turn";
  goTo.value = null;
  way.value = null;
  spot.value = null;
  cuts.value = [];
  plane.value = null;
  handles.value = null;
  pulled.value = null;
}
