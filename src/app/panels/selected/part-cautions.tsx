import type { PointRole, RouteRole } from '../../../plan/model/plan.ts';
import { CODES_DECIDE, cautionsFor } from '../../../report/print/caution-words.ts';

/** What must be minded where a part of the plan is built. */
export function PartCautions({ role }: { readonly role: PointRole | RouteRole }) {
  return (
    <details class="part-cautions">
      <summary>What to mind here</summary>
      <ul>
        {cautionsFor(role).map(({ title, short, more }) => (
          <li key={title}>
            <strong>{title}.</strong> {short} {more}
          </li>
        ))}
      </ul>
      <p class="note">{CODES_DECIDE}</p>
    </details>
  );
}
