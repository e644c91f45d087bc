import { api, troubleWords, type Point3 } from "../api/client";
import type { View } from "../api/view";
import type { Hit } from "../scene/viewer";
import { by, page, place, t, take, trouble } from "../state/bench";
import { cuts, handles, plane, pulled, spot, way } from "../state/model";

/** Straight and over the surface; returns the way to draw. */
export async function measure(a: Point3, b: Point3): Promise<Point3[] | null> {
  const { data, error } = await api.POST("/api/cases/{name}/way", {
    params: { path: { name: place.value } },
    body: { a_arch_mm: a, b_arch_mm: b },
  });
  if (!data) {
    trouble.value = troubleWords(error);
    return null;
  }
  way.value = data;
  return data.points_arch_mm as Point3[];
}

/** Thickness of the metal at a place, and the way from there to the opposing arch. */
export async function measureHere(part: string, at: Point3): Promise<void> {
  const { data, error } = await api.POST("/api/cases/{name}/place", {
    params: { path: { name: place.value } },
    body: { part, at_arch_mm: at },
  });
  spot.value = data ?? null;
  if (!data) trouble.value = troubleWords(error);
}

/** A section across the arch at a place: the plane runs along the nearest tooth's buccal direction. */
export async function cutAcross(view: View, at: Point3): Promise<Point3[][]> {
  const far = (p: Point3) => Math.hypot(p[0] - at[0], p[1] - at[1]);
  const near = [...view.teeth].sort((a, b) => far(a.centre) - far(b.centre))[0];
  const normal: Point3 = near?.mesial ?? [0, 1, 0];
  const { data, error } = await api.POST("/api/cases/{name}/section", {
    params: { path: { name: place.value } },
    body: { at_arch_mm: at, normal_arch: normal },
  });
  if (!data) {
    trouble.value = troubleWords(error);
    return [];
  }
  cuts.value = data.cuts;
  plane.value = { at, normal };
  return data.cuts.flatMap((cut) => cut.lines_arch_mm as Point3[][]);
}

/** A clasp tip let go over its tooth: the reading there becomes the prescribed undercut. */
export async function dropTip(tooth: number, hit: Hit): Promise<boolean> {
  const stands = page.value?.retainers.find((r) => r.tooth === tooth);
  if (hit.tooth !== tooth || !stands?.clasp || hit.reading === null || hit.reading < 0.01) {
    trouble.value = `${tooth}: ${t("noUndercutThere")}`;
    return false;
  }
  const undercut_mm = Math.round(hit.reading * 100) / 100;
  return take(
    await api.PUT("/api/cases/{name}/retainers", {
      params: { path: { name: place.value } },
      body: {
        retainer: { ...stands, clasp: { ...stands.clasp, undercut_mm } },
        ...by(`${tooth}: clasp tip moved to ${undercut_mm} mm undercut`),
      },
    }),
  );
}

/** A tooth's mark let go on the model: the point goes into the sheet, in the frame of the scan. */
export async function dropMark(view: View, tooth: number, hit: Hit): Promise<boolean> {
  const m = view.scan_to_arch;
  if (!m) return false;
  const d = hit.at.map((v, k) => v - m[k]![3]!);
  const at = [0, 1, 2].map((k) => m[0]![k]! * d[0]! + m[1]![k]! * d[1]! + m[2]![k]! * d[2]!);
  return take(
    await api.PUT("/api/cases/{name}/marks", {
      params: { path: { name: place.value } },
      body: { tooth, at_scan_mm: at.map((v) => Math.round(v * 1000) / 1000), ...by(`${tooth}: mark moved`) },
    }),
  );
}

/** Ask which points of the framework can be dragged. */
export async function loadHandles(): Promise<void> {
  const { data, error } = await api.GET("/api/cases/{name}/handles", { params: { path: { name: place.value } } });
  handles.value = data?.handles ?? [];
  if (!data) trouble.value = troubleWords(error);
}

let asking = false;
let next: { handle: string; at: Point3 } | null = null;

/** Have the server say what a point means where it is now; of places in between it skips what it must. */
export async function pullHandle(handle: string, at: Point3): Promise<void> {
  next = { handle, at };
  if (asking) return;
  asking = true;
  while (next) {
    const { handle, at }: { handle: string; at: Point3 } = next;
    next = null;
    const { data, error } = await api.GET("/api/cases/{name}/handles/{handle}", {
      params: { path: { name: place.value, handle }, query: { x_mm: at[0], y_mm: at[1], z_mm: at[2] } },
    });
    pulled.value = data ?? null;
    trouble.value = data ? "" : troubleWords(error);
  }
  asking = false;
}

/** A point let go: what it says there goes into the sheet. */
export async function dropHandle(handle: string, at: Point3): Promise<boolean> {
  next = null;
  const done = take(
    await api.PUT("/api/cases/{name}/handles", {
      params: { path: { name: place.value } },
      body: { handle, at_arch_mm: at, ...by("") },
    }),
  );
  pulled.value = null;
  return done;
}
