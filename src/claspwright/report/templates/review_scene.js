// The 3D view: parallel projection, drawn only when something has changed.

const SURFACE_VERTEX = `#version 300 es
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in float value;
uniform mat3 look;
uniform vec3 low, high, centre, scale;
out vec3 n;
out float v;
void main() {
  vec3 p = look * (mix(low, high, place) - centre);
  n = look * normal;
  v = value;
  gl_Position = vec4(p.xy * scale.xy, -p.z * scale.z, 1.0);
}`;

const SURFACE_FRAGMENT = `#version 300 es
precision highp float;
in vec3 n;
in float v;
uniform vec3 colour;
uniform vec3 ramp[10];
uniform vec4 levels;
uniform float opacity, shine;
uniform bool mapped;
out vec4 shown;
void main() {
  vec3 m = normalize(n);
  if (m.z < 0.0) m = -m;
  vec3 base = colour;
  float line = 0.0;
  if (mapped && v > 0.006) {
    float at = clamp(1.0 - v, 0.0, 1.0) * 9.0;
    int below = int(min(floor(at), 8.0));
    base = mix(ramp[below], ramp[below + 1], at - float(below));
    float width = max(fwidth(v), 1e-5);
    for (int i = 0; i < 4; i += 1) {
      if (levels[i] > 0.0) line = max(line, 1.0 - smoothstep(0.6, 1.3, abs(v - levels[i]) / width));
    }
  }
  float key = max(dot(m, normalize(vec3(-0.45, 0.55, 0.70))), 0.0);
  float fill = max(dot(m, normalize(vec3(0.70, -0.25, 0.55))), 0.0);
  float spot = pow(max(dot(m, normalize(vec3(-0.45, 0.55, 1.70))), 0.0), 40.0);
  vec3 lit = base * (0.44 + 0.54 * key + 0.20 * fill) + shine * spot;
  lit = mix(clamp(lit, 0.0, 1.0), vec3(0.08), line);
  shown = vec4(lit * opacity, opacity);
}`;

const LINE_VERTEX = `#version 300 es
layout(location = 0) in vec3 place;
uniform mat3 look;
uniform vec3 centre, scale;
void main() {
  vec3 p = look * (place - centre);
  gl_Position = vec4(p.xy * scale.xy, -(p.z + 0.25) * scale.z, 1.0);
}`;

const LINE_FRAGMENT = `#version 300 es
precision highp float;
out vec4 shown;
void main() { shown = vec4(0.09, 0.10, 0.13, 1.0); }`;

function program(gl, vertex, fragment) {
  const made = gl.createProgram();
  for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
    const shader = gl.createShader(kind);
    gl.shaderSource(shader, text);
    gl.compileShader(shader);
    gl.attachShader(made, shader);
  }
  gl.linkProgram(made);
  if (!gl.getProgramParameter(made, gl.LINK_STATUS)) throw new Error(gl.getProgramInfoLog(made));
  return made;
}

function makeScene(canvas, facts, drawn) {
  const gl = canvas.getContext("webgl2", { alpha: true, antialias: true });
  if (!gl) return null;
  const surface = program(gl, SURFACE_VERTEX, SURFACE_FRAGMENT);
  const thin = program(gl, LINE_VERTEX, LINE_FRAGMENT);
  const whole = facts.whole;
  const state = {
    look: lookAlong(facts.looks[0].up, facts.looks[0].toward),
    centre: [...whole.centre],
    width: whole.size,
    items: [],
    tracks: null,
    showTracks: true,
    waiting: false,
  };

  function buffer(kind, numbers) {
    const made = gl.createBuffer();
    gl.bindBuffer(kind, made);
    gl.bufferData(kind, numbers, gl.STATIC_DRAW);
    return made;
  }

  function add(part, mesh) {
    const array = gl.createVertexArray();
    gl.bindVertexArray(array);
    const attribute = (at, size, kind, stride) => {
      gl.enableVertexAttribArray(at);
      gl.vertexAttribPointer(at, size, kind, true, stride, 0);
    };
    const padded = new Uint16Array((mesh.places.length / 3) * 4);
    for (let i = 0; 3 * i < mesh.places.length; i += 1) {
      padded.set(mesh.places.subarray(3 * i, 3 * i + 3), 4 * i);
    }
    buffer(gl.ARRAY_BUFFER, padded);
    attribute(0, 3, gl.UNSIGNED_SHORT, 8);
    buffer(gl.ARRAY_BUFFER, normalsOf(mesh, part));
    attribute(1, 3, gl.BYTE, 4);
    if (mesh.values) {
      buffer(gl.ARRAY_BUFFER, mesh.values);
      attribute(2, 1, gl.UNSIGNED_BYTE, 1);
    }
    buffer(gl.ELEMENT_ARRAY_BUFFER, mesh.corners);
    gl.bindVertexArray(null);
    const item = { part, mesh, array, shown: part.shown, mapped: Boolean(mesh.values), glass: false };
    state.items.push(item);
    redraw();
    return item;
  }

  function addTracks(tracks) {
    const points = [];
    for (const track of tracks) {
      for (let i = 0; i + 1 < track.length; i += 1) points.push(...track[i], ...track[i + 1]);
    }
    const array = gl.createVertexArray();
    gl.bindVertexArray(array);
    buffer(gl.ARRAY_BUFFER, new Float32Array(points));
    gl.enableVertexAttribArray(0);
    gl.vertexAttribPointer(0, 3, gl.FLOAT, false, 0, 0);
    gl.bindVertexArray(null);
    state.tracks = { array, count: points.length / 3 };
    redraw();
  }

  function scale() {
    const aspect = canvas.clientWidth / Math.max(canvas.clientHeight, 1);
    const wide = Math.max(state.width, state.width * aspect);
    return [2 / wide, (2 * aspect) / wide, 1 / (2 * whole.reach)];
  }

  function paint(item) {
    const { part } = item;
    const at = (name) => gl.getUniformLocation(surface, name);
    gl.uniform3fv(at("low"), part.low);
    gl.uniform3fv(at("high"), part.high);
    gl.uniform3fv(at("colour"), part.colour.map((c) => c / 255));
    const span = part.value_high - part.value_low;
    const levels = part.levels.map((l) => (l - part.value_low) / span);
    gl.uniform4fv(at("levels"), [0, 1, 2, 3].map((i) => levels[i] ?? 0));
    gl.uniform1f(at("opacity"), item.glass ? 0.35 : 1);
    gl.uniform1f(at("shine"), part.key === "framework" ? 0.35 : 0.1);
    gl.uniform1i(at("mapped"), item.mapped ? 1 : 0);
    gl.bindVertexArray(item.array);
    gl.drawElements(gl.TRIANGLES, item.mesh.corners.length, gl.UNSIGNED_INT, 0);
  }

  function aim(used) {
    gl.useProgram(used);
    gl.uniformMatrix3fv(gl.getUniformLocation(used, "look"), true, state.look);
    gl.uniform3fv(gl.getUniformLocation(used, "centre"), state.centre);
    gl.uniform3fv(gl.getUniformLocation(used, "scale"), scale());
  }

  function draw() {
    state.waiting = false;
    const ratio = Math.min(window.devicePixelRatio || 1, 2);
    canvas.width = Math.max(1, Math.round(canvas.clientWidth * ratio));
    canvas.height = Math.max(1, Math.round(canvas.clientHeight * ratio));
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.clearColor(0, 0, 0, 0);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.enable(gl.DEPTH_TEST);
    gl.depthMask(true);
    aim(surface);
    gl.uniform3fv(gl.getUniformLocation(surface, "ramp"), facts.ramp.flat().map((c) => c / 255));
    const shown = state.items.filter((item) => item.shown);
    shown.filter((item) => !item.glass).forEach(paint);
    if (state.showTracks && state.tracks?.count) {
      aim(thin);
      gl.bindVertexArray(state.tracks.array);
      gl.drawArrays(gl.LINES, 0, state.tracks.count);
      aim(surface);
    }
    // See-through surfaces: first their depth alone, then the nearest layer over what is behind.
    for (const item of shown.filter((i) => i.glass)) {
      gl.colorMask(false, false, false, false);
      paint(item);
      gl.colorMask(true, true, true, true);
      gl.enable(gl.BLEND);
      gl.blendFunc(gl.ONE, gl.ONE_MINUS_SRC_ALPHA);
      gl.depthFunc(gl.LEQUAL);
      paint(item);
      gl.depthFunc(gl.LESS);
      gl.disable(gl.BLEND);
    }
    gl.bindVertexArray(null);
    drawn();
  }

  function redraw() {
    if (!state.waiting) {
      state.waiting = true;
      requestAnimationFrame(draw);
    }
  }

  // Where a point (mm) falls on the canvas, in CSS pixels, and its height towards the eye.
  function project(point) {
    const p = apply(state.look, point.map((x, a) => x - state.centre[a]));
    const s = scale();
    return [
      ((1 + p[0] * s[0]) / 2) * canvas.clientWidth,
      ((1 - p[1] * s[1]) / 2) * canvas.clientHeight,
      p[2],
    ];
  }

  function mmPerPixel() {
    return 2 / (scale()[0] * canvas.clientWidth);
  }

  // The surface point that is seen at a place of the canvas, or null.
  function pick(x, y) {
    const s = scale();
    const [px, py] = [((2 * x) / canvas.clientWidth - 1) / s[0], (1 - (2 * y) / canvas.clientHeight) / s[1]];
    let best = null;
    for (const item of state.items.filter((i) => i.shown && !i.glass)) {
      best = nearestAlong(item, state, px, py, best);
    }
    return best && {
      at: [0, 1, 2].map((a) => state.centre[a] + px * state.look[a] + py * state.look[3 + a] + best.z * state.look[6 + a]),
      part: best.part,
    };
  }

  return { state, add, addTracks, redraw, project, pick, mmPerPixel };
}

function nearestAlong(item, state, px, py, best) {
  const { places, corners } = item.mesh;
  const { low, high, key } = item.part;
  const count = places.length / 3;
  const seen = new Float32Array(places.length);
  for (let v = 0; v < count; v += 1) {
    const p = [0, 1, 2].map((a) => low[a] + ((high[a] - low[a]) * places[3 * v + a]) / 65535 - state.centre[a]);
    seen.set(apply(state.look, p), 3 * v);
  }
  let found = best;
  for (let f = 0; f < corners.length; f += 3) {
    const [i, j, k] = [3 * corners[f], 3 * corners[f + 1], 3 * corners[f + 2]];
    const ax = seen[j] - seen[i];
    const ay = seen[j + 1] - seen[i + 1];
    const bx = seen[k] - seen[i];
    const by = seen[k + 1] - seen[i + 1];
    const area = ax * by - ay * bx;
    if (area === 0) continue;
    const u = ((px - seen[i]) * by - (py - seen[i + 1]) * bx) / area;
    const v = (ax * (py - seen[i + 1]) - ay * (px - seen[i])) / area;
    if (u < 0 || v < 0 || u + v > 1) continue;
    const z = seen[i + 2] + u * (seen[j + 2] - seen[i + 2]) + v * (seen[k + 2] - seen[i + 2]);
    if (!found || z > found.z) found = { z, part: key };
  }
  return found;
}
