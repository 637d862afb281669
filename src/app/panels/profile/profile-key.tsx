/** What the lines of the profile mean. */
export function ProfileKey({ other }: { readonly other: string | null }) {
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
        doubt of the ground against the pump
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
