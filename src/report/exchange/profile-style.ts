/** The light palette of the design for a figure that leaves the page: programs that draw SVG know no custom properties. */
export const FIGURE_COLOURS = {
  sheet: '#fbf9f2',
  ink: '#1c2630',
  inkSoft: '#4b555d',
  rule: '#d3ccbb',
  ruleStrong: '#857d6a',
  water: '#0b5fc0',
  earth: '#7c5d33',
  earthFill: '#e9dfca',
  bandFill: '#d9c9a6',
  supply: '#14607f',
  drive: '#6b2a71',
  delivery: '#a0420a',
  gravity: '#1b6b50',
} as const;

const C = FIGURE_COLOURS;
const FACE = "'Gill Sans Nova', 'Gill Sans', 'Noto Sans', 'Liberation Sans', sans-serif";

/** Style of the profile figure as a file of its own: the grammar of docs/design.md, on paper. */
export const PROFILE_STYLE = `
.profile-figure { font-family: ${FACE}; font-size: 12px; fill: ${C.ink}; background: ${C.sheet}; }
.earth { fill: ${C.earthFill}; }
.band { fill: ${C.bandFill}; opacity: 0.75; }
.ground-line { fill: none; stroke: ${C.earth}; stroke-width: 1; }
.hatch { stroke: ${C.inkSoft}; stroke-width: 1; }
.void text, .unit, .turning text { font-size: 11px; }
.void text, .unit { fill: ${C.inkSoft}; }
.void text, .station-name, .turning text {
  paint-order: stroke; stroke: ${C.sheet}; stroke-width: 3px; stroke-linejoin: round;
}
.hair { stroke: ${C.rule}; stroke-width: 1; }
.staff-block { fill: ${C.inkSoft}; }
.staff-edge { fill: none; stroke: ${C.inkSoft}; stroke-width: 1; }
.chain-line { stroke: ${C.inkSoft}; stroke-width: 1; }
.ring { fill: ${C.sheet}; stroke: ${C.inkSoft}; stroke-width: 1; }
.pipe-line { fill: none; stroke: ${C.ink}; stroke-width: 2.5; stroke-linejoin: round; }
.supply .pipe-line { stroke: ${C.supply}; }
.drive .pipe-line { stroke: ${C.drive}; stroke-width: 3.5; }
.delivery .pipe-line { stroke: ${C.delivery}; stroke-dasharray: 9 3; }
.gravity .pipe-line { stroke: ${C.gravity}; stroke-dasharray: 9 3 2 3; }
.compared .pipe-line { stroke-width: 1.5; opacity: 0.7; }
.running { fill: none; stroke: ${C.water}; stroke-width: 1.5; }
.still { stroke: ${C.water}; stroke-width: 1; stroke-dasharray: 2 4; }
.turning path { fill: ${C.sheet}; stroke: ${C.ink}; stroke-width: 1; }
.leader { stroke: ${C.ruleStrong}; stroke-width: 0.75; }
.symbol .body { fill: ${C.sheet}; stroke: ${C.ink}; stroke-width: 1.5; stroke-linejoin: round; }
.symbol .stroke { fill: none; stroke: ${C.ink}; stroke-width: 1.5; stroke-linecap: round; }
`;
