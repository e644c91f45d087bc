import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { components } from "../api/schema";
import { day, figure } from "../lib/format";
import { CaseHead } from "../parts/CaseHead";
import { by, EntryForm, EntryRows, Signer, today, type Said } from "../parts/Entry";
import { JobBar } from "../parts/JobBar";
import { said } from "../parts/Said";
import { language, stages, t, trouble } from "../state/bench";
import { Approval } from "./Approval";

export type Clinic = components["schemas"]["ClinicPage"];
const HOW = ["ground", "relieved", "bent", "nothing"] as const;
const WORK = ["remake", "repair", "reline"] as const;
type Row = Record<string, unknown>;

/** What passes between laboratory and clinic, in the order it does. */
export function ClinicPage({ name }: { name: string }) {
  const held = useSignal<Clinic | null>(null);
  const at = { params: { path: { name } } };
  const load = async () => {
    const { data, error } = await api.GET("/api/cases/{name}/clinic", at);
    if (data) held.value = data;
    else trouble.value = troubleWords(error);
  };
  useEffect(() => void load(), [name, stages.value]);
  const enter = async () => {
    const { error } = await api.POST("/api/cases/{name}/register", { ...at, body: by() });
    if (error) trouble.value = troubleWords(error);
    await load();
  };
  const now = held.value;
  const of = (kind: string) => (now?.entries[kind] ?? []) as Row[];
  const say = (v: unknown, unit: string) => figure(v as number, unit, language.value);
  const date = (v: unknown) => day(v as string, language.value);
  return (
    <main class="case one">
      <CaseHead name={name}>
        <JobBar name={name}><Signer /></JobBar>
      </CaseHead>
      {now && !now.entered && (
        <div class="ticket">
          <p>
            {t("notEntered")} <button class="first" onClick={() => void enter()}>{t("enterCase")}</button>
          </p>
        </div>
      )}
      {now?.entered && (
        <div class="ticket">
          {now.fields["parent_case"] ? (
            <p>{t("parentCase")} {String(now.fields["parent_case"])}: {String(now.fields["reason"] ?? "")}</p>
          ) : null}
          <Approval name={name} now={now} done={load} />
          <section aria-labelledby="altered">
            <h2 id="altered">{t("altered")}</h2>
            {now.altered_cast_unsaid && <p class="look"><span class="sign">◆</span> {t("alteredUnsaid")}</p>}
            <EntryRows
              rows={of("altered_cast")}
              shows={(row) => [row["needed"] ? t("needed") : t("notNeeded"), row["done"] ? `${t("doneOn")} ${date(row["done"])}` : ""]}
            />
            <EntryForm
              label={t("enter")}
              done={load}
              send={(said) =>
                api.POST("/api/cases/{name}/clinic/altered-cast", {
                  ...at,
                  body: { needed: said.text("needed") === "yes", done: said.text("done") || null, ...by() },
                })
              }
            >
              <select name="needed" aria-label={t("altered")}>
                <option value="yes">{t("needed")}</option>
                <option value="no">{t("notNeeded")}</option>
              </select>
              <label class="number">{t("doneOn")} <input type="date" name="done" /></label>
            </EntryForm>
          </section>
          <TryIns name={name} now={now} done={load} />
          <Films name={name} now={now} done={load} />
          <section aria-labelledby="jaw">
            <h2 id="jaw">{t("jawRecord")}</h2>
            <EntryRows
              rows={of("jaw_record")}
              shows={(row) => [date(row["made"]), row["wax_rims"] ? t("waxRims") : "", say(row["vertical_mm"], "mm"), String(row["text"] ?? "")]}
            />
            <EntryForm
              label={t("enter")}
              done={load}
              send={(said) =>
                api.POST("/api/cases/{name}/clinic/jaw-records", {
                  ...at,
                  body: {
                    made: said.text("made"), part: said.text("part"), wax_rims: said.tick("wax_rims"),
                    vertical_mm: said.number("vertical_mm"), text: said.text("text"), ...by(),
                  },
                })
              }
            >
              <label class="number">{t("on")} <input type="date" name="made" required defaultValue={today()} /></label>
              <Parts now={now} optional />
              <label class="tick"><input type="checkbox" name="wax_rims" defaultChecked /> {t("waxRims")}</label>
              <label class="number">{t("vertical")} <input type="number" name="vertical_mm" step="0.5" min="1" max="200" /> mm</label>
              <Remark />
            </EntryForm>
          </section>
          <section aria-labelledby="teeth">
            <h2 id="teeth">{t("teethCard")}</h2>
            <EntryForm
              label={t("enter")}
              done={load}
              send={(said) =>
                api.POST("/api/cases/{name}/clinic/teeth", {
                  ...at,
                  body: {
                    teeth: said.text("teeth"), tooth_mould: said.text("tooth_mould"),
                    shade: said.text("shade"), gum_shade: said.text("gum_shade"), ...by(),
                  },
                })
              }
            >
              {([["teeth", t("toSet"), now.teeth.join(", ")], ["tooth_mould", t("mould"), ""], ["shade", t("shade"), ""], ["gum_shade", t("gumShade"), ""]] as const).map(
                ([key, words, usual]) => (
                  <label key={`${key}${String(now.fields[key] ?? "")}`} class="number">
                    {words} <input name={key} maxLength={200} defaultValue={String(now.fields[key] ?? usual)} />
                  </label>
                ),
              )}
            </EntryForm>
          </section>
          <section aria-labelledby="delivery">
            <h2 id="delivery">{t("delivery")}</h2>
            <EntryRows
              rows={of("delivery")}
              shows={(row) => [date(row["delivered"]), row["fits"] ? t("fits") : <span class="look">◆ {t("fitsNot")}</span>, say(row["minutes"], "min"), String(row["text"] ?? "")]}
            />
            <EntryForm
              label={t("enter")}
              done={load}
              send={(said) =>
                api.POST("/api/cases/{name}/clinic/deliveries", {
                  ...at,
                  body: { delivered: said.text("delivered"), fits: said.tick("fits"), minutes: said.number("minutes"), text: said.text("text"), ...by() },
                })
              }
            >
              <label class="number">{t("on")} <input type="date" name="delivered" required defaultValue={today()} /></label>
              <label class="tick"><input type="checkbox" name="fits" defaultChecked /> {t("fits")}</label>
              <Minutes />
              <Remark />
            </EntryForm>
          </section>
          <section aria-labelledby="recall">
            <h2 id="recall">{t("followUp")}</h2>
            <EntryRows
              rows={of("follow_up")}
              shows={(row) => [
                date(row["seen"]),
                [
                  row["worn"] ? t("worn") : t("notWorn"),
                  row["retains"] === false ? t("loose") : t("retains"),
                  ...(["sore", "fracture", "relined"] as const).filter((key) => row[key]).map((key) => t(key)),
                ].join(", "),
                String(row["text"] ?? ""),
              ]}
            />
            <EntryForm label={t("enter")} done={load} send={(said) => followUp(name, said)}>
              <label class="number">{t("on")} <input type="date" name="seen" required defaultValue={today()} /></label>
              {([["worn", true], ["retains", true], ["sore", false], ["fracture", false], ["relined", false]] as const).map(([key, usual]) => (
                <label key={key} class="tick"><input type="checkbox" name={key} defaultChecked={usual} /> {t(key)}</label>
              ))}
              <Remark />
            </EntryForm>
          </section>
          <section aria-labelledby="back">
            <h2 id="back">{t("back_")}</h2>
            <p class="small">{t("backHow")}</p>
            <EntryRows
              rows={of("case")}
              shows={(row) => [`${t("children")} ${String(row["id"])}`, WORK.includes(row["work"] as "remake") ? t(row["work"] as "remake") : "", String(row["reason"] ?? "")]}
            />
            <EntryForm
              label={t("takeIn")}
              done={load}
              send={(said) =>
                api.POST("/api/cases/{name}/clinic/back", {
                  ...at,
                  body: { id: said.text("id"), work: said.text("work") as "remake", reason: said.text("reason"), ...by() },
                })
              }
            >
              <select name="work" aria-label={t("kind")}>
                {WORK.map((one) => <option key={one} value={one}>{t(one)}</option>)}
              </select>
              <label class="number">{t("newId")} <input name="id" required maxLength={120} /></label>
              <label class="number">{t("cause")} <input name="reason" required maxLength={400} /></label>
            </EntryForm>
          </section>
          <p class="small caution">{t("caution")}</p>
        </div>
      )}
    </main>
  );
}

function followUp(name: string, said: Said) {
  return api.POST("/api/cases/{name}/clinic/follow-ups", {
    params: { path: { name } },
    body: {
      seen: said.text("seen"), worn: said.tick("worn"), retains: said.tick("retains"), sore: said.tick("sore"),
      fracture: said.tick("fracture"), relined: said.tick("relined"), text: said.text("text"), ...by(),
    },
  });
}

interface CardProps {
  name: string;
  now: Clinic;
  done: () => Promise<void>;
}

/** Where metal was taken away and how much. */
function TryIns({ name, now, done }: CardProps) {
  const rows = (now.entries["adjustment"] ?? []) as Row[];
  const say = (v: unknown, unit: string) => figure(v as number, unit, language.value);
  const sum = rows.reduce((all, row) => all + Number(row["amount_um"]), 0);
  return (
    <section aria-labelledby="tryin">
      <h2 id="tryin">{t("tryIn")}</h2>
      <p class="small">{t("tryInHow")}</p>
      <EntryRows
        rows={rows}
        shows={(row) => [
          String(row["place"]),
          say(row["amount_um"], "um"),
          HOW.includes(row["how"] as "bent") ? t(row["how"] as "bent") : "",
          row["seated"] === false ? <span class="look">◆ {t("doesNotSeat")}</span> : t("seatsNow"),
          say(row["minutes"], "min"),
          String(row["text"] ?? ""),
        ]}
      />
      {rows.length > 1 && <p class="small">{t("total")} {say(sum, "um")}</p>}
      {!now.parts.length && <p class="hint">{t("noParts")}</p>}
      <EntryForm
        label={t("enter")}
        done={done}
        disabled={!now.parts.length}
        send={(said) =>
          api.POST("/api/cases/{name}/clinic/try-ins", {
            params: { path: { name } },
            body: {
              part: said.text("part"), place: said.text("place"), amount_um: said.number("amount_um") ?? 0,
              how: said.text("how") as "ground", seated: said.tick("seated"), minutes: said.number("minutes"),
              text: said.text("text"), ...by(),
            },
          })
        }
      >
        <Parts now={now} />
        <label class="number">{t("where")} <input name="place" required list="places" maxLength={120} /></label>
        <datalist id="places">{now.places.map((one) => <option key={one} value={one} />)}</datalist>
        <label class="number">{t("takenAway")} <input type="number" name="amount_um" min="0" max="5000" step="5" required /> µm</label>
        <select name="how" aria-label={t("how")}>
          {HOW.map((one) => <option key={one} value={one}>{t(one)}</option>)}
        </select>
        <label class="tick"><input type="checkbox" name="seated" defaultChecked /> {t("seatsNow")}</label>
        <Minutes />
        <Remark />
      </EntryForm>
    </section>
  );
}

/** Silicone film under each rest against the computed seating, and figures through the inspections. */
function Films({ name, now, done }: CardProps) {
  const rests = now.places.filter((one) => one.startsWith("rest."));
  const say = (v: unknown, unit: string) => figure(v as number, unit, language.value);
  const changes = Object.entries(now.changes);
  return (
    <section aria-labelledby="film">
      <h2 id="film">{t("film")}</h2>
      <p class="small">{t("filmHow")}</p>
      {Object.entries(now.film_off_um).map(([part, areas]) => (
        <EntryRows key={part} rows={Object.entries(areas).map(([area, off]) => ({ area, off }))} shows={(row) => [String(row["area"]), `${t("filmOff")} ${say(row["off"], "um")}`]} />
      ))}
      <EntryForm
        label={t("enter")}
        done={done}
        disabled={!now.parts.length || !rests.length}
        send={(said) => {
          const gaps = rests.map((one) => [one, said.number(one)] as const).filter(([, um]) => um !== null);
          return api.POST("/api/cases/{name}/clinic/films", {
            params: { path: { name } },
            body: { part: said.text("part"), gaps_um: Object.fromEntries(gaps) as Record<string, number>, ...by() },
          });
        }}
      >
        <Parts now={now} />
        {rests.map((one) => (
          <label key={one} class="number">{one} <input type="number" name={one} min="0" max="5000" step="1" /> µm</label>
        ))}
      </EntryForm>
      {changes.length > 0 && (
        <details>
          <summary>{t("throughInspections")}</summary>
          {changes.map(([part, rows]) => (
            <EntryRows
              key={part}
              rows={rows as Row[]}
              shows={(row) => [
                `${said(String(row["what"]))} ${said(String(row["name"]).replace(/_um$/, "").replaceAll("_", " "))}`,
                (row["values"] as number[]).map((v) => say(v, "um")).join(" → "),
              ]}
            />
          ))}
        </details>
      )}
    </section>
  );
}

function Parts({ now, optional = false }: { now: Clinic; optional?: boolean }) {
  return (
    <select name="part" aria-label={t("framework")}>
      {optional && <option value="">{t("framework")}: {t("none")}</option>}
      {now.parts.map((one) => <option key={one} value={one}>{one}</option>)}
    </select>
  );
}

function Minutes() {
  return <label class="number"><input type="number" name="minutes" min="0" max="600" step="1" /> {t("minutes")}</label>;
}

function Remark() {
  return <label class="number">{t("remark")} <input name="text" maxLength={400} /></label>;
}
