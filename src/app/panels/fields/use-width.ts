import { useEffect, useState } from 'preact/hooks';

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
