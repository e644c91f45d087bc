// Runs before the page's own script is there: asks for what the address names, so that the answers
// and the meshes come while the script is still being read. Whoever wants them takes them over.
import type { MeshNews } from "./scene/meshes";

export interface Early {
  /** The case that the address names; empty for the list. */
  name: string;
  /** Answers by their path, each for one taker. */
  answers: Map<string, Promise<Response>>;
  /** Fetches and prepares what the case's first page shows; null where there is none. */
  worker: Worker | null;
  /** What the worker said until somebody listened. */
  news: MeshNews[];
}

const [name = "", leaf = ""] = location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
const early: Early = { name, answers: new Map(), worker: null, news: [] };
const paths = ["/api/session"];
if (name) {
  const at = `/api/cases/${encodeURIComponent(name)}`;
  paths.push(at, `${at}/stages`);
  if (!leaf || leaf === "design") {
    early.worker = new Worker(new URL("./scene/meshes.worker.ts", import.meta.url), { type: "module" });
    early.worker.onmessage = ({ data }: MessageEvent<MeshNews>) => void early.news.push(data);
    early.worker.postMessage({ open: name });
  }
}
for (const path of paths) {
  const answer = fetch(path);
  answer.catch(() => {}); // asked again where it is wanted
  early.answers.set(path, answer);
}
Object.assign(window, { claspwrightEarly: early });
