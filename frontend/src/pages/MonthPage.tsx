import { useSignal, type Signal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { figure } from "../lib/format";
import { Said as Form } from "../parts/Entry";
import { Period } from "../parts/Period";
import { said } from "../parts/Said";
import { Figures } from "../parts/Told";
import { Wide } from "../parts/Wide";
import type { Key } from "../lib/words";
import { language, t, trouble } from "../state/bench";

type Rates = components["schemas"]["RatesPage"];
type Shares = Record<string, number>;

interface Figured {
  [key: string]: unknown;
  remakes: Record<string, number>;
  bias_by_place_um: Record<string, number>;
  cost_by_share: Shares;
  casting_by_share: Shares;
  cost_per_framework: number | null;
  casting_per_framework: number;
  currency: string;
  rates_given: boolean;
  gaps: { middle: number; lower: number; upper: number; outside: number[] } | null;
  gap_capability: { cpk: number; cpk_low: number; cpk_high: number } | null;
}

const PRICES = ["powder_per_g", "machine_per_build", "furnace_per_hour", "labour_per_framework"] as const;
const CASTING = ["alloy_g", "alloy_per_g", "materials", "labour"] as const;

/** What the laboratory made, what it took and what went wrong. */
export function MonthPage() {
  const today = new Date().toISOString().slice(0, 10);
  const first = useSignal(`${today.slice(0, 7)}-01`);
  const last = useSignal(today);
  const figures = useSignal<Figured | null>(null);
  const words = useSignal("");
  const rates = useSignal<Rates | null>(null);
  useEffect(() => {
    void api.GET("/api/rates").then(({ data, error }) => {
      if (data) rates.value = data;
      else trouble.value = troubleWords(error);
    });
  }, []);
  useEffect(() => {
    if (!first.value || !last.value) return;
    let late = false;
    void api
      .GET("/api/month", { params: { query: { first: first.value, last: last.value } } })
      .then(({ data, error }) => {
        if (late) return;
        figures.value = data ? (data.figures as unknown as Figured) : null;
        words.value = data ? "" : troubleWords(error);
      });
    return () => {
      late = true;
    };
  }, [first.value, last.value, rates.value]);
  const f = figures.value;
  const n = (key: string) => f?.[key] as number | null | undefined;
  const list = (of: Record<string, number>, unit: string) =>
    Object.entries(of).map(([key, value]) => [said(key), value, unit] as const);
  return (
    <main class="list">
      <Period title="month" first={first} last={last} trouble={words.value} />
      {f && (
        <>
          <Figures
            rows={[
              [t("cases"), n("cases"), ""],
              [t("frameworks"), n("frameworks"), ""],
              [t("sent"), n("sent"), ""],
              [t("late"), n("late"), ""],
              [t("turnaround"), n("turnaround_days"), "d"],
              [t("builds"), n("builds"), ""],
              [t("melted"), n("powder_melted_g"), "g"],
              [t("lostPowder"), n("powder_lost_g"), "g"],
              [t("furnaceHours"), n("furnace_hours"), "h"],
              [t("furnaceFailed"), n("furnace_failed"), ""],
              [t("adjustedMean"), n("adjusted_um"), "um"],
              [t("complaints"), n("complaints"), ""],
            ]}
          />
          <p>
            <a href={`/api/month/paper?first=${first.value}&last=${last.value}`} target="_blank" rel="noreferrer">
              {t("monthPaper")}
            </a>
          </p>
          <h2>{t("remakes")}</h2>
          {Object.keys(f.remakes).length ? <Figures rows={list(f.remakes, "")} /> : <p class="hint">{t("none")}</p>}
          <Costs of={f} />
        </>
      )}
      {rates.value && <Prices rates={rates as Signal<Rates>} />}
      {f && (
        <>
          <h2>{t("gap")}</h2>
          {f.gaps ? (
            <Figures
              rows={[
                [t("meanAbs"), f.gaps.middle, "um"],
                [t("controlLimits"), [f.gaps.lower, f.gaps.upper].map((v) => figure(v, "um", language.value)).join(" – "), ""],
                [t("outside"), f.gaps.outside.length, ""],
                ["Cpk", f.gap_capability?.cpk, ""],
              ]}
            />
          ) : (
            <p class="hint">{t("noQuality")}</p>
          )}
          <h2>{t("byPlace")}</h2>
          {Object.keys(f.bias_by_place_um).length ? (
            <Figures rows={list(f.bias_by_place_um, "um")} />
          ) : (
            <p class="hint">{t("noQuality")}</p>
          )}
        </>
      )}
    </main>
  );
}

/** What a good framework costs, share by share, beside lost-wax casting on the laboratory's own numbers. */
function Costs({ of }: { of: Figured }) {
  const money = (value: number | null | undefined) =>
    value === null || value === undefined
      ? "—"
      : value.toLocaleString(language.value, { minimumFractionDigits: 2, maximumFractionDigits: 2 });
  const names = [...new Set([...Object.keys(of.cost_by_share), ...Object.keys(of.casting_by_share)])];
  const cast = of.casting_per_framework || null;
  const printed = of.cost_per_framework;
  const row = (words: string, a: number | null | undefined, b: number | null | undefined, whole = false) => (
    <tr key={words} class={whole ? "sum" : undefined}>
      <th scope="row">{words}</th>
      <td class="figure">{money(a)}</td>
      <td class="figure">{money(b)}</td>
      <td class="figure">{a !== null && a !== undefined && b !== null && b !== undefined ? money(a - b) : ""}</td>
    </tr>
  );
  return (
    <section aria-labelledby="costs">
      <h2 id="costs">{t("costs")}</h2>
      {printed === null && <p class="hint">{t("noGood")}</p>}
      {(printed !== null || cast !== null) && (
        <Wide label={t("costs")}><table class="rows costs">
          <thead>
            <tr>
              <th scope="col">{t("share")}, {of.currency}</th>
              <th scope="col" class="figure">{t("printed")}</th>
              <th scope="col" class="figure">{t("cast")}</th>
              <th scope="col" class="figure">{t("difference")}</th>
            </tr>
          </thead>
          <tbody>
            {names.map((name) => row(t(`share_${name}` as Key), of.cost_by_share[name], of.casting_by_share[name]))}
            {row(t("costTogether"), printed, cast, true)}
          </tbody>
        </table></Wide>
      )}
      {cast === null && <p class="hint">{t("castNotGiven")}</p>}
      <p class={of.rates_given ? "small" : "look"}>{of.rates_given ? t("bothOwn") : `◆ ${t("examplePrices")}`}</p>
    </section>
  );
}

/** The laboratory's own prices, kept in its file. */
function Prices({ rates }: { rates: Signal<Rates> }) {
  const now = rates.value;
  const told = useSignal("");
  const keep = async (said: Form) => {
    const of = (key: string) => said.number(key) ?? 0;
    const casting = {
      alloy_g: of("alloy_g"), alloy_per_g: of("alloy_per_g"), materials: of("materials"), labour: of("labour"),
      remake_share: Math.round(of("remake_share") * 100) / 10000,
    };
    const { data, error } = await api.PUT("/api/rates", {
      body: {
        currency: said.text("currency"), powder_per_g: of("powder_per_g"), machine_per_build: of("machine_per_build"),
        furnace_per_hour: of("furnace_per_hour"), labour_per_framework: of("labour_per_framework"),
        casting_per_framework: of("casting_per_framework"),
        casting: casting.alloy_g || casting.materials || casting.labour ? casting : null,
        given: true,
      },
    });
    if (data) rates.value = data;
    told.value = data ? `● ${t("kept")}` : "";
    trouble.value = data ? "" : troubleWords(error);
  };
  const price = (key: Key, value: number | undefined, most = 1e6) => (
    <label key={key}>
      {t(key)} <input name={key} type="number" min={0} max={most} step="any" defaultValue={value ? String(value) : ""} />
    </label>
  );
  return (
    <details open={!now.given}>
      <summary>{t("prices")}</summary>
      <form
        class="new prices"
        onSubmit={(e) => {
          e.preventDefault();
          void keep(new Form(new FormData(e.currentTarget)));
        }}
      >
        <p class="small">{t("pricesHow")}</p>
        <label>{t("currency")} <input name="currency" required maxLength={8} defaultValue={now.currency} /></label>
        {PRICES.map((key) => price(key, now[key]))}
        <h3>{t("castByShares")}</h3>
        {CASTING.map((key) => price(key, now.casting?.[key]))}
        {price("remake_share", (now.casting?.remake_share ?? 0) * 100, 99)}
        {price("casting_per_framework", now.casting_per_framework)}
        <p><button>{t("keepPrices")}</button> <span class="small" role="status">{told.value}</span></p>
      </form>
    </details>
  );
}
