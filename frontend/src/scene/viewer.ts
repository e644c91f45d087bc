import {
  AmbientLight,
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  Line,
  LineBasicMaterial,
  LineLoop,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
  WebGLRenderer,
} from "three";
import type { Point3 } from "../api/client";
import type { ViewPart } from "../api/view";
import { Eye } from "./camera";
import type { Loaded } from "./meshes";
import { Surface } from "./surface";

/** A place on a part under the pointer. */
export interface Hit {
  part: string;
  at: Point3;
  tooth: number;
  reading: number | null;
}

export interface Label {
  key: string;
  at: Point3;
  text: string;
  kind: "code" | "ring" | "flag";
}

const STILL_MS = 500;
const MOST_PIXELS = 8e6; // of a picture while something moves
const FINE = 1.75; // of the picture's pixels, each way, when nothing moves

/** Draws the parts when something has changed, and says what lies under a pixel. */
export class Viewer {
  readonly eye = new Eye();
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly surfaces = new Map<string, Surface>();
  private readonly drawn = new Map<string, Line[]>();
  private readonly light = new DirectionalLight(0xffffff, 2.1);
  private labels: Label[] = [];
  private readonly bySoftware: boolean; // no graphics card: many pixels cost too much while something moves
  private asked = 0;
  private still = 0; // until a finer picture is drawn
  private size = { w: 0, h: 0 };
  onLabels: (placed: { label: Label; x: number; y: number; shown: boolean }[]) => void = () => {};

  constructor(private readonly canvas: HTMLCanvasElement) {
    this.renderer = new WebGLRenderer({ canvas, antialias: false });
    this.renderer.debug.checkShaderErrors = false; // asking waits for the shaders
    this.bySoftware = drawnBySoftware(this.renderer);
    this.scene.add(new AmbientLight(0xffffff, 1.2), this.light);
    new ResizeObserver(() => this.fit()).observe(canvas);
    this.fit();
  }

  /** Draw a part; the promise is kept when it can be picked on too. */
  async add(part: ViewPart, loaded: Loaded, opacity = 1): Promise<void> {
    this.remove(part.key);
    const surface = new Surface(part, loaded.raw, loaded.normals, loaded.coarse, opacity);
    this.surfaces.set(part.key, surface);
    this.scene.add(surface.mesh);
    this.draw();
    this.tellBusy();
    const tree = await loaded.tree;
    if (this.surfaces.get(part.key) !== surface) return;
    surface.take(tree);
    this.tellBusy();
    this.placeLabels();
  }

  /** Say on the canvas whether a part is there that cannot be picked on yet. */
  private tellBusy(): void {
    this.canvas.setAttribute("aria-busy", String(this.busy()));
  }

  private busy(): boolean {
    return [...this.surfaces.values()].some((one) => !one.bvh);
  }

  has(key: string): boolean {
    return this.surfaces.has(key);
  }

  /** Keep those parts alone that are named. */
  keep(keys: readonly string[]): void {
    for (const key of [...this.surfaces.keys()]) if (!keys.includes(key)) this.remove(key);
  }

  remove(key: string): void {
    const old = this.surfaces.get(key);
    if (!old) return;
    this.scene.remove(old.mesh);
    old.dispose();
    this.surfaces.delete(key);
    this.tellBusy();
  }

  show(key: string, shown: boolean): void {
    const surface = this.surfaces.get(key);
    if (surface) surface.mesh.visible = shown;
    this.draw();
  }

  /** Let what lies behind a part be seen through it; 1: nothing of it. */
  fade(key: string, opacity: number): void {
    this.surfaces.get(key)?.fade(opacity);
    this.draw();
  }

  /** Polylines under a name, in place of those drawn under it before. */
  lines(name: string, lines: readonly Point3[][], colour: number, closed = false): void {
    for (const old of this.drawn.get(name) ?? []) {
      this.scene.remove(old);
      old.geometry.dispose();
      (old.material as LineBasicMaterial).dispose();
    }
    const made = lines.filter((l) => l.length > 1).map((points) => {
      const geometry = new BufferGeometry();
      geometry.setAttribute("position", new BufferAttribute(new Float32Array(points.flat()), 3));
      const material = new LineBasicMaterial({ color: colour, depthTest: !["cut", "pulled", "bases", "fresh"].includes(name) });
      const line = closed ? new LineLoop(geometry, material) : new Line(geometry, material);
      line.renderOrder = 1;
      line.frustumCulled = false;
      this.scene.add(line);
      return line;
    });
    this.drawn.set(name, made);
    this.draw();
  }

  setLabels(labels: Label[]): void {
    this.labels = labels;
    this.draw();
  }

  paper(colour: string): void {
    this.scene.background = new Color(colour);
    this.draw();
  }

  /** Show everything that is visible. */
  whole(): void {
    const low = new Vector3(Infinity, Infinity, Infinity);
    const high = new Vector3(-Infinity, -Infinity, -Infinity);
    for (const { mesh } of this.surfaces.values()) {
      if (!mesh.visible) continue;
      mesh.geometry.computeBoundingBox();
      low.min(mesh.geometry.boundingBox!.min);
      high.max(mesh.geometry.boundingBox!.max);
    }
    if (low.x < high.x) this.eye.whole(low.clone().add(high).multiplyScalar(0.5), 1.05 * (high.x - low.x));
    this.draw();
  }

  /** What lies under a place on the canvas, in CSS pixels; `only` names the part to look at. */
  pick(x: number, y: number, only?: string): Hit | null {
    const box = this.canvas.getBoundingClientRect();
    const ray = new Raycaster();
    ray.setFromCamera(
      new Vector2((x / box.width) * 2 - 1, 1 - (y / box.height) * 2),
      this.eye.camera,
    );
    ray.ray.origin.addScaledVector(ray.ray.direction, -200);
    let best: { hit: Hit; distance: number } | null = null;
    for (const [key, surface] of this.surfaces) {
      if (!surface.mesh.visible || (only && only !== key)) continue;
      const found = surface.bvh?.raycastFirst(ray.ray, DoubleSide);
      if (!found || (best && found.distance >= best.distance)) continue;
      const at = found.point.toArray() as Point3;
      const face = found.faceIndex ?? 0;
      const hit = { part: key, at, tooth: surface.tooth(face), reading: surface.reading(face, at) };
      best = { hit, distance: found.distance };
    }
    return best?.hit ?? null;
  }

  /** Where a place of the arch lies on the canvas, in CSS pixels. */
  project(at: Point3): { x: number; y: number } {
    const box = this.canvas.getBoundingClientRect();
    const p = new Vector3(...at).project(this.eye.camera);
    return { x: ((p.x + 1) / 2) * box.width, y: ((1 - p.y) / 2) * box.height };
  }

  /** Draw at the next frame; nothing is drawn while nothing changes. */
  draw(): void {
    if (!this.asked) this.asked = requestAnimationFrame(() => this.frame());
  }

  dispose(): void {
    clearTimeout(this.still);
    cancelAnimationFrame(this.asked);
    for (const key of [...this.surfaces.keys()]) this.remove(key);
    for (const name of [...this.drawn.keys()]) this.lines(name, [], 0);
    cancelAnimationFrame(this.asked);
    this.renderer.dispose();
  }

  private frame(): void {
    this.asked = 0;
    this.render(this.bySoftware ? 1 : this.smooth(), this.bySoftware);
    this.finerSoon();
    this.placeLabels();
  }

  /** A finer picture once nothing moves and everything that was asked for is there. */
  private finerSoon(): void {
    clearTimeout(this.still);
    if (window.devicePixelRatio >= 2) return;
    this.still = window.setTimeout(() => (this.busy() ? this.finerSoon() : this.render(FINE)), STILL_MS);
  }

  /** Pixels drawn for one of the canvas, each way, so that edges are smooth and a large screen stays quick. */
  private smooth(): number {
    const pixels = this.size.w * this.size.h * window.devicePixelRatio ** 2;
    return window.devicePixelRatio >= 2 ? 1 : Math.min(2, Math.max(1, Math.sqrt(MOST_PIXELS / pixels)));
  }

  private render(finer: number, coarse = false): void {
    for (const surface of this.surfaces.values()) surface.coarse(coarse);
    const ratio = Math.min(window.devicePixelRatio, 2) * finer;
    if (this.renderer.getPixelRatio() !== ratio) this.renderer.setPixelRatio(ratio);
    this.light.position.set(-0.4, 0.7, 1).applyQuaternion(this.eye.camera.quaternion);
    this.renderer.render(this.scene, this.eye.camera);
  }

  /** Where the labels lie, and which of them are not hidden; costs no drawing. */
  private placeLabels(): void {
    this.onLabels(
      this.labels.map((label) => ({ label, ...this.project(label.at), shown: this.sees(label) })),
    );
  }

  /** Whether a label's place is not behind a part; a ring may lie under the metal of its arm. */
  sees({ at, kind }: Pick<Label, "at" | "kind">): boolean {
    if (kind === "flag") return true;
    const back = new Vector3(0, 0, 1).applyQuaternion(this.eye.camera.quaternion);
    const from = new Vector3(...at).addScaledVector(back, kind === "code" ? 0.8 : 2.2);
    const ray = new Raycaster(from, back).ray;
    for (const { mesh, bvh } of this.surfaces.values())
      if (mesh.visible && bvh?.raycastFirst(ray, DoubleSide)) return false;
    return true;
  }

  private fit(): void {
    const { clientWidth: w, clientHeight: h } = this.canvas;
    if (!w || !h || (w === this.size.w && h === this.size.h)) return;
    this.size = { w, h };
    this.renderer.setSize(w, h, false);
    this.eye.shape(w / h);
    this.draw();
  }
}

/** Whether there is no graphics card. */
function drawnBySoftware(renderer: WebGLRenderer): boolean {
  const gl = renderer.getContext();
  const known = gl.getExtension("WEBGL_debug_renderer_info");
  return !!known && /swiftshader|llvmpipe|software|basic render/i.test(String(gl.getParameter(known.UNMASKED_RENDERER_WEBGL)));
}
