import type { SerializedBVH } from "three-mesh-bvh";
import { cutMesh, meshAddress, type PartMesh, type Stamped, type ViewPart } from "../api/view";
import type { Early } from "../early";

export interface MeshWish {
  id: number;
  url: string;
  part: ViewPart;
}

export type MeshNews =
  | { id: number; kind: "drawn"; bytes: ArrayBuffer; normals: Float32Array; coarse: Uint32Array | null }
  | { id: number; kind: "pickable"; tree: SerializedBVH }
  | { id: number; kind: "failed" }
  | { id: number; kind: "opened"; found: Stamped | null; wishes: MeshWish[] };

/** A mesh that can be drawn; that it can be picked on comes after. */
export interface Loaded {
  raw: PartMesh;
  normals: Float32Array;
  /** Fewer faces on the same corners; null where there are few anyway. */
  coarse: Uint32Array | null;
  tree: Promise<SerializedBVH>;
}

interface Waiting {
  part: ViewPart;
  drawn: (loaded: Loaded) => void;
  pickable: (tree: SerializedBVH) => void;
  failed: (error: Error) => void;
  tree: Promise<SerializedBVH>;
}

const early = (window as { claspwrightEarly?: Early }).claspwrightEarly;
let opened: ((found: Stamped | null) => void) | null = null;
let firstView = early?.worker ? new Promise<Stamped | null>((resolve) => (opened = resolve)) : null;
const waiting = new Map<number, Waiting>();
const ahead = new Map<string, Promise<Loaded>>();
let worker: Worker | null = null;
let last = 0;
let idle = 0;
const IDLE_MS = 4000; // after which the worker gives its memory back

/** Have the worker at hand before the first mesh is asked for. */
export function readyForMeshes(): void {
  clearTimeout(idle);
  worker ??= started();
}

function endSoon(): void {
  clearTimeout(idle);
  idle = window.setTimeout(() => {
    worker?.terminate();
    worker = null;
  }, IDLE_MS);
}

/** Have parts fetched and prepared before anybody shows them; what nobody took goes with the next ones. */
export function loadAhead(name: string, parts: readonly ViewPart[], stamp: string): void {
  const wanted = parts.map((part) => meshAddress(name, part, stamp));
  for (const url of [...ahead.keys()]) if (!wanted.includes(url)) ahead.delete(url);
  parts.forEach((part, n) => {
    if (!ahead.has(wanted[n]!)) expect(wanted[n]!, fetched(part, wanted[n]!));
  });
}

function expect(url: string, coming: Promise<Loaded>): void {
  coming.catch(() => {}); // told where it is taken
  ahead.set(url, coming);
}

/** The view of a case, if it was asked for before the page was there; null where it was not. */
export function viewAhead(name: string): Promise<Stamped | null> | null {
  const coming = early?.name === name ? firstView : null;
  firstView = null;
  return coming;
}

/** Fetch a part of a view and prepare it beside the page. */
export function loadMesh(name: string, part: ViewPart, stamp: string): Promise<Loaded> {
  const url = meshAddress(name, part, stamp);
  const coming = ahead.get(url);
  ahead.delete(url);
  return coming ?? fetched(part, url);
}

function fetched(part: ViewPart, url: string): Promise<Loaded> {
  readyForMeshes();
  const wish: MeshWish = { id: ++last, url, part };
  worker!.postMessage(wish);
  return awaited(wish);
}

/** What the worker will say to a wish. */
function awaited({ id, part }: MeshWish): Promise<Loaded> {
  return new Promise((drawn, failed) => {
    let pickable: Waiting["pickable"] = () => {};
    const tree = new Promise<SerializedBVH>((resolve) => (pickable = resolve));
    waiting.set(id, { part, drawn, pickable, failed, tree });
  });
}

function started(): Worker {
  const made = new Worker(new URL("./meshes.worker.ts", import.meta.url), { type: "module" });
  made.onmessage = ({ data }: MessageEvent<MeshNews>) => hear(data);
  return made;
}

function hear(news: MeshNews): void {
  if (news.kind === "opened") {
    for (const wish of news.wishes) expect(wish.url, awaited(wish));
    opened?.(news.found);
    return;
  }
  const one = waiting.get(news.id);
  if (!one) return;
  if (news.kind === "drawn") {
    one.drawn({ raw: cutMesh(news.bytes, one.part), normals: news.normals, coarse: news.coarse, tree: one.tree });
    return;
  }
  waiting.delete(news.id);
  if (!waiting.size) endSoon();
  if (news.kind === "pickable") one.pickable(news.tree);
  else one.failed(new Error(`The mesh ${one.part.name} cannot be read.`));
}

if (early?.worker) {
  worker = early.worker;
  worker.onmessage = ({ data }: MessageEvent<MeshNews>) => hear(data);
  early.news.splice(0).forEach(hear);
}
