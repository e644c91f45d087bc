import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, type ClaspWish, type RetainerWish } from "../api/client";
import type { View } from "../api/view";
import { figure } from "../lib/format";
import { said } from "./Said";
import { by, language, page, t, take } from "../state/bench";
import { forms } from "../state/forms";

const ENDS = ["mesial", "distal"] as const;

/** What one tooth carries, in words that can be changed. */
export function RetainerCard({ name, code, view }: { name: string; code: number; view: View | null }) {
  const stands = page.value?.retainers.find((r) => r.tooth === code) ?? null;
  const draft = useSignal<RetainerWish>(stands ?? blank(code));
  useEffect(() => {
    draft.value = stands ?? blank(code);
  }, [code, page.value]);
  const wish = draft.value;
  const put = (change: Partial<RetainerWish>) => (draft.value = { ...wish, ...change });
  const room = view?.teeth.find((one) => one.code === code)?.deepest_undercut_mm;
  const keep = async () => {
    take(
      await api.PUT("/api/cases/{name}/retainers", {
        params: { path: { name } },
        body: { retainer: wish, ...by(`${code}: ${words(wish)}`) },
      }),
    );
  };
  const propose = async () =>
    take(
      await api.DELETE("/api/cases/{name}/retainers/{tooth}", {
        params: { path: { name, tooth: code } },
      }),
    );
  return (
    <section class="card" aria-label={String(code)} data-tooth={code}>
      <h3>{code}</h3>
      {room && (
        <p class="small">
          {t("room")}: {t("buccal")} {figure(room.buccal, "mm", language.value)}, {t("lingual")}{" "}
          {figure(room.lingual, "mm", language.value)}
        </p>
      )}
      <Ticks
        legend={t("rests")}
        all={forms.value.rests as NonNullable<RetainerWish["rests"]>}
        chosen={wish.rests ?? []}
        change={(rests) => put({ rests })}
      />
      <Ticks
        legend={t("plates")}
        all={ENDS}
        chosen={wish.proximal_plates ?? []}
        change={(proximal_plates) => put({ proximal_plates })}
      />
      <ClaspFields clasp={wish.clasp ?? null} change={(clasp) => put({ clasp })} />
      <label class="tick">
        <input
          type="checkbox"
          checked={wish.indirect ?? false}
          onChange={(e) => put({ indirect: e.currentTarget.checked })}
        />
        {t("indirect")}
      </label>
      <p class="row">
        <button class="first" onClick={() => void keep()}>{t("keep")}</button>
        <button onClick={() => void propose()}>{t("propose")}</button>
      </p>
    </section>
  );
}

function ClaspFields({ clasp, change }: { clasp: ClaspWish | null; change: (c: ClaspWish | null) => void }) {
  const numbers = [
    ["undercut_mm", t("undercut"), 0.05, 0.05, 1],
    ["width_mm", t("rootWidth"), 0.1, 0.8, 4],
    ["thickness_mm", t("rootThickness"), 0.05, 0.5, 3],
  ] as const;
  return (
    <fieldset>
      <legend>{t("clasp")}</legend>
      <select
        aria-label={t("clasp")}
        value={clasp?.form ?? ""}
        onChange={(e) => {
          const form = e.currentTarget.value as ClaspWish["form"] | "";
          change(form ? { ...(clasp ?? PLAIN), form } : null);
        }}
      >
        <option value="">{t("none")}</option>
        {forms.value.clasps.map((form) => (
          <option key={form} value={form}>{said(form)}</option>
        ))}
      </select>
      {clasp && (
        <>
          <select
            aria-label={t("side")}
            value={clasp.side ?? "buccal"}
            onChange={(e) => change({ ...clasp, side: e.currentTarget.value as "buccal" | "lingual" })}
          >
            <option value="buccal">{t("buccal")}</option>
            <option value="lingual">{t("lingual")}</option>
          </select>
          {numbers.map(([key, words, step, min, max]) => (
            <label key={key} class="number">
              {words}
              <input
                type="number"
                name={key}
                step={step}
                min={min}
                max={max}
                value={clasp[key]}
                onChange={(e) => change({ ...clasp, [key]: e.currentTarget.valueAsNumber })}
              />
              mm
            </label>
          ))}
          {clasp.form === "circumferential" && (
            <select
              aria-label={t("origin")}
              value={clasp.origin ?? ""}
              onChange={(e) =>
                change({ ...clasp, origin: (e.currentTarget.value || null) as "mesial" | "distal" | null })
              }
            >
              <option value="">{t("originFree")}</option>
              <option value="mesial">{t("origin")}: {t("mesial")}</option>
              <option value="distal">{t("origin")}: {t("distal")}</option>
            </select>
          )}
          {!!clasp.course?.length && (
            <p class="row">
              {t("courseSet")}: {clasp.course.length}
              <button onClick={() => change({ ...clasp, course: [] })}>{t("courseFree")}</button>
            </p>
          )}
          <label class="tick">
            <input
              type="checkbox"
              checked={clasp.reciprocal ?? true}
              onChange={(e) => change({ ...clasp, reciprocal: e.currentTarget.checked })}
            />
            {t("reciprocal")}
          </label>
        </>
      )}
    </fieldset>
  );
}

function Ticks<T extends string>(props: {
  legend: string;
  all: readonly T[];
  chosen: readonly T[];
  change: (chosen: T[]) => void;
}) {
  return (
    <fieldset>
      <legend>{props.legend}</legend>
      {props.all.map((one) => (
        <label key={one} class="tick">
          <input
            type="checkbox"
            checked={props.chosen.includes(one)}
            onChange={(e) =>
              props.change(
                e.currentTarget.checked
                  ? [...props.chosen, one]
                  : props.chosen.filter((other) => other !== one),
              )
            }
          />
          {said(one)}
        </label>
      ))}
    </fieldset>
  );
}

const PLAIN: ClaspWish = {
  form: "circumferential",
  side: "buccal",
  undercut_mm: 0.25,
  width_mm: 1.6,
  thickness_mm: 1.1,
  reciprocal: true,
  origin: null,
  course: [],
};

function blank(tooth: number): RetainerWish {
  return { tooth, rests: [], proximal_plates: [], clasp: null, indirect: false };
}

function words(wish: RetainerWish): string {
  const parts = [
    ...(wish.rests ?? []).map((r) => `${r} rest`),
    ...(wish.proximal_plates ?? []).map((p) => `${p} proximal plate`),
    wish.clasp && `${wish.clasp.side} ${wish.clasp.form}, ${wish.clasp.undercut_mm} mm`,
    wish.indirect && "indirect retainer",
  ];
  return parts.filter(Boolean).join(", ") || "nothing";
}
