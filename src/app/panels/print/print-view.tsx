import { useLayoutEffect, useRef } from 'preact/hooks';
import type { FigureNode } from '../../../report/figure/figure-node.ts';
import '../../../report/print/report.css';
import { Figure } from '../fields/estimate-figure.tsx';
import './print-view.css';

export interface PrintViewProps {
  /** What kind of sheet it is. */
  readonly words: string;
  readonly sheet: FigureNode;
  readonly onClose: () => void;
}

/** A sheet as it will come out of the printer, over the page, with the buttons that print and close it. */
export function PrintView({ words, sheet, onClose }: PrintViewProps) {
  const print = useRef<HTMLButtonElement>(null);
  // Before the next picture: whoever sees the sheet can close it with Escape at once.
  useLayoutEffect(() => print.current?.focus(), []);
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
