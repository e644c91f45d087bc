/// <reference lib="webworker" />
import { BufferAttribute, BufferGeometry } from "three";
import { MeshBVH } from "three-mesh-bvh";
import { cutMesh, groundFirst, loadView, meshAddress } from "../api/view";
import { coarseFaces } from "../lib/coarse";
import { vertexNormals } from "../lib/normals";
import type { MeshNews, MeshWish } from "./meshes";

// Fetches meshes and prepares them beside the page: first what it takes to draw, of all that was
// asked for, then the trees that make picking fast.
const here = self as unknown as DedicatedWorkerGlobalScope;
const trees: (() => void)[] = [];
const LEAF = 32; // faces: half the time of building with 10, and a pick still takes some 0.01 ms
const MANY = 40_000; // faces of a part, from which on it is drawn coarser while something moves
let coming = 0;

function tell(news: MeshNews, give: Transferable[] = []): void {
  here.postMessage(news, give);
}

here.onmessage = ({ data }: MessageEvent<MeshWish | { open: string }>) => {
  if ("open" in data) void open(data.open);
  else void load(data);
};

/** The view of a case and, without being asked again, the parts that it shows first. */
async function open(name: string): Promise<void> {
  const found = await loadView(name).catch(() => null);
  const parts = found ? groundFirst(found.view, found.view.parts.filter((part) => part.shown)) : [];
  const wishes = parts.map((part, n) => ({ id: -1 - n, part, url: meshAddress(name, part, found!.stamp) }));
  tell({ id: 0, kind: "opened", found, wishes });
  for (const wish of wishes) void load(wish);
}

async function load(wish: MeshWish): Promise<void> {
  coming++;
  try {
    const answer = await fetch(wish.url);
    if (!answer.ok) throw new Error(String(answer.status));
    const bytes = await answer.arrayBuffer();
    const raw = cutMesh(bytes, wish.part);
    const normals = vertexNormals(raw.positions, raw.index);
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(raw.positions, 3));
    geometry.setIndex(new BufferAttribute(raw.index, 1));
    const given = bytes.slice(0);
    const coarse = raw.index.length > 3 * MANY ? coarseFaces(raw.positions, raw.index, normals) : null;
    const buffers = [given, normals.buffer, ...(coarse ? [coarse.buffer] : [])] as ArrayBuffer[];
    tell({ id: wish.id, kind: "drawn", bytes: given, normals, coarse }, buffers);
    trees.push(() => {
      const made = MeshBVH.serialize(new MeshBVH(geometry, { indirect: true, targetLeafSize: LEAF }), { cloneBuffers: false });
      const tree = { ...made, index: null } as unknown as typeof made;
      tell({ id: wish.id, kind: "pickable", tree }, made.roots as ArrayBuffer[]);
    });
  } catch {
    tell({ id: wish.id, kind: "failed" });
  }
  coming--;
  if (!coming) while (trees.length) trees.shift()!();
}
