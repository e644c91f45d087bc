import type { ComponentChildren } from "preact";
import { day } from "../lib/format";
import { said } from "./Said";
import { addressOf, CASE_LEAVES, language, leaf, page, stages, t, type Leaf } from "../state/bench";

/** The head of every page of a case: its name, its pages, and what can be asked for here. */
export function CaseHead({ name, children }: { name: string; children: ComponentChildren }) {
  const line = page.value?.line;
  return (
    <header>
      <p><a href="#/">{t("back")}</a></p>
      <h1>{name}</h1>
      <p class="class">
        {line && said(line.kennedy)}
        {line?.due && `, ${t("due")} ${day(line.due, language.value)}`}
      </p>
      <nav aria-label={t("pages")}>
        {CASE_LEAVES.map((one) => (
          <a
            key={one}
            href={addressOf(name, one)}
            aria-current={leaf.value === one ? "page" : undefined}
          >
            {t(one)}
            {sign(one)}
          </a>
        ))}
      </nav>
      {children}
    </header>
  );
}

/** A sign for what lies there: done, or done and stale. */
function sign(one: Leaf) {
  const told = stages.value;
  if (!told) return null;
  const state = told.stages.find((s) => s.stage === one);
  const done = one === "build" ? told.builds.length > 0 : (state?.done ?? false);
  const stale = one === "build" ? (told.builds[0]?.stale.length ?? 0) > 0 : (state?.stale ?? false);
  if (!done) return null;
  return (
    <span class={stale ? "look" : "note"}>
      {stale ? " ◆" : " ●"}
      <span class="unseen">{stale ? t("stale") : t("done")}</span>
    </span>
  );
}
