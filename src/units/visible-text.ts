/**
 * Signs that nobody sees and that turn, hide or join what stands around them: marks and overrides of the direction of writing,
 * blanks without width, tags, and controls. Source: Unicode Technical Report 36, Unicode Security Considerations, 2.5 and 2.10.
 */
const HIDDEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u00ad\u061c\u180e\u200b\u200e\u200f\u2028-\u202e\u2060-\u2064\u2066-\u206f\ufeff\ufff9-\ufffb]|[\u{e0000}-\u{e007f}]/gu;

/** A text in which every hidden sign is shown as what it is, such as ⟨U+202E⟩, so that a name reads as it is written. */
export function visibleText(text: string): string {
  return text.replace(
    HIDDEN,
    (sign) => `⟨U+${(sign.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}⟩`,
  );
}
