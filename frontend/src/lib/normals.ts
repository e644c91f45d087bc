/**
 * Unit normals of the vertices, each the mean of its faces weighted by their areas.
 *
 * @param positions (V, 3) corners.
 * @param index (F, 3) [index into V].
 * @returns (V, 3); zero where a vertex has no face.
 */
export function vertexNormals(positions: Float32Array, index: Uint32Array): Float32Array {
  const out = new Float32Array(positions.length);
  for (let f = 0; f < index.length; f += 3) {
    const [a, b, c] = [3 * index[f]!, 3 * index[f + 1]!, 3 * index[f + 2]!];
    const x = positions[a]!, y = positions[a + 1]!, z = positions[a + 2]!;
    const ux = positions[b]! - x, uy = positions[b + 1]! - y, uz = positions[b + 2]! - z;
    const vx = positions[c]! - x, vy = positions[c + 1]! - y, vz = positions[c + 2]! - z;
    const nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
    out[a]! += nx; out[a + 1]! += ny; out[a + 2]! += nz;
    out[b]! += nx; out[b + 1]! += ny; out[b + 2]! += nz;
    out[c]! += nx; out[c + 1]! += ny; out[c + 2]! += nz;
  }
  for (let v = 0; v < out.length; v += 3) {
    const long = Math.sqrt(out[v]! * out[v]! + out[v + 1]! * out[v + 1]! + out[v + 2]! * out[v + 2]!) || 1;
    out[v]! /= long; out[v + 1]! /= long; out[v + 2]! /= long;
  }
  return out;
}
