import { nameOf } from '../../../report/words/measure-words.ts';
import { terrainNoteSentence } from '../../../report/words/terrain-note-words.ts';
import { grounded, plan, terrain } from '../../state/store.ts';

/** What must be known of the ground before its numbers are trusted: of the whole elevation file, and of each line. */
export function GroundNotes() {
  const { units } = plan.value;
  const whole = (terrain.value?.about.notes ?? []).map((note) => terrainNoteSentence(note, units));
  const lines = [...(grounded.value?.ground.lines ?? [])].flatMap(([id, line]) =>
    (line.notes ?? []).map((note) => `${nameOf(plan.value, id)}: ${terrainNoteSentence(note, units)}`),
  );
  const all = [...whole, ...lines];
  if (all.length === 0) return null;
  return (
    <section class="block" aria-labelledby="ground-title">
      <h2 id="ground-title">About the elevation file</h2>
      <ul class="ground-notes">
        {all.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
