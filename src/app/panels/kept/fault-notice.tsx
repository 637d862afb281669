import { copyFault, hideFault } from '../../actions/fault-actions.ts';
import { savePlanToDisk } from '../../files/saving-actions.ts';
import { fault } from '../../state/fault-state.ts';
import { Notice } from '../fields/notice.tsx';

/** Says that something in the planner failed, and what the user can do to be safe. */
export function FaultNotice() {
  const told = fault.value;
  if (told === null) return null;
  return (
    <Notice
      kind="fault"
      buttons={[
        ['Save plan', () => void savePlanToDisk()],
        ['Copy the details', () => void copyFault(told)],
        ['All right', hideFault],
      ]}
    >
      Something in the planner failed{told.part === null ? '' : ` in ${told.part}`}: {told.message}. The plan on the
      page is as you left it. Save it, then load the page again if something does not answer.
    </Notice>
  );
}
