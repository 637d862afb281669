/** As much of Trusted Types as is used; it is not in every list of types. */
interface PolicyMaker {
  createPolicy(name: string, rules: PolicyRules): unknown;
}

interface PolicyRules {
  readonly createHTML: (text: string) => string;
  readonly createScriptURL: (address: string) => string;
}

/**
 * What the page lets through where text would become a script or markup: the addresses of its own scripts, and text without
 * markup. Everything else is stopped by the browser, wherever in the page or in a package it comes from.
 */
const RULES: PolicyRules = {
  createHTML(text) {
    if (/[<&]/.test(text)) throw new TypeError('found markup, expected plain text');
    return text;
  },
  createScriptURL(address) {
    const { origin } = new URL(address, document.baseURI);
    if (origin !== location.origin) throw new TypeError(`found a script of ${origin}, expected one of this site`);
    return address;
  },
};

/** Browsers without Trusted Types go by the rest of the policy. */
if ('trustedTypes' in window) (window.trustedTypes as PolicyMaker).createPolicy('default', RULES);
