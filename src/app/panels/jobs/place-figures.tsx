import { rangedLayout, stripLayout } from '../../../report/figure/front-layout.ts';
import { frontAxes } from '../../../report/words/place-words.ts';
import type { SiteAnswer, ValleyStrip } from '../../../siting/systems/site-answer.ts';
import type { UnitSystem } from '../../../units/kind.ts';
import { writeQuantity } from '../../../units/write-quantity.ts';
import { pointTo } from '../../actions/place-actions.ts';
import { chosenSystems, pointed } from '../../state/place-store.ts';

const WIDTH = 420;
const FRONT_HEIGHT = 240;
const STRIP_HEIGHT = 170;
const DOT = 6;

/** Water against pipe: a dot a system, its range as a stroke, the best front joined. The list below says the same. */
export function FrontFigure({
  answer,
  units,
  currency,
}: {
  readonly answer: SiteAnswer;
  readonly units: UnitSystem;
  readonly currency: string;
}) {
  const { systems, outlay } = answer;
  const layout = rangedLayout(
    systems.map((s) => ({ x: outlay === 'metres' ? s.pipe : (s.cost ?? 0), ...s.delivery })),
    WIDTH,
    FRONT_HEIGHT,
  );
  const { frame } = layout;
  const axes = frontAxes(outlay, currency);
  const shown = pointed.value;
  const front = layout.points.map((p) => `${p.x.toFixed(1)} ${p.likely.toFixed(1)}`).join('L');
  return (
    <svg
      class="place-figure"
      viewBox={`0 0 ${WIDTH} ${FRONT_HEIGHT}`}
      role="img"
      aria-label={`Systems: ${axes.y} against ${axes.x}`}
    >
      {layout.yTicks.map(({ at, value }) => (
        <g key={value}>
          <path class="place-grid" d={`M${frame.left} ${at}H${frame.right}`} />
          <text x={frame.left - 5} y={at + 4} text-anchor="end">
            {writeQuantity(value, 'daily-volume', units)}
          </text>
        </g>
      ))}
      {layout.xTicks.map(({ at, value }) => (
        <text key={value} x={at} y={frame.bottom + 15} text-anchor="middle">
          {outlay === 'metres' ? writeQuantity(value, 'length', units) : value}
        </text>
      ))}
      <text x={frame.right} y={frame.bottom + 32} text-anchor="end">
        {axes.x}
      </text>
      {front === '' ? null : <path class="place-front" d={`M${front}`} />}
      {layout.points.map((p, k) => (
        // The list beside the figure is the way with the keyboard.
        <g
          key={`${p.x} ${p.likely}`}
          class={`place-dot${shown?.kind === 'system' && shown.index === k ? ' pointed' : ''}${chosenSystems.value.includes(k) ? ' chosen' : ''}`}
          onPointerEnter={() => pointTo({ kind: 'system', index: k })}
          onPointerDown={() => pointTo({ kind: 'system', index: k })}
        >
          <path d={`M${p.x} ${p.low}V${p.high}`} />
          <circle cx={p.x} cy={p.likely} r={DOT} />
          <text x={p.x + DOT + 3} y={p.likely - DOT}>
            {k + 1}
          </text>
        </g>
      ))}
    </svg>
  );
}

/** The stream below the source: fall against length, and where standpipe and drive pipe fit. */
export function StripFigure({ strip, units }: { readonly strip: ValleyStrip; readonly units: UnitSystem }) {
  const layout = stripLayout(strip, WIDTH, STRIP_HEIGHT);
  const { frame } = layout;
  return (
    <svg
      class="place-figure"
      viewBox={`0 0 ${WIDTH} ${STRIP_HEIGHT}`}
      role="img"
      aria-label="Fall below the water at the source along the stream"
    >
      {layout.bands.map((band) => (
        <rect
          key={band.x}
          class="place-band"
          x={band.x}
          y={frame.top}
          width={band.width}
          height={frame.bottom - frame.top}
        />
      ))}
      {layout.yTicks.map(({ at, value }) => (
        <g key={value}>
          <path class="place-grid" d={`M${frame.left} ${at}H${frame.right}`} />
          <text x={frame.left - 5} y={at + 4} text-anchor="end">
            {writeQuantity(value, 'height', units)}
          </text>
        </g>
      ))}
      {layout.xTicks.map(({ at, value }) => (
        <text key={value} x={at} y={frame.bottom + 15} text-anchor="middle">
          {writeQuantity(value, 'length', units)}
        </text>
      ))}
      <text x={frame.right} y={frame.bottom + 32} text-anchor="end">
        along the stream
      </text>
      <path class="place-stream" d={layout.path} />
    </svg>
  );
}
