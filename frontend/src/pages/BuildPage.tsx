import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords, type Point3 } from "../api/client";
import type { components } from "../api/schema";
import { loadJson, type Platform, type View } from "../api/view";
import { figure } from "../lib/format";
import { CaseHead } from "../parts/CaseHead";
import { CouponCard } from "../parts/CouponCard";
import { JobBar } from "../parts/JobBar";
import { LayerDrawing } from "../parts/LayerDrawing";
import { Model } from "../parts/Model";
import { Said, said } from "../parts/Said";
import { Files, Figures, ToldFindings, type Told } from "../parts/Told";
import { author, cases, language, loadCases, setAuthor, stages, t, takeJob, tellFailure, trouble } from "../state/bench";

type BuildRow = components["schemas"]["BuildRow"];

interface BuildView {
  platforms: Platform[];
}

interface ToldPlatform {
  title: string;
  estimate: Record<string, number>;
  least_distance_mm: number | null;
  parts: { part: string; tag: string | null; reference_from_vertical_deg: number | null; contacts: unknown[]; orientation: Record<string, number | string> }[];
}

/** Looks at a platform; plate frame, +z up. */
const LOOKS: View["looks"] = [
  { name: "from the front, above", toward: [0.25, -0.75, 0.6], up: [0, 0, 1] },
  { name: "from above", toward: [0, 0, 1], up: [0, 1, 0] },
  { name: "from the front", toward: [0, -1, 0], up: [0, 0, 1] },
  { name: "from the right", toward: [1, 0, 0], up: [0, 0, 1] },
  { name: "from below", toward: [0, 0, -1], up: [0, 1, 0] },
];

/** Platforms with their parts, supports and layers. */
export function BuildPage({ name }: { name: string }) {
  const builds = stages.value?.builds ?? [];
  const chosen = useSignal("");
  const now = builds.find((one) => one.name === chosen.value) ?? builds[0];
  return (
    <main class="case">
      <CaseHead name={name}>
        <JobBar name={name}>
          <BuildForm name={name} first={!builds.length} />
        </JobBar>
      </CaseHead>
      {!now && (
        <div class="ticket">
          <p class="hint">{t("neverBuilt")}</p>
          <CouponCard name={name} />
        </div>
      )}
      {now && (
        <OneBuild
          key={now.name}
          name={name}
          build={now}
          choose={
            builds.length > 1 && (
              <select
                aria-label={t("build")}
                value={now.name}
                onChange={(e) => (chosen.value = e.currentTarget.value)}
              >
                {builds.map((one) => (
                  <option key={one.name} value={one.name}>{one.name}: {one.cases.join(", ")}</option>
                ))}
              </select>
            )
          }
        />
      )}
    </main>
  );
}

function BuildForm({ name, first }: { name: string; first: boolean }) {
  const forms = useSignal<components["schemas"]["BuildForms"] | null>(null);
  const machine = useSignal("round-100");
  const process = useSignal("cocr-25um");
  const orientation = useSignal(1);
  const others = useSignal<string[]>([]);
  useEffect(() => {
    void loadCases();
    void api.GET("/api/builds/forms").then(({ data }) => data && (forms.value = data));
  }, []);
  const ready = (cases.value ?? []).filter((one) => one.mass_g !== null && one.name !== name);
  const choice = (words: string, all: readonly string[], value: typeof machine) => (
    <label class="number">
      {words}
      <select value={value.value} onChange={(e) => (value.value = e.currentTarget.value)}>
        {all.map((one) => (
          <option key={one} value={one}>{one}</option>
        ))}
      </select>
    </label>
  );
  const ask = async () =>
    takeJob(
      await api.POST("/api/builds", {
        body: {
          cases: [name, ...others.value],
          machine: machine.value,
          process: process.value,
          orientation: orientation.value,
          layer_files: true,
        },
      }),
    );
  return (
    <>
      {choice(t("machine"), forms.value?.machines ?? [machine.value], machine)}
      {choice(t("process"), forms.value?.processes ?? [process.value], process)}
      <label class="number">
        {t("orientation")}
        <input
          type="number"
          min={1}
          max={20}
          value={orientation.value}
          onChange={(e) => (orientation.value = e.currentTarget.valueAsNumber || 1)}
        />
      </label>
      {ready.length > 0 && (
        <fieldset>
          <legend>{t("together")}</legend>
          {ready.map((one) => (
            <label key={one.name} class="tick">
              <input
                type="checkbox"
                checked={others.value.includes(one.name)}
                onChange={(e) =>
                  (others.value = e.currentTarget.checked
                    ? [...others.value, one.name]
                    : others.value.filter((o) => o !== one.name))
                }
              />
              {one.name}
            </label>
          ))}
        </fieldset>
      )}
      <button class={first ? "first" : ""} onClick={() => void ask()}>{t("prepareBuild")}</button>
    </>
  );
}

function OneBuild({ name, build, choose }: { name: string; build: BuildRow; choose: preact.ComponentChildren }) {
  const base = `/api/builds/${build.name}`;
  const seen = useSignal<BuildView | null>(null);
  const at = useSignal(0);
  const layer = useSignal(0);
  useEffect(() => {
    loadJson<BuildView>(`${base}/view?at=${build.view_stamp}`).then(
      (loaded) => (seen.value = loaded),
      tellFailure,
    );
  }, [base, build.view_stamp]);
  const told = build.told as unknown as {
    platforms: ToldPlatform[];
    findings: (Told & { part: string })[];
    machine: { title: string };
    process: { title: string };
  };
  const platform = seen.value?.platforms[at.value];
  const facts = told.platforms[at.value];
  const e = facts?.estimate ?? {};
  useEffect(() => {
    layer.value = Math.round((platform?.layers ?? 0) * 0.35);
  }, [platform]);
  const high = figure((layer.value + 1) * (platform?.layer_mm ?? 0), "mm", language.value);
  return (
    <>
      <div class="ticket">
        <section aria-labelledby="platform">
          <h2 id="platform">
            {build.name}{build.stale.length > 0 && <span class="look"> ◆ {t("stale")}</span>}
          </h2>
          <div class="row">
            {choose}
            {told.platforms.length > 1 && (
              <select
                aria-label={t("platform")}
                value={at.value}
                onChange={(ev) => (at.value = Number(ev.currentTarget.value))}
              >
                {told.platforms.map((one, n) => (
                  <option key={n} value={n}>{said(one.title)}</option>
                ))}
              </select>
            )}
          </div>
          <p class="small"><Said text={told.machine.title} />; <Said text={told.process.title} /></p>
          <Figures
            rows={[
              [t("time"), e["total_h"], "h"],
              [t("height"), e["height_mm"], "mm"],
              [t("layers"), e["layers"], ""],
              [t("melted"), e["powder_melted_kg"] === undefined ? null : 1000 * e["powder_melted_kg"], "g"],
              [t("leastDistance"), facts?.least_distance_mm, "mm"],
            ]}
          />
          <table class="rows">
            <thead>
              <tr>
                <th scope="col">{t("part")}</th>
                <th scope="col">{t("tag")}</th>
                <th scope="col" class="figure">{t("contacts")}</th>
                <th scope="col" class="figure">{t("pathTilt")}</th>
              </tr>
            </thead>
            <tbody>
              {facts?.parts.map((one) => (
                <tr key={one.part}>
                  <th scope="row">{one.part}</th>
                  <td>{one.tag}</td>
                  <td class="figure">{one.contacts.length}</td>
                  <td class="figure">
                    {one.reference_from_vertical_deg === null ? "" : `${Math.round(one.reference_from_vertical_deg)}°`}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </section>
        {platform && (
          <section aria-labelledby="layer">
            <h2 id="layer">{t("layer")} {layer.value + 1} / {platform.layers}</h2>
            <input
              type="range"
              class="wide"
              aria-label={t("layer")}
              aria-valuetext={`${layer.value + 1}, ${high}`}
              min={0}
              max={platform.layers - 1}
              value={layer.value}
              onInput={(ev) => (layer.value = Number(ev.currentTarget.value))}
            />
            <LayerDrawing base={`${base}/platforms/${at.value}/layers`} platform={platform} layer={layer.value} />
            <p class="small">{t("layerTop")} {high}</p>
          </section>
        )}
        <section aria-labelledby="findings">
          <h2 id="findings">{t("findings")}</h2>
          <ToldFindings findings={told.findings.map((f) => ({ ...f, component: f.part }))} />
          <Files base={`${base}/platforms/${at.value}/files`} files={Object.values(build.files)[at.value] ?? []} />
          <EnterBuild name={build.name} />
          <CouponCard name={name} />
          <p class="small caution">{t("notValidated")}</p>
        </section>
      </div>
      {platform && (
        <Model view={onPlate(platform, base)} stamp={build.view_stamp} tools={["turn"]} />
      )}
    </>
  );
}

/** Enter the build with the powder that it was loaded with. */
function EnterBuild({ name }: { name: string }) {
  const done = useSignal("");
  const send = async (form: HTMLFormElement) => {
    const words = String(new FormData(form).get("feedstock")).split(",").map((one) => one.trim()).filter(Boolean);
    const { data, error } = await api.POST("/api/builds/{build}/register", {
      params: { path: { build: name } },
      body: { by: author.value || "—", feedstock: words },
    });
    done.value = data ? data.parts.join(", ") : "";
    trouble.value = data ? "" : troubleWords(error);
  };
  return (
    <details>
      <summary>{t("enterToo")}</summary>
      <form
        class="row"
        onSubmit={(e) => {
          e.preventDefault();
          void send(e.currentTarget);
        }}
      >
        <label class="number">{t("lots")} <input name="feedstock" required /></label>
        <label class="number">
          {t("author")} <input required value={author.value} onInput={(e) => setAuthor(e.currentTarget.value)} />
        </label>
        <button>{t("enter")}</button>
        {done.value && <span role="status">● {done.value}</span>}
      </form>
    </details>
  );
}

const made = new Map<Platform, View>();

/** A platform as a view of its own; the same one for the same platform. */
function onPlate(platform: Platform, base: string): View {
  const known = made.get(platform);
  if (known) return known;
  const fresh: View = {
    arch: "mandible",
    kennedy: "",
    path_words: "",
    design_words: [],
    parts: platform.parts.map((part) => ({ ...part, from: `${base}/view` })),
    tracks: platform.lines.map((line) => ({ name: line.name, closed: false, points: line.points as Point3[] })),
    teeth: [],
    spans: [],
    components: [],
    measures: [],
    looks: LOOKS,
    scan_to_arch: null,
    plan: null,
    pictures: [],
  };
  made.clear();
  made.set(platform, fresh);
  return fresh;
}
