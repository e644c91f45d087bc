import createClient from "openapi-fetch";
import { troubleInLanguage } from "../lib/sentences";
import type { Early } from "../early";
import type { components, paths } from "./schema";
import { whole } from "./whole";

export type CaseRow = components["schemas"]["CaseRow"];
export type CasePageData = components["schemas"]["CasePage"];
export type FindingRow = components["schemas"]["FindingRow"];
export type JobRow = components["schemas"]["JobRow"];
export type RetainerWish = components["schemas"]["Retainer"];
export type ClaspWish = components["schemas"]["Clasp"];
export type ConnectorWish = components["schemas"]["MajorConnector"];
export type CutAnswer = components["schemas"]["CutAnswer"];
export type HandleRow = components["schemas"]["HandleRow"];
export type HandleAnswer = components["schemas"]["HandleAnswer"];
export type Comparison = components["schemas"]["Comparison"];
export type Trouble = components["schemas"]["Trouble"];
export type Point3 = [number, number, number];

/** The session's second secret, where there are accounts; goes with each change. */
let secret = "";
/** Called when nobody is signed in any more. */
let signedOut: () => void = () => {};

export function keepSecret(given: string, whenSignedOut: () => void): void {
  secret = given;
  signedOut = whenSignedOut;
}

const EARLY_MS = 10_000; // after which an answer that nobody took is old

/** The answer to a question that was asked before the page's script was there; null where there is none. */
async function begunEarly(request: Request): Promise<Response | null> {
  const { early, path } = { early: (window as { claspwrightEarly?: Early }).claspwrightEarly, path: new URL(request.url).pathname };
  const coming = early?.answers.get(path);
  early?.answers.delete(path);
  if (!coming || performance.now() > EARLY_MS) return null;
  const answer = await coming.then(whole).catch(() => null);
  return answer?.ok ? answer : null;
}

/** Ask the server; where it does not answer, or not to the end, say so as any other trouble. */
export async function asked(request: Request): Promise<Response> {
  try {
    const begun = request.method === "GET" ? await begunEarly(request) : null;
    if (begun) return begun;
    if (secret && request.method !== "GET") request.headers.set("X-Claspwright-Session", secret);
    const answer = await whole(await fetch(request));
    if (answer.status === 401 && secret) signedOut();
    return answer;
  } catch {
    return Response.json({ what: "The bench does not answer", place: "", remedy: "" }, { status: 503 });
  }
}

export const api = createClient<paths>({ baseUrl: "/", fetch: asked });

/** The reader's language, as the page says it. */
function spoken(): string {
  return document.documentElement.lang;
}

/** The words of an error that the server sent, for a person. */
export function troubleWords(error: unknown): string {
  const t = error as Partial<Trouble> | undefined;
  if (!t || typeof t.what !== "string") return troubleInLanguage({ what: "The bench does not answer." }, spoken());
  return troubleInLanguage({ what: t.what, place: t.place ?? "", remedy: t.remedy ?? "" }, spoken());
}
