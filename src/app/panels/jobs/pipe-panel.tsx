import { changeSettings } from '../../../plan/edits/edit-settings.ts';
import type { MaterialList } from '../../../plan/model/plan.ts';
import { type PieceLine, type PipeLine, pipeBill } from '../../../report/tables/pipe-bill.ts';
import { proposableLines } from '../../../report/tables/proposable-lines.ts';
import { ROUTE_WORDS } from '../../../report/words/role-words.ts';
import { edit } from '../../actions/edit-actions.ts';
import { saveBill } from '../../actions/jobs-actions.ts';
import { onGround } from '../../state/jobs-store.ts';
import { evaluation, history, plan } from '../../state/store.ts';
import { QuantityField } from '../fields/quantity-field.tsx';
import { ScrollTable } from '../fields/scroll-table.tsx';
import { TextField } from '../fields/text-field.tsx';
import { PipeSizes } from './pipe-sizes.tsx';
import { PiecePriceField, PipePriceFields } from './price-fields.tsx';
import { ProposalCard, ProposeButton } from './proposal-card.tsx';

/** What has to be bought, at the user's own prices, and the size of each line. */
export function PipePanel() {
  return (
    <div class="job">
      <LinesToPropose />
      <ProposalCard />
      <Bill />
      <PipeSizes />
    </div>
  );
}

/** Lines whose ends are placed and that are not drawn yet. */
function LinesToPropose() {
  const lines = proposableLines(history.value.present);
  if (lines.length === 0) return null;
  return (
    <div class="block">
      <h2>Lines not drawn yet</h2>
      <ul class="missing-lines">
        {lines.map((line) => (
          <li key={`${line.role} ${line.from.id} ${line.to.id}`}>
            <span>
              {ROUTE_WORDS[line.role].name}: {line.from.name} to {line.to.name}
            </span>
            <ProposeButton
              line={line}
              words="Propose"
              about={`${ROUTE_WORDS[line.role].name} from ${line.from.name} to ${line.to.name}`}
            />
          </li>
        ))}
      </ul>
    </div>
  );
}

function Bill() {
  const known = onGround.value;
  const result = evaluation.value;
  if (known === null || result === null) return null;
  const bill = pipeBill(known.plan, result, known.plan.units);
  if (bill.pipes.length === 0) return <p>Draw a line between two points: what it takes is counted here.</p>;
  return (
    <div class="block">
      <h2>To buy</h2>
      <p class="note">
        Lengths are along the ground. Bends, vents, drains, valves, unions and trench are counted from the drawn lines,
        pump, standpipe, tanks and troughs from their ends; tanks that are ruled out are left out, and all others once
        one is kept. It is a list without prices too.
      </p>
      <BuyingFields />
      <ScrollTable label="Pipe to buy" kind="bill">
        <thead>
          <tr>
            <th scope="col">Pipe</th>
            <th scope="col" class="number">
              Along the ground
            </th>
            <th scope="col" class="number">
              To buy
            </th>
            <th scope="col" class="number">
              Cost
            </th>
          </tr>
        </thead>
        {[...bill.pipes, ...bill.trenches].map((line) => (
          <PipeLineRows key={line.need.item} line={line} />
        ))}
      </ScrollTable>
      <Pieces pieces={bill.pieces} />
      <p class="bill-total" data-field="total">
        <span>Total</span> <strong>{bill.total ?? 'no price is entered yet'}</strong>
        {bill.without === null || bill.total === null ? null : <small>{bill.without}</small>}
      </p>
      <p class="buttons">
        <button type="button" onClick={saveBill}>
          Save as CSV
        </button>
      </p>
    </div>
  );
}

function BuyingFields() {
  const { materials, units } = plan.value;
  const set = (changes: Partial<MaterialList>) =>
    edit((p) => changeSettings(p, { materials: { ...p.materials, ...changes } }));
  return (
    <div class="fields">
      <TextField label="Currency" value={materials.currency} onValue={(currency) => set({ currency })} />
      <QuantityField
        label="Extra for waste"
        kind="share"
        value={materials.allowance}
        units={units}
        onValue={(allowance) => (allowance === null ? [] : set({ allowance }))}
      />
    </div>
  );
}

function Pieces({ pieces }: { readonly pieces: readonly PieceLine[] }) {
  if (pieces.length === 0) return null;
  return (
    <ScrollTable label="Pieces to buy" kind="bill pieces">
      <thead>
        <tr>
          <th scope="col">Piece</th>
          <th scope="col" class="number">
            Count
          </th>
          <th scope="col">Price of one</th>
          <th scope="col" class="number">
            Cost
          </th>
        </tr>
      </thead>
      <tbody>
        {pieces.map(({ need, price, cost, routes }) => (
          <tr key={need.item} data-item={need.item}>
            <th scope="row">
              {need.label}
              <small>{routes}</small>
            </th>
            <td class="number" data-field="count" data-value={need.count}>
              {need.count}
            </td>
            <td>
              <PiecePriceField item={need.item} label={need.label} price={price} />
            </td>
            <td class="number" data-field="cost">
              {cost ?? '–'}
            </td>
          </tr>
        ))}
      </tbody>
    </ScrollTable>
  );
}

/** Pipe of one kind: its lengths and cost, and beneath them its price. */
function PipeLineRows({ line }: { readonly line: PipeLine }) {
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
