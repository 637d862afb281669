import '../files/files.css';
import { changeSettings } from '../../../plan/edits/edit-settings.ts';
import { importAccept } from '../../../plan/exchange/import-choices.ts';
import { EXPORT_FORMATS, type TableFormat } from '../../../report/exchange/exported-file.ts';
import { stepWords } from '../../../report/words/step-words.ts';
import { askForAddress } from '../../actions/address-actions.ts';
import { startTour } from '../../actions/demo-actions.ts';
import { copyAsAlternative } from '../../actions/desk-actions.ts';
import { openTrouble } from '../../actions/diagnosis-actions.ts';
import { edit, redoStep, undoStep } from '../../actions/edit-actions.ts';
import { lookAtImport } from '../../actions/import-actions.ts';
import { hidePlanRefusal, newPlan, setUnits } from '../../actions/plan-file-actions.ts';
import { openSite } from '../../actions/site-actions.ts';
import { closeGround } from '../../actions/terrain-actions.ts';
import { openHelp, switchTheme } from '../../actions/view-actions.ts';
import { openKeptList } from '../../autosave/kept-list-actions.ts';
import { isBundle, lookAtReturned, openBundle, takeToField } from '../../files/field-actions.ts';
import { copyLink } from '../../files/link-actions.ts';
import { canSaveAs, openPlanFromDisk, savePlanAs, savePlanToDisk, savesTo } from '../../files/saving-actions.ts';
import { bundling } from '../../state/field-store.ts';
import { demo, history, plan, planFile, theme, unsaved } from '../../state/store.ts';
import { tourStop } from '../../state/tour-store.ts';
import { AlternativesStrip } from '../alternatives/alternatives-strip.tsx';
import { askThen } from '../fields/ask-then.ts';
import { FileButton } from '../fields/file-button.tsx';
import { ProblemList } from '../fields/problem-list.tsx';
import { TextField } from '../fields/text-field.tsx';
import { type PageWidth, useMenu } from '../fields/use-menu.ts';
import { FieldNotices, LinkNotices } from '../files/field-notices.tsx';
import { GroundNotices } from '../files/ground-notices.tsx';
import { GuidedLook } from '../help/guided-look.tsx';
import { FaultNotice } from '../kept/fault-notice.tsx';
import { KeepingNotices } from '../kept/keeping-notices.tsx';
import { NewVersionNotice, SavingNotices } from '../kept/saving-notices.tsx';
import { canTakeAlong, canTakeProfile, printSheet, takeAlong, takeProfile } from '../print/take-along-actions.ts';
import { StepsList } from './steps-list.tsx';

const FORMATS = Object.keys(EXPORT_FORMATS) as TableFormat[];

/** Everything that comes into the plan from other files, or leaves it in another form. */
function FilesMenu() {
  return (
    <details class="more files" ref={useMenu()}>
      <summary>Import, export, print</summary>
      <div class="more-body">
        <button type="button" onClick={copyAsAlternative}>
          Copy the plan as an alternative
        </button>
        <FileButton accept={importAccept} onFiles={([file]) => file && void lookAtImport(file)}>
          Import points and tracks…
        </FileButton>
        {canSaveAs() ? (
          <button type="button" onClick={() => void savePlanAs()}>
            Save the plan to a file of your choice…
          </button>
        ) : null}
        <button type="button" disabled={bundling.value} onClick={() => void takeToField()}>
          One file for the phone (plan and ground)
        </button>
        <button type="button" onClick={() => void copyLink()}>
          Copy a link with the plan (no ground)
        </button>
        <FileButton accept=".zip,.geojson,.json" onFiles={([file]) => file && void lookAtReturned(file)}>
          Merge what came back…
        </FileButton>
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
        <button type="button" onClick={() => void printSheet('engineer')}>
          Print the engineer’s appendix
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

/** Name of the program and of the plan, and what is done with the plan as a whole. */
export function Header({ width }: { readonly width: PageWidth }) {
  return (
    <header class="head">
      <h1 class="brand">
        <BrandMark /> <span class={width === 'narrow' ? 'unseen' : ''}>Rillwright</span>
      </h1>
      <PlanName />
      <div class="head-tools">
        <Undoing />
        {width === 'narrow' ? <NarrowMenu /> : <PlanTools />}
      </div>
      <AlternativesStrip />
      <PlanRefused />
      <FaultNotice />
      <SavingNotices />
      <GuidedLook />
      <GroundNotices />
      <FieldNotices />
      <LinkNotices />
      <KeepingNotices />
      <NewVersionNotice />
    </header>
  );
}

/** The tools of a narrow page. */
function NarrowMenu() {
  return (
    <details class="more" ref={useMenu()}>
      <summary>Menu</summary>
      <div class="more-body">
        <PlanTools />
      </div>
    </details>
  );
}

/** New is empty: no plan, no ground, no picture. */
function newOnNothing(): void {
  // In this order, so that the work that is put aside keeps its ground.
  newPlan();
  closeGround();
}

async function openPlanOrBundle(file: File): Promise<void> {
  if (await isBundle(file)) await openBundle(file);
  else await openPlanFromDisk(file);
}

function PlanTools() {
  const next = theme.value === 'light' ? 'Dark theme' : 'Light theme';
  return (
    <>
      <fieldset class="group" aria-label="Plan file">
        <button type="button" onClick={() => void askThen(newOnNothing)}>
          New
        </button>
        <FileButton
          accept=".geojson,.json,.zip"
          onFiles={([file]) => file && void askThen(() => void openPlanOrBundle(file))}
        >
          Open plan…
        </FileButton>
        <button type="button" title={savesTo() ?? ''} onClick={() => void savePlanToDisk()}>
          Save plan
          {unsaved.value ? (
            <span class="dot">
              <span class="unseen"> (unsaved changes)</span>
            </span>
          ) : null}
        </button>
      </fieldset>
      <FilesMenu />
      <UnitsSwitch />
      <button type="button" class="quiet" onClick={switchTheme} title={next}>
        <span aria-hidden="true">{theme.value === 'light' ? '☾' : '☀'}</span>
        <span class="unseen spelled"> {next}</span>
      </button>
      <button type="button" class="quiet" onClick={openSite}>
        On site…
      </button>
      <button type="button" class="quiet" onClick={() => openTrouble()}>
        Something is wrong…
      </button>
      <button type="button" class="quiet" onClick={() => openHelp(true)}>
        Help
      </button>
    </>
  );
}

function BrandMark() {
  return (
    <svg viewBox="0 0 28 20" width="28" height="20" aria-hidden="true" class="brand-mark">
      <path d="M1 4C7 4 8 15 14 15" />
      <path class="up" d="M14 15C18 15 18 2 27 2" />
    </svg>
  );
}

function PlanName() {
  return (
    <div class="plan-name">
      <TextField
        label="Name of the plan"
        bare
        value={plan.value.name}
        onValue={(name) => edit((p) => changeSettings(p, { name }))}
      />
      {demo.value ? <span class="demo-mark">invented demo valley</span> : null}
      {demo.value && tourStop.value === null ? (
        <button type="button" class="link" onClick={() => void startTour()}>
          Guided look
        </button>
      ) : null}
    </div>
  );
}

function Undoing() {
  const last = history.value.past.at(-1);
  const [next] = history.value.future;
  return (
    <fieldset class="group" aria-label="Steps">
      <button
        type="button"
        disabled={last === undefined}
        title={last === undefined ? '' : stepWords(last.label)}
        onClick={undoStep}
      >
        Undo
      </button>
      <button
        type="button"
        disabled={next === undefined}
        title={next === undefined ? '' : stepWords(next.label)}
        onClick={redoStep}
      >
        Redo
      </button>
      <StepsList />
    </fieldset>
  );
}

function UnitsSwitch() {
  const { units } = plan.value;
  return (
    <fieldset class="group" aria-label="Units">
      <button type="button" aria-pressed={units === 'metric'} onClick={() => setUnits('metric')}>
        Metric
      </button>
      <button type="button" aria-pressed={units === 'us'} onClick={() => setUnits('us')}>
        US
      </button>
    </fieldset>
  );
}

function PlanRefused() {
  const state = planFile.value;
  if (state.kind !== 'refused') return null;
  return (
    <div class="refused" role="alert">
      <p>
        <strong>{state.names.join(', ')} was not opened.</strong> The plan on the page is as it was.
      </p>
      <ProblemList problems={state.problems} file={state.names[0] ?? ''} />
      <button type="button" onClick={hidePlanRefusal}>
        OK
      </button>
    </div>
  );
}
