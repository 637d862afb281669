import { useState } from 'preact/hooks';
import { GLOSSARY, type GlossaryEntry, meaningFor } from '../../../report/glossary/glossary.ts';
import { plan } from '../../state/store.ts';

/** The words of the trade in plain words, with a field that leaves only those that hold what is typed. */
export function GlossaryWords() {
  const [sought, setSought] = useState('');
  const parts = GLOSSARY.flatMap(({ title, entries }) => {
    const found = entries.filter((entry) => holds(entry, sought));
    return found.length === 0 ? [] : [{ title, found }];
  });
  const count = parts.reduce((sum, { found }) => sum + found.length, 0);
  return (
    <div class="glossary">
      <div class="field text">
        <label for="glossary-sought">Look for a word</label>
        <input
          id="glossary-sought"
          type="search"
          autocomplete="off"
          value={sought}
          onInput={(event) => setSought(event.currentTarget.value)}
        />
        <p class="note" role="status">
          {count === 0 ? `Nothing here speaks of “${sought.trim()}”.` : `${count} ${count === 1 ? 'word' : 'words'}`}
        </p>
      </div>
      {parts.map(({ title, found }) => (
        <section key={title}>
          <h3>{title}</h3>
          <dl>
            {found.map((entry) => (
              <div key={entry.term}>
                <dt>{entry.term}</dt>
                <dd>{meaningFor(entry, plan.value.units)}</dd>
              </div>
            ))}
          </dl>
        </section>
      ))}
    </div>
  );
}

function holds({ term, meaning }: GlossaryEntry, sought: string): boolean {
  const wanted = sought.trim().toLowerCase();
  return term.toLowerCase().includes(wanted) || meaning.toLowerCase().includes(wanted);
}
