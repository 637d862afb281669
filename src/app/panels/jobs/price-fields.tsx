import { removePrice, setPrice } from '../../../plan/edits/edit-settings.ts';
import type { Price } from '../../../plan/model/plan.ts';
import type { PipeLine } from '../../../report/tables/pipe-bill.ts';
import { type PricedBy, pricedAnew, pricedUnit, readPrice, writePrice } from '../../../report/words/money-words.ts';
import type { Problem } from '../../../units/outcome.ts';
import { edit } from '../../actions/edit-actions.ts';
import { plan } from '../../state/store.ts';
import { CellField } from '../fields/cell-field.tsx';
import { ChoiceField } from '../fields/choice-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';

/** Price of a piece, by the user's own list. */
export function PiecePriceField({
  item,
  label,
  price,
}: {
  readonly item: string;
  readonly label: string;
  readonly price: Price | null;
}) {
  const { units } = plan.value;
  return (
    <CellField
      label={`Price of one ${label}`}
      shown={price === null ? '' : writePrice(price.price, 'piece', units)}
      onText={(text) => taken(text, 'piece', { item, unit: 'piece', price: 0, pack: null })}
    />
  );
}

/** Price of a pipe: by length or by the coil or stick, and how long a coil or stick is. */
export function PipePriceFields({ line }: { readonly line: PipeLine }) {
  const { units } = plan.value;
  const { need, price, pack } = line;
  const known: Price = price ?? { item: need.item, unit: 'metre', price: 0, pack: null };
  const by = known.unit === 'piece' ? 'piece' : 'length';
  return (
    <div class="price-fields">
      <CellField
        heading={`Price of a ${by === 'piece' ? pack : pricedUnit(by, units)}`}
        label={`of ${need.label}`}
        shown={price === null ? '' : writePrice(price.price, by, units)}
        onText={(text) => taken(text, by, known)}
      />
      {price === null || !line.isPacked ? null : (
        <>
          <ChoiceField
            label="for each"
            value={by}
            choices={[
              { value: 'length', words: pricedUnit('length', units) },
              { value: 'piece', words: pack },
            ]}
            onValue={(chosen) => edit((p) => setPrice(p, pricedAnew(price, chosen, units)))}
          />
          <QuantityField
            label={`Length of a ${pack}`}
            kind="length"
            value={price.pack}
            units={units}
            optional
            onValue={(typed) => edit((p) => setPrice(p, { ...price, pack: typed }))}
          />
        </>
      )}
    </div>
  );
}

/** Takes a typed price; an empty field takes the item off the list. */
function taken(text: string, by: PricedBy, price: Price): string | readonly Problem[] {
  if (text === '') return edit((p) => removePrice(p, price.item));
  const reading = readPrice(text, by, plan.value.units);
  return reading.ok ? edit((p) => setPrice(p, { ...price, price: reading.value })) : reading.sentence;
}
