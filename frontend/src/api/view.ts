import type { Point3 } from "./client";

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
  components: ViewComponent[];
  measures: { name: string; value: number | string; unit: string; source: string }[];
  looks: { name: string; toward: Point3; up: Point3 }[];
  scan_to_arch: number[][] | null;
  plan: ViewPlan | null;
  pictures: { file: string; group: string; caption: string; alt: string }[];
}

export interface ViewPart {
  key: string;
  name: string;
  colour: [number, number, number];
  shown: boolean;
  vertices: number;
  faces: number;
  with_values: boolean;
  with_teeth: boolean;
  values_name: string;
  values_unit: string;
  low: number;
  high: number;
  levels: number[];
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

export async function loadView(name: string): Promise<View> {
  const answer = await fetch(`/api/cases/${encodeURIComponent(name)}/view`);
  if (!answer.ok) throw new Error(`The view of ${name} cannot be read.`);
  return (await answer.json()) as View;
}

export async function loadMesh(name: string, part: ViewPart, stamp: string): Promise<PartMesh> {
  const path = `/api/cases/${encodeURIComponent(name)}/view/${part.key}.bin?at=${stamp}`;
  const answer = await fetch(path);
  if (!answer.ok) throw new Error(`The mesh ${part.name} cannot be read.`);
  return cutMesh(await answer.arrayBuffer(), part);
}

/** Positions, faces, values and tooth codes out of the bytes of a part. */
export function cutMesh(raw: ArrayBuffer, part: ViewPart): PartMesh {
  const positions = new Float32Array(raw, 0, part.vertices * 3);
  let at = positions.byteLength;
  const index = new Uint32Array(raw, at, part.faces * 3);
  at += index.byteLength;
  const values = part.with_values ? new Float32Array(raw, at, part.vertices) : null;
  at += values?.byteLength ?? 0;
  const teeth = part.with_teeth ? new Uint8Array(raw, at, part.faces) : null;
  return { positions, index, values, teeth };
}
