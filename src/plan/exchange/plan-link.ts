import { deflateSync, inflateSync, strFromU8, strToU8 } from 'fflate';
import type { Outcome } from '../../units/outcome.ts';
import { readPlan } from '../file/read-plan.ts';
import { writePlan } from '../file/write-plan.ts';
import type { Plan } from '../model/plan.ts';

/** More letters than this of an address are cut by what carries it. Common practice, no source. */
export const MOST_LINK = 8000;

/** What stands before the letters of a plan; the number changes when the dictionary or the packing does. */
const MARK = 'plan=1.';

/** Thirty-two letters that addresses and codes to photograph carry as they are. Source: RFC 4648, section 6. */
const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/**
 * A plan as the part of an address behind its #, which browsers send to nobody: packed, in capital letters, with a checksum. Map
 * tiles stay behind, whose address may hold a key, and so do addresses of elevation files.
 */
export function planFragment(plan: Plan): string {
  const terrain = plan.terrain && { ...plan.terrain, files: plan.terrain.files.map(nameOnly) };
  const text = JSON.stringify(JSON.parse(writePlan({ ...plan, mapTiles: null, terrain })));
  const bytes = strToU8(text);
  const packed = deflateSync(bytes, { level: 9, dictionary: DICTIONARY });
  const whole = new Uint8Array(packed.length + CHECK_BYTES);
  new DataView(whole.buffer).setUint32(0, adler32(bytes));
  whole.set(packed, CHECK_BYTES);
  return `#${MARK}${toLetters(whole)}`;
}

const nameOnly = (file: string): string => file.replace(/[?#].*$/s, '').replace(/^.*\//, '') || file;

/** Whether the part of an address behind its # holds a plan. */
export function holdsPlan(fragment: string): boolean {
  return fragment.replace(/^#/, '').startsWith('plan=');
}

/** The plan in the part of an address behind its #. */
export function readPlanFragment(fragment: string): Outcome<Plan> {
  const failed = (found: string): Outcome<never> => {
    return { ok: false, problems: [{ code: 'link', path: '', found, expected: 'the whole link, as it was made' }] };
  };
  const body = fragment.replace(/^#/, '');
  if (!body.startsWith(MARK)) return failed('a link of another version');
  if (body.length > MOST_READ) return failed(`a link of ${body.length} letters`);
  const bytes = fromLetters(body.slice(MARK.length));
  if (bytes === null || bytes.length <= CHECK_BYTES) return failed('a link with letters that are none of its own');
  const text = unpacked(bytes.subarray(CHECK_BYTES));
  const check = new DataView(bytes.buffer).getUint32(0);
  if (text === null || adler32(text) !== check) return failed('a link that was cut off or changed on its way');
  return readPlan(strFromU8(text));
}

const CHECK_BYTES = 4;
const MOST_READ = 64_000;
/** A plan that takes more room than this does not come in a link, bytes. */
const MOST_TEXT = 2_000_000;

function unpacked(packed: Uint8Array): Uint8Array | null {
  try {
    const text = inflateSync(packed, { dictionary: DICTIONARY });
    return text.length > MOST_TEXT ? null : text;
  } catch {
    return null;
  }
}

function toLetters(bytes: Uint8Array): string {
  let out = '';
  let bits = 0;
  let held = 0;
  for (const byte of bytes) {
    held = (held << 8) | byte;
    for (bits += 8; bits >= 5; bits -= 5) out += LETTERS[(held >> (bits - 5)) & 31];
    held &= (1 << bits) - 1;
  }
  return bits > 0 ? out + LETTERS[(held << (5 - bits)) & 31] : out;
}

/** Null where a letter is none of the thirty-two; small ones are taken as well. */
function fromLetters(text: string): Uint8Array<ArrayBuffer> | null {
  const out = new Uint8Array(Math.floor((text.length * 5) / 8));
  let bits = 0;
  let held = 0;
  let at = 0;
  for (const letter of text.toUpperCase()) {
    const value = LETTERS.indexOf(letter);
    if (value < 0) return null;
    held = (held << 5) | value;
    bits += 5;
    if (bits < 8) continue;
    bits -= 8;
    out[at] = held >> bits;
    at += 1;
    held &= (1 << bits) - 1;
  }
  return out;
}

/** Largest prime below 2^16. */
const MODULUS = 65_521;

/** Checksum of bytes. Source: RFC 1950, section 8.2 and appendix. */
function adler32(bytes: Uint8Array): number {
  let [low, high] = [1, 0];
  for (const byte of bytes) {
    low = (low + byte) % MODULUS;
    high = (high + low) % MODULUS;
  }
  return high * 0x10000 + low;
}

/**
 * What plans have in common, the most usual last: it is pointed to instead of being carried. Never to be changed without a new
 * mark: links that are out there are read with it.
 */
const DICTIONARY = strToU8(
  [
    '"stated","flow_L_per_min":"season":"winter","air_temperature_C":null,"source_share":"summer"',
    '"relief_kPa":"trench_depth_m":"kind":"height","point":"height_m":"survey":"standing":"set-aside"',
    '"kind":"ram","waste_valve_loss":"check_valve_loss":"valve_weight_head_m":"valve_stroke_mm":"check_lag_s":"air_chamber_L":',
    '"records":[{"date":"20","by":"","level_m":null,"beats_per_minute":null,"waste_L_per_min":null,"delivery_L_per_min":null,',
    '"delivery_read_at":"pump","gauge_rest_m":null,"gauge_running_m":null,"gauge_swing_m":null,"valve_weight_kg":null,',
    '"kind":"difference","from":"to":"rise_m":-"plus_minus_m":0.0"material":"pe","pvc","copper","wall_mm":"roughness_mm":"rating_kPa":',
    '"properties":{"role":"trough","name":"","note":"","valve_height_m":0.5,"volume_L":500,"herd_share":null,"valve_flow_L_per_min":null}}',
    '"fittings":[{"fitting":"elbow-90-threaded","count":1},{"fitting":"gate-valve-open","count":1}],"summits":"vented"',
    '"efficiency":{"low":0.5,"likely":0.6,"high":0.7},"efficiency_curve":[],"least_delivery_head_m":null,"measured":null},',
    '"herd":[{"kind":"row","row":"beef-cow-calf-pair-aafc","count":10}],"pump":{"kind":"sheet","label":"","count":1,"drive_bore_mm":',
    '"intake_least_L_per_min":"intake_most_L_per_min":"intake_set_L_per_min":null,"pe100-sdr11-25"},"pe100-sdr17-50"},"steel-sch40-1.25in"}',
    '{"type":"FeatureCollection","rillwright":{"version":1,"name":"","units":"metric","water_temperature_C":10,"yield_readings":[',
    '{"kind":"timed","volume_L":10,"volume_plus_minus_L":0.1,"times_s":[30,31]}],"dry_share":null,"left_in_stream":null,"herd":[',
    '],"pump":null,"pipes":[{"id":"pe-25","kind":"row","row":"pe100-sdr11-25"}],"year":[],"measurements":[],"materials":{"currency":"",',
    '"allowance":0,"prices":[]},"map_tiles":null,"confidence":0.9,"terrain":{"files":["dem.tif"],"accuracy":null,"constants":null}},',
    '"features":[{"type":"Feature","id":"source","geometry":{"type":"Point","coordinates":[-',
    '"properties":{"role":"source","name":"","note":"","water_level_m":0,"storage_L":0}},',
    '"properties":{"role":"standpipe","name":"Standpipe","note":"","inlet_height_m":0.3,"top_height_m":2,"bore_mm":102.3}},',
    '"properties":{"role":"pump","name":"Pump","note":"","waste_valve_height_m":0.3}},{"type":"Feature","id":"tank-',
    '"properties":{"role":"tank","name":"Tank ","note":"","inlet_height_m":2,"outlet_height_m":0.1,"volume_L":5000,"standing":"candidate"}},',
    '"properties":{"role":"supply","name":"Supply line","note":"","from":"source","to":"standpipe","pipe":"pe-50","fittings":[],"summits":"closed"}},',
    '"properties":{"role":"drive","name":"Drive pipe","note":"","from":"standpipe","to":"pump","pipe":"steel-32","fittings":[],"summits":"closed"}},',
    '"properties":{"role":"gravity","name":"Gravity line","note":"","from":"tank","to":"trough","pipe":"pe-32","fittings":[],"summits":"closed"}},',
    '{"type":"Feature","id":"delivery-","geometry":{"type":"LineString","coordinates":[[-',
    ']]},"properties":{"role":"delivery","name":"Delivery line","note":"","from":"pump","to":"tank-","pipe":"pe-25","fittings":[],"summits":"closed"}},',
  ].join(''),
);
