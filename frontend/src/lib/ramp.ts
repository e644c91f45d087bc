/** The viridis map at 9 places, light at the shallow end; perceptually even, safe for colour-blind eyes. */
const STOPS: readonly (readonly [number, number, number])[] = [
  [253, 231, 37], [173, 220, 48], [94, 201, 98], [40, 174, 128], [33, 145, 140],
  [44, 114, 142], [59, 82, 139], [71, 45, 123], [68, 1, 84],
];

/** Colour at a share from 0 to 1. */
export function ramp(share: number): [number, number, number] {
  const at = Math.min(Math.max(share, 0), 1) * (STOPS.length - 1);
  const i = Math.min(Math.floor(at), STOPS.length - 2);
  const a = STOPS[i]!, b = STOPS[i + 1]!, t = at - i;
  return [0, 1, 2].map((c) => Math.round(a[c]! + (b[c]! - a[c]!) * t)) as [number, number, number];
}

/** 256 colours as bytes, for a texture. */
export function rampBytes(): Uint8Array {
  const out = new Uint8Array(256 * 4);
  for (let i = 0; i < 256; i++) out.set([...ramp(i / 255), 255], i * 4);
  return out;
}
