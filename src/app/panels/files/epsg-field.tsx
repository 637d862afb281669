import { useId, useState } from 'preact/hooks';
import { crsCandidateWords, EPSG_HINT, EPSG_PATTERN, epsgCode } from '../../../report/words/question-words.ts';
import type { Corners, CrsCandidate } from '../../../terrain/georeference/crs-candidate.ts';

export interface EpsgFieldProps {
  readonly name: string;
  readonly corners: readonly Corners[];
}

/** Takes the EPSG code of files that state none, and says at once which CRS that is and where they would lie. */
export function EpsgField({ name, corners }: EpsgFieldProps) {
  const id = useId();
  const [candidate, setCandidate] = useState<CrsCandidate | null>(null);
  const look = async (field: HTMLInputElement) => {
    const typed = field.value;
    field.setCustomValidity('');
    const found = await lookUp(typed, corners);
    if (field.value !== typed) return;
    setCandidate(found);
    if (found !== null && found.kind !== 'place') field.setCustomValidity(crsCandidateWords(found));
  };
  const wrong = candidate !== null && (candidate.kind !== 'place' || candidate.inArea === false);
  return (
    <div class={`field ${wrong ? 'wrong' : ''}`}>
      <label for={id}>EPSG code</label>
      <input
        id={id}
        type="text"
        name={name}
        pattern={EPSG_PATTERN}
        placeholder="EPSG:32633"
        title="A code such as EPSG:32633"
        autocomplete="off"
        spellcheck={false}
        required
        aria-describedby={`${id}-note`}
        onInput={({ currentTarget }) => void look(currentTarget)}
      />
      <p id={`${id}-note`} class={wrong ? 'problem' : 'note'} role="status">
        {candidate === null ? EPSG_HINT : crsCandidateWords(candidate)}
      </p>
    </div>
  );
}

/** The first file that a code does not fit, else the first of all; null while no code is typed. */
export async function lookUp(typed: string, corners: readonly Corners[]): Promise<CrsCandidate | null> {
  const code = epsgCode(typed);
  if (code === null) return null;
  const { crsCandidate } = await import('../../../terrain/georeference/crs-candidate.ts');
  const all = await Promise.all(corners.map((each) => crsCandidate(code, each)));
  const bad = all.find(({ kind }) => kind !== 'place');
  return bad ?? all.find((each) => each.kind === 'place' && each.inArea === false) ?? all[0] ?? null;
}
