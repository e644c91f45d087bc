// Turning and placing: 3x3 matrices as nine numbers, row by row.
// The rows of a look are the picture's right, its up, and the way towards the eye.

function apply(m, v) {
  return [0, 3, 6].map((r) => m[r] * v[0] + m[r + 1] * v[1] + m[r + 2] * v[2]);
}

function product(a, b) {
  const out = new Array(9);
  for (let r = 0; r < 3; r += 1) {
    for (let c = 0; c < 3; c += 1) {
      out[3 * r + c] = a[3 * r] * b[c] + a[3 * r + 1] * b[3 + c] + a[3 * r + 2] * b[6 + c];
    }
  }
  return out;
}

function length(v) {
  return Math.hypot(v[0], v[1], v[2]);
}

function cross(a, b) {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

// A look from its up and its way towards the eye; also mends the drift of many small turns.
function lookAlong(up, toward) {
  const z = toward.map((x) => x / length(toward));
  const right = cross(up, z);
  const x = right.map((n) => n / length(right));
  return [...x, ...cross(z, x), ...z];
}

// Turn a look by what a drag across the picture means: radians to the right and down.
function dragged(look, right, down) {
  const [cr, sr, cd, sd] = [Math.cos(right), Math.sin(right), Math.cos(down), Math.sin(down)];
  const aboutUp = [cr, 0, sr, 0, 1, 0, -sr, 0, cr];
  const aboutRight = [1, 0, 0, 0, cd, -sd, 0, sd, cd];
  const turned = product(product(aboutRight, aboutUp), look);
  return lookAlong(turned.slice(3, 6), turned.slice(6, 9));
}
