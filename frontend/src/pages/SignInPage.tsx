import { useSignal } from "@preact/signals";
import { signIn, t } from "../state/bench";

/** Name and password, where other machines reach the bench. */
export function SignInPage() {
  const sending = useSignal(false);
  const send = async (form: HTMLFormElement) => {
    const sent = new FormData(form);
    sending.value = true;
    await signIn(String(sent.get("name")), String(sent.get("password")));
    sending.value = false;
  };
  return (
    <main>
      <form
        class="card new"
        onSubmit={(e) => {
          e.preventDefault();
          void send(e.currentTarget);
        }}
      >
        <h1>{t("signIn")}</h1>
        <label>{t("account")} <input name="name" required maxLength={60} autocomplete="username" /></label>
        <label>
          {t("password")}
          <input name="password" type="password" required maxLength={400} autocomplete="current-password" />
        </label>
        <p><button class="first" disabled={sending.value}>{t("signIn")}</button></p>
      </form>
    </main>
  );
}
