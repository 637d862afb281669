import { copyFault, hideFault } from '../../actions/fault-actions.ts';
import { savePlanToDisk } from '../../files/saving-actions.ts';
import { fault } from '../../state/fault-state.ts';
import { Notice } from '../fields/notice.tsx';

/** Says that something in the planner failed, and what the user can do to be safe. */
export function FaultNotice() {
  const told = fault.value;
  // A part that cannot be shown says so in its own place.
  if (told === null || told.part !== null) return null;
  return (
    <Notice
      kind="fault"
      buttons={[
        ['Save plan', () => void savePlanToDisk()],
        ['Copy the details', () => void copyFault(told)],
        ['OK', hideFault],
      ]}
    >
      Something in the planner failed: {told.message}. The plan on the page is as you left it. Save it, then load the
      page again if something does not answer.
    </Notice>
  );
}
