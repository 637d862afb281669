import type { PointRole, RouteRole } from '../../../plan/model/plan.ts';
import { roleSymbol } from '../../../report/figure/role-symbol.ts';
import { Figure } from './figure.tsx';

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
