import { showPanel } from '../actions/view-actions.ts';
import { AddressDialog } from '../by-address/address-dialog.tsx';
import { KeptDialog } from '../keeping/kept-dialog.tsx';
import { announcement, type PanelName, panel } from '../state/store.ts';
import { AnswerPanel } from './answer-panel.tsx';
import { Course } from './course.tsx';
import { DropCurtain } from './drop-curtain.tsx';
import { ImportDialog } from './files/import-dialog.tsx';
import { Header } from './header.tsx';
import { HelpDialog } from './help-dialog.tsx';
import { InputsPanel } from './inputs-panel.tsx';
import { JobsPanel } from './jobs/jobs-panel.tsx';
import { MapPane } from './map-pane.tsx';
import { ProfilePane } from './profile-pane.tsx';
import { QuestionDialog } from './question-dialog.tsx';
import { SelectedPanel } from './selected-panel.tsx';
import { type Tab, Tabs } from './tabs.tsx';
import { type PageWidth, useWidth } from './use-width.ts';
import { VerdictBar } from './verdict-bar.tsx';

/** The whole page: header, the way of the water, map with profile beneath, and the side with answers and inputs. */
export function App() {
  const width = useWidth();
  return (
    <div class={`page ${width}`}>
      <Header width={width} />
      {width === 'wide' ? (
        <aside class="left" aria-label="Parts of the plan">
          <Course />
        </aside>
      ) : null}
      <main class="middle">
        <MapPane width={width} />
        {width === 'narrow' ? null : <ProfilePane />}
      </main>
      <aside class="side" aria-label="Answers and inputs">
        <VerdictBar />
        <Tabs label="Answers and inputs" tabs={tabsFor(width)} open={panel.value} onOpen={showPanel} />
      </aside>
      <DropCurtain />
      <AddressDialog />
      <QuestionDialog />
      <ImportDialog />
      <KeptDialog />
      <HelpDialog />
      <p class="unseen" role="status" data-testid="announcement">
        {announcement.value}
      </p>
    </div>
  );
}

function tabsFor(width: PageWidth): readonly Tab<PanelName>[] {
  const course: Tab<PanelName> = { name: 'course', words: 'Parts', panel: () => <Course /> };
  const profile: Tab<PanelName> = { name: 'profile', words: 'Profile', panel: () => <ProfilePane /> };
  const always: readonly Tab<PanelName>[] = [
    { name: 'answer', words: 'Answer', panel: () => <AnswerPanel /> },
    { name: 'selected', words: 'Selected', panel: () => <SelectedPanel /> },
    { name: 'inputs', words: 'Inputs', panel: () => <InputsPanel /> },
    { name: 'jobs', words: 'Tables', panel: () => <JobsPanel /> },
  ];
  if (width === 'wide') return always;
  return width === 'medium' ? [course, ...always] : [course, ...always, profile];
}
