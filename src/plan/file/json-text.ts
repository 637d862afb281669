import type { Outcome, Problem } from '../../units/outcome.ts';

export type JsonValue = null | boolean | number | string | readonly JsonValue[] | JsonObject;
export interface JsonObject {
  readonly [key: string]: JsonValue;
}

/** What a text may hold before it is refused; far above any real plan, far below what would stall a browser. */
export const jsonLimits: JsonLimits = { characters: 8_000_000, depth: 16, listLength: 20_000, values: 400_000 };

export interface JsonLimits {
  readonly characters: number;
  readonly depth: number;
  readonly listLength: number;
  readonly values: number;
}

/**
 * Reads JSON (RFC 8259) strictly: a key given twice, a number no double can hold, a key that names a prototype, nesting or
 * lists beyond the limits are problems, with line and column in the path.
 */
export function parseJson(text: string, limits: JsonLimits = jsonLimits): Outcome<JsonValue> {
  if (text.length > limits.characters) {
    return failed('too-large', '', `${text.length} characters`, `at most ${limits.characters} characters`);
  }
  const reader = new JsonReader(text.startsWith('\uFEFF') ? text.slice(1) : text, limits);
  try {
    return { ok: true, value: reader.document() };
  } catch (reason) {
    if (reason instanceof JsonFault) return { ok: false, problems: [reason.problem] };
    throw reason;
  }
}

function failed(code: string, path: string, found: string, expected: string): Outcome<JsonValue> {
  return { ok: false, problems: [{ code, path, found, expected }] };
}

class JsonFault extends Error {
  readonly problem: Problem;
  constructor(problem: Problem) {
    super(problem.code);
    this.problem = problem;
  }
}

const numberPattern = /-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?/y;
// Everything from the space up, but for the double quote and the backslash.
const plainRun = /[ !#-[\]-\uffff]*/y;
const spaceRun = /[ \t\n\r]*/y;
const escapes: Readonly<Record<string, string>> = {
  '"': '"',
  '\\': '\\',
  '/': '/',
  b: '\b',
  f: '\f',
  n: '\n',
  r: '\r',
  t: '\t',
};
const words: readonly (readonly [string, JsonValue])[] = [
  ['true', true],
  ['false', false],
  ['null', null],
];

class JsonReader {
  readonly #text: string;
  readonly #limits: JsonLimits;
  #at = 0;
  #values = 0;

  constructor(text: string, limits: JsonLimits) {
    this.#text = text;
    this.#limits = limits;
  }

  document(): JsonValue {
    const value = this.#value(0);
    this.#space();
    if (this.#at < this.#text.length) this.#syntax('the end of the file');
    return value;
  }

  #value(depth: number): JsonValue {
    if (depth > this.#limits.depth) {
      this.#fail('too-deep', `more than ${this.#limits.depth} levels`, `at most ${this.#limits.depth} levels`);
    }
    this.#values += 1;
    if (this.#values > this.#limits.values) {
      this.#fail('too-large', `more than ${this.#limits.values} values`, `at most ${this.#limits.values} values`);
    }
    this.#space();
    const next = this.#text[this.#at];
    if (next === '{') return this.#object(depth);
    if (next === '[') return this.#list(depth);
    if (next === '"') return this.#string();
    for (const [word, value] of words) {
      if (this.#text.startsWith(word, this.#at)) {
        this.#at += word.length;
        return value;
      }
    }
    return this.#number();
  }

  #object(depth: number): JsonObject {
    const object: Record<string, JsonValue> = {};
    this.#at += 1;
    if (this.#skip('}')) return object;
    do {
      this.#space();
      if (this.#text[this.#at] !== '"') this.#syntax('a key in double quotes');
      const key = this.#string();
      if (key === '__proto__') this.#fail('unknown-key', '"__proto__"', 'a key of the plan file');
      if (Object.hasOwn(object, key)) this.#fail('repeated-key', JSON.stringify(key.slice(0, 60)), 'each key once');
      if (!this.#skip(':')) this.#syntax('a colon');
      object[key] = this.#value(depth + 1);
    } while (this.#skip(','));
    if (!this.#skip('}')) this.#syntax('a comma or a closing brace');
    return object;
  }

  #list(depth: number): readonly JsonValue[] {
    const list: JsonValue[] = [];
    this.#at += 1;
    if (this.#skip(']')) return list;
    do {
      if (list.length === this.#limits.listLength) {
        this.#fail('too-many', `a list of more than ${this.#limits.listLength}`, `at most ${this.#limits.listLength}`);
      }
      list.push(this.#value(depth + 1));
    } while (this.#skip(','));
    if (!this.#skip(']')) this.#syntax('a comma or a closing bracket');
    return list;
  }

  #string(): string {
    let value = '';
    this.#at += 1;
    for (;;) {
      value += this.#run(plainRun);
      const next = this.#text[this.#at];
      if (next === '"') break;
      if (next !== '\\') this.#syntax('text without control characters, closed by a double quote');
      value += this.#escape();
    }
    this.#at += 1;
    return value;
  }

  #escape(): string {
    const letter = this.#text[this.#at + 1] ?? '';
    const hex = this.#text.slice(this.#at + 2, this.#at + 6);
    if (letter === 'u' && /^[0-9a-fA-F]{4}$/.test(hex)) {
      this.#at += 6;
      return String.fromCharCode(Number.parseInt(hex, 16));
    }
    const plain = escapes[letter];
    if (plain === undefined) this.#syntax('a JSON escape');
    this.#at += 2;
    return plain;
  }

  #number(): number {
    const digits = this.#run(numberPattern);
    if (digits === '') this.#syntax('a value');
    const value = Number(digits) + 0;
    if (!Number.isFinite(value)) this.#fail('out-of-range', digits.slice(0, 60), 'a number below 1.8e308');
    return value;
  }

  #run(pattern: RegExp): string {
    pattern.lastIndex = this.#at;
    const run = pattern.exec(this.#text)?.[0] ?? '';
    this.#at += run.length;
    return run;
  }

  #space(): void {
    this.#run(spaceRun);
  }

  #skip(mark: string): boolean {
    this.#space();
    if (this.#text[this.#at] !== mark) return false;
    this.#at += 1;
    return true;
  }

  #syntax(expected: string): never {
    const rest = this.#text.slice(this.#at, this.#at + 20);
    return this.#fail('not-json', rest === '' ? 'the end of the file' : JSON.stringify(rest), expected);
  }

  #fail(code: string, found: string, expected: string): never {
    const before = this.#text.slice(0, this.#at);
    const line = before.split('\n').length;
    const column = this.#at - before.lastIndexOf('\n');
    throw new JsonFault({ code, path: `line ${line}, column ${column}`, found, expected });
  }
}
