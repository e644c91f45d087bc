import type { Viewer } from "./viewer";

export interface Steering {
  /** The pointer lies on the canvas, nothing is pressed. */
  hover(x: number, y: number): void;
  /** Pressed and let go without moving. */
  tap(x: number, y: number): void;
  /** Pressed; where the point lies that is taken within a reach, or null: the drag is for the eye. */
  grab(x: number, y: number, reach: number): { x: number; y: number } | null;
  drag(x: number, y: number): void;
  drop(x: number, y: number): void;
  /** What was taken is put back where it was. */
  leave(): void;
  /** Take the next point that can be moved, or the one before. */
  next(step: number): void;
  /** Move the point that was taken, in pixels; false where none is. */
  nudge(dx: number, dy: number): boolean;
  /** Let the point go where it is; false where none is. */
  letGo(): boolean;
}

/** How near a point must be pressed to be taken, and how far a press may slip and stay a tap [px]. */
const REACH: Record<string, number> = { touch: 30, pen: 22 };
const SLIP: Record<string, number> = { touch: 10, pen: 7 };

/** Mouse, touch, pen and keys move the eye; what is not for the eye goes to `to`. */
export function steer(canvas: HTMLCanvasElement, viewer: Viewer, to: Steering): () => void {
  const down = new Map<number, { x: number; y: number }>();
  let held = false;
  let off = { x: 0, y: 0 }; // from the finger to the point that it took, so that it stays to be seen
  let slip = 4;
  let moved = 0;
  let still = true;
  const at = (e: PointerEvent) => {
    const box = canvas.getBoundingClientRect();
    return { x: e.clientX - box.left, y: e.clientY - box.top };
  };

  const press = (e: PointerEvent) => {
    canvas.setPointerCapture(e.pointerId);
    const p = at(e);
    down.set(e.pointerId, p);
    if (down.size > 1) {
      still = false;
      if (held) to.leave();
      held = false;
    } else {
      moved = 0;
      slip = SLIP[e.pointerType] ?? 4;
      still = e.button === 0;
      const point = e.button === 0 ? to.grab(p.x, p.y, REACH[e.pointerType] ?? 18) : null;
      held = point !== null;
      off = point && e.pointerType === "touch" ? { x: point.x - p.x, y: point.y - p.y } : { x: 0, y: 0 };
    }
  };
  const move = (e: PointerEvent) => {
    const p = at(e);
    const before = down.get(e.pointerId);
    if (!before) return to.hover(p.x, p.y);
    const dx = p.x - before.x;
    const dy = p.y - before.y;
    moved += Math.hypot(dx, dy);
    if (held) to.drag(p.x + off.x, p.y + off.y);
    else if (down.size === 2) pinch(e.pointerId, before, p);
    else if (moved > slip || !still) {
      const h = canvas.clientHeight;
      if (e.buttons & 2 || e.shiftKey) viewer.eye.shift(dx / h, -dy / h);
      else viewer.eye.turn(dx * 0.4, dy * 0.4);
      viewer.draw();
    }
    down.set(e.pointerId, p);
  };
  const pinch = (id: number, before: { x: number; y: number }, now: { x: number; y: number }) => {
    const other = [...down].find(([key]) => key !== id)![1];
    const was = Math.hypot(before.x - other.x, before.y - other.y);
    const is = Math.hypot(now.x - other.x, now.y - other.y);
    viewer.eye.zoom(was / Math.max(is, 1));
    viewer.eye.shift((now.x - before.x) / 2 / canvas.clientHeight, (before.y - now.y) / 2 / canvas.clientHeight);
    viewer.draw();
  };
  const release = (e: PointerEvent) => {
    const p = at(e);
    if (!down.delete(e.pointerId)) return;
    if (held && e.type === "pointercancel") to.leave();
    else if (held) to.drop(p.x + off.x, p.y + off.y);
    else if (still && moved <= slip && e.type === "pointerup") to.tap(p.x, p.y);
    held = false;
  };
  const wheel = (e: WheelEvent) => {
    e.preventDefault();
    viewer.eye.zoom(Math.exp(Math.max(-60, Math.min(60, e.deltaY)) * 0.003));
    viewer.draw();
  };
  const key = (e: KeyboardEvent) => {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[e.key];
    if (step) {
      if (e.altKey) to.nudge(step[0]! * 3, step[1]! * 3);
      else if (e.shiftKey) viewer.eye.shift(-step[0]! * 0.05, step[1]! * 0.05);
      else viewer.eye.turn(step[0]! * 6, step[1]! * 6);
    } else if (e.key === "+" || e.key === "=") viewer.eye.zoom(0.87);
    else if (e.key === "-") viewer.eye.zoom(1.15);
    else if (e.key === "0") viewer.whole();
    else if (e.key === "[" || e.key === "]") to.next(e.key === "]" ? 1 : -1);
    else if (e.key === "Enter" && to.letGo()) return e.preventDefault();
    else if (e.key === "Enter") to.tap(canvas.clientWidth / 2, canvas.clientHeight / 2);
    else return;
    e.preventDefault();
    viewer.draw();
  };
  const menu = (e: Event) => e.preventDefault();

  canvas.addEventListener("pointerdown", press);
  canvas.addEventListener("pointermove", move);
  canvas.addEventListener("pointerup", release);
  canvas.addEventListener("pointercancel", release);
  canvas.addEventListener("wheel", wheel, { passive: false });
  canvas.addEventListener("keydown", key);
  canvas.addEventListener("contextmenu", menu);
  return () => {
    canvas.removeEventListener("pointerdown", press);
    canvas.removeEventListener("pointermove", move);
    canvas.removeEventListener("pointerup", release);
    canvas.removeEventListener("pointercancel", release);
    canvas.removeEventListener("wheel", wheel);
    canvas.removeEventListener("keydown", key);
    canvas.removeEventListener("contextmenu", menu);
  };
}
