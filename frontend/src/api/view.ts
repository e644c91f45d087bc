import type { Point3 } from "./client";
import { whole } from "./whole";

/** `view.json` of a case: what its screen shows. Arch frame, mm. */
export interface View {
  arch: "mandible" | "maxilla";
  kennedy: string;
  path_words: string;
  design_words: string[];
  parts: ViewPart[];
  tracks: { name: string; closed: boolean; points: Point3[] }[];
  teeth: ViewTooth[];
  spans: { missing: number[]; crest: Point3[] }[];
  /** Where each base ends on either side of its ridge. */
  base_borders?: { teeth: number[]; crest: Point3[]; buccal: Point3[]; lingual: Point3[] }[];
  components: ViewComponent[];
  measures: { name: string; value: number | string; unit: string; source: string }[];
  looks: { name: string; toward: Point3; up: Point3 }[];
  scan_to_arch: number[][] | null;
  cone?: ViewCone | null;
  plan: ViewPlan | null;
  labels?: ViewLabel[];
  pictures: { file: string; group: string; caption: string; alt: string }[];
}

export interface ViewLabel {
  at: Point3;
  text: string;
  kind: "code" | "ring" | "flag";
}

/** The view of a later stage: its own parts over those of the case. */
export interface StageView {
  parts: ViewPart[];
  labels: ViewLabel[];
  lines: { name: string; points: Point3[] }[];
}

/** A platform of a build; plate frame. */
export interface Platform {
  title: string;
  parts: ViewPart[];
  layers: number;
  layer_mm: number;
  shape: "round" | "rectangular";
  width_mm: number;
  depth_mm: number;
  lines: { name: string; points: Point3[] }[];
}

export interface ViewPart {
  /** Where its bytes lie; the view of the case where nothing is said. */
  from?: string;
  key: string;
  name: string;
  colour: [number, number, number];
  shown: boolean;
  vertices: number;
  faces: number;
  with_values: boolean;
  /** How far it hides what lies behind it while another such part is shown; opaque where nothing is said. */
  through?: number;
  /** Values lie in the bytes though they are not to be shown. */
  values_bytes?: boolean;
  with_teeth: boolean;
  values_name: string;
  values_unit: string;
  low: number;
  high: number;
  levels: number[];
  /** What the low and the high end of the scale mean, where signs need words. */
  ends?: [string, string];
}

export interface ViewTooth {
  code: number;
  centre: Point3;
  mark: Point3;
  margin: Point3[];
  buccal: Point3;
  mesial: Point3;
  mesiodistal_mm: number;
  buccolingual_mm: number;
  height_mm: number;
  deepest_undercut_mm: { buccal: number; lingual: number } | null;
}

export interface ViewComponent {
  id: string;
  kind: string;
  tooth: number | null;
  line: Point3[];
  figures: Record<string, number>;
}

/** Every tilt that was held against the path: anterior and right lateral, points, undercut. */
export interface ViewCone {
  step_deg: number;
  tilts_deg: [number, number][];
  points: number[];
  least_undercut_mm: number[] | null;
}

export interface ViewPlan {
  width_px: number;
  height_px: number;
  origin_px: [number, number];
  x_px_per_mm: [number, number];
  y_px_per_mm: [number, number];
}

/** A mesh of the view as it lies in the file. */
export interface PartMesh {
  positions: Float32Array;
  index: Uint32Array;
  values: Float32Array | null;
  teeth: Uint8Array | null;
}

/** A view and the stamp that it has. */
export interface Stamped {
  view: View;
  stamp: string;
}

/** The part that is measured on: the model, also where it is coloured by something else. */
export function groundOf(view: View): string {
  return view.parts.some((part) => part.key === "model") ? "model" : "lifting";
}

/** Parts in the order in which they are wanted: what is measured on first. */
export function groundFirst(view: View, parts: readonly ViewPart[]): ViewPart[] {
  const ground = groundOf(view);
  return [...parts].sort((a, b) => Number(b.key === ground) - Number(a.key === ground));
}

/** Where the bytes of a part lie. */
export function meshAddress(name: string, part: ViewPart, stamp: string): string {
  const from = part.from ?? `/api/cases/${encodeURIComponent(name)}/view`;
  return new URL(`${from}/${part.key}.bin?at=${stamp}`, location.origin).href;
}

/** The view of a case and the stamp that it has; null where it was never worked out. */
export async function loadView(name: string): Promise<Stamped | null> {
  const answer = await fetch(`/api/cases/${encodeURIComponent(name)}/view`).then(whole).catch(() => null);
  if (answer?.status === 404) return null;
  if (!answer?.ok) throw new Error(`The view of ${name} cannot be read.`);
  return { view: (await answer.json()) as View, stamp: answer.headers.get("X-Claspwright-Stamp") ?? "" };
}

export async function loadJson<T>(path: string): Promise<T> {
  const answer = await fetch(path).then(whole).catch(() => null);
  if (!answer?.ok) throw new Error(`${path} cannot be read.`);
  return (await answer.json()) as T;
}

/** The view of a later stage laid over that of the case, whose parts stay at hand, hidden. */
export function overlaid(view: View, stage: StageView, from: string): View {
  const own = stage.parts.map((part) => ({ ...part, from }));
  const twins: Record<string, string> = { model: "lifting", framework: "stress" }; // the same body, coloured
  const rest = view.parts.filter((part) => !own.some((o) => o.key === twins[part.key]));
  const under = rest.map((part) => ({ ...part, shown: part.key === "model", with_values: false, values_bytes: part.with_values }));
  return {
    ...view,
    parts: [...own, ...under],
    labels: stage.labels,
    tracks: stage.lines.map((line) => ({ ...line, closed: false })),
  };
}

/** Positions, faces, values and tooth codes out of the bytes of a part. */
export function cutMesh(raw: ArrayBuffer, part: ViewPart): PartMesh {
  const positions = new Float32Array(raw, 0, part.vertices * 3);
  let at = positions.byteLength;
  const index = new Uint32Array(raw, at, part.faces * 3);
  at += index.byteLength;
  const values = part.with_values ? new Float32Array(raw, at, part.vertices) : null;
  at += part.with_values || part.values_bytes ? 4 * part.vertices : 0;
  const teeth = part.with_teeth ? new Uint8Array(raw, at, part.faces) : null;
  return { positions, index, values, teeth };
}
