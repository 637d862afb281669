/** The edge between map and profile: dragged, or moved with the arrow keys. */
export function ProfileHandle({
  height,
  onHeight,
}: {
  readonly height: number;
  readonly onHeight: (height: number) => void;
}) {
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
