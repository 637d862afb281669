import { h, type VNode } from 'preact';
import type { Estimate } from '../../../evaluation/statistics/estimate.ts';
import type { FigureNode } from '../../../report/figure/figure-node.ts';
import { estimateWords } from '../../../report/words/measure-words.ts';
import type { Term } from '../../../report/words/terms.ts';
import type { QuantityKind } from '../../../units/kind.ts';
import { plan } from '../../state/store.ts';
import { TermWord } from './term-word.tsx';

export interface EstimateFigureProps {
  readonly term: Term;
  /** What it is in a few words, where these are not the usual ones. */
  readonly hint?: string;
  readonly estimate: Estimate | null;
  readonly kind: QuantityKind;
  readonly field: string;
}

/** A main number with its spread beneath it; nothing while this plan does not have it. */
export function EstimateFigure({ term, hint = term.hint, estimate, kind, field }: EstimateFigureProps) {
  if (estimate === null) return null;
  const words = estimateWords(estimate, kind, plan.value.units);
  return (
    <div class="reckoned" data-field={field} data-value={estimate.likely}>
      <dt>
        <TermWord of={term} /> <small>{hint}</small>
      </dt>
      <dd>
        <span class="likely">{words.likely}</span>
        {words.range === null ? null : <span class="range">{words.range}</span>}
      </dd>
    </div>
  );
}

/** A spread as a short bar on a common scale: ends low and high, a stroke at the likely value, a notch at the need. */
export function RangeBar({
  estimate,
  top,
  need,
  name,
}: {
  readonly estimate: Estimate;
  readonly top: number;
  readonly need: number | null;
  /** What it shows, for who cannot see it. */
  readonly name: string;
}) {
  if (top <= 0) return null;
  const place = (value: number) => (96 * Math.min(value, top)) / top;
  return (
    <svg class="range-bar" viewBox="-1 0 98 14" width="98" height="14" role="img" aria-label={name}>
      <path class="rail" d="M0 7H96" />
      <rect
        class="span"
        x={place(estimate.low)}
        y="4"
        width={Math.max(1, place(estimate.high) - place(estimate.low))}
        height="6"
      />
      <path class="likely" d={`M${place(estimate.likely)} 2V12`} />
      {need === null ? null : <path class="need" d={`M${place(need)} 0l3 -0v14h-3`} />}
    </svg>
  );
}

/** Draws a figure of the report in the page. */
export function Figure({ node }: { readonly node: FigureNode }): VNode {
  return drawn(node, 0);
}

function drawn(node: FigureNode, key: number): VNode {
  const children = node.children.map((child, index) => (typeof child === 'string' ? child : drawn(child, index)));
  return h(node.tag, { ...node.attributes, key }, children);
}
