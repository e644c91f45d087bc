// Meshes out of text: base64, deflate, byte planes of differences (see packing.py).

async function inflated(text) {
  const binary = atob(text);
  const bytes = new Uint8Array(binary.length);
  for (let i = 0; i < bytes.length; i += 1) bytes[i] = binary.charCodeAt(i);
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
  return new Uint8Array(await new Response(stream).arrayBuffer());
}

// One column of `count` numbers stored as `width` byte planes from `start`.
function column(bytes, start, count, width) {
  const out = new Uint32Array(count);
  for (let plane = 0; plane < width; plane += 1) {
    const from = start + plane * count;
    for (let i = 0; i < count; i += 1) out[i] += bytes[from + i] * 256 ** plane;
  }
  return out;
}

function unpacked(bytes, part) {
  const { vertices, faces } = part;
  const places = new Uint16Array(3 * vertices);
  for (let axis = 0; axis < 3; axis += 1) {
    const steps = column(bytes, 2 * axis * vertices, vertices, 2);
    for (let i = 0, sum = 0; i < vertices; i += 1) {
      sum = (sum + steps[i]) & 0xffff;
      places[3 * i + axis] = sum;
    }
  }
  const corners = new Uint32Array(3 * faces);
  const start = 6 * vertices;
  const [first, second, third] = [0, 1, 2].map((n) => column(bytes, start + 4 * n * faces, faces, 4));
  for (let i = 0, lead = 0; i < faces; i += 1) {
    lead += first[i];
    corners[3 * i] = lead;
    corners[3 * i + 1] = lead + second[i];
    corners[3 * i + 2] = lead + third[i];
  }
  const end = start + 12 * faces;
  const values = part.values ? bytes.slice(end, end + vertices) : null;
  return { places, corners, values };
}

// Smooth normals as signed bytes, four to a vertex.
function normalsOf(mesh, part) {
  const { places, corners } = mesh;
  const step = [0, 1, 2].map((a) => (part.high[a] - part.low[a]) / 65535);
  const sum = new Float32Array(places.length);
  for (let f = 0; f < corners.length; f += 3) {
    const [i, j, k] = [3 * corners[f], 3 * corners[f + 1], 3 * corners[f + 2]];
    const ax = (places[j] - places[i]) * step[0];
    const ay = (places[j + 1] - places[i + 1]) * step[1];
    const az = (places[j + 2] - places[i + 2]) * step[2];
    const bx = (places[k] - places[i]) * step[0];
    const by = (places[k + 1] - places[i + 1]) * step[1];
    const bz = (places[k + 2] - places[i + 2]) * step[2];
    const n = [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
    for (const at of [i, j, k]) {
      sum[at] += n[0];
      sum[at + 1] += n[1];
      sum[at + 2] += n[2];
    }
  }
  const out = new Int8Array((4 * places.length) / 3);
  for (let v = 0; 3 * v < sum.length; v += 1) {
    const size = Math.hypot(sum[3 * v], sum[3 * v + 1], sum[3 * v + 2]) || 1;
    for (let a = 0; a < 3; a += 1) out[4 * v + a] = Math.round((127 * sum[3 * v + a]) / size);
  }
  return out;
}
