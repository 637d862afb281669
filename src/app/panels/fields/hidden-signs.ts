import { options, type VNode } from 'preact';
import { visibleText } from '../../../units/visible-text.ts';

/** Attributes that a person reads or hears. What stands in a field is left as it is: it is typed over, not read. */
const READ = ['title', 'aria-label', 'alt', 'aria-description'] as const;

/** Shows signs that turn or hide text wherever the page shows a text: a name may come from anybody's file. */
export function showHiddenSigns(): void {
  const before = options.vnode;
  options.vnode = (vnode) => {
    if (typeof vnode.type === 'string') showIn(vnode);
    before?.(vnode);
  };
}

function showIn({ type, props }: VNode): void {
  if (props === null || type === 'textarea') return;
  for (const name of READ) {
    const value: unknown = Reflect.get(props, name);
    if (typeof value === 'string') Reflect.set(props, name, visibleText(value));
  }
  const { children } = props;
  if (typeof children === 'string') props.children = visibleText(children);
  else if (Array.isArray(children))
    props.children = children.map((child) => (typeof child === 'string' ? visibleText(child) : child));
}
