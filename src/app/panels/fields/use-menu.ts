import type { RefObject } from 'preact';
import { useEffect, useRef, useState } from 'preact/hooks';

export type PageWidth = 'wide' | 'medium' | 'narrow';

const WIDE = '(min-width: 75em)';
const NARROW = '(max-width: 47.99em)';

/** Which of the three layouts fits; follows the window and the size of text. */
export function useWidth(): PageWidth {
  const [width, setWidth] = useState(widthNow);
  useEffect(() => {
    const queries = [matchMedia(WIDE), matchMedia(NARROW)];
    const follow = () => setWidth(widthNow());
    for (const query of queries) query.addEventListener('change', follow);
    return () => {
      for (const query of queries) query.removeEventListener('change', follow);
    };
  }, []);
  return width;
}

function widthNow(): PageWidth {
  if (matchMedia(WIDE).matches) return 'wide';
  return matchMedia(NARROW).matches ? 'narrow' : 'medium';
}

/**
 * A `details` that is a menu: it closes after a choice, on Escape with the focus back where it was opened, and when the
 * pointer or the focus goes elsewhere.
 */
export function useMenu(): RefObject<HTMLDetailsElement | null> {
  const place = useRef<HTMLDetailsElement>(null);
  useEffect(() => {
    const menu = place.current;
    return menu === null ? undefined : followMenu(menu);
  }, []);
  return place;
}

function followMenu(menu: HTMLDetailsElement): () => void {
  const stop = new AbortController();
  const { signal } = stop;
  const shut = () => {
    menu.open = false;
  };
  menu.addEventListener('click', ({ target }) => isChoice(target) && shutAfterChoice(menu), { signal });
  menu.addEventListener('keydown', (event) => escaped(event, menu) && shut(), { signal });
  menu.addEventListener('focusout', ({ relatedTarget }) => isOutside(relatedTarget, menu) && shut(), { signal });
  document.addEventListener('pointerdown', ({ target }) => isOutside(target, menu) && shut(), { signal });
  return () => stop.abort();
}

/** Buttons do something and the menu is done; what is set in it, such as a slider, leaves it open. */
function isChoice(target: EventTarget | null): boolean {
  return target instanceof Element && target.closest('button') !== null;
}

/** The focus would be lost with the entry that was chosen; what the choice opened has taken it already, if it did. */
function shutAfterChoice(menu: HTMLDetailsElement): void {
  if (menu.contains(document.activeElement)) menu.querySelector('summary')?.focus();
  menu.open = false;
}

/** Takes the key, so that it closes one menu and nothing else. */
function escaped(event: KeyboardEvent, menu: HTMLDetailsElement): boolean {
  if (event.key !== 'Escape' || !menu.open) return false;
  event.preventDefault();
  event.stopPropagation();
  menu.querySelector('summary')?.focus();
  return true;
}

function isOutside(target: EventTarget | null, menu: HTMLDetailsElement): boolean {
  return target instanceof Node && !menu.contains(target);
}
