import { render } from "preact";
import { CasePage } from "./pages/CasePage";
import { CasesPage } from "./pages/CasesPage";
import { MonthPage } from "./pages/MonthPage";
import { PowderPage } from "./pages/PowderPage";
import { QualityPage } from "./pages/QualityPage";
import { RegisterPage } from "./pages/RegisterPage";
import { LANGUAGES, type Language } from "./lib/words";
import { askWhoIsHere, chooseLanguage, connected, here, language, leaf, place, signOut, t, trouble } from "./state/bench";
import { readyForMeshes } from "./scene/meshes";
import { SignInPage } from "./pages/SignInPage";
import "./styles.css";

function Page() {
  return (
    <>
      <header class="top">
        <span class="mark">Claspwright</span>
        {!connected.value && <span class="lost" role="status">{t("lost")}</span>}
        {here.value?.name && (
          <span class="small who">
            {here.value.name} ({t(here.value.role || "none")}){" "}
            <button class="link" onClick={() => void signOut()}>{t("signOut")}</button>
          </span>
        )}
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
      </header>
      {trouble.value && (
        <p class="trouble" role="alert">
          {trouble.value}{" "}
          <button class="link" aria-label={t("close")} onClick={() => (trouble.value = "")}>×</button>
        </p>
      )}
      {!here.value ? null : here.value.accounts && !here.value.name ? <SignInPage /> : place.value ? <CasePage /> : leaf.value === "month" ? <MonthPage /> : leaf.value === "quality" ? <QualityPage /> : leaf.value === "feedstock" ? <PowderPage /> : leaf.value === "register" ? <RegisterPage /> : <CasesPage />}
    </>
  );
}

document.documentElement.lang = language.value;
void askWhoIsHere();
render(<Page />, document.getElementById("page")!);
readyForMeshes();
