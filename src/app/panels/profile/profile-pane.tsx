import { useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import type { Evaluation } from '../../../evaluation/result/evaluation.ts';
import { accuracyFor } from '../../../evaluation/site/heights.ts';
import { alternativeProfile, comparedProfiles } from '../../../report/compare/compared-profiles.ts';
import { profileFigure } from '../../../report/profile/profile-figure.ts';
import { profileOfWay } from '../../../report/profile/profile-of-plan.ts';
import { profilePlaceOf, profileReading } from '../../../report/profile/profile-reading.ts';
import { readingWords } from '../../../report/profile/reading-words.ts';
import { type WaterWay, waterWays, wayFor } from '../../../report/tables/water-ways.ts';
import type { TerrainAbout } from '../../../terrain/grid/ground.ts';
import { laidOver, type ReckonedSheet } from '../../actions/comparison.ts';
import { chooseWay, openProfile, setProfileHeight, showCursor } from '../../actions/view-actions.ts';
import type { GroundedPlan } from '../../client/ground-feed.ts';
import { overlaid } from '../../state/jobs-store.ts';
import { pointedRemedy } from '../../state/remedy-store.ts';
import {
  chosenWay,
  cursor,
  evaluation,
  grounded,
  plan,
  profileHeight,
  profileOpen,
  selection,
  terrain,
} from '../../state/store.ts';
import { ChoiceField } from '../fields/choice-field.tsx';
import { Figure } from '../fields/estimate-figure.tsx';

/** The profile of one way of the water, linked with the map both ways. */
export function ProfilePane() {
  const ways = waterWays(plan.value);
  const way = wayFor(plan.value, { chosen: chosenWay.value, lookedAt: selection.value });
  return (
    <section
      class={`profile-pane${profileOpen.value ? '' : ' shut'}`}
      aria-label="Profile"
      style={profileOpen.value ? { height: `${profileHeight.value}px` } : {}}
    >
      <ProfileHandle height={profileHeight.value} onHeight={setProfileHeight} />
      <div class="profile-head">
        <h2>Profile</h2>
        {way === null ? null : (
          <ChoiceField
            label="Profile of"
            bare
            value={way.id}
            choices={ways.map(({ id, title }) => ({ value: id, words: title }))}
            onValue={(id) => {
              chooseWay(id);
              return [];
            }}
          />
        )}
        <ProfileKey
          other={pointedRemedy.value === null ? (laidOver.value?.grounded.plan.name ?? null) : 'as it would be'}
        />
        <button
          type="button"
          class="quiet"
          aria-expanded={profileOpen.value}
          onClick={() => openProfile(!profileOpen.value)}
        >
          {profileOpen.value ? 'Fold away' : 'Unfold'}
        </button>
      </div>
      {profileOpen.value ? <ProfileBody way={way} /> : null}
    </section>
  );
}

function ProfileBody({ way }: { readonly way: WaterWay | null }) {
  const known = grounded.value;
  const about = terrain.value?.about;
  if (way === null) return <p class="profile-empty">Draw a line between two points; its profile appears here.</p>;
  if (known === null || about === undefined) {
    return <p class="profile-empty">The profile appears once an elevation file is open.</p>;
  }
  return <ProfileOfWay way={way} known={known} about={about} result={evaluation.value} />;
}

interface ProfileOfWayProps {
  readonly way: WaterWay;
  readonly known: GroundedPlan;
  readonly about: TerrainAbout;
  readonly result: Evaluation | null;
}

/** Gathers what the profile is drawn from once for a plan and way, not once for each place of the cursor. */
function ProfileOfWay({ way, known, about, result }: ProfileOfWayProps) {
  const laid = overlaid.value;
  const other = overlay();
  const content = useMemo(() => {
    const { points, lines } = known.ground;
    const accuracy = accuracyFor(known.plan, about);
    const source = { plan: known.plan, evaluation: result, lines, points, accuracy };
    const main = profileOfWay(source, way);
    const compared = laid ? comparedProfiles(source, way, main) : NONE_COMPARED;
    return { main, compared: other === null ? compared : alternativeProfile(sourceOf(other, about), way) };
  }, [way.id, known, about, result, laid, other]);
  return <ProfileFigure content={content.main} compared={content.compared} />;
}

/** The plan that is laid over this one: as a remedy would leave it while that is pointed at, else the one it is compared with. */
function overlay(): Omit<ReckonedSheet, 'sheet'> | null {
  const remedy = pointedRemedy.value?.after;
  if (remedy === undefined) return laidOver.value;
  return { grounded: { plan: remedy.plan, ground: remedy.ground }, evaluation: remedy.evaluation };
}

function sourceOf({ grounded: { plan, ground }, evaluation }: Omit<ReckonedSheet, 'sheet'>, about: TerrainAbout) {
  return { plan, evaluation, ...ground, accuracy: accuracyFor(plan, about) };
}

type Content = ReturnType<typeof profileOfWay>;
type Compared = ReturnType<typeof comparedProfiles>;

const NONE_COMPARED: Compared = { legs: [], stations: [] };

const lengthOf = (legs: Content['legs']) => Math.max(0, ...legs.map((leg) => leg.offset + leg.ground.horizontal));

function ProfileFigure({ content, compared }: { readonly content: Content; readonly compared: Compared }) {
  const place = useRef<HTMLDivElement>(null);
  const size = useSize(place);
  const { units } = plan.value;
  const at = cursor.value === null ? null : profilePlaceOf(content, cursor.value.route, cursor.value.at);
  const legs = [...content.legs, ...compared.legs];
  const stations = [...content.stations, ...compared.stations];
  const figure = profileFigure({ ...content, legs, stations, units, size, cursor: at, key: 'profile' });
  const reading = at === null ? null : profileReading(content, at);
  const length = lengthOf(content.legs);
  const go = (to: number) => {
    const there = profileReading(content, Math.min(length, Math.max(0, to)));
    if (there !== null) showCursor(there.route, there.alongRoute);
  };
  const words = reading === null ? null : readingWords(reading, units);
  return (
    <>
      <div
        ref={place}
        class="profile-place"
        role="slider"
        tabIndex={0}
        aria-label="Place along the profile"
        aria-valuemin={0}
        aria-valuemax={Math.round(length)}
        aria-valuenow={Math.round(at ?? 0)}
        aria-valuetext={words ?? 'no place chosen'}
        onPointerMove={(event) => go(alongAt(event, { width: size.width, length: lengthOf(legs) }))}
        onPointerLeave={() => showCursor(null, null)}
        onKeyDown={(event) => {
          const to = keyTarget(event, { at: at ?? 0, length });
          if (to === null) return;
          event.preventDefault();
          go(to);
        }}
      >
        {figure === null ? <p class="profile-empty">There is no height along this way.</p> : <Figure node={figure} />}
      </div>
      <p class="profile-reading" data-at={at ?? ''}>
        {words ?? 'Point along the profile, or use the arrow keys, to read it.'}
      </p>
    </>
  );
}

/** The distance under the pointer; the plot's margins are those of the figure. */
function alongAt(event: PointerEvent, plot: { readonly width: number; readonly length: number }): number {
  const target = event.currentTarget;
  if (!(target instanceof Element)) return 0;
  const box = target.getBoundingClientRect();
  const { left, right } = PLOT_MARGIN;
  return ((event.clientX - box.left - left) / Math.max(1, plot.width - left - right)) * plot.length;
}

const PLOT_MARGIN = { left: 62, right: 22 } as const;
const STEPS = 200;

function keyTarget(event: KeyboardEvent, range: { readonly at: number; readonly length: number }): number | null {
  const step = (range.length / STEPS) * (event.shiftKey ? 10 : 1);
  switch (event.key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return range.at + step;
    case 'ArrowLeft':
    case 'ArrowDown':
      return range.at - step;
    case 'Home':
      return 0;
    case 'End':
      return range.length;
    default:
      return null;
  }
}

/** The size of an element, followed as it changes. */
function useSize(place: { readonly current: HTMLElement | null }): { width: number; height: number } {
  const [size, setSize] = useState({ width: 640, height: 200 });
  useLayoutEffect(() => {
    const element = place.current;
    if (element === null) return;
    const follow = () =>
      setSize({ width: Math.max(240, element.clientWidth), height: Math.max(120, element.clientHeight) });
    follow();
    const watching = new ResizeObserver(follow);
    watching.observe(element);
    return () => watching.disconnect();
  }, [place]);
  return size;
}

/** The edge between map and profile: dragged, or moved with the arrow keys. */
function ProfileHandle({ height, onHeight }: { readonly height: number; readonly onHeight: (height: number) => void }) {
  const drag = (event: PointerEvent) => {
    if (!(event.currentTarget instanceof HTMLElement) || !event.currentTarget.hasPointerCapture(event.pointerId))
      return;
    const pane = event.currentTarget.parentElement?.getBoundingClientRect();
    if (pane !== undefined) onHeight(pane.bottom - event.clientY);
  };
  return (
    <hr
      class="profile-handle"
      aria-orientation="horizontal"
      aria-label="Height of the profile"
      aria-valuenow={Math.round(height)}
      aria-valuemin={160}
      aria-valuemax={620}
      tabIndex={0}
      onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
      onPointerMove={drag}
      onKeyDown={(event) => {
        const step = event.key === 'ArrowUp' ? 20 : event.key === 'ArrowDown' ? -20 : 0;
        if (step === 0) return;
        event.preventDefault();
        onHeight(height + step);
      }}
    />
  );
}

/** What the lines of the profile mean. */
function ProfileKey({ other }: { readonly other: string | null }) {
  return (
    <ul class="profile-key" aria-label="Lines of the profile">
      <li>
        <svg viewBox="0 0 22 8" width="22" height="8" aria-hidden="true" class="profile-figure">
          <path class="running" d="M0 4H22" />
        </svg>
        water while running
      </li>
      <li>
        <svg viewBox="0 0 22 8" width="22" height="8" aria-hidden="true" class="profile-figure">
          <path class="still" d="M0 4H22" />
        </svg>
        at rest
      </li>
      <li>
        <svg viewBox="0 0 22 8" width="22" height="8" aria-hidden="true" class="profile-figure">
          <rect class="band" width="22" height="8" />
        </svg>
        how sure the ground heights are
      </li>
      {other === null ? null : (
        <li>
          <svg viewBox="0 0 22 8" width="22" height="8" aria-hidden="true" class="profile-figure">
            <g class="alternative">
              <path class="pipe-line" d="M1 4H22" />
            </g>
          </svg>
          {other}
        </li>
      )}
    </ul>
  );
}
