import { smoothCurve } from './curve.mjs';

/** The knoll east of the pump: a straight line to the hollow behind it goes over its top. */
export const KNOLL = { x: 692, y: 488, level: 213, along: 95, across: 66, turn: 0.45 };

/** Level places worn or built into the slope, as ellipses that the ground is drawn towards. */
export const LEVELS = [
  {
    what: 'bench by the stream',
    x: 528,
    y: 393,
    level: 162.7,
    tilt: [-0.015, 0.03],
    along: 44,
    across: 15,
    turn: -0.2,
  },
  {
    what: 'shoulder above the bench',
    x: 552,
    y: 518,
    level: 185,
    tilt: [0.02, 0.1],
    along: 30,
    across: 17,
    turn: -0.1,
  },
  { what: 'step high on the spur', x: 508, y: 552, level: 192.4, tilt: [0, 0.1], along: 34, across: 17, turn: 0.05 },
  { what: 'floor behind the knoll', x: 790, y: 566, level: 187, tilt: [0.04, 0.1], along: 30, across: 17, turn: 0.6 },
  { what: 'farm yard', x: 372, y: 168, level: 187.6, tilt: [-0.05, -0.06], along: 36, across: 24, turn: 0.15 },
];

/** The farm track: in from the south, past the yard, through the stream at a ford, and up the west flank of the knoll. */
export const TRACK = {
  curve: smoothCurve([
    [300, -40],
    [312, 60],
    [352, 130],
    [392, 182],
    [430, 236],
    [492, 282],
    [560, 318],
    [590, 348],
    [600, 372],
    [586, 412],
    [588, 452],
    [604, 490],
    [612, 532],
    [640, 566],
    [700, 578],
    [760, 590],
    [830, 640],
    [900, 700],
    [950, 790],
    [960, 960],
  ]),
  halfWidth: 1.7,
};
