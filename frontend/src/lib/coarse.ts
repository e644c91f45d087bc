const EDGES = 2.2; // size of a cell in mean edges: about a fifth of the faces stays
const SAMPLE = 2000; // faces whose edges are measured
const MOST_CELLS = 4e6;

/**
 * Fewer faces on the same corners, for pictures while something moves.
 *
 * Corners that share a cell of a grid and look to the same octant become the first of them, and faces
 * that fall together are left out; so the two sides of a thin wall stay apart.
 *
 * @param positions (V, 3) corners [mm].
 * @param index (F, 3) [index into V].
 * @param normals (V, 3) of the corners.
 * @returns (G, 3) [index into V]; the faces as they are where the grid would be too large.
 */
export function coarseFaces(positions: Float32Array, index: Uint32Array, normals: Float32Array): Uint32Array {
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let at = 0; at < positions.length; at++) {
    const k = at % 3;
    if (positions[at]! < low[k]!) low[k] = positions[at]!;
    if (positions[at]! > high[k]!) high[k] = positions[at]!;
  }
  const cell = EDGES * meanEdge(positions, index);
  const [nx, ny, nz] = [0, 1, 2].map((k) => Math.floor((high[k]! - low[k]!) / cell) + 1) as [number, number, number];
  if (!(cell > 0) || nx * ny * nz > MOST_CELLS) return index;
  const first = new Int32Array(8 * nx * ny * nz).fill(-1);
  const stands = new Uint32Array(positions.length / 3);
  for (let v = 0, at = 0; v < stands.length; v++, at += 3) {
    const x = Math.floor((positions[at]! - low[0]!) / cell);
    const y = Math.floor((positions[at + 1]! - low[1]!) / cell);
    const z = Math.floor((positions[at + 2]! - low[2]!) / cell);
    const octant = (normals[at]! < 0 ? 1 : 0) | (normals[at + 1]! < 0 ? 2 : 0) | (normals[at + 2]! < 0 ? 4 : 0);
    const key = 8 * (x + nx * (y + ny * z)) + octant;
    if (first[key]! < 0) first[key] = v;
    stands[v] = first[key]!;
  }
  const out = new Uint32Array(index.length);
  let kept = 0;
  for (let f = 0; f < index.length; f += 3) {
    const a = stands[index[f]!]!, b = stands[index[f + 1]!]!, c = stands[index[f + 2]!]!;
    if (a === b || b === c || c === a) continue;
    const turned = looksInwards(positions, normals, 3 * a, 3 * b, 3 * c);
    out[kept] = a; out[kept + 1] = turned ? c : b; out[kept + 2] = turned ? b : c;
    kept += 3;
  }
  return out.slice(0, kept);
}

/** Whether a face that corners were moved of has turned over: it would be lit from behind. */
function looksInwards(positions: Float32Array, normals: Float32Array, a: number, b: number, c: number): boolean {
  const u = [0, 1, 2].map((k) => positions[b + k]! - positions[a + k]!) as [number, number, number];
  const v = [0, 1, 2].map((k) => positions[c + k]! - positions[a + k]!) as [number, number, number];
  const across = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
  return across.reduce((sum, x, k) => sum + x * (normals[a + k]! + normals[b + k]! + normals[c + k]!), 0) < 0;
}

/** Mean length of the edges of some faces, evenly taken [mm]. */
function meanEdge(positions: Float32Array, index: Uint32Array): number {
  const step = 3 * Math.max(1, Math.floor(index.length / 3 / SAMPLE));
  let sum = 0;
  let count = 0;
  for (let f = 0; f < index.length; f += step)
    for (let k = 0; k < 3; k++) {
      const [a, b] = [3 * index[f + k]!, 3 * index[f + ((k + 1) % 3)]!];
      sum += Math.hypot(positions[a]! - positions[b]!, positions[a + 1]! - positions[b + 1]!, positions[a + 2]! - positions[b + 2]!);
      count++;
    }
  return count ? sum / count : 0;
}
