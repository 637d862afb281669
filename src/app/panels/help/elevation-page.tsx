import { ELEVATION_SOURCES, SOURCES_NOTE, WHAT_TO_ASK_FOR } from '../../../report/glossary/elevation-words.ts';
import { ScrollTable } from '../fields/scroll-table.tsx';

/** Where elevation files come from and how to choose one; it needs no network. */
export function ElevationPage() {
  return (
    <>
      <h3>What to ask for</h3>
      <ol>
        {WHAT_TO_ASK_FOR.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ol>
      <h3>Who publishes them</h3>
      <p class="note">{SOURCES_NOTE}</p>
      <ScrollTable label="Who publishes elevation files" kind="help-table">
        <thead>
          <tr>
            <th scope="col">Where</th>
            <th scope="col">Programme and agency</th>
            <th scope="col">Cells</th>
            <th scope="col">Vertical datum</th>
          </tr>
        </thead>
        <tbody>
          {ELEVATION_SOURCES.map(([where, who, cells, datum]) => (
            <tr key={where}>
              <th scope="row">{where}</th>
              <td>{who}</td>
              <td>{cells}</td>
              <td>{datum}</td>
            </tr>
          ))}
        </tbody>
      </ScrollTable>
    </>
  );
}
