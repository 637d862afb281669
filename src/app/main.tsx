import './trusted.ts';
import './style/tokens.css';
import './style/base.css';
import './style/layout.css';
import './style/panels.css';
import './style/profile.css';
import { effect } from '@preact/signals';
import { render } from 'preact';
import { holdsPlan } from '../plan/exchange/plan-link.ts';
import { visibleText } from '../units/visible-text.ts';
import { followComparison, followDifferences } from './actions/comparison-actions.ts';
import { followTour } from './actions/demo-actions.ts';
import { watchFaults } from './actions/fault-actions.ts';
import { followReach } from './actions/place-actions.ts';
import { followRemedies } from './actions/remedy-actions.ts';
import { keepBook } from './actions/site-actions.ts';
import { followGroundOfPlan, followPlan } from './actions/terrain-actions.ts';
import { startTheme } from './actions/view-actions.ts';
import { copyWhenLeft, keepDesk, warnBeforeLeaving } from './autosave/keep-desk.ts';
import { answerOtherTabs, findLeft } from './autosave/keeping-actions.ts';
import { rememberDroppedHandles } from './autosave/kept-files.ts';
import { openLink, watchLinks } from './files/link-actions.ts';
import { followLinks, watchSameFile } from './files/same-file.ts';
import { startKeys } from './key-actions.ts';
import { startOffline, watchReplaced } from './offline/new-version.ts';
import { showHiddenSigns } from './panels/fields/hidden-signs.ts';
import { App } from './panels/frame/app.tsx';
import { plan } from './state/store.ts';

const place = document.getElementById('app');
if (place === null) throw new Error('found no element #app in the page, expected one');

watchFaults();
watchReplaced();
showHiddenSigns();
startTheme();
startKeys();
effect(followPlan);
effect(followGroundOfPlan);
effect(followTour);
effect(followComparison);
effect(followDifferences);
effect(followReach);
followRemedies();
effect(() => {
  document.title = `${visibleText(plan.value.name)} · Rillwright`;
});
render(<App />, place);
startKeeping();
keepBook();
watchSameFile();
effect(followLinks);
void startOffline();

watchLinks();
if (holdsPlan(location.hash)) openLink();
else if (!new URLSearchParams(location.search).has('empty')) {
  const { openDemo } = await import('./actions/demo-actions.ts');
  await openDemo();
}

/** Looks for what was left behind, and keeps the user's work from now on. */
function startKeeping(): void {
  rememberDroppedHandles();
  answerOtherTabs();
  addEventListener('beforeunload', warnBeforeLeaving);
  copyWhenLeft();
  effect(keepDesk);
  void findLeft();
}
