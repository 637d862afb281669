import '../../style/jobs.css';
import { showBroad, showJob } from '../../actions/jobs-actions.ts';
import { broad, type JobName, job } from '../../state/jobs-store.ts';
import { terrain } from '../../state/store.ts';
import { AlternativesPanel } from '../alternatives/alternatives-panel.tsx';
import { CandidateTable } from './candidate-table.tsx';
import { PipePanel } from './pipe-panel.tsx';
import { PlacePanel } from './place-panel.tsx';
import { SizesPanel } from './sizes-panel.tsx';
import { YearPanel } from './year-panel.tsx';

const JOBS: readonly { readonly name: JobName; readonly words: string }[] = [
  { name: 'place', words: 'Find the place' },
  { name: 'tanks', words: 'Tanks' },
  { name: 'pipe', words: 'Pipe' },
  { name: 'sizes', words: 'Pump size' },
  { name: 'year', words: 'The year' },
  { name: 'alternatives', words: 'Alternatives' },
];

/** The tables a plan is worked out with: places for the pump, candidates for the tank, pipe to buy, the size of the pump, the year, alternatives. */
export function JobsPanel() {
  return (
    <div class={`jobs${broad.value ? ' broad' : ''}`}>
      <div class="jobs-head">
        <fieldset class="group" aria-label="Table">
          {JOBS.map(({ name, words }) => (
            <button key={name} type="button" aria-pressed={job.value === name} onClick={() => showJob(name)}>
              {words}
            </button>
          ))}
        </fieldset>
        <button type="button" class="quiet widen" onClick={() => showBroad(!broad.value)}>
          {broad.value ? 'Narrower' : 'Wider'}
        </button>
      </div>
      {terrain.value === null && job.value !== 'alternatives' ? (
        <p>These tables need the heights of the ground: open an elevation file above the map.</p>
      ) : (
        <Shown name={job.value} />
      )}
    </div>
  );
}

function Shown({ name }: { readonly name: JobName }) {
  switch (name) {
    case 'place':
      return <PlacePanel />;
    case 'tanks':
      return <CandidateTable />;
    case 'pipe':
      return <PipePanel />;
    case 'sizes':
      return <SizesPanel />;
    case 'year':
      return <YearPanel />;
    case 'alternatives':
      return <AlternativesPanel />;
  }
}
