import { effect, useSignal } from "@preact/signals";
import { useEffect, useRef } from "preact/hooks";
import { groundFirst, groundOf, type View, type ViewPart } from "../api/view";
import type { Point3 } from "../api/client";
import { figure } from "../lib/format";
import { numbersIn } from "../lib/sentences";
import { loadMesh } from "../scene/meshes";
import { Viewer, type Hit, type Label } from "../scene/viewer";
import { steer } from "../scene/steering";
import { language, page, place, t, tellFailure } from "../state/bench";
import { live } from "../state/live";
import { cuts, eyeToward, goTo, handles, plane, pulled, shown, spot, tool, tooth, way, type Tool } from "../state/model";
import { Legend } from "./Legend";
import { said } from "./Said";
import { SectionDrawing } from "./SectionDrawing";
import { ToolBar } from "./ToolBar";
import { cutAcross, dropHandle, dropMark, dropTip, loadHandles, measure, measureHere, pullHandle } from "./tools";

interface Placed {
  label: Label;
  x: number;
  y: number;
  shown: boolean;
}

/** The model in 3D with its tools. */
export function Model({
  view,
  stamp,
  tools = ["turn", "measure", "section", "tip", "border", "mark"],
}: {
  view: View;
  stamp: string;
  tools?: readonly Tool[];
}) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const viewer = useRef<Viewer | null>(null);
  const under = useSignal<Hit | null>(null);
  const labels = useSignal<Placed[]>([]);
  const loading = useSignal(true);
  const held = useRef<{ tooth: number; id: string } | null>(null);
  const keyed = useRef<{ x: number; y: number } | null>(null); // where the keys have moved it
  const first = useRef<Point3 | null>(null);
  const now = useRef(view); // for the handlers, which are made once
  now.current = view;

  useEffect(() => {
    if (!tools.includes(tool.value)) tool.value = "turn";
    const made = new Viewer(canvas.current!);
    viewer.current = made;
    const paper = () =>
      made.paper(getComputedStyle(document.documentElement).getPropertyValue("--scene").trim());
    paper();
    const dark = matchMedia("(prefers-color-scheme: dark)");
    dark.addEventListener("change", paper);
    eyeToward.value = () => made.eye.toward();
    made.onLabels = (placed) => (labels.value = placed);
    Object.assign(window, { claspwrightViewer: made }); // a place for the browser tests to ask
    const end = steer(canvas.current!, made, {
      hover: (x, y) => (under.value = made.pick(x, y)),
      tap: (x, y) => void tapped(made.pick(x, y, tool.value === "section" ? groundOf(now.current) : undefined)),
      grab: (x, y, reach) => {
        const point = nearestPoint(made, now.current, x, y, reach);
        held.current = point;
        return point && made.project(point.at);
      },
      leave: () => {
        held.current = null;
        pulled.value = null;
        made.setLabels(allLabels(now.current));
      },
      drag: (x, y) => {
        const hit = made.pick(x, y, "model");
        under.value = hit;
        if (hit && held.current) carry(held.current.id, hit);
      },
      drop: (x, y) => {
        const hit = made.pick(x, y, "model");
        const point = held.current;
        held.current = null;
        if (hit && point) letGo(point, hit);
      },
      next: (step) => {
        const points = pointsOf(now.current);
        if (!points.length) return;
        const n = points.findIndex((one) => one.id === held.current?.id);
        const next = points[(n + step + points.length + (n < 0 && step < 0 ? 1 : 0)) % points.length]!;
        held.current = { tooth: next.tooth, id: next.id };
        keyed.current = made.project(next.at);
        under.value = made.pick(keyed.current.x, keyed.current.y, "model");
        made.setLabels(allLabels(now.current, { id: next.id, at: next.at }));
      },
      nudge: (dx, dy) => {
        if (!held.current || !keyed.current) return false;
        const to = { x: keyed.current.x + dx, y: keyed.current.y + dy };
        const hit = made.pick(to.x, to.y, "model");
        if (!hit) return false;
        keyed.current = to;
        under.value = hit;
        carry(held.current.id, hit);
        return true;
      },
      letGo: () => {
        const [point, at] = [held.current, keyed.current];
        if (!point || !at) return false;
        held.current = keyed.current = null;
        const hit = made.pick(at.x, at.y, "model");
        if (hit) letGo(point, hit);
        return true;
      },
    });
    const carry = (id: string, hit: Hit) => {
      made.setLabels(allLabels(now.current, { id, at: hit.at }));
      if (tool.value === "border") void pullHandle(id, hit.at);
    };
    const letGo = (point: { tooth: number; id: string }, hit: Hit) => {
      const put = {
        mark: () => dropMark(now.current, point.tooth, hit),
        border: () => dropHandle(point.id, hit.at),
      }[tool.value as "mark" | "border"] ?? (() => dropTip(point.tooth, hit));
      void put().then((done) => {
        if (!done || tool.value === "border") made.setLabels(allLabels(now.current));
      });
    };
    const tapped = async (hit: Hit | null) => {
      if (!hit) return;
      if (tool.value === "measure") {
        void measureHere(bodyOf(now.current, hit.part), hit.at);
        if (hit.part !== groundOf(now.current)) {
          made.setLabels([...allLabels(now.current), { key: "a", at: hit.at, text: "·", kind: "flag" }]);
          return;
        }
        if (!first.current) {
          first.current = hit.at;
          made.setLabels([...allLabels(now.current), { key: "a", at: hit.at, text: "1", kind: "flag" }]);
        } else {
          const found = await measure(first.current, hit.at);
          made.lines("way", found ? [found] : [], 0xb03060);
          first.current = null;
        }
      } else if (tool.value === "section") {
        made.lines("cut", await cutAcross(now.current, hit.at), 0xb03060);
      } else if (hit.tooth) tooth.value = tooth.value === hit.tooth ? null : hit.tooth;
    };
    return () => {
      dark.removeEventListener("change", paper);
      end();
      eyeToward.value = null;
      made.dispose();
    };
  }, []);

  useEffect(() => {
    const made = viewer.current!;
    let late = false;
    loading.value = true;
    const load = async () => {
      shown.value = Object.fromEntries(view.parts.map((p) => [p.key, p.shown]));
      const order = groundFirst(view, view.parts.filter((part) => part.shown));
      made.keep(view.parts.map((part) => part.key).filter((key) => shown.value[key]));
      const there = await Promise.all(order.map((part) => loadMesh(place.value, part, stamp)));
      if (late) return;
      const pickable = order.map((part, n) => made.add(part, there[n]!));
      seeThrough(made, view);
      const look = view.looks[0];
      if (look) made.eye.look(look.toward, look.up);
      made.whole();
      await pickable[0];
      if (!late) loading.value = false;
    };
    load().catch(tellFailure);
    made.lines("survey", view.tracks.map((track) => track.points), 0x20242c);
    made.setLabels(allLabels(view));
    return () => {
      late = true;
    };
  }, [view, stamp]);

  // What a change would look like: its pieces at once, then the whole framework with it.
  useEffect(() => {
    if (!tools.includes("tip")) return;
    const shown_ = new Set<string>();
    const own = view.parts.find((part) => part.key === "framework");
    return effect(() => {
      const change = live.value;
      const made = viewer.current!;
      const put = async (part: ViewPart, at: string, opacity: number) => {
        const raw = await loadMesh(place.value, part, at);
        if (live.value !== change) return;
        made.remove("preview");
        shown_.add(part.key);
        void made.add({ ...part, shown: part.key === "preview" || (shown.value["framework"] ?? true) }, raw, opacity);
        made.setLabels(allLabels(now.current));
        canvas.current?.setAttribute("data-live", change ? change.part.key : "");
      };
      const failed = (error: unknown) => void (live.value === change && tellFailure(error)); // unless it is over
      made.lines("fresh", change?.borders ?? [], 0xb03060);
      if (change) {
        const from = `/api/cases/${encodeURIComponent(place.value)}/live`;
        put({ ...change.part, from }, change.stamp, change.part.key === "preview" ? 0.8 : 1).catch(failed);
      } else if (shown_.size && own) {
        made.remove("preview");
        shown_.clear();
        put(own, stamp, 1).catch(failed);
      }
    });
  }, [view, stamp]);
  useEffect(
    () =>
      effect(() => {
        const made = viewer.current;
        for (const [key, on] of Object.entries(shown.value)) {
          if (made?.has(key)) made.show(key, on);
          else if (on && !loading.peek()) fetchPart(key).catch(tellFailure);
        }
        if (made) seeThrough(made, view);
      }),
    [view, stamp],
  );
  // A part that is hidden at first is fetched when it is asked for.
  const fetchPart = async (key: string) => {
    const part = view.parts.find((one) => one.key === key);
    if (!part) return;
    const loaded = await loadMesh(place.value, part, stamp);
    if (now.current === view && !viewer.current?.has(key)) void viewer.current?.add({ ...part, shown: shown.value[key] ?? true }, loaded);
    if (viewer.current) seeThrough(viewer.current, view);
  };
  useEffect(
    () =>
      effect(() => {
        const to = goTo.value;
        const made = viewer.current;
        if (!to || !made) return;
        made.eye.go(to.at, Math.min(made.eye.mmHigh, 28));
        made.setLabels([...allLabels(view), { key: "here", at: to.at, text: "", kind: "ring" }]);
      }),
    [view],
  );
  useEffect(
    () =>
      effect(() => {
        if (tool.value === "border" && handles.value === null) void loadHandles();
        const borders = tool.value === "border" ? (view.base_borders ?? []) : [];
        viewer.current?.lines("bases", borders.flatMap((one) => [one.buccal, one.lingual]), 0xb03060);
        if (tool.value) viewer.current?.setLabels(allLabels(view));
      }),
    [view],
  );
  const revision = page.value?.revisions.at;
  useEffect(() => {
    handles.value = null;
  }, [view, stamp, revision]);
  useEffect(
    () => effect(() => viewer.current?.lines("pulled", pulled.value ? [pulled.value.line_arch_mm as Point3[]] : [], 0xb03060)),
    [],
  );
  useEffect(
    () =>
      effect(() => {
        const one = view.teeth.find((tooth_) => tooth_.code === tooth.value);
        viewer.current?.lines("chosen", one ? [one.margin] : [], 0xb03060, true);
      }),
    [view],
  );

  const clear = () => {
    way.value = null;
    spot.value = null;
    pulled.value = null;
    cuts.value = [];
    plane.value = null;
    first.current = null;
    viewer.current?.lines("way", [], 0);
    viewer.current?.lines("cut", [], 0);
    viewer.current?.setLabels(allLabels(view));
  };
  return (
    <section class="model" aria-labelledby="model">
      <h2 id="model" class="unseen">{t("model")}</h2>
      <div class="frame">
        <canvas ref={canvas} tabIndex={0} data-tool={tool.value} aria-describedby="how">
          {t("model")}
        </canvas>
        <div class="over" aria-hidden="true">
          {labels.value.map(({ label, x, y, shown: seen }) => (
            <span
              key={label.key}
              class={`${label.kind}${seen ? "" : " behind"}`}
              data-key={label.key}
              style={{ left: `${x}px`, top: `${y}px` }}
            >
              {numbersIn(label.text, language.value)}
            </span>
          ))}
        </div>
        <SectionDrawing />
        {(loading.value || (tool.value === "border" && handles.value === null)) && <p class="waiting" role="status">…</p>}
      </div>
      <ToolBar view={view} tools={tools} look={(l) => (viewer.current?.eye.look(l.toward, l.up), viewer.current?.whole())} clear={clear} />
      <Reading hit={under.value} view={view} />
      {view.parts
        .filter((p) => p.with_values && (shown.value[p.key] ?? p.shown))
        .map((p) => (
          <Legend key={p.key} part={p} />
        ))}
      <p id="how" class="small">{how(tool.value)}</p>
    </section>
  );
}

function Reading({ hit, view }: { hit: Hit | null; view: View }) {
  const part = view.parts.find((p) => p.key === hit?.part);
  const say = (v: number | null | undefined, unit: string) => figure(v, unit, language.value);
  const shownAs = (v: number | string, unit: string) => (typeof v === "number" ? say(v, unit) : v);
  return (
    <p class="reading" role="status">
      {hit?.tooth ? <b>{hit.tooth}</b> : null}
      {hit && hit.reading !== null && (
        <span>
          {part?.key === "model" ? t("undercut") : said(part?.values_name ?? "")}{" "}
          <b data-reading={hit.reading}>
            {say((part?.low ?? 0) < 0 ? hit.reading : Math.max(hit.reading, 0), part?.values_unit ?? "mm")}
          </b>
        </span>
      )}
      {way.value && (
        <span>
          {t("straight")} <b>{say(way.value.straight_mm, "mm")}</b>, {t("over")}{" "}
          <b>{say(way.value.surface_mm, "mm")}</b>
        </span>
      )}
      {spot.value && spot.value.thickness_mm !== null && (
        <span data-thickness={spot.value.thickness_mm}>
          {t("thickness")} <b>{spot.value.or_more && "≥ "}{say(spot.value.thickness_mm, "mm")}</b>
        </span>
      )}
      {spot.value && spot.value.clearance_mm !== null && (
        <span>{t("clearance")} <b>{say(spot.value.clearance_mm, "mm")}</b></span>
      )}
      {pulled.value && (
        <span data-pulled={pulled.value.after}>
          {said(pulled.value.words)} {shownAs(pulled.value.before, pulled.value.unit)} →{" "}
          <b>{shownAs(pulled.value.after, pulled.value.unit)}</b>
          {pulled.value.limit !== null && (
            <> · {t("limit")} {say(pulled.value.limit, pulled.value.unit)} {pulled.value.severity && <b class={pulled.value.severity}>{said(pulled.value.severity)}</b>}</>
          )}
        </span>
      )}
      {cuts.value.filter((c) => c.area_mm2 !== null).map((c) => (
        <span key={c.part}>
          {said(c.part.replace("_", " "))}: {t("area")} <b>{say(c.area_mm2, "mm2")}</b>
        </span>
      ))}
    </p>
  );
}

function allLabels(view: View, moved?: { id: string; at: Point3 }): Label[] {
  const codes = view.teeth.map(
    (one): Label => ({ key: String(one.code), at: one.mark, text: String(one.code), kind: "code" }),
  );
  const rings = pointsOf(view).map((one): Label => ({
    key: `tip.${one.id}`,
    at: moved?.id === one.id ? moved.at : one.at,
    text: "",
    kind: "ring",
  }));
  const flags = (view.labels ?? []).map((one, n): Label => ({ ...one, key: `label.${n}` }));
  if (flags.length) return flags;
  return tool.value === "mark" ? rings : [...codes, ...rings];
}

/** Parts that lie one over the other let each other be seen; one alone is opaque. */
function seeThrough(viewer: Viewer, view: View): void {
  const some = view.parts.filter((part) => part.through !== undefined && shown.value[part.key]);
  for (const part of some) viewer.fade(part.key, some.length > 1 ? part.through! : 1);
}

/** The part of the case that a part of a later stage colours anew. */
function bodyOf(view: View, key: string): string {
  if (key === "stress") return "framework";
  return view.parts.find((part) => part.key === key)?.from ? "model" : key;
}

function nearestPoint(viewer: Viewer, view: View, x: number, y: number, reach: number): { tooth: number; id: string; at: Point3 } | null {
  let best: { tooth: number; id: string; at: Point3 } | null = null;
  let least = reach;
  for (const one of pointsOf(view)) {
    if (!viewer.sees({ at: one.at, kind: "ring" })) continue;
    const p = viewer.project(one.at);
    const far = Math.hypot(p.x - x, p.y - y);
    if (far < least) {
      least = far;
      best = one;
    }
  }
  return best;
}

/** The points that the chosen tool moves. */
function pointsOf(view: View): { tooth: number; id: string; at: Point3 }[] {
  if (tool.value === "mark")
    return view.teeth.map((one) => ({ tooth: one.code, id: `mark.${one.code}`, at: one.mark }));
  if (tool.value === "border")
    return (handles.value ?? []).map((one) => ({ tooth: one.tooth ?? 0, id: one.id, at: one.at_arch_mm as Point3 }));
  if (tool.value !== "tip") return [];
  return tipsOf(view).map((c) => ({ tooth: c.tooth!, id: c.id, at: c.line[c.line.length - 1]! }));
}

/** The retentive arms of a tooth, whose tips can be dragged. */
function tipsOf(view: View): View["components"] {
  const moved = live.value?.components ?? [];
  return view.components
    .map((c) => moved.find((one) => one.id === c.id) ?? c)
    .filter((c) => c.kind === "retentive arm" && c.tooth !== null);
}

function how(now: Tool): string {
  return { turn: t("turnHow"), measure: t("measureHow"), section: t("sectionHow"), tip: t("dragTip"), mark: t("dragMark"), border: t("dragBorder") }[now];
}
