import { useRef } from 'preact/hooks';
import { importAccept } from '../../../plan/exchange/import-accept.ts';
import { EXPORT_FORMATS, type TableFormat } from '../../../report/exchange/exported-file.ts';
import { lookAtImport } from '../../actions/import-actions.ts';
import { canTakeAlong, canTakeProfile, printSheet, takeAlong, takeProfile } from '../../actions/take-along-actions.ts';
import { askForAddress } from '../../by-address/address-actions.ts';
import { FileButton } from '../file-button.tsx';
import './files.css';

const FORMATS = Object.keys(EXPORT_FORMATS) as TableFormat[];

/** Everything that comes into the plan from other files, or leaves it in another form. */
export function FilesMenu() {
  const menu = useRef<HTMLDetailsElement>(null);
  /** The menu has said what it had to say. */
  const then = (act: () => unknown) => () => {
    if (menu.current) menu.current.open = false;
    void act();
  };
  return (
    <details
      class="more files"
      ref={menu}
      onKeyDown={(event) => {
        if (event.key !== 'Escape' || !menu.current?.open) return;
        menu.current.open = false;
        menu.current.querySelector('summary')?.focus();
      }}
    >
      <summary>Bring and take</summary>
      <div class="more-body">
        <FileButton accept={importAccept} onFiles={([file]) => file && then(() => lookAtImport(file))()}>
          Bring points and tracks…
        </FileButton>
        <button type="button" onClick={then(askForAddress)}>
          Open elevation by address…
        </button>
        <button type="button" onClick={then(() => printSheet('visit'))}>
          Print the site visit sheet
        </button>
        <button type="button" onClick={then(() => printSheet('owner'))}>
          Print the owner’s report
        </button>
        {FORMATS.map((format) => (
          <button key={format} type="button" disabled={!canTakeAlong(format)} onClick={then(() => takeAlong(format))}>
            {EXPORT_FORMATS[format].words}
          </button>
        ))}
        <button type="button" disabled={!canTakeProfile()} onClick={then(takeProfile)}>
          The profile as a picture (SVG)
        </button>
      </div>
    </details>
  );
}
