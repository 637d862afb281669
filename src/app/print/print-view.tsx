import { useEffect, useMemo, useRef } from 'preact/hooks';
import { ownerReport } from '../../report/print/owner-report.ts';
import type { PrintSource } from '../../report/print/print-source.ts';
import '../../report/print/report.css';
import { visitSheet } from '../../report/print/visit-sheet.ts';
import { Figure } from '../view/figure.tsx';
import './print-view.css';

/** Which sheet: the owner's report or what is taken along to the site. */
export type PrintKind = 'owner' | 'visit';

const SHEETS = {
  owner: { words: 'Report', make: ownerReport },
  visit: { words: 'Site visit sheet', make: visitSheet },
} as const;

export interface PrintViewProps {
  readonly kind: PrintKind;
  readonly source: PrintSource;
  readonly onClose: () => void;
}

/** A sheet as it will come out of the printer, over the page, with the buttons that print and close it. */
export function PrintView({ kind, source, onClose }: PrintViewProps) {
  const print = useRef<HTMLButtonElement>(null);
  const { words, make } = SHEETS[kind];
  const sheet = useMemo(() => make(source), [make, source]);
  useEffect(() => print.current?.focus(), []);
  return (
    <div
      class="print-view"
      role="dialog"
      aria-modal="true"
      aria-label={words}
      onKeyDown={(event) => {
        // The page behind has keys of its own, such as deleting what is selected.
        event.stopPropagation();
        if (event.key === 'Escape') onClose();
      }}
    >
      <p class="print-bar">
        <strong>{words}</strong>
        <button type="button" ref={print} onClick={() => window.print()}>
          Print or save as PDF
        </button>
        <button type="button" onClick={onClose}>
          Close
        </button>
      </p>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard */}
      <section class="print-scroll" tabIndex={0} aria-label="Sheet">
        <Figure node={sheet} />
      </section>
    </div>
  );
}
