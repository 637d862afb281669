/** The address of a page's own policy in its text. */
const POLICY = /http-equiv="Content-Security-Policy"\s+content="([^"]+)"/;

/** What the page may ask the browser for; everything else is refused to it and to whatever would be framed in it. */
const ALLOWED = ['geolocation', 'clipboard-write', 'screen-wake-lock'];
const REFUSED = ['camera', 'microphone', 'payment', 'usb', 'serial', 'bluetooth', 'midi', 'display-capture'];

/**
 * The headers that go with every file of the site. The policy is the page's own, with what only a header can say: nobody may
 * frame it.
 */
export function siteHeaders(page) {
  const policy = POLICY.exec(page)?.[1];
  if (policy === undefined) throw new Error('index.html: found no Content-Security-Policy, expected one');
  return {
    'content-security-policy': `${policy}; frame-ancestors 'none'`,
    'x-content-type-options': 'nosniff',
    'referrer-policy': 'no-referrer',
    'cross-origin-opener-policy': 'same-origin',
    'cross-origin-resource-policy': 'same-origin',
    'permissions-policy': [...ALLOWED.map((name) => `${name}=(self)`), ...REFUSED.map((name) => `${name}=()`)].join(
      ', ',
    ),
  };
}
