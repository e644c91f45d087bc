import type { SerializedBVH } from "three-mesh-bvh";
import { cutMesh, type PartMesh, type ViewPart } from "../api/view";

export interface MeshWish {
  id: number;
  url: string;
  part: ViewPart;
}

export type MeshNews =
  | { id: number; kind: "drawn"; bytes: ArrayBuffer; normals: Float32Array }
  | { id: number; kind: "pickable"; tree: SerializedBVH }
  | { id: number; kind: "failed" };

/** A mesh that can be drawn; that it can be picked on comes after. */
export interface Loaded {
  raw: PartMesh;
  normals: Float32Array;
  tree: Promise<SerializedBVH>;
}

interface Waiting {
  part: ViewPart;
  drawn: (loaded: Loaded) => void;
  pickable: (tree: SerializedBVH) => void;
  failed: (error: Error) => void;
  tree: Promise<SerializedBVH>;
}

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
  ahead.clear();
  for (const part of parts) {
    const coming = fetched(part, addressOf(name, part, stamp));
    coming.catch(() => {}); // told where it is taken
    ahead.set(addressOf(name, part, stamp), coming);
  }
}

/** Fetch a part of a view and prepare it beside the page. */
export function loadMesh(name: string, part: ViewPart, stamp: string): Promise<Loaded> {
  const url = addressOf(name, part, stamp);
  const coming = ahead.get(url);
  ahead.delete(url);
  return coming ?? fetched(part, url);
}

function addressOf(name: string, part: ViewPart, stamp: string): string {
  const from = part.from ?? `/api/cases/${encodeURIComponent(name)}/view`;
  return new URL(`${from}/${part.key}.bin?at=${stamp}`, location.href).href;
}

function fetched(part: ViewPart, url: string): Promise<Loaded> {
  readyForMeshes();
  const id = ++last;
  const wish: MeshWish = { id, url, part };
  return new Promise((drawn, failed) => {
    let pickable: Waiting["pickable"] = () => {};
    const tree = new Promise<SerializedBVH>((resolve) => (pickable = resolve));
    waiting.set(id, { part, drawn, pickable, failed, tree });
    worker!.postMessage(wish);
  });
}

function started(): Worker {
  const made = new Worker(new URL("./meshes.worker.ts", import.meta.url), { type: "module" });
  made.onmessage = ({ data: news }: MessageEvent<MeshNews>) => {
    const one = waiting.get(news.id);
    if (!one) return;
    if (news.kind === "drawn") {
      one.drawn({ raw: cutMesh(news.bytes, one.part), normals: news.normals, tree: one.tree });
      return;
    }
    waiting.delete(news.id);
    if (!waiting.size) endSoon();
    if (news.kind === "pickable") one.pickable(news.tree);
    else one.failed(new Error(`The mesh ${one.part.name} cannot be read.`));
  };
  return made;
}
