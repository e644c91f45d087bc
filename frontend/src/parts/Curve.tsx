import { figure } from "../lib/format";
import { language } from "../state/bench";

export interface Line {
  name: string;
  x: readonly number[];
  y: readonly number[];
  dashed?: boolean;
}

const [W, H, LEFT, LOW] = [320, 150, 46, 34];

/** A plot with a few lines, told in words too for those who do not see it. */
export function Curve(props: { title: string; across: string; up: string; lines: readonly Line[] }) {
  const all = (pick: (line: Line) => readonly number[]) => props.lines.flatMap((line) => [...pick(line)]);
  const far = Math.max(...all((l) => l.x), 1e-9);
  const top = Math.max(...all((l) => l.y), 1e-9);
  const say = (v: number) => figure(v, "", language.value);
  const x = (v: number) => LEFT + (v / far) * (W - LEFT - 8);
  const y = (v: number) => H - LOW - (Math.max(v, 0) / top) * (H - LOW - 10);
  const words = props.lines.map((l) => `${l.name}: ${say(Math.max(...l.y, 0))}`).join("; ");
  return (
    <figure class="curve">
      <svg viewBox={`0 0 ${W} ${H}`} role="img" aria-label={`${props.title}. ${props.up}: ${words}`}>
        {[0, 0.5, 1].map((share) => (
          <g key={share}>
            <line class="grid" x1={LEFT} x2={W - 8} y1={y(share * top)} y2={y(share * top)} />
            <text x={LEFT - 4} y={y(share * top) + 4} text-anchor="end">{say(share * top)}</text>
            <text x={x(share * far)} y={H - LOW + 14} text-anchor={share === 1 ? "end" : "middle"}>{say(share * far)}</text>
          </g>
        ))}
        {props.lines.map((line, n) => (
          <path
            key={line.name}
            class={`line l${n}`}
            stroke-dasharray={line.dashed ? "5 4" : undefined}
            d={line.x.map((v, k) => `${k ? "L" : "M"}${x(v).toFixed(1)} ${y(line.y[k] ?? 0).toFixed(1)}`).join("")}
          />
        ))}
        <text x={W - 8} y={H - 4} text-anchor="end">{props.across}</text>
        <text x={LEFT + 4} y={9}>{props.up}</text>
      </svg>
      <figcaption class="small">
        {props.title}
        {props.lines.length > 1 &&
          props.lines.map((line, n) => (
            <span key={line.name} class={`key l${n}`}> {line.dashed ? "╌╌" : "──"} {line.name}</span>
          ))}
      </figcaption>
    </figure>
  );
}
