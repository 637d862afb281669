import { effect } from '@preact/signals';
import { render } from 'preact';
import { startKeys } from './actions/key-actions.ts';
import { followPlan } from './actions/terrain-actions.ts';
import { startTheme } from './actions/view-actions.ts';
import { followComparison } from './alternatives/comparison-actions.ts';
import './style/tokens.css';
import './style/base.css';
import './style/layout.css';
import './style/panels.css';
import './style/profile.css';
import { startKeeping } from './keeping/start-keeping.ts';
import { startOffline } from './offline/new-version.ts';
import { followLinks, watchSameFile } from './saving/same-file.ts';
import { plan } from './state/store.ts';
import { App } from './view/app.tsx';

const place = document.getElementById('app');
if (place === null) throw new Error('found no element #app in the page, expected one');

startTheme();
startKeys();
effect(followPlan);
effect(followComparison);
effect(() => {
  document.title = `${plan.value.name} · Rillwright`;
});
render(<App />, place);
startKeeping();
watchSameFile();
effect(followLinks);
void startOffline();

if (!new URLSearchParams(location.search).has('empty')) {
  const { openDemo } = await import('./actions/demo-actions.ts');
  await openDemo();
}
