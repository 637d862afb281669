import { importAccept } from '../../../plan/exchange/import-choices.ts';
import { EXPORT_FORMATS, type TableFormat } from '../../../report/exchange/exported-file.ts';
import { askForAddress } from '../../actions/address-actions.ts';
import { copyAsAlternative } from '../../actions/desk-actions.ts';
import { lookAtImport } from '../../actions/import-actions.ts';
import { openKeptList } from '../../autosave/kept-list-actions.ts';
import { canSaveAs, savePlanAs } from '../../files/saving-actions.ts';
import { FileButton } from '../fields/file-button.tsx';
import { useMenu } from '../fields/use-menu.ts';
import { canTakeAlong, canTakeProfile, printSheet, takeAlong, takeProfile } from '../print/take-along-actions.ts';
import './files.css';

const FORMATS = Object.keys(EXPORT_FORMATS) as TableFormat[];

/** Everything that comes into the plan from other files, or leaves it in another form. */
export function FilesMenu() {
  return (
    <details class="more files" ref={useMenu()}>
      <summary>Bring and take</summary>
      <div class="more-body">
        <button type="button" onClick={copyAsAlternative}>
          Copy the plan as an alternative
        </button>
        <FileButton accept={importAccept} onFiles={([file]) => file && void lookAtImport(file)}>
          Bring points and tracks…
        </FileButton>
        {canSaveAs() ? (
          <button type="button" onClick={() => void savePlanAs()}>
            Save the plan to a file of your choice…
          </button>
        ) : null}
        <button type="button" onClick={() => void openKeptList()}>
          Plans kept in this browser…
        </button>
        <button type="button" onClick={askForAddress}>
          Open elevation by address…
        </button>
        <button type="button" onClick={() => void printSheet('visit')}>
          Print the site visit sheet
        </button>
        <button type="button" onClick={() => void printSheet('owner')}>
          Print the owner’s report
        </button>
        <button type="button" onClick={() => void printSheet('pump')}>
          Print the sheets for the pump
        </button>
        {FORMATS.map((format) => (
          <button key={format} type="button" disabled={!canTakeAlong(format)} onClick={() => void takeAlong(format)}>
            {EXPORT_FORMATS[format].words}
          </button>
        ))}
        <button type="button" disabled={!canTakeProfile()} onClick={() => void takeProfile()}>
          The profile as a picture (SVG)
        </button>
      </div>
    </details>
  );
}
