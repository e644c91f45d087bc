import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DataTexture,
  DoubleSide,
  FrontSide,
  LinearFilter,
  Mesh,
  MeshLambertMaterial,
  RGBAFormat,
  SRGBColorSpace,
} from "three";
import { MeshBVH, type SerializedBVH } from "three-mesh-bvh";
import type { PartMesh, ViewPart } from "../api/view";
import { rampBytes } from "../lib/ramp";

const [RAMP, SIGNED] = [false, true].map((signed) => {
  const texture = new DataTexture(rampBytes(signed), 256, 1, RGBAFormat);
  texture.colorSpace = SRGBColorSpace;
  texture.magFilter = LinearFilter;
  texture.needsUpdate = true;
  return texture;
}) as [DataTexture, DataTexture];

/** A part as something to draw and to pick on; `dispose` gives its memory back. */
export class Surface {
  readonly mesh: Mesh<BufferGeometry, MeshLambertMaterial>;
  /** What makes picking fast; null until it is there. */
  bvh: MeshBVH | null = null;
  private readonly full: BufferAttribute;
  private readonly fewer: BufferAttribute | null;
  private readonly picked = new BufferGeometry(); // all faces, whatever is drawn

  constructor(
    readonly part: ViewPart,
    readonly raw: PartMesh,
    normals: Float32Array,
    coarse: Uint32Array | null,
    opacity = 1,
  ) {
    const geometry = new BufferGeometry();
    this.full = new BufferAttribute(raw.index, 1);
    this.fewer = coarse && new BufferAttribute(coarse, 1);
    geometry.setAttribute("position", new BufferAttribute(raw.positions, 3));
    geometry.setIndex(this.full);
    this.picked.setAttribute("position", geometry.getAttribute("position"));
    this.picked.setIndex(this.full);
    geometry.setAttribute("normal", new BufferAttribute(normals, 3));
    if (raw.values) geometry.setAttribute("reading", new BufferAttribute(raw.values, 1));
    const material = new MeshLambertMaterial({
      color: new Color().setRGB(...(part.colour.map((c) => c / 255) as [number, number, number]), SRGBColorSpace),
      side: DoubleSide,
      transparent: opacity < 1,
      opacity,
    });
    if (raw.values) colourByReading(material, part);
    this.mesh = new Mesh(geometry, material);
    this.mesh.visible = part.shown;
    this.mesh.frustumCulled = false;
  }

  take(tree: SerializedBVH): void {
    this.bvh = MeshBVH.deserialize(tree, this.picked, { setIndex: false });
  }

  /** Draw fewer faces, or all. */
  coarse(on: boolean): void {
    this.mesh.geometry.setIndex(on && this.fewer ? this.fewer : this.full);
  }

  fade(opacity: number): void {
    const { material } = this.mesh;
    material.opacity = opacity;
    material.transparent = opacity < 1;
    material.depthWrite = opacity >= 1;
    material.side = opacity < 1 ? FrontSide : DoubleSide;
    material.needsUpdate = true;
  }

  /** The value at a point of a face, between those of its corners. */
  reading(face: number, at: readonly [number, number, number]): number | null {
    const { values, index, positions } = this.raw;
    if (!values) return null;
    const corner = [0, 1, 2].map((k) => index[face * 3 + k]!);
    const p = corner.map((c) => positions.subarray(c * 3, c * 3 + 3));
    const w = weights(p as [Float32Array, Float32Array, Float32Array], at);
    const read = corner.reduce((sum, c, k) => sum + w[k]! * values[c]!, 0);
    return Number.isFinite(read) ? read : null;
  }

  /** ISO 3950 code of the crown a face belongs to; 0 on tissue. */
  tooth(face: number): number {
    return this.raw.teeth?.[face] ?? 0;
  }

  dispose(): void {
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }
}

/** Barycentric weights of a point in a triangle. */
function weights(
  [a, b, c]: [Float32Array, Float32Array, Float32Array],
  p: readonly [number, number, number],
): [number, number, number] {
  const minus = (u: ArrayLike<number>, v: ArrayLike<number>) => [0, 1, 2].map((k) => u[k]! - v[k]!);
  const dot = (u: number[], v: number[]) => u[0]! * v[0]! + u[1]! * v[1]! + u[2]! * v[2]!;
  const [e, f, g] = [minus(b, a), minus(c, a), minus(p, a)];
  const [ee, ef, ff, ge, gf] = [dot(e, e), dot(e, f), dot(f, f), dot(g, e), dot(g, f)];
  const whole = ee * ff - ef * ef || 1;
  const v = (ff * ge - ef * gf) / whole;
  const w = (ee * gf - ef * ge) / whole;
  return [1 - v - w, v, w];
}

/** Colour by the reading where there is one, with lines at the usual gauges. */
function colourByReading(material: MeshLambertMaterial, part: ViewPart): void {
  const levels = part.levels.map((level) => level.toFixed(4));
  const gap = Math.min(part.high - part.low, ...part.levels.slice(1).map((v, k) => v - part.levels[k]!));
  material.onBeforeCompile = (shader) => {
    shader.uniforms["ramp"] = { value: part.low < 0 ? SIGNED : RAMP };
    shader.uniforms["low"] = { value: part.low };
    shader.uniforms["high"] = { value: part.high };
    shader.vertexShader = shader.vertexShader
      .replace("#include <common>", "#include <common>\nattribute float reading;\nvarying float vReading;")
      .replace("#include <begin_vertex>", "#include <begin_vertex>\nvReading = reading;");
    const lines = levels
      .map((level) => `line = max(line, 1.0 - smoothstep(0.6, 1.4, abs(vReading - ${level}) / wide));`)
      .join("\n");
    shader.fragmentShader = shader.fragmentShader
      .replace(
        "#include <common>",
        "#include <common>\nuniform sampler2D ramp;\nuniform float low;\nuniform float high;\nvarying float vReading;",
      )
      .replace(
        "#include <color_fragment>",
        `#include <color_fragment>
        if (${part.low < 0 ? "true" : "vReading > 0.01"}) {
          float share = clamp((vReading - low) / (high - low), 0.0, 1.0);
          diffuseColor.rgb = texture2D(ramp, vec2(share, 0.5)).rgb;
          float wide = max(fwidth(vReading), 1e-5);
          float line = 0.0;
          ${lines}
          line *= 1.0 - smoothstep(0.08, 0.3, wide / ${gap.toFixed(4)}); // no lines where all is noise
          diffuseColor.rgb = mix(diffuseColor.rgb, vec3(0.02), 0.8 * line);
        }`,
      );
  };
}
