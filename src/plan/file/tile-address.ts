/**
 * An address of map tiles: http or https, with a place for zoom, column and row each; rows counted from the south are `{-y}`.
 * No other placeholder, no name or password, no quotes, brackets or spaces.
 */
export const TILE_ADDRESS =
  /^(?=.*\{z\})(?=.*\{x\})(?=.*\{-?y\})https?:\/\/[^\s"'<>{}@\\/?#]+\/(?:[^\s"'<>{}\\]|\{(?:z|x|-?y)\})+$/;
