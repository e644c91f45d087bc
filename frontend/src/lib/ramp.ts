/** The viridis map at 9 places, light at the shallow end; perceptually even, safe for colour-blind eyes. */
const STOPS: readonly (readonly [number, number, number])[] = [
  [253, 231, 37], [173, 220, 48], [94, 201, 98], [40, 174, 128], [33, 145, 140],
  [44, 114, 142], [59, 82, 139], [71, 45, 123], [68, 1, 84],
];

/** For signed values: blue below, orange above, pale where nothing differs; safe for colour-blind eyes. */
const SIGNED: readonly (readonly [number, number, number])[] = [
  [8, 48, 107], [33, 113, 181], [107, 174, 214], [198, 219, 239], [247, 247, 247],
  [253, 208, 162], [253, 141, 60], [217, 72, 1], [127, 39, 4],
];

/** Colour at a share from 0 to 1. */
export function ramp(share: number, signed = false): [number, number, number] {
  const stops = signed ? SIGNED : STOPS;
  const at = Math.min(Math.max(share, 0), 1) * (stops.length - 1);
  const i = Math.min(Math.floor(at), stops.length - 2);
  const a = stops[i]!, b = stops[i + 1]!, t = at - i;
  return [0, 1, 2].map((c) => Math.round(a[c]! + (b[c]! - a[c]!) * t)) as [number, number, number];
}

/** 256 colours as bytes, for a texture. */
export function rampBytes(signed = false): Uint8Array {
  const out = new Uint8Array(256 * 4);
  for (let i = 0; i < 256; i++) out.set([...ramp(i / 255, signed), 255], i * 4);
  return out;
}
