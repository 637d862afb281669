import type { Verdict } from '../../../evaluation/statistics/estimate.ts';
import type { PointRole, RouteRole } from '../../../plan/model/plan.ts';
import { roleSymbol } from '../../../report/figure/role-symbol.ts';
import { VERDICT_WORDS } from '../../../report/words/role-words.ts';
import { Figure } from './estimate-figure.tsx';

const SHAPES: Readonly<Record<Verdict, string>> = {
  holds: 'M2 8.5L6 12.5L14 3.5',
  measure: 'M8 1.5L14.5 8L8 14.5L1.5 8ZM8 4.5V8.5M8 11V11.4',
  fails: 'M3 3L13 13M13 3L3 13',
};

/** A verdict by shape, word and colour. */
export function VerdictMark({ verdict, words = true }: { readonly verdict: Verdict; readonly words?: boolean }) {
  return (
    <span class={`verdict ${verdict}`} data-verdict={verdict}>
      <svg viewBox="0 0 16 16" width="14" height="14" aria-hidden="true">
        <path d={SHAPES[verdict]} />
      </svg>
      <span class={words ? 'verdict-word' : 'unseen'}>{VERDICT_WORDS[verdict]}</span>
    </span>
  );
}

/** The symbol of a point by its role, as in the profile and on the map. */
export function RoleIcon({ of }: { readonly of: PointRole }) {
  return (
    <svg class="role-icon" viewBox="-11 -11 22 22" width="22" height="22" aria-hidden="true">
      <Figure node={roleSymbol(of)} />
    </svg>
  );
}

/** A short stretch of a line by its role: the same dash and colour as in the profile. */
export function LineIcon({ of }: { readonly of: RouteRole }) {
  return (
    <svg class="line-icon" viewBox="0 0 26 10" width="26" height="10" aria-hidden="true">
      <path class={`line-stroke ${of}`} d="M1 5H25" />
    </svg>
  );
}
