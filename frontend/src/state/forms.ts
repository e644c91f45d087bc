import { effect, signal } from "@preact/signals";
import { api } from "../api/client";
import { here } from "./bench";
import type { components } from "../api/schema";

export type Forms = components["schemas"]["Forms"];

/** The forms that the server can make; asked for once. */
export const forms = signal<Forms>({ rests: [], clasps: [], connectors: {} });

async function loadForms(): Promise<void> {
  const { data } = await api.GET("/api/forms");
  if (data) forms.value = data;
}

effect(() => {
  if (here.value && (!here.value.accounts || here.value.name)) void loadForms();
});
