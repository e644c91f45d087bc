import { render } from "preact";
import { CasePage } from "./pages/CasePage";
import { CasesPage } from "./pages/CasesPage";
import { MonthPage } from "./pages/MonthPage";
import { LANGUAGES, type Language } from "./lib/words";
import { chooseLanguage, connected, language, leaf, listen, place, t, trouble } from "./state/bench";
import { loadForms } from "./state/forms";
import "./styles.css";

function Page() {
  return (
    <>
      <div class="top">
        <span class="mark">Claspwright</span>
        {!connected.value && <span class="lost" role="status">{t("lost")}</span>}
        <label class="small">
          {t("language")}{" "}
          <select
            value={language.value}
            onChange={(e) => chooseLanguage(e.currentTarget.value as Language)}
          >
            {Object.keys(LANGUAGES).map((one) => (
              <option key={one} value={one}>{one}</option>
            ))}
          </select>
        </label>
      </div>
      {trouble.value && (
        <p class="trouble" role="alert">
          {trouble.value}{" "}
          <button class="link" aria-label="close" onClick={() => (trouble.value = "")}>×</button>
        </p>
      )}
      {place.value ? <CasePage /> : leaf.value === "month" ? <MonthPage /> : <CasesPage />}
    </>
  );
}

document.documentElement.lang = language.value;
listen();
void loadForms();
render(<Page />, document.getElementById("page")!);
