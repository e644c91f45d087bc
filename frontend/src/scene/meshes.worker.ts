/// <reference lib="webworker" />
import { BufferAttribute, BufferGeometry } from "three";
import { MeshBVH } from "three-mesh-bvh";
import { cutMesh } from "../api/view";
import type { MeshNews, MeshWish } from "./meshes";

// Fetches meshes and prepares them beside the page: first what it takes to draw, of all that was
// asked for, then the trees that make picking fast.
const here = self as unknown as DedicatedWorkerGlobalScope;
const trees: (() => void)[] = [];
let coming = 0;

function tell(news: MeshNews, give: Transferable[] = []): void {
  here.postMessage(news, give);
}

here.onmessage = async ({ data: wish }: MessageEvent<MeshWish>) => {
  coming++;
  try {
    const answer = await fetch(wish.url);
    if (!answer.ok) throw new Error(String(answer.status));
    const bytes = await answer.arrayBuffer();
    const raw = cutMesh(bytes, wish.part);
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(raw.positions, 3));
    geometry.setIndex(new BufferAttribute(raw.index, 1));
    geometry.computeVertexNormals();
    const normals = geometry.getAttribute("normal").array as Float32Array;
    const given = bytes.slice(0);
    tell({ id: wish.id, kind: "drawn", bytes: given, normals }, [given, normals.buffer]);
    trees.push(() => {
      const made = MeshBVH.serialize(new MeshBVH(geometry, { indirect: true }), { cloneBuffers: false });
      const tree = { ...made, index: null } as unknown as typeof made;
      tell({ id: wish.id, kind: "pickable", tree }, made.roots as ArrayBuffer[]);
    });
  } catch {
    tell({ id: wish.id, kind: "failed" });
  }
  coming--;
  if (!coming) while (trees.length) trees.shift()!();
};
