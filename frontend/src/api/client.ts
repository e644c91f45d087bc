import createClient from "openapi-fetch";
import type { components, paths } from "./schema";

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

/** Ask the server; where it does not answer, say so as any other trouble. */
export async function asked(request: Request): Promise<Response> {
  try {
    if (secret && request.method !== "GET") request.headers.set("X-Claspwright-Session", secret);
    const answer = await fetch(request);
    if (answer.status === 401 && secret) signedOut();
    return answer;
  } catch {
    return Response.json({ what: "The bench does not answer", place: "", remedy: "" }, { status: 503 });
  }
}

export const api = createClient<paths>({ baseUrl: "/", fetch: asked });

/** The words of an error that the server sent, for a person. */
export function troubleWords(error: unknown): string {
  const t = error as Partial<Trouble> | undefined;
  if (!t || typeof t.what !== "string") return "The bench does not answer.";
  return [t.place ? `${t.place}: ${t.what}` : t.what, t.remedy].filter(Boolean).join(". ");
}
