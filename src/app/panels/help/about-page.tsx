import { useEffect, useState } from 'preact/hooks';
import { PROGRAM_ABOUT } from '../../../report/words/safe-file-name.ts';

/** What the program is and whose work is in it. */
export function AboutPage() {
  const [licences, setLicences] = useState<string | null>(null);
  useEffect(() => {
    licenceText().then(setLicences, () =>
      setLicences('They could not be loaded. They lie beside the page, in licences.txt.'),
    );
  }, []);
  return (
    <>
      <p>
        {PROGRAM_ABOUT.name} {PROGRAM_ABOUT.version}, under the MIT licence, without any warranty. It plans; it does not
        replace a survey, a permit, or the judgement of somebody licensed where that is asked for.
      </p>
      <h3>Packages that are shipped with it</h3>
      <pre class="licences" data-testid="licences">
        {licences ?? 'The licences are being loaded…'}
      </pre>
    </>
  );
}

async function licenceText(): Promise<string> {
  const reply = await fetch(new URL('./licences.txt', document.baseURI));
  if (!reply.ok) throw new Error(`licences.txt: found answer ${reply.status}, expected 200`);
  return reply.text();
}
