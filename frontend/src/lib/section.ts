import type { Point3 } from "../api/client";

/** Points of a section in its own plane: along the level direction and down from occlusal, in mm. */
export function flat(line: readonly Point3[], at: Point3, normal: Point3): [number, number][] {
  // Level direction across the normal; where the plane itself is level, x stands for it.
  const long = Math.hypot(normal[0], normal[1]);
  const u: Point3 = long > 1e-6 ? [normal[1] / long, -normal[0] / long, 0] : [1, 0, 0];
  const v: Point3 = [
    normal[1] * u[2] - normal[2] * u[1],
    normal[2] * u[0] - normal[0] * u[2],
    normal[0] * u[1] - normal[1] * u[0],
  ];
  const up = v[2] < 0 ? -1 : 1;
  const size = Math.hypot(...v) || 1;
  return line.map((p) => {
    const d = [p[0] - at[0], p[1] - at[1], p[2] - at[2]] as const;
    const across = d[0] * u[0] + d[1] * u[1] + d[2] * u[2];
    const high = (d[0] * v[0] + d[1] * v[1] + d[2] * v[2]) / size;
    return [across, -up * high];
  });
}
