import type { View } from "../api/view";
import { t } from "../state/bench";
import { said } from "./Said";
import { shown, tool, type Tool } from "../state/model";

/** Sides to look from, parts to show, and what the pointer does. */
export function ToolBar(props: {
  view: View;
  tools: readonly Tool[];
  look: (look: View["looks"][number]) => void;
  clear: () => void;
}) {
  const { tools } = props;
  return (
    <div class="tools">
      <fieldset>
        <legend>{t("look")}</legend>
        {props.view.looks.map((one) => (
          <button key={one.name} onClick={() => props.look(one)}>{said(one.name)}</button>
        ))}
      </fieldset>
      <fieldset>
        <legend>{t("show")}</legend>
        {props.view.parts.map((part) => (
          <label key={part.key} class="tick">
            <input
              type="checkbox"
              checked={shown.value[part.key] ?? part.shown}
              onChange={(e) => (shown.value = { ...shown.value, [part.key]: e.currentTarget.checked })}
            />
            {said(part.name)}
          </label>
        ))}
      </fieldset>
      {tools.length > 1 && <div class="row" role="radiogroup" aria-label={t("pointer")}>
        {tools.map((one) => (
          <button
            key={one}
            role="radio"
            aria-checked={tool.value === one}
            onClick={() => {
              tool.value = one;
              props.clear();
            }}
          >
            {t(one)}
          </button>
        ))}
        <button onClick={props.clear}>{t("reset")}</button>
      </div>}
    </div>
  );
}
