import { Component, type ComponentChildren } from 'preact';
import type { History } from '../../../plan/edits/history.ts';
import { copyFault, tellFault } from '../../actions/fault-actions.ts';
import { savePlanToDisk } from '../../files/saving-actions.ts';
import type { Fault } from '../../state/fault-state.ts';
import { history } from '../../state/store.ts';

interface GuardProps {
  /** What the user calls this part of the page. */
  readonly part: string;
  readonly children: ComponentChildren;
}

/** A part of the page that may fail without taking the rest along. */
export function PanelGuard({ part, children }: GuardProps) {
  return (
    <Guard part={part} on={history.value}>
      {children}
    </Guard>
  );
}

interface GuardState {
  readonly fault: Fault | null;
  /** The steps at which it failed: another plan may well be shown. */
  readonly failedOn: History | null;
}

class Guard extends Component<GuardProps & { readonly on: History }, GuardState> {
  override state: GuardState = { fault: null, failedOn: null };

  static override getDerivedStateFromProps(
    { on }: { on: History },
    { failedOn }: GuardState,
  ): Partial<GuardState> | null {
    return failedOn === null || failedOn === on ? null : { fault: null, failedOn: null };
  }

  override componentDidCatch(error: unknown): void {
    this.setState({ fault: tellFault(error, this.props.part), failedOn: this.props.on });
  }

  override render(): ComponentChildren {
    const { part, children } = this.props;
    const { fault } = this.state;
    if (fault === null) return children;
    return <Failed part={part} fault={fault} again={() => this.setState({ fault: null, failedOn: null })} />;
  }
}

function Failed({ part, fault, again }: { readonly part: string; readonly fault: Fault; readonly again: () => void }) {
  return (
    <section class="refused" role="alert" data-failed={part}>
      <p>
        <strong>{part} cannot be shown.</strong> Something in the planner failed here: {fault.message}. Your plan and
        the rest of the page are as they were. Undo the last step, or change what you changed last.
      </p>
      <p class="buttons">
        <button type="button" onClick={again}>
          Try again
        </button>
        <button type="button" onClick={() => void savePlanToDisk()}>
          Save plan
        </button>
        <button type="button" onClick={() => void copyFault(fault)}>
          Copy the details
        </button>
      </p>
    </section>
  );
}
