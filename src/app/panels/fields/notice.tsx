import type { ComponentChildren } from 'preact';
import './notice.css';

interface NoticeProps {
  readonly kind: string;
  readonly children: ComponentChildren;
  /** What stands after the buttons, such as a choice of files. */
  readonly beside?: ComponentChildren;
  readonly buttons: readonly (readonly [words: string, act: () => void])[];
}

/** One line of the head that says something about the user's work, with what can be done about it. */
export function Notice({ kind, children, buttons, beside }: NoticeProps) {
  return (
    <section class="keeping-notice" role="status" aria-label="Your work" data-notice={kind}>
      <p>{children}</p>
      <p class="buttons">
        {buttons.map(([words, act]) => (
          <button key={words} type="button" onClick={act}>
            {words}
          </button>
        ))}
        {beside}
      </p>
    </section>
  );
}
