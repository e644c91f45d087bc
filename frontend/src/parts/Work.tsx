import type { ComponentChildren } from "preact";
import { openJobOf } from "../state/bench";
import { JobBar } from "./JobBar";

/** Work of no case: while one of these is done its progress stands here, else what can be asked for. */
export function Work({ tasks, children }: { tasks: readonly string[]; children: ComponentChildren }) {
  const job = openJobOf("");
  if (job && tasks.includes(job.task)) return <JobBar name="" />;
  return <fieldset class="work" disabled={!!job}>{children}</fieldset>;
}
