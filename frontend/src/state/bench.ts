import { signal } from "@preact/signals";
import { api, asked, keepSecret, troubleWords, type CasePageData, type CaseRow, type JobRow } from "../api/client";
import type { components } from "../api/schema";
import { errorInLanguage, inLanguage, unsaid } from "../lib/sentences";
import { LANGUAGES, type Key, type Language } from "../lib/words";

export const CASE_LEAVES = ["design", "preparation", "proof", "build", "furnace", "inspection", "clinic", "acrylic", "papers"] as const;
/** Pages of the laboratory itself, beside the list of cases. */
export const LAB_LEAVES = ["month", "quality", "feedstock", "register"] as const;
export const LEAVES = [...CASE_LEAVES, ...LAB_LEAVES] as const;
export type Leaf = (typeof LEAVES)[number];
export type LabLeaf = (typeof LAB_LEAVES)[number];

export const cases = signal<CaseRow[] | null>(null);
export const page = signal<CasePageData | null>(null);
export const jobs = signal<ReadonlyMap<string, JobRow>>(new Map());
export const trouble = signal("");
export const connected = signal(true);
/** The case that the address names, or nothing; and which of its pages. */
export const place = signal(readPlace()[0]);
export const leaf = signal<Leaf>(readPlace()[1]);
export const language = signal<Language>(firstLanguage());
export const author = signal(localStorage.getItem("author") ?? "");

Object.assign(window, { claspwrightUnsaid: unsaid, claspwrightSaid: inLanguage }); // for the browser tests

export function t(key: Key): string {
  return LANGUAGES[language.value][key];
}

export function chooseLanguage(next: Language): void {
  language.value = next;
  localStorage.setItem("language", next);
  document.documentElement.lang = next;
}

/** Something that was thrown becomes the trouble of the page. */
export function tellFailure(error: unknown): void {
  trouble.value = errorInLanguage(error instanceof Error ? error.message : String(error), language.value);
}

export function setAuthor(name: string): void {
  author.value = name;
  localStorage.setItem("author", name);
}

export type StagesData = components["schemas"]["Stages"];
export const stages = signal<StagesData | null>(null);

/** The case that the address names, or nothing for the list; and the page of it. */
function readPlace(): [string, Leaf] {
  const [name = "", page = ""] = location.hash.replace(/^#\/?/, "").split("/").map(decodeURIComponent);
  return [name, LEAVES.find((one) => one === page) ?? "design"];
}

export function addressOf(name: string, page: Leaf = "design"): string {
  return `#/${encodeURIComponent(name)}${page === "design" ? "" : `/${page}`}`;
}

function firstLanguage(): Language {
  const kept = localStorage.getItem("language") ?? navigator.language.slice(0, 2);
  return kept in LANGUAGES ? (kept as Language) : "en";
}

window.addEventListener("hashchange", () => {
  const [name, page] = readPlace();
  if (name !== place.value) stages.value = null;
  place.value = name;
  leaf.value = page;
});

export async function loadCases(): Promise<void> {
  const { data, error } = await api.GET("/api/cases");
  if (data) cases.value = data.cases;
  else trouble.value = troubleWords(error);
}

export async function loadPage(name: string): Promise<void> {
  const { data, error } = await api.GET("/api/cases/{name}", { params: { path: { name } } });
  if (data && place.value === name) page.value = data;
  else if (error) trouble.value = troubleWords(error);
}

export async function loadStages(name: string): Promise<void> {
  const { data, error } = await api.GET("/api/cases/{name}/stages", { params: { path: { name } } });
  if (data && place.value === name) stages.value = data;
  else if (error) trouble.value = troubleWords(error);
}

/** Take the answer to a request for work. */
export function takeJob(answer: { data?: JobRow; error?: unknown }): boolean {
  if (answer.data) {
    noteJob(answer.data);
    trouble.value = "";
    return true;
  }
  trouble.value = troubleWords(answer.error);
  return false;
}

/** Send a form with files; the answer is a job. */
export async function sendForm(address: string, body: FormData): Promise<boolean> {
  const answer = await asked(new Request(address, { method: "POST", body }));
  const told: unknown = await answer.json().catch(() => undefined);
  return takeJob(answer.ok ? { data: told as JobRow } : { error: told });
}

/** Take the answer to a change: the page as it now is, or the trouble. */
export function take(answer: { data?: CasePageData; error?: unknown }): boolean {
  if (answer.data) {
    page.value = answer.data;
    trouble.value = "";
    return true;
  }
  trouble.value = troubleWords(answer.error);
  return false;
}

/** Who changes the case, why, and on which revision: part of every change. */
export function by(reason: string): { author: string; reason: string; onto: number | null } {
  return { author: author.value, reason, onto: page.value?.revisions.at ?? null };
}

export async function workOut(name: string): Promise<void> {
  takeJob(
    await api.POST("/api/cases/{name}/jobs", {
      params: { path: { name } },
      body: { task: "work out" },
    }),
  );
}

export async function cancelJob(number: string): Promise<void> {
  takeJob(await api.DELETE("/api/jobs/{number}", { params: { path: { number } } }));
}

export function openJobOf(name: string): JobRow | undefined {
  return [...jobs.value.values()].find(
    (job) => job.case === name && isOpen(job),
  );
}

function isOpen(job: JobRow): boolean {
  return job.state === "waiting" || job.state === "at work";
}

/** Take a job's row; the answer to the request may come after the event that says it is over. */
function noteJob(job: JobRow): void {
  const had = jobs.value.get(job.id);
  if (had && !isOpen(had) && isOpen(job)) return;
  jobs.value = new Map(jobs.value).set(job.id, job);
}

/** Who is here; null until the server has told. */
export const here = signal<components["schemas"]["WhoIsHere"] | null>(null);

export async function askWhoIsHere(): Promise<void> {
  const { data } = await api.GET("/api/session");
  if (data) takeGuest(data);
}

export async function signIn(name: string, password: string): Promise<void> {
  const { data, error } = await api.POST("/api/session", { body: { name, password } });
  if (data) takeGuest(data);
  trouble.value = data ? "" : troubleWords(error);
}

export async function signOut(): Promise<void> {
  await api.DELETE("/api/session");
  location.reload();
}

function takeGuest(told: components["schemas"]["WhoIsHere"]): void {
  const first = !here.value || (here.value.accounts && !here.value.name);
  here.value = told;
  keepSecret(told.secret ?? "", () => location.reload());
  if (told.accounts && told.name) author.value = told.name;
  if (first && (!told.accounts || told.name) && told.role !== "dentist") listen();
}

/** What the stream of events told. */
type Told =
  | { kind: "open" | "lost" | "asking" }
  | { kind: "jobs"; jobs: JobRow[] }
  | { kind: "job"; job: JobRow };

const EVENTS = "claspwright-events";

/**
 * One stream of events for all pages of this browser, which keeps few connections to one server:
 * the page that holds the lock has it and passes on what it says; when it closes, the next takes over.
 */
function listen(): void {
  const channel = new BroadcastChannel(EVENTS);
  let holds = false;
  const tell = (told: Told) => {
    heard(told);
    channel.postMessage(told);
  };
  const hold = () => {
    holds = true;
    follow(tell);
    return new Promise<never>(() => {});
  };
  channel.addEventListener("message", (event: MessageEvent<Told>) => {
    if (event.data.kind !== "asking") heard(event.data);
    else if (holds) channel.postMessage({ kind: "jobs", jobs: [...jobs.value.values()] } satisfies Told);
  });
  if ("locks" in navigator) void navigator.locks.request(EVENTS, hold);
  else void hold();
  channel.postMessage({ kind: "asking" } satisfies Told);
}

/** Open the stream; the browser connects again by itself. */
function follow(tell: (told: Told) => void): void {
  const stream = new EventSource("/api/events");
  stream.addEventListener("open", () => tell({ kind: "open" }));
  stream.addEventListener("error", () => {
    tell({ kind: "lost" });
    if (stream.readyState === EventSource.CLOSED) setTimeout(() => (stream.close(), follow(tell)), 2000);
  });
  stream.addEventListener("jobs", (event) => {
    const told = JSON.parse((event as MessageEvent<string>).data) as { jobs: JobRow[] };
    tell({ kind: "jobs", jobs: told.jobs });
  });
  stream.addEventListener("job", (event) => {
    tell({ kind: "job", job: JSON.parse((event as MessageEvent<string>).data) as JobRow });
  });
}

function heard(told: Told): void {
  if (told.kind === "lost") connected.value = false;
  else if (told.kind === "open") {
    if (!connected.value && place.value) {
      void loadPage(place.value);
      void loadStages(place.value);
    }
    connected.value = true;
  } else if (told.kind === "jobs") jobs.value = new Map(told.jobs.map((job) => [job.id, job]));
  else if (told.kind === "job") {
    const job = told.job;
    noteJob(job);
    if (job.state === "done" || job.state === "failed") {
      if (job.error) trouble.value = errorInLanguage(job.error, language.value);
      if (place.value) {
        void loadPage(place.value);
        void loadStages(place.value);
      }
      void loadCases();
    }
  }
}
