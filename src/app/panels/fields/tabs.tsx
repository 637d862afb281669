import type { ComponentChildren } from 'preact';
import { useId, useRef } from 'preact/hooks';

export interface Tab<T extends string> {
  readonly name: T;
  readonly words: string;
  readonly panel: () => ComponentChildren;
}

export interface TabsProps<T extends string> {
  readonly label: string;
  readonly tabs: readonly Tab<T>[];
  readonly open: T;
  readonly onOpen: (name: T) => void;
}

/** Panels of which one shows; the arrow keys go from tab to tab. */
export function Tabs<T extends string>({ label, tabs, open, onOpen }: TabsProps<T>) {
  const id = useId();
  const list = useRef<HTMLDivElement>(null);
  const shown = tabs.find((tab) => tab.name === open) ?? tabs[0];
  const go = (event: KeyboardEvent) => {
    const next = neighbour(event.key, tabs, shown);
    if (next === null) return;
    event.preventDefault();
    onOpen(next.name);
    list.current?.querySelector<HTMLElement>(`[data-tab="${next.name}"]`)?.focus();
  };
  return (
    <div class="tabs">
      <div class="tab-list" role="tablist" aria-label={label} ref={list} onKeyDown={go}>
        {tabs.map((tab) => (
          <button
            key={tab.name}
            type="button"
            role="tab"
            id={`${id}-${tab.name}`}
            data-tab={tab.name}
            aria-selected={tab === shown}
            aria-controls={`${id}-panel`}
            tabIndex={tab === shown ? 0 : -1}
            onClick={() => onOpen(tab.name)}
          >
            {tab.words}
          </button>
        ))}
      </div>
      <div
        key={shown?.name}
        class="tab-panel"
        role="tabpanel"
        id={`${id}-panel`}
        aria-labelledby={shown === undefined ? undefined : `${id}-${shown.name}`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: a panel that scrolls must scroll from the keyboard
        tabIndex={0}
      >
        {shown?.panel()}
      </div>
    </div>
  );
}

function neighbour<T extends string>(key: string, tabs: readonly Tab<T>[], shown: Tab<T> | undefined): Tab<T> | null {
  const at = shown === undefined ? 0 : tabs.indexOf(shown);
  const targets: Readonly<Record<string, number>> = {
    ArrowRight: (at + 1) % tabs.length,
    ArrowLeft: (at - 1 + tabs.length) % tabs.length,
    Home: 0,
    End: tabs.length - 1,
  };
  const target = targets[key];
  return target === undefined ? null : (tabs[target] ?? null);
}
