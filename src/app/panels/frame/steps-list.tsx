import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import { type ListedStep, listedSteps } from '../../../report/words/step-words.ts';
import { jumpToStep } from '../../actions/edit-actions.ts';
import { history } from '../../state/store.ts';
import './steps-list.css';

/** A button that opens the list of steps, to go back or forward to any of them. */
export function StepsList() {
  const [open, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const { past, future } = history.value;
  const close = () => {
    setOpen(false);
    button.current?.focus();
  };
  return (
    <div class="steps">
      <button
        ref={button}
        type="button"
        disabled={past.length + future.length === 0}
        aria-haspopup="listbox"
        aria-expanded={open}
        title="List of steps"
        // The list keeps the focus, and so knows that it is the button and not something else that shuts it.
        onMouseDown={(event) => open && event.preventDefault()}
        onClick={() => setOpen(!open)}
      >
        <span aria-hidden="true">▾</span>
        <span class="unseen">List of steps</span>
      </button>
      {open ? <Listing onLeave={() => setOpen(false)} onDone={close} /> : null}
    </div>
  );
}

interface ListingProps {
  /** The focus went elsewhere. */
  readonly onLeave: () => void;
  readonly onDone: () => void;
}

function Listing({ onLeave, onDone }: ListingProps) {
  const list = useRef<HTMLDivElement>(null);
  const steps = listedSteps(history.value);
  const [active, setActive] = useState(() => steps.findIndex(({ standing }) => standing === 'now'));
  useLayoutEffect(() => {
    const line = list.current?.children[active];
    if (line instanceof HTMLElement) line.focus();
  }, [active]);
  const go = (step: number) => {
    jumpToStep(step);
    onDone();
  };
  const leave = ({ relatedTarget }: FocusEvent) => {
    if (!(relatedTarget instanceof Node && list.current?.contains(relatedTarget))) onLeave();
  };
  const takeKey = (event: KeyboardEvent) => {
    const target = keyTarget(event.key, { active, last: steps.length - 1 });
    if (event.key === 'Escape') onDone();
    else if (event.key === 'Enter' || event.key === ' ') go(active);
    else if (target === null) return;
    else setActive(target);
    event.preventDefault();
    event.stopPropagation();
  };
  return (
    <div ref={list} role="listbox" tabIndex={-1} aria-label="Steps" onFocusOut={leave} onKeyDown={takeKey}>
      {steps.map((step) => (
        <Line key={step.steps} step={step} active={step.steps === active} onGo={go} />
      ))}
    </div>
  );
}

interface LineProps {
  readonly step: ListedStep;
  readonly active: boolean;
  readonly onGo: (steps: number) => void;
}

function Line({ step, active, onGo }: LineProps) {
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list takes the keys for its lines
    <div
      role="option"
      tabIndex={active ? 0 : -1}
      aria-selected={step.standing === 'now'}
      class={step.standing}
      onClick={() => onGo(step.steps)}
    >
      {step.words}
      {step.standing === 'undone' ? <span class="unseen"> (undone)</span> : null}
    </div>
  );
}

const PAGE = 8;

function keyTarget(key: string, { active, last }: { readonly active: number; readonly last: number }): number | null {
  const targets: Readonly<Record<string, number>> = {
    ArrowDown: active + 1,
    ArrowUp: active - 1,
    PageDown: active + PAGE,
    PageUp: active - PAGE,
    Home: 0,
    End: last,
  };
  const target = targets[key];
  return target === undefined ? null : Math.min(last, Math.max(0, target));
}
