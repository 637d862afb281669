/**
 * Runs in the page before its own scripts: notes when the demo first shows its numbers and its map, and how long after an
 * input the next new number stands in the answers.
 */
export function watchPage() {
  const marks = { numbers: null, picture: null };
  const waits = [];
  let asked = null;
  const note = (event) => {
    asked ??= { hand: event.timeStamp, page: performance.now() };
  };
  for (const kind of ['pointermove', 'keydown']) addEventListener(kind, note, { capture: true, passive: true });

  const look = (records) => {
    marks.numbers ??= filled() ? performance.now() : null;
    marks.picture ??= filled() && drawn() ? performance.now() : null;
    if (asked === null || !records.some(isAnswer)) return;
    const from = asked;
    asked = null;
    const now = performance.now();
    waits.push({ hand: now - from.hand, page: now - from.page });
  };
  const filled = () =>
    document.querySelector('tr[data-tank] [data-field="delivery-per-day"]:not([data-value=""])') !== null;
  const drawn = () => document.querySelector('.map-frame[data-map-idle="true"]') !== null;
  const isAnswer = ({ target }) => target instanceof Element && target.matches('.answer [data-field]');

  const attributes = ['data-value', 'data-map-idle'];
  new MutationObserver(look).observe(document, { subtree: true, childList: true, attributeFilter: attributes });
  globalThis.watched = {
    marks,
    /**
     * Waits since the last call, ms: from the hand's input, and from when the page was told of it, which a browser does with
     * its next frame. An input that changed no number is not one of them.
     */
    takeWaits() {
      asked = null;
      return waits.splice(0);
    },
  };
}
