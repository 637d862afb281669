import type { ComponentChildren } from 'preact';

/** A table that scrolls sideways where it has too little room, by keyboard too. */
export function ScrollTable({
  label,
  kind,
  children,
}: {
  readonly label: string;
  readonly kind: string;
  readonly children: ComponentChildren;
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that scrolls sideways must scroll from the keyboard
    <section class="table-scroll" tabIndex={0} aria-label={label}>
      <table class={`job-table ${kind}`}>{children}</table>
    </section>
  );
}
