import { useSignal } from "@preact/signals";
import { useEffect } from "preact/hooks";
import { api, troubleWords } from "../api/client";
import type { View } from "../api/view";
import { ConeMap } from "./ConeMap";
import { Said } from "./Said";
import { by, page, t, take, trouble } from "../state/bench";
import { eyeToward } from "../state/model";

/** The path of placement in words, and the tilts to prescribe. */
export function PathCard({ name, view }: { name: string; view: View | null }) {
  const tilts = page.value?.tilts ?? null;
  const front = useSignal(0);
  const side = useSignal(0);
  useEffect(() => {
    front.value = tilts?.anterior_tilt_deg ?? 0;
    side.value = tilts?.right_lateral_tilt_deg ?? 0;
  }, [page.value]);
  const put = async (wanted: { anterior_tilt_deg: number; right_lateral_tilt_deg: number } | null) =>
    take(
      await api.PUT("/api/cases/{name}/path", {
        params: { path: { name } },
        body: {
          tilts: wanted,
          ...by(
            wanted
              ? `path ${wanted.anterior_tilt_deg}° / ${wanted.right_lateral_tilt_deg}°`
              : "path to be searched",
          ),
        },
      }),
    );
  const asSeen = async () => {
    const [x, y, z] = eyeToward.value!();
    const { data, error } = await api.GET("/api/cases/{name}/tilts", { params: { path: { name }, query: { x, y, z } } });
    trouble.value = data ? "" : troubleWords(error);
    if (!data) return;
    front.value = data.anterior_tilt_deg;
    side.value = data.right_lateral_tilt_deg;
  };
  const field = (words: string, value: typeof front) => (
    <label class="number">
      {words}
      <input
        type="number"
        step={0.5}
        min={-20}
        max={20}
        value={value.value}
        onChange={(e) => (value.value = e.currentTarget.valueAsNumber || 0)}
      />
      °
    </label>
  );
  return (
    <section>
      <h2>{t("path")}</h2>
      {view && <p><Said text={view.path_words} /></p>}
      {view?.cone && (
        <ConeMap
          cone={view.cone}
          front={front.value}
          side={side.value}
          choose={(a, b) => {
            front.value = a;
            side.value = b;
          }}
        />
      )}
      {eyeToward.value && (
        <p>
          <button onClick={() => void asSeen()}>{t("asSeen")}</button> <span class="small">{t("asSeenHow")}</span>
        </p>
      )}
      <div class="row">
        {field(t("anterior"), front)}
        {field(t("lateral"), side)}
        <button
          onClick={() =>
            void put({ anterior_tilt_deg: front.value, right_lateral_tilt_deg: side.value })
          }
        >
          {t("prescribe")}
        </button>
        {page.value?.path_is_prescribed && (
          <button onClick={() => void put(null)}>{t("search")}</button>
        )}
      </div>
    </section>
  );
}
