import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { siteHeaders } from '../../bin/site-headers.mjs';

const page = readFileSync('index.html', 'utf8');
const guide = readFileSync('docs/hosting.md', 'utf8');

describe('the guide to hosting', () => {
  it('names every header that is sent, value for value', () => {
    const named = Object.fromEntries(
      [...guide.matchAll(/add_header ([\w-]+) "([^"]+)" always;/g)].map(([, name, value]) => [
        String(name).toLowerCase(),
        value,
      ]),
    );
    expect(named).toEqual({ ...siteHeaders(page), 'strict-transport-security': 'max-age=31536000' });
  });
});

describe('the policy of the page', () => {
  const directives = new Map(
    String(siteHeaders(page)['content-security-policy'])
      .split('; ')
      .map((each) => [each.split(' ')[0], each.split(' ').slice(1)] as const),
  );

  // Content Security Policy Level 3 (W3C): what is not named falls back to default-src; frame-ancestors, base-uri and
  // form-action do not fall back and must be named.
  it('lets no script, frame, object or form in from elsewhere, and no picture', () => {
    expect(directives.get('default-src')).toEqual(["'none'"]);
    for (const name of ['script-src', 'style-src', 'worker-src']) expect(directives.get(name)).toEqual(["'self'"]);
    for (const name of ['base-uri', 'form-action', 'frame-ancestors']) expect(directives.get(name)).toEqual(["'none'"]);
    expect(directives.get('img-src')).toEqual(["'self'", 'blob:', 'data:']);
    expect(directives.get('require-trusted-types-for')).toEqual(["'script'"]);
  });
});
