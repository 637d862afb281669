import { useEffect, useRef, useState } from 'preact/hooks';
import { levelHeight } from '../../../evaluation/result/results.ts';
import { addMeasurement, changeMeasurement } from '../../../plan/edits/edit-water.ts';
import type { Measurement, PlanPoint, PointId } from '../../../plan/model/plan.ts';
import { LEVEL_WORDS } from '../../../report/words/role-words.ts';
import { INCH_M } from '../../../units/factor.ts';
import type { Problem } from '../../../units/outcome.ts';
import { edit, editOrSay, formDone } from '../../actions/edit-actions.ts';
import { askedForm } from '../../state/measure-store.ts';
import { plan } from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { QuantityField } from '../fields/quantity-field.tsx';

/** The ± a new reading starts with: a water level or hand level well kept, common practice without a source. */
const STARTING_PLUS_MINUS = { metric: 0.05, us: 2 * INCH_M } as const;

/** Heights measured on site for one point; they are weighed with the elevation file's height there and with all others. */
export function MeasureLevel({ point }: { readonly point: PlanPoint }) {
  const readings = plan.value.measurements.flatMap((taken, index) =>
    (taken.kind === 'height' ? taken.point : taken.to) === point.id ? [{ taken, index }] : [],
  );
  const form = askedForm.value;
  const asked = form?.kind === 'height' && form.point === point.id ? form : null;
  const [another, setAnother] = useState(false);
  const place = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    if (asked === null) return;
    place.current?.scrollIntoView({ block: 'nearest' });
    [...(place.current?.querySelectorAll<HTMLInputElement>('input[data-field="how-much"]') ?? [])].at(-1)?.focus();
  }, [asked]);
  const isNew = readings.length === 0 || another || asked !== null;
  return (
    <details class="measure-level" ref={place} open={readings.length > 0 || asked !== null}>
      <summary>Measured on site</summary>
      <p class="note">
        A measured height counts together with the elevation file and the other measurements, each by its plus or minus.
      </p>
      {readings.map(({ taken, index }) => (
        <ReadingFields key={index} point={point} known={taken} index={index} from={null} onEntered={() => {}} />
      ))}
      {isNew ? (
        <ReadingFields
          key={`new ${readings.length} ${asked?.from ?? ''}`}
          point={point}
          known={null}
          index={null}
          from={asked?.from ?? null}
          onEntered={() => {
            setAnother(false);
            formDone();
          }}
        />
      ) : (
        <p class="row-end">
          <button type="button" class="quiet" onClick={() => setAnother(true)}>
            Add another measurement
          </button>
        </p>
      )}
    </details>
  );
}

interface ReadingProps {
  readonly point: PlanPoint;
  /** The reading and its place in the plan's list; null for one that is not entered yet. */
  readonly known: Measurement | null;
  readonly index: number | null;
  /** What a new one is measured against. */
  readonly from: PointId | null;
  readonly onEntered: () => void;
}

const SEA = '';
type Side = 'lower' | 'higher';
/** From the ground to the ground, or from what stands at one point to what stands at the other. */
type Ends = 'ground' | 'level';

function ReadingFields({ point, known, index, from, onEntered }: ReadingProps) {
  const { points, units } = plan.value;
  const others = points.filter(({ id }) => id !== point.id);
  const [chosen, setChosen] = useState(known?.kind === 'difference' ? known.from : (from ?? SEA));
  const [plusMinus, setPlusMinus] = useState(known?.plusMinus ?? STARTING_PLUS_MINUS[units]);
  const [ends, setEnds] = useState<Ends>('ground');
  const other = others.find(({ id }) => id === chosen);
  const bridge = other === undefined ? 0 : levelHeight(point) - levelHeight(other);
  /** What is typed, from what is kept: ground to ground. */
  const kept = known === null ? null : known.kind === 'height' ? known.height : known.rise;
  const told = kept === null ? null : ends === 'level' ? kept + bridge : kept;
  const usual: Side = point.role === 'tank' ? 'higher' : 'lower';
  const [side, setSide] = useState<Side>(told === null ? usual : told < 0 ? 'lower' : 'higher');
  const take = (typed: number | null, with_: { from?: string; spread?: number; side?: Side; ends?: Ends } = {}) => {
    if (typed === null) return index === null ? [] : edit((p) => changeMeasurement(p, index, null));
    const now = { from: chosen, spread: plusMinus, side, ends, ...with_ };
    const standing = known?.standing === undefined ? {} : { standing: known.standing };
    const survey = known?.kind === 'height' && known.survey !== undefined ? { survey: known.survey } : {};
    const against = others.find(({ id }) => id === now.from);
    const between = against === undefined ? 0 : levelHeight(point) - levelHeight(against);
    const signed = now.side === 'lower' ? -typed : typed;
    const taken: Measurement =
      against === undefined
        ? { kind: 'height', point: point.id, height: typed, plusMinus: now.spread, ...survey, ...standing }
        : {
            kind: 'difference',
            from: against.id,
            to: point.id,
            rise: now.ends === 'level' ? signed - between : signed,
            plusMinus: now.spread,
            ...standing,
          };
    const wrong = edit((p) => (index === null ? addMeasurement(p, taken) : changeMeasurement(p, index, taken)));
    if (wrong.length === 0) onEntered();
    return wrong;
  };
  const amount = told === null ? null : other === undefined ? told : Math.abs(told);
  const again = (with_: Parameters<typeof take>[1]): readonly Problem[] => (amount === null ? [] : take(amount, with_));
  return (
    <div class="fields">
      <ChoiceField
        label="Compared with"
        value={chosen}
        choices={[
          ...others.map(({ id, name }) => ({ value: id, words: name })),
          { value: SEA, words: 'sea level (a known height)' },
        ]}
        onValue={(next) => {
          setChosen(next);
          return again({ from: next });
        }}
      />
      <QuantityField
        label={other === undefined ? `Height of the ground at ${point.name}` : `${point.name} is`}
        field="how-much"
        value={amount}
        kind="height"
        units={units}
        optional
        onValue={(typed) => {
          if (typed === null || other === undefined || typed >= 0) return take(typed);
          // A minus sign says the same as the other side.
          setSide('lower');
          return take(-typed, { side: 'lower' });
        }}
      />
      {other === undefined ? null : (
        <>
          <ChoiceField<Side>
            label="lower or higher"
            value={side}
            choices={[
              { value: 'lower', words: `lower than ${other.name}` },
              { value: 'higher', words: `higher than ${other.name}` },
            ]}
            onValue={(next) => {
              setSide(next);
              return again({ side: next });
            }}
          />
          <ChoiceField<Ends>
            label="Measured from"
            value={ends}
            choices={[
              { value: 'ground', words: 'ground to ground' },
              { value: 'level', words: `${LEVEL_WORDS[other.role]} to ${LEVEL_WORDS[point.role]}` },
            ]}
            onValue={(next) => {
              setEnds(next);
              // What was typed is kept as it was; it now says another difference of the ground.
              return again({ ends: next });
            }}
          />
        </>
      )}
      <QuantityField
        label="Plus or minus"
        value={plusMinus}
        kind="height"
        units={units}
        onValue={(spread) => {
          if (spread === null) return [];
          setPlusMinus(spread);
          return again({ spread });
        }}
      />
      {index === null ? null : (
        <p class="row-end">
          <button
            type="button"
            class="quiet danger"
            onClick={() => editOrSay((p) => changeMeasurement(p, index, null))}
          >
            Remove this measurement
          </button>
        </p>
      )}
    </div>
  );
}
