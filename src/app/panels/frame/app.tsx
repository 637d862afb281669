import type { VNode } from 'preact';
import { showPanel } from '../../actions/view-actions.ts';
import { announcement, type PanelName, panel } from '../../state/store.ts';
import { AnswerPanel } from '../answer/answer-panel.tsx';
import { Course } from '../answer/course.tsx';
import { VerdictBar } from '../answer/verdict-bar.tsx';
import { PanelGuard } from '../fields/panel-guard.tsx';
import { type Tab, Tabs } from '../fields/tabs.tsx';
import { type PageWidth, useWidth } from '../fields/use-menu.ts';
import { AddressDialog } from '../files/address-dialog.tsx';
import { DropCurtain } from '../files/drop-curtain.tsx';
import { ImportDialog } from '../files/import-dialog.tsx';
import { MergeDialog } from '../files/merge-dialog.tsx';
import { QuestionDialog } from '../files/question-dialog.tsx';
import { HelpDialog } from '../help/help-dialog.tsx';
import { InputsPanel } from '../inputs/inputs-panel.tsx';
import { JobsPanel } from '../jobs/jobs-panel.tsx';
import { KeptDialog } from '../kept/kept-dialog.tsx';
import { MapPane } from '../map/map-pane.tsx';
import { ProfilePane } from '../profile/profile-pane.tsx';
import { SelectedPanel } from '../selected/selected-panel.tsx';
import { SiteDialog } from '../site/site-dialog.tsx';
import { TroubleDialog } from '../trouble/trouble-dialog.tsx';
import { Header } from './header.tsx';

/** Past the head and the map; a link would leave a mark in the address. */
function skipToAnswers(): void {
  document.getElementById('answers')?.focus();
}

/** The whole page: header, the way of the water, map with profile beneath, and the side with answers and inputs. */
export function App() {
  const width = useWidth();
  return (
    <div class={`page ${width}`}>
      <button type="button" class="skip-link" onClick={skipToAnswers}>
        Skip to the answers
      </button>
      <PanelGuard part="The head of the page">
        <Header width={width} />
      </PanelGuard>
      {width === 'wide' ? (
        <aside class="left" aria-label="Parts of the plan">
          {guarded('The list of parts', <Course />)}
        </aside>
      ) : null}
      <main class="middle">
        {guarded('The map', <MapPane width={width} />)}
        {width === 'narrow' ? null : guarded('The profile', <ProfilePane />)}
      </main>
      <aside class="side" id="answers" tabIndex={-1} aria-label="Answers and inputs">
        {guarded('The short answer', <VerdictBar />)}
        <Tabs label="Answers and inputs" tabs={tabsFor(width)} open={panel.value} onOpen={showPanel} />
      </aside>
      {guarded('Dropping files', <DropCurtain />)}
      {guarded('The dialog for addresses', <AddressDialog />)}
      {guarded('The question about a file', <QuestionDialog />)}
      {guarded('The import', <ImportDialog />)}
      {guarded('What came back', <MergeDialog />)}
      {guarded('The list of kept plans', <KeptDialog />)}
      {guarded('The search for a cause', <TroubleDialog />)}
      {guarded('Entry on site', <SiteDialog />)}
      {guarded('The help', <HelpDialog />)}
      <p class="unseen" role="status" data-testid="announcement">
        {announcement.value}
      </p>
    </div>
  );
}

/** A part of the page that fails by itself: the others go on. */
function guarded(part: string, view: VNode) {
  return <PanelGuard part={part}>{view}</PanelGuard>;
}

function tabsFor(width: PageWidth): readonly Tab<PanelName>[] {
  const course: Tab<PanelName> = {
    name: 'course',
    words: 'Parts',
    panel: () => guarded('The list of parts', <Course />),
  };
  const profile: Tab<PanelName> = {
    name: 'profile',
    words: 'Profile',
    panel: () => guarded('The profile', <ProfilePane />),
  };
  const always: readonly Tab<PanelName>[] = [
    { name: 'answer', words: 'Answer', panel: () => guarded('The answer', <AnswerPanel />) },
    { name: 'selected', words: 'Selected', panel: () => guarded('The selected part', <SelectedPanel />) },
    { name: 'inputs', words: 'Inputs', panel: () => guarded('The inputs', <InputsPanel />) },
    { name: 'jobs', words: 'Tables', panel: () => guarded('The tables', <JobsPanel />) },
  ];
  if (width === 'wide') return always;
  return width === 'medium' ? [course, ...always] : [course, ...always, profile];
}
