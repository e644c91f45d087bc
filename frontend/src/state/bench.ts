import { signal } from "@preact/signals";
import { api, troubleWords, type CasePageData, type CaseRow, type JobRow } from "../api/client";
import { LANGUAGES, type Key, type Language } from "../lib/words";

export const cases = signal<CaseRow[] | null>(null);
export const page = signal<CasePageData | null>(null);
export const jobs = signal<ReadonlyMap<string, JobRow>>(new Map());
export const trouble = signal("");
export const connected = signal(true);
export const place = signal(readPlace());
export const language = signal<Language>(firstLanguage());
export const author = signal(localStorage.getItem("author") ?? "");

export function t(key: Key): string {
  return LANGUAGES[language.value][key];
}

export function chooseLanguage(next: Language): void {
  language.value = next;
  localStorage.setItem("language", next);
  document.documentElement.lang = next;
}

export function setAuthor(name: string): void {
  author.value = name;
  localStorage.setItem("author", name);
}

/** The case that the address names, or nothing for the list. */
function readPlace(): string {
  return decodeURIComponent(location.hash.replace(/^#\/?/, ""));
}

function firstLanguage(): Language {
  const kept = localStorage.getItem("language") ?? navigator.language.slice(0, 2);
  return kept in LANGUAGES ? (kept as Language) : "en";
}

window.addEventListener("hashchange", () => {
  place.value = readPlace();
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
  const { data, error } = await api.POST("/api/cases/{name}/jobs", {
    params: { path: { name } },
    body: { task: "work out" },
  });
  if (data) noteJob(data);
  else trouble.value = troubleWords(error);
}

export async function cancelJob(number: string): Promise<void> {
  const { data, error } = await api.DELETE("/api/jobs/{number}", { params: { path: { number } } });
  if (data) noteJob(data);
  else trouble.value = troubleWords(error);
}

export function openJobOf(name: string): JobRow | undefined {
  return [...jobs.value.values()].find(
    (job) => job.case === name && (job.state === "waiting" || job.state === "at work"),
  );
}

function noteJob(job: JobRow): void {
  jobs.value = new Map(jobs.value).set(job.id, job);
}

/** One stream of events for the whole page; the browser connects again by itself. */
export function listen(): void {
  const stream = new EventSource("/api/events");
  stream.addEventListener("open", () => {
    if (!connected.value && place.value) void loadPage(place.value);
    connected.value = true;
  });
  stream.addEventListener("error", () => {
    connected.value = false;
    if (stream.readyState === EventSource.CLOSED) setTimeout(() => (stream.close(), listen()), 2000);
  });
  stream.addEventListener("jobs", (event) => {
    const told = JSON.parse((event as MessageEvent<string>).data) as { jobs: JobRow[] };
    jobs.value = new Map(told.jobs.map((job) => [job.id, job]));
  });
  stream.addEventListener("job", (event) => {
    const job = JSON.parse((event as MessageEvent<string>).data) as JobRow;
    noteJob(job);
    if (job.state === "done" || job.state === "failed") {
      if (job.error) trouble.value = job.error;
      if (job.case === place.value) void loadPage(job.case);
      void loadCases();
    }
  });
}
