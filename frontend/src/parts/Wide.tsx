import type { ComponentChildren } from "preact";

/** A table that may be wider than the screen: it scrolls by itself, by keys too. */
export function Wide({ label, children }: { label: string; children: ComponentChildren }) {
  return <div class="scroll" tabIndex={0} role="group" aria-label={label}>{children}</div>;
}
