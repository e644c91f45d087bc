import type { ViewPart } from "../api/view";
import { figure, unitShown } from "../lib/format";
import { ramp } from "../lib/ramp";
import { said } from "./Said";
import { language } from "../state/bench";

/** The colours of the readings, with the gauges at their places. */
export function Legend({ part }: { part: ViewPart | undefined }) {
  if (!part) return null;
  const x = (v: number) => ((v - part.low) / (part.high - part.low)) * 300;
  const say = (v: number) => figure(v, "", language.value);
  const spoken = [
    `${said(part.values_name)} ${say(part.low)} … ${say(part.high)} ${unitShown(part.values_unit)}`,
    ...(part.ends ? [`− ${said(part.ends[0])}, + ${said(part.ends[1])}`] : []),
  ].join("; ");
  return (
    <svg class="legend" viewBox={`-12 -16 350 ${part.ends ? 64 : 50}`} role="img" aria-label={spoken}>
      <text x={0} y={-5}>{said(part.values_name)} [{unitShown(part.values_unit)}]</text>
      {Array.from({ length: 60 }, (_, k) => (
        <rect key={k} x={k * 5} y={2} width={5.4} height={12} fill={`rgb(${ramp(k / 59, part.low < 0).join(" ")})`} />
      ))}
      {[...new Set([part.low, ...part.levels, part.high])].map((v) => (
        <g key={v}>
          <line x1={x(v)} x2={x(v)} y1={1} y2={17} />
          <text x={x(v)} y={29} text-anchor="middle">{say(v)}</text>
        </g>
      ))}
      {part.ends?.map((words, k) => (
        <text key={words} x={k * 300} y={44} text-anchor={k ? "end" : "start"}>
          {k ? "+ " : "− "}{said(words)}
        </text>
      ))}
    </svg>
  );
}
