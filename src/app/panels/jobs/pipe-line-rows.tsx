import type { PipeLine } from '../../../report/tables/pipe-bill.ts';
import { PipePriceFields } from './price-fields.tsx';

/** Pipe of one kind: its lengths and cost, and beneath them its price. */
export function PipeLineRows({ line }: { readonly line: PipeLine }) {
  const { need, length, toBuy, packs, cost, routes } = line;
  return (
    <tbody data-item={need.item}>
      <tr>
        <th scope="row">
          {need.label}
          <small>{routes}</small>
          {need.partly ? <small>a stretch without heights counts as level</small> : null}
        </th>
        <td class="number" data-field="length" data-value={need.length}>
          {length}
        </td>
        <td class="number" data-field="to-buy" data-value={need.toBuy}>
          {toBuy}
          {packs === null ? null : <small>{packs}</small>}
        </td>
        <td class="number" data-field="cost">
          {cost ?? '–'}
        </td>
      </tr>
      <tr class="about">
        <td colSpan={4}>
          <PipePriceFields line={line} />
        </td>
      </tr>
    </tbody>
  );
}
